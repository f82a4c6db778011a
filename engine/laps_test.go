package engine

import (
	"strings"
	"testing"
)

// Laps glued tight take nothing off the ribs: stiffer than open slots, in the
// closed form and in the whole panel, and each tells the other as its bound.
func TestGluedLaps(t *testing.T) {
	t.Parallel()
	open := plainTop()
	glued := open.Clone()
	glued.Slots.Glued = true
	a, b := refined(t, open, Refined), refined(t, glued, Refined)
	if !(b.Cases[0].Sag < a.Cases[0].Sag && b.Cases[0].Closed < a.Cases[0].Closed) {
		t.Errorf("sag glued %.4f (closed form %.4f), open %.4f (%.4f); want less", b.Cases[0].Sag, b.Cases[0].Closed, a.Cases[0].Sag, a.Cases[0].Closed)
	}
	if s := b.Stiffness.Along.Slot; s.Bending != 1 || s.Shear != 1 || strings.Contains(s.Source, "estimate") {
		t.Errorf("slot factors of glued laps %+v; want 1 and 1", s)
	}
	p := glued.WholePanel(1)
	if p.Along[0].Own != 1 || p.Across[0].Own != 1 || !(p.Along[0].G > open.WholePanel(1).Along[0].G) {
		t.Errorf("glued ribs keep %g and %g of their own", p.Along[0].Own, p.Across[0].Own)
	}
	// Another mesh hardly changes the ratio of the two.
	near(t, "open told by glued", b.Whole.OtherLaps, a.Cases[0].Sag, 0.01)
	near(t, "glued told by open", a.Whole.OtherLaps, b.Cases[0].Sag, 0.01)
	told := func(r Result) string {
		for _, w := range r.Working {
			if w.Key == "laps" {
				return w.Plain
			}
		}
		return ""
	}
	if text := told(a); !strings.Contains(text, "glued tight") || !strings.Contains(text, "between") {
		t.Errorf("the open top tells %q", text)
	}
	if text := told(b); !strings.Contains(text, "open slots") {
		t.Errorf("the glued top tells %q", text)
	}
	if n := refined(t, open, Normal); n.Whole.OtherLaps != 0 || told(n) != "" {
		t.Errorf("the normal mesh tells %g, %q; want nothing before the panel is refined", n.Whole.OtherLaps, told(n))
	}
}

// A softer bed sinks in proportion to its softness, F/(k·A) for a stiff top on
// rails; the sag, taken from the supports, hardly changes.
func TestSoftBed(t *testing.T) {
	t.Parallel()
	hard := plainTop()
	hard.Limits.Sag = 0.3
	soft := hard.Clone()
	soft.Supports.Bed = 0.1 // felt
	a, b := refined(t, hard, Interactive), refined(t, soft, Interactive)
	same := hard.Clone()
	same.Supports.Bed = WoodOnWood
	if c := refined(t, same, Interactive); c.Cases[0].Sag != a.Cases[0].Sag || c.Whole.Cases[0].Settlement != a.Whole.Cases[0].Settlement {
		t.Errorf("a bed of 10 sags %g, no figure %g; want the same", c.Cases[0].Sag, a.Cases[0].Sag)
	}
	// By hand: half of 800 N and of the top's weight on 60 mm × 700 mm.
	want := (800 + b.Mass.Total*Gravity) / 2 / (0.1 * 60 * 700)
	near(t, "settlement on felt", b.Whole.Cases[0].Settlement, want, 0.001)
	if ratio := b.Whole.Cases[0].Settlement / a.Whole.Cases[0].Settlement; ratio < 90 || ratio > 101 {
		t.Errorf("a hundredth of the stiffness sinks %.1f times as much", ratio)
	}
	// A wide hard rail holds the top's slope a little, which felt does not.
	if ratio := b.Cases[0].Sag / a.Cases[0].Sag; ratio < 1 || ratio > 1.15 {
		t.Errorf("sag on felt is %.3f times that on wood; want a little more at most", ratio)
	}
	near(t, "sinking on felt, by hand", want, 0.13, 0.1)
	soft.Limits.Sag = 0.1
	if c := refined(t, soft, Interactive); !hasCode(c, "supports-sink") || hasCode(b, "supports-sink") {
		t.Errorf("sinking %.3f mm: told %v at a limit of 0.1 mm, %v at 0.3; want only the first", want, hasCode(c, "supports-sink"), hasCode(b, "supports-sink"))
	}
	for _, bed := range []float64{-1, 0.001, 1000} {
		d := plainTop()
		d.Supports.Bed = bed
		if got := strings.Join(told(problemsOf(d)), ", "); got != "blocking support-bed supports.bed" {
			t.Errorf("a bed of %g tells %q", bed, got)
		}
	}
}

func hasCode(r Result, code string) bool {
	for _, p := range r.Problems {
		if p.Code == code {
			return true
		}
	}
	return false
}
