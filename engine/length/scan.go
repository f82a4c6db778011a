package length

import (
	"math/big"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// longest is how many bytes of text are looked at: more than any length needs.
const longest = 100

type tokenKind int

const (
	end tokenKind = iota
	number
	vulgar
	slash
	dash
	word
)

// token is one piece of the text. For a vulgar fraction sign text is num/den.
type token struct {
	kind   tokenKind
	text   string
	spaced bool // white space stands before it
}

// vulgars are the fraction signs of Unicode with both numbers written out.
var vulgars = map[rune]string{
	'½': "1/2", '⅓': "1/3", '⅔': "2/3", '¼': "1/4", '¾': "3/4", '⅕': "1/5", '⅖': "2/5", '⅗': "3/5", '⅘': "4/5",
	'⅙': "1/6", '⅚': "5/6", '⅐': "1/7", '⅛': "1/8", '⅜': "3/8", '⅝': "5/8", '⅞': "7/8", '⅑': "1/9", '⅒': "1/10",
}

// plain turns the many signs for one thing into one, and drops signs without
// width that come along when text is copied.
var plain = strings.NewReplacer(
	"\u200b", "", "\u200c", "", "\u200d", "", "\u2060", "", "\ufeff", "",
	"''", `"`, "′′", `"`, "’’", `"`, "‘‘", `"`,
	"″", `"`, "“", `"`, "”", `"`, "„", `"`, "‟", `"`, "ʺ", `"`,
	"′", "'", "’", "'", "‘", "'", "‛", "'", "ʹ", "'", "´", "'", "`", "'",
	"⁄", "/", "∕", "/",
	"−", "-", "–", "-", "—", "-", "‐", "-", "‑", "-", "‒", "-",
)

// unit is a unit of length: its size in millimetres, whether it is of the inch
// family, and its names.
type unit struct {
	size                   *big.Rat
	imperial               bool
	sign, singular, plural string
	others                 []string
}

// Feet and inches by the agreement named at [Inch]; the others are decimal.
var (
	foot  = &unit{big.NewRat(3048, 10), true, "'", "foot", "feet", []string{"ft"}}
	inch  = &unit{big.NewRat(254, 10), true, `"`, "inch", "inches", []string{"in"}}
	milli = &unit{big.NewRat(1, 1), false, "mm", "millimetre", "millimetres", []string{"millimeter", "millimeters"}}
	centi = &unit{big.NewRat(10, 1), false, "cm", "centimetre", "centimetres", []string{"centimeter", "centimeters"}}
	metre = &unit{big.NewRat(1000, 1), false, "m", "metre", "metres", []string{"meter", "meters"}}

	units = []*unit{foot, inch, milli, centi, metre}
)

// named returns the unit of that name in any case, or nil.
func named(name string) *unit {
	name = strings.ToLower(name)
	for _, u := range units {
		if name == u.sign || name == u.singular || name == u.plural || slices.Contains(u.others, name) {
			return u
		}
	}
	return nil
}

// scan cuts the text into tokens and adds one of kind end.
func (r *reader) scan() error {
	if len(r.text) > longest {
		return r.fail(Malformed, quote(r.text)+" is too long to be one length.", "Type one length, such as "+r.f.example()+".")
	}
	rest := plain.Replace(r.text)
	spaced := false
	add := func(kind tokenKind, text string) {
		r.tokens = append(r.tokens, token{kind, text, spaced})
		spaced = false
	}
	for rest != "" {
		c, size := utf8.DecodeRuneInString(rest)
		switch {
		case unicode.IsSpace(c):
			spaced = true
		case c == '/':
			add(slash, "/")
		case c == '-':
			add(dash, "-")
		case c == '\'' || c == '"':
			add(word, string(c))
		case vulgars[c] != "":
			add(vulgar, vulgars[c])
		case isNumeral(c):
			size = span(rest, isNumeral)
			add(number, rest[:size])
		case unicode.IsLetter(c):
			size = span(rest, unicode.IsLetter)
			add(word, rest[:size])
			var err error
			if size, err = r.abbreviation(rest, size); err != nil {
				return err
			}
		default:
			return r.fail(Malformed, quote(r.text)+" contains "+quote(rest[:size])+", which has no place in a length.",
				"Type one length, such as "+r.f.example()+".")
		}
		rest = rest[size:]
	}
	add(end, "")
	return nil
}

// abbreviation returns size, or one more where a full stop ends the unit whose
// letters are the first size bytes of rest. Before a digit the stop might also
// be a decimal point.
func (r *reader) abbreviation(rest string, size int) (int, error) {
	if !strings.HasPrefix(rest[size:], ".") {
		return size, nil
	}
	if c, _ := utf8.DecodeRuneInString(rest[size+1:]); isNumeral(c) {
		return 0, r.fail(Ambiguous, "The point in "+quote(r.text)+" may end the unit or begin a decimal.", "Type a space after the unit.")
	}
	return size + 1, nil
}

func isNumeral(c rune) bool { return '0' <= c && c <= '9' || c == '.' || c == ',' }

// span returns how many bytes at the start of s are runes that belong.
func span(s string, belongs func(rune) bool) int {
	if i := strings.IndexFunc(s, func(c rune) bool { return !belongs(c) }); i >= 0 {
		return i
	}
	return len(s)
}
