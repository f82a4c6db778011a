package widgets

import (
	"image"
	"image/color"
	"math"
	"math/rand/v2"
	"testing"

	"fyne.io/fyne/v2"

	"flatwright/engine/draw"
)

// inked sums the opacity of img, in pixels.
func inked(img *image.RGBA) float64 {
	sum := 0.0
	for i := 3; i < len(img.Pix); i += 4 {
		sum += float64(img.Pix[i]) / 255
	}
	return sum
}

// A polygon inks as many pixels as its area by the shoelace formula.
func TestFillPolygonArea(t *testing.T) {
	for _, c := range []struct {
		name   string
		points []draw.Point
		area   float64
	}{
		{"square on the grid", []draw.Point{{X: 2, Y: 3}, {X: 12, Y: 3}, {X: 12, Y: 13}, {X: 2, Y: 13}}, 100},
		{"square off the grid", []draw.Point{{X: 2.5, Y: 3.5}, {X: 12.5, Y: 3.5}, {X: 12.5, Y: 13.5}, {X: 2.5, Y: 13.5}}, 100},
		// Half of 20 times 16.
		{"triangle", []draw.Point{{X: 1, Y: 1}, {X: 21, Y: 1}, {X: 6, Y: 17}}, 160},
		// A square of 20 less the triangle of 20 by 10 cut into it.
		{"notched", []draw.Point{{X: 1, Y: 1}, {X: 21, Y: 1}, {X: 11, Y: 11}, {X: 21, Y: 21}, {X: 1, Y: 21}}, 300},
	} {
		img := image.NewRGBA(image.Rect(0, 0, 24, 24))
		fillPolygon(img, c.points, color.Black)
		if got := inked(img); math.Abs(got-c.area) > 0.015*c.area {
			t.Errorf("%s: %.1f pixels inked; want %v", c.name, got, c.area)
		}
	}
}

// A line inks length times width, whichever way it runs.
func TestStrokeLineInk(t *testing.T) {
	for _, b := range []draw.Point{{X: 50, Y: 50}, {X: 50, Y: 25}, {X: 25, Y: 50}, {X: 50, Y: 10}, {X: 10, Y: 50}} {
		for _, width := range []float64{0.5, 1, 2, 3} {
			a := draw.Point{X: 10, Y: 10}
			for _, ends := range [][2]draw.Point{{a, b}, {b, a}} {
				img := image.NewRGBA(image.Rect(0, 0, 60, 60))
				strokeLine(img, ends[0], ends[1], width, color.Black)
				want := math.Hypot(b.X-a.X, b.Y-a.Y) * width
				if got := inked(img); math.Abs(got-want) > 0.03*want {
					t.Errorf("line %v, %v wide: %.1f pixels inked; want %.1f", ends, width, got, want)
				}
			}
		}
	}
}

func TestStrokeLineOutsideTheImage(t *testing.T) {
	img := image.NewRGBA(image.Rect(0, 0, 10, 10))
	strokeLine(img, draw.Point{X: -50, Y: -60}, draw.Point{X: -5, Y: 80}, 2, color.Black)
	strokeLine(img, draw.Point{X: 5, Y: 5}, draw.Point{X: 5, Y: 5}, 2, color.Black)
	if got := inked(img); got != 0 {
		t.Errorf("%v pixels inked by lines beside the image or of no length; want 0", got)
	}
}

func TestBlendKeepsTheGround(t *testing.T) {
	img := image.NewRGBA(image.Rect(0, 0, 1, 1))
	blend(img, 0, 0, color.White, 1)
	blend(img, 0, 0, color.NRGBA{R: 255, A: 128}, 0.5) // a quarter of red over white
	got := img.RGBAAt(0, 0)
	// Green and blue keep three quarters: 0.749*255 = 191.
	if got.R != 255 || got.A != 255 || got.G < 190 || got.G > 192 || got.B != got.G {
		t.Errorf("a quarter of red over white is %v; want 255 191 191 255", got)
	}
}

// The end of a text that runs upward is at the top.
func TestTurn(t *testing.T) {
	img := image.NewRGBA(image.Rect(0, 0, 3, 2))
	img.Set(2, 0, color.White) // upper right corner
	out := turn(img)
	if out.Bounds() != image.Rect(0, 0, 2, 3) || out.RGBAAt(0, 0).A != 255 || inked(out) != 1 {
		t.Errorf("a quarter turn put the upper right corner elsewhere than to the upper left: %v", out.Pix)
	}
}

func TestTurnedTextIsCrispAndKept(t *testing.T) {
	app(t)
	var turned turnedTexts
	it := draw.Item{Shape: draw.Words, Text: "3′ 11 1/4″", Size: 11, Angle: 90, Points: []draw.Point{{X: 40, Y: 90}}}
	size := fyne.MeasureText(it.Text, 11, fyne.TextStyle{})
	turned.begin()
	one := turned.object(it, color.Black, 1)
	two := turned.object(it, color.Black, 2)
	turned.end()
	for scale, o := range map[float32]fyne.CanvasObject{1: one, 2: two} {
		got := o.Size()
		if math.Abs(float64(got.Height-size.Width)) > 1 || math.Abs(float64(got.Width-size.Height)) > 1 {
			t.Errorf("at scale %v the turned text is %v; want %v turned", scale, got, size)
		}
		if foot := o.Position().Y + got.Height; math.Abs(float64(foot-90)) > 0.5 {
			t.Errorf("at scale %v the text starts at %v; want 90", scale, foot)
		}
	}
	turned.begin()
	if again := turned.object(it, color.Black, 1); again != one {
		t.Error("the same text was rendered again in the next frame")
	}
	turned.end()
	if len(turned.kept) != 1 {
		t.Errorf("%d pictures kept; want only the one that shows", len(turned.kept))
	}
}

// Every pixel has what the outline covers of it, summed up pixel by pixel over
// four scan lines, whether the colour is solid or lets the ground through.
func TestFillPolygonPixels(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 9))
	for round := range 16 {
		var points []draw.Point
		for range 3 + r.IntN(12) {
			points = append(points, draw.Point{X: r.Float64()*40 - 8, Y: r.Float64()*30 - 7})
		}
		c := color.NRGBA{R: 200, G: 100, B: 40, A: 255}
		if round%2 == 1 {
			c.A = 100
		}
		img := image.NewRGBA(image.Rect(0, 0, 24, 16))
		fillPolygon(img, points, c)
		for y := range 16 {
			for x := range 24 {
				share := 0.0
				for k := range 4 {
					at := float64(y) + (float64(k)+0.5)/4
					for i := range 100 { // places across the pixel, odd-even
						px, in := float64(x)+(float64(i)+0.5)/100, false
						for n, b := range points {
							a := points[(n+len(points)-1)%len(points)]
							if (a.Y > at) != (b.Y > at) && px < a.X+(b.X-a.X)*(at-a.Y)/(b.Y-a.Y) {
								in = !in
							}
						}
						if in {
							share += 1.0 / 400
						}
					}
				}
				got := img.RGBAAt(x, y)
				want := share * float64(c.A)
				if math.Abs(float64(got.A)-want) > 3 || math.Abs(float64(got.R)-want*200/255) > 3 {
					t.Fatalf("pixel %d, %d of %v is %v; want %.0f of opacity", x, y, points, got, want)
				}
			}
		}
	}
}
