package engine

import (
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"

	"flatwright/engine/plate"
)

// markedDesign returns a small design with everything at once that takes from a panel:
// holes in skins and ribs, a groove, a skin that slid, a rib cut off at its crossings
// and one that is not glued, mostly at one side. On rails, and of skins whose moduli stand
// in the same ratio pulled and bent, so that a quarter turn is exact.
func markedDesign(r *rand.Rand) Design {
	within := func(lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }
	for {
		d := anyDesign(r)
		if d.Lengthwise.number()*d.Crosswise.number() > 9 {
			continue
		}
		d.TopSkin.Material, d.BottomSkin.Material = "lvl", pick(r, "lvl", "hardboard-tempered")
		d.Supports.Kind, d.Blocks = pick(r, RailsAcross, RailsAlong), nil
		d.Cases = []LoadCase{{Name: "a", Duration: MediumTerm, Loads: []Load{{Name: "a", Kind: Patch, Force: 900, X: d.Length * within(0.2, 0.8), Y: d.Width * within(0.2, 0.8), SizeX: 60, SizeY: 100}}}}
		d.Holes = []Hole{{Kind: DogHole, Part: pick(r, TopSeam, BothSkins), X: d.Length * within(0.1, 0.9), Y: d.Width * within(0.1, 0.9), Diameter: within(3, 20)},
			{Kind: CableHole, Part: "C2", Y: d.Width * within(0.2, 0.8), Up: d.CoreDepth / 2, Diameter: d.CoreDepth / 4}}
		d.Grooves = []Groove{{Skin: pick(r, TopSeam, BottomSeam), Along: r.IntN(2) == 0, At: min(d.Length, d.Width) * within(0.1, 0.9), Width: within(5, 20), Depth: within(0.5, 3)}}
		rib := func() (part string, far float64) {
			if part = pick(r, "C1", "C2", "L1", "L2"); part[0] == 'L' {
				return part, d.Length
			}
			return part, d.Width
		}
		loose, far := rib()
		wrong, reach := rib()
		d.Built = []Built{
			{Kind: SkinSlid, Part: pick(r, TopSeam, BottomSeam), X: within(-60, 60), Y: within(-60, 60)},
			{Kind: RibUnglued, Part: loose, Side: pick(r, TopSeam, BottomSeam, ""), From: 0.1 * far, To: within(0.3, 0.8) * far},
			{Kind: WrongEdge, Part: wrong, From: 0.2 * reach, To: 0.7 * reach},
		}
		if r.IntN(2) == 0 {
			d.Built[2].From, d.Built[2].To = 0, 0
		}
		if !(Result{Problems: problemsOf(d)}).Blocked() {
			return d
		}
	}
}

// markedWork answers the whole panel as built under its first case, and holds what it
// stands on against what is on it. It returns the loads' work, N·mm.
func markedWork(t *testing.T, d Design, name string) float64 {
	t.Helper()
	p := d.WholePanel(1)
	m, err := plate.Prepare(t.Context(), p)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	loads := []plate.Press{d.Press(Load{Kind: Uniform, Force: 300}), d.Press(d.Cases[0].Loads[0])}
	s, err := m.Solve(t.Context(), loads)
	if err != nil {
		return 0 // it tips
	}
	sum, _, _ := resultant(p, loads)
	force, _, _ := d.supported(s)
	for _, b := range p.Beams {
		sum += b.Own
	}
	for _, f := range force {
		sum -= f
	}
	if !(math.Abs(sum) <= 1e-6) { // of 1200 N
		t.Errorf("%s: %g N are carried by nothing", name, sum)
	}
	return s.Work(loads)
}

// All that takes from a panel at once, seen in a mirror on either side and turned by a
// quarter: the same panel, to a millionth in the mirror (half of one is left where a
// skin slid over a part of a rim rib; we do not know whence). Once the file is written
// and read nothing is lost.
func TestMarksTogether(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(8, 21))
	rounds, stands := 30, 0
	if testing.Short() {
		rounds = 6
	}
	for n := range rounds {
		d := markedDesign(r)
		name := fmt.Sprintf("design %d", n)
		w, m, q := markedWork(t, d, name), markedWork(t, mirrored(d), name+" in the mirror"), markedWork(t, turned(d), name+" turned")
		if w > 0 {
			stands++
		}
		if !(math.Abs(m-w) <= 1e-6*w && math.Abs(q-w) <= 1e-9*w) {
			t.Errorf("%s: the loads' work is %.9g N·mm, in the mirror %.9g, turned %.9g: %+v", name, w, m, q, d)
		}
		text, err := Encode(d)
		if err != nil {
			t.Fatal(err)
		}
		if back, err := Decode(text); err != nil || !reflect.DeepEqual(back, d) {
			t.Errorf("%s: read back as %+v, %v", name, back, err)
		}
	}
	if stands < rounds*2/3 {
		t.Errorf("only %d of %d stand", stands, rounds)
	}
}

// The same computed beside another and once more alone: the same to the last bit, nothing
// that is no number, and the design as it was. A copy shares nothing with it.
func TestMarksComputeTheSame(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(8, 22))
	d := markedDesign(r)
	before := d.Clone()
	answer := func(d Design) Result {
		res, err := Estimate(t.Context(), d)
		if err == nil {
			res, err = Refine(t.Context(), d, res, Normal)
		}
		if err != nil {
			t.Error(err)
		}
		return res
	}
	var a Result
	done := make(chan bool)
	go func() {
		a = answer(d)
		close(done)
	}()
	answer(markedDesign(r))
	<-done
	b := answer(d)
	sound(t, "result", a)
	if a.AsBuilt == nil || !reflect.DeepEqual(a.AsBuilt, b.AsBuilt) || !reflect.DeepEqual(a.Margins, b.Margins) || !reflect.DeepEqual(a.Cases, b.Cases) {
		t.Errorf("as built %+v, then %+v", a.AsBuilt, b.AsBuilt)
	}
	if !reflect.DeepEqual(d, before) {
		t.Errorf("the design is changed to %+v", d)
	}
	d.GlueUp.MoreClamps, d.GlueUp.MoreCauls = []Clamps{{Count: 2}}, []CaulStock{{Count: 3}}
	e := d.Clone()
	e.GlueUp.MoreClamps[0].Count, e.GlueUp.MoreCauls[0].Count, e.Built[0].X, e.Holes[0].X, e.Grooves[0].At = 9, 9, 9, 9, 9
	if d.GlueUp.MoreClamps[0].Count != 2 || d.GlueUp.MoreCauls[0].Count != 3 || !slices.Equal(d.Built, before.Built) || d.Holes[0] != before.Holes[0] || d.Grooves[0] != before.Grooves[0] {
		t.Error("a copy shares its lists")
	}
}
