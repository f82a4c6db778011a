package engine

import (
	"strings"
	"testing"
)

// The demo's sheets are bought whole: of every layout what is to buy costs its number of sheets, and more
// than the material by area. What is on hand costs nothing more; without every price it is not known.
func TestSheetCost(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Stock = []Stock{{Material: "plain", Thickness: 9, Length: 2440, Width: 1220, Price: 50},
		{Material: "plain", Thickness: 6, Length: 2440, Width: 1220, Price: 40}, {Material: "plain", Thickness: 12, Length: 2440, Width: 1220, Price: 64}}
	with := func(d Design) CostReport {
		plan, err := PlanCut(t.Context(), d.CutInput(), nil)
		if err != nil {
			t.Fatal(err)
		}
		return compute(t, d).Cost.With(plan)
	}
	// One sheet of each: 1.6 × .7 m twice and 0.45 m² of ribs at most on 2.98 m².
	c := with(d)
	if c.Sheets == nil || *c.Sheets != 50+40+64 {
		t.Fatalf("sheets to buy cost %v; want 154", c.Sheets)
	}
	if !(c.Total < 154) || c.Most() != 154 {
		t.Errorf("by area %g, most %g", c.Total, c.Most())
	}
	if line := c.Line(); !strings.HasSuffix(line, "The sheets to buy cost 154.") || !strings.HasPrefix(line, "Material by area, at your prices: ") {
		t.Errorf("told as %q", line)
	}
	if got := c.over(150); got != " That is 4 over the limit of 150." || c.over(154) != "" || c.over(0) != "" {
		t.Errorf("against a limit of 150: %q", got)
	}
	d.Stock[0].OnHand = 1
	if c := with(d); c.Sheets == nil || *c.Sheets != 40+64 {
		t.Errorf("with one of 9 mm on hand %v; want 104", c.Sheets)
	}
	d.Stock[2].Price = 0
	if c := with(d); c.Sheets != nil || c.Most() != c.Total || !strings.Contains(c.Line(), "at least") {
		t.Errorf("without the price of 12 mm: %+v, %q", c, c.Line())
	}
	if line := (CostReport{}).Line(); !strings.Contains(line, "once its sheets have prices") {
		t.Errorf("without prices %q", line)
	}
}

func BenchmarkCutInput(b *testing.B) {
	d := Demo()
	for b.Loop() {
		d.CutInput()
	}
}
