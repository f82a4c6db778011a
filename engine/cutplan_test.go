package engine

import (
	"context"
	"math"
	"reflect"
	"strings"
	"testing"

	"flatwright/engine/length"
	"flatwright/engine/nest"
)

// planned lays a design out and fails where it cannot.
func planned(t *testing.T, d Design) CutPlan {
	t.Helper()
	p, err := PlanCut(context.Background(), d.CutInput(), nil)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// Every part lies on exactly one sheet of its own material and thickness, with
// its own size.
func TestCutPlanHoldsEveryPart(t *testing.T) {
	t.Parallel()
	d := Demo()
	plan := planned(t, d)
	parts := map[string]Part{}
	for _, p := range d.Parts() {
		parts[p.ID] = p
	}
	seen := map[string]int{}
	for _, l := range plan.Sheets() {
		for _, at := range l.Sheet().Parts {
			id := l.Stock.PartOf(at)
			p := parts[id]
			seen[id]++
			long, wide := at.Length, at.Width
			if at.Turned {
				long, wide = wide, long
			}
			if p.Material != l.Stock.Material || p.Thickness != l.Stock.Thickness || math.Abs(long-p.Length) > 0.01 || math.Abs(wide-p.Width) > 0.01 {
				t.Errorf("%s lies on a sheet of %s %g as %g × %g; it is %s %g, %g × %g", id, l.Stock.Material, l.Stock.Thickness, long, wide, p.Material, p.Thickness, p.Length, p.Width)
			}
		}
	}
	for id := range parts {
		if seen[id] != 1 {
			t.Errorf("%s is cut %d times; want once", id, seen[id])
		}
	}
	// By hand: a skin of 1800 × 750 leaves 2438.4 × 466 and 635 × 750 of its
	// sheet, so that the second one needs a sheet of its own; five ribs and eleven
	// half as long are 1800·120·5 + 750·120·11 = 2.07 m² of a sheet's 2.97.
	if n := len(plan.Sheets()); n != 3 {
		t.Errorf("the demo takes %d sheets; want 3", n)
	}
	for _, s := range plan.Stocks {
		if !s.Plan.Bound.Proven || !s.Settled || !s.Assumed {
			t.Errorf("%s %g: proven %v, settled %v, assumed %v; want all three", s.Material, s.Thickness, s.Plan.Bound.Proven, s.Settled, s.Assumed)
		}
	}
}

// The same input gives the same plan, and what is not cut does not change it.
func TestCutPlanIsOfWhatIsCut(t *testing.T) {
	t.Parallel()
	d := Demo()
	in := d.CutInput()
	d.Cases[0].Loads[0].Force *= 2
	d.Limits.Sag = 0.1
	if !reflect.DeepEqual(in, d.CutInput()) {
		t.Error("another load is another input of the layout")
	}
	d.Cutting.Kerf = 2.2
	if reflect.DeepEqual(in, d.CutInput()) {
		t.Error("another saw cut is the same input of the layout")
	}
	if a, b := planned(t, d), planned(t, d); !reflect.DeepEqual(a, b) {
		t.Error("two plans of one design differ")
	}
}

func TestCutPlanUsesWhatIsOnHand(t *testing.T) {
	t.Parallel()
	d := Demo()
	d.Prices = []Price{{"birch-plywood", d.TopSkin.Thickness, 60, UsualSheetLength, UsualSheetWidth}, {"birch-plywood", d.Lengthwise.Thickness, 70, UsualSheetLength, UsualSheetWidth}}
	d.Stock = []Stock{
		{Material: "birch-plywood", Thickness: d.TopSkin.Thickness, Length: 1900, Width: 800, OnHand: 1, Offcut: true},
		{Material: "birch-plywood", Thickness: 30, Length: 1900, Width: 800, OnHand: 1, Offcut: true},
	}
	plan := planned(t, d)
	// By hand: one skin out of the offcut, one out of a sheet at 60, the ribs out
	// of one at 70.
	if cost, known := plan.Cost(); !known || cost != 130 {
		t.Errorf("it costs %g (known %v); want 130", cost, known)
	}
	if n := plan.Stocks[0].Bought(); n != 1 {
		t.Errorf("%d sheets for skins are bought; want 1", n)
	}
	left := d.Leftovers(plan)
	for _, s := range left {
		if s.Length == 1900 && s.Thickness == d.TopSkin.Thickness {
			t.Error("the offcut that is cut up is still on hand")
		}
	}
	if len(left) < 2 || left[0].Thickness != 30 || !strings.Contains(left[1].Name, d.Name) || !left[1].Offcut || left[1].OnHand != 1 {
		t.Errorf("on hand afterwards: %+v; want the untouched sheet, then offcuts of this design", left)
	}
	if d.Stock[0].OnHand != 1 {
		t.Error("looking at what is left has changed the design")
	}
}

func TestCutPlanTellsWhatIsInTheWay(t *testing.T) {
	t.Parallel()
	sheet := func(long, wide float64) []Price {
		return []Price{{"birch-plywood", Demo().TopSkin.Thickness, 60, long, wide}}
	}
	for _, tc := range []struct {
		name   string
		change func(*Design)
		field  string
		want   string
	}{
		{"too short", func(d *Design) { d.Prices = sheet(1700, 1700) }, "stock", "is larger than every sheet listed"},
		{"grain the wrong way", func(d *Design) { d.Prices = sheet(1250, 2500) }, "cutting.free", "turned it would"},
		{"one stage", func(d *Design) { d.Cutting.Stages = 1 }, "cutting.stages", "Allow one stage more"},
	} {
		d := Demo()
		tc.change(&d)
		s := planned(t, d).Stocks[0]
		if s.Field != tc.field || !strings.Contains(s.Trouble, tc.want) || s.Standing() != s.Trouble {
			t.Errorf("%s: %q at %s; want %q at %s", tc.name, s.Trouble, s.Field, tc.want, tc.field)
		}
	}
	d := Demo()
	d.EdgeBand = EdgeBand{Material: Catalogue().Woods[0].Key, Thickness: 20}
	plan := planned(t, d)
	if s := plan.Stocks[len(plan.Stocks)-1]; !s.Boards || s.Trouble == "" {
		t.Errorf("bands of wood with no board listed: boards %v, %q", s.Boards, s.Trouble)
	}
	if _, known := plan.Cost(); known {
		t.Error("the cost is known though no price is")
	}
}

// Where grain may run either way the piece lies as fits.
func TestFreeGrain(t *testing.T) {
	t.Parallel()
	d := Demo()
	d.Prices = []Price{{"birch-plywood", d.TopSkin.Thickness, 60, 1250, 2500}}
	d.Cutting.Free = []string{"top", "bottom"}
	s := planned(t, d).Stocks[0]
	if s.Trouble != "" || len(s.Plan.Sheets) == 0 || !s.Plan.Sheets[0].Parts[0].Turned {
		t.Errorf("skins free to turn on a sheet with its grain across: %q, %d sheets", s.Trouble, len(s.Plan.Sheets))
	}
}

func TestCancelledPlan(t *testing.T) {
	t.Parallel()
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	d := Demo()
	if _, err := PlanCut(ctx, d.CutInput(), nil); err != context.Canceled {
		t.Errorf("a cancelled plan gives %v", err)
	}
}

// The drawing has every part where the plan has it, every sheet apart from the
// others, and every cut with its number.
func TestSheetsDrawing(t *testing.T) {
	t.Parallel()
	d := Demo()
	plan := planned(t, d)
	f := SheetsDrawing(d, plan, SheetsOptions{})
	drawn := map[string]int{}
	for _, a := range f.Areas {
		drawn[a.Part]++
	}
	for _, p := range d.Parts() {
		if drawn[p.ID] != 1 {
			t.Errorf("%s is drawn %d times", p.ID, drawn[p.ID])
		}
	}
	texts := map[string]int{}
	for _, n := range f.Notes {
		texts[n.Text]++
	}
	cuts := 0
	for _, s := range plan.Stocks {
		cuts += len(s.Plan.Cuts)
	}
	if len(f.Lines) != cuts || texts["1"] != len(plan.Sheets()) {
		t.Errorf("%d lines and %d first cuts; want %d and %d", len(f.Lines), texts["1"], cuts, len(plan.Sheets()))
	}
	if texts["top · 1800 mm × 750 mm"] != 1 {
		t.Errorf("the top skin's label is not there: %v", texts)
	}
	with := map[string]int{}
	for _, a := range SheetsDrawing(d, plan, SheetsOptions{Plan: true}).Areas {
		with[a.Part]++
	}
	for _, p := range d.Parts() {
		if with[p.ID] != 2 {
			t.Errorf("%s is drawn %d times with the plan beside the sheets; want twice", p.ID, with[p.ID])
		}
	}
	one := SheetsDrawing(d, plan, SheetsOptions{Only: 3})
	if b := one.Bounds(); math.Abs(b.Width()-UsualSheetLength) > 1e-9 || math.Abs(b.Height()-UsualSheetWidth) > 1e-9 {
		t.Errorf("one sheet alone is drawn %g × %g", b.Width(), b.Height())
	}
	steps := 0
	for _, l := range plan.Sheets() {
		steps += len(CutSteps(l, length.Format{}))
	}
	if steps != cuts {
		t.Errorf("%d steps tell %d cuts", steps, cuts)
	}
}

// The packet prints every sheet, every cut and what there is to buy; without a
// plan nothing of it.
func TestPacketHasTheLayouts(t *testing.T) {
	t.Parallel()
	d := Demo()
	r, err := Estimate(context.Background(), d)
	if err != nil {
		t.Fatal(err)
	}
	plan := planned(t, d)
	titles := func(cut *CutPlan) (out []string) {
		pages, err := Packet(context.Background(), d, r, PacketOptions{Cut: cut})
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range pages {
			out = append(append(out, p.Title), p.Also...)
		}
		return out
	}
	with, without := strings.Join(titles(&plan), "|"), strings.Join(titles(nil), "|")
	for _, want := range []string{"Sheets to buy", "Sheet 1: ", "Sheet 3: ", "Cuts in their order"} {
		if !strings.Contains(with, want) || strings.Contains(without, want) {
			t.Errorf("%q: in the packet with a plan %v, without one %v", want, strings.Contains(with, want), strings.Contains(without, want))
		}
	}
}

// A skin that is cut at a seam is laid out in its pieces, each of which belongs
// to the skin.
func TestCutPlanOfPieces(t *testing.T) {
	t.Parallel()
	d := Demo()
	d.Seams = []Seam{{Skin: TopSeam, At: 700, Spliced: true, Scarf: true}}
	got := map[string]string{}
	for _, l := range planned(t, d).Sheets() {
		for _, at := range l.Sheet().Parts {
			got[l.Stock.PieceOf(at)] = l.Stock.PartOf(at)
		}
	}
	if got["top/1"] != "top" || got["top/2"] != "top" || got["bottom"] != "bottom" || got["L2"] != "L2" {
		t.Errorf("pieces on the sheets and their parts: %v", got)
	}
	if len(got) != len(d.Pieces()) {
		t.Errorf("%d pieces on the sheets; want %d", len(got), len(d.Pieces()))
	}
}

// A search that was stopped has not come to every material: its sum is no cost.
func TestCostOfAnUnfinishedPlanIsNotKnown(t *testing.T) {
	t.Parallel()
	d := Demo()
	d.Prices = nil
	for _, s := range d.CutInput().Stocks() {
		d.Prices = append(d.Prices, Price{Material: s.Material, Thickness: s.Thickness, Length: UsualSheetLength, Width: UsualSheetWidth, Sheet: 50})
	}
	plan := planned(t, d)
	if _, known := plan.Cost(); !known || !plan.Whole() {
		t.Fatalf("a finished plan: known %v, whole %v", known, plan.Whole())
	}
	half := CutPlan{Stocks: append([]StockCut(nil), plan.Stocks...)}
	half.Stocks[len(half.Stocks)-1].Plan = d.CutInput().Stocks()[0].Plan
	if cost, known := half.Cost(); known || half.Whole() {
		t.Errorf("without the last material it costs %g, known %v, whole %v", cost, known, half.Whole())
	}
}

// Offcuts that are used up are no boards, and no sheet is assumed beside them.
func TestOffcutsThatAreGone(t *testing.T) {
	t.Parallel()
	d := Demo()
	d.Prices = nil
	d.Stock = []Stock{{Material: d.TopSkin.Material, Thickness: d.TopSkin.Thickness, Length: 2400, Width: 1200, Offcut: true}}
	for _, s := range planned(t, d).Stocks {
		if s.Material == d.TopSkin.Material && s.Thickness == d.TopSkin.Thickness && !strings.HasPrefix(s.Trouble, "Only offcuts") {
			t.Errorf("of gone offcuts it says %q", s.Trouble)
		}
	}
}

// Of two offcuts of one size whose grain runs differently, the one that is cut up
// is taken off the list.
func TestLeftoversTellGrainsApart(t *testing.T) {
	t.Parallel()
	d := Demo()
	if m, _ := d.Material(d.TopSkin.Material); !m.Grained() {
		t.Fatalf("the demo's skin of %s has no grain", d.TopSkin.Material)
	}
	of := StockCut{Material: d.TopSkin.Material, Thickness: d.TopSkin.Thickness}
	one := Stock{Material: of.Material, Thickness: of.Thickness, Length: 800, Width: 800, OnHand: 1, Offcut: true}
	list := []Stock{one, one}
	list[1].Across = true
	takeOne(list, of, nest.Sheet{Length: 800, Width: 800, Offcut: true, Grain: nest.AlongWidth})
	if list[0].OnHand != 1 || list[1].OnHand != 0 {
		t.Errorf("on hand: along %d, across %d; want 1 and 0", list[0].OnHand, list[1].OnHand)
	}
}
