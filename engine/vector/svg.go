package vector

import (
	"bufio"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
)

// ink is how the lines of a layer look in SVG; to a machine they are all alike.
var ink = [layers]string{
	Outline: "#1f2933", Hole: "#1f2933", Groove: "#0b6e75", Slot: "#8f5200",
	Sheet: "#52606d", SawCut: "#a8281e", Mark: "#52606d", Text: "#52606d",
}

// lineWidth of every line, mm.
const lineWidth = "0.2"

// capitals is the height of capitals as a part of the font size: that of common
// sans-serif faces, from memory.
const capitals = 0.7

// SVG writes d as an SVG 1.1 document (W3C recommendation) whose size is that
// of [Drawing.Bounds] in mm and whose user unit is 1 mm. Its y runs down, as
// the format has it. Every layer with something on it is a group with the
// layer's name in small letters as its id.
//
// It returns [ErrEmpty], [ErrNumber] or [ErrShape], wrapped, for a drawing that
// cannot be written, or the error of w.
func SVG(w io.Writer, d Drawing) error {
	if err := d.check(); err != nil {
		return err
	}
	low, high := d.Bounds()
	s := &svg{Writer: bufio.NewWriter(w), left: low.X, top: high.Y}
	width, height := short(high.X-low.X), short(high.Y-low.Y)
	s.printf("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n")
	s.printf("<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"%smm\" height=\"%smm\" viewBox=\"0 0 %s %s\">\n", width, height, width, height)
	s.printf("<title>%s</title>\n", escaped(d.Title))
	notes := append([]string{"1:1, all lengths in millimetres"}, d.Notes...)
	s.printf("<desc>%s</desc>\n", escaped(strings.Join(notes, "; ")))
	for l := range layers {
		s.layer(d, l)
	}
	s.printf("</svg>\n")
	return s.Flush()
}

// svg writes with y turned down and the drawing's corner at the origin.
type svg struct {
	*bufio.Writer
	left, top float64
}

// printf writes into the buffer, which keeps the first error for Flush.
func (s *svg) printf(format string, values ...any) { fmt.Fprintf(s, format, values...) }

func (s *svg) x(v float64) string { return short(v - s.left) }
func (s *svg) y(v float64) string { return short(s.top - v) }

func (s *svg) layer(d Drawing, l Layer) {
	var body strings.Builder
	for _, p := range d.Paths {
		if p.Layer == l {
			fmt.Fprintf(&body, "<path d=\"%s\"/>\n", s.path(p))
		}
	}
	for _, c := range d.Circles {
		if c.Layer == l {
			fmt.Fprintf(&body, "<circle cx=\"%s\" cy=\"%s\" r=\"%s\"/>\n", s.x(c.Centre.X), s.y(c.Centre.Y), short(c.Radius))
		}
	}
	if l == Text {
		for _, w := range d.Words {
			body.WriteString(s.words(w))
		}
	}
	if body.Len() == 0 {
		return
	}
	off := ""
	if l == Slot {
		off = " display=\"none\""
	}
	s.printf("<g id=\"%s\"%s fill=\"none\" stroke=\"%s\" stroke-width=\"%s\">\n%s</g>\n", strings.ToLower(l.String()), off, ink[l], lineWidth, body.String())
}

func (s *svg) path(p Path) string {
	var b strings.Builder
	for i, q := range written(p) {
		b.WriteString([]string{"M", "L"}[min(i, 1)] + s.x(q.X) + " " + s.y(q.Y))
	}
	if !p.Open {
		b.WriteString("Z")
	}
	return b.String()
}

func (s *svg) words(w Words) string {
	x, y := s.x(w.At.X), s.y(w.At.Y)
	turn := ""
	if angle := short(-w.Angle * 180 / math.Pi); angle != "0" {
		turn = fmt.Sprintf(" transform=\"rotate(%s %s %s)\"", angle, x, y)
	}
	return fmt.Sprintf("<text x=\"%s\" y=\"%s\"%s font-family=\"sans-serif\" font-size=\"%s\" fill=\"%s\" stroke=\"none\">%s</text>\n",
		x, y, turn, short(w.Height/capitals), ink[Text], escaped(w.Text))
}

// short prints a number to 0.001 without needless zeros.
func short(v float64) string { return strconv.FormatFloat(thousandth(v), 'f', -1, 64) }

// escaped makes text fit for XML, one line.
func escaped(text string) string {
	var b strings.Builder
	_ = xml.EscapeText(&b, []byte(strings.Join(strings.Fields(text), " "))) // a Builder takes everything
	return b.String()
}
