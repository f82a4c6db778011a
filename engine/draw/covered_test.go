package draw

import "testing"

// No text stands where something covers the plane; a dimension whose text has no
// room at one end takes the other.
func TestNoTextUnderWhatCovers(t *testing.T) {
	t.Parallel()
	m := ScreenMetrics(func(text string, size float64, _ bool) float64 { return size * float64(len(text)) / 2 })
	f := Figure{
		Areas:      []Area{{Points: Rect{Max: Point{100, 100}}.Corners(), Pen: Outline}},
		Notes:      []Note{{At: Point{95, 5}, Text: "under"}, {At: Point{50, 50}, Text: "free"}},
		Dimensions: []Dimension{{A: Point{100, 40}, B: Point{100, 45}, Side: Right, Rank: 1, Text: "5 mm"}},
	}
	v := Fit(f.Bounds(), 300, 300, Margins{40, 40, 60, 40})
	texts := func(v View) map[string]Rect {
		out := map[string]Rect{}
		for _, it := range f.Flatten(v, m).Items {
			if it.Shape == Words {
				out[it.Text] = it.Box()
			}
		}
		return out
	}
	open := texts(v)
	if len(open) != 3 || open["5 mm"].Min.Y < v.Map(Point{0, 45}).Y {
		t.Fatalf("with nothing on it the texts are %v", open)
	}
	v.Covered = Rect{Min: Point{200, v.Map(Point{0, 40}).Y}, Max: Point{300, 300}}
	covered := texts(v)
	if _, there := covered["under"]; there || len(covered) != 2 {
		t.Errorf("below what covers the texts are %v", covered)
	}
	if covered["5 mm"].Max.Y > v.Map(Point{0, 45}).Y {
		t.Errorf("the dimension's text stands at %v; want it at its other end", covered["5 mm"])
	}
}

// The lines of a dimension stop where a note stands.
func TestDimensionsStopAtNotes(t *testing.T) {
	t.Parallel()
	m := ScreenMetrics(func(text string, size float64, _ bool) float64 { return size * float64(len(text)) / 2 })
	f := Figure{
		Areas:      []Area{{Points: Rect{Max: Point{100, 20}}.Corners(), Pen: Outline}},
		Notes:      []Note{{At: Point{0, -4}, Anchor: AtTop, Text: "0.05", Ground: Sheet}},
		Dimensions: []Dimension{{B: Point{X: 100}, Side: Below, Rank: 2, Text: "100 mm"}},
	}
	items := f.Flatten(Fit(f.Bounds(), 400, 200, Margins{40, 40, 40, 60}), m).Items
	var note Rect
	for _, it := range items {
		if it.Text == "0.05" {
			note = it.Box()
		}
	}
	cut := 0
	for _, it := range items {
		if it.Shape == Stroke && it.Width == m.Stroke(DimensionPen) && len(it.Points) == 2 && it.Points[0].X == it.Points[1].X {
			cut++
			if it.Box().Grow(-0.01).Overlaps(note) {
				t.Errorf("an extension line from %v to %v crosses the note in %v", it.Points[0], it.Points[1], note)
			}
		}
	}
	if cut < 3 { // one whole, one in two pieces
		t.Errorf("%d pieces of extension lines; want 3", cut)
	}
}
