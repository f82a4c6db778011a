package widgets

import (
	"image"
	"image/color"
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"flatwright/engine/draw"
)

func TestShareBarPieces(t *testing.T) {
	test.NewTempApp(t)
	b := NewShareBar()
	w := test.NewTempWindow(t, b)
	w.Resize(fyne.NewSize(420, 60))
	b.SetSegments([]ShareSegment{
		{Share: 0.5, Fill: draw.Skin},
		{Share: 0.25, Fill: draw.Skin, Hatch: draw.HatchSlash},
		{Share: 0.248, Fill: draw.Skin, Hatch: draw.HatchBackslash},
		{Share: 0.002, Fill: draw.Skin},
	})
	// Shares of 1 in all, on 400 wide.
	for i, want := range [][2]float32{{0, 200}, {200, 300}, {300, 399.2}, {399.2, 400}} {
		from, to := b.span(i, 400)
		if math.Abs(float64(from-want[0])) > 1e-3 || math.Abs(float64(to-want[1])) > 1e-3 {
			t.Errorf("piece %d lies from %v to %v; want %v", i, from, to, want)
		}
	}
	r := test.WidgetRenderer(b).(*shareRenderer)
	for i, want := range []bool{false, false, false, true} {
		if r.numbers[i].Hidden != want {
			t.Errorf("number of piece %d is hidden: %v; want %v", i+1, r.numbers[i].Hidden, want)
		}
	}
	if r.numbers[2].Text != "3" {
		t.Errorf("the third piece has number %q", r.numbers[2].Text)
	}
	if !r.frame.Hidden {
		t.Error("a piece is framed though none is lit")
	}
	b.Light(1)
	width := b.Size().Width
	if r.frame.Hidden || math.Abs(float64(r.frame.Position().X-width/2)) > 0.5 || math.Abs(float64(r.frame.Size().Width-width/4)) > 0.5 {
		t.Errorf("the frame is at %v, %v; want the second quarter from the middle of %v", r.frame.Position(), r.frame.Size(), width)
	}
	b.Light(9)
	if !r.frame.Hidden {
		t.Error("a piece that is not there is framed")
	}
}

// In grey the pieces must still be told apart: by lines between them, and by
// hatches that rise or fall.
func TestShareBarIsReadInGrey(t *testing.T) {
	test.NewTempApp(t)
	b := NewShareBar()
	b.Resize(fyne.NewSize(300, shareHeight))
	b.SetSegments([]ShareSegment{{Share: 1, Fill: draw.Sheet}, {Share: 1, Fill: draw.Sheet, Hatch: draw.HatchSlash}, {Share: 1, Fill: draw.Sheet, Hatch: draw.HatchBackslash}})
	img := test.WidgetRenderer(b).(*shareRenderer).paint(300, shareHeight).(*image.RGBA)
	grey := func(x, y int) uint8 { return color.GrayModel.Convert(img.At(x, y)).(color.Gray).Y }
	ground := grey(50, shareHeight/2)
	for _, x := range []int{0, 100, 200, 299} {
		if grey(x, shareHeight/2) == ground {
			t.Errorf("no line at %d", x)
		}
	}
	// along counts how much of a diagonal is darker than the ground at most.
	along := func(from int, rise int) (most int) {
		for x := from + 10; x < from+60; x++ {
			n := 0
			for k := range 20 {
				if grey(x+k, 14-rise*(k-10)) != ground {
					n++
				}
			}
			most = max(most, n)
		}
		return most
	}
	for _, tc := range []struct {
		name       string
		from, rise int
		want       bool
	}{{"plain", 1, 1, false}, {"slash rising", 101, 1, true}, {"slash falling", 101, -1, false}, {"backslash rising", 201, 1, false}, {"backslash falling", 201, -1, true}} {
		if got := along(tc.from, tc.rise) == 20; got != tc.want {
			t.Errorf("%s: a whole line along the diagonal: %v; want %v", tc.name, got, tc.want)
		}
	}
}

func TestShareBarTakesNoNonsense(t *testing.T) {
	test.NewTempApp(t)
	b := NewShareBar()
	b.Resize(fyne.NewSize(300, shareHeight))
	for _, s := range [][]ShareSegment{nil, {{Share: 0}}, {{Share: -1}, {Share: 1}}} {
		b.SetSegments(s)
		test.WidgetRenderer(b).(*shareRenderer).paint(300, shareHeight)
		for i := range s {
			from, to := b.span(i, 300)
			if !(from >= 0 && to >= from && to <= 300) {
				t.Errorf("%v: piece %d from %v to %v", s, i, from, to)
			}
		}
	}
}

// Bars in several widgets share scale and room for words.
func TestBarsAmongOthers(t *testing.T) {
	test.NewTempApp(t)
	long := BarRow{Label: "b", Down: -2, DownText: "−2.000 000 mm", Up: 1, UpText: "1"}
	short := BarRow{Label: "a", Down: -1, DownText: "−1", Up: 0.5, UpText: "0.5"}
	together, alone := NewBars(), NewBars()
	for _, b := range []*Bars{together, alone} {
		b.Resize(fyne.NewSize(300, 200))
	}
	together.SetRows([]BarRow{short, long})
	alone.SetRowsAmong([]BarRow{short}, []BarRow{long, short})
	want := test.WidgetRenderer(together).(*barsRenderer).rows[0]
	got := test.WidgetRenderer(alone).(*barsRenderer).rows
	if len(got) != 1 {
		t.Fatalf("%d rows; want 1", len(got))
	}
	for i := range 2 {
		if got[0].bars[i].Size() != want.bars[i].Size() || got[0].bars[i].Position() != want.bars[i].Position() || got[0].texts[i].Position() != want.texts[i].Position() {
			t.Errorf("bar %d at %v %v; want %v %v as among the others", i, got[0].bars[i].Position(), got[0].bars[i].Size(), want.bars[i].Position(), want.bars[i].Size())
		}
	}
}

func TestStaleBarsAreInPencil(t *testing.T) {
	test.NewTempApp(t)
	b := NewBars()
	b.SetRows([]BarRow{{Label: "a", Down: -1, Up: 1}})
	r := test.WidgetRenderer(b).(*barsRenderer)
	for _, stale := range []bool{false, true, false} {
		b.SetStale(stale)
		want, label := ColorAccent, ColorInk
		if stale {
			want, label = ColorPencil, ColorPencil
		}
		if r.rows[0].bars[1].FillColor != ThemeColor(want, b) || r.rows[0].label.colour != label {
			t.Errorf("stale %v: bar %v, words in %s", stale, r.rows[0].bars[1].FillColor, r.rows[0].label.colour)
		}
	}
}
