package length

import (
	"math/big"
	"strings"
)

// amount reads a number, a fraction, or a whole number with a fraction.
func (r *reader) amount() (amount, error) {
	t := r.peek()
	switch t.kind {
	case vulgar:
		r.at++
		value, _ := new(big.Rat).SetString(t.text)
		return amount{value: value, text: t.text, fraction: true}, nil
	case number:
		if r.ahead(1).kind == slash {
			return r.fraction()
		}
	case end:
		return amount{}, r.fail(Malformed, quote(r.text)+" ends where a number should follow.", "Type a length, such as "+r.f.example()+".")
	default:
		return amount{}, r.fail(Malformed, quote(r.text)+" has "+quote(t.text)+" where a number should stand.", "Type a length, such as "+r.f.example()+".")
	}
	a, err := r.decimal()
	if err != nil || !r.fractionFollows() {
		return a, err
	}
	if r.peek().kind == dash {
		r.at++
	}
	part, err := r.amount()
	switch {
	case err != nil:
		return amount{}, err
	case a.decimal:
		return amount{}, r.fail(Malformed, quote(r.text)+" has a decimal, "+a.text+", and then a fraction, "+part.text+".", "Type either a decimal or a fraction.")
	case part.value.Cmp(big.NewRat(1, 1)) >= 0:
		sum := new(big.Rat).Add(a.value, part.value)
		return amount{}, r.fail(Ambiguous, "The fraction in "+a.text+" "+part.text+" is a whole or more.", "Type "+mixed(sum)+" if that is meant.")
	}
	return amount{value: a.value.Add(a.value, part.value), text: a.text + " " + part.text, fraction: true}, nil
}

// mixed writes a value of one or more as a whole number and a fraction.
func mixed(v *big.Rat) string {
	whole, rest := new(big.Int).QuoRem(v.Num(), v.Denom(), new(big.Int))
	if rest.Sign() == 0 {
		return whole.String()
	}
	return whole.String() + " " + new(big.Rat).SetFrac(rest, v.Denom()).String()
}

// fractionFollows reports whether the next tokens are a fraction that belongs
// to the whole number just read: after a space, a tight hyphen or nothing.
func (r *reader) fractionFollows() bool {
	n := 0
	if r.tight() {
		n = 1
	}
	return r.ahead(n).kind == vulgar || r.ahead(n).kind == number && r.ahead(n+1).kind == slash
}

// fraction reads two whole numbers with a bar between them.
func (r *reader) fraction() (amount, error) {
	over, under := r.peek().text, r.ahead(2)
	r.at += 2
	if under.kind == end {
		return amount{}, r.fail(Malformed, quote(r.text)+" ends at the fraction bar.", "Type the number below the bar too, such as "+over+"/16.")
	}
	r.at++
	switch {
	case under.kind != number || strings.ContainsAny(over+under.text, ".,") || r.peek().kind == slash || r.peek().kind == vulgar:
		return amount{}, r.fail(Malformed, "The fraction in "+quote(r.text)+" is not one whole number over another.", "Type one fraction, such as 3/4.")
	case strings.Trim(under.text, "0") == "":
		return amount{}, r.fail(Malformed, "The fraction in "+quote(r.text)+" divides by zero.", "Type a number from 1 below the bar, such as "+over+"/16.")
	}
	top, _ := new(big.Int).SetString(over, 10)
	bottom, _ := new(big.Int).SetString(under.text, 10)
	return amount{value: new(big.Rat).SetFrac(top, bottom), text: over + "/" + under.text, fraction: true}, nil
}

// decimal reads digits with at most one decimal sign, a point or a comma.
func (r *reader) decimal() (amount, error) {
	typed := r.peek().text
	r.at++
	points, commas := strings.Count(typed, "."), strings.Count(typed, ",")
	if points+commas == len(typed) {
		return amount{}, r.fail(Malformed, quote(r.text)+" has "+quote(typed)+" without digits.", "Type a length, such as "+r.f.example()+".")
	}
	before, after, decimal := strings.Cut(strings.ReplaceAll(typed, ",", "."), ".")
	switch {
	case points+commas > 1:
		return amount{}, r.fail(Ambiguous, quote(typed)+" has more than one decimal sign.", r.ungrouped(typed))
	case commas == 1 && 0 < len(before) && len(before) <= 3 && before[0] != '0' && len(after) == 3:
		return amount{}, r.fail(Ambiguous, quote(typed)+" could be "+tidy(before, after)+" or "+before+after+".",
			"Type "+tidy(before, after)+" or "+before+after+".")
	}
	value, _ := new(big.Rat).SetString("0" + before + "." + after + "0")
	return amount{value: value, text: tidy(before, after), decimal: decimal && after != ""}, nil
}

// tidy writes a decimal with a point and without zeros at its end.
func tidy(before, after string) string {
	if before == "" {
		before = "0"
	}
	if after = strings.TrimRight(after, "0"); after == "" {
		return before
	}
	return before + "." + after
}

// ungrouped says what to type instead of a number with several decimal signs,
// where that can be told: the last sign is a decimal sign if it occurs once.
func (r *reader) ungrouped(typed string) string {
	last := strings.LastIndexAny(typed, ".,")
	before, after := typed[:last], typed[last+1:]
	sign := typed[last : last+1]
	if strings.Contains(before, sign) {
		return "Type one number, without signs between groups of digits."
	}
	return "Type " + tidy(strings.NewReplacer(".", "", ",", "").Replace(before), after) + " if that is meant."
}
