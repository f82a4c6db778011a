package pdf

import (
	"bytes"
	"compress/zlib"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"regexp"
	"strings"
	"sync"
	"testing"
	"unicode/utf16"

	"flatwright/engine/draw"
)

// testFonts are the faces that the program prints with.
func testFonts(t testing.TB) Fonts {
	t.Helper()
	read := func(name string) []byte {
		data, err := os.ReadFile("../../resources/fonts/" + name)
		if err != nil {
			t.Fatal(err)
		}
		return data
	}
	return Fonts{Regular: read("DejaVuSansCondensed.ttf"), Bold: read("DejaVuSansCondensed-Bold.ttf")}
}

func write(t testing.TB, pages []draw.Page, info Info) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := Write(&out, pages, info, testFonts(t)); err != nil {
		t.Fatalf("Write: %v", err)
	}
	return out.Bytes()
}

// samplePages returns two pages with everything on them.
func samplePages(t testing.TB) []draw.Page {
	t.Helper()
	measure, err := Measurer(testFonts(t))
	if err != nil {
		t.Fatal(err)
	}
	m := draw.PaperMetrics(measure)
	f := draw.Figure{
		Areas: []draw.Area{
			{Points: draw.Rect{Max: draw.Point{X: 1800, Y: 750}}.Corners(), Fill: draw.Skin, Pen: draw.Outline},
			{Points: draw.Rect{Min: draw.Point{X: 0, Y: 100}, Max: draw.Point{X: 1800, Y: 112}}.Corners(), Fill: draw.LengthwiseRib, Pen: draw.Hidden, Hatch: draw.HatchSlash},
		},
		Lines: []draw.Line{{A: draw.Point{X: -20, Y: 375}, B: draw.Point{X: 1820, Y: 375}, Pen: draw.Centre}},
		Dimensions: []draw.Dimension{
			{A: draw.Point{X: 0, Y: 750}, B: draw.Point{X: 1800, Y: 750}, Side: draw.Above, Rank: 1, Text: "5′ 10 ⅞″"},
			{A: draw.Point{X: 0, Y: 0}, B: draw.Point{X: 0, Y: 750}, Side: draw.Left, Rank: 1, Text: "750"},
		},
	}
	first := draw.NewPage("Plan ½", draw.Letter, m)
	first.Place(f, draw.Rect{Min: draw.Point{X: 15, Y: 20}, Max: draw.Point{X: 200, Y: 140}}, 20)
	first.Text(15, 160, "Cut 5 ribs × 12 mm", draw.AtTopLeft, draw.Style{Bold: true, Size: draw.HeadingSize})
	second := draw.NewPage("Parts", draw.A4.Landscape(), m)
	second.Checkbox(20, 20, 4)
	return []draw.Page{*first, *second}
}

// streams returns the content of the document's compressed streams.
func streams(t testing.TB, doc []byte) []string {
	t.Helper()
	var out []string
	for _, s := range regexp.MustCompile(`(?s)stream\n(.*?)\nendstream`).FindAllSubmatch(doc, -1) {
		r, err := zlib.NewReader(bytes.NewReader(s[1]))
		if err != nil {
			continue // not compressed
		}
		data, err := io.ReadAll(r)
		if err != nil {
			t.Fatalf("stream: %v", err)
		}
		out = append(out, string(data))
	}
	return out
}

// coded returns text as a page's stream holds it: UTF-16, big end first.
func coded(text string) string {
	var b strings.Builder
	for _, u := range utf16.Encode([]rune(text)) {
		for _, c := range []byte{byte(u >> 8), byte(u)} {
			if strings.ContainsRune(`\()`, rune(c)) {
				b.WriteByte('\\')
			}
			b.WriteByte(c)
		}
	}
	return b.String()
}

func TestPageBoxes(t *testing.T) {
	t.Parallel()
	doc := write(t, samplePages(t), Info{})
	if n := bytes.Count(doc, []byte("/Type /Page\n")); n != 2 {
		t.Errorf("%d pages; want 2", n)
	}
	// Letter is 8.5 × 11 in = 612 × 792 points; A4 turned is 297 × 210 mm =
	// 297/25.4·72 = 841.89 by 595.28 points.
	for _, box := range []string{"/MediaBox [0 0 612.00 792.00]", "/MediaBox [0 0 841.89 595.28]"} {
		if !bytes.Contains(doc, []byte(box)) {
			t.Errorf("no %s", box)
		}
	}
}

func TestPageContent(t *testing.T) {
	t.Parallel()
	pages := streams(t, write(t, samplePages(t), Info{}))
	page := pages[0]
	for what, want := range map[string]string{
		"the heading":                     "(" + coded("Cut 5 ribs × 12 mm") + ") Tj",
		"a fraction in a dimension":       coded("5′ 10 ⅞″"),
		"skin colour E9D8B4":              "0.914 0.847 0.706 rg",
		"rib colour C98F4E":               "0.788 0.561 0.306 rg",
		"thick line, 0.5 mm in points":    "1.42 w",
		"thin line, 0.25 mm":              "0.71 w",
		"hidden: 12 and 3 times 0.25":     "[8.50 2.13] 0.00 d",
		"chain: 24, 3, 2, 3 times 0.25":   "[17.01 2.13 1.42 2.13] ",
		"text turned by a quarter":        "0.00000 1.00000 -1.00000 0.00000",
		"heading of 3·15/11 mm in points": "11.60 Tf",
	} {
		if !strings.Contains(page, want) {
			t.Errorf("the page lacks %s: %q", what, want)
		}
	}
	// The checkbox: 4 mm = 11.34 points wide from 20 mm = 56.69, from the top of 210 mm.
	for _, want := range []string{"56.69 538.58 m", "68.03 538.58 l", "68.03 527.24 l", "56.69 527.24 l", "h"} {
		if !strings.Contains(pages[1], want) {
			t.Errorf("the square lacks %q", want)
		}
	}
	if strings.Contains(pages[1], coded("Cut")) {
		t.Error("text of the first page is on the second")
	}
}

func TestWhatCannotBeSeenIsNotDrawn(t *testing.T) {
	t.Parallel()
	square := draw.Rect{Max: draw.Point{X: 9, Y: 9}}.Corners()
	empty := streams(t, write(t, []draw.Page{{Width: 100, Height: 100}}, Info{}))[0]
	page := draw.Page{Width: 100, Height: 100, Flat: draw.Flat{Items: []draw.Item{
		{Shape: draw.Polygon, Points: square},
		{Shape: draw.Polygon, Points: square[:2], Colour: draw.Ink},
		{Shape: draw.Stroke, Points: square, Colour: draw.Ink},
		{Shape: draw.Stroke, Points: square, Width: 1},
		{Shape: draw.Stroke, Points: square[:1], Width: 1, Colour: draw.Ink},
		{Shape: draw.Words, Points: square, Size: 3, Colour: draw.Ink},
		{Shape: draw.Words, Text: "x", Points: square, Colour: draw.Ink},
		{Shape: draw.Words, Text: "x", Size: 3, Colour: draw.Ink},
		{Shape: draw.Words, Text: "x", Points: square, Size: 3},
	}}}
	if got := streams(t, write(t, []draw.Page{page}, Info{}))[0]; got != empty {
		t.Errorf("drawn: %q", got)
	}
}

func TestBadDashesAreDrawnThrough(t *testing.T) {
	t.Parallel()
	for _, bad := range [][]float64{{3, -1}, {0, 0}, {}} {
		if got := dashes(bad); got != nil {
			t.Errorf("dashes(%v) = %v; want none", bad, got)
		}
	}
	if got := dashes([]float64{3, 0}); len(got) != 2 {
		t.Errorf("dashes(3, 0) = %v; want them kept", got)
	}
}

func TestInfoAndBookmarks(t *testing.T) {
	t.Parallel()
	doc := write(t, samplePages(t), Info{Title: "Bänk ⅜″", Subject: "Packet"})
	for _, want := range []string{
		"/Title (\xFE\xFF" + coded("Bänk ⅜″") + ")",
		"/Subject (\xFE\xFF" + coded("Packet") + ")",
		"/Title (\xFE\xFF" + coded("Plan ½") + ")", // the bookmarks
		"/Title (\xFE\xFF" + coded("Parts") + ")",
		"/CreationDate (D:20000101000000)",
		"/Type /Outlines",
	} {
		if !bytes.Contains(doc, []byte(want)) {
			t.Errorf("no %q", want)
		}
	}
}

func TestSameBytes(t *testing.T) {
	t.Parallel()
	pages := samplePages(t)
	fonts := testFonts(t)
	before := sha256.Sum256(append(append([]byte{}, fonts.Regular...), fonts.Bold...))
	want := sha256.Sum256(write(t, pages, Info{Title: "Same"}))
	var wg sync.WaitGroup
	for i := range 8 {
		wg.Go(func() {
			var out bytes.Buffer
			if err := Write(&out, pages, Info{Title: "Same"}, fonts); err != nil {
				t.Errorf("Write %d: %v", i, err)
			}
			if got := sha256.Sum256(out.Bytes()); got != want {
				t.Errorf("document %d differs from the first", i)
			}
		})
	}
	wg.Wait()
	if after := sha256.Sum256(append(append([]byte{}, fonts.Regular...), fonts.Bold...)); after != before {
		t.Error("writing changed the font bytes")
	}
	if other := sha256.Sum256(write(t, pages, Info{Title: "Other"})); other == want {
		t.Error("another title gives the same bytes; the comparison sees nothing")
	}
}

type brokenWriter struct{}

var errDisk = errors.New("disk full")

func (brokenWriter) Write([]byte) (int, error) { return 0, errDisk }

func TestWriteRefuses(t *testing.T) {
	t.Parallel()
	good := testFonts(t)
	page := draw.Page{Width: 100, Height: 100}
	with := func(it draw.Item) []draw.Page {
		p := page
		p.Flat.Items = []draw.Item{it}
		return []draw.Page{page, p}
	}
	nan, inf := math.NaN(), math.Inf(1)
	for name, c := range map[string]struct {
		pages []draw.Page
		fonts Fonts
		want  string
	}{
		"no page":        {nil, good, "at least one page"},
		"no width":       {[]draw.Page{{Height: 10}}, good, "page 1: a size of 0 × 10 mm"},
		"NaN height":     {[]draw.Page{{Width: 10, Height: nan}}, good, "NaN"},
		"too large":      {[]draw.Page{{Width: 10, Height: 6000}}, good, "6000"},
		"NaN place":      {with(draw.Item{Points: []draw.Point{{X: nan}}, Part: "rib 3"}), good, `page 2: the drawing holds a place or size that is not a number (part "rib 3")`},
		"infinite width": {with(draw.Item{Width: inf}), good, "not a number"},
		"NaN dash":       {with(draw.Item{Dash: []float64{nan}}), good, "not a number"},
		"NaN size":       {with(draw.Item{Size: nan}), good, "not a number"},
		"no regular":     {[]draw.Page{page}, Fonts{Bold: good.Bold}, "regular face"},
		"no bold":        {[]draw.Page{page}, Fonts{Regular: good.Regular, Bold: []byte("OTTO")}, "bold face"},
	} {
		var out bytes.Buffer
		err := Write(&out, c.pages, Info{}, c.fonts)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %v; want one with %q", name, err, c.want)
		}
		if out.Len() != 0 {
			t.Errorf("%s: %d bytes written all the same", name, out.Len())
		}
	}
	if err := Write(brokenWriter{}, []draw.Page{page}, Info{}, good); !errors.Is(err, errDisk) {
		t.Errorf("error = %v; want the disk's", err)
	}
	if err := Write(io.Discard, nil, Info{}, good); !errors.Is(err, ErrNoPages) {
		t.Errorf("error = %v; want ErrNoPages", err)
	}
}

// Text comes from people: whatever it holds, there is a document.
func FuzzText(f *testing.F) {
	for _, s := range []string{"½ ⅜ ″", "\xe2\x82", "\xff\xfe", "😀 ツ", "a\nb\tc\x00", `back\slash (and) parens`, "\u202eright to left", "\ufeff"} {
		f.Add(s)
	}
	fonts := testFonts(f)
	f.Fuzz(func(t *testing.T, s string) {
		page := draw.NewPage(s, draw.A4, draw.PaperMetrics(nil))
		page.Text(10, 10, s, draw.AtTopLeft, draw.Style{})
		page.Text(10, 20, s, draw.AtTopLeft, draw.Style{Bold: true})
		var out bytes.Buffer
		if err := Write(&out, []draw.Page{*page}, Info{Title: s, Subject: s}, fonts); err != nil {
			t.Fatalf("Write(%q): %v", s, err)
		}
		if !bytes.HasPrefix(out.Bytes(), []byte("%PDF-1.")) || !bytes.HasSuffix(out.Bytes(), []byte("%%EOF\n")) {
			t.Fatalf("%q: not a whole document", s)
		}
	})
}

func ExampleWrite() {
	regular, err := os.ReadFile("../../resources/fonts/DejaVuSansCondensed.ttf")
	if err != nil {
		fmt.Println(err)
		return
	}
	fonts := Fonts{Regular: regular, Bold: regular}
	measure, err := Measurer(fonts)
	if err != nil {
		fmt.Println(err)
		return
	}
	page := draw.NewPage("Parts list", draw.Letter, draw.PaperMetrics(measure))
	page.Text(20, 20, "Crosswise rib, 28 ⅛″ long", draw.AtTopLeft, draw.Style{Size: draw.HeadingSize})
	var out bytes.Buffer
	err = Write(&out, []draw.Page{*page}, Info{Title: "Packet"}, fonts)
	fmt.Println(out.String()[:8], err)
	// Output: %PDF-1.3 <nil>
}

func BenchmarkWrite(b *testing.B) {
	pages, fonts := samplePages(b), testFonts(b)
	for b.Loop() {
		if err := Write(io.Discard, pages, Info{}, fonts); err != nil {
			b.Fatal(err)
		}
	}
}
