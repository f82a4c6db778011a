package engine

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"flatwright/engine/draw"
)

// Grain says how a piece must lie on its sheet.
type Grain string

// The ways of the face grain.
const (
	GrainAlong  Grain = "along"  // along the piece's length
	GrainAcross Grain = "across" // across it
	GrainFree   Grain = "free"   // either way: the sheet has no grain, or the person does not mind
)

// Piece is what is really cut out of a sheet or sawn from a board: a part, or
// one of the pieces that a part is joined from. Its outline is drawn in axes of
// its own, x along Length from the datum end, y along Width, as one looks at it
// From; a scarfed end reaches to the tip of the scarf.
type Piece struct {
	ID        string        `json:"id"`   // that of the part, with "/1", "/2" … where it has several pieces
	Part      string        `json:"part"` // as [Part.ID]
	Mark      string        `json:"mark"` // short, for labels; alike pieces share it
	Kind      PartKind      `json:"kind"`
	Name      string        `json:"name"`
	Count     int           `json:"count"` // pieces with this mark, this one among them
	Material  string        `json:"material"`
	Length    float64       `json:"length"`    // of the blank, mm
	Width     float64       `json:"width"`     // of the blank; of a rib its height, mm
	Thickness float64       `json:"thickness"` // mm
	Grain     Grain         `json:"grain"`
	Outline   []draw.Point  `json:"outline"` // anticlockwise, slots cut in, mm
	Slots     []Slot        `json:"slots,omitempty"`
	Holes     []PieceHole   `json:"holes,omitempty"`
	Grooves   []PieceGroove `json:"grooves,omitempty"`
	Scarfs    []Scarf       `json:"scarfs,omitempty"`
	Volume    float64       `json:"volume"` // as it goes into the panel, scarfs planed, mm³
	Mass      float64       `json:"mass"`   // kg
	Place     Box           `json:"place"`  // in the panel, up to the middles of its scarfs
	AlongX    bool          `json:"alongX"` // its length runs along the panel's length
	Datum     string        `json:"datum"`  // end from which everything is measured: "left end" or "front end"
	From      string        `json:"from"`   // how one looks at the outline: "from above", "from the front", "from the right"
	Edges     []string      `json:"edges"`  // what to know of its edges, sentences
}

// PieceHole is a round hole through a piece, in its own axes.
type PieceHole struct {
	X        float64 `json:"x"`
	Y        float64 `json:"y"`
	Diameter float64 `json:"diameter"`
	Hole     int     `json:"hole"` // index in [Design.Holes]
}

// PieceGroove is a channel in a piece, in its own axes, cut off at its edges.
type PieceGroove struct {
	X0     float64 `json:"x0"`
	X1     float64 `json:"x1"`
	Y0     float64 `json:"y0"`
	Y1     float64 `json:"y1"`
	Depth  float64 `json:"depth"`
	Below  bool    `json:"below"`  // in the lower face, that of the bottom skin
	Groove int     `json:"groove"` // index in [Design.Grooves]
}

// Scarf is a sloped end or edge of a piece: over Length the piece thins out from
// its full thickness to nothing.
type Scarf struct {
	Edge   string  `json:"edge"`   // of the piece as drawn: "left", "right", "lower", "upper"
	Length float64 `json:"length"` // mm
	Face   string  `json:"face"`   // that is planed away: "front" is the one that is drawn
}

// Pieces lays out everything that is cut for a valid design, in the order of
// [Design.Parts]. The masses add up to those of the parts.
func (d Design) Pieces() []Piece {
	var out []Piece
	for _, p := range d.Parts() {
		m, _ := d.Material(p.Material)
		from := len(out)
		switch p.Kind {
		case SkinPart:
			out = append(out, d.skinPieces(p)...)
		case LengthwisePart, CrosswisePart, BandPart:
			out = append(out, d.stickPieces(p)...)
		default:
			out = append(out, d.wholePiece(p))
		}
		for i := from; i < len(out); i++ {
			q := &out[i]
			q.Mass = q.Volume * m.At(p.Thickness).Density * 1e-9
			q.Grain = GrainAcross
			if p.GrainAlong {
				q.Grain = GrainAlong
			}
			if !m.Solid && !m.Grained() {
				q.Grain = GrainFree
			}
		}
	}
	mark(out)
	for i := range out {
		if d.Cutting.frees(&out[i]) {
			out[i].Grain = GrainFree
		}
	}
	return out
}

// like fills in what a piece has of its part.
func (d *Design) like(p Part) Piece {
	q := Piece{ID: p.ID, Part: p.ID, Kind: p.Kind, Name: p.Name, Material: p.Material, Length: p.Length, Width: p.Width, Thickness: p.Thickness,
		Volume: p.Volume, Place: p.Place, AlongX: true, Datum: "left end", From: "from above"}
	onRib := p.Kind == SplicePart && strings.HasPrefix(p.ID, "splice")
	across := onRib && p.Place.X1-p.Place.X0 < p.Place.Y1-p.Place.Y0
	switch {
	case p.Kind == CrosswisePart, p.ID == "band left", p.ID == "band right", across:
		q.AlongX, q.Datum, q.From = false, "front end", "from the right"
	case p.Kind == LengthwisePart, p.Kind == BandPart, onRib:
		q.From = "from the front"
	}
	return q
}

// wholePiece is a block or a splice plate.
func (d *Design) wholePiece(p Part) Piece {
	q := d.like(p)
	q.Outline = rect(0, 0, p.Length, p.Width)
	if q.From == "from above" {
		q.Holes = d.drilled(&p, p.Place)
	}
	q.Edges = []string{"All edges plain."}
	if p.Kind == BlockPart {
		q.Edges = []string{"Sawn from solid wood or glued up from sheets; it fills its bay without play."}
	}
	return q
}

// drilled are the holes that go straight down through a part and whose middles
// lie in a piece of it, in the axes of the piece.
func (d *Design) drilled(p *Part, at Box) []PieceHole {
	var out []PieceHole
	for n, h := range d.Holes {
		if _, _, rib := RibOfPart(h.Part); rib {
			continue
		}
		for i := range h.number() {
			x, y := h.place(i)
			r := h.Diameter / 2
			if _, ok := d.bored(p, h, i); ok && x+r > at.X0 && x-r < at.X1 && y+r > at.Y0 && y-r < at.Y1 {
				out = append(out, PieceHole{x - at.X0, y - at.Y0, h.Diameter, n})
			}
		}
	}
	return out
}

// mark gives every piece its mark: the letter of its sort and, where pieces of a
// sort differ, a small letter in the order in which they come; and counts the alike.
func mark(pieces []Piece) {
	kinds := map[string][]string{} // of each sort, the different pieces in order
	which := make([]int, len(pieces))
	for i := range pieces {
		sort, key := pieces[i].sort(), pieces[i].key()
		which[i] = -1
		for k, known := range kinds[sort] {
			if known == key {
				which[i] = k
			}
		}
		if which[i] < 0 {
			which[i] = len(kinds[sort])
			kinds[sort] = append(kinds[sort], key)
		}
	}
	count := map[string]int{}
	for i := range pieces {
		p := &pieces[i]
		p.Mark = p.sort()
		if len(kinds[p.Mark]) > 1 {
			p.Mark += letters(which[i])
		}
		count[p.Mark]++
	}
	for i := range pieces {
		pieces[i].Count = count[pieces[i].Mark]
	}
}

// letters counts a, b … z, aa, ab …: a number after a rib's letter is the rib
// itself, whichever way it is cut.
func letters(n int) string {
	last := string(rune('a' + n%26))
	if n < 26 {
		return last
	}
	return letters(n/26-1) + last
}

// sort is the letter of a piece's mark.
func (p *Piece) sort() string {
	switch p.Kind {
	case SkinPart:
		return strings.ToUpper(p.Part[:1])
	case LengthwisePart:
		return "L"
	case CrosswisePart:
		return "C"
	case BandPart:
		if p.AlongX {
			return "F"
		}
		return "E"
	case BlockPart:
		return "K"
	}
	return "S"
}

// key is the same for pieces that can be exchanged: cut from the same sheet to
// the same shape, a skin or a plate also turned by half.
func (p *Piece) key() string {
	head := fmt.Sprintf("%s %s %.2f×%.2f×%.2f", p.Material, p.Grain, p.Length, p.Width, p.Thickness)
	shape := p.shape(func(x, y float64) (float64, float64) { return x, y }, func(edge string) string { return edge })
	if p.From != "from above" {
		return head + shape
	}
	turned := p.shape(func(x, y float64) (float64, float64) { return p.Length - x, p.Width - y },
		func(edge string) string {
			return map[string]string{"left": "right", "right": "left", "lower": "upper", "upper": "lower"}[edge]
		})
	return head + min(shape, turned)
}

// shape prints slots, holes, grooves and scarfs, in whatever order they come,
// with places and edges put through a turn.
func (p *Piece) shape(turn func(x, y float64) (float64, float64), edge func(string) string) string {
	var all []string
	add := func(format string, args ...any) { all = append(all, fmt.Sprintf(format, args...)) }
	for _, s := range p.Slots {
		add("s %.2f %.2f %.2f %v", s.Station, s.Width, s.Depth, s.FromTop)
	}
	for _, h := range p.Holes {
		x, y := turn(h.X, h.Y)
		add("h %.2f %.2f %.2f", x, y, h.Diameter)
	}
	for _, g := range p.Grooves {
		x0, y0 := turn(g.X0, g.Y0)
		x1, y1 := turn(g.X1, g.Y1)
		add("g %.2f %.2f %.2f %.2f %.2f %v", math.Min(x0, x1), math.Max(x0, x1), math.Min(y0, y1), math.Max(y0, y1), g.Depth, g.Below)
	}
	for _, s := range p.Scarfs {
		add("f %s %.2f %s", edge(s.Edge), s.Length, s.Face)
	}
	slices.Sort(all)
	return strings.Join(all, ";")
}
