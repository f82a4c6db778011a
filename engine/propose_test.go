package engine

import (
	"context"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

// longTop is a top of 2600 × 700 mm whose skins and lengthwise ribs are longer
// than the sheets of 1250 × 2500.
func longTop() Design {
	d := plainTop()
	d.Length = 2600
	d.Crosswise.Count = 8 // 370 mm apart
	d.Cases[0].Loads[0].X = 1300
	for _, t := range []float64{6, 9, 12} {
		d.Prices = append(d.Prices, Price{"plain", t, 50, 2500, 1250})
	}
	return d
}

func codes(problems []Problem) (out []string) {
	for _, p := range problems {
		out = append(out, p.Code)
	}
	return out
}

func TestPieceTooLarge(t *testing.T) {
	t.Parallel()
	d := longTop()
	r := compute(t, d)
	n := 0
	for _, p := range r.Problems {
		if p.Code == "piece-too-large" {
			n++
			proofread(t, p)
			if p.Severity != Shortfall {
				t.Errorf("severity %v", p.Severity)
			}
		}
	}
	if n != 3 { // both skins, and one for the lengthwise ribs
		t.Errorf("told %d times: %v", n, codes(r.Problems))
	}
	d.Prices = nil
	if c := codes(compute(t, d).Problems); slices.Contains(c, "piece-too-large") {
		t.Errorf("without any sheet listed: %v", c)
	}
	d.Stock = []Stock{{Material: "plain", Thickness: 9, Length: 2000, Width: 750, OnHand: 1, Offcut: true}}
	d.Length = 1900
	d.TopSkin.Across = true // 700 along the grain
	r = compute(t, d)
	i := slices.IndexFunc(r.Problems, func(p Problem) bool { return p.Code == "piece-too-large" })
	if i < 0 || r.Problems[i].Part != "top" || r.Problems[i].Field != "cutting.free" || !strings.Contains(r.Problems[i].Text, "Turned by a quarter it would fit") {
		t.Errorf("a skin whose grain runs the other way: %v", r.Problems)
	}
	d.Cutting.Free = []string{"top"}
	if c := codes(compute(t, d).Problems); slices.Contains(c, "piece-too-large") {
		t.Errorf("free to turn: %v", c)
	}
}

// The proposed seams make pieces that fit, lie out of the middle third and apart
// from each other; the one in the skin on the slots' side is spliced; and the
// whole panel is hardly softer.
func TestProposeSeams(t *testing.T) {
	t.Parallel()
	d := longTop()
	e, why, err := ProposeSeams(context.Background(), d)
	if err != nil {
		t.Fatal(err)
	}
	if len(e.Seams) != 2 || e.Seams[0].Skin == e.Seams[1].Skin || len(d.Seams) != 0 {
		t.Fatalf("seams %+v; want one in either skin, the design itself unchanged", e.Seams)
	}
	for _, s := range e.Seams {
		// Rails stand 100 mm from the ends: 2400 mm apart, the middle third from 900 to 1700.
		if s.At > 900 && s.At < 1700 {
			t.Errorf("seam %+v lies in the middle third", s)
		}
		if s.Skin == TopSeam && !s.Spliced { // the lengthwise ribs are slotted from above
			t.Errorf("seam %+v is left open on the side of the slots", s)
		}
	}
	if math.Abs(e.Seams[0].At-e.Seams[1].At) < 2600.0/8 {
		t.Errorf("seams %+v lie over each other", e.Seams)
	}
	for _, p := range e.Pieces() {
		if p.Kind == SkinPart && !p.fits(Stock{Length: 2500, Width: 1250}, Cutting{}) {
			t.Errorf("%s, %g × %g, does not fit", p.ID, p.Length, p.Width)
		}
	}
	if before, after := refined(t, d, Normal).Cases[0].Sag, refined(t, e, Normal).Cases[0].Sag; after > before*(1+openShare+0.001) {
		t.Errorf("sag %.4f, before %.4f", after, before)
	}
	if !strings.Contains(why, "bottom skin") || !strings.Contains(why, "top skin") {
		t.Errorf("why: %s", why)
	}
	t.Log(why)
	again, words, err := ProposeSeams(context.Background(), e)
	if err != nil || len(again.Seams) != 2 || !strings.Contains(words, "no seam is needed") {
		t.Errorf("proposed once more: %+v, %s, %v", again.Seams, words, err)
	}
}

// Cancelled it returns the design as it was.
func TestProposeSeamsStops(t *testing.T) {
	t.Parallel()
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if e, _, err := ProposeSeams(ctx, longTop()); err == nil || len(e.Seams) != 0 {
		t.Errorf("cancelled: %+v, %v", e.Seams, err)
	}
}

// Spliced ribs fit their sheet; no splice lies at a slot, in the middle third or
// beside that of the next rib: the checks of the design itself, which share no
// code with the search, find nothing.
func TestProposeSplices(t *testing.T) {
	t.Parallel()
	d := longTop()
	d.EdgeBand = EdgeBand{"plain", 20}
	d.Prices = append(d.Prices, Price{"plain", 20, 50, 2000, 300})
	e, why := ProposeSplices(d)
	t.Log(why)
	if len(e.Splices) != 7 || len(d.Splices) != 0 { // five ribs, two bands of 2600
		t.Fatalf("splices %+v", e.Splices)
	}
	for _, p := range problemsOf(e) {
		t.Errorf("%s: %s", p.Code, p.Text)
	}
	for _, p := range e.Pieces() {
		if p.Kind == LengthwisePart && p.Length > 2500 || p.Kind == BandPart && p.Length > 2000 {
			t.Errorf("%s is still %g long", p.ID, p.Length)
		}
	}
	if again, words := ProposeSplices(e); len(again.Splices) != 7 || !strings.Contains(words, "no splice is needed") {
		t.Errorf("proposed once more: %s", words)
	}
	d.Lengthwise.Thickness = 25 // a scarf of 200 mm
	d.Prices = append(d.Prices, Price{"plain", 25, 50, 2500, 1250})
	d.Crosswise.Count = 15
	if e, why := ProposeSplices(d); !strings.Contains(why, "No stretch between two slots has room") || slices.ContainsFunc(e.Splices, func(s Splice) bool { return s.Part == "L1" }) {
		t.Errorf("no room: %s", why)
	}
}

// cutBest by a slow second method: all sets of up to three joints.
func TestCutBest(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(8, 8))
	found := 0
	for range 400 {
		hi := 500 + 2500*r.Float64()
		most := 400 + 900*r.Float64()
		var all []candidate
		for range 7 {
			all = append(all, candidate{hi * r.Float64(), 40 * r.Float64(), r.Float64()})
		}
		price := func(set []candidate) float64 {
			slices.SortFunc(set, func(a, b candidate) int { return int(math.Copysign(1, a.at-b.at)) })
			ends := append(append([]candidate{{}}, set...), candidate{at: hi})
			sum := 0.0
			for i := 1; i < len(ends); i++ {
				if l := ends[i].at - ends[i-1].at; l < 100 || l+ends[i].half+ends[i-1].half > most {
					return math.Inf(1)
				}
				sum += 1000 + ends[i].cost
			}
			return sum
		}
		best := math.Inf(1)
		for mask := range 1 << len(all) {
			var set []candidate
			for i, c := range all {
				if mask>>i&1 == 1 {
					set = append(set, c)
				}
			}
			best = math.Min(best, price(set))
		}
		picked, ok := cutBest(0, hi, most, 100, slices.Clone(all))
		if ok != !math.IsInf(best, 1) {
			t.Fatalf("found %v; want %v", ok, !ok)
		}
		if ok {
			found++
			near(t, "cost", price(picked), best, 1e-12)
		}
	}
	if found < 50 {
		t.Errorf("only %d of 400 could be cut", found)
	}
}
