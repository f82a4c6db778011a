package length_test

import (
	"fmt"
	"math"
	"strconv"
	"testing"

	"flatwright/engine/length"
)

// Expected texts by hand; 25.4 mm to the inch.
func TestPrint(t *testing.T) {
	t.Parallel()
	for _, row := range []struct {
		mm                        float64
		f                         length.Format
		bare, print, feet, string string
	}{
		{1626, mm, "1626", "1626 mm", "1626 mm", "1626 mm"},
		{12.7, mm, "12.7", "12.7 mm", "12.7 mm", "12.7 mm"},
		{9.525, mm, "9.53", "9.53 mm", "9.53 mm", "9.53 mm"}, // a half goes up
		{1.005, mm, "1.01", "1.01 mm", "1.01 mm", "1.01 mm"}, // below the half in binary
		{0.05, mm, "0.05", "0.05 mm", "0.05 mm", "0.05 mm"},
		{19.999, mm, "20", "20 mm", "20 mm", "20 mm"},
		{100000, mm, "100000", "100000 mm", "100000 mm", "100000 mm"},
		{0.00412345, mm, "0.00412", "0.00412 mm", "0.00412 mm", "0.00412 mm"},
		{1e-7, mm, "0", "0 mm", "0 mm", "0 mm"},
		{0, mm, "0", "0 mm", "0 mm", "0 mm"},
		{-12.7, mm, "−12.7", "−12.7 mm", "−12.7 mm", "−12.7 mm"},
		{-1e-9, mm, "0", "0 mm", "0 mm", "0 mm"},

		{0, in16, "0", `0"`, `0"`, `0"`},
		{9.525, in16, "3/8", `3/8"`, `3/8"`, `3/8"`},
		{1635.125, in16, "64 3/8", `64 3/8"`, `5' 4 3/8"`, `64 3/8"`},
		{1635.125, length.Format{Imperial: true}, "64 3/8", `64 3/8"`, `5' 4 3/8"`, `64 3/8"`},
		{1635.125, length.Format{Imperial: true, Denominator: 7}, "64 3/8", `64 3/8"`, `5' 4 3/8"`, `64 3/8"`},
		{1524, in16, "60", `60"`, `5' 0"`, `60"`},
		{304.8, in16, "12", `12"`, `1' 0"`, `12"`},
		{304.7, in16, "12", `12"`, `1' 0"`, `12"`},
		{3048, in16, "120", `120"`, `10' 0"`, `10' 0"`},
		{3022.6, in16, "119", `119"`, `9' 11"`, `119"`},
		{-1635.125, in16, "−64 3/8", `−64 3/8"`, `−5' 4 3/8"`, `−64 3/8"`},
		{-9.525, in16, "−3/8", `−3/8"`, `−3/8"`, `−3/8"`},
		// 18 mm is 11.339/16, 22.68/32, 45.35/64 in.
		{18, in16, "11/16", `11/16"`, `11/16"`, `11/16"`},
		{18, in32, "23/32", `23/32"`, `23/32"`, `23/32"`},
		{18, in64, "45/64", `45/64"`, `45/64"`, `45/64"`},
		// A half of 1/16 in is 0.79375 mm: up. Just below it rounds to nothing.
		{0.79375, in16, "1/16", `1/16"`, `1/16"`, `1/16"`},
		{0.79, in16, "0.0311", `0.0311"`, `0.0311"`, `0.0311"`},
		{0.24, in16, "0.00945", `0.00945"`, `0.00945"`, `0.00945"`},
		// 100 m is 3937 in and 0.504/64: rounding up would pass the limit.
		{100000, in64, "3937", `3937"`, `328' 1"`, `328' 1"`},

		{math.NaN(), mm, "—", "—", "—", "—"},
		{math.Inf(1), in16, "—", "—", "—", "—"},
		{math.Inf(-1), in16, "—", "—", "—", "—"},
		{1e20, mm, "1e20", "1e20 mm", "1e20 mm", "1e20 mm"},
		{2.54e20, in16, "1e19", `1e19"`, `1e19"`, `1e19"`},
	} {
		for _, way := range []struct{ name, got, want string }{
			{"Bare", row.f.Bare(row.mm), row.bare},
			{"Print", row.f.Print(row.mm), row.print},
			{"PrintFeet", row.f.PrintFeet(row.mm), row.feet},
			{"String", row.f.String(row.mm), row.string},
		} {
			if way.got != way.want {
				t.Errorf("%+v.%s(%v) = %q; want %q", row.f, way.name, row.mm, way.got, way.want)
			}
		}
	}
}

// Every multiple of 1/16, 1/32 and 1/64 in up to 3 m comes back bit for bit.
// The second way to the value is decimal: 1/64 in is 0.396875 mm exactly, so n
// of them are n·396875 millionths of a millimetre.
func TestFractionsRoundTrip(t *testing.T) {
	t.Parallel()
	for _, f := range []length.Format{in16, in32, in64} {
		per := int64(64 / f.Denominator)
		rows := 0
		for n := int64(0); ; n++ {
			micro := n * per * 396875
			if micro > 3000_000000 {
				break
			}
			rows++
			v, err := strconv.ParseFloat(fmt.Sprintf("%d.%06d", micro/1_000_000, micro%1_000_000), 64)
			if err != nil {
				t.Fatal(err)
			}
			if got := length.FromInches(n, int64(f.Denominator)); got != v {
				t.Fatalf("FromInches(%d, %d) = %v; want %v mm", n, f.Denominator, got, v)
			}
			if !f.Exact(v) {
				t.Fatalf("%+v.Exact(%v) = false; want true", f, v)
			}
			for _, s := range []string{f.Bare(v), f.Print(v), f.PrintFeet(v), f.String(v)} {
				if got, err := length.Parse(s, f); err != nil || got != v {
					t.Fatalf("Parse(%q, %+v) = %v, %v; want %v mm", s, f, got, err, v)
				}
			}
		}
		// 3000/25.4 = 118.11 in.
		if want := int(118.11*float64(f.Denominator)) + 1; rows != want {
			t.Errorf("%d values at 1/%d in up to 3 m; want %d", rows, f.Denominator, want)
		}
	}
}

// Every hundredth of a millimetre up to 300 mm, and every tenth up to 3 m.
func TestDecimalsRoundTrip(t *testing.T) {
	t.Parallel()
	check := func(n, part int) {
		v := float64(n) / float64(part)
		if got, err := length.Parse(mm.Print(v), mm); err != nil || got != v || !mm.Exact(v) {
			t.Fatalf("Parse(%q) = %v, %v, Exact %v; want %v mm", mm.Print(v), got, err, mm.Exact(v), v)
		}
	}
	for n := range 30_001 {
		check(n, 100)
		check(n, 10)
	}
}

func TestExact(t *testing.T) {
	t.Parallel()
	for _, row := range []struct {
		mm   float64
		f    length.Format
		want bool
	}{
		{12.7, mm, true},
		{12.7, in16, true},
		{9.525, mm, false}, // three decimals
		{9.525, in16, true},
		{0.79375, in16, false}, // 1/32 in
		{0.79375, in32, true},
		{18, mm, true},
		{18, in64, false},
		{18.000_000_9, mm, true},
		{18.000_001_1, mm, false},
		{0, in16, true},
		{0.001, mm, true}, // printed as a decimal of three figures
		{0.0012345, mm, false},
		{-1, mm, false},
		{100_001, mm, false},
		{math.NaN(), mm, false},
		{math.Inf(1), in16, false},
	} {
		if got := row.f.Exact(row.mm); got != row.want {
			t.Errorf("%+v.Exact(%v) = %v; want %v", row.f, row.mm, got, row.want)
		}
	}
}

// A field is shown in one format after the other. Where Exact says so, reading
// the field gives the stored value; where it does not, a form that parsed the
// text would change the design, and Exact has warned of it. Reread keeps the
// stored bits through all of it.
func TestChangingUnitsAHundredTimes(t *testing.T) {
	t.Parallel()
	warned, quiet := 0, 0
	for _, stored := range []float64{18, 12.7, 1635.125, 9.525, 0.79375, 0.396875, 1626, 1000.0 / 3, math.Pi, 0.3, 5e-4, 0, 99999.99} {
		kept := stored
		for i := range 100 {
			f := formats[i%len(formats)]
			text := f.Bare(kept)
			got, err := length.Parse(text, f)
			if err != nil {
				t.Fatalf("Parse(%q, %+v): %v", text, f, err)
			}
			if same := math.Abs(got-stored) <= 1e-6; same != f.Exact(stored) {
				t.Fatalf("%v mm in %+v is read back as %v mm, and Exact says %v", stored, f, got, f.Exact(stored))
			}
			if f.Exact(stored) {
				quiet++
			} else {
				warned++
			}
			if kept, err = f.Reread(" "+text+" ", kept); err != nil || math.Float64bits(kept) != math.Float64bits(stored) {
				t.Fatalf("Reread(%q, %v) in %+v = %v, %v", text, stored, f, kept, err)
			}
		}
	}
	if warned == 0 || quiet == 0 {
		t.Errorf("%d values rounded and %d exact; the test needs both", warned, quiet)
	}
}

func TestReread(t *testing.T) {
	t.Parallel()
	const stored = 1635.3 // shown as 64 3/8
	for _, row := range []struct {
		text string
		want float64
	}{
		{"64 3/8", stored},
		{`64 3/8"`, stored},
		{`5' 4 3/8"`, stored},
		{"64-3/8", 1635.125}, // typed anew
		{"64 1/2", 1638.3},
	} {
		if got, err := in16.Reread(row.text, stored); err != nil || got != row.want {
			t.Errorf("Reread(%q, %v) = %v, %v; want %v mm", row.text, stored, got, err, row.want)
		}
	}
	if got, err := in16.Reread("64 3/", stored); err == nil || got != 0 {
		t.Errorf("Reread of half a fraction = %v, %v; want 0 and an error", got, err)
	}
}

func TestUnit(t *testing.T) {
	t.Parallel()
	if got := mm.Unit() + " " + in32.Unit(); got != "mm in" {
		t.Errorf("units are %q; want mm and in", got)
	}
}

// FuzzPrint takes any float64, also such as no text gives.
func FuzzPrint(f *testing.F) {
	for _, v := range []float64{0, 18, 1635.125, 0.79375, 0.7937499999, 1e-7, 1e-5, 99999.999, 100000, 1e13, 1e300, -3, math.NaN(), math.Inf(-1)} {
		f.Add(v)
	}
	f.Fuzz(func(t *testing.T, v float64) {
		for _, format := range formats {
			if 0 <= v && v <= 100_000 {
				checkPrinted(t, format, v)
			}
			for _, s := range []string{format.Bare(v), format.Print(v), format.PrintFeet(v), format.String(v), length.Number(v, 3)} {
				if len(s) == 0 || len(s) > 40 {
					t.Fatalf("%v prints as %q in %+v; want 1 to 40 bytes", v, s, format)
				}
			}
			for _, coarse := range []bool{false, true} {
				up, down := format.StepUp(v, coarse), format.StepDown(v, coarse)
				if !(0 <= down && down <= up && up <= 100_000) {
					t.Fatalf("steps from %v are %v down and %v up in %+v", v, down, up, format)
				}
			}
			if s := format.Snap(v); !(0 <= s && s <= 100_000) || s != format.Snap(s) {
				t.Fatalf("Snap(%v) = %v, again %v in %+v", v, s, format.Snap(s), format)
			}
		}
	})
}

func ExampleFormat() {
	inches := length.Format{Imperial: true, Denominator: 32}
	fmt.Println(inches.Print(1635.125), "=", inches.PrintFeet(1635.125))
	fmt.Println(inches.Print(18), inches.Exact(18))
	fmt.Println(length.Format{}.Print(18), length.Format{}.Exact(18))
	// Output:
	// 64 3/8" = 5' 4 3/8"
	// 23/32" false
	// 18 mm true
}
