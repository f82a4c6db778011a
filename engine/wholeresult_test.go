package engine

import (
	"bytes"
	"context"
	"errors"
	"math"
	"runtime"
	"strings"
	"testing"

	"flatwright/engine/length"
	"flatwright/engine/plate"
)

// refined computes a design on a mesh.
func refined(t *testing.T, d Design, mesh Mesh) Result {
	t.Helper()
	r := compute(t, d)
	for m := Interactive; m <= mesh; m *= 2 {
		var err error
		if r, err = Refine(t.Context(), d, r, m); err != nil {
			t.Fatal(err)
		}
	}
	return r
}

// The whole panel and the closed form are two independent ways to the sag of a
// top on rails under an even load, which is what the closed form is made for:
// they agree within 6 % (shear of the skins between the ribs is only in one).
func TestWholeAgreesWithTheClosedFormOnRails(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Supports = Supports{Kind: RailsAcross, EndInset: 30, Bearing: 30}
	d.Cases = []LoadCase{{Name: "even", Duration: MediumTerm, Loads: []Load{{Name: "even", Kind: Uniform, Force: 1500}}}}
	r := refined(t, d, Refined)
	c := r.Cases[0]
	if c.Sag == c.Closed || math.Abs(c.Sag/c.Closed-1) > 0.06 {
		t.Errorf("whole panel %.4f mm, closed form %.4f mm; want them within 6 %% and not the same", c.Sag, c.Closed)
	}
}

// Reactions balance own weight and loads; the case's loads and own sag add up
// while nothing lifts; the finer mesh moves less than the coarse one.
func TestWholeBalances(t *testing.T) {
	t.Parallel()
	d := plainTop()
	r := refined(t, d, Normal)
	want := r.Mass.Total * Gravity
	for i, c := range r.Whole.Cases {
		sum, loads := 0.0, 0.0
		for _, f := range c.Reactions {
			sum += f.Force
		}
		for _, l := range d.Cases[i].Loads {
			loads += l.Force
		}
		if math.Abs(sum-want-loads) > 1e-9*(want+loads) {
			t.Errorf("case %d: reactions %.6f N, want %.6f", i, sum, want+loads)
		}
		if c.Sag != r.Cases[i].Sag {
			t.Errorf("case %d: the result tells %g, the model %g", i, r.Cases[i].Sag, c.Sag)
		}
		most := math.Inf(-1)
		for _, v := range c.Map.Sag {
			most = math.Max(most, v)
		}
		if len(c.Map.Sag) != c.Map.NX*c.Map.NY || most > c.Sag+1e-12 {
			t.Errorf("case %d: map of %d × %d with %d places, largest %g of %g", i, c.Map.NX, c.Map.NY, len(c.Map.Sag), most, c.Sag)
		}
	}
	if finer := refined(t, d, Refined); !(finer.Whole.Change < r.Whole.Change) {
		t.Errorf("change to the refined mesh %.4f, to the normal one %.4f; want less", finer.Whole.Change, r.Whole.Change)
	}
}

// The shares of the work are positive and add up to one, the slopes to minus
// one less the supports' sinking; the range holds the sag and widens with the
// materials' scatter.
func TestWorkAddsUp(t *testing.T) {
	t.Parallel()
	d := plainTop()
	w := refined(t, d, Normal).Whole
	sum := 0.0
	for i, s := range w.Work.Shares {
		if !(s.Share > 0) || i > 0 && s.Share > w.Work.Shares[i-1].Share {
			t.Errorf("share %d: %+v; want above 0, largest first", i, s)
		}
		sum += s.Share
	}
	if math.Abs(sum-1) > 1e-9 {
		t.Errorf("shares add up to %.12f, want 1", sum)
	}
	sag := w.Cases[0].Sag
	if !(w.Work.Low < sag && sag < w.Work.High) || math.Abs(w.Work.Low*w.Work.High/(sag*sag)-1) > 1e-9 {
		t.Errorf("range %g to %g about %g; want it around it by the same factor", w.Work.Low, w.Work.High, sag)
	}
	// One sheet throughout, CV .1, and the model's own .03: 90 % is 1.645 σ either way.
	slope := 0.0
	for _, s := range w.Work.Shares {
		if s.Material != "" {
			slope += s.Slope
		}
	}
	sigma := math.Sqrt(slope*slope*math.Log(1.01) + math.Log(1.0009))
	near(t, "upper end of the range", w.Work.High, sag*math.Exp(1.645*sigma), 1e-9)
	wild := d.Clone()
	for i := range wild.Own {
		wild.Own[i].CVE = 0.4
	}
	if len(wild.Own) > 0 {
		if v := refined(t, wild, Normal).Whole.Work; !(v.High > w.Work.High) {
			t.Errorf("with wilder sheets the range ends at %g, before at %g", v.High, w.Work.High)
		}
	}
}

// A load on the end of an overhang tips a light top off its trestles: told in
// words, no crash, the closed form stays.
func TestWhatTipsIsTold(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Supports = Supports{Kind: RailsAcross, EndInset: d.Length / 3, Bearing: 40}
	d.Cases = []LoadCase{{Name: "end", Duration: ShortTerm, Loads: []Load{{Name: "end", Kind: Patch, Force: 900, X: 60, Y: d.Width / 2, SizeX: 100, SizeY: 100}}}}
	r := refined(t, d, Interactive)
	if r.Whole != nil {
		t.Errorf("a top that tips has a whole-panel answer of %g mm", r.Whole.Cases[0].Sag)
	}
	found := false
	for _, p := range r.Problems {
		found = found || p.Code == "not-held"
	}
	for _, p := range r.Problems {
		if p.Code == "sag-over-limit" || p.Code == "margin-below-one" {
			t.Errorf("%q is told of a top that tips", p.Text)
		}
	}
	if len(r.Margins) > 0 || !strings.Contains(r.NotHeld(), "under “end”") {
		t.Errorf("%d margins, not held: %q; want none and the case named", len(r.Margins), r.NotHeld())
	}
	// Neither report nor packet tells the closed form's sag as if it stood.
	var out strings.Builder
	if err := Report(&out, d, r, length.Format{}); err != nil {
		t.Fatal(err)
	}
	if text := out.String(); !strings.Contains(text, "The top tips") || strings.Contains(text, "sag "+length.Sag(r.Cases[0].Sag, length.Format{})) || strings.Contains(text, "lowest first") {
		t.Errorf("the report of a top that tips: %s", text)
	}
	if held := refined(t, plainTop(), Interactive); held.NotHeld() != "" {
		t.Errorf("a top on its supports: %q", held.NotHeld())
	}
	if !found || r.Cases[0].Sag != r.Cases[0].Closed {
		t.Errorf("problems %+v; want one that says it tips, beside the closed form", r.Problems)
	}
}

// The margins of the whole panel have a capacity, a demand and a place each,
// lowest first, and grow when the loads shrink.
func TestWholeMargins(t *testing.T) {
	t.Parallel()
	d := plainTop()
	r := refined(t, d, Normal)
	light := d.Clone()
	for i := range light.Cases {
		for j := range light.Cases[i].Loads {
			light.Cases[i].Loads[j].Force /= 2
		}
	}
	half := map[string]Margin{}
	for _, m := range refined(t, light, Normal).Margins {
		half[m.Code] = m
	}
	for i, m := range r.Margins {
		if !(m.Capacity > 0 && m.Demand > 0) || m.Where == "" || m.Source == "" || m.Name == "" {
			t.Errorf("margin %+v lacks something", m)
		}
		if i > 0 && m.Value < r.Margins[i-1].Value {
			t.Errorf("%s (%.3f) comes after %s (%.3f)", m.Code, m.Value, r.Margins[i-1].Code, r.Margins[i-1].Value)
		}
		if h, ok := half[m.Code]; ok && h.Value < m.Value*(1-1e-9) {
			t.Errorf("%s: %.4f, with half the loads %.4f; want no less", m.Code, m.Value, h.Value)
		}
	}
}

// A light top that overhangs far tips first, and is then the lowest margin, with
// a working of its own.
func TestTippingIsTheLowestMargin(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Supports.EndInset = 400
	r := refined(t, d, Interactive)
	m := r.Margins[0]
	// Moments about the rail 400 mm in: 0.9 of the weight 400 mm inside it against 1.5 · 650 N at the rim.
	if want := 0.9 * r.Mass.Total * Gravity * 400 / (1.5 * 650 * 400); m.Code != "tipping" || math.Abs(m.Value-want) > 1e-9 {
		t.Errorf("lowest margin %s %.6f; want tipping %.6f", m.Code, m.Value, want)
	}
	d.Supports = Supports{Kind: FourLegs, EndInset: 200, SideInset: 150, Bearing: 60}
	names := map[string]bool{}
	for _, m := range d.tipping(300) {
		names[m.Name] = true
	}
	if len(names) != 2 {
		t.Errorf("margins of tipping at the ends and the sides are called %v; want a name each", names)
	}
	w := marginWorking(r)[0]
	if !strings.Contains(w.Formula, "own weight·its arm") || !strings.Contains(w.Numbers, "N·m") || strings.Contains(w.Numbers, "kmod") {
		t.Errorf("its working: %+v", w)
	}
}

// The same bytes whatever the number of processors, from the cache or not.
func TestComputeIsTheSameEveryTime(t *testing.T) {
	d := plainTop()
	report := func() []byte {
		r, err := Compute(t.Context(), d)
		if err != nil {
			t.Fatal(err)
		}
		var b bytes.Buffer
		if err := ReportJSON(&b, d, r); err != nil {
			t.Fatal(err)
		}
		return b.Bytes()
	}
	first := report()
	old := runtime.GOMAXPROCS(1)
	defer runtime.GOMAXPROCS(old)
	modelCache.Lock()
	modelCache.entries = nil
	modelCache.Unlock()
	if !bytes.Equal(first, report()) {
		t.Error("another number of processors gives other bytes")
	}
}

func TestRefineCancelled(t *testing.T) {
	t.Parallel()
	d := plainTop()
	r := compute(t, d)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := Refine(ctx, d, r, Normal); !errors.Is(err, context.Canceled) {
		t.Errorf("error %v, want that of the context", err)
	}
}

func TestFloatingIsLoose(t *testing.T) {
	t.Parallel()
	if got := plainTop().notHeld(&caseError{"end", plate.ErrLoose}); got.Code != "not-held" || got.Severity != Shortfall {
		t.Errorf("notHeld = %+v", got)
	}
}

// A block stiffens the bay it fills; it sags no more, and weighs.
func TestBlockStiffens(t *testing.T) {
	t.Parallel()
	d := smallTop()
	d.Cases[0].Loads[0].SizeX, d.Cases[0].Loads[0].SizeY = 60, 60
	ys, xs := d.RibPlaces()
	d.Cases[0].Loads[0].X, d.Cases[0].Loads[0].Y = (xs[1]+xs[2])/2, (ys[0]+ys[1])/2
	without := refined(t, d, Interactive).Whole.Cases[0].Loads[0].Alone
	d.Blocks = []Block{{Material: d.Lengthwise.Material, Column: 1, Row: 0}}
	with := refined(t, d, Interactive).Whole.Cases[0].Loads[0].Alone
	if !(with < 0.95*without) {
		t.Errorf("under a load on the block %.4f mm, without the block %.4f mm; want clearly less", with, without)
	}
}

// The working tells the margin that the list tells, once.
func TestWorkingOfTheLowestMargin(t *testing.T) {
	t.Parallel()
	r := refined(t, smallTop(), Interactive)
	seen := 0
	for _, w := range r.Working {
		if w.Key == marginKey {
			seen++
			if want := marginWorking(r)[0]; w != want || !strings.Contains(w.Numbers, r.Margins[0].Name) {
				t.Errorf("working %+v, want %+v", w, want)
			}
		}
	}
	if seen != 1 {
		t.Errorf("%d workings of the margin, want 1", seen)
	}
}
