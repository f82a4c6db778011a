package engine

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

// pieceOf returns the piece with an ID.
func pieceOf(t *testing.T, pieces []Piece, id string) Piece {
	t.Helper()
	for _, p := range pieces {
		if p.ID == id {
			return p
		}
	}
	t.Fatalf("no piece %s", id)
	return Piece{}
}

// Whatever is joined, drilled and grooved: the pieces weigh what the parts do
// and the result says, the outlines have the area that slots leave, skins and
// ribs are tiled by their pieces, and everything alike has one mark.
func TestPiecesOfAnyDesign(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(5, 4))
	has := map[string]int{}
	for i := range 300 {
		d := randomDesign(r)
		pieces := d.Pieces()
		byPart, place, ids, marks := map[string]float64{}, map[string]float64{}, map[string]bool{}, map[string]int{}
		sum := 0.0
		for _, p := range pieces {
			if ids[p.ID] {
				t.Fatalf("piece %s is there twice", p.ID)
			}
			ids[p.ID] = true
			marks[p.Mark]++
			sum += p.Mass
			byPart[p.Part] += p.Mass
			place[p.Part] += p.Place.volume()
			a := area(p.Outline)
			for _, q := range p.Outline {
				if q.X < -1e-9 || q.Y < -1e-9 || q.X > p.Length+1e-9 || q.Y > p.Width+1e-9 {
					t.Fatalf("%s: outline %v leaves the blank %g × %g", p.ID, p.Outline, p.Length, p.Width)
				}
			}
			want := p.Length * p.Width
			for _, s := range p.Slots {
				want -= s.Width * s.Depth
			}
			near(t, p.ID+" area", a, want, 1e-9)
			if len(p.Scarfs) == 0 && len(p.Holes)+len(p.Grooves) == 0 {
				near(t, p.ID+" volume", p.Volume, a*p.Thickness, 1e-9)
			}
			if !(p.Mass > 0) || p.Name == "" || p.Material == "" || len(p.Edges) == 0 || p.Grain == "" || p.Datum == "" || p.From == "" {
				t.Fatalf("%s lacks something: %+v", p.ID, p)
			}
			if len(p.Scarfs) > 0 {
				has["scarf"]++
			}
			has["hole"] += len(p.Holes)
			has["groove"] += len(p.Grooves)
			if strings.Contains(p.ID, "/") {
				has["joined"]++
			}
			if p.Kind == SplicePart {
				has["plate"]++
			}
		}
		for _, p := range pieces {
			if p.Count != marks[p.Mark] {
				t.Fatalf("%s: count %d of mark %s; want %d", p.ID, p.Count, p.Mark, marks[p.Mark])
			}
		}
		parts := d.Parts()
		mass := d.weigh(parts)
		if i%20 == 0 {
			mass = compute(t, d).Mass
		}
		for _, p := range parts {
			near(t, p.ID+" pieces", byPart[p.ID], p.Mass, 1e-9)
			near(t, p.ID+" tiled", place[p.ID], p.Place.volume(), 1e-9)
		}
		near(t, "mass", sum, mass.Parts, 1e-9)
		if t.Failed() {
			t.Fatalf("%+v", d)
		}
	}
	for _, what := range []string{"scarf", "hole", "groove", "joined", "plate"} {
		if has[what] < 50 {
			t.Errorf("%s: only %d", what, has[what])
		}
	}
}

// mirrorJoints mirrors seams, splices, holes and grooves on either side.
func mirrorJoints(d *Design) {
	part := func(id string) string {
		along, n, ok := RibOfPart(id)
		if ok {
			return RibPart(along, d.ribSet(along).number()-1-n)
		}
		other := map[string]string{"band front": "band back", "band back": "band front", "band left": "band right", "band right": "band left"}
		if to, ok := other[id]; ok {
			return to
		}
		return id
	}
	extent := func(along bool) float64 {
		if along {
			return d.Length
		}
		return d.Width
	}
	for i := range d.Seams {
		d.Seams[i].At = extent(!d.Seams[i].Along) - d.Seams[i].At
	}
	for i := range d.Splices {
		k, _ := d.stick(d.Splices[i].Part)
		d.Splices[i].At = extent(k.along) - d.Splices[i].At
		d.Splices[i].Part = part(d.Splices[i].Part)
	}
	for i := range d.Holes {
		h := &d.Holes[i]
		h.X, h.StepX, h.Y, h.StepY, h.Part = d.Length-h.X, -h.StepX, d.Width-h.Y, -h.StepY, part(h.Part)
	}
	for i := range d.Grooves {
		g := &d.Grooves[i]
		g.At = extent(!g.Along) - g.At
		if g.To == 0 {
			g.To = extent(g.Along)
		}
		g.From, g.To = extent(g.Along)-g.To, extent(g.Along)-g.From
	}
	for i := range d.Built {
		b := &d.Built[i]
		if along, _, ok := RibOfPart(b.Part); ok && !b.everywhere() {
			b.From, b.To = extent(along)-b.To, extent(along)-b.From
		}
		b.X, b.Y, b.Part = -b.X, -b.Y, part(b.Part)
	}
}

// turnJoints changes length and width over.
func turnJoints(d *Design) {
	part := func(id string) string {
		if along, n, ok := RibOfPart(id); ok {
			return RibPart(!along, n)
		}
		other := map[string]string{"band front": "band left", "band back": "band right", "band left": "band front", "band right": "band back"}
		if to, ok := other[id]; ok {
			return to
		}
		return id
	}
	for i := range d.Seams {
		d.Seams[i].Along = !d.Seams[i].Along
	}
	for i := range d.Splices {
		d.Splices[i].Part = part(d.Splices[i].Part)
	}
	for i := range d.Holes {
		h := &d.Holes[i]
		h.X, h.Y, h.StepX, h.StepY, h.Part = h.Y, h.X, h.StepY, h.StepX, part(h.Part)
	}
	for i := range d.Grooves {
		d.Grooves[i].Along = !d.Grooves[i].Along
	}
	for i := range d.Built {
		b := &d.Built[i]
		b.X, b.Y, b.Part = b.Y, b.X, part(b.Part)
	}
}

// A design mirrored on either side has mirrored pieces: the same sizes, areas and
// masses, and holes and slots at the mirrored stations.
func TestMirroredPieces(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(6, 4))
	for range 60 {
		d := randomDesign(r)
		e := mirrored(d)
		a, b := d.Pieces(), e.Pieces()
		sum := func(pieces []Piece) (out []float64) {
			for _, p := range pieces {
				row := p.Mass + p.Length*1e3 + p.Width*7 + area(p.Outline)
				for _, h := range p.Holes { // the same from the other end
					row += math.Abs(h.X-p.Length/2)*31 + math.Abs(h.Y-p.Width/2)*17
				}
				for _, s := range p.Slots {
					row += math.Abs(s.Station-p.Length/2) * 13
				}
				out = append(out, row)
			}
			slices.Sort(out)
			return out
		}
		x, y := sum(a), sum(b)
		if len(x) != len(y) {
			t.Fatalf("%d pieces, mirrored %d", len(x), len(y))
		}
		for i := range x {
			near(t, "piece", y[i], x[i], 1e-9)
		}
		if t.Failed() {
			t.Fatalf("%+v", d)
		}
	}
}

// By hand: a skin of 1600 × 700 mm, 9 mm thick, scarfed at 600 mm and grooved
// 20 × 4 mm over its width at 1000 mm, with a hole of 20 mm beside it.
func TestPiecesByHand(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Seams = []Seam{{Skin: TopSeam, At: 600, Spliced: true, Scarf: true}}
	d.Grooves = []Groove{{Skin: TopSeam, At: 1000, Width: 20, Depth: 4}}
	d.Holes = []Hole{{Kind: DogHole, Part: TopSeam, X: 1060, Y: 300, Diameter: 20}}
	pieces := d.Pieces()
	left, right := pieceOf(t, pieces, "top/1"), pieceOf(t, pieces, "top/2")
	// The scarf is 8·9 = 72 mm long, half of it beyond 600 mm on either side.
	near(t, "length of the left blank", left.Length, 636, 1e-12)
	near(t, "length of the right blank", right.Length, 1036, 1e-12)
	near(t, "left volume", left.Volume, 600*700*9, 1e-12)
	near(t, "right volume", right.Volume, 1000*700*9-20*700*4-math.Pi*100*9, 1e-12)
	near(t, "mass", right.Mass, right.Volume*680e-9, 1e-12)
	if g := right.Grooves; len(g) != 1 || math.Abs(g[0].X0-(990-564)) > 1e-9 || math.Abs(g[0].X1-(1010-564)) > 1e-9 || g[0].Y0 != 0 || g[0].Y1 != 700 {
		t.Errorf("groove %+v", g)
	}
	if h := right.Holes; len(h) != 1 || math.Abs(h[0].X-(1060-564)) > 1e-9 || h[0].Y != 300 {
		t.Errorf("hole %+v", h)
	}
	if left.Mark != "Ta" || right.Mark != "Tb" || left.Count != 1 || left.Grain != GrainAlong || left.Part != "top" {
		t.Errorf("left piece %+v", left)
	}
	if s := left.Scarfs; len(s) != 1 || s[0] != (Scarf{"right", 72, "front"}) {
		t.Errorf("scarfs of the left piece %+v", s)
	}
	if s := right.Scarfs; len(s) != 1 || s[0] != (Scarf{"left", 72, "back"}) {
		t.Errorf("scarfs of the right piece %+v", s)
	}
	if n := pieceOf(t, pieces, "L3"); n.Mark != "L" || n.Count != 5 || len(n.Slots) != 8 || n.From != "from the front" {
		t.Errorf("rib %+v", n)
	}
}

// A rib in three pieces, one joint scarfed and one under plates.
func TestSplicedRibPieces(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Crosswise.Count = 3 // at 4.5, 800, 1595.5
	d.Splices = []Splice{{Part: "L2", At: 1200, Plates: true}, {Part: "L2", At: 400}}
	pieces := d.Pieces()
	// Scarf 8·12 = 96 mm. Plates 25·12 = 300 mm, 78 high, on both cheeks.
	for id, want := range map[string]struct{ length, volume float64 }{
		// Slots 9.2 mm wide and 40.5 deep, that at the end cut off to 9.1 mm.
		"L2/1": {448, 12 * (400*80 - 9.1*40.5)},
		"L2/2": {848, 12 * (800*80 - 9.2*40.5)},
		"L2/3": {400, 12 * (400*80 - 9.1*40.5)},
	} {
		p := pieceOf(t, pieces, id)
		near(t, id+" length", p.Length, want.length, 1e-9)
		near(t, id+" volume", p.Volume, want.volume, 1e-9)
	}
	plate := pieceOf(t, pieces, "splice 1 plate 1")
	if plate.Length != 300 || plate.Width != 78 || plate.Thickness != 12 || plate.Count != 2 || plate.Mark != "S" || plate.From != "from the front" {
		t.Errorf("plate %+v", plate)
	}
	near(t, "middle of the second slot", pieceOf(t, pieces, "L2/2").Slots[0].Station, 800-(400-48), 1e-9)
	if p := pieceOf(t, pieces, "L1"); p.Mark != "La" || p.Count != 4 {
		t.Errorf("a whole rib has mark %s, count %d; want La, 4", p.Mark, p.Count)
	}
}

// What may turn: sheets without grain, and pieces that the person marks.
func TestPieceGrain(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.TopSkin.Material, d.BottomSkin.Across = "mdf", true
	d.Cutting.Free = []string{string(CrosswisePart)}
	for id, want := range map[string]Grain{"top": GrainFree, "bottom": GrainAcross, "L1": GrainAlong, "C1": GrainFree} {
		if got := pieceOf(t, d.Pieces(), id).Grain; got != want {
			t.Errorf("grain of %s is %s; want %s", id, got, want)
		}
	}
}

// By hand: 26 letters, then two of them, 26·26 + 26 in all before three.
func TestLetters(t *testing.T) {
	t.Parallel()
	for n, want := range map[int]string{0: "a", 25: "z", 26: "aa", 27: "ab", 51: "az", 52: "ba", 701: "zz", 702: "aaa"} {
		if got := letters(n); got != want {
			t.Errorf("letters(%d) = %s; want %s", n, got, want)
		}
	}
}
