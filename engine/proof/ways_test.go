package proof

import (
	"math"
	"testing"
)

func TestFriction(t *testing.T) {
	t.Parallel()
	// By hand: 1.5·0.4·96/1800 = 0.032.
	near(t, "friction", Friction(0.4, 96, 1800), 0.032, 1e-12)
	// Second method: M = mu·P/2·d/2, w = M·L²/8EI over P·L³/48EI, with figures.
	const p, span, depth, ei = 700.0, 1800.0, 96.0, 3e10
	held := 0.4 * p / 2 * depth / 2 * span * span / (8 * ei) / (p * span * span * span / (48 * ei))
	near(t, "friction by beam formulas", Friction(0.4, depth, span), held, 1e-12)
	if Friction(0.4, 96, 0) != 0 || Friction(math.NaN(), 96, 1800) != 0 || Friction(1, 1e6, 1) != MostFriction {
		t.Error("Friction outside its domain; want 0, 0 and the most")
	}
}

func TestLook(t *testing.T) {
	t.Parallel()
	way, _ := WayOf("dial")
	s := Look(0.5, way)
	// By hand: 1.645·√2·0.01 = 0.02326 mm; of 0.5 mm that is 4.65 %.
	near(t, "least of a dial", s.Least, 0.02326, 5e-6)
	near(t, "share", s.Share, 0.0465, 5e-5)
	if !s.Sees || !s.Useful {
		t.Error("a dial does not see half a millimetre")
	}
	string, _ := WayOf("string")
	if s := Look(0.5, string); s.Useful || s.Sees {
		t.Errorf("a string sees 0.5 mm: least %g", s.Least) // 1.645·√2·0.25 = 0.58
	}
	if s := Look(0, way); s.Sees || !math.IsInf(s.Share, 1) || Look(math.NaN(), way).Sees {
		t.Error("nothing expected can be seen")
	}
	if w, ok := Finer(0.5); !ok || w.Key != "straightedge" {
		t.Errorf("simplest way for 0.5 mm is %q; want the straightedge: 1.645·√2·0.03/0.5 = 14 %%", w.Key)
	}
	if _, ok := Finer(0.001); ok {
		t.Error("something sees a thousandth")
	}
	// At the load that Needed asks for, it is useful and just so.
	for _, w := range Ways() {
		f := Needed(0.2, w)
		if a, b := Look(0.2*f*1.0001, w), Look(0.2*f*0.999, w); !a.Useful || b.Useful {
			t.Errorf("%s: useful %v just above %g times, %v just below", w.Name, a.Useful, f, b.Useful)
		}
	}
}

func TestSpanFor(t *testing.T) {
	t.Parallel()
	near(t, "all bending", SpanFor(8, 1), 2, 1e-9)
	near(t, "all shear", SpanFor(8, 0), 8, 1e-9)
	// Half and half at twice the span: 0.5·8 + 0.5·2 = 5.
	near(t, "half and half", SpanFor(5, 0.5), 2, 1e-9)
	near(t, "none needed", SpanFor(0.7, 0.5), 1, 0)
	if !math.IsNaN(SpanFor(math.NaN(), 0.5)) {
		t.Error("SpanFor(NaN) is a number")
	}
}

func TestWaysHaveKeysAndErrors(t *testing.T) {
	t.Parallel()
	seen := map[string]bool{}
	for i, w := range Ways() {
		if seen[w.Key] || w.Key == "" || w.Name == "" || w.How == "" || !(w.Step > 0) || !(w.Error > 0) || w.Cost != i {
			t.Errorf("way %+v", w)
		}
		seen[w.Key] = true
	}
	if _, ok := WayOf("sextant"); ok {
		t.Error("a way that is none")
	}
}
