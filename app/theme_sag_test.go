package app

import (
	"image/color"
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"flatwright/widgets"
)

// lab returns a colour in CIELAB under the white point D65, with the matrix of
// sRGB (IEC 61966-2-1) and the formulas of CIE 15, both from memory.
func lab(c color.Color) [3]float64 {
	n := color.NRGBAModel.Convert(c).(color.NRGBA)
	linear := func(v uint8) float64 {
		s := float64(v) / 255
		if s <= 0.04045 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	f := func(t float64) float64 {
		if t > 216.0/24389 {
			return math.Cbrt(t)
		}
		return (24389.0/27*t + 16) / 116
	}
	r, g, b := linear(n.R), linear(n.G), linear(n.B)
	x := f((0.4124*r + 0.3576*g + 0.1805*b) / 0.9505)
	y := f(0.2126*r + 0.7152*g + 0.0722*b)
	z := f((0.0193*r + 0.1192*g + 0.9505*b) / 1.089)
	return [3]float64{116*y - 16, 500 * (x - y), 200 * (y - z)}
}

func TestLab(t *testing.T) {
	for _, tc := range []struct {
		rgb  uint32
		want [3]float64 // white by definition; red from memory
	}{
		{0xFFFFFF, [3]float64{100, 0, 0}}, {0, [3]float64{0, 0, 0}}, {0xFF0000, [3]float64{53.24, 80.09, 67.20}},
	} {
		got := lab(hex(tc.rgb))
		for i := range got {
			if math.Abs(got[i]-tc.want[i]) > 0.05 {
				t.Errorf("lab(%06X) = %.2f; want %.2f", tc.rgb, got, tc.want)
				break
			}
		}
	}
}

// In both palettes each step of the sag map is darker than the one before, by
// the same amount as the eye sees it, also in grey; and ink lines show on all.
func TestSagColoursAreEven(t *testing.T) {
	l := &look{}
	for _, variant := range []fyne.ThemeVariant{theme.VariantLight, theme.VariantDark} {
		var last [3]float64
		var steps, falls []float64
		for i, name := range widgets.ColorSag {
			c := l.Color(name, variant)
			here := lab(c)
			if i > 0 {
				steps = append(steps, math.Sqrt(math.Pow(here[0]-last[0], 2)+math.Pow(here[1]-last[1], 2)+math.Pow(here[2]-last[2], 2)))
				falls = append(falls, last[0]-here[0])
			}
			last = here
			if got := contrast(l.Color(widgets.ColorInk, variant), c); got < 3 {
				t.Errorf("variant %d: ink on %s has a contrast of %.2f; want at least 3", variant, name, got)
			}
		}
		for i := range steps {
			if falls[i] < 4.5 {
				t.Errorf("variant %d: step %d is darker by %.2f of L*; want at least 4.5", variant, i+1, falls[i])
			}
			if r := steps[i] / steps[0]; r < 0.9 || r > 1.1 {
				t.Errorf("variant %d: step %d is %.2f times the first; want 1 ± 0.1", variant, i+1, r)
			}
		}
	}
}
