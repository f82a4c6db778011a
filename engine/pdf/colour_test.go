package pdf

import (
	"math"
	"testing"

	"flatwright/engine/draw"
)

// luminance is the relative luminance of WCAG 2, from memory.
func luminance(f draw.Fill) float64 {
	r, g, b := Colour(f)
	linear := func(c uint8) float64 {
		v := float64(c) / 255
		if v <= 0.03928 {
			return v / 12.92
		}
		return math.Pow((v+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(r) + 0.7152*linear(g) + 0.0722*linear(b)
}

func contrast(a, b draw.Fill) float64 {
	x, y := luminance(a), luminance(b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

func TestEveryFillHasAColour(t *testing.T) {
	t.Parallel()
	if len(colours) != int(draw.AccentInk)+1 {
		t.Errorf("%d colours for %d names", len(colours), int(draw.AccentInk)+1)
	}
	if r, g, b := Colour(draw.LengthwiseRib); r != 0xC9 || g != 0x8F || b != 0x4E {
		t.Errorf("lengthwise rib = %02X%02X%02X; want C98F4E", r, g, b)
	}
	r, g, b := Colour(200)
	if ir, ig, ib := Colour(draw.Ink); r != ir || g != ig || b != ib {
		t.Errorf("unknown name = %02X%02X%02X; want ink", r, g, b)
	}
	// Cut is ink at 15 % on white: 255 - 0.15·(255 - ink).
	cr, cg, cb := Colour(draw.Cut)
	ir, ig, ib := Colour(draw.Ink)
	for i, c := range [][2]uint8{{cr, ir}, {cg, ig}, {cb, ib}} {
		if want := 255 - 0.15*(255-float64(c[1])); math.Abs(float64(c[0])-want) > 1 {
			t.Errorf("cut, channel %d = %d; want %.1f", i, c[0], want)
		}
	}
}

// Text has a contrast of at least 5.5:1 on white, ink also on what notes stand
// on. Ribs are too narrow for notes; a note that runs across one stays above
// 4.5:1, the least of WCAG 2 for text (from memory).
func TestTextIsLegible(t *testing.T) {
	t.Parallel()
	for _, f := range []draw.Fill{draw.Ink, draw.Pencil, draw.AccentInk, draw.Good, draw.Near, draw.Over, draw.Load, draw.Support} {
		if c := contrast(f, draw.Sheet); c < 5.5 {
			t.Errorf("colour %d on white has %.2f:1; want 5.5:1", f, c)
		}
	}
	for f, least := range map[draw.Fill]float64{
		draw.Skin: 5.5, draw.Block: 5.5, draw.Cut: 5.5, draw.Select: 5.5, draw.CrosswiseRib: 5.5,
		draw.LengthwiseRib: 4.5, draw.Band: 4.5,
	} {
		if c := contrast(draw.Ink, f); c < least {
			t.Errorf("ink on colour %d has %.2f:1; want %g:1", f, c, least)
		}
	}
}

// In grey, ribs stand out from the skin under them.
func TestGreyPrintTellsRibsFromSkin(t *testing.T) {
	t.Parallel()
	for _, f := range []draw.Fill{draw.LengthwiseRib, draw.CrosswiseRib, draw.Band, draw.Block} {
		if c := contrast(f, draw.Skin); c < 1.5 {
			t.Errorf("colour %d on skin has %.2f:1 in grey; want 1.5:1", f, c)
		}
	}
}

// On paper and in grey each step of the sag map is darker than the one before,
// by 4.5 of the lightness L* at least (CIE 15, from memory: 116·Y^(1/3) - 16),
// and contour lines in ink show on all of them at 3:1.
func TestSagStepsDarken(t *testing.T) {
	t.Parallel()
	if draw.Sag9-draw.Sag0 != 9 {
		t.Fatalf("%d steps from the first to the last; want 9", draw.Sag9-draw.Sag0)
	}
	lightness := func(f draw.Fill) float64 { return 116*math.Cbrt(luminance(f)) - 16 }
	for f := draw.Sag0; f <= draw.Sag9; f++ {
		if c := contrast(draw.Ink, f); c < 3 {
			t.Errorf("ink on step %d has %.2f:1; want 3:1", f-draw.Sag0, c)
		}
		if fall := lightness(f-1) - lightness(f); f > draw.Sag0 && (fall < 4.5 || fall > 6.5) {
			t.Errorf("step %d is darker by %.2f of L*; want 4.5 to 6.5", f-draw.Sag0, fall)
		}
	}
}
