package app

import (
	"image/color"
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"flatwright/widgets"
)

// contrast is the ratio of WCAG 2.1, success criterion 1.4.3: (L1 + 0.05) /
// (L2 + 0.05) of the relative luminances, from memory.
func contrast(a, b color.Color) float64 {
	la, lb := luminance(a), luminance(b)
	return (max(la, lb) + 0.05) / (min(la, lb) + 0.05)
}

func luminance(c color.Color) float64 {
	n := color.NRGBAModel.Convert(c).(color.NRGBA)
	linear := func(v uint8) float64 {
		s := float64(v) / 255
		if s <= 0.03928 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(n.R) + 0.7152*linear(n.G) + 0.0722*linear(n.B)
}

func TestContrastFormula(t *testing.T) {
	// Black on white is 21:1 by definition; 767676 on white is the well-known
	// grey that just passes 4.5:1 (from memory).
	if got := contrast(color.Black, color.White); math.Abs(got-21) > 1e-9 {
		t.Errorf("black on white = %v; want 21", got)
	}
	if got := contrast(hex(0x767676), color.White); math.Abs(got-4.54) > 0.005 {
		t.Errorf("767676 on white = %.3f; want 4.54 ± 0.005", got)
	}
}

func TestTextIsReadable(t *testing.T) {
	l := &look{}
	for _, variant := range []fyne.ThemeVariant{theme.VariantLight, theme.VariantDark} {
		pair := func(text, ground fyne.ThemeColorName) {
			if got := contrast(l.Color(text, variant), l.Color(ground, variant)); got < 5.5 {
				t.Errorf("variant %d: %s on %s has a contrast of %.2f; want at least 5.5", variant, text, ground, got)
			}
		}
		for _, ground := range []fyne.ThemeColorName{widgets.ColorPaper, widgets.ColorSheet} {
			for _, text := range []fyne.ThemeColorName{
				widgets.ColorInk, widgets.ColorPencil, widgets.ColorAccent, widgets.ColorGood, widgets.ColorNear, widgets.ColorOver,
				theme.ColorNameForeground, theme.ColorNamePlaceHolder, theme.ColorNameHyperlink, theme.ColorNameError,
			} {
				pair(text, ground)
			}
		}
		pair(theme.ColorNameForeground, theme.ColorNameButton)
		pair(theme.ColorNameForegroundOnPrimary, theme.ColorNamePrimary)
		pair(theme.ColorNameForegroundOnError, theme.ColorNameError)
		pair(theme.ColorNameForegroundOnWarning, theme.ColorNameWarning)
		pair(theme.ColorNameForegroundOnSuccess, theme.ColorNameSuccess)
	}
}

// Ink lines must show on every wood in both palettes: 3:1 is what WCAG 2.1
// asks of graphics (1.4.11, from memory).
func TestLinesShowOnWood(t *testing.T) {
	l := &look{}
	for _, variant := range []fyne.ThemeVariant{theme.VariantLight, theme.VariantDark} {
		for _, wood := range []fyne.ThemeColorName{
			widgets.ColorSkin, widgets.ColorLengthwiseRib, widgets.ColorCrosswiseRib, widgets.ColorBand, widgets.ColorBlock,
		} {
			if got := contrast(l.Color(widgets.ColorInk, variant), l.Color(wood, variant)); got < 3 {
				t.Errorf("variant %d: ink on %s has a contrast of %.2f; want at least 3", variant, wood, got)
			}
		}
	}
}

func TestAppearanceWins(t *testing.T) {
	for _, tc := range []struct {
		appearance appearance
		system     fyne.ThemeVariant
		want       color.Color
	}{
		{followSystem, theme.VariantLight, hex(0xF7F5F0)},
		{followSystem, theme.VariantDark, hex(0x171B1F)},
		{"", theme.VariantDark, hex(0x171B1F)},
		{alwaysLight, theme.VariantDark, hex(0xF7F5F0)},
		{alwaysDark, theme.VariantLight, hex(0x171B1F)},
	} {
		l := &look{appearance: tc.appearance}
		if got := l.Color(widgets.ColorPaper, tc.system); got != tc.want {
			t.Errorf("%s under system variant %d: paper %v; want %v", tc.appearance, tc.system, got, tc.want)
		}
	}
}

func TestSizesOfText(t *testing.T) {
	l := &look{}
	for name, want := range map[fyne.ThemeSizeName]float32{
		theme.SizeNameHeadingText: 22, theme.SizeNameSubHeadingText: 15, theme.SizeNameText: 13, theme.SizeNameCaptionText: 11,
	} {
		if got := l.Size(name); got != want {
			t.Errorf("Size(%s) = %v; want %v", name, got, want)
		}
	}
}
