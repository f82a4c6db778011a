package engine

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"flatwright/engine/draw"
	"flatwright/engine/length"
	"flatwright/engine/pdf"
)

var (
	millimetre = length.Format{}
	sixteenths = length.Format{Imperial: true, Denominator: 16}
)

// packetOf lays out the packet of a design.
func packetOf(t *testing.T, d Design, o PacketOptions) []draw.Page {
	t.Helper()
	pages, err := Packet(context.Background(), d, compute(t, d), o)
	if err != nil {
		t.Fatal(err)
	}
	var out []draw.Page
	for _, p := range pages {
		out = append(out, *p)
	}
	return out
}

// textOf returns the texts of the pages with a title, one a line.
func textOf(pages []draw.Page, title string) string {
	var out []string
	for _, p := range pages {
		if strings.HasPrefix(p.Title, title) || slices.ContainsFunc(p.Also, func(also string) bool { return strings.HasPrefix(also, title) }) {
			for _, it := range p.Flat.Items {
				if it.Text != "" {
					out = append(out, it.Text)
				}
			}
		}
	}
	return strings.Join(out, "\n")
}

// fits fails on text outside the page's margins, on text that runs into the
// footer, and on signs that the fonts lack.
func fits(t *testing.T, name string, pages []draw.Page) {
	t.Helper()
	for i, p := range pages {
		// The footer's rule is drawn at the same height on every page; its
		// texts are the only ones below.
		foot := p.Height - margin - 2
		below := 0
		var footer []draw.Rect
		for _, it := range p.Flat.Items {
			box := it.Box()
			const air = 0.5 // rounding of widths, and ascents above capitals
			if box.Min.X < margin-air || box.Max.X > p.Width-margin+air || box.Min.Y < margin-air-1 || box.Max.Y > p.Height-margin+6 {
				t.Errorf("%s, page %d %.20q: %.40q at %+v leaves the margins of %g × %g", name, i+1, p.Title, it.Text, box, p.Width, p.Height)
			}
			if it.Shape != draw.Words {
				continue
			}
			if it.Points[0].Y > foot { // baseline in the footer
				below++
				for _, other := range footer {
					if other.Overlaps(box) {
						t.Errorf("%s, page %d: the footer's texts overlap", name, i+1)
					}
				}
				footer = append(footer, box)
			} else if box.Max.Y > foot+1 {
				t.Errorf("%s, page %d %.20q: %.40q runs into the footer", name, i+1, p.Title, it.Text)
			}
		}
		if below != 2 {
			t.Errorf("%s, page %d %.20q: %d texts in the footer; want the name and the number", name, i+1, p.Title, below)
		}
	}
	missing, err := pdf.Missing(fonts, pages)
	if err != nil || len(missing) > 0 {
		t.Errorf("%s: signs without a glyph: %q, %v", name, string(missing), err)
	}
}

func TestPacketPages(t *testing.T) {
	t.Parallel()
	d := Demo()
	for _, paper := range []struct {
		name string
		size draw.Paper
	}{{"letter", draw.Letter}, {"a4", draw.A4}, {"", draw.A4}} {
		for _, f := range []length.Format{millimetre, sixteenths} {
			pages := packetOf(t, d, PacketOptions{Paper: paper.name, Lengths: f})
			fits(t, paper.name, pages)
			titles := []string{}
			for i, p := range pages {
				size := draw.Paper{Width: p.Width, Height: p.Height}
				if size != paper.size && size != paper.size.Landscape() {
					t.Errorf("%s: page of %g × %g", paper.name, p.Width, p.Height)
				}
				if i == 0 || titles[len(titles)-1] != p.Title {
					titles = append(titles, p.Title)
				}
				titles = append(titles, p.Also...)
			}
			want := "Build packet: " + d.Name + "|Load cases|Plan and sections|Ribs and their slots|Parts list|Slot schedule|Cutting the slots|Gauge sticks at full size|Margins|Over the years and seasons|Bed and flatness|Glue-up plan|Working|Build steps|Labels|Cautions"
			if got := strings.Join(titles, "|"); got != want {
				t.Errorf("%s: pages %s; want %s", paper.name, got, want)
			}
			for i, p := range pages {
				if number := fmt.Sprintf("%d / %d", i+1, len(pages)); !strings.Contains(textOf([]draw.Page{p}, ""), number) {
					t.Errorf("no page number %q", number)
				}
			}
		}
	}
}

func TestPacketTellsEverything(t *testing.T) {
	t.Parallel()
	d := Demo()
	d.EdgeBand = EdgeBand{"white-oak", 18}
	d.Crosswise.Positions = []float64{100, 333, 901, 1444, 1700}
	r := compute(t, d)
	for _, f := range []length.Format{millimetre, sixteenths} {
		pages := packetOf(t, d, PacketOptions{Lengths: f})
		slots := textOf(pages, "Slot schedule")
		for _, p := range r.Parts {
			for _, s := range p.Slots {
				for _, at := range []float64{s.Station, s.Station - s.Width/2, s.Station + s.Width/2} {
					if !strings.Contains(slots, "\n"+f.Print(at)+"\n") {
						t.Errorf("no station %s of %s in the slot schedule", f.Print(at), p.ID)
					}
				}
			}
		}
		list := textOf(pages, "Parts list")
		for _, p := range r.Parts {
			if !strings.Contains(list, f.Print(p.Length)) {
				t.Errorf("no length %s of %s in the parts list", f.Print(p.Length), p.ID)
			}
		}
		total := 0
		for _, n := range []string{"1", "2", "5"} {
			total += strings.Count(list, "\n"+n+"\n")
		}
		if total < 6 { // top, bottom, 5 lengthwise, 5 crosswise, 2 long and 2 short bands
			t.Errorf("parts list:\n%s", list)
		}
		steps := textOf(pages, "Build steps")
		for i, s := range r.Build.Steps {
			if !strings.Contains(steps, fmt.Sprintf("%d. %s", i+1, s.Name)) || !strings.Contains(steps, clock(s.Starts)) {
				t.Errorf("no step %q at %s", s.Name, s.Starts)
			}
		}
		margins := strings.ReplaceAll(textOf(pages, "Margins"), "\n", " ")
		for _, m := range r.Margins {
			if !strings.Contains(margins, length.Number(m.Value, 3)) || !strings.Contains(margins, m.Name) {
				t.Errorf("no margin %s", m.Name)
			}
		}
		work := strings.ReplaceAll(textOf(pages, "Working"), "\n", " ")
		for _, w := range r.Working {
			for _, text := range []string{w.Title, w.Result, w.Formula, w.Numbers, w.Source, w.Plain} {
				if !strings.Contains(work, text) {
					t.Errorf("working of %s lacks %q", w.Key, text)
				}
			}
		}
		cautions := strings.ReplaceAll(textOf(pages, "Cautions"), "\n", " ")
		for _, text := range append(append([]string{Disclaimer}, Cautions...), LeftOut...) {
			if text = InUnits(text, f); !strings.Contains(cautions, text) {
				t.Errorf("cautions lack %q", text)
			}
		}
		front := strings.ReplaceAll(textOf(pages, "Build packet"), "\n", " ")
		for _, text := range []string{d.Notes, length.Sag(r.Cases[r.Governing].Sag, f), length.Mass(r.Mass.Total, f), Disclaimer, d.Cases[2].Name} {
			if !strings.Contains(front, text) {
				t.Errorf("the first page lacks %q", text)
			}
		}
		for _, p := range r.Problems {
			if !strings.Contains(front, InUnits(p.Text, f)) {
				t.Errorf("the first page lacks %q", p.Text)
			}
		}
		drawing := textOf(pages, "Plan and sections")
		for _, text := range []string{"Scale", "1:", "Checked by", d.Name, clock(d.Shop.Start)} {
			if !strings.Contains(drawing, text) {
				t.Errorf("the title block lacks %q", text)
			}
		}
	}
}

// crowded is as much as a packet can be asked to hold.
func crowded() Design {
	d := Demo()
	d.Name = strings.Repeat("A very long name of a top with café, naïve and ½-inch marks ", 4)
	d.Notes = strings.TrimSpace(strings.Repeat("Notes that go on and on about hive bodies. ", 47))[:2000]
	d.Length, d.Width = 3000, 1500
	d.Lengthwise.Count, d.Crosswise.Count = 60, 60
	for i := range 20 {
		c := d.Cases[0]
		c.Name = fmt.Sprintf("Case %d %s", i, strings.Repeat("with a name that does not end ", 5))
		c.Loads = append([]Load(nil), c.Loads...)
		c.Loads[0].Name = strings.Repeat("unbroken", 20)
		d.Cases = append(d.Cases, c)
	}
	for i := range 58 {
		d.Blocks = append(d.Blocks, Block{"white-oak", i, i})
	}
	return d
}

func TestPacketHoldsALot(t *testing.T) {
	t.Parallel()
	d := crowded()
	for _, paper := range []string{"letter", "a4"} {
		pages := packetOf(t, d, PacketOptions{Paper: paper, Lengths: sixteenths})
		fits(t, "crowded "+paper, pages)
		notes := strings.ReplaceAll(textOf(pages, "Build packet"), "\n", " ")
		if !strings.Contains(notes, d.Notes[1000:]) {
			t.Error("the notes are not all there")
		}
	}
	d = Demo()
	d.Notes = strings.Repeat("A line of its own.\n", 300) // several pages of notes
	pages := packetOf(t, d, PacketOptions{Paper: "letter"})
	fits(t, "pages of notes", pages)
	if n := strings.Count(textOf(pages, "Build packet"), "A line of its own."); n != 300 {
		t.Errorf("%d lines of notes are printed; want 300", n)
	}
}

func TestPacketOfAnyDesign(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(15, 15))
	for i := range 25 {
		d := randomDesign(r)
		d.Name = fmt.Sprintf("Random %d", i)
		fits(t, d.Name, packetOf(t, d, PacketOptions{Paper: pick(r, "letter", "a4"), Lengths: pick(r, millimetre, sixteenths)}))
		if t.Failed() {
			t.Fatalf("%+v", d)
		}
	}
}

func writePacket(t *testing.T, d Design, o PacketOptions) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := WritePacket(context.Background(), &out, d, compute(t, d), o); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func TestSameDesignSamePacket(t *testing.T) {
	t.Parallel()
	d := Demo()
	first := writePacket(t, d, PacketOptions{Paper: "letter"})
	if !bytes.HasPrefix(first, []byte("%PDF-")) || len(first) < 20_000 {
		t.Fatalf("%d bytes, beginning with %.8q; want a PDF", len(first), first)
	}
	if again := writePacket(t, d, PacketOptions{Paper: "letter"}); !bytes.Equal(first, again) {
		t.Error("the same design gives other bytes the second time")
	}
	for name, other := range map[string][]byte{
		"a4":     writePacket(t, d, PacketOptions{Paper: "a4"}),
		"inches": writePacket(t, d, PacketOptions{Paper: "letter", Lengths: sixteenths}),
		"deeper": writePacket(t, func() Design { e := d; e.CoreDepth++; return e }(), PacketOptions{Paper: "letter"}),
	} {
		if bytes.Equal(first, other) {
			t.Errorf("%s: the same bytes", name)
		}
	}
}

func TestPacketRefuses(t *testing.T) {
	t.Parallel()
	blocked := plainTop()
	blocked.Length = -1
	r, err := Compute(context.Background(), blocked)
	if err != nil {
		t.Fatal(err)
	}
	if err := WritePacket(context.Background(), io.Discard, blocked, r, PacketOptions{}); !errors.Is(err, ErrBlocked) {
		t.Errorf("blocked: %v; want %v", err, ErrBlocked)
	}
	d := plainTop()
	result := compute(t, d)
	ctx, cancel := context.WithCancel(context.Background())
	steps := 0
	err = WritePacket(ctx, io.Discard, d, result, PacketOptions{Progress: func(done, total int) {
		if steps++; done != steps || total < done {
			t.Errorf("progress %d of %d at step %d", done, total, steps)
		}
		if done == 3 {
			cancel()
		}
	}})
	if !errors.Is(err, context.Canceled) || steps != 3 {
		t.Errorf("cancelled after step 3: %v after %d steps", err, steps)
	}
	if err := WritePacket(context.Background(), &full{100}, d, result, PacketOptions{}); !errors.Is(err, errFull) {
		t.Errorf("full disk: %v; want %v", err, errFull)
	}
}

// What a row of a table says stands in its cells, one after the other.
func TestPacketRows(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.TopSkin.Across, d.Crosswise.Upright = true, true
	r := compute(t, d)
	pages := packetOf(t, d, PacketOptions{})
	list, slots := textOf(pages, "Parts list"), textOf(pages, "Slot schedule")
	for _, row := range []string{ // mark, number, piece in its lines, length, width, thickness, material, grain
		"T|1|Top skin|1600 mm|700 mm|9 mm|Plain sheet|across", "B|1|Bottom skin|1600 mm|700 mm|6 mm|Plain sheet|along",
		"L|5|Lengthwise ribs L1, L2,|L3, L4, L5|1600 mm|80 mm|12 mm|Plain sheet|along", "C|8|Crosswise ribs C1, C2,|C3, C4, C5, C6, C7, C8|700 mm|80 mm|9 mm|Plain sheet|across",
	} {
		if !strings.Contains(list, "\n"+strings.ReplaceAll(row, "|", "\n")+"\n") {
			t.Errorf("no row %s in the parts list:\n%s", row, list)
		}
	}
	// Lengthwise ribs are slotted from above for the second crosswise rib at
	// 4.5 + 1591/7 mm, 9.2 mm wide and 40.5 deep, crosswise ones from below.
	for _, row := range []string{"2|231.79 mm|227.19 mm|236.39 mm|9.2 mm|40.5 mm|upper|C2", "2|178 mm|171.9 mm|184.1 mm|12.2 mm|40.5 mm|lower|L2"} {
		if !strings.Contains(slots, "\n"+strings.ReplaceAll(row, "|", "\n")+"\n") {
			t.Errorf("no row %s in the slot schedule:\n%s", row, slots)
		}
	}
	if want := fmt.Sprintf("Glue to have ready: %.0f g with what the tool wastes, for %.1f m", 1200*r.Mass.Glue, r.Build.JointLength/1000); !strings.Contains(textOf(pages, "Build steps"), want) {
		t.Errorf("no %q in the build steps", want)
	}
}

func TestMinutesAndClock(t *testing.T) {
	t.Parallel()
	for _, row := range []struct {
		low, high float64
		want      string
	}{
		{5, 10, "5 to 10 min"}, {60, 60, "60 min"}, {30, 119, "30 to 119 min"}, {60, 120, "1 to 2 h"}, {1440, 1440, "24 h"}, {1440, 10080, "1 to 7 days"}, {4320, 4320, "3 days"},
	} {
		if got := Minutes(row.low, row.high); got != row.want {
			t.Errorf("Minutes(%g, %g) = %q; want %q", row.low, row.high, got, row.want)
		}
	}
	if got := clock("2026-05-02T09:05"); got != "Sat 2 May 09:05" { // a Saturday by the calendar
		t.Errorf("clock = %q", got)
	}
	if got := clock("soon"); got != "soon" {
		t.Errorf("clock of what is no time = %q", got)
	}
	if got := times(TimesCap); got != "—" {
		t.Errorf("times at the cap = %q", got)
	}
	if got := times(2.345); got != "2.35" && got != "2.34" {
		t.Errorf("times = %q", got)
	}
}

// A table that goes over a page's end takes at least three rows along, and keeps
// every row, in order.
func TestNoRowStandsAlone(t *testing.T) {
	t.Parallel()
	for n := 1; n < 120; n++ {
		p, err := newPacket(Demo(), Result{}, PacketOptions{})
		if err != nil {
			t.Fatal(err)
		}
		p.open("Rows", draw.A4)
		var rows [][]string
		for i := range n {
			rows = append(rows, []string{fmt.Sprintf("row %d", i)})
		}
		p.table([]draw.Column{{Head: "Head", Width: 100}}, rows)
		next := 0
		for k, page := range p.pages {
			here := 0
			for _, it := range page.Flat.Items {
				if strings.HasPrefix(it.Text, "row ") {
					if it.Text != fmt.Sprintf("row %d", next) {
						t.Fatalf("of %d rows %q stands where row %d belongs", n, it.Text, next)
					}
					next, here = next+1, here+1
				}
			}
			if k > 0 && here < 3 {
				t.Errorf("of %d rows %d stand alone on page %d", n, here, k+1)
			}
		}
		if next != n {
			t.Errorf("%d of %d rows are printed", next, n)
		}
	}
}

// A part begins below the one before where that has left room, and pages that
// continue it have its own heading.
func TestSectionsShareAPage(t *testing.T) {
	t.Parallel()
	p, err := newPacket(Demo(), Result{}, PacketOptions{})
	if err != nil {
		t.Fatal(err)
	}
	p.open("First", draw.A4)
	p.text("A line.", body)
	p.section("Second")
	if len(p.pages) != 1 || len(p.page.Also) != 1 || p.page.Also[0] != "Second" {
		t.Fatalf("%d pages, the first begins %v too; want Second on it", len(p.pages), p.page.Also)
	}
	p.y = p.page.Height - margin - foot - sectionRoom + 1
	p.need(sectionRoom)
	if len(p.pages) != 2 || p.page.Title != "Second" {
		t.Errorf("page %d continues %q; want Second on page 2", len(p.pages), p.page.Title)
	}
	p.y = p.page.Height - margin - foot - sectionRoom + 1
	p.section("Third")
	if len(p.pages) != 3 || p.page.Title != "Third" {
		t.Errorf("with %d mm left Third begins on page %d of %d", sectionRoom-1, len(p.pages), len(p.pages))
	}
	p.open("Wide", draw.A4.Landscape())
	p.section("Fourth")
	if p.page.Title != "Fourth" || p.page.Width > p.page.Height {
		t.Error("Fourth begins on a page that lies")
	}
}
