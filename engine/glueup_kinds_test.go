package engine

import (
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"
)

// handTop needs 87 269.8 N on 125 568 mm², see TestPressureByHand: seven lengthwise
// ribs, 10 008 N each, at 6, 104, … 300 mm from the nearest long edge, four crosswise.
//
// Sixteen clamps of 6 000 N that reach 250 mm and some that reach all the way. Farther in
// than 250 mm lies L4 with 12·1 200 mm² and of four crosswise ribs 12·(600 − 500 − 12):
// 18 624 mm², which needs 12 943.7 N: four clamps of 3 000 N make 12 000, five 15 000.
func TestKindsOfClamps(t *testing.T) {
	t.Parallel()
	d := handTop()
	for _, row := range []struct {
		deep int
		why  string
	}{
		{5, ""},
		{4, "farther in from the edge than 250 mm reach only 4 clamps, which make 0.64 MPa on the ribs there; 0.7 MPa is needed"},
		{0, "they reach 250 mm in from the edge, the rib line farthest in lies 300 mm from it"},
	} {
		d.GlueUp.Clamps = Clamps{Count: 16, Force: 6000, Reach: 250}
		d.GlueUp.MoreClamps = []Clamps{{Count: row.deep, Force: 3000, Reach: 320}}
		o := wayOf(t, compute(t, d).GlueUp, ByClamps)
		if o.Reaches != (row.why == "") || !strings.Contains(o.Why, row.why) {
			t.Errorf("%d that reach: %+v; want %q", row.deep, o, row.why)
		}
	}
	// 10 of 6 000 N and 5 of 3 000 N make 75 000 N: .597 MPa.
	d.GlueUp.Clamps.Count, d.GlueUp.MoreClamps[0].Count = 10, 5
	if o := wayOf(t, compute(t, d).GlueUp, ByClamps); !strings.Contains(o.Why, "15 clamps (10 of 6\u2009000 N, 5 of 3\u2009000 N) make 0.6 MPa on the ribs; 0.7 MPa is needed") {
		t.Errorf("15 clamps: %+v", o)
	}
}

// By hand: L4 lies 300 mm in, where only those of 3 000 N reach: 10 008 N take four. The
// others are handed out from L3 and L5, 202 mm in, outwards, two of 6 000 N on each line.
func TestClampsAreHandedOut(t *testing.T) {
	t.Parallel()
	d := handTop()
	d.GlueUp.Clamps = Clamps{Count: 13, Force: 6000, Reach: 250}
	d.GlueUp.MoreClamps = []Clamps{{Count: 6, Force: 3000}}
	g := compute(t, d).GlueUp
	want := map[string]string{"L4": "4 of 3\u2009000 N", "L3": "2 of 6\u2009000 N", "L5": "2 of 6\u2009000 N", "L1": "2 of 6\u2009000 N",
		"C1": "1 of 6\u2009000 N", "C2": "2 of 3\u2009000 N", "C3": "4\u2009300 N lacking"}
	for _, l := range g.RibLines {
		if words, ok := want[l.Rib]; ok && l.KindsText(d.GlueUp) != words {
			t.Errorf("%s: %q; want %q", l.Rib, l.KindsText(d.GlueUp), words)
		}
	}
}

// Cauls by hand: F is 87 269.8 N. Eight clamps of 9 000 N make four cauls, those of 3 000 N
// are to make the rest; none may press more than the skin hands on, so that the strong
// are drawn to the level at which all make F and each presses a stretch as its pull is of F.
func TestKindsOfCauls(t *testing.T) {
	t.Parallel()
	d := handTop()
	d.GlueUp.Clamps = Clamps{Count: 8, Force: 9000}
	d.GlueUp.MoreClamps = []Clamps{{Count: 30, Force: 3000}}
	g := compute(t, d).GlueUp
	o := wayOf(t, g, ByCauls)
	if !o.Reaches || len(o.Places) != o.Count {
		t.Fatalf("cauls: %+v", o)
	}
	m := d.materials()
	p := &presser{d: &d, m: &m, g: &g, glue: d.glue()}
	most := (caulWidth + p.even()) * g.Force / (2 * d.Length)
	all := p.pairs(p.kinds(), p.caulKinds(), true, most)
	pairs := all[:o.Count]
	level, sum := p.level(pairs), 0.0
	for _, r := range pairs {
		sum += 2 * math.Min(r.could, level)
	}
	near(t, "all together", sum, g.Force, 1e-9)
	if level > most+1e-6 {
		t.Errorf("drawn to %.0f N; the skin hands on %.0f N", level, most)
	}
	if n, ok := p.enough(all[:o.Count-1], most); ok {
		t.Errorf("%d cauls would do, %d are laid", n, o.Count)
	}
	for i, x := range o.Places {
		if !(x > 0 && x < d.Length) || i > 0 && x <= o.Places[i-1] {
			t.Errorf("cauls lie at %v", o.Places)
		}
	}
	// Sizes: two of 95 mm and any number of 70 mm; the stiffest go with the hardest pull.
	d.GlueUp.Caul, d.GlueUp.MoreCauls = CaulStock{Count: 2, Width: 45, Height: 95}, []CaulStock{{Count: 40, Width: 45, Height: 120}}
	if text := strings.Join(wayOf(t, compute(t, d).GlueUp, ByCauls).Lines, " "); !strings.Contains(text, "120 mm high with clamps of 9\u2009000 N") {
		t.Errorf("cauls: %s", text)
	}
	d.GlueUp.MoreCauls[0].Count = 3
	if o := wayOf(t, compute(t, d).GlueUp, ByCauls); o.Reaches || !strings.Contains(o.Why, "5 cauls, drawn to what they and the clamps bear, make") {
		t.Errorf("five cauls: %+v", o)
	}
	// A caul 45 × 45 mm of 600 mm is bent to 16 MPa by F·600/8·2/(45³/6) = 16: it bears
	// 2·F = 16·15 187.5·8/600 N, F = 1 620 N; 87 269.8 N take 27 of them, 1 215 mm side by side.
	d.GlueUp.Caul, d.GlueUp.MoreCauls = CaulStock{Height: 45}, nil
	d.GlueUp.Clamps, d.GlueUp.MoreClamps = Clamps{}, nil
	if o := wayOf(t, compute(t, d).GlueUp, ByCauls); o.Count != 27 || !strings.Contains(o.Why, "side by side 26 cauls of 45 mm find room") {
		t.Errorf("low cauls: %+v", o)
	}
}

// Whatever the kinds, more of one never makes less pressure, and all kinds alike are
// one kind of all of them.
func TestMoreClampsNeverPressLess(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(6, 12))
	kind := func() Clamps {
		return Clamps{Count: 1 + r.IntN(12), Force: 1000 + 6000*r.Float64(), Reach: float64(r.IntN(3)) * 160}
	}
	for range 60 {
		d := handTop()
		d.GlueUp.Clamps, d.GlueUp.MoreClamps = kind(), []Clamps{kind(), kind()}
		ways := func() [2]PressOption {
			var res Result
			res.Mass = d.weigh(d.Parts())
			m := d.materials()
			d.addGlueUp(&m, &res)
			sound(t, "glue-up", res.GlueUp)
			return [2]PressOption{wayOf(t, res.GlueUp, ByClamps), wayOf(t, res.GlueUp, ByCauls)}
		}
		before := ways()
		i := r.IntN(2)
		d.GlueUp.MoreClamps[i].Count += 2
		after := ways()
		for k := range before {
			if after[k].Pressure < before[k].Pressure*(1-1e-9) || before[k].Reaches && !after[k].Reaches {
				t.Errorf("%s with two more clamps: %+v; before %+v, %+v", before[k].Name, after[k], before[k], d.GlueUp)
			}
		}
		same := Clamps{Count: 4, Force: 5000, Reach: 320}
		d.GlueUp.Clamps, d.GlueUp.MoreClamps = same, []Clamps{same, same}
		three := ways()
		d.GlueUp.Clamps.Count, d.GlueUp.MoreClamps = 12, nil
		for k, one := range ways() {
			near(t, one.Name, three[k].Pressure, one.Pressure, 1e-9)
		}
	}
}

func TestKindsAreKeptAndChecked(t *testing.T) {
	t.Parallel()
	d := handTop()
	d.GlueUp.MoreClamps, d.GlueUp.MoreCauls = []Clamps{{Count: 4, Force: 2000, Reach: 90}}, []CaulStock{{Count: 2, Width: 50, Height: 70}}
	text, err := Encode(d)
	if err != nil {
		t.Fatal(err)
	}
	if back, err := Decode(text); err != nil || !reflect.DeepEqual(back, d) {
		t.Errorf("read back as %+v, %v", back.GlueUp, err)
	}
	clone := d.Clone()
	clone.GlueUp.MoreClamps[0].Count, clone.GlueUp.MoreCauls[0].Count = 9, 9
	if d.GlueUp.MoreClamps[0].Count != 4 || d.GlueUp.MoreCauls[0].Count != 2 {
		t.Error("a clone shares its clamps")
	}
	for want, change := range map[string]func(g *GlueUp){
		"blocking glue-up-range glueUp.moreClamps[0].force": func(g *GlueUp) { g.MoreClamps[0].Force = 1 },
		"blocking glue-up-range glueUp.moreCauls[0].width":  func(g *GlueUp) { g.MoreCauls[0].Width = 1e9 },
		"advice glue-up-none glueUp.moreClamps[0].count":    func(g *GlueUp) { g.MoreClamps[0].Count = 0 },
		"advice glue-up-none glueUp.moreCauls[0].count":     func(g *GlueUp) { g.MoreCauls[0].Count = 0 },
		"blocking glue-up-kinds glueUp.moreClamps":          func(g *GlueUp) { g.MoreClamps = make([]Clamps, maxKinds) },
	} {
		e := d.Clone()
		change(&e.GlueUp)
		if got := strings.Join(told(problemsOf(e)), ", "); !strings.Contains(got, want) {
			t.Errorf("told %q; want %q", got, want)
		}
		for _, p := range problemsOf(e) {
			proofread(t, p)
		}
	}
}

// Laths of 5 × 5 mm over 700 mm bear next to nothing: by hand 16 MPa · (5³/6) mm³ over
// 700/4 mm, 1.905 N a clamp if the pressure is even. What two thousand such pulls make is
// said, with what would do instead; hundreds of thousands of laths are not counted.
func TestLathsAreNoCauls(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.GlueUp.Press, d.GlueUp.Caul = ByCauls, CaulStock{Width: 5, Height: 5}
	g := compute(t, d).GlueUp
	for _, w := range g.Ways {
		if w.Way != ByCauls {
			continue
		}
		near(t, "pressure", w.Pressure, 2000*1.904762/g.Area, 1e-6)
		if w.Reaches || w.Count > maxClamps || !strings.Contains(w.Why, "drawn to what the cauls bear") {
			t.Errorf("%+v", w)
		}
	}
}
