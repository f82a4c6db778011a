package vector

import (
	"bytes"
	"errors"
	"io"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

// notched is a board 600 × 80 with two slots 12.2 wide and 41 deep from its
// upper edge at 100 and 400, and a bore. Its corner is off the origin.
func notched() Drawing {
	x, y := 5.0, -7.5
	at := func(points ...Point) []Point {
		for i := range points {
			points[i].X += x
			points[i].Y += y
		}
		return points
	}
	return Drawing{
		Title: "Rib <L> & “more”",
		Notes: []string{"2 of them"},
		Paths: []Path{
			{Layer: Outline, Points: at(Point{0, 0}, Point{600, 0}, Point{600, 80}, Point{412.2, 80}, Point{412.2, 39}, Point{400, 39}, Point{400, 80},
				Point{112.2, 80}, Point{112.2, 39}, Point{100, 39}, Point{100, 80}, Point{0, 80})},
			{Layer: Slot, Points: at(Point{100, 39}, Point{112.2, 39}, Point{112.2, 80}, Point{100, 80})},
			{Layer: Mark, Open: true, Points: at(Point{0, 0}, Point{20, 20})},
		},
		Circles: []Circle{{Layer: Hole, Centre: Point{x + 250, y + 30}, Radius: 9.5}},
		Words:   []Words{{At: Point{x + 20, y + 20}, Height: 5, Text: "L: 1½ × 3"}, {At: Point{x + 30, y + 10}, Height: 4, Angle: math.Pi / 2, Text: "up"}},
	}
}

func write(t *testing.T, how func(io.Writer, Drawing) error, d Drawing) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := how(&b, d); err != nil {
		t.Fatalf("write: %v", err)
	}
	return b.Bytes()
}

func closeTo(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %g; want %g ± %g", what, got, want, tolerance)
	}
}

// area is that of a polygon by triangles from its first corner, always positive.
func area(p []Point) float64 {
	sum := 0.0
	for i := 2; i < len(p); i++ {
		a, b := p[i-1], p[i]
		sum += ((a.X-p[0].X)*(b.Y-p[0].Y) - (b.X-p[0].X)*(a.Y-p[0].Y)) / 2
	}
	return math.Abs(sum)
}

// readers read back what the writers wrote. The drawing read from SVG has its
// y turned up again and its lower left corner at the origin.
var readers = []struct {
	name  string
	write func(io.Writer, Drawing) error
	read  func(*testing.T, []byte) Drawing
}{
	{"SVG", SVG, readSVG},
	{"DXF", DXF, readDXF},
}

func TestBoardIsReadBack(t *testing.T) {
	t.Parallel()
	for _, r := range readers {
		t.Run(r.name, func(t *testing.T) {
			t.Parallel()
			d := r.read(t, write(t, r.write, notched()))
			if len(d.Paths) != 3 || len(d.Circles) != 1 || len(d.Words) != 2 {
				t.Fatalf("%d paths, %d circles, %d texts; want 3, 1, 2", len(d.Paths), len(d.Circles), len(d.Words))
			}
			for i, want := range []Layer{Outline, Slot, Mark} {
				if p := d.Paths[i]; p.Layer != want || p.Open != (want == Mark) {
					t.Errorf("path %d is on %v, open %t; want %v, open %t", i, p.Layer, p.Open, want, want == Mark)
				}
			}
			// By hand: 600·80 - 2·12.2·41 = 46 999.6 mm².
			closeTo(t, "area of the outline", area(d.Paths[0].Points), 46999.6, 1e-6)
			closeTo(t, "area of the slot", area(d.Paths[1].Points), 500.2, 1e-6)
			low, high := d.Bounds()
			closeTo(t, "length", high.X-low.X, 600, 1e-9)
			closeTo(t, "width", high.Y-low.Y, 80, 1e-9)
			// The slots open upwards, and the bore is where it was put.
			closeTo(t, "lowest point of the slot", d.Paths[1].Points[0].Y-low.Y, 39, 1e-9)
			closeTo(t, "bore along", d.Circles[0].Centre.X-low.X, 250, 1e-9)
			closeTo(t, "bore up", d.Circles[0].Centre.Y-low.Y, 30, 1e-9)
			closeTo(t, "bore's radius", d.Circles[0].Radius, 9.5, 1e-9)
			closeTo(t, "angle of the second text", d.Words[1].Angle, math.Pi/2, 1e-6)
			closeTo(t, "height of the second text", d.Words[1].Height, 4, 0.001)
		})
	}
}

// TestRandomShapesAreReadBack: whatever the shape, each number comes back within
// half of 0.001 mm, so an area within that times the length of its edge.
func TestRandomShapesAreReadBack(t *testing.T) {
	t.Parallel()
	rng := rand.New(rand.NewPCG(5, 8))
	for range 200 {
		d := Drawing{Title: "random"}
		for range 1 + rng.IntN(4) {
			// A star about its middle: never two corners in one place.
			p := Path{Layer: Layer(rng.IntN(int(layers - 1)))}
			n, c := 3+rng.IntN(9), Point{2000 * rng.NormFloat64(), 700 * rng.NormFloat64()}
			for i := range n {
				a, r := 2*math.Pi*float64(i)/float64(n), 3+200*rng.Float64()
				p.Points = append(p.Points, Point{c.X + r*math.Cos(a), c.Y + r*math.Sin(a)})
			}
			d.Paths = append(d.Paths, p)
		}
		low, high := d.Bounds()
		for _, r := range readers {
			got := r.read(t, write(t, r.write, d))
			// SVG groups by layer; the sums do not care.
			var sum, want, edge float64
			for i := range d.Paths {
				sum += area(got.Paths[i].Points)
				want += area(d.Paths[i].Points)
				for k, p := range d.Paths[i].Points {
					q := d.Paths[i].Points[(k+1)%len(d.Paths[i].Points)]
					edge += math.Hypot(p.X-q.X, p.Y-q.Y)
				}
			}
			closeTo(t, r.name+" area", sum, want, 0.001*edge)
			gl, gh := got.Bounds()
			closeTo(t, r.name+" length", gh.X-gl.X, high.X-low.X, 0.001)
			closeTo(t, r.name+" width", gh.Y-gl.Y, high.Y-low.Y, 0.001)
		}
	}
}

func TestSameDrawingSameBytes(t *testing.T) {
	t.Parallel()
	for _, r := range readers {
		if !bytes.Equal(write(t, r.write, notched()), write(t, r.write, notched())) {
			t.Errorf("%s: two writings differ", r.name)
		}
	}
}

func TestRefused(t *testing.T) {
	t.Parallel()
	square := []Point{{0, 0}, {1, 0}, {1, 1}}
	for _, tc := range []struct {
		name string
		d    Drawing
		want error
	}{
		{"nothing", Drawing{}, ErrEmpty},
		{"only words", Drawing{Words: []Words{{Height: 3, Text: "a"}}}, ErrEmpty},
		{"NaN", Drawing{Paths: []Path{{Points: []Point{{0, 0}, {math.NaN(), 0}, {1, 1}}}}}, ErrNumber},
		{"without end", Drawing{Circles: []Circle{{Radius: math.Inf(1)}}}, ErrNumber},
		{"beyond a kilometre", Drawing{Circles: []Circle{{Centre: Point{1.1e6, 0}, Radius: 1}}}, ErrNumber},
		{"no such layer", Drawing{Paths: []Path{{Layer: layers, Points: square}}}, ErrNumber},
		{"text turned by NaN", Drawing{Paths: []Path{{Points: square}}, Words: []Words{{Height: 3, Angle: math.NaN()}}}, ErrNumber},
		{"a closed line of two corners", Drawing{Paths: []Path{{Points: square[:2]}}}, ErrShape},
		{"three corners in one place", Drawing{Paths: []Path{{Points: []Point{{1, 1}, {1.0001, 1}, {1, 0.9999}}}}}, ErrShape},
		{"an open line of one point", Drawing{Paths: []Path{{Open: true, Points: square[:1]}}}, ErrShape},
		{"a bore of nothing", Drawing{Circles: []Circle{{Radius: 0}}}, ErrShape},
		{"text of no height", Drawing{Paths: []Path{{Points: square}}, Words: []Words{{Text: "a"}}}, ErrShape},
	} {
		for _, r := range readers {
			if err := r.write(io.Discard, tc.d); !errors.Is(err, tc.want) {
				t.Errorf("%s, %s: %v; want %v", r.name, tc.name, err, tc.want)
			}
		}
	}
}

type broken struct{}

var errFull = errors.New("disk full")

func (broken) Write([]byte) (int, error) { return 0, errFull }

func TestWriterThatFails(t *testing.T) {
	t.Parallel()
	for _, r := range readers {
		if err := r.write(broken{}, notched()); !errors.Is(err, errFull) {
			t.Errorf("%s: %v; want the writer's own", r.name, err)
		}
	}
}

func TestNumbers(t *testing.T) {
	t.Parallel()
	// Half a thousandth and rounding by hand; a zero has no sign.
	for v, want := range map[float64]string{
		0: "0", -0.0002: "0", 12.0: "12", 12.3456: "12.346", -12.3454: "-12.345", 999999.9996: "1000000", 0.0005: "0.001",
	} {
		if got := short(v); got != want {
			t.Errorf("short(%v) = %s; want %s", v, got, want)
		}
	}
	if s := string(write(t, DXF, Drawing{Paths: []Path{{Points: []Point{{-0.0001, 0}, {4, 0}, {4, 2.5}}}}})); strings.Contains(s, "-0") {
		t.Errorf("a zero with a sign in\n%s", s)
	}
}

func TestASCII(t *testing.T) {
	t.Parallel()
	for text, want := range map[string]string{
		"Lengthwise rib":     "Lengthwise rib",
		"1½ × 2¼ in":         "1 1/2 x 2 1/4 in",
		"½":                  "1/2",
		"Größe, Øre, café":   "Grosse, Ore, cafe",
		"two\nlines\r\n  0 ": "two lines 0",
		"%%c and 5 %":        "%c and 5 %",
		"%%%%d":              "%d",
		"a^Jb":               "a'Jb",
		"木":                  `\U+6728`,
		"🪚":                  "?",
		"\xff":               "?",
		"":                   "",
	} {
		if got := ascii(text); got != want {
			t.Errorf("ascii(%q) = %q; want %q", text, got, want)
		}
	}
	if got := ascii(strings.Repeat("ab", 400)); len(got) != longest {
		t.Errorf("a long text is written in %d signs; want %d", len(got), longest)
	}
}

// Of a closed line only the corners are written, and no hair where a notch ends
// at an edge but for rounding.
func TestCornersAlone(t *testing.T) {
	t.Parallel()
	e := 1e-13
	for _, tc := range []struct {
		name         string
		points, want []Point
	}{
		{"a point on an edge", []Point{{0, 0}, {3, 0}, {7, 0}, {7, 4}, {0, 4}}, []Point{{0, 0}, {7, 0}, {7, 4}, {0, 4}}},
		{"the first point on an edge", []Point{{3, 0}, {7, 0}, {7, 4}, {0, 4}, {0, 0}}, []Point{{7, 0}, {7, 4}, {0, 4}, {0, 0}}},
		{"closed by hand", []Point{{0, 0}, {7, 0}, {7, 4}, {0, 0}}, []Point{{7, 0}, {7, 4}, {0, 0}}},
		{"a hair at the end", []Point{{0, 0}, {7, 0}, {7, 4}, {7 - e, 4}, {7 - e, 2}, {5, 2}, {5, 4}, {0, 4}}, []Point{{0, 0}, {7, 0}, {7, 2}, {5, 2}, {5, 4}, {0, 4}}},
		{"a hair of a hair", []Point{{0, 0}, {7, 0}, {9, 0}, {11, 0}, {9, 0}, {7, 0}, {7, 4}}, []Point{{0, 0}, {7, 0}, {7, 4}}},
		{"nothing but a hair", []Point{{0, 0}, {7, 0}, {3, 0}}, nil},
	} {
		got := written(Path{Points: tc.points})
		if !slices.Equal(got, tc.want) && len(got)+len(tc.want) > 0 {
			t.Errorf("%s: %v; want %v", tc.name, got, tc.want)
		}
	}
	open := []Point{{0, 0}, {3, 0}, {7, 0}, {3, 0}}
	if got := written(Path{Open: true, Points: open}); !slices.Equal(got, open) {
		t.Errorf("an open line is written as %v; want %v", got, open)
	}
}

// FuzzWords puts any text into both formats: neither breaks, and what DXF has of
// it is one line of plain signs.
func FuzzWords(f *testing.F) {
	for _, seed := range []string{"", "1½ × 3", "two\n  0\nEOF\n", "]]>&amp;</svg>", "\xff\x00", "%%%d ^J \\U+0041"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		d := notched()
		d.Title, d.Notes, d.Words[0].Text = text, []string{text}, text
		for _, r := range readers {
			got := r.read(t, write(t, r.write, d))
			if len(got.Paths) != 3 || len(got.Circles) != 1 || len(got.Words) > 2 {
				t.Fatalf("%s: %d paths, %d circles, %d texts with %q; want 3, 1 and at most 2", r.name, len(got.Paths), len(got.Circles), len(got.Words), text)
			}
		}
	})
}
