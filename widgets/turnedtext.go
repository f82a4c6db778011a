package widgets

import (
	"image"
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/software"
	"fyne.io/fyne/v2/theme"

	"flatwright/engine/draw"
)

// turnedTexts keeps the pictures of texts that run upward. The toolkit's text
// cannot be turned.
type turnedTexts struct {
	kept map[turnedKey]*turnedText
}

type turnedKey struct {
	text   string
	size   float64
	bold   bool
	colour color.NRGBA
	scale  float32
	font   string
}

type turnedText struct {
	images []*canvas.Image // one for each time the text shows
	used   int
}

func (t *turnedTexts) begin() {
	if t.kept == nil {
		t.kept = map[turnedKey]*turnedText{}
	}
	for _, k := range t.kept {
		k.used = 0
	}
}

// end forgets what the frame did not use.
func (t *turnedTexts) end() {
	for key, k := range t.kept {
		if k.used == 0 {
			delete(t.kept, key)
		}
	}
}

// object returns the picture of it with the start of its baseline in place.
func (t *turnedTexts) object(it draw.Item, c color.Color, scale float32) fyne.CanvasObject {
	style := fyne.TextStyle{Bold: it.Bold}
	key := turnedKey{
		text: it.Text, size: it.Size, bold: it.Bold, scale: scale,
		colour: color.NRGBAModel.Convert(c).(color.NRGBA),
	}
	if f := theme.Current().Font(style); f != nil {
		key.font = f.Name()
	}
	k := t.kept[key]
	if k == nil {
		k = &turnedText{}
		t.kept[key] = k
	}
	if k.used == len(k.images) {
		var picture image.Image
		if k.used > 0 {
			picture = k.images[0].Image
		} else {
			picture = turn(textImage(it.Text, float32(it.Size), style, c, scale))
		}
		img := canvas.NewImageFromImage(picture)
		img.FillMode = canvas.ImageFillStretch
		img.ScaleMode = canvas.ImageScalePixels
		k.images = append(k.images, img)
	}
	img := k.images[k.used]
	k.used++
	b := img.Image.Bounds()
	w, h := float32(b.Dx())/scale, float32(b.Dy())/scale
	at := position(it.Points[0])
	img.Resize(fyne.NewSize(w, h))
	img.Move(fyne.NewPos(whole(at.X-baseline(float32(it.Size)), scale), whole(at.Y-h, scale)))
	return img
}

// whole moves v to a whole pixel.
func whole(v, scale float32) float32 {
	return float32(math.Round(float64(v*scale))) / scale
}

// textImage renders a text at scale pixels per unit.
func textImage(text string, size float32, style fyne.TextStyle, c color.Color, scale float32) image.Image {
	t := canvas.NewText(text, c)
	t.TextSize, t.TextStyle = size, style
	sheet := software.NewTransparentCanvas()
	sheet.SetPadded(false)
	sheet.SetScale(scale)
	sheet.SetContent(t)
	sheet.Resize(t.MinSize())
	return sheet.Capture()
}

// turn returns img turned by a quarter so that its right end points up.
func turn(img image.Image) *image.RGBA {
	b := img.Bounds()
	out := image.NewRGBA(image.Rect(0, 0, b.Dy(), b.Dx()))
	for y := range b.Dy() {
		for x := range b.Dx() {
			out.Set(y, b.Dx()-1-x, img.At(b.Min.X+x, b.Min.Y+y))
		}
	}
	return out
}
