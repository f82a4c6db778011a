package engine

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"flatwright/engine/draw"
	"flatwright/engine/length"
	"flatwright/engine/plate"
)

// asBuilt computes a design with marks on the normal mesh.
func asBuilt(t *testing.T, d Design, marks ...Built) Result {
	t.Helper()
	d = d.Clone()
	d.Built = marks
	return refined(t, d, Normal)
}

// The panel is told as designed, to the last bit; beside it, as it was made:
// softer, never stiffer.
func TestAsBuilt(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Seams = []Seam{{Skin: BottomSeam, At: 850, Spliced: true}}
	designed := refined(t, d, Normal)
	if designed.AsBuilt != nil {
		t.Errorf("nothing is marked, and as built it is %+v", designed.AsBuilt)
	}
	for name, mark := range map[string]Built{
		"rib":  {Kind: RibUnglued, Part: "L3", From: 200, To: 1400},
		"slot": {Kind: SlotDeeper, Part: "L3", Value: 60},
		"seam": {Kind: SeamOpen, Part: "seam 1"},
		"skin": {Kind: ThicknessMeasured, Part: "bottom", Value: 5.4},
	} {
		r := asBuilt(t, d, mark)
		a := r.AsBuilt
		if a == nil {
			t.Fatalf("%s: not rated", name)
		}
		if !reflect.DeepEqual(r.Cases, designed.Cases) || !reflect.DeepEqual(r.Margins, designed.Margins) {
			t.Errorf("%s: the mark changes what is designed", name)
		}
		if a.DesignedSag != designed.Cases[0].Sag || a.DesignedMargin != designed.Margins[0].Value || a.Lowest.Value != a.Margin {
			t.Errorf("%s: as designed %+v; want %g and %g", name, a, designed.Cases[0].Sag, designed.Margins[0].Value)
		}
		// A softer rib hands some of its load to its neighbours: what governs may gain a little.
		if !(a.Sag > a.DesignedSag) || a.Margin > a.DesignedMargin*1.05 {
			t.Errorf("%s: sag %.4f as designed, %.4f as built; margins %.3f and %.3f; want softer and no stronger", name, a.DesignedSag, a.Sag, a.DesignedMargin, a.Margin)
		}
		told := 0
		for _, p := range r.Problems {
			if p.Code == "as-built" {
				told++
				proofread(t, p)
				if p.Part != mark.Part || !strings.HasPrefix(p.Text, "As built: sag 0.") {
					t.Errorf("%s: told as %q, %q", name, p.Part, p.Text)
				}
			}
		}
		if told != 1 {
			t.Errorf("%s: told %d times", name, told)
		}
	}
	// An open seam as built is the same panel as one drawn open under the weight of
	// the splice plates, which are counted as drawn.
	drawn := d.Clone()
	drawn.Seams[0].Spliced = false
	plates := (designed.Mass.Total - compute(t, drawn).Mass.Total) * Gravity
	drawn.Cases[0].Loads = append(drawn.Cases[0].Loads, Load{Name: "plates", Kind: Uniform, Force: plates})
	near(t, "sag with a seam left open", asBuilt(t, d, Built{Kind: SeamOpen, Part: "seam 1"}).AsBuilt.Sag, refined(t, drawn, Normal).Cases[0].Sag, 1e-9)
}

// A sheet that is measured thinner is the same top as one drawn so, slots as
// they were cut; a thicker one is stiffer and heavier. The mark counts for
// nothing in what is told as designed.
func TestThicknessMeasured(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Lengthwise.Thickest = 12.4
	for part, change := range map[string]func(e *Design, v float64){
		"top":            func(e *Design, v float64) { e.TopSkin.Thickness = v },
		"bottom":         func(e *Design, v float64) { e.BottomSkin.Thickness = v },
		"lengthwise rib": func(e *Design, v float64) { e.Lengthwise.Thickness = v },
		"crosswise rib":  func(e *Design, v float64) { e.Crosswise.Thickness, e.Crosswise.Thickest = v, 9 },
	} {
		drawn := d.DrawnThickness(part)
		thin, thick := asBuilt(t, d, Built{Kind: ThicknessMeasured, Part: part, Value: 0.9 * drawn}), asBuilt(t, d, Built{Kind: ThicknessMeasured, Part: part, Value: 1.1 * drawn})
		e := d.Clone()
		change(&e, 0.9*drawn)
		want := refined(t, e, Normal)
		near(t, part+": sag", thin.AsBuilt.Sag, want.Cases[0].Sag, 1e-12)
		near(t, part+": margin", thin.AsBuilt.Margin, want.Margins[0].Value, 1e-12)
		near(t, part+": weight", thin.AsBuilt.Mass, want.Mass.Total, 1e-6)
		a := thick.AsBuilt
		if !(a.Sag < a.DesignedSag && a.Mass > thick.Mass.Total) || len(a.Sags) != 1 || a.Sags[0] != a.Sag {
			t.Errorf("%s thicker: %+v, designed %.2f kg", part, a, thick.Mass.Total)
		}
	}
	if got := d.DrawnThickness("L1"); got != 0 {
		t.Errorf("one rib alone has a thickness of its own: %g", got)
	}
	m := d.withBuilt(Built{Kind: ThicknessMeasured, Part: "top", Value: 8}, Built{Kind: ThicknessMeasured, Part: "top", Value: 8.5}).measured()
	near(t, "the last mark holds", m.TopSkin.Thickness, 8.5, 0)
	near(t, "the design itself", d.TopSkin.Thickness, 9, 0)
}

// Every mark has its words.
func TestMarksInWords(t *testing.T) {
	t.Parallel()
	for want, b := range map[string]Built{
		"the slots of rib C2 are 41.5 mm deep":      {Kind: SlotDeeper, Part: "C2", Value: 41.5},
		"rib L3 is not glued from 200 mm to 500 mm": {Kind: RibUnglued, Part: "L3", From: 200, To: 500},
		"seam 2 is open":                      {Kind: SeamOpen, Part: "seam 2"},
		"the bottom skin is 5.4 mm thick":     {Kind: ThicknessMeasured, Part: "bottom", Value: 5.4},
		"the lengthwise ribs are 11 mm thick": {Kind: ThicknessMeasured, Part: "lengthwise rib", Value: 11},
	} {
		if got := b.Words(length.Format{}); got != want {
			t.Errorf("%+v in words %q; want %q", b, got, want)
		}
	}
}

// In inches 8.2 mm is .323 and no sixteenth.
func TestMarksInInches(t *testing.T) {
	t.Parallel()
	got := Built{Kind: ThicknessMeasured, Part: "top", Value: 8.2}.Words(length.Format{Imperial: true, Denominator: 16})
	if want := "the top skin is 0.323 in thick"; got != want {
		t.Errorf("in words %q; want %q", got, want)
	}
}

// What was asked and is no longer met is a shortfall.
func TestAsBuiltFallsShort(t *testing.T) {
	t.Parallel()
	d := plainTop()
	mark := Built{Kind: RibUnglued, Part: "L3", From: 200, To: 1400}
	a := asBuilt(t, d, mark).AsBuilt
	for _, tc := range []struct {
		limit float64
		want  Severity
		words string
	}{
		{a.DesignedSag * 0.9, Advice, "falls short already"},
		{(a.DesignedSag + a.Sag) / 2, Shortfall, "less than was asked"},
		{a.Sag * 1.1, Advice, "still what was asked"},
	} {
		d.Limits.Sag = tc.limit
		p := d.withBuilt(mark).builtProblem(a)
		if a.Margin < 1 || p.Severity != tc.want || !strings.Contains(p.Text, tc.words) {
			t.Errorf("limit %.3f: severity %d, %q; want %d, %q", tc.limit, p.Severity, p.Text, tc.want, tc.words)
		}
	}
}

func (d Design) withBuilt(marks ...Built) *Design {
	d.Built = marks
	return &d
}

// A deeper slot takes from its own rib only: stiffness in the model, and at the
// slot the net section. By hand: slots 40.5 mm deep leave 39.5 of 80 mm, slots
// of 60 mm leave 20.
func TestDeeperSlot(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Limits.Sag = 0
	e := d.withBuilt(Built{Kind: SlotDeeper, Part: "L3", Value: 60})
	before, after := d.WholePanel(1), e.WholePanel(1)
	for i := range before.Along {
		b, a := before.Along[i], after.Along[i]
		if softer := a.Own < b.Own && a.G < b.G; softer != (i == 2) || i != 2 && a != b {
			t.Errorf("rib L%d keeps %.3f of its own, before %.3f", i+1, a.Own, b.Own)
		}
	}
	near(t, "depth left", d.CoreDepth-e.slotDepth("L3"), 20, 1e-12)
	near(t, "depth left elsewhere", d.CoreDepth-e.slotDepth("L2"), 39.5, 1e-12)
	slot := func(d *Design) float64 { // lowest margin of shear at a slot of L3
		m := d.materials()
		mo := newModel(d, &m, false)
		w, err := wholeCases(t.Context(), d, mo.weight, Interactive)
		if err != nil {
			t.Fatal(err)
		}
		for _, g := range mo.wholeMargins(t.Context(), d, &m, w.cases) {
			if strings.HasPrefix(g.Code, "rib.slot") && g.Part == "L3" {
				return g.Value
			}
		}
		return TimesCap
	}
	if b, a := slot(&d), slot(e); !(a < 0.75*b) {
		t.Errorf("margin at the slot %.3f as drawn, %.3f with a deeper one; want much less", b, a)
	}
}

func TestValidateBuilt(t *testing.T) {
	t.Parallel()
	for _, tc := range []struct {
		name string
		mark Built
		told string
	}{
		{"deeper slot", Built{Kind: SlotDeeper, Part: "L5", Value: 45}, ""},
		{"open stretch", Built{Kind: RibUnglued, Part: "C11", From: 0, To: 750}, ""},
		{"open seam", Built{Kind: SeamOpen, Part: "seam 1"}, ""},
		{"thinner skin", Built{Kind: ThicknessMeasured, Part: "top", Value: 8}, ""},
		{"skin of half the thickness", Built{Kind: ThicknessMeasured, Part: "top", Value: 4}, "blocking built-thickness built[0].value"},
		{"no thickness", Built{Kind: ThicknessMeasured, Part: "top"}, "blocking built-thickness built[0].value"},
		{"thickness of one rib", Built{Kind: ThicknessMeasured, Part: "L1", Value: 12}, "blocking built-part built[0].part"},
		{"thickness as drawn", Built{Kind: ThicknessMeasured, Part: "lengthwise rib", Value: 12}, "advice built-as-drawn built[0].value"},
		{"no kind", Built{Kind: "bent", Part: "L1"}, "blocking built-kind built[0].kind"},
		{"no such rib", Built{Kind: RibUnglued, Part: "L6", To: 9}, "blocking built-part built[0].part"},
		{"no rib at all", Built{Kind: SlotDeeper, Part: "top", Value: 45}, "blocking built-part built[0].part"},
		{"no such seam", Built{Kind: SeamOpen, Part: "seam 2"}, "blocking built-part built[0].part"},
		{"stretch that ends before it begins", Built{Kind: RibUnglued, Part: "L1", From: 100, To: 50}, "blocking built-stretch built[0].from"},
		{"stretch beyond the rib", Built{Kind: RibUnglued, Part: "C1", From: 100, To: 751}, "blocking built-stretch built[0].from"},
		{"slot through the rib", Built{Kind: SlotDeeper, Part: "L1", Value: 74}, "blocking built-slot built[0].value"}, // 76 − 74 = 2 mm
		{"slot less deep", Built{Kind: SlotDeeper, Part: "L1", Value: 38}, "blocking built-slot built[0].value"},       // 39 mm drawn
	} {
		t.Run(tc.name, func(t *testing.T) {
			t.Parallel()
			d := testTop()
			d.Seams = []Seam{{Skin: TopSeam, At: 900, Spliced: true}}
			d.Built = []Built{tc.mark}
			problems := problemsOf(d)
			if got := strings.Join(told(problems), ", "); got != tc.told {
				t.Errorf("Validate tells %q; want %q", got, tc.told)
			}
			for _, p := range problems {
				proofread(t, p)
			}
		})
	}
	for _, part := range []string{"", "L", "L0", "L01", "L1x", "K1", "C-1"} {
		if _, n, ok := RibOfPart(part); ok {
			t.Errorf("%q is rib %d", part, n)
		}
	}
	d := testTop()
	d.Built = make([]Built, maxBuilt+1)
	if got := told(problemsOf(d)); len(got) != 1 || got[0] != "blocking too-many-built built" {
		t.Errorf("101 marks tell %q", got)
	}
	d.Seams, d.Built = []Seam{{Skin: TopSeam, At: 900}}, []Built{{Kind: SeamOpen, Part: "seam 1"}}
	if got := strings.Join(told(problemsOf(d)), ", "); !strings.Contains(got, "advice built-as-drawn built[0].part") {
		t.Errorf("a seam drawn open and marked open tells %q", got)
	}
}

// Marks are drawn in the plan over the part, where it was made otherwise.
func TestBuiltIsDrawn(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Seams = []Seam{{Skin: BottomSeam, At: 850, Spliced: true}}
	d.Built = []Built{{Kind: RibUnglued, Part: "L3", From: 200, To: 500}, {Kind: SlotDeeper, Part: "C2", Value: 60}, {Kind: SeamOpen, Part: "seam 1"}}
	sum, n := map[string]float64{}, map[string]int{}
	for _, a := range figureOf(t, d, DrawingOptions{}).Areas {
		if a.Fill == draw.Over {
			sum[a.Part] += abs(area(a.Points))
			n[a.Part]++
		}
	}
	// In the end section a strip of 4 mm at either of its edges.
	near(t, "open stretch", sum["L3"], 300*12+2*4*12, 1e-9)
	// Five slots 12.2 mm wide in a rib 9 mm thick; the outermost two are cut off
	// at the ends by 0.1 mm. In the long section one of 60 mm.
	near(t, "deeper slots", sum["C2"], (5*12.2-2*0.1)*9+60*9, 1e-9)
	near(t, "open seam, in the plan and in the section", sum["seam 1"], 8*700+8*6, 1e-9)
	if n["C2"] != 6 || len(n) != 3 {
		t.Errorf("marks drawn: %v", n)
	}
}

func TestFileOfBuilt(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Built = []Built{{Kind: RibUnglued, Part: "L3", From: 200, To: 500}, {Kind: SlotDeeper, Part: "C2", Value: 60}}
	text, err := Encode(d)
	if err != nil {
		t.Fatal(err)
	}
	if back, err := Decode(text); err != nil || !reflect.DeepEqual(back, d) {
		t.Errorf("read back as %+v, %v", back, err)
	}
	clone := d.Clone()
	clone.Built[0].From = 1
	if d.Built[0].From != 200 {
		t.Error("a clone shares its marks")
	}
}

// Whoever gives up while a panel with seams and marks is computed gets nothing
// half done.
func TestMarkedPanelCancelled(t *testing.T) {
	t.Parallel()
	d := smallTop()
	d.Seams = []Seam{{Skin: BottomSeam, At: d.Length / 2}}
	d.Built = []Built{{Kind: RibUnglued, Part: "L1", From: d.Length / 3, To: d.Length / 2}}
	count := &closing{context.Background(), 0, 1 << 30}
	whole, err := Compute(count, d)
	if err != nil || whole.AsBuilt == nil {
		t.Fatalf("computed: %v, as built %+v", err, whole.AsBuilt)
	}
	for n := 0; n < count.asked; n += 1 + count.asked/40 { // the factorization asks thousands of times
		ctx := &closing{context.Background(), 0, n}
		r, err := Compute(ctx, d)
		if told := ctx.asked > n; told != errors.Is(err, context.Canceled) {
			t.Errorf("cancelled at the %d. of %d times of asking, told %v: error %v", n+1, count.asked, told, err)
		}
		if err != nil && !reflect.DeepEqual(r, Result{}) {
			t.Errorf("cancelled at the %d. time of asking: half a result", n+1)
		}
	}
}

// Designs at random with seams and marks, loose and fastened: figures throughout, and
// the loads only go down farther for what was made otherwise. That is their work, mean
// sag and what the supports give: the sag of one place may well get less. It is compared
// on one mesh; a thousandth is left for what the mesh of a slot's cell moves.
func TestRandomMarkedPanels(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(8, 20))
	rated, fastened, rounds := 0, 0, 6
	if testing.Short() { // the race detector is content with less
		rounds = 1
	}
	for n := 0; n < rounds; {
		d := randomDesign(r)
		if len(d.Built) == 0 || len(d.Seams) == 0 || d.Supports.Kind == FourLegs || d.Supports.Kind == OwnFeet || d.Supports.Kind == OnLedger && !d.Supports.Rail {
			continue
		}
		n++
		if d.Supports.Fastened = n%2 == 0; d.Supports.Fastened {
			fastened++
		}
		// At the ends and even loads, so that nothing is on the brink of tipping.
		d.Supports.EndInset, d.Supports.SideInset = d.Supports.Bearing/2, d.Supports.Bearing/2
		d.Cases = []LoadCase{{Name: "even", Duration: MediumTerm, Loads: []Load{{Name: "even", Kind: Uniform, Force: 1000}}}}
		res := refined(t, d, Normal)
		eachNumber("result", reflect.ValueOf(res), func(path string, v float64) {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Errorf("%s = %v", path, v)
			}
		})
		a := res.AsBuilt
		if a == nil {
			t.Errorf("a top on %s is not held: %v", d.Supports.Kind, told(res.Problems))
			continue
		}
		rated++
		loads := []plate.Press{d.Press(d.Cases[0].Loads[0])}
		work := func(p *plate.Panel) float64 {
			m, err := plate.Prepare(t.Context(), p)
			if err != nil {
				t.Fatal(err)
			}
			s, err := m.Solve(t.Context(), loads)
			if err != nil {
				t.Fatal(err)
			}
			return s.Work(loads)
		}
		drawn := d
		drawn.Built = nil
		p := drawn.WholePanel(2)
		p.Cuts = [2][]float64{{d.Built[1].From, d.Built[1].To}, nil} // anyDesign's second mark: L2 not glued
		if designed, built := work(p), work(d.WholePanel(2)); !(built > 0.999*designed) {
			t.Errorf("%s, fastened %v: the load's work is %.6g N·mm as designed, %.6g as built", d.Supports.Kind, d.Supports.Fastened, designed, built)
		}
	}
	if rated < rounds || rounds > 1 && fastened == 0 {
		t.Errorf("only %d panels were rated, %d of them fastened", rated, fastened)
	}
}

// A stretch that is not glued brings lines into the mesh. These alone change nothing of
// what is told as built: a rib that hardly carries, at whose ends the lines lie, leaves the
// sag as designed, however coarse the mesh is elsewhere.
func TestLinesOfAMarkChangeNothing(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Crosswise.Count, d.Lengthwise.Count = 3, 3 // bays so wide that a line within one counts
	d.TopSkin.Thickness = 4
	d.Cases[0].Loads[0] = Load{Name: "even", Kind: Uniform, Force: 2000}
	r := asBuilt(t, d, Built{Kind: RibUnglued, Part: "L3", From: 395, To: 396})
	drawn := d.Clone()
	p := drawn.WholePanel(2)
	p.Cuts[0] = []float64{395, 396}
	m, err := plate.Prepare(t.Context(), p)
	if err != nil {
		t.Fatal(err)
	}
	mo, _ := modelOf(d, false)
	s, err := m.Solve(t.Context(), []plate.Press{d.Press(Load{Kind: Uniform, Force: mo.weight}), d.Press(d.Cases[0].Loads[0])})
	if err != nil {
		t.Fatal(err)
	}
	c := r.Whole.Cases[0]
	moved := s.Sag(c.X, c.Y) / c.Sag
	if math.Abs(moved-1) < 2e-3 {
		t.Fatalf("the lines move the sag by %.4f; want a case where they count", moved-1)
	}
	near(t, "as built", r.AsBuilt.Sag, r.Cases[0].Sag, 1e-3)
}

// A shallow core between thick skins: the cell alone would leave its ribs less
// than nothing, which no panel can be computed with.
func TestSlotsLeaveSomething(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Length, d.Width, d.CoreDepth = 816, 429, 15.3
	d.TopSkin, d.BottomSkin = Skin{Material: "particleboard-p5", Thickness: 16.1}, Skin{Material: "tropical-3ply", Thickness: 22.9, Across: true}
	d.Lengthwise = RibSet{Material: "osb-3", Thickness: 22.1, Count: 4, Inset: 39.8, Upright: true}
	d.Crosswise = RibSet{Material: "plain", Thickness: 16.1, Count: 9}
	d.Slots.Relief, d.Cases[0].Loads[0].X, d.Cases[0].Loads[0].Y = 0.24, 408, 214
	p := d.WholePanel(1)
	for _, r := range append(p.Along, p.Across...) {
		if !(r.Own > 0 && r.Own < 1 && r.G > 0) {
			t.Errorf("a rib keeps %g of its own, G %g", r.Own, r.G)
		}
	}
	if res := refined(t, d, Interactive); res.Whole == nil {
		t.Errorf("not held: %v", told(res.Problems))
	}
}
