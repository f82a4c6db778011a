package length

import (
	"math/big"
	"strings"
)

// Parse reads text as one length and returns it in millimetres, between 0 and
// [Max]. A number without a unit is in the unit of f. The result is the float64
// nearest to the length as written.
//
// The package comment lists what is read and what is refused. Every error is
// an [*Error].
func Parse(text string, f Format) (float64, error) {
	r := &reader{text: text, f: f}
	if err := r.scan(); err != nil {
		return 0, err
	}
	terms, err := r.terms()
	if err != nil {
		return 0, err
	}
	sum, err := r.sum(terms)
	if err != nil {
		return 0, err
	}
	if sum.Cmp(big.NewRat(Max, 1)) > 0 {
		return 0, r.fail(OutOfRange, quote(text)+" is more than 100 m (328 ft).", "Type a shorter length, or check the unit.")
	}
	mm, _ := sum.Float64()
	return mm, nil
}

// reader walks over the tokens of one text.
type reader struct {
	text   string
	f      Format
	tokens []token
	at     int
}

// amount is a number as typed. Its text is the number in one spelling.
type amount struct {
	value    *big.Rat
	text     string
	fraction bool // it was written with a fraction bar
	decimal  bool // it was written with a decimal sign
}

func (a amount) whole() bool { return !a.fraction && !a.decimal }

// term is an amount and its unit.
type term struct {
	amount
	unit *unit
}

func (t term) text() string {
	name := t.unit.sign
	if !t.unit.imperial {
		name = " " + name
	}
	return t.amount.text + name
}

func (t term) size() *big.Rat { return new(big.Rat).Mul(t.value, t.unit.size) }

func (r *reader) fail(kind Kind, understood, instead string) error {
	return &Error{Kind: kind, Text: r.text, Understood: understood, Instead: instead}
}

func (r *reader) peek() token { return r.tokens[r.at] }

// ahead returns the token n places further on, or the end.
func (r *reader) ahead(n int) token {
	return r.tokens[min(r.at+n, len(r.tokens)-1)]
}

// tight reports whether the next token is a hyphen that touches both sides.
func (r *reader) tight() bool {
	return r.peek().kind == dash && !r.peek().spaced && !r.ahead(1).spaced
}

// terms reads the whole text as amounts with units.
func (r *reader) terms() ([]term, error) {
	switch {
	case r.peek().kind == end:
		return nil, r.fail(Empty, "Nothing is typed yet.", "Type a length, such as "+r.f.example()+".")
	case r.peek().kind == dash && r.ahead(1).kind != end:
		return nil, r.fail(OutOfRange, quote(r.text)+" begins with a minus sign, and lengths are not negative.", "Type the length without the sign.")
	}
	var terms []term
	for {
		a, err := r.amount()
		if err != nil {
			return nil, err
		}
		u, err := r.unit()
		if err != nil {
			return nil, err
		}
		if u == nil {
			if u, err = r.bare(a, terms); err != nil {
				return nil, err
			}
		}
		terms = append(terms, term{a, u})
		switch {
		case r.peek().kind == end:
			return terms, nil
		case r.tight() && u == foot:
			r.at++ // 5'-4", as on drawings
		case r.peek().kind == dash:
			return nil, r.subtraction()
		}
	}
}

// unit reads a unit if one comes next; nil without an error means none.
func (r *reader) unit() (*unit, error) {
	t := r.peek()
	if t.kind != word {
		return nil, nil
	}
	r.at++
	u := named(t.text)
	switch {
	case u != nil:
		return u, nil
	case strings.EqualFold(t.text, "e"):
		return nil, r.fail(Malformed, quote(r.text)+" looks like a number with an exponent.", "Write the number out, such as "+r.f.example()+".")
	}
	return nil, r.fail(Malformed, quote(t.text)+" is not a unit known here.", `Type mm, cm, m, in, ", ft or '.`)
}

// bare returns the unit of an amount that has none, standing after before.
func (r *reader) bare(a amount, before []term) (*unit, error) {
	switch {
	case r.peek().kind != end:
		return nil, r.juxtaposed(a)
	case len(before) > 0 && before[len(before)-1].unit == foot:
		return inch, nil
	case len(before) > 0:
		return nil, r.fail(Ambiguous, quote(r.text)+" ends in "+a.text+" without a unit.", "Type a unit after "+a.text+" too.")
	case r.f.Imperial:
		return inch, nil
	case a.fraction:
		return nil, r.fail(Ambiguous, quote(r.text)+" is a fraction without a unit, and the unit here is mm.",
			"Type "+a.text+`" for inches, or millimetres as a decimal.`)
	}
	return milli, nil
}

// juxtaposed explains an amount that is followed by something other than a
// unit: 5 4, 5-4 3/8 or 64 - 3/8.
func (r *reader) juxtaposed(a amount) error {
	if r.peek().kind == slash {
		return r.fail(Malformed, "The fraction bar in "+quote(r.text)+" does not stand between two whole numbers.", "Type one fraction, such as 3/4.")
	}
	hyphen := r.peek().kind == dash
	minus := hyphen && !r.tight()
	if hyphen {
		r.at++
	}
	next, err := r.amount()
	switch {
	case err != nil:
		return err
	case minus && a.whole() && next.fraction:
		return r.fail(Ambiguous, quote(r.text)+" may be "+a.text+" and "+next.text+", or "+a.text+" less "+next.text+".",
			"Type "+a.text+" "+next.text+" for the first, or the difference itself.")
	case minus:
		return r.subtraction()
	case a.whole() && next.value.Cmp(big.NewRat(12, 1)) < 0:
		return r.fail(Ambiguous, quote(r.text)+" reads as "+a.text+" and then "+next.text+": feet and inches?",
			"Type "+a.text+"' "+next.text+"\" if so, or one number.")
	}
	return r.fail(Ambiguous, quote(r.text)+" reads as "+a.text+" and then "+next.text+", two numbers.", "Type one number, or a unit after each.")
}

func (r *reader) subtraction() error {
	return r.fail(Ambiguous, "The hyphen in "+quote(r.text)+" may be meant as a subtraction.",
		"Type the length itself; feet and inches go like 5' 4 3/8\".")
}

// sum adds the terms once their order makes sense.
func (r *reader) sum(terms []term) (*big.Rat, error) {
	sum := terms[0].size()
	for i, t := range terms[1:] {
		before := terms[i]
		switch order := t.unit.size.Cmp(before.unit.size); {
		case t.unit.imperial != before.unit.imperial:
			return nil, r.fail(Ambiguous, quote(r.text)+" mixes metric units with feet or inches.", "Type the whole length in one of them.")
		case order == 0:
			return nil, r.fail(Ambiguous, quote(r.text)+" gives the same unit twice, "+before.text()+" and "+t.text()+".", "Type one length.")
		case order > 0:
			return nil, r.fail(Ambiguous, quote(r.text)+" has the smaller unit first.", "Type "+t.text()+" "+before.text()+" if that is meant.")
		case !before.whole():
			return nil, r.fail(Malformed, before.text()+" is not a whole number, yet "+t.text()+" follows it.", "Type the length in one unit.")
		case t.size().Cmp(before.unit.size) >= 0:
			return nil, r.fail(Ambiguous, t.text()+" is a "+before.unit.singular+" or more, so "+quote(r.text)+" looks like a slip.",
				"Type the whole length in "+t.unit.plural+" if it is none.")
		}
		sum.Add(sum, t.size())
	}
	return sum, nil
}
