package pdf

import "flatwright/engine/draw"

// colours are the light colours of the program's look. Those that carry a
// meaning differ in lightness or come with a hatch, so that a grey print
// tells them apart. Load is the accent, Support the pencil, Select the accent
// at 20 % and Cut ink at 15 % on white. Rules are darker than on screen: a
// printer breaks up a paler line. The sags run in ten equal steps along a straight
// line of CIELAB, from L* 97 to 48.5, where ink still shows at 3:1.
var colours = [...][3]uint8{
	draw.NoFill:        {0xFF, 0xFF, 0xFF},
	draw.Sheet:         {0xFF, 0xFF, 0xFF},
	draw.Skin:          {0xE9, 0xD8, 0xB4},
	draw.LengthwiseRib: {0xC9, 0x8F, 0x4E},
	draw.CrosswiseRib:  {0x8F, 0xB0, 0xB8},
	draw.Band:          {0xB9, 0x8A, 0x6A},
	draw.Block:         {0xA9, 0xB1, 0x8F},
	draw.Cut:           {0xDD, 0xDF, 0xE0},
	draw.Load:          {0x0B, 0x6E, 0x75},
	draw.Support:       {0x52, 0x60, 0x6D},
	draw.Good:          {0x2F, 0x6F, 0x3E},
	draw.Near:          {0x8F, 0x52, 0x00},
	draw.Over:          {0xA8, 0x28, 0x1E},
	draw.Select:        {0xCE, 0xE2, 0xE3},
	draw.Sag0:          {0xEC, 0xF9, 0xFE},
	draw.Sag1:          {0xDE, 0xE8, 0xF6},
	draw.Sag2:          {0xD0, 0xD8, 0xEE},
	draw.Sag3:          {0xC2, 0xC7, 0xE6},
	draw.Sag4:          {0xB4, 0xB7, 0xDE},
	draw.Sag5:          {0xA6, 0xA8, 0xD6},
	draw.Sag6:          {0x98, 0x98, 0xCE},
	draw.Sag7:          {0x8A, 0x89, 0xC6},
	draw.Sag8:          {0x7B, 0x7A, 0xBE},
	draw.Sag9:          {0x6C, 0x6B, 0xB6},
	draw.Ink:           {0x1F, 0x29, 0x33},
	draw.Pencil:        {0x52, 0x60, 0x6D},
	draw.RuleInk:       {0xB5, 0xAF, 0xA2},
	draw.AccentInk:     {0x0B, 0x6E, 0x75},
}

// Colour returns red, green and blue of a named colour on paper. A name that
// is not known is printed as ink.
func Colour(f draw.Fill) (r, g, b uint8) {
	if int(f) >= len(colours) {
		f = draw.Ink
	}
	c := colours[f]
	return c[0], c[1], c[2]
}
