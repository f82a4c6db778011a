package app

import (
	"strings"
	"testing"

	"flatwright/engine"
)

// Once the parts are laid out the tile says what the sheets to buy cost beside the cost by area,
// holds the larger of both against the limit, and says nothing of a layout that is of
// another design.
func TestCostTileTellsOfWholeSheets(t *testing.T) {
	b := openBench(t, t.TempDir())
	b.session.Edit("prices", "", func(d *engine.Design) {
		for _, s := range d.CutInput().Stocks() {
			d.Stock = append(d.Stock, engine.Stock{Material: s.Material, Thickness: s.Thickness, Length: 2440, Width: 1220, Price: 60})
		}
	})
	b.settle()
	if got := costTile(b.session.Now()).GovernedBy; got != "material by area" {
		t.Errorf("nobody has looked at Cut; the tile says %q", got)
	}
	b.cutAct()
	now := b.session.Now()
	sheets := 60 * len(now.Cut.Plan.Sheets()) // every sheet is bought
	want := "sheets to buy " + fig(float64(sheets))
	tile := costTile(now)
	if !strings.Contains(tile.GovernedBy, "by area") || tile.Brief[1] != want {
		t.Errorf("the tile says %q, in short %q; want %q", tile.GovernedBy, tile.Brief, want)
	}
	found := false
	for _, block := range costBlocks(now) {
		found = found || block.text == "sheets to buy" && block.value == fig(float64(sheets))
	}
	if !found {
		t.Errorf("the card has %+v", costBlocks(now))
	}
	by := now.Result.Cost.Total
	b.session.Edit("limit", "", func(d *engine.Design) { d.Limits.Cost = (by + float64(sheets)) / 2 })
	b.settle()
	if got := costTile(b.session.Now()).State; got != stands(2, 1) {
		t.Errorf("by area within the limit, whole sheets over it: the tile is %v", got)
	}
	b.choose("Go", "Design")
	b.session.Edit("width", "", func(d *engine.Design) { d.Width += 30 })
	b.settle()
	if got := costTile(b.session.Now()).GovernedBy; got != "material by area" {
		t.Errorf("of a wider top, which nobody has laid out, the tile says %q", got)
	}
}
