package draw

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// board is a figure 200 by 100 with the given dimensions. Flattened with
// boardView its upper left corner lands at (50, 50), its lower right at
// (250, 150).
func board(ds ...Dimension) Figure {
	return Figure{
		Areas:      []Area{{Points: rect(0, 0, 200, 100).Corners(), Fill: Skin}},
		Lines:      []Line{{A: Point{-20, 50}, B: Point{220, 50}, Pen: Centre}}, // does not move the dimensions
		Dimensions: ds,
	}
}

var boardView = View{Scale: 1, OriginX: 50, OriginY: 150}

// dimensionItems returns what is drawn of the dimensions alone.
func dimensionItems(f Figure, v View) (lines, arrows, texts []Item) {
	for _, it := range f.Flatten(v, testMetrics).Items {
		switch {
		case it.Shape == Words:
			texts = append(texts, it)
		case it.Shape == Stroke && it.Colour == Pencil:
			lines = append(lines, it)
		case it.Shape == Polygon && it.Colour == Pencil:
			arrows = append(arrows, it)
		}
	}
	return lines, arrows, texts
}

func TestDimensionOnEachSide(t *testing.T) {
	t.Parallel()
	across := Dimension{A: Point{200, 100}, B: Point{0, 100}, Rank: 1, Text: "200"} // B before A: no matter
	upright := Dimension{A: Point{0, 0}, B: Point{0, 100}, Rank: 2, Text: "100"}
	for name, c := range map[string]struct {
		d          Dimension
		side       Side
		line, text Point // line's first end; start of the text's baseline
		angle      float64
	}{
		// Rank 1 is 20 beyond the edge, rank 2 is 40. Text 3·5 = 15 wide,
		// centred, 2 above its line.
		"above": {across, Above, Point{50, 30}, Point{142.5, 28}, 0},
		"below": {across, Below, Point{50, 170}, Point{142.5, 168}, 0},
		"left":  {upright, Left, Point{10, 50}, Point{8, 107.5}, 90},
		"right": {upright, Right, Point{290, 50}, Point{288, 107.5}, 90},
	} {
		c.d.Side = c.side
		lines, arrows, texts := dimensionItems(board(c.d), boardView)
		if len(lines) != 3 || len(arrows) != 2 || len(texts) != 1 {
			t.Errorf("%s: %d lines, %d arrows, %d texts; want 3, 2, 1", name, len(lines), len(arrows), len(texts))
			continue
		}
		// The extension lines come first, then the line itself.
		pointAt(t, name+" line", lines[2].Points[0], c.line)
		pointAt(t, name+" text", texts[0].Points[0], c.text)
		closeTo(t, name+" angle", texts[0].Angle, c.angle)
		closeTo(t, name+" width of the line", lines[2].Width, 1)
		// Arrow heads point at the ends of the line, slim: 8 long, 2 wide.
		for i, a := range arrows {
			pointAt(t, name+" arrow", a.Points[0], lines[2].Points[i])
			b := a.Box()
			closeTo(t, name+" arrow size", math.Max(b.Width(), b.Height()), 8)
			closeTo(t, name+" arrow width", math.Min(b.Width(), b.Height()), 2)
			l := lines[2].Box().Grow(1)
			if !l.Contains(b) {
				t.Errorf("%s: arrow %v points outward", name, b)
			}
		}
	}
}

func TestExtensionLines(t *testing.T) {
	t.Parallel()
	// From 2 beyond the measured point, at y = 50 on the output, to 2 beyond
	// the dimension line at y = 30 - 5.
	lines, _, _ := dimensionItems(board(Dimension{A: Point{0, 100}, B: Point{150, 80}, Side: Above, Rank: 1, Offset: 5, Text: "150"}), boardView)
	if len(lines) != 3 {
		t.Fatalf("%d lines; want 3", len(lines))
	}
	pointAt(t, "start", lines[0].Points[0], Point{50, 48})
	pointAt(t, "end", lines[0].Points[1], Point{50, 23})
	pointAt(t, "start at the deeper point", lines[1].Points[0], Point{200, 68})
	pointAt(t, "line", lines[2].Points[0], Point{50, 25})
	// The chain shares the extension line in its middle: 5 lines for two, not 6.
	lines, _, _ = dimensionItems(board(
		Dimension{A: Point{0, 100}, B: Point{100, 100}, Side: Above, Rank: 1, Text: "100"},
		Dimension{A: Point{100, 100}, B: Point{200, 100}, Side: Above, Rank: 1, Text: "100"}), boardView)
	if len(lines) != 5 {
		t.Errorf("chain of two has %d lines; want 5", len(lines))
	}
}

func TestTightDimensionTurnsItsArrowsOut(t *testing.T) {
	t.Parallel()
	// 12 between the ends, less than three arrows: heads outside, text beyond.
	lines, arrows, texts := dimensionItems(board(Dimension{A: Point{100, 0}, B: Point{112, 0}, Side: Below, Rank: 1, Text: "12.0"}), boardView)
	if len(arrows) != 2 || len(texts) != 1 || len(lines) != 3 {
		t.Fatalf("%d lines, %d arrows, %d texts", len(lines), len(arrows), len(texts))
	}
	if b := arrows[0].Box(); b.Max.X != 150 {
		t.Errorf("left arrow covers %v; want it left of 150", b)
	}
	if b := arrows[1].Box(); b.Min.X != 162 {
		t.Errorf("right arrow covers %v; want it right of 162", b)
	}
	box := texts[0].Box()
	closeTo(t, "text starts a gap beyond the arrow's tail", box.Min.X, 162+16+2)
	line := lines[2].Box()
	if line.Min.X > 150-16 || line.Max.X < box.Max.X {
		t.Errorf("line from %g to %g; want it under arrows and text", line.Min.X, line.Max.X)
	}
	// With something there already it goes to the other end, and then it goes.
	f := board(Dimension{A: Point{100, 0}, B: Point{112, 0}, Side: Below, Rank: 1, Text: "12.0"})
	f.Notes = []Note{{At: Point{140, -15}, Text: "here"}}
	_, _, texts = dimensionItems(f, boardView)
	if len(texts) != 2 || texts[0].Box().Max.X > 150 {
		t.Fatalf("texts = %+v; want the dimension left of its line", texts)
	}
	lines, _, _ = dimensionItems(f, boardView)
	closeTo(t, "right arrow's tail", lines[2].Box().Max.X, 162+16)
	closeTo(t, "left end, under the text", lines[2].Box().Min.X, texts[0].Box().Min.X)
	f.Notes = append(f.Notes, Note{At: Point{75, -15}, Text: "there"})
	lines, _, texts = dimensionItems(f, boardView)
	if len(texts) != 2 || len(lines) != 0 {
		t.Errorf("%d texts, %d lines; want the notes only", len(texts), len(lines))
	}
}

func TestTightDimensionKeepsOffItsNeighbours(t *testing.T) {
	t.Parallel()
	// A chain 12, 12, 176: the two tight ones have room only at the outer end,
	// and there is room for one.
	chain := board(
		Dimension{A: Point{0, 0}, B: Point{12, 0}, Side: Below, Rank: 1, Text: "12.1", Part: "a"},
		Dimension{A: Point{12, 0}, B: Point{24, 0}, Side: Below, Rank: 1, Text: "12.2", Part: "b"},
		Dimension{A: Point{24, 0}, B: Point{200, 0}, Side: Below, Rank: 1, Text: "176", Part: "c"})
	_, _, texts := dimensionItems(chain, boardView)
	var parts []string
	for _, it := range texts {
		parts = append(parts, it.Part)
	}
	if !slices.Equal(parts, []string{"c", "a"}) {
		t.Errorf("kept %v; want c and a", parts)
	}
}

func TestRankZeroRunsBetween(t *testing.T) {
	t.Parallel()
	lines, arrows, texts := dimensionItems(board(Dimension{A: Point{40, 30}, B: Point{160, 30}, Text: "120"}), boardView)
	if len(lines) != 1 || len(arrows) != 2 || len(texts) != 1 {
		t.Fatalf("%d lines, %d arrows, %d texts; want 1, 2, 1", len(lines), len(arrows), len(texts))
	}
	pointAt(t, "line", lines[0].Points[0], Point{90, 120})
	pointAt(t, "line", lines[0].Points[1], Point{210, 120})
}

func TestBiggestStays(t *testing.T) {
	t.Parallel()
	// Both on one line, one text over the other: the longer stays, whatever
	// the order, and the shorter goes with its lines.
	long := Dimension{A: Point{0, 100}, B: Point{110, 100}, Side: Above, Rank: 1, Text: "long and wide", Part: "long"}
	short := Dimension{A: Point{5, 100}, B: Point{105, 100}, Side: Above, Rank: 1, Text: "short and wide", Part: "short"}
	for _, ds := range [][]Dimension{{long, short}, {short, long}} {
		lines, _, texts := dimensionItems(board(ds...), boardView)
		if len(texts) != 1 || texts[0].Part != "long" || len(lines) != 3 {
			t.Errorf("texts = %+v, %d lines; want the longer alone", texts, len(lines))
		}
	}
}

func TestTextStepsAside(t *testing.T) {
	t.Parallel()
	outer := Dimension{A: Point{0, 100}, B: Point{200, 100}, Side: Above, Rank: 2, Text: "200"}
	_, _, texts := dimensionItems(board(outer), boardView)
	closeTo(t, "alone: in the middle", texts[0].Box().Centre().X, 150)
	f := board(outer)
	f.Notes = []Note{{At: Point{100, 148}, Text: "in the way", Anchor: AtMiddle}}
	_, _, texts = dimensionItems(f, boardView)
	if len(texts) != 2 {
		t.Fatalf("%d texts; want both", len(texts))
	}
	if c := texts[0].Box().Centre().X; c != 150-(200-15-2)/4.0 {
		t.Errorf("text stands at %g; want it a quarter of the room to the left", c)
	}
	// With more in the way it goes on: a quarter to the right, then half of the
	// room to the left, then right.
	taken := []float64{100 - 183.0/4, 100 + 183.0/4, 100 - 183.0/2, 100 + 183.0/2}
	for i, x := range taken {
		_, _, texts = dimensionItems(f, boardView)
		if len(texts) < 1 || texts[0].Text != "200" {
			t.Fatalf("with %d notes the dimension went", i+1)
		}
		closeTo(t, "text's place", texts[0].Box().Centre().X, 50+x)
		f.Notes = append(f.Notes, Note{At: Point{x, 148}, Text: "x"})
	}
	if _, _, texts = dimensionItems(f, boardView); texts[0].Text == "200" {
		t.Error("the dimension stays without room")
	}
	// A mark is avoided as well.
	f = board(outer)
	f.Marks = []Mark{{At: Point{100, 130}, Kind: LoadMark}}
	_, _, texts = dimensionItems(f, boardView)
	if len(texts) != 1 || texts[0].Box().Centre().X == 150 {
		t.Errorf("text = %+v; want it beside the load", texts)
	}
}

func TestZoomedTextStaysInSight(t *testing.T) {
	t.Parallel()
	// Only the left part of the line shows, from 50 to 120.
	v := boardView
	v.Clip = rect(0, 0, 120, 400)
	lines, arrows, texts := dimensionItems(board(Dimension{A: Point{0, 100}, B: Point{200, 100}, Side: Above, Rank: 1, Text: "200"}), v)
	if len(texts) != 1 || len(arrows) != 1 || len(lines) != 2 {
		t.Fatalf("%d lines, %d arrows, %d texts; want 2, 1, 1: no end, no arrow", len(lines), len(arrows), len(texts))
	}
	closeTo(t, "text in the middle of what shows", texts[0].Box().Centre().X, 85)
	// A line that is out of sight has no text, though text would fit.
	v.Clip = rect(0, 35, 400, 400)
	if lines, _, texts := dimensionItems(board(Dimension{A: Point{0, 100}, B: Point{200, 100}, Side: Above, Rank: 1, Text: "200"}), v); len(texts)+len(lines) > 0 {
		t.Errorf("%d texts, %d lines of a dimension out of sight", len(texts), len(lines))
	}
	v.Clip = rect(255, 0, 400, 400)
	if _, _, texts := dimensionItems(board(Dimension{A: Point{0, 100}, B: Point{200, 100}, Side: Above, Rank: 1, Text: "200"}), v); len(texts) > 0 {
		t.Errorf("%d texts of a line left of sight", len(texts))
	}
}

// randomDimensions returns a figure full of dimensions.
func randomDimensions(rng *rand.Rand) Figure {
	f := board()
	for range 1 + rng.IntN(30) {
		f.Dimensions = append(f.Dimensions, Dimension{
			A: Point{rng.Float64() * 200, rng.Float64() * 100}, B: Point{rng.Float64() * 200, rng.Float64() * 100},
			Side: Side(rng.IntN(4)), Rank: rng.IntN(4), Text: "1234567"[:1+rng.IntN(7)],
		})
	}
	for range rng.IntN(4) {
		f.Notes = append(f.Notes, Note{At: Point{rng.Float64()*300 - 50, rng.Float64()*200 - 50}, Text: "note"})
	}
	return f
}

func TestDimensionTextsNeverOverlap(t *testing.T) {
	t.Parallel()
	rng := rand.New(rand.NewPCG(9, 10))
	kept, asked := 0, 0
	for round := range 400 {
		f := randomDimensions(rng)
		v := View{
			Scale: math.Exp(rng.Float64()*3 - 1.5), OriginX: rng.Float64() * 200, OriginY: 100 + rng.Float64()*200,
			Clip: rect(0, 0, 400, 300),
		}
		_, _, texts := dimensionItems(f, v)
		asked += len(f.Dimensions)
		notes := 0
		for i, a := range texts {
			if a.Text == "note" {
				notes++
				continue // notes are the caller's
			}
			if !v.Clip.Contains(a.Box()) {
				t.Fatalf("round %d: %q leaves the clip", round, a.Text)
			}
			for j, b := range texts {
				if i != j && a.Box().Overlaps(b.Box()) {
					t.Fatalf("round %d: %q %v overlaps %q %v", round, a.Text, a.Box(), b.Text, b.Box())
				}
			}
		}
		kept += len(texts) - notes
	}
	// Most have no room in such a crowd, but far from all.
	if kept < asked/8 {
		t.Errorf("kept %d of %d; dropping all would be no feat", kept, asked)
	}
}

// The longest dimension is placed first, so adding shorter ones never moves or
// drops it.
func TestLongestIsIndependentOfTheOthers(t *testing.T) {
	t.Parallel()
	rng := rand.New(rand.NewPCG(11, 12))
	checked := 0
	for range 300 {
		f := randomDimensions(rng)
		f.Notes = nil
		length := func(d Dimension) float64 {
			if d.Side == Left || d.Side == Right {
				return math.Abs(d.A.Y - d.B.Y)
			}
			return math.Abs(d.A.X - d.B.X)
		}
		longest := slices.MaxFunc(f.Dimensions, func(a, b Dimension) int {
			if length(a) < length(b) {
				return -1
			}
			return 1
		})
		v := boardView
		v.Clip = rect(-50, -50, 350, 250)
		_, _, alone := dimensionItems(board(longest), v)
		_, _, among := dimensionItems(f, v)
		if len(alone) == 0 {
			continue
		}
		if len(among) == 0 {
			t.Fatal("the longest dimension was dropped")
		}
		// Alone it never meets a neighbour; among others in its row its text
		// may only be over its own line.
		if b := alone[0].Box(); b.Width() < length(longest)-10 || b.Height() < length(longest)-10 {
			checked++
			pointAt(t, "longest", among[0].Points[0], alone[0].Points[0])
		}
	}
	if checked < 100 {
		t.Errorf("checked %d rounds only", checked)
	}
}

func TestMarginsMakeRoomForDimensions(t *testing.T) {
	t.Parallel()
	f := board()
	for _, side := range []Side{Above, Below, Left, Right} {
		for rank := 1; rank <= 3; rank++ {
			f.Dimensions = append(f.Dimensions, Dimension{
				A: Point{0, 0}, B: Point{200, 100}, Side: side, Rank: rank, Offset: float64(rank), Text: "12",
			})
		}
	}
	f.Lines = nil
	m := f.Margins(testMetrics)
	for _, size := range []Point{{500, 400}, {900, 400}, {400, 900}} {
		v := Fit(f.Bounds(), size.X, size.Y, m)
		_, arrows, texts := dimensionItems(f, v)
		if len(texts) != 12 || len(arrows) != 24 {
			t.Errorf("%v: %d texts and %d arrows; want 12 and 24", size, len(texts), len(arrows))
		}
	}
	if got := (Figure{Dimensions: []Dimension{{Text: "0"}}}).Margins(testMetrics); got != (Margins{8, 8, 8, 8}) {
		t.Errorf("margins without ranks = %+v; want an arrow all round", got)
	}
}

func TestDimensionsWithoutAnObject(t *testing.T) {
	t.Parallel()
	f := Figure{
		Lines:      []Line{{A: Point{0, 0}, B: Point{100, 0}, Pen: Outline}},
		Dimensions: []Dimension{{A: Point{0, 0}, B: Point{100, 0}, Side: Above, Rank: 1, Text: "100"}},
	}
	lines, _, _ := dimensionItems(f, View{Scale: 1, OriginY: 50})
	if len(lines) != 3 || lines[2].Points[0] != (Point{0, 30}) {
		t.Errorf("lines = %+v; want the last at y = 30, counted from the line", lines)
	}
}
