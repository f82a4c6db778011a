package length_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"flatwright/engine/length"
)

var (
	mm   = length.Format{}
	in16 = length.Format{Imperial: true, Denominator: 16}
	in32 = length.Format{Imperial: true, Denominator: 32}
	in64 = length.Format{Imperial: true, Denominator: 64}

	formats = []length.Format{mm, in16, in32, in64}
)

// Every expected value is the length by hand with 25.4 mm to the inch, written
// out as a decimal: 64 3/8 in = 64.375 · 25.4 = 1635.125 mm.
func TestParseReads(t *testing.T) {
	t.Parallel()
	for _, row := range []struct {
		text string
		f    length.Format
		want float64
	}{
		// Bare numbers are in the unit of the format.
		{"1626", mm, 1626},
		{"1626", in16, 41300.4},
		{"0", mm, 0},
		{"0", in16, 0},
		{"12.7", mm, 12.7},
		{"007", mm, 7},
		{"5.", mm, 5},
		{".5", mm, 0.5},
		{"12,", mm, 12},
		{"64-3/8", in16, 1635.125},
		{"64 3/8", in16, 1635.125},
		{"64 3 / 8", in16, 1635.125},
		{"3/4", in16, 19.05},
		{"9/8", in16, 28.575},
		{"0 3/8", in16, 9.525},
		{"5 0/8", in16, 127},
		{"2.375", in16, 60.325},
		{"0.1", mm, 0.1},
		{"99999.99", mm, 99999.99},
		// A unit means the same in every format.
		{`64 3/8"`, mm, 1635.125},
		{`64-3/8"`, mm, 1635.125},
		{`3/4"`, mm, 19.05},
		{`2.375"`, mm, 60.325},
		{`1/3"`, mm, 8.46666666666666666667},
		{"2.5in", mm, 63.5},
		{"2.5 in.", mm, 63.5},
		{"2,5 in", mm, 63.5},
		{"1 inch", mm, 25.4},
		{"2 Inches", mm, 50.8},
		{"6'", mm, 1828.8},
		{"6 feet", mm, 1828.8},
		{"1 FOOT", mm, 304.8},
		{"0.5 ft", mm, 152.4},
		{"5 1/2'", mm, 1676.4},
		{"19mm", in16, 19},
		{"19 MM", in16, 19},
		{"1.6 m", in16, 1600},
		{"1,6 m", in16, 1600},
		{"1.6 M", in16, 1600},
		{"160 cm", in16, 1600},
		{"2 metres", in16, 2000},
		{"1 meter", in16, 1000},
		{"3 millimeters", in16, 3},
		{"3 centimetres", in16, 30},
		{"1/2 m", in16, 500},
		{"19 1/2 mm", in16, 19.5},
		{"100 m", in16, 100000},
		// Several units.
		{`5' 4 3/8"`, mm, 1635.125},
		{`5'4-3/8"`, mm, 1635.125},
		{`5'-4 3/8"`, mm, 1635.125},
		{`5'-4-3/8"`, mm, 1635.125},
		{`5' 4 3/8`, mm, 1635.125},
		{`5'4`, mm, 1625.6},
		{`5 ft 4`, in16, 1625.6},
		{"2 ft 3 in", mm, 685.8},
		{"2ft3in", mm, 685.8},
		{"2 ft. 3 in.", mm, 685.8},
		{`5' 3/8"`, mm, 1533.525},
		{`5' 0"`, mm, 1524},
		{`1' 11.5"`, mm, 596.9},
		{"1 m 20 cm", in16, 1200},
		{"1m 20cm 5mm", in16, 1205},
		{"1 m 999,9 mm", in16, 1999.9},
		// Decimal commas that can be nothing else.
		{"0,500", mm, 0.5},
		{",500", mm, 0.5},
		{"1234,500", mm, 1234.5},
		{"1,50", mm, 1.5},
		{"1.500", mm, 1.5},
		// Signs of Unicode.
		{"½", in16, 12.7},
		{"⅜\"", mm, 9.525},
		{"5⅜", in16, 136.525},
		{"5 ⅜", in16, 136.525},
		{"5-⅜", in16, 136.525},
		{"5' 4⅜″", mm, 1635.125},
		{"64 3⁄8", in16, 1635.125},
		{"5′ 4 3⁄8″", mm, 1635.125},
		{"5’ 4 3/8”", mm, 1635.125},
		{"5’4’’", mm, 1625.6},
		{"5' 4''", mm, 1625.6},
		{"5′4′′", mm, 1625.6},
		{"64–3/8", in16, 1635.125},
		{"5\u2032\u00a04\u20093/8\u2033", mm, 1635.125},
		{"19\u00a0mm", in16, 19},
		{"1,6\u202fm", in16, 1600},
		{"\ufeff 19\tmm \u200b\n", in16, 19},
	} {
		got, err := length.Parse(row.text, row.f)
		if err != nil || got != row.want {
			t.Errorf("Parse(%q, %+v) = %v, %v; want %v mm", row.text, row.f, got, err, row.want)
		}
	}
}

func TestParseRefuses(t *testing.T) {
	t.Parallel()
	for _, row := range []struct {
		text string
		f    length.Format
		kind length.Kind
		want string // part of what it says
	}{
		{"", mm, length.Empty, "Type a length, such as 1626, 1.6 m or 64 3/8\"."},
		{"  \u00a0", in16, length.Empty, "such as 64 3/8, 5' 4 3/8\" or 1626 mm."},
		{"-5", mm, length.OutOfRange, "lengths are not negative"},
		{"−5 mm", mm, length.OutOfRange, "lengths are not negative"},
		{"- 3/8", in16, length.OutOfRange, "lengths are not negative"},
		{"9999999 m", mm, length.OutOfRange, "more than 100 m"},
		{"100.001 m", mm, length.OutOfRange, "more than 100 m"},
		{"100000.0000001", mm, length.OutOfRange, "more than 100 m"},
		{"4000", in16, length.OutOfRange, "more than 100 m"},
		{strings.Repeat("9", 99), mm, length.OutOfRange, "more than 100 m"},
		{strings.Repeat("9", 101), mm, length.Malformed, "too long"},

		{"5-4 3/8", in16, length.Ambiguous, `5 and then 4 3/8: feet and inches? Type 5' 4 3/8" if so`},
		{"5-4 3/8", mm, length.Ambiguous, `5 and then 4 3/8: feet and inches? Type 5' 4 3/8" if so`},
		{"5-4-3/8", in16, length.Ambiguous, "5 and then 4 3/8: feet and inches?"},
		{"5 4", in16, length.Ambiguous, `5 and then 4: feet and inches? Type 5' 4" if so`},
		{`5 4"`, in16, length.Ambiguous, `Type 5' 4" if so`},
		{"5 4⅜", in16, length.Ambiguous, "5 and then 4 3/8"},
		{"1 200", mm, length.Ambiguous, "1 and then 200, two numbers"},
		{"1.5 4", mm, length.Ambiguous, "1.5 and then 4, two numbers"},
		{"½3", in16, length.Ambiguous, "1/2 and then 3, two numbers"},
		{"64 - 3/8", in16, length.Ambiguous, "may be 64 and 3/8, or 64 less 3/8. Type 64 3/8"},
		{"64 -3/8", in16, length.Ambiguous, "64 less 3/8"},
		{"64- 3/8", in16, length.Ambiguous, "64 less 3/8"},
		{"64 - 3", in16, length.Ambiguous, "subtraction"},
		{`5' - 4"`, in16, length.Ambiguous, "subtraction"},
		{`5"-4"`, in16, length.Ambiguous, "subtraction"},
		{"2 m-4", mm, length.Ambiguous, "subtraction"},
		{"1,500", mm, length.Ambiguous, "could be 1.5 or 1500. Type 1.5 or 1500."},
		{"10,500", mm, length.Ambiguous, "could be 10.5 or 10500"},
		{"1,000 m", mm, length.Ambiguous, "could be 1 or 1000"},
		{"1,234.5", mm, length.Ambiguous, "Type 1234.5 if that is meant"},
		{"1.234,5", mm, length.Ambiguous, "Type 1234.5 if that is meant"},
		{"1,234,567", mm, length.Ambiguous, "without signs between groups"},
		{"1.2.3", mm, length.Ambiguous, "more than one decimal sign"},
		{"1.2.3,4.5", mm, length.Ambiguous, "more than one decimal sign"},
		{"3/4", mm, length.Ambiguous, `Type 3/4" for inches`},
		{"64-3/8", mm, length.Ambiguous, `Type 64 3/8" for inches`},
		{"1 m 20", mm, length.Ambiguous, "20 without a unit"},
		{`5" 4`, in16, length.Ambiguous, "4 without a unit"},
		{`5" 4'`, in16, length.Ambiguous, `smaller unit first. Type 4' 5" if that is meant`},
		{"20 cm 1 m", mm, length.Ambiguous, "Type 1 m 20 cm if"},
		{`5" 4"`, in16, length.Ambiguous, `same unit twice, 5" and 4"`},
		{"1 m 2 in", mm, length.Ambiguous, "mixes metric"},
		{"7 9/8", in16, length.Ambiguous, "a whole or more. Type 8 1/8 if"},
		{"7 8/8", in16, length.Ambiguous, "Type 8 if"},
		{`5' 14"`, in16, length.Ambiguous, `14" is a foot or more`},
		{`5' 12"`, in16, length.Ambiguous, "whole length in inches"},
		{"1 m 120 cm", mm, length.Ambiguous, "120 cm is a metre or more"},
		{"2 ft.3 in", mm, length.Ambiguous, "Type a space after the unit"},

		{"1/0", in16, length.Malformed, "divides by zero. Type a number from 1 below the bar, such as 1/16"},
		{"5 3/00", in16, length.Malformed, "divides by zero"},
		{"3/4/5", in16, length.Malformed, "not one whole number over another"},
		{"3/4½", in16, length.Malformed, "not one whole number over another"},
		{"1.5/2", in16, length.Malformed, "not one whole number over another"},
		{"1/2,5", in16, length.Malformed, "not one whole number over another"},
		{"3//4", in16, length.Malformed, "not one whole number over another"},
		{"3/in", in16, length.Malformed, "not one whole number over another"},
		{"3/", in16, length.Malformed, "ends at the fraction bar. Type the number below the bar too, such as 3/16"},
		{"/4", in16, length.Malformed, "“/” where a number should stand"},
		{"½/2", in16, length.Malformed, "does not stand between two whole numbers"},
		{`5"/4`, in16, length.Malformed, "“/” where a number should stand"},
		{"2.5 3/8", in16, length.Malformed, "a decimal, 2.5, and then a fraction, 3/8"},
		{"1.5 m 20 cm", mm, length.Malformed, "1.5 m is not a whole number, yet 20 cm follows"},
		{`5 1/2' 4"`, in16, length.Malformed, `5 1/2' is not a whole number`},
		{"5-", in16, length.Malformed, "ends where a number should follow"},
		{"5'-", in16, length.Malformed, "ends where a number should follow"},
		{"-", in16, length.Malformed, "“-” where a number should stand"},
		{"5 3/8 1/0", in16, length.Malformed, "divides by zero"},
		{"5 1/0", in16, length.Malformed, "divides by zero"},
		{".", mm, length.Malformed, "without digits"},
		{"5 ,", mm, length.Malformed, "without digits"},
		{"abc", mm, length.Malformed, "“abc” where a number should stand"},
		{"NaN", mm, length.Malformed, "where a number should stand"},
		{"Inf", mm, length.Malformed, "where a number should stand"},
		{"in", mm, length.Malformed, "where a number should stand"},
		{"5 mm mm", mm, length.Malformed, "where a number should stand"},
		{"5'''", mm, length.Malformed, "where a number should stand"},
		{"1e9", mm, length.Malformed, "exponent"},
		{"5 yd", mm, length.Malformed, "“yd” is not a unit known here. Type mm, cm, m, in"},
		{"3/4 x 5", in16, length.Malformed, "“x” is not a unit"},
		{"5 * 3", mm, length.Malformed, "contains “*”"},
		{"5³⁄₈", in16, length.Malformed, "contains “³”"},
		{"5\xff", mm, length.Malformed, "no place in a length"},
	} {
		got, err := length.Parse(row.text, row.f)
		var e *length.Error
		if !errors.As(err, &e) {
			t.Errorf("Parse(%q, %+v) = %v, %v; want an *Error", row.text, row.f, got, err)
			continue
		}
		if got != 0 || e.Kind != row.kind || e.Text != row.text || !strings.Contains(err.Error(), row.want) {
			t.Errorf("Parse(%q, %+v) = %v, kind %d, %q; want 0, kind %d, ... %s ...", row.text, row.f, got, e.Kind, err, row.kind, row.want)
		}
		for _, s := range []string{e.Understood, e.Instead} {
			if !strings.HasSuffix(s, ".") && !strings.HasSuffix(s, "?") {
				t.Errorf("Parse(%q): %q is no sentence", row.text, s)
			}
		}
	}
}

// Every length that an error proposes in the form "Type X if ..." must be read.
func TestProposalsAreRead(t *testing.T) {
	t.Parallel()
	for text, want := range map[string]float64{
		"5-4 3/8":   1635.125,
		"5 4":       1625.6,
		`5" 4'`:     4*304.8 + 5*25.4,
		"20 cm 1 m": 1200,
		"7 9/8":     206.375, // 8.125 · 25.4
		"1,234.5":   31356.3, // in inches
	} {
		_, err := length.Parse(text, in16)
		var e *length.Error
		if !errors.As(err, &e) {
			t.Errorf("Parse(%q) gave %v; want an *Error", text, err)
			continue
		}
		proposal, _, _ := strings.Cut(strings.TrimPrefix(e.Instead, "Type "), " if ")
		if got, err := length.Parse(proposal, in16); err != nil || math.Abs(got-want) > 1e-9 {
			t.Errorf("%q proposes %q, which is read as %v, %v; want %v mm", text, proposal, got, err, want)
		}
	}
}

func TestErrorShowsOnlyWhatPrints(t *testing.T) {
	t.Parallel()
	_, err := length.Parse("a\x00b\n"+strings.Repeat("é", 45), mm)
	if want := "“ab " + strings.Repeat("é", 36) + "…”"; err == nil || !strings.Contains(err.Error(), want) {
		t.Errorf("error is %v; want it to contain %s", err, want)
	}
}

func FuzzParse(f *testing.F) {
	for _, text := range []string{
		`5' 4 3/8"`, "64-3/8", "1,6 m", "1/0", "5-4 3/8", "1,500", "5⅜", "1 m 20 cm", "1e9", "99999.999 mm", "100 m",
		"1/9999", "3937 1/128\"", "0.0000001", "1.2.3,4", "'", "5’4’’", "-", "\xff", "328' 1\"", "0,0001 m",
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, format := range formats {
			got, err := length.Parse(text, format)
			if err != nil {
				var e *length.Error
				if !errors.As(err, &e) || e.Understood == "" || e.Instead == "" || got != 0 {
					t.Fatalf("Parse(%q, %+v) = %v, %#v; want 0 and an *Error in words", text, format, got, err)
				}
				continue
			}
			if !(0 <= got && got <= 100_000) {
				t.Fatalf("Parse(%q, %+v) = %v mm; want 0 to 100000", text, format, got)
			}
			checkPrinted(t, format, got)
		}
	})
}

// checkPrinted prints v in every way, reads it back, and wants it within half
// of the smallest part shown; a whole part at the limit of 100 m, where
// rounding up would leave the range.
func checkPrinted(t *testing.T, f length.Format, v float64) {
	t.Helper()
	half := 0.005
	if f.Imperial {
		half = 25.4 / float64(f.Denominator) / 2
	}
	if v > 100_000-2*half {
		half *= 2
	}
	for _, s := range []string{f.Print(v), f.PrintFeet(v), f.String(v), f.Bare(v)} {
		got, err := length.Parse(s, f)
		if err != nil || math.Abs(got-v) > half+1e-6 {
			t.Fatalf("%v mm prints as %q in %+v, read as %v, %v; want it within %v mm", v, s, f, got, err, half)
		}
	}
}

func ExampleParse() {
	inches := length.Format{Imperial: true, Denominator: 16}
	for _, text := range []string{`5' 4 3/8"`, "64-3/8", "1,6 m", "5-4 3/8", "1,500"} {
		mm, err := length.Parse(text, inches)
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Println(mm, "mm")
	}
	// Output:
	// 1635.125 mm
	// 1635.125 mm
	// 1600 mm
	// “5-4 3/8” reads as 5 and then 4 3/8: feet and inches? Type 5' 4 3/8" if so, or one number.
	// “1,500” could be 1.5 or 1500. Type 1.5 or 1500.
}
