package widgets

import (
	"image/color"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// sentence is a text that wraps to the width it is given, without the padding
// of the toolkit's label. An empty one takes no room.
type sentence struct {
	widget.BaseWidget
	text   string
	colour fyne.ThemeColorName
	size   fyne.ThemeSizeName
	bold   bool
}

// assumedWidth is the width a sentence is wrapped to before its first layout.
const assumedWidth = 160

func newSentence(colour fyne.ThemeColorName, size fyne.ThemeSizeName) *sentence {
	s := &sentence{colour: colour, size: size}
	s.ExtendBaseWidget(s)
	return s
}

func (s *sentence) set(text string, colour fyne.ThemeColorName) {
	if s.text == text && s.colour == colour {
		return
	}
	s.text, s.colour = text, colour
	s.Refresh()
}

// Resize wraps the text again if the width changed.
func (s *sentence) Resize(size fyne.Size) {
	width := s.Size().Width
	s.BaseWidget.Resize(size)
	if size.Width != width {
		s.Refresh()
	}
}

// heightAt is how high the sentence is when wrapped to width.
func (s *sentence) heightAt(width float32) float32 {
	size, style := theme.CurrentForWidget(s).Size(s.size), fyne.TextStyle{Bold: s.bold}
	return float32(len(wrap(s.text, width, size, style))) * fyne.MeasureText("0", size, style).Height
}

// CreateRenderer links the sentence to the toolkit.
func (s *sentence) CreateRenderer() fyne.WidgetRenderer {
	r := &sentenceRenderer{s: s}
	r.Refresh()
	return r
}

type sentenceRenderer struct {
	s       *sentence
	lines   []*canvas.Text
	objects []fyne.CanvasObject
}

func (r *sentenceRenderer) style() (size float32, style fyne.TextStyle) {
	return theme.CurrentForWidget(r.s).Size(r.s.size), fyne.TextStyle{Bold: r.s.bold}
}

func (r *sentenceRenderer) Refresh() {
	size, style := r.style()
	width := r.s.Size().Width
	if width <= 0 {
		width = assumedWidth
	}
	lines := wrap(r.s.text, width, size, style)
	for len(r.lines) < len(lines) {
		r.lines = append(r.lines, canvas.NewText("", color.Transparent))
	}
	r.objects = r.objects[:0]
	colour := ThemeColor(r.s.colour, r.s)
	for i, text := range lines {
		t := r.lines[i]
		t.Text, t.TextSize, t.TextStyle, t.Color = text, size, style, colour
		r.objects = append(r.objects, t)
	}
	r.Layout(r.s.Size())
	canvas.Refresh(r.s)
}

func (r *sentenceRenderer) Layout(size fyne.Size) {
	y := float32(0)
	for _, o := range r.objects {
		h := o.MinSize().Height
		o.Move(fyne.NewPos(0, y))
		o.Resize(fyne.NewSize(size.Width, h))
		y += h
	}
}

// MinSize is as high as the lines at the present width and as wide as nothing:
// a sentence never widens its pane.
func (r *sentenceRenderer) MinSize() fyne.Size {
	h := float32(0)
	for _, o := range r.objects {
		h += o.MinSize().Height
	}
	return fyne.NewSize(0, h)
}

func (r *sentenceRenderer) Objects() []fyne.CanvasObject { return r.objects }
func (r *sentenceRenderer) Destroy()                     {}

// wrap breaks text into lines no wider than width, between words where it can.
func wrap(text string, width, size float32, style fyne.TextStyle) []string {
	fits := func(s string) bool { return fyne.MeasureText(s, size, style).Width <= width }
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		if line != "" && fits(line+" "+word) {
			line += " " + word
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for !fits(word) {
			head := headThatFits(word, fits)
			if head == word {
				break
			}
			lines = append(lines, head)
			word = word[len(head):]
		}
		line = word
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

// headThatFits returns the longest start of word that fits, at least one sign.
func headThatFits(word string, fits func(string) bool) string {
	end := len(word)
	for i := range word {
		if i > 0 && !fits(word[:i]) {
			break
		}
		if i > 0 {
			end = i
		}
	}
	if end == len(word) { // not even one fits
		for i := range word {
			if i > 0 {
				return word[:i]
			}
		}
	}
	return word[:end]
}

// elide returns text, or its longest start followed by … that is no wider than
// width.
func elide(text string, width, size float32, style fyne.TextStyle) string {
	fits := func(s string) bool { return fyne.MeasureText(s, size, style).Width <= width }
	if fits(text) {
		return text
	}
	runes := []rune(text)
	for n := len(runes) - 1; n > 0; n-- {
		short := strings.TrimRight(string(runes[:n]), " ,;") + "…"
		if fits(short) {
			return short
		}
	}
	return "…"
}

// column stacks objects at full width, each as high as it needs at that width.
type column struct{ gap float32 }

func (c column) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	y := float32(0)
	for _, o := range objects {
		if !o.Visible() {
			continue
		}
		o.Resize(fyne.NewSize(size.Width, o.MinSize().Height))
		h := o.MinSize().Height // a wrapping text knows its height only now
		o.Resize(fyne.NewSize(size.Width, h))
		o.Move(fyne.NewPos(0, y))
		if h > 0 {
			y += h + c.gap
		}
	}
}

func (c column) MinSize(objects []fyne.CanvasObject) fyne.Size {
	var size fyne.Size
	n := 0
	for _, o := range objects {
		if !o.Visible() {
			continue
		}
		m := o.MinSize()
		size.Width = max(size.Width, m.Width)
		size.Height += m.Height
		if m.Height > 0 {
			n++
		}
	}
	if n > 1 {
		size.Height += float32(n-1) * c.gap
	}
	return size
}
