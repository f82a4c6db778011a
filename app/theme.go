package app

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"flatwright/widgets"
)

// appearance is which of the two palettes shows.
type appearance string

// The appearances. The empty one acts as followSystem.
const (
	followSystem appearance = "system"
	alwaysLight  appearance = "light"
	alwaysDark   appearance = "dark"
)

// look is the program's theme: paper, ink, one accent, and wood tones for the
// drawing alone.
type look struct {
	appearance appearance
}

// tint is one colour in both palettes.
type tint struct{ light, dark color.NRGBA }

// hex returns the opaque colour 0xRRGGBB.
func hex(rgb uint32) color.NRGBA {
	return color.NRGBA{R: uint8(rgb >> 16), G: uint8(rgb >> 8), B: uint8(rgb), A: 0xff}
}

func opaque(light, dark uint32) tint { return tint{hex(light), hex(dark)} }

// faint returns t with the given opacity.
func (t tint) faint(alpha uint8) tint {
	t.light.A, t.dark.A = alpha, alpha
	return t
}

// The palette. Ink, pencil, accent and the three states keep a contrast of at
// least 5.5:1 on paper and on sheet in both palettes; theme_test.go computes it.
var (
	paper  = opaque(0xF7F5F0, 0x171B1F)
	sheet  = opaque(0xFFFFFF, 0x22272D)
	ink    = opaque(0x1F2933, 0xE8E6E1)
	pencil = opaque(0x52606D, 0xA7B0B8)
	rule   = opaque(0xDDD8CC, 0x363C44)
	button = opaque(0xEAE6DB, 0x2D333A) // between paper and rule
	accent = opaque(0x0B6E75, 0x58C4C9)
	good   = opaque(0x2F6F3E, 0x8BD18F)
	near   = opaque(0x8F5200, 0xF2B661)
	over   = opaque(0xA8281E, 0xFF9A8F)
	onFill = opaque(0xFFFFFF, 0x12161A) // text on accent, good, near and over
	shadow = opaque(0x000000, 0x000000).faint(0x28)

	// Wood: the dark ones have the hue of the light ones at half the lightness;
	// the skin, the largest, also at 60 % of the saturation.
	skinWood = opaque(0xE9D8B4, 0x897345)
	longWood = opaque(0xC98F4E, 0x6B4821)
	wideWood = opaque(0x8FB0B8, 0x3F5D64)
	bandWood = opaque(0xB98A6A, 0x63442F)
	fillWood = opaque(0xA9B18F, 0x585E42)
)

// tints are the colours by the toolkit's names and ours.
var tints = map[fyne.ThemeColorName]tint{
	widgets.ColorPaper:         paper,
	widgets.ColorSheet:         sheet,
	widgets.ColorInk:           ink,
	widgets.ColorPencil:        pencil,
	widgets.ColorRule:          rule,
	widgets.ColorAccent:        accent,
	widgets.ColorGood:          good,
	widgets.ColorNear:          near,
	widgets.ColorOver:          over,
	widgets.ColorSkin:          skinWood,
	widgets.ColorLengthwiseRib: longWood,
	widgets.ColorCrosswiseRib:  wideWood,
	widgets.ColorBand:          bandWood,
	widgets.ColorBlock:         fillWood,
	widgets.ColorCut:           ink.faint(0x26), // 15 %

	// A sag map's steps are equal, along a straight line of CIELAB: from L* 97 to
	// 48.5 and from 54 to 8, within what ink lines show on at 3:1.
	widgets.ColorSag[0]: opaque(0xECF9FE, 0x3588B9),
	widgets.ColorSag[1]: opaque(0xDEE8F6, 0x337AA9),
	widgets.ColorSag[2]: opaque(0xD0D8EE, 0x316C99),
	widgets.ColorSag[3]: opaque(0xC2C7E6, 0x2E5E89),
	widgets.ColorSag[4]: opaque(0xB4B7DE, 0x2B5179),
	widgets.ColorSag[5]: opaque(0xA6A8D6, 0x28446A),
	widgets.ColorSag[6]: opaque(0x9898CE, 0x24375B),
	widgets.ColorSag[7]: opaque(0x8A89C6, 0x202B4C),
	widgets.ColorSag[8]: opaque(0x7B7ABE, 0x1C1F3E),
	widgets.ColorSag[9]: opaque(0x6C6BB6, 0x171431),

	theme.ColorNameBackground:                paper,
	theme.ColorNameButton:                    button,
	theme.ColorNameDisabled:                  pencil,
	theme.ColorNameDisabledButton:            button,
	theme.ColorNameError:                     over,
	theme.ColorNameFocus:                     accent.faint(0x55),
	theme.ColorNameForeground:                ink,
	theme.ColorNameForegroundOnError:         onFill,
	theme.ColorNameForegroundOnPrimary:       onFill,
	theme.ColorNameForegroundOnSuccess:       onFill,
	theme.ColorNameForegroundOnWarning:       onFill,
	theme.ColorNameHeaderBackground:          paper,
	theme.ColorNameHover:                     ink.faint(0x12),
	theme.ColorNameHyperlink:                 accent,
	theme.ColorNameInnerWindowBorder:         rule,
	theme.ColorNameInnerWindowBorderInactive: rule,
	theme.ColorNameInputBackground:           sheet,
	theme.ColorNameInputBorder:               pencil.faint(0x90),
	theme.ColorNameMenuBackground:            sheet,
	theme.ColorNameOverlayBackground:         sheet,
	theme.ColorNamePlaceHolder:               pencil,
	theme.ColorNamePressed:                   ink.faint(0x26),
	theme.ColorNamePrimary:                   accent,
	theme.ColorNameScrollBar:                 pencil.faint(0x99),
	theme.ColorNameScrollBarBackground:       rule.faint(0x80),
	theme.ColorNameSelection:                 accent.faint(0x40),
	theme.ColorNameSeparator:                 rule,
	theme.ColorNameShadow:                    shadow,
	theme.ColorNameSuccess:                   good,
	theme.ColorNameWarning:                   near,
}

// sizes are the four sizes of text, and what else differs from the toolkit.
var sizes = map[fyne.ThemeSizeName]float32{
	theme.SizeNameCaptionText:    11,
	theme.SizeNameText:           13,
	theme.SizeNameSubHeadingText: 15,
	theme.SizeNameHeadingText:    22,

	theme.SizeNameModalBlurRadius: 0, // a blur of the whole window costs a slow screen most of its time
}

// Color returns the colour of that name in the palette that shows.
func (l *look) Color(name fyne.ThemeColorName, variant fyne.ThemeVariant) color.Color {
	switch l.appearance {
	case alwaysLight:
		variant = theme.VariantLight
	case alwaysDark:
		variant = theme.VariantDark
	}
	t, ok := tints[name]
	if !ok {
		return theme.DefaultTheme().Color(name, variant)
	}
	if variant == theme.VariantLight {
		return t.light
	}
	return t.dark
}

// Font returns the toolkit's own font.
func (l *look) Font(style fyne.TextStyle) fyne.Resource { return theme.DefaultTheme().Font(style) }

// Icon returns the toolkit's own icon.
func (l *look) Icon(name fyne.ThemeIconName) fyne.Resource { return theme.DefaultTheme().Icon(name) }

// Size returns the size of that name.
func (l *look) Size(name fyne.ThemeSizeName) float32 {
	if size, ok := sizes[name]; ok {
		return size
	}
	return theme.DefaultTheme().Size(name)
}
