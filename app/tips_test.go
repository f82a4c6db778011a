package app

import (
	"strings"
	"testing"

	"flatwright/engine"
	"flatwright/engine/length"
	"flatwright/widgets"
)

// tipping is a top whose load hangs far beyond its supports.
func tipping() engine.Design {
	d := smallDesign()
	d.Supports = engine.Supports{Kind: engine.RailsAcross, EndInset: d.Length * 0.4, Bearing: 40}
	d.Cases = []engine.LoadCase{{Name: "Far end", Duration: engine.ShortTerm, Loads: []engine.Load{
		{Name: "anvil", Kind: engine.Patch, Force: 900, X: 50, Y: d.Width / 2, SizeX: 80, SizeY: 80},
	}}}
	return d
}

// A top that tips says so at the tiles, above the drawing and with the results,
// and shows no sag, no margin and no map as if it stood.
func TestTippingIsSaidInWords(t *testing.T) {
	b := openBench(t, t.TempDir())
	b.session.compute = compute
	b.session.Open(tipping(), "")
	b.settle()
	s := b.session.Now()
	for _, i := range []int{0, 2} {
		if tile := b.view.strip.tiles[i].Data(); tile.Value != "tips" || tile.State != widgets.Over || tile.Unit != "" {
			t.Errorf("the tile %s shows %q %s, %v; want that it tips", tile.Title, tile.Value, tile.Unit, tile.State)
		}
	}
	if text := drawingNote(s); !strings.Contains(text, "Nothing holds the top down under “Far end”") {
		t.Errorf("above the drawing stands %q", text)
	}
	cards := resultCards(s)
	if text := words(cardNamed(t, cards, "Sag").blocks); !strings.Contains(text, "The top tips") {
		t.Errorf("the card Sag says %q", text)
	}
	for _, c := range cards {
		if c.title == "Margins" || c.title == "Supports" {
			t.Errorf("a top that tips has a card %s", c.title)
		}
	}
	for _, l := range b.view.drawing.board.Figure().Lines {
		if l.Part == engine.SaggedPart {
			t.Error("a top that tips is drawn sagged")
			break
		}
	}
	b.session.Undo()
	b.session.Open(smallDesign(), "")
	b.settle()
	if tile, note := b.view.strip.tiles[0].Data(), drawingNote(b.session.Now()); tile.Value == "tips" || note != "" {
		t.Errorf("a top that stands: tile %q, note %q", tile.Value, note)
	}
}

// The tile names the part that gives way most, by the whole panel's energies:
// in handmade shares of the work the largest that is not the supports'.
func TestSagTileNamesWhatGivesWay(t *testing.T) {
	s := wholeMade()
	g := s.Result.Cases[s.Result.Governing].Name
	s.Result.Whole.Work.Shares = []engine.WorkShare{
		{Name: "supports sinking in", Part: engine.SupportPart, Share: 0.5},
		{Name: "top skin, stretching", Part: "top", Share: 0.31},
		{Name: "lengthwise ribs, shear", Part: string(engine.LengthwisePart), Share: 0.19},
	}
	if got, want := sagTile(s).GovernedBy, g+", 31 % top skin, stretching"; got != want {
		t.Errorf("the tile says %q; want %q", got, want)
	}
	s.Result.Whole = nil
	if got := sagTile(s).GovernedBy; !strings.Contains(got, "by formula") {
		t.Errorf("without the whole panel the tile says %q; want that it is a formula's", got)
	}
}

// Pounds beside inches: 23 kg are 50.7 lb.
func TestProblemsInPounds(t *testing.T) {
	p := engine.Problem{Text: "The top weighs 33.2 kg: more than 23 kg is a lift for two people or a hoist."}
	if got, want := problemText(p, length.Format{Imperial: true, Denominator: 16}), "The top weighs 73.2 lb: more than 50.7 lb is a lift for two people or a hoist."; got != want {
		t.Errorf("in inches: %q; want %q", got, want)
	}
	if got := problemText(p, length.Format{}); got != p.Text {
		t.Errorf("in mm: %q", got)
	}
}
