package pdf

import (
	"encoding/binary"
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"flatwright/engine/draw"
)

// ErrFont is returned, wrapped, for font bytes that cannot be read.
var ErrFont = errors.New("not a usable TrueType font")

// noGlyph is printed for a sign that a face lacks.
const noGlyph = '□'

// face knows which signs a font has and how wide they are. Only the Basic
// Multilingual Plane counts: the document's fonts are coded in 16 bits.
type face struct {
	advance [0x10000]uint16 // font units
	has     [0x10000]bool
	em      float64 // font units
}

type faces struct{ regular, bold *face }

func readFaces(fonts Fonts) (faces, error) {
	regular, err := readFace(fonts.Regular)
	if err != nil {
		return faces{}, fmt.Errorf("regular face: %w", err)
	}
	bold, err := readFace(fonts.Bold)
	if err != nil {
		return faces{}, fmt.Errorf("bold face: %w", err)
	}
	return faces{regular, bold}, nil
}

// Measurer returns a function that measures text as [Write] prints it: the
// width comes in the unit of size. The function may be called from many
// goroutines.
func Measurer(fonts Fonts) (func(text string, size float64, bold bool) float64, error) {
	faces, err := readFaces(fonts)
	if err != nil {
		return nil, err
	}
	return func(text string, size float64, bold bool) float64 {
		f := faces.regular
		if bold {
			f = faces.bold
		}
		units := 0
		for _, r := range f.printable(text) {
			units += int(f.advance[r])
		}
		return size * float64(units) / f.em
	}, nil
}

// Missing returns the signs on the pages that the face they are set in lacks,
// sorted, each once.
func Missing(fonts Fonts, pages []draw.Page) ([]rune, error) {
	faces, err := readFaces(fonts)
	if err != nil {
		return nil, err
	}
	var out []rune
	for _, page := range pages {
		for _, it := range page.Flat.Items {
			f := faces.regular
			if it.Bold {
				f = faces.bold
			}
			for _, r := range it.Text {
				if !f.covers(r) {
					out = append(out, r)
				}
			}
		}
	}
	slices.Sort(out)
	return slices.Compact(out), nil
}

func (f *face) covers(r rune) bool { return r >= 0 && int(r) < len(f.has) && f.has[r] }

// printable returns text with a space for every control character and a box
// for every sign that f lacks. The result is well-formed UTF-8.
func (f *face) printable(text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case unicode.IsControl(r):
			return ' '
		case f.covers(r):
			return r
		case f.covers(noGlyph):
			return noGlyph
		}
		return '?'
	}, text)
}

// readFace reads the tables head, hhea, hmtx and the format 4 part of cmap of a
// TrueType file (OpenType specification, from memory).
func readFace(data []byte) (*face, error) {
	t := table{data: data, ok: true}
	tables := map[string]table{}
	for i := range t.u16(4) {
		at := 12 + 16*i
		tables[string(t.bytes(at, 4))] = t.part(t.u32(at+8), t.u32(at+12))
	}
	head, hhea, hmtx := tables["head"], tables["hhea"], tables["hmtx"]
	f := &face{em: float64(head.u16(18))}
	widths := hhea.u16(34)
	glyphs := unicodeGlyphs(tables["cmap"])
	if !t.ok || !head.ok || !hhea.ok || !hmtx.ok || f.em == 0 || widths == 0 || len(glyphs) == 0 {
		return nil, ErrFont
	}
	for r, glyph := range glyphs {
		f.has[r] = true
		f.advance[r] = uint16(hmtx.u16(4 * min(glyph, widths-1)))
	}
	if !hmtx.ok {
		return nil, ErrFont
	}
	return f, nil
}

// unicodeGlyphs returns the glyph of each rune by the Unicode part of a cmap
// table in format 4, nil if there is none.
func unicodeGlyphs(cmap table) map[rune]int {
	var s table
	for i := range cmap.u16(2) {
		platform, coding := cmap.u16(4+8*i), cmap.u16(6+8*i)
		if platform == 0 || platform == 3 && coding == 1 {
			at := cmap.u32(8 + 8*i)
			if part := cmap.part(at, len(cmap.data)-at); part.u16(0) == 4 {
				s = part
			}
		}
	}
	glyphs := map[rune]int{}
	double := s.u16(6) // twice the number of segments
	for i := 0; i < double; i += 2 {
		end, start := s.u16(14+i), s.u16(16+double+i)
		delta, rangeAt := s.u16(16+2*double+i), 16+3*double+i
		offset := s.u16(rangeAt)
		for r := start; r <= end && r < 0xFFFF; r++ {
			glyph := r
			if offset != 0 {
				glyph = s.u16(rangeAt + offset + 2*(r-start))
				if glyph == 0 {
					continue
				}
			}
			if glyph = (glyph + delta) & 0xFFFF; glyph != 0 {
				glyphs[rune(r)] = glyph
			}
		}
	}
	if !s.ok {
		return nil
	}
	return glyphs
}

// table is a piece of a font file. Reading beyond its end gives 0 and clears
// ok.
type table struct {
	data []byte
	ok   bool
}

func (t *table) bytes(at, n int) []byte {
	if at < 0 || n < 0 || at > len(t.data) || n > len(t.data)-at {
		t.ok = false
		return make([]byte, min(max(n, 0), 4))
	}
	return t.data[at : at+n]
}

func (t *table) u16(at int) int { return int(binary.BigEndian.Uint16(t.bytes(at, 2))) }

func (t *table) u32(at int) int { return int(binary.BigEndian.Uint32(t.bytes(at, 4))) }

func (t *table) part(at, n int) table {
	if at < 0 || n < 0 || at > len(t.data) || n > len(t.data)-at {
		t.ok = false
		return table{}
	}
	return table{data: t.data[at : at+n], ok: true}
}
