package draw

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

func page() *Page { return NewPage("A page", A4, testMetrics) }

func TestPapers(t *testing.T) {
	t.Parallel()
	// 8.5 in and 11 in; ISO 216.
	closeTo(t, "Letter width", Letter.Width, 8.5*25.4)
	closeTo(t, "Letter height", Letter.Height, 11*25.4)
	if p := NewPage("x", A4.Landscape(), testMetrics); p.Width != 297 || p.Height != 210 || p.Title != "x" {
		t.Errorf("A4 turned = %g × %g", p.Width, p.Height)
	}
}

// The series 1:1, 1:2, 1:5 and its tenfolds: ISO 5455, from memory.
func TestScaleThatFits(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		b    Rect
		w, h float64
		want float64
	}{
		"1800 × 750 on Letter":  {rect(0, 0, 1800, 750), 180, 130, 10},
		"a hair narrower":       {rect(0, 0, 1800, 750), 179.9, 130, 20},
		"height governs":        {rect(0, 0, 10, 750), 180, 100, 10},
		"exactly full size":     {rect(0, 0, 180, 100), 180, 100, 1},
		"small is not enlarged": {rect(0, 0, 3, 3), 180, 100, 1},
		"1:2":                   {rect(0, 0, 181, 3), 180, 100, 2},
		"1:5":                   {rect(0, 0, 361, 3), 180, 100, 5},
		"1:50":                  {rect(0, 0, 9000, 3), 180, 100, 50},
		"1:100":                 {rect(0, 0, 9001, 3), 180, 100, 100},
		"1:200":                 {rect(0, 0, 18001, 3), 180, 100, 200},
		"empty":                 {Rect{}, 180, 100, 1},
		"no room":               {rect(0, 0, 1, 1), 0, 100, 1e6},
		"NaN":                   {rect(math.NaN(), 0, 1, 1), 10, 100, 1e6},
	} {
		if got := ScaleThatFits(c.b, c.w, c.h); got != c.want {
			t.Errorf("%s: 1:%g; want 1:%g", name, got, c.want)
		}
	}
}

func TestPlaceDrawsToScale(t *testing.T) {
	t.Parallel()
	p := page()
	at := rect(15, 30, 195, 130)
	f := board(
		Dimension{A: Point{0, 100}, B: Point{200, 100}, Side: Above, Rank: 1, Text: "200"},
		Dimension{A: Point{0, 0}, B: Point{0, 100}, Side: Left, Rank: 1, Text: "100"})
	d := p.FigureScale(f, at.Width(), at.Height())
	// The dimensions need 40 above and left (20 to the line, 2 and 10 for the
	// text, 8 of air) and 8 below and right. Full size, 200 + 48, is too wide
	// for 180; 1:2 is 148 by 98 in 180 by 100.
	closeTo(t, "scale", d, 2)
	closeTo(t, "scale a hair lower", p.FigureScale(f, at.Width(), 97.9), 5)
	v := p.Place(f, at, d)
	fill := only(p.Flat.Items, Polygon)[0].Box()
	closeTo(t, "width on paper", fill.Width(), 100)
	closeTo(t, "height on paper", fill.Height(), 50)
	if !at.Contains(fill) || v.Clip != at {
		t.Errorf("figure at %v, clip %v; want both in %v", fill, v.Clip, at)
	}
	if n := len(only(p.Flat.Items, Words)); n != 2 {
		t.Errorf("%d dimension texts; want 2", n)
	}
	q := page()
	closeTo(t, "a denominator that is no number counts as 1", q.Place(f, at, math.NaN()).Scale, 1)
}

func TestScaleBar(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		room, denominator, unit float64
		length                  float64 // on paper, mm
		label                   string
	}{
		// 60 mm at 1:20 are 1200 mm of world: 1000 mm, drawn 50 mm long.
		"mm": {60, 20, 1, 50, "1000 u"},
		// 60 mm at 1:10 are 23.6 in: 20 in, 20·25.4/10 = 50.8 mm.
		"inches":    {60, 10, 25.4, 50.8, "20 u"},
		"exact":     {50, 1, 1, 50, "50 u"},
		"fractions": {0.6, 1, 1, 0.5, "0.5 u"},
	} {
		p := page()
		below := p.ScaleBar(10, 20, c.room, c.denominator, c.unit, "u")
		bar := newBounds()
		dark := 0
		for _, it := range only(p.Flat.Items, Polygon) {
			bar.add(it.Points...)
			if it.Colour == Ink {
				dark++
			}
		}
		closeTo(t, name+" length", bar.r.Width(), c.length)
		pointAt(t, name+" corner", bar.r.Min, Point{10, 20})
		if first := only(p.Flat.Items, Polygon)[0]; first.Colour != Ink || first.Points[0] != (Point{10, 20}) {
			t.Errorf("%s: first field = %+v; want it dark", name, first)
		}
		texts := only(p.Flat.Items, Words)
		if len(texts) != 3 || texts[2].Text != c.label || dark != 2 {
			t.Errorf("%s: %d dark fields, texts %+v; want 2 and the last %q", name, dark, texts, c.label)
			continue
		}
		for i, it := range texts {
			closeTo(t, name+" label's place", it.Box().Centre().X, 10+c.length*float64(i)/2)
		}
		if box := texts[2].Box(); box.Max.Y > below || box.Min.Y < bar.r.Max.Y {
			t.Errorf("%s: label at %v; want it between bar and %g", name, box, below)
		}
	}
	for _, room := range []float64{0, -3, math.NaN(), math.Inf(1)} {
		p := page()
		if y := p.ScaleBar(10, 20, room, 20, 1, "mm"); y != 20 || len(p.Flat.Items) != 0 {
			t.Errorf("bar of %g: %d items, y = %g; want none", room, len(p.Flat.Items), y)
		}
	}
}

// The greatest of 1, 2, 5 and their tenfolds, by trying them all.
func TestRoundLength(t *testing.T) {
	t.Parallel()
	rng := rand.New(rand.NewPCG(13, 14))
	for range 500 {
		limit := math.Exp(rng.Float64()*20 - 8)
		want := 0.0
		for e := -6; e < 9; e++ {
			for _, s := range []float64{1, 2, 5} {
				if v := s * math.Pow(10, float64(e)); v <= limit && v > want {
					want = v
				}
			}
		}
		if got := roundLength(limit); math.Abs(got-want) > 1e-9*want {
			t.Fatalf("roundLength(%g) = %g; want %g", limit, got, want)
		}
	}
}

func TestWrap(t *testing.T) {
	t.Parallel()
	// Em 10, so 5 a sign: 50 holds ten signs.
	for name, c := range map[string]struct {
		text string
		want []string
	}{
		"fits":             {"ten signs.", []string{"ten signs."}},
		"one more":         {"ten signs.!", []string{"ten", "signs.!"}},
		"greedy":           {"a b c d e f g", []string{"a b c d e", "f g"}},
		"long word":        {"abcdefghijklm no", []string{"abcdefghij", "klm no"}},
		"own breaks":       {"one\ntwo\n\nthree", []string{"one", "two", "", "three"}},
		"blanks":           {"  a \t b\r\nc ", []string{"a b", "c"}},
		"no-break space":   {"depth is 90\u00a0mm", []string{"depth is", "90\u00a0mm"}},
		"signs, not bytes": {"″½⅜×≤≥●▲■→", []string{"″½⅜×≤≥●▲■→"}},
		"nothing":          {"", []string{""}},
	} {
		if got := testMetrics.Wrap(c.text, 50, NoteSize, false); !slices.Equal(got, c.want) {
			t.Errorf("%s: %q; want %q", name, got, c.want)
		}
	}
	if got := testMetrics.Wrap("abc", 0, NoteSize, false); !slices.Equal(got, []string{"a", "b", "c"}) {
		t.Errorf("no room: %q; want a sign a line", got)
	}
}

func TestWrapKeepsWordsAndWidth(t *testing.T) {
	t.Parallel()
	rng := rand.New(rand.NewPCG(15, 16))
	for range 300 {
		var words []string
		for range rng.IntN(40) {
			words = append(words, strings.Repeat("wü", rng.IntN(9))+"x")
		}
		width := 10 + rng.Float64()*150
		lines := testMetrics.Wrap(strings.Join(words, " "), width, BodySize, true)
		for _, l := range lines {
			if w := testMetrics.Width(l, BodySize, true); w > width {
				t.Fatalf("line %q is %g wide; room %g", l, w, width)
			}
		}
		// Nothing is lost but the breaks.
		got := strings.ReplaceAll(strings.Join(lines, ""), " ", "")
		if want := strings.Join(words, ""); got != want {
			t.Fatalf("wrapped %q; want %q", got, want)
		}
	}
}

func TestTextBlock(t *testing.T) {
	t.Parallel()
	p := page()
	style := Style{Size: NoteSize, Colour: Pencil, Bold: true}
	below := p.TextBlock(15, 40, 50, "a b c d e f g\n\nh", style)
	// Four lines, one of them empty, 13.5 each.
	closeTo(t, "below", below, 40+4*13.5)
	closeTo(t, "BlockHeight", p.BlockHeight(50, "a b c d e f g\n\nh", style), 4*13.5)
	items := p.Flat.Items
	if len(items) != 3 || items[0].Text != "a b c d e" || items[2].Text != "h" || items[0].Colour != Pencil || !items[0].Bold {
		t.Fatalf("items = %+v", items)
	}
	pointAt(t, "first baseline", items[0].Points[0], Point{15, 48})
	pointAt(t, "last baseline", items[2].Points[0], Point{15, 48 + 3*13.5})
}

func TestBoxesAndRules(t *testing.T) {
	t.Parallel()
	p := page()
	p.Checkbox(10, 20, 4)
	p.Rule(10, 90, 30)
	p.Box(rect(1, 2, 3, 4), Skin, NoPen)
	items := p.Flat.Items
	if len(items) != 3 {
		t.Fatalf("%d items; want square, rule and filled box", len(items))
	}
	if b := items[0]; b.Shape != Stroke || !b.Closed || b.Box() != rect(10, 20, 14, 24) || b.Width != 1 {
		t.Errorf("checkbox = %+v", b)
	}
	if r := items[1]; r.Colour != RuleInk || r.Closed || r.Box() != rect(10, 30, 90, 30) {
		t.Errorf("rule = %+v", r)
	}
	if b := items[2]; b.Shape != Polygon || b.Colour != Skin {
		t.Errorf("box = %+v", b)
	}
}

var parts = Table{
	Columns: []Column{{"Part", 60, false}, {"Length", 50, true}},
	Rows:    [][]string{{"rib", "714"}, {"a long name of a rib", "1776"}, {"band"}, {"skin", "1800", "too many"}},
}

func TestTable(t *testing.T) {
	t.Parallel()
	p := page()
	closeTo(t, "width", parts.Width(), 110)
	below := p.Table(15, 40, parts, 0, 9)
	// Padding 5 on each side leaves ten signs in 50: the long name takes three
	// lines. Rows are lines·13.5 + 4: head, three of one line, one of three.
	closeTo(t, "below", below, 40+4*17.5+44.5)
	closeTo(t, "TableHeight", p.TableHeight(parts, 0, 9), 4*17.5+44.5)
	closeTo(t, "TableHeight of the tail", p.TableHeight(parts, 2, 9), 3*17.5)
	var texts []string
	for _, it := range only(p.Flat.Items, Words) {
		texts = append(texts, it.Text)
		box := it.Box()
		left, right := 15.0, 75.0
		if slices.Contains([]string{"Length", "714", "1776", "1800"}, it.Text) {
			left, right = 75, 125
			closeTo(t, it.Text+" ends at the right", box.Max.X, 120)
		} else {
			closeTo(t, it.Text+" starts at the left", box.Min.X, 20)
		}
		if box.Min.X < left || box.Max.X > right || box.Min.Y < 40 || box.Max.Y > below {
			t.Errorf("%q at %v leaves its column", it.Text, box)
		}
		if it.Bold != (it.Text == "Part" || it.Text == "Length") {
			t.Errorf("%q bold = %v; want the head alone bold", it.Text, it.Bold)
		}
	}
	want := []string{"Part", "Length", "rib", "714", "a long", "name of a", "rib", "1776", "band", "skin", "1800"}
	if !slices.Equal(texts, want) {
		t.Errorf("texts = %q; want %q", texts, want)
	}
	// The long name's lines stand a line apart.
	words := only(p.Flat.Items, Words)
	closeTo(t, "second line", words[5].Points[0].Y, words[4].Points[0].Y+13.5)
	closeTo(t, "third line", words[6].Points[0].Y, words[4].Points[0].Y+27)
	lines := only(p.Flat.Items, Stroke)
	if len(lines) != 5 || lines[0].Colour != Ink || lines[0].Width != 2 || lines[1].Colour != RuleInk {
		t.Errorf("%d rules, first %+v; want one thick under the head and four thin", len(lines), lines[0])
	}
}

func TestRowsFit(t *testing.T) {
	t.Parallel()
	p := page()
	// Heights as in TestTable.
	for _, c := range []struct {
		from   int
		height float64
		want   int
	}{
		{0, 17.5 + 17.5, 1},
		{0, 17.5 + 17.4, 1}, // never none
		{0, 0, 1},
		{0, 1000, 4},
		{2, 3 * 17.5, 2},
		{2, 3*17.5 - 0.1, 1},
		{4, 1000, 0},
		{-3, 1000, 4},
		{1, math.NaN(), 3},
	} {
		if got := p.RowsFit(parts, c.from, c.height); got != c.want {
			t.Errorf("RowsFit(from %d, %g) = %d; want %d", c.from, c.height, got, c.want)
		}
	}
}

func TestTablesPaginate(t *testing.T) {
	t.Parallel()
	rng := rand.New(rand.NewPCG(17, 18))
	for range 50 {
		table := Table{Columns: parts.Columns}
		for range rng.IntN(60) {
			table.Rows = append(table.Rows, []string{strings.Repeat("word ", 1+rng.IntN(12)), "1"})
		}
		height := 80 + rng.Float64()*200
		set := 0
		for from := 0; from < len(table.Rows); {
			p := page()
			n := p.RowsFit(table, from, height)
			if n < 1 {
				t.Fatalf("RowsFit(%d of %d) = %d; the loop would not end", from, len(table.Rows), n)
			}
			below := p.Table(0, 0, table, from, n)
			if below > height && n > 1 {
				t.Fatalf("%d rows reach %g; room %g", n, below, height)
			}
			if from+n < len(table.Rows) && p.TableHeight(table, from, n+1) <= height {
				t.Fatalf("%d rows set where %d fit", n, n+1)
			}
			for _, it := range only(p.Flat.Items, Words) {
				if it.Text == "1" {
					set++
				}
			}
			from += n
		}
		if set != len(table.Rows) {
			t.Fatalf("%d rows set of %d", set, len(table.Rows))
		}
	}
}
