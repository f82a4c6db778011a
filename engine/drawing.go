package engine

import (
	"fmt"
	"slices"
	"unicode/utf8"

	"flatwright/engine/contour"
	"flatwright/engine/draw"
	"flatwright/engine/length"
)

// DrawingOptions says what is drawn and in which unit it is dimensioned.
type DrawingOptions struct {
	Lengths length.Format
	Rib     string        // part ID of a rib whose elevation is added below; "" is none
	Case    int           // load case that is drawn; below zero is the governing one
	Sag     *contour.Grid // sags of the top in mm under Case, drawn as a map below the sections; nil is none
	Spot    Spot          // place that is pointed out; no text is none
	Sagged  bool          // the long section is drawn once more, sagged under Case, if r holds the whole panel
	Moved   bool          // the result is of loads or supports that stood elsewhere; sag map and sagged section say so
	Room    draw.Point    // width and height of what it is drawn on in pixels; zero is [smallRoom]
}

// Drawing returns plan, long section, end section and, if asked for, the
// elevation of one rib as one figure that shares its axes: the long section
// stands below the plan on the same x, the end section to its right on the
// same y. Sagged section and sag map stand below the long section or, where
// there is more room beside it, to the right of all that. The design must be
// valid and r its result.
func Drawing(d Design, r Result, o DrawingOptions) draw.Figure {
	b := newBoard(d, r, o)
	b.plan()
	b.longSection(draw.Point{Y: -b.gap - d.TotalDepth()})
	b.endSection(draw.Point{X: d.Length + b.gap})
	b.spot(b.o.Spot)
	low := b.underLoad(-b.gap - d.TotalDepth() - d.apronDrop(true))
	b.loadNames()
	b.planReactions()
	b.planTitle()
	b.sectionTitle()
	b.outerDimensions()
	if p, ok := partByID(r.Parts, o.Rib); ok && len(p.Slots) > 0 {
		b.elevation(p, draw.Point{Y: low - b.gap - d.CoreDepth})
	}
	return b.Figure
}

// board collects a figure.
type board struct {
	draw.Figure
	d   Design
	r   Result
	o   DrawingOptions
	gap float64 // between views, mm

	pixel  float64 // mm that one pixel shows, about; 0 is not known
	beside bool    // sag map and sagged section stand to the right of the rest
}

func newBoard(d Design, r Result, o DrawingOptions) *board {
	if o.Case < 0 || o.Case >= len(d.Cases) {
		o.Case = r.Governing
	}
	return &board{d: d, r: r, o: o, gap: max(0.14*min(d.Length, d.Width), 0.055*max(d.Length, d.Width))}
}

func partByID(parts []Part, id string) (Part, bool) {
	for _, p := range parts {
		if p.ID == id {
			return p, true
		}
	}
	return Part{}, false
}

func rect(x0, y0, x1, y1 float64) []draw.Point {
	return draw.Rect{Min: draw.Point{X: x0, Y: y0}, Max: draw.Point{X: x1, Y: y1}}.Corners()
}

// look returns fill and hatch of a kind of part.
func look(k PartKind) (draw.Fill, draw.Hatch) {
	switch k {
	case LengthwisePart:
		return draw.LengthwiseRib, draw.HatchSlash
	case CrosswisePart:
		return draw.CrosswiseRib, draw.HatchBackslash
	case BandPart:
		return draw.Band, draw.NoHatch
	case BlockPart:
		return draw.Block, draw.NoHatch
	}
	return draw.Skin, draw.NoHatch
}

func (b *board) part(p Part, points []draw.Point) {
	fill, hatch := look(p.Kind)
	b.Areas = append(b.Areas, draw.Area{Points: points, Fill: fill, Hatch: hatch, Pen: draw.Thin, Part: p.ID})
}

// plan draws the panel from above without its top skin, so that the grid
// shows, with supports and loads.
func (b *board) plan() {
	b.grid()
	b.planSupports()
	b.planLoads()
}

// grid draws what the plan shows of the panel itself.
func (b *board) grid() {
	for _, p := range b.r.Parts {
		if p.ID == "top" {
			continue
		}
		b.part(p, rect(p.Place.X0, p.Place.Y0, p.Place.X1, p.Place.Y1))
	}
	b.Areas = append(b.Areas, draw.Area{Points: rect(0, 0, b.d.Length, b.d.Width), Pen: draw.Outline})
	b.planSeams()
	b.planCuts()
	b.planBuilt()
}

// planTitle names the plan where there is room for a line of text between it
// and the section below.
func (b *board) planTitle() {
	if 0.8*b.gap < 15*b.pixel {
		return
	}
	const text = "Plan, top skin not shown"
	wide := 7 * float64(len(text)) * b.pixel // at most, with some room beside
	n := draw.Note{At: draw.Point{X: 0.02 * b.d.Length, Y: -b.gap / 5}, Anchor: draw.AtTopLeft, Text: text, Colour: draw.Pencil}
	if b.arrowsBetween(0, n.At.X+wide) {
		n.At.X, n.Anchor = 0.98*b.d.Length, draw.AtTopRight
		if b.arrowsBetween(n.At.X-wide, b.d.Length) {
			return // arrows on both sides
		}
	}
	b.Notes = append(b.Notes, n)
}

// arrowsBetween reports whether a load's arrow points down on the section below
// between two places along it.
func (b *board) arrowsBetween(from, to float64) bool {
	if b.o.Case >= len(b.d.Cases) {
		return false
	}
	return slices.ContainsFunc(b.d.Cases[b.o.Case].Loads, func(l Load) bool {
		half := 8 * b.pixel // of an arrow's head
		return (l.Kind == Patch || l.Kind == Line) && l.X > from-half && l.X < to+half
	})
}

// SupportPart is the part ID under which the supports are drawn, LoadPart the
// one of a load.
const SupportPart = "supports"

// LoadPart returns the part ID under which a load is drawn.
func LoadPart(loadCase, load int) string { return fmt.Sprintf("load %d.%d", loadCase, load) }

func (b *board) planLoads() {
	if b.o.Case >= len(b.d.Cases) {
		return
	}
	for i, l := range b.d.Cases[b.o.Case].Loads {
		if l.Kind == Uniform {
			continue
		}
		id := LoadPart(b.o.Case, i)
		s := b.d.Spread(l)
		x0, y0, x1, y1 := s.X-s.SizeX/2, s.Y-s.SizeY/2, s.X+s.SizeX/2, s.Y+s.SizeY/2
		b.Areas = append(b.Areas, draw.Area{Points: rect(x0, y0, x1, y1), Pen: draw.Accent, Part: id})
		switch l.Kind {
		case Line:
			b.planLine(l, id)
		case Couple:
			b.planCouple(l, id)
		default:
			for _, e := range [2][2]draw.Point{{{X: x0, Y: y0}, {X: x1, Y: y1}}, {{X: x0, Y: y1}, {X: x1, Y: y0}}} {
				b.Lines = append(b.Lines, draw.Line{A: e[0], B: e[1], Pen: draw.DimensionPen, Part: id})
			}
		}
	}
}

// loadNames writes what the loads are above them: of a plan that shows too small for
// the name only how strong they are, so that the numbers at the supports have room,
// and never beyond the plan's ends, where the section stands.
func (b *board) loadNames() {
	if b.o.Case >= len(b.d.Cases) {
		return
	}
	for i, l := range b.d.Cases[b.o.Case].Loads {
		if l.Kind == Uniform {
			continue
		}
		s := b.d.Spread(l)
		strength := l.Strength(b.o.Lengths)
		n := draw.Note{At: draw.Point{X: s.X, Y: s.Y + s.SizeY/2}, Anchor: draw.AtBottom, Text: l.Name + " · " + strength, Else: []string{strength}, Bold: true, Ground: draw.Sheet, Part: LoadPart(b.o.Case, i),
			Room: draw.Rect{Max: draw.Point{X: nameShare * b.d.Length, Y: b.d.Length}}}
		half := func(text string) float64 { return 3.6 * float64(utf8.RuneCountInString(text)) * b.pixel } // of bold text, about
		h := half(n.Text)
		if h > nameShare/2*b.d.Length {
			h = half(strength)
		}
		if h < b.d.Length/2 {
			n.At.X = min(max(n.At.X, h), b.d.Length-h)
		}
		b.Notes = append(b.Notes, n)
	}
}

// nameShare is the part of the plan's length that the name of a load may take.
const nameShare = 0.8

// inLongSection returns the parts that the long section shows.
func (b *board) inLongSection() []Part {
	var out []Part
	for _, p := range b.r.Parts {
		switch p.Kind {
		case LengthwisePart:
			if p.ID != "L1" {
				continue
			}
		case BandPart:
			if p.ID != "band left" && p.ID != "band right" {
				continue
			}
		case BlockPart:
			continue
		case SplicePart:
			if !b.d.showsPlate(p, true) {
				continue
			}
		}
		out = append(out, p)
	}
	return out
}

// longSection draws the panel cut along its length just in front of a
// lengthwise rib; at is the lower left corner.
func (b *board) longSection(at draw.Point) {
	for _, p := range b.inLongSection() {
		q := p.Place
		b.part(p, rect(at.X+q.X0, at.Y+q.Z0, at.X+q.X1, at.Y+q.Z1))
	}
	b.sectionSeams(false, func(x, z float64) draw.Point { return draw.Point{X: at.X + x, Y: at.Y + z} })
	b.sectionCuts(true, func(x, z float64) draw.Point { return draw.Point{X: at.X + x, Y: at.Y + z} })
	b.sectionBuilt(true, func(x, z float64) draw.Point { return draw.Point{X: at.X + x, Y: at.Y + z} })
	h := b.d.TotalDepth()
	b.Areas = append(b.Areas, draw.Area{Points: rect(at.X, at.Y, at.X+b.d.Length, at.Y+h), Pen: draw.Outline})
	b.sectionAprons(true, func(x, z float64) draw.Point { return draw.Point{X: at.X + x, Y: at.Y + z} })
	b.sectionSupports(at)
	b.sectionLoads(func(x float64) draw.Point { return draw.Point{X: at.X + x, Y: at.Y + h} })
}

// sectionTitle names the long section; where something stands to its right, so
// that there is no room for dimensions, it tells the depth instead.
func (b *board) sectionTitle() {
	text, f := "Section along the length", b.o.Lengths
	if b.beside {
		text = "Section, " + f.Print(b.d.TotalDepth()) + " deep"
	}
	at := draw.Point{Y: -b.gap - b.d.TotalDepth() - b.d.apronDrop(true) - b.gap/5}
	if drop := b.d.apronDrop(true); drop > 0 && b.o.Room == (draw.Point{}) { // on paper nothing is below: on the apron
		at = draw.Point{X: b.d.Length / 2, Y: -b.gap - b.d.TotalDepth() - drop/2}
		b.Notes = append(b.Notes, draw.Note{At: at, Text: text, Colour: draw.Pencil, Ground: draw.Sheet})
		return
	}
	from, to := b.betweenMarks()
	at.X = (from + to) / 2
	if (to-from)/b.pixel < 7*float64(len(text))+30 { // 7 pixels for a sign, and a mark on either side
		if !b.beside {
			return // the sagged section is below
		}
		at.X, at.Y = b.d.Length/2, at.Y-20*b.pixel // below the marks
	}
	b.Notes = append(b.Notes, draw.Note{At: at, Anchor: draw.AtTop, Text: text, Colour: draw.Pencil})
}

// sectionLoads marks what presses; place is on the upper face at an x.
func (b *board) sectionLoads(place func(x float64) draw.Point) {
	if b.o.Case >= len(b.d.Cases) {
		return
	}
	for i, l := range b.d.Cases[b.o.Case].Loads {
		id := LoadPart(b.o.Case, i)
		switch x, _ := l.Pull.way(); {
		case l.Kind == Patch, l.Kind == Line:
			b.Marks = append(b.Marks, draw.Mark{At: place(l.X), Kind: draw.LoadMark, Part: id})
		case l.Kind == Couple && x != 0:
			b.turning(id, x, b.d.Spread(l).X, func(along, up float64) draw.Point { p := place(along); p.Y += up; return p })
		}
	}
}

// endSection draws the panel cut across its length, turned so that its upper
// face looks towards the plan; at is the corner at the upper face and y = 0.
func (b *board) endSection(at draw.Point) {
	h := b.d.TotalDepth()
	for _, p := range b.r.Parts {
		q := p.Place
		switch p.Kind {
		case CrosswisePart:
			if p.ID != "C1" {
				continue
			}
		case BandPart:
			if p.ID != "band front" && p.ID != "band back" {
				continue
			}
		case BlockPart, LengthwisePart:
			continue
		case SplicePart:
			if !b.d.showsPlate(p, false) {
				continue
			}
		}
		b.part(p, rect(at.X+h-q.Z1, at.Y+q.Y0, at.X+h-q.Z0, at.Y+q.Y1))
	}
	for _, p := range b.r.Parts {
		if p.Kind == LengthwisePart {
			q := p.Place
			b.part(p, rect(at.X+h-q.Z1, at.Y+q.Y0, at.X+h-q.Z0, at.Y+q.Y1))
		}
	}
	b.sectionAprons(false, func(y, z float64) draw.Point { return draw.Point{X: at.X + h - z, Y: at.Y + y} })
	b.sectionSeams(true, func(y, z float64) draw.Point { return draw.Point{X: at.X + h - z, Y: at.Y + y} })
	b.sectionCuts(false, func(y, z float64) draw.Point { return draw.Point{X: at.X + h - z, Y: at.Y + y} })
	b.sectionBuilt(false, func(y, z float64) draw.Point { return draw.Point{X: at.X + h - z, Y: at.Y + y} })
	if b.o.Case < len(b.d.Cases) {
		for i, l := range b.d.Cases[b.o.Case].Loads {
			if _, y := l.Pull.way(); l.Kind == Couple && y != 0 {
				b.turning(LoadPart(b.o.Case, i), y, b.d.Spread(l).Y, func(along, up float64) draw.Point { return draw.Point{X: at.X - up, Y: at.Y + along} })
			}
		}
	}
	b.Areas = append(b.Areas, draw.Area{Points: rect(at.X, at.Y, at.X+h, at.Y+b.d.Width), Pen: draw.Outline})
}

// outerDimensions measures the whole, the rib pitches and the layers.
func (b *board) outerDimensions() {
	f := b.o.Lengths
	d := b.d
	ys, xs := d.RibPlaces()
	top := d.Width
	b.chain(xs, d.Length, func(v float64) draw.Point { return draw.Point{X: v, Y: top} }, draw.Above, 1, "C")
	b.Dimensions = append(b.Dimensions, draw.Dimension{A: draw.Point{Y: top}, B: draw.Point{X: d.Length, Y: top}, Side: draw.Above, Rank: 2, Text: f.Print(d.Length)})
	b.chain(ys, d.Width, func(v float64) draw.Point { return draw.Point{Y: v} }, draw.Left, 1, "L")
	b.Dimensions = append(b.Dimensions, draw.Dimension{B: draw.Point{Y: d.Width}, Side: draw.Left, Rank: 2, Text: f.Print(d.Width)})
	if b.beside {
		return // the section's title tells its depths
	}
	z0 := -b.gap - d.TotalDepth()
	b.Dimensions = append(b.Dimensions,
		draw.Dimension{A: draw.Point{X: d.Length, Y: z0 + d.BottomSkin.Thickness}, B: draw.Point{X: d.Length, Y: z0 + d.BottomSkin.Thickness + d.CoreDepth}, Side: draw.Right, Rank: 1, Text: f.Print(d.CoreDepth)},
		draw.Dimension{A: draw.Point{X: d.Length, Y: z0}, B: draw.Point{X: d.Length, Y: z0 + d.TotalDepth()}, Side: draw.Right, Rank: 2, Text: f.Print(d.TotalDepth())})
}

// chain measures from the edge to the first rib's middle, from rib to rib and
// to the far edge.
func (b *board) chain(at []float64, end float64, place func(float64) draw.Point, side draw.Side, rank int, prefix string) {
	last := 0.0
	for i, v := range append(append([]float64(nil), at...), end) {
		part := ""
		if i < len(at) {
			part = fmt.Sprintf("%s%d", prefix, i+1)
		}
		if v-last > 1 {
			b.Dimensions = append(b.Dimensions, draw.Dimension{A: place(last), B: place(v), Side: side, Rank: rank, Text: b.o.Lengths.Print(v - last), Part: part})
		}
		last = v
	}
}
