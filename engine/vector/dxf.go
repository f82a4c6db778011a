package vector

import (
	"bufio"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// colour numbers of the layers: the format's own index, 1 red, 3 green, 4 cyan,
// 5 blue, 6 magenta, 7 black or white, 8 grey. A negative one switches off.
var colour = [layers]int{Outline: 7, Hole: 5, Groove: 3, Slot: -6, Sheet: 8, SawCut: 1, Mark: 4, Text: 8}

// DXF writes d as a drawing of DXF release 12 ($ACADVER AC1009), the one that
// every reader of the format takes: sections HEADER, TABLES and ENTITIES,
// closed lines as POLYLINE with flag 1, circles as CIRCLE, texts as TEXT.
//
// The release has no variable for the unit of length; that it is millimetres
// stands in a comment (group 999) at the head, and in each text the caller
// writes. Texts are plain ASCII: accents are dropped, other signs are written
// as \U+ and their number.
//
// It returns the errors of [SVG].
//
// Source: the published DXF reference of release 12, from memory; read back
// with another reader of the format.
func DXF(w io.Writer, d Drawing) error {
	if err := d.check(); err != nil {
		return err
	}
	x := &dxf{bufio.NewWriter(w)}
	x.comment("1:1, all lengths in millimetres")
	x.comment(d.Title)
	for _, note := range d.Notes {
		x.comment(note)
	}
	x.header(d)
	x.tables()
	x.section("ENTITIES")
	for _, p := range d.Paths {
		x.polyline(p)
	}
	for _, c := range d.Circles {
		x.entity("CIRCLE", c.Layer)
		x.place(10, c.Centre)
		x.number(40, c.Radius)
	}
	for _, t := range d.Words {
		x.words(t)
	}
	x.text(0, "ENDSEC")
	x.text(0, "EOF")
	return x.Flush()
}

// dxf writes pairs of lines: a group code, which says what the value is, and
// the value. The buffer keeps the first error for Flush.
type dxf struct{ *bufio.Writer }

func (x *dxf) text(code int, value string) { fmt.Fprintf(x, "%3d\n%s\n", code, value) }

func (x *dxf) whole(code, value int) { x.text(code, strconv.Itoa(value)) }

func (x *dxf) number(code int, value float64) {
	s := short(value)
	if !strings.Contains(s, ".") {
		s += ".0"
	}
	x.text(code, s)
}

// place writes x, y and z = 0 with codes that are ten apart.
func (x *dxf) place(code int, p Point) {
	x.number(code, p.X)
	x.number(code+10, p.Y)
	x.number(code+20, 0)
}

func (x *dxf) comment(text string) {
	if text = ascii(text); text != "" {
		x.text(999, text)
	}
}

func (x *dxf) section(name string) {
	x.text(0, "SECTION")
	x.text(2, name)
}

func (x *dxf) header(d Drawing) {
	low, high := d.Bounds()
	x.section("HEADER")
	x.text(9, "$ACADVER")
	x.text(1, "AC1009")
	x.text(9, "$EXTMIN")
	x.place(10, low)
	x.text(9, "$EXTMAX")
	x.place(10, high)
	x.text(9, "$LUNITS") // decimal
	x.whole(70, 2)
	x.text(9, "$LUPREC")
	x.whole(70, 3)
	x.text(0, "ENDSEC")
}

// tables writes the one kind of line, the layers and the one style of text.
func (x *dxf) tables() {
	x.section("TABLES")
	x.table("LTYPE", 1)
	x.text(0, "LTYPE")
	x.text(2, "CONTINUOUS")
	x.whole(70, 0)
	x.text(3, "Solid line")
	x.whole(72, 65) // "A", as every line type
	x.whole(73, 0)
	x.number(40, 0)
	x.text(0, "ENDTAB")
	x.table("LAYER", 1+int(layers))
	x.layer("0", 7)
	for l := range layers {
		x.layer(l.String(), colour[l])
	}
	x.text(0, "ENDTAB")
	x.table("STYLE", 1)
	x.text(0, "STYLE")
	x.text(2, "STANDARD")
	x.whole(70, 0)
	x.number(40, 0) // height as each text says
	x.number(41, 1)
	x.number(50, 0)
	x.whole(71, 0)
	x.number(42, 5)
	x.text(3, "txt")
	x.text(4, "")
	x.text(0, "ENDTAB")
	x.text(0, "ENDSEC")
}

func (x *dxf) table(name string, entries int) {
	x.text(0, "TABLE")
	x.text(2, name)
	x.whole(70, entries)
}

func (x *dxf) layer(name string, colour int) {
	x.text(0, "LAYER")
	x.text(2, name)
	x.whole(70, 0)
	x.whole(62, colour)
	x.text(6, "CONTINUOUS")
}

func (x *dxf) entity(name string, l Layer) {
	x.text(0, name)
	x.text(8, l.String())
}

func (x *dxf) polyline(p Path) {
	x.entity("POLYLINE", p.Layer)
	x.whole(66, 1) // corners follow
	x.place(10, Point{})
	closed := 1
	if p.Open {
		closed = 0
	}
	x.whole(70, closed)
	for _, q := range written(p) {
		x.entity("VERTEX", p.Layer)
		x.place(10, q)
	}
	x.entity("SEQEND", p.Layer)
}

func (x *dxf) words(w Words) {
	text := ascii(w.Text)
	if text == "" {
		return
	}
	x.entity("TEXT", Text)
	x.place(10, w.At)
	x.number(40, w.Height)
	x.text(1, text)
	x.number(50, w.Angle*180/math.Pi)
}

// plain are signs that the decomposition of Unicode leaves whole.
var plain = strings.NewReplacer("×", "x", "–", "-", "—", "-", "−", "-", "·", "-", "⁄", "/", "’", "'", "‘", "'", "“", `"`, "”", `"`,
	"ß", "ss", "ø", "o", "Ø", "O", "æ", "ae", "Æ", "AE", "ł", "l", "Ł", "L", "°", " deg")

// longest is how many signs a text of release 12 may have.
const longest = 255

// ascii returns text as one line of plain signs that every reader shows alike,
// cut off at the longest that the format takes.
func ascii(text string) string {
	var b strings.Builder
	for _, r := range plain.Replace(taken(plain.Replace(strings.ToValidUTF8(text, "?")))) {
		switch {
		case unicode.Is(unicode.Mn, r): // the accent of the letter before
		case unicode.IsSpace(r) || unicode.IsControl(r):
			b.WriteByte(' ')
		case r > unicode.MaxASCII && r <= 0xFFFF:
			fmt.Fprintf(&b, `\U+%04X`, r)
		case r > 0xFFFF:
			b.WriteByte('?')
		default:
			b.WriteRune(r)
		}
	}
	// A circumflex and two per cent signs have a meaning of their own in a text.
	line := strings.ReplaceAll(strings.Join(strings.Fields(b.String()), " "), "^", "'")
	for strings.Contains(line, "%%") {
		line = strings.ReplaceAll(line, "%%", "%")
	}
	return line[:min(len(line), longest)]
}

// taken takes signs apart into simpler ones (Unicode's compatible
// decomposition), 1½ into 1 1/2 and not into 11/2.
func taken(text string) string {
	var b strings.Builder
	digit := false
	for _, r := range text {
		apart := norm.NFKD.String(string(r))
		if digit && apart != string(r) && unicode.IsDigit(rune(apart[0])) {
			b.WriteByte(' ')
		}
		b.WriteString(apart)
		digit = unicode.IsDigit(r)
	}
	return b.String()
}
