package pdf

import (
	"encoding/binary"
	"errors"
	"testing"
)

// words16 returns values as big-endian 16 bit words.
func words16(values ...uint16) []byte {
	var out []byte
	for _, v := range values {
		out = binary.BigEndian.AppendUint16(out, v)
	}
	return out
}

// tinyFont returns a font of four glyphs with the given hmtx table: 1000 units
// an em, three widths, A and B by an offset of glyph numbers, a to c by a list
// of glyphs that lacks b. Its Unicode part stands second, after one that is
// not Unicode.
func tinyFont(platform, coding uint16, hmtx []byte) []byte {
	head := make([]byte, 54)
	binary.BigEndian.PutUint16(head[18:], 1000)
	hhea := make([]byte, 36)
	binary.BigEndian.PutUint16(hhea[34:], 3)
	format4 := words16(
		4, 0, 0, 6, 0, 0, 0, // format, length, language, 2·segments, three search hints
		'B', 'c', 0xFFFF, 0, // ends, a pad
		'A', 'a', 0xFFFF, // starts
		0x10000-'A'+1, 0, 1, // deltas: A is glyph 1
		0, 4, 0, // range offsets: from its own place, the list is 2 words on
		3, 0, 1) // a is glyph 3, b none, c glyph 1
	cmap := words16(0, 2, 1, 0, 0, 20, platform, coding, 0, 22)
	cmap = append(append(cmap, words16(6)...), format4...)
	font := words16(1, 0, 4, 0, 0, 0)
	at := 12 + 16*4
	var body []byte
	for _, t := range []struct {
		tag  string
		data []byte
	}{{"cmap", cmap}, {"head", head}, {"hhea", hhea}, {"hmtx", hmtx}} {
		font = append(font, t.tag...)
		font = binary.BigEndian.AppendUint32(font, 0)
		font = binary.BigEndian.AppendUint32(font, uint32(at+len(body)))
		font = binary.BigEndian.AppendUint32(font, uint32(len(t.data)))
		body = append(body, t.data...)
	}
	return append(font, body...)
}

func TestTinyFont(t *testing.T) {
	t.Parallel()
	hmtx := words16(500, 0, 600, 0, 700, 0)
	for _, kind := range [][2]uint16{{0, 3}, {3, 1}} {
		f, err := readFace(tinyFont(kind[0], kind[1], hmtx))
		if err != nil {
			t.Fatalf("platform %d: %v", kind[0], err)
		}
		// The fourth glyph has the width of the third.
		for r, want := range map[rune]uint16{'A': 600, 'B': 700, 'a': 700, 'c': 600} {
			if !f.covers(r) || f.advance[r] != want {
				t.Errorf("platform %d: %q has %v, %d wide; want %d", kind[0], r, f.covers(r), f.advance[r], want)
			}
		}
		for _, r := range []rune{'b', 'C', '@', 'd', 0xFFFF, -1, 0x10000} {
			if f.covers(r) {
				t.Errorf("platform %d: %q is covered", kind[0], r)
			}
		}
		if f.em != 1000 {
			t.Errorf("em = %g; want 1000", f.em)
		}
	}
	for name, font := range map[string][]byte{
		"no Unicode part": tinyFont(3, 0, hmtx),
		"other platform":  tinyFont(1, 1, hmtx),
		"cut widths":      tinyFont(3, 1, hmtx[:6]),
		"no widths":       tinyFont(3, 1, nil),
		"cut last table":  tinyFont(3, 1, hmtx)[:200],
	} {
		if _, err := readFace(font); !errors.Is(err, ErrFont) {
			t.Errorf("%s: error %v; want ErrFont", name, err)
		}
	}
}
