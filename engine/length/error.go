package length

import (
	"strings"
	"unicode"
)

// Kind sorts the reasons why a text is not read as a length.
type Kind int

const (
	// Empty means that nothing is typed yet.
	Empty Kind = iota
	// Malformed means that the text is no length, or not yet a whole one.
	Malformed
	// Ambiguous means that the text can be read in more than one way.
	Ambiguous
	// OutOfRange means a length that is understood but negative or over [Max].
	OutOfRange
)

// Error tells in words why [Parse] refused a text. It is meant to be shown
// beside the field as it is.
type Error struct {
	Kind Kind
	// Text is what was typed.
	Text string
	// Understood says what was made of the text, as a sentence.
	Understood string
	// Instead says what to type, as a sentence.
	Instead string
}

// Error returns the two sentences one after the other.
func (e *Error) Error() string { return e.Understood + " " + e.Instead }

// quote returns text between quotation marks, without signs that do not print
// and cut to a length that fits beside a field.
func quote(text string) string {
	const most = 40
	shown := []rune(strings.TrimSpace(strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r):
			return ' '
		case !unicode.IsPrint(r):
			return -1
		}
		return r
	}, text)))
	if len(shown) > most {
		shown = append(shown[:most-1], '…')
	}
	return "“" + string(shown) + "”"
}

// example returns lengths to type, beginning with those of the Format.
func (f Format) example() string {
	if f.Imperial {
		return `64 3/8, 5' 4 3/8" or 1626 mm`
	}
	return `1626, 1.6 m or 64 3/8"`
}
