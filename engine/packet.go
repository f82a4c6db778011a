package engine

import (
	"context"
	"fmt"
	"io"
	"sort"
	"strings"

	"flatwright/engine/draw"
	"flatwright/engine/length"
	"flatwright/engine/pdf"
	"flatwright/resources"
)

// PacketOptions says how a build packet is printed.
type PacketOptions struct {
	Paper    string // "letter" or "a4"; anything else is a4
	Lengths  length.Format
	Cut      *CutPlan              // how the parts lie on sheets; nil is not printed
	Progress func(done, total int) // may be nil
}

// WritePacket writes the build packet as PDF: summary, drawings to scale, parts,
// slots, margins with their working, build steps and cautions. The same design
// and options give the same bytes. It returns the error of ctx or of w; the
// result must not be blocked.
func WritePacket(ctx context.Context, w io.Writer, d Design, r Result, o PacketOptions) error {
	pages, err := Packet(ctx, d, r, o)
	if err != nil {
		return err
	}
	return writePages(w, pages, pdf.Info{Title: d.Name, Subject: "Build packet for a hollow top"})
}

func writePages(w io.Writer, pages []*draw.Page, info pdf.Info) error {
	out := make([]draw.Page, len(pages))
	for i, p := range pages {
		out[i] = *p
	}
	return pdf.Write(w, out, info, fonts)
}

var fonts = pdf.Fonts{Regular: resources.Sans, Bold: resources.SansBold}

// Packet lays out the pages of the build packet.
func Packet(ctx context.Context, d Design, r Result, o PacketOptions) ([]*draw.Page, error) {
	if r.Blocked() {
		return nil, ErrBlocked
	}
	p, err := newPacket(d, r, o)
	if err != nil {
		return nil, err
	}
	if p.overruns, err = d.overruns(ctx, r); err != nil {
		return nil, err
	}
	if d.Proof.Planned() {
		if p.proofPlan, err = PlanProof(ctx, d, r); err != nil {
			return nil, err
		}
		if p.proved, err = RateProof(ctx, d, p.proofPlan, JudgeProof(d, p.proofPlan)); err != nil {
			return nil, err
		}
	}
	parts := []func(){p.summary, p.loadCases, p.drawings, p.ribs, p.partsList, p.sheetsToBuy, p.sheetLayouts, p.slotSchedule, p.slotWays, p.gauges, p.underLoad, p.strength, p.asBuilt, p.longTerm, p.bed, p.glueUp, p.workings, p.buildSteps, p.labels, p.cautions, p.proof, p.record}
	for i, part := range parts {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		part()
		if o.Progress != nil {
			o.Progress(i+1, len(parts))
		}
	}
	p.footers()
	return p.pages, nil
}

// Page geometry, mm.
const (
	margin = 15.0
	foot   = 12.0 // kept free above the lower margin

	headingLines = 2 // of a page's heading; a longer one is cut
)

// packet is the pen that writes pages.
type packet struct {
	d       Design
	r       Result
	cut     *CutPlan
	f       length.Format
	paper   draw.Paper
	metrics draw.Metrics
	pages   []*draw.Page
	page    *draw.Page
	title   string // of the part that is being written
	y       float64

	proofPlan ProofPlan       // of a design that has a proof load
	proved    []ProofRating   // once its readings tell something
	overruns  []OverrunEffect // of the ways taken that run past the mark
}

// newPacket returns a pen with no page yet.
func newPacket(d Design, r Result, o PacketOptions) (*packet, error) {
	measure, err := pdf.Measurer(fonts)
	if err != nil {
		return nil, fmt.Errorf("read the print fonts: %w", err)
	}
	p := &packet{d: d, r: r, cut: o.Cut, f: o.Lengths, paper: draw.A4, metrics: draw.PaperMetrics(measure)}
	if o.Paper == "letter" {
		p.paper = draw.Letter
	}
	return p, nil
}

var (
	body    = draw.Style{Size: draw.BodySize}
	strong  = draw.Style{Size: draw.BodySize, Bold: true}
	heading = draw.Style{Size: draw.HeadingSize, Bold: true}
	big     = draw.Style{Size: draw.FigureSize, Bold: true}
	small   = draw.Style{Size: draw.NoteSize, Colour: draw.Pencil}
)

// open starts a page with a heading.
func (p *packet) open(title string, paper draw.Paper) {
	p.page = draw.NewPage(title, paper, p.metrics)
	p.pages = append(p.pages, p.page)
	p.y = margin
	p.head(title)
}

// sectionRoom is the height in mm from which a section begins on the page that the
// one before has ended on: heading, a few lines and some rows of a table.
const sectionRoom = 80

// section starts a part of the packet that needs no page of its own: below the part
// before, if that has left enough of an upright page.
func (p *packet) section(title string) {
	if p.page == nil || p.page.Width > p.page.Height || p.room() < sectionRoom {
		p.open(title, p.paper)
		return
	}
	p.page.Also = append(p.page.Also, title)
	p.y += 8
	p.head(title)
}

// head sets the heading of what follows, which pages that continue it have too.
func (p *packet) head(title string) {
	p.title = title
	lines := p.metrics.Wrap(title, p.width(), heading.Size, heading.Bold)
	for i := range min(len(lines), headingLines) {
		line := lines[i]
		if i == headingLines-1 {
			line = p.shorten(strings.Join(lines[i:], " "), p.width(), heading)
		}
		p.page.Text(margin, p.y, line, draw.AtTopLeft, heading)
		p.y += p.page.LineHeight(heading.Size)
	}
	p.page.Rule(margin, p.page.Width-margin, p.y)
	p.y += 3
}

// further starts another page of the same part.
func (p *packet) further() {
	p.open(p.title, draw.Paper{Width: p.page.Width, Height: p.page.Height})
}

func (p *packet) width() float64 { return p.page.Width - 2*margin }
func (p *packet) room() float64  { return p.page.Height - margin - foot - p.y }

// need starts a further page when less than height mm is left.
func (p *packet) need(height float64) {
	if p.room() < height {
		p.further()
	}
}

// text sets a paragraph; it goes over to the next page as a whole, or line by
// line if it is longer than one.
func (p *packet) text(text string, s draw.Style) {
	height := p.page.BlockHeight(p.width(), text, s)
	if height < p.page.Height/2 {
		p.need(height)
	}
	for _, line := range p.metrics.Wrap(text, p.width(), s.Size, s.Bold) {
		p.need(p.page.LineHeight(s.Size))
		p.page.Text(margin, p.y, line, draw.AtTopLeft, s)
		p.y += p.page.LineHeight(s.Size)
	}
}

// shorten cuts a line to a width and says so with an ellipsis.
func (p *packet) shorten(text string, width float64, s draw.Style) string {
	if p.metrics.Width(text, s.Size, s.Bold) <= width {
		return text
	}
	runes := []rune(text)
	fits := sort.Search(len(runes), func(n int) bool { return p.metrics.Width(string(runes[:n])+"…", s.Size, s.Bold) > width })
	return strings.TrimRight(string(runes[:max(fits-1, 0)]), " ") + "…"
}

func (p *packet) subheading(text string) {
	p.need(20)
	p.y += 3
	p.text(text, strong)
	p.y++
}

// fewRows are so few rows of a table that they do not go on a page by themselves.
const fewRows = 3

// table prints all rows, over as many pages as it takes.
func (p *packet) table(columns []draw.Column, rows [][]string) {
	total := 0.0
	for _, c := range columns {
		total += c.Width
	}
	for i := range columns {
		columns[i].Width *= p.width() / total
	}
	t := draw.Table{Columns: columns, Rows: rows, Size: draw.NoteSize}
	for from := 0; from < len(rows); {
		if p.page.TableHeight(t, from, 1) > p.room() {
			p.further()
		}
		n := p.page.RowsFit(t, from, p.room())
		if left := len(rows) - from - n; left > 0 && left < fewRows && n+left >= 2*fewRows {
			n -= fewRows - left // not one row alone on the next page
		}
		p.y = p.page.Table(margin, p.y, t, from, n)
		if from += n; from < len(rows) {
			p.further()
		}
	}
	p.y += 3
}

func (p *packet) length(mm float64) string { return p.f.Print(mm) }

// fine prints a thickness or the size of a slot.
func (p *packet) fine(mm float64) string {
	return fineText(mm, p.f)
}

// summary is the first page.
func (p *packet) summary() {
	p.open("Build packet: "+p.d.Name, p.paper)
	p.text(fmt.Sprintf("A hollow top %s × %s, %s deep: skins of %s and %s on %d lengthwise and %d crosswise ribs, core %s.",
		p.length(p.d.Length), p.length(p.d.Width), p.length(p.d.TotalDepth()), p.fine(p.d.TopSkin.Thickness), p.fine(p.d.BottomSkin.Thickness),
		p.d.Lengthwise.number(), p.d.Crosswise.number(), p.length(p.d.CoreDepth)), body)
	if p.d.Notes != "" {
		p.text(p.d.Notes, body)
	}
	p.y += 3
	p.keyFigures()
	if len(p.r.Cases) > 0 && p.r.NotHeld() == "" {
		p.subheading("Sag, relative to the supports")
		rows := [][]string{}
		for _, c := range p.r.Cases {
			rows = append(rows, []string{c.Name, length.Sag(c.Sag, p.f), fmt.Sprintf("%.0f / %.0f / %.0f %%", 100*c.Bending, 100*c.Shear, 100*c.Twist), length.Sag(c.SlabSag, p.f)})
			for _, l := range c.Loads {
				rows = append(rows, []string{"   under " + l.Name, length.Sag(l.Sag, p.f), "", ""})
			}
		}
		p.table([]draw.Column{{Head: "Load case", Width: 60}, {Head: "Sag", Width: 30, Right: true}, {Head: "Bending / shear / twist", Width: 45, Right: true}, {Head: "Solid slab", Width: 30, Right: true}}, rows)
		g := p.r.Cases[p.r.Governing]
		if g.Apart != "" {
			p.text(InUnits(g.Apart, p.f), small)
		} else if g.Reach != "" {
			p.text(g.Reach, small)
		}
	}
	p.problems()
	p.subheading("Read this first")
	p.text(Disclaimer, body)
}

// keyFigures prints the four numbers that matter, side by side.
func (p *packet) keyFigures() {
	type key struct{ name, value, note string }
	keys := []key{{"Weight", length.Mass(p.r.Mass.Total, p.f), fmt.Sprintf("%.0f %% of a solid slab", 100*p.r.Mass.Share)}}
	if p.r.NotHeld() != "" {
		keys = append([]key{{"Sag", "tips", "nothing holds the top down"}}, keys...)
	} else if len(p.r.Cases) > 0 {
		c := p.r.Cases[p.r.Governing]
		limit := "no limit set"
		if p.d.Limits.Sag > 0 {
			limit = "limit " + length.Sag(p.d.Limits.Sag, p.f)
		}
		keys = append([]key{{"Sag", length.Sag(c.Sag, p.f), limit}}, keys...)
	}
	if len(p.r.Margins) > 0 {
		m := p.r.Margins[0]
		keys = append(keys, key{"Lowest margin", length.Number(m.Value, 3), m.Name})
	}
	step := p.width() / float64(len(keys))
	low := p.y
	for i, k := range keys {
		x := margin + step*float64(i)
		y := p.y
		p.page.Text(x, y, k.name, draw.AtTopLeft, small)
		y += p.page.LineHeight(draw.NoteSize)
		p.page.Text(x, y, k.value, draw.AtTopLeft, big)
		y += p.page.LineHeight(draw.FigureSize)
		low = max(low, p.page.TextBlock(x, y, step-4, k.note, small))
	}
	p.y = low + 2
}

func (p *packet) problems() {
	if len(p.r.Problems) == 0 {
		return
	}
	p.subheading("To know before you start")
	for _, q := range p.r.Problems {
		mark := "○ "
		if q.Severity == Shortfall {
			mark = "■ "
		}
		p.text(mark+InUnits(q.Text, p.f), body)
	}
}

// footers numbers the pages once all are there.
func (p *packet) footers() {
	for i, page := range p.pages {
		y := page.Height - margin
		page.Rule(margin, page.Width-margin, y-2)
		const words, room = " · planned with Flatwright · not for standing on", 20
		name := p.shorten(p.d.Name, page.Width-2*margin-room-p.metrics.Width(words, small.Size, small.Bold), small)
		page.Text(margin, y, name+words, draw.AtTopLeft, small)
		page.Text(page.Width-margin, y, fmt.Sprintf("%d / %d", i+1, len(p.pages)), draw.AtTopRight, small)
	}
}
