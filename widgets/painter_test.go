package widgets

import (
	"image/color"
	"math"
	"slices"
	"testing"

	"fyne.io/fyne/v2/canvas"

	"flatwright/engine/draw"
)

func black(draw.Fill) color.Color { return color.Black }

// The toolkit wants the corners of a polygon clockwise.
func TestPainterTurnsPolygonsClockwise(t *testing.T) {
	app(t)
	corners := []draw.Point{{X: 10, Y: 20}, {X: 60, Y: 20}, {X: 30, Y: 90}}
	for range 2 {
		var p painter
		objects := p.draw([]draw.Item{{Shape: draw.Polygon, Points: corners, Colour: draw.Ink}}, black, 1)
		o := objects[0].(*canvas.ArbitraryPolygon)
		var got []draw.Point
		for _, q := range o.Points {
			at := o.Position().Add(q)
			got = append(got, draw.Point{X: float64(at.X), Y: float64(at.Y)})
		}
		// With y down, (10,20) (60,20) (30,90) is clockwise: area
		// ½·((10·20-60·20)+(60·90-30·20)+(30·20-10·90)) = +1750.
		area := 0.0
		for i, a := range got {
			b := got[(i+1)%len(got)]
			area += (a.X*b.Y - b.X*a.Y) / 2
		}
		if area != 1750 {
			t.Errorf("corners %v enclose %v; want 1750, clockwise", got, area)
		}
		slices.Reverse(corners)
	}
}

func TestPainterPutsTextOnItsBaseline(t *testing.T) {
	app(t)
	var p painter
	item := draw.Item{Shape: draw.Words, Text: "Rib", Size: 20, Points: []draw.Point{{X: 30, Y: 80}}, Colour: draw.Ink}
	text := p.draw([]draw.Item{item}, black, 1)[0].(*canvas.Text)
	top := text.Position()
	// The baseline lies between two thirds of the em and the foot of the line.
	if up := 80 - top.Y; top.X != 30 || up < 0.66*20 || up > text.MinSize().Height {
		t.Errorf("text at %v for a baseline from (30, 80)", top)
	}
}

func TestPainterCutsDashes(t *testing.T) {
	app(t)
	var p painter
	item := draw.Item{
		Shape: draw.Stroke, Points: []draw.Point{{}, {X: 100}}, Width: 1,
		Dash: []float64{12, 3}, Colour: draw.Ink,
	}
	objects := p.draw([]draw.Item{item}, black, 1)
	// 100 = 6·15 + 10: six whole dashes and one of 10.
	if len(objects) != 7 {
		t.Fatalf("%d lines; want 7 dashes", len(objects))
	}
	last := objects[6].(*canvas.Line)
	if got := last.Position2.X - last.Position1.X; math.Abs(float64(got)-10) > 1e-4 {
		t.Errorf("the last dash is %v long; want 10", got)
	}
}

func TestPainterShowsWhatIsThinnerThanAPixel(t *testing.T) {
	app(t)
	var p painter
	item := draw.Item{Shape: draw.Polygon, Points: box(10, 10, 10.05, 90), Colour: draw.Ink}
	if got := p.draw([]draw.Item{item}, black, 2)[0].Size().Width; got != 0.5 {
		t.Errorf("at scale 2 a part of 0.05 shows %v wide; want one pixel, 0.5", got)
	}
}

func TestPainterGathersHatches(t *testing.T) {
	app(t)
	var items []draw.Item
	for _, part := range []string{"a", "b"} {
		for i := range 10 {
			x := float64(10 * i)
			items = append(items, draw.Item{
				Shape: draw.Stroke, Points: []draw.Point{{X: x}, {X: x + 8, Y: 8}}, Width: 1, Colour: draw.Pencil, Part: part,
			})
		}
	}
	var p painter
	objects := p.draw(items, black, 1)
	if n := countObjects(objects); n["raster"] != 2 || len(objects) != 2 {
		t.Errorf("two hatches became %v; want a raster each", n)
	}
	img := objects[0].(*canvas.Raster)
	if img.Size().Width != 98 || img.Size().Height != 8 {
		t.Errorf("the hatch is %v; want 98 by 8", img.Size())
	}
}
