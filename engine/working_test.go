package engine

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

func TestSci(t *testing.T) {
	t.Parallel()
	for _, row := range []struct {
		v    float64
		want string
	}{
		{0, "0"}, {1.5e11, "1.50 × 10¹¹"}, {3.248642578125e6, "3.25 × 10⁶"}, {1234.5, "1.23 × 10³"}, {999.4, "999"}, {999.6, "1.00 × 10³"}, {9.996e5, "1.00 × 10⁶"}, {0.0512, "0.0512"},
		{0.00123, "1.23 × 10⁻³"}, {-2.5e-12, "-2.50 × 10⁻¹²"}, {math.Inf(1), "+Inf"},
	} {
		if got := sci(row.v); got != row.want {
			t.Errorf("sci(%g) = %q; want %q", row.v, got, row.want)
		}
	}
}

// The working shows the figures of the result, with a formula, a source and
// plain words.
func TestWorking(t *testing.T) {
	t.Parallel()
	for _, kind := range []SupportKind{RailsAcross, RailsAlong, FourLegs, AllEdges} {
		d := plainTop()
		d.Supports.Kind, d.Supports.SideInset = kind, 60
		r := compute(t, d)
		c := r.Cases[0]
		want := map[string]string{
			"along.ei": sci(r.Stiffness.Along.EI) + " N·mm²", "across.ei": sci(r.Stiffness.Across.EI) + " N·mm²",
			"along.shear": sci(r.Stiffness.Along.GA) + " N", "across.shear": sci(r.Stiffness.Across.GA) + " N",
			"along.gamma.top": fmt.Sprintf("%.3f", r.Stiffness.Along.GammaTop), "along.gamma.bottom": fmt.Sprintf("%.3f", r.Stiffness.Along.GammaBottom),
			"across.gamma.top": fmt.Sprintf("%.3f", r.Stiffness.Across.GammaTop), "across.gamma.bottom": fmt.Sprintf("%.3f", r.Stiffness.Across.GammaBottom),
			"torsion": sci(r.Stiffness.GJ) + " N·mm²", "sag": fmt.Sprintf("%.3f mm", c.Sag), "margin": fmt.Sprintf("%.2f", r.Margins[0].Value),
			"mass": fmt.Sprintf("%.2f kg", r.Mass.Total), "depth": fmt.Sprintf("power −%.2f", r.Depth.Exponent),
			"along.slots":  fmt.Sprintf("%.2f and %.2f", r.Stiffness.Along.Slot.Bending, r.Stiffness.Along.Slot.Shear),
			"across.slots": fmt.Sprintf("%.2f and %.2f", r.Stiffness.Across.Slot.Bending, r.Stiffness.Across.Slot.Shear),
		}
		seen := map[string]Working{}
		for _, w := range r.Working {
			if _, twice := seen[w.Key]; twice {
				t.Errorf("%s is worked out twice", w.Key)
			}
			seen[w.Key] = w
			if w.Title == "" || w.Formula == "" || w.Numbers == "" || w.Result == "" || w.Source == "" {
				t.Errorf("working %+v lacks something", w)
			}
		}
		for key, text := range want {
			if !strings.HasSuffix(seen[key].Result, text) {
				t.Errorf("%s, %s: %q; want %q", kind, key, seen[key].Result, text)
			}
		}
		// The parts of the stiffness in the text add up to the whole, and so do
		// those of the sag.
		if s := r.Stiffness.Along; !strings.Contains(seen["along.ei"].Plain, fmt.Sprintf("%.0f %% of the solid slab's", 100*s.EI/s.SlabEI)) ||
			!strings.Contains(seen["along.gamma.top"].Numbers, fmt.Sprintf("π/%.0f mm", s.Span)) {
			t.Errorf("%s: %+v", kind, seen["along.ei"])
		}
		if parts := fmt.Sprintf("bending %.3f, shear %.3f, twist %.3f mm; own weight %.3f mm", c.Bending*c.Sag, c.Shear*c.Sag, c.Twist*c.Sag, c.OwnSag); !strings.Contains(seen["sag"].Numbers, parts) {
			t.Errorf("%s: sag %q; want %q in it", kind, seen["sag"].Numbers, parts)
		}
	}
}

// Effective widths by hand: plainTop along its length has bays of 700/5 − 12 = 128 mm clear
// and spans 1 400 mm: shear lag 140, buckling 20·9 = 180 and 20·6 = 120 mm where the face
// grain runs with the ribs: 140 of the top skin, pulled or pressed; 140 and 132 of the bottom
// one. With its grain across, 25·6 = 150 leave it whole.
func TestEffectiveWidthsAreTold(t *testing.T) {
	t.Parallel()
	told := func(d Design, key string) Working {
		for _, w := range compute(t, d).Working {
			if w.Key == key {
				return w
			}
		}
		t.Fatalf("no %s", key)
		return Working{}
	}
	d := plainTop()
	if w := told(d, "along.width.top"); !strings.HasPrefix(w.Result, "140 mm pulled and 140 mm pressed") || !strings.Contains(w.Numbers, "0.10 · 1400 mm = 140 mm, buckling 20 · 9.00 mm = 180 mm") {
		t.Errorf("%+v", w)
	}
	if w := told(d, "along.width.bottom"); !strings.HasPrefix(w.Result, "140 mm pulled and 132 mm pressed") {
		t.Errorf("%+v", w)
	}
	mo, _ := modelOf(d, false)
	if w := told(d, "along.width.bottom"); !strings.HasSuffix(w.Result, fmt.Sprintf("%.0f of 140 mm", 140/mo.along.first.LagBottom)) {
		t.Errorf("%q; the stress at the rib is %.4f times the mean", w.Result, mo.along.first.LagBottom)
	}
	d.BottomSkin.Across = true
	if w := told(d, "along.width.bottom"); !strings.HasPrefix(w.Result, "140 mm pulled and 140 mm pressed") {
		t.Errorf("%+v", w)
	}
}
