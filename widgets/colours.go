package widgets

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"flatwright/engine/draw"
)

// The names of our colours, for a theme's Color.
const (
	ColorPaper         fyne.ThemeColorName = "paper"         // window ground
	ColorSheet         fyne.ThemeColorName = "sheet"         // cards, fields, the drawing's ground
	ColorInk           fyne.ThemeColorName = "ink"           // text, outlines
	ColorPencil        fyne.ThemeColorName = "pencil"        // secondary text, dimension lines
	ColorRule          fyne.ThemeColorName = "rule"          // separators, grid
	ColorAccent        fyne.ThemeColorName = "accent"        // focus, selection
	ColorGood          fyne.ThemeColorName = "good"          // within its limit
	ColorNear          fyne.ThemeColorName = "near"          // near its limit
	ColorOver          fyne.ThemeColorName = "over"          // over its limit
	ColorSkin          fyne.ThemeColorName = "skin"          // drawing: skin
	ColorLengthwiseRib fyne.ThemeColorName = "lengthwiseRib" // drawing: lengthwise rib
	ColorCrosswiseRib  fyne.ThemeColorName = "crosswiseRib"  // drawing: crosswise rib
	ColorBand          fyne.ThemeColorName = "band"          // drawing: edge band
	ColorBlock         fyne.ThemeColorName = "block"         // drawing: solid block
	ColorCut           fyne.ThemeColorName = "cut"           // drawing: cut face
)

// ColorSag are the names of the colours of a sag map, from least to most sag.
var ColorSag = [10]fyne.ThemeColorName{"sag0", "sag1", "sag2", "sag3", "sag4", "sag5", "sag6", "sag7", "sag8", "sag9"}

// stand-ins are the toolkit's names nearest to ours.
var standIns = map[fyne.ThemeColorName]fyne.ThemeColorName{
	ColorPaper:         theme.ColorNameBackground,
	ColorSheet:         theme.ColorNameInputBackground,
	ColorInk:           theme.ColorNameForeground,
	ColorPencil:        theme.ColorNamePlaceHolder,
	ColorRule:          theme.ColorNameSeparator,
	ColorAccent:        theme.ColorNamePrimary,
	ColorGood:          theme.ColorNameSuccess,
	ColorNear:          theme.ColorNameWarning,
	ColorOver:          theme.ColorNameError,
	ColorSkin:          theme.ColorNameInputBackground,
	ColorLengthwiseRib: theme.ColorNameButton,
	ColorCrosswiseRib:  theme.ColorNameButton,
	ColorBand:          theme.ColorNameDisabledButton,
	ColorBlock:         theme.ColorNameDisabledButton,
	ColorCut:           theme.ColorNameShadow,
	ColorSag[0]:        theme.ColorNameInputBackground,
	ColorSag[1]:        theme.ColorNameInputBackground,
	ColorSag[2]:        theme.ColorNameInputBackground,
	ColorSag[3]:        theme.ColorNameInputBackground,
	ColorSag[4]:        theme.ColorNameInputBackground,
	ColorSag[5]:        theme.ColorNameInputBackground,
	ColorSag[6]:        theme.ColorNameInputBackground,
	ColorSag[7]:        theme.ColorNameInputBackground,
	ColorSag[8]:        theme.ColorNameInputBackground,
	ColorSag[9]:        theme.ColorNameInputBackground,
}

// fillNames are the colours of a drawing.
var fillNames = map[draw.Fill]fyne.ThemeColorName{
	draw.Sheet:         ColorSheet,
	draw.Skin:          ColorSkin,
	draw.LengthwiseRib: ColorLengthwiseRib,
	draw.CrosswiseRib:  ColorCrosswiseRib,
	draw.Band:          ColorBand,
	draw.Block:         ColorBlock,
	draw.Cut:           ColorCut,
	draw.Sag0:          ColorSag[0],
	draw.Sag1:          ColorSag[1],
	draw.Sag2:          ColorSag[2],
	draw.Sag3:          ColorSag[3],
	draw.Sag4:          ColorSag[4],
	draw.Sag5:          ColorSag[5],
	draw.Sag6:          ColorSag[6],
	draw.Sag7:          ColorSag[7],
	draw.Sag8:          ColorSag[8],
	draw.Sag9:          ColorSag[9],
	draw.Load:          ColorAccent,
	draw.Support:       ColorPencil,
	draw.Good:          ColorGood,
	draw.Near:          ColorNear,
	draw.Over:          ColorOver,
	draw.Select:        ColorAccent,
	draw.Ink:           ColorInk,
	draw.Pencil:        ColorPencil,
	draw.RuleInk:       ColorRule,
	draw.AccentInk:     ColorAccent,
}

// ThemeColor returns the colour called name in the theme that object shows in,
// or the nearest one that theme has. It never returns nil.
func ThemeColor(name fyne.ThemeColorName, object fyne.CanvasObject) color.Color {
	var th fyne.Theme
	if object != nil {
		th = theme.CurrentForWidget(object)
	} else {
		th = theme.Current()
	}
	variant := fyne.CurrentApp().Settings().ThemeVariant()
	if c := th.Color(name, variant); visible(c) {
		return c
	}
	if other, ok := standIns[name]; ok {
		if c := th.Color(other, variant); visible(c) {
			return c
		}
	}
	return theme.DefaultTheme().Color(theme.ColorNameForeground, variant)
}

// FillColor returns the colour of a drawing's fill in the theme that object
// shows in; transparent for draw.NoFill.
func FillColor(fill draw.Fill, object fyne.CanvasObject) color.Color {
	name, ok := fillNames[fill]
	if !ok {
		return color.Transparent
	}
	return ThemeColor(name, object)
}

// visible tells a colour from the nothing that themes answer for names they
// do not know.
func visible(c color.Color) bool {
	if c == nil {
		return false
	}
	_, _, _, a := c.RGBA()
	return a > 0
}

// faint returns c with a share of its opacity.
func faint(c color.Color, share float64) color.Color {
	n := color.NRGBAModel.Convert(c).(color.NRGBA)
	n.A = uint8(float64(n.A) * share)
	return n
}
