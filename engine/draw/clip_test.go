package draw

import (
	"math"
	"testing"
)

var lShape = []Point{{0, 0}, {100, 0}, {100, 40}, {30, 40}, {30, 90}, {0, 90}}

func TestHatchLines(t *testing.T) {
	t.Parallel()
	for _, h := range []Hatch{HatchSlash, HatchBackslash} {
		lines := hatchLines(lShape, h, 5, Point{17, 3})
		if len(lines) < 20 {
			t.Fatalf("hatch %d: %d lines", h, len(lines))
		}
		area := 0.0
		for _, l := range lines {
			dx, dy := l[1].X-l[0].X, l[1].Y-l[0].Y
			if rises := dx*dy < 0; rises != (h == HatchSlash) || math.Abs(math.Abs(dx)-math.Abs(dy)) > 1e-9 {
				t.Fatalf("hatch %d: line %v has the wrong slope", h, l)
			}
			for _, share := range []float64{0.001, 0.3, 0.5, 0.999} {
				if p := between(l[0], l[1], share); !inside(lShape, p) {
					t.Fatalf("hatch %d: %v of line %v is outside", h, p, l)
				}
			}
			// Distance from the line through the origin is a multiple of 5.
			sign := 1.0
			if h == HatchBackslash {
				sign = -1
			}
			k := (l[0].X - 17 + sign*(l[0].Y-3)) / math.Sqrt2 / 5
			if math.Abs(k-math.Round(k)) > 1e-9 {
				t.Fatalf("hatch %d: line %v is off the grid by %g spacings", h, l, k-math.Round(k))
			}
			area += 5 * math.Hypot(dx, dy)
		}
		// Lines times spacing is the area, 100·40 + 30·50 = 5500, by the
		// trapezoidal rule: within 2 % at this spacing.
		if math.Abs(area-5500) > 110 {
			t.Errorf("hatch %d: lines cover %g; want 5500 ± 110", h, area)
		}
	}
}

func TestHatchOfATriangle(t *testing.T) {
	t.Parallel()
	// Slash lines are x+y = 5√2·k here; below the edge x+y = 100 there are
	// k = 1 to 14, and the one through the corner has no length.
	lines := hatchLines([]Point{{0, 0}, {100, 0}, {0, 100}}, HatchSlash, 5, Point{})
	if len(lines) != 14 {
		t.Fatalf("%d lines; want 14", len(lines))
	}
	closeTo(t, "length of the third", math.Hypot(lines[2][1].X-lines[2][0].X, lines[2][1].Y-lines[2][0].Y), 2*15)
}

func TestHatchLimits(t *testing.T) {
	t.Parallel()
	for name, got := range map[string][][2]Point{
		"no hatch":      hatchLines(lShape, NoHatch, 5, Point{}),
		"no spacing":    hatchLines(lShape, HatchSlash, 0, Point{}),
		"NaN spacing":   hatchLines(lShape, HatchSlash, math.NaN(), Point{}),
		"too many":      hatchLines(lShape, HatchSlash, 1e-6, Point{}),
		"a line":        hatchLines(lShape[:2], HatchSlash, 5, Point{}),
		"between lines": hatchLines(rect(1, 1, 2, 2).Corners(), HatchSlash, 500, Point{}),
	} {
		if len(got) != 0 {
			t.Errorf("%s: %d lines; want none", name, len(got))
		}
	}
}

func TestHatchKeepsItsSpacingAndMovesWithTheDrawing(t *testing.T) {
	t.Parallel()
	f := Figure{Areas: []Area{{Points: lShape, Hatch: HatchSlash}}}
	v := View{Scale: 3, OriginX: 40, OriginY: 400}
	a := f.Flatten(v, testMetrics).Items
	b := f.Flatten(v.Pan(13, 7), testMetrics).Items
	if len(a) == 0 || len(a) != len(b) {
		t.Fatalf("%d and %d lines", len(a), len(b))
	}
	for i := range a {
		p, q := a[i].Points[0], b[i].Points[0]
		if math.Hypot(q.X-p.X-13, q.Y-p.Y-7) > 1e-6 {
			t.Fatalf("line %d moved from %v to %v", i, p, q)
		}
	}
	// Twice the scale, four times the area, the same spacing: four times the
	// length of lines.
	sum := func(items []Item) (s float64) {
		for _, it := range items {
			s += math.Hypot(it.Points[1].X-it.Points[0].X, it.Points[1].Y-it.Points[0].Y)
		}
		return s
	}
	v.Scale = 6
	if ratio := sum(f.Flatten(v, testMetrics).Items) / sum(a); math.Abs(ratio-4) > 0.05 {
		t.Errorf("hatch grew by %g; want 4", ratio)
	}
}
