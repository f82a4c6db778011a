package engine

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"flatwright/engine/length"
)

// By hand: the right rail of a top with a load on its left overhang carries half of the
// weight less 200 N, so two screws there are pulled with 1.5 · 200 N less half of the
// weight, or a little more where the top curls. 5 mm of plywood of 680 kg/m³ (5 % scatter)
// counts as the densest softwood, 500 kg/m³: .52/√5·20^-.1·500^.8·5·20·5/8, times 2^.9, .9/1.3.
func TestScrewsOfSupports(t *testing.T) {
	t.Parallel()
	d := tippedTop(true)
	d.Supports.Screws = Screws{Number: 2, Diameter: 5, Depth: 20}
	r := refined(t, d, Interactive)
	mo, _ := modelOf(d, true)
	g := marginOf(t, r.Margins, "screws.support")
	hold := 0.52 / math.Sqrt(5) * math.Pow(20, -0.1) * math.Pow(500, 0.8) * 5 * 20 * 5 / 8 * math.Pow(2, 0.9)
	near(t, "capacity", g.Capacity, hold*0.9/1.3, 1e-9)
	want := 1.5*200 - mo.weight/2
	if !(g.Demand > want-8 && g.Demand < 1.3*want) || g.Unit != "N" || g.X != 1300 || !strings.Contains(g.Where, "right rail") {
		t.Errorf("asked %+v; want about %.1f N at the right rail", g, want)
	}
	near(t, "margin", g.Value, g.Capacity/g.Demand, 1e-12)
	// What the rail presses more than its middle says is pulled besides.
	if pull := r.Whole.Cases[0].Reactions[1].Pull; g.Demand < 1.5*pull-1e-6 {
		t.Errorf("asked %.2f N; as pulled without weight's help %.2f N", g.Demand, 1.5*pull)
	}
	line := d.FastenedLine(r.Whole, length.Format{})
	if !strings.Contains(line, "a margin of their own") || !strings.Contains(line, "curved over a support") {
		t.Errorf("told as %q", line)
	}
	// Not told, or loose: not checked.
	for name, e := range map[string]Design{"no number": d, "loose": d} {
		if name == "loose" {
			e.Supports.Fastened, e.Cases = false, plainTop().Cases
		} else {
			e.Supports.Screws.Number = 0
		}
		for _, m := range refined(t, e, Interactive).Margins {
			if m.Code == "screws.support" {
				t.Errorf("%s: %+v", name, m)
			}
		}
	}
}

// Over a foot in the middle of a bay only the bottom skin's 6 mm hold, however long
// the screw; bolts with washers of 24 mm press on the top skin with 3 · 6.5 MPa on
// π/4·(24² − 9²) mm².
func TestWhatScrewsHold(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Supports = Supports{Kind: OwnFeet, Bearing: 40, Fastened: true, Screws: Screws{1, 5, 30, 0},
		Feet: []Foot{{X: 118, Y: 92}, {X: 1500, Y: 100}, {X: 1500, Y: 600}, {X: 118, Y: 608}}}
	d.Cases[0].Loads[0].X, d.Cases[0].Loads[0].Y = 1400, 575 // next to its corner, so that the opposite one is pulled
	d.Cases[0].Loads[0].Force = 4000
	w, mo, m := answersOf(t, &d, Interactive)
	g := marginOf(t, mo.wholeMargins(t.Context(), &d, m, w.cases), "screws.support")
	if !strings.Contains(g.Note, "only the bottom skin's thickness") {
		t.Fatalf("%+v", g)
	}
	near(t, "skin alone", g.Capacity, 0.52/math.Sqrt(5)*math.Pow(6, -0.1)*math.Pow(500, 0.8)*5*6*5/8*0.9/1.3, 1e-9)
	for _, c := range []struct {
		x, y   float64
		stands bool
	}{{118, 92, false}, {118, 120, false}, {118, 160, true}, {210, 92, true}, {1580, 350, true}} {
		d.Supports.Feet[0] = Foot{X: c.x, Y: c.y}
		if got := d.stands(d.pads()[0]); got != c.stands {
			t.Errorf("over %g, %g a rib stands: %v", c.x, c.y, got)
		}
	}
	d.Supports.Feet[0], d.Blocks = Foot{X: 118, Y: 92}, []Block{{"white-oak", 0, 0}}
	if !d.stands(d.pads()[0]) {
		t.Error("a block does not stand over the foot")
	}
	sheet := plainSheet()
	bolts, _, note := Screws{Number: 3, Diameter: 8, Washer: 24}.holds(&sheet, 6.5)
	near(t, "bolts", bolts, math.Pow(3, 0.9)*3*6.5*math.Pi/4*(24*24-9*9), 1e-12)
	if !strings.Contains(note, "steel is not checked") {
		t.Errorf("bolts: %q", note)
	}
	// A board counts half of the softwood's formula.
	one := Screws{Number: 1, Diameter: 5, Depth: 20}
	ply, _, _ := one.holds(&sheet, 6.5)
	sheet.Kind = "mdf"
	board, _, _ := one.holds(&sheet, 6.5)
	near(t, "board", board, ply/2, 1e-12)
}

// A vise of 20 N·m on a block of oak 176.25 × 137.5 mm: pulled to the right 1.5 ·
// 20 000/(2/3 · 176.25) N at its screws, to the back over 137.5 mm; oak of 762 kg/m³
// counts as 500. More scatter or a shorter thread holds less.
func TestScrewsOfAVise(t *testing.T) {
	t.Parallel()
	for pull, size := range map[Pull]float64{PullRight: 176.25, PullLeft: 176.25, PullBack: 137.5, PullFront: 137.5} {
		l := vise(pull, 2, 1)
		l.Force, l.Screws = 100, Screws{Number: 4, Diameter: 8, Depth: 60}
		for _, margins := range [][]Margin{compute(t, viseTop(l)).Margins, refined(t, viseTop(l), Interactive).Margins} {
			g := marginOf(t, margins, "screws.block")
			near(t, string(pull)+": asked", g.Demand, 1.5*20_000/(2.0/3*size), 1e-9)
			near(t, string(pull)+": holds", g.Capacity, 0.52/math.Sqrt(8)*math.Pow(60, -0.1)*math.Pow(500, 0.8)*8*60*math.Pow(4, 0.9)*0.9/1.3, 1e-9)
		}
	}
	for _, m := range compute(t, viseTop(vise(PullBack, 2, 1))).Margins {
		if m.Code == "screws.block" {
			t.Errorf("nothing is told of screws: %+v", m)
		}
	}
}

func TestValidateScrews(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name string
		s    Screws
		told string
	}{
		{"nothing told", Screws{}, ""},
		{"screws", Screws{4, 5, 30, 0}, ""},
		{"bolts", Screws{2, 8, 0, 24}, ""},
		{"no number", Screws{0, 5, 30, 0}, "advice screws-not-told .number"},
		{"no thread", Screws{4, 0, 30, 0}, "advice screws-not-told .diameter"},
		{"no depth", Screws{4, 5, 0, 0}, "advice screws-not-told .depth"},
		{"short", Screws{4, 5, 29, 0}, "advice screws-short .depth"},
		{"minus one", Screws{-1, 5, 30, 0}, "blocking screws .number"},
		{"a nail board", Screws{101, 5, 30, 0}, "blocking screws .number"},
		{"needle", Screws{4, 1.9, 30, 0}, "blocking screws .diameter"},
		{"pole", Screws{4, 21, 130, 0}, "blocking screws .diameter"},
		{"through the floor", Screws{4, 5, 501, 0}, "blocking screws .depth"},
		{"small washer", Screws{4, 8, 0, 9}, "blocking screws .washer"},
		{"plate", Screws{4, 8, 0, 101}, "blocking screws .washer"},
	} {
		support := tippedTop(true)
		support.Supports.Screws = c.s
		l := vise(PullBack, 2, 1)
		l.Screws = c.s
		for path, d := range map[string]Design{"supports.screws": support, "cases[0].loads[0].screws": viseTop(l)} {
			var got []string
			for _, p := range problemsOf(d) {
				if strings.HasPrefix(p.Code, "screws") {
					proofread(t, p)
					got = append(got, strings.Replace(told([]Problem{p})[0], path, "", 1))
				}
			}
			if text := strings.Join(got, ", "); text != c.told {
				t.Errorf("%s at %s: %q; want %q", c.name, path, text, c.told)
			}
		}
	}
	// A loose top has none to look at.
	d := plainTop()
	d.Supports.Screws = Screws{Number: -1}
	for _, p := range problemsOf(d) {
		if strings.HasPrefix(p.Code, "screws") {
			t.Errorf("a loose top: %+v", p)
		}
	}
}

// The report says what being fastened means; of the twist it does not ask for what is
// done already.
func TestFastenedIsReported(t *testing.T) {
	t.Parallel()
	for _, fastened := range []bool{true, false} {
		d := plainTop()
		d.Supports = Supports{Kind: FourLegs, EndInset: 100, SideInset: 100, Bearing: 60, Fastened: fastened}
		d.Cases[0].Loads[0].X, d.Cases[0].Loads[0].Y = 150, 125
		var out bytes.Buffer
		r := refined(t, d, Normal)
		if err := Report(&out, d, r, length.Format{}); err != nil {
			t.Fatal(err)
		}
		text := out.String()
		if strings.Contains(text, "The top is fastened to its supports") != fastened || strings.Contains(text, "have to pull it down") != fastened {
			t.Errorf("fastened %v:\n%s", fastened, text)
		}
		if tips := strings.Contains(text, "which takes fastening it down"); tips && fastened {
			t.Errorf("asks to fasten a fastened top:\n%s", text)
		}
	}
}
