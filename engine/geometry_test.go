package engine

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"flatwright/engine/catalog"
)

// handTop is 1200 × 600 mm: skins of 9 mm, seven lengthwise and four crosswise
// ribs of 12 × 75 mm, flush at the edges, laps of exactly half the height.
func handTop() Design {
	d := plainTop()
	d.Length, d.Width, d.CoreDepth = 1200, 600, 75
	d.TopSkin.Thickness, d.BottomSkin.Thickness = 9, 9
	d.Lengthwise = RibSet{Material: "plain", Thickness: 12, Count: 7}
	d.Crosswise = RibSet{Material: "plain", Thickness: 12, Count: 4}
	d.Slots = Slots{}
	d.Cases[0].Loads[0].X, d.Cases[0].Loads[0].Y = 600, 300
	return d
}

func TestMassByHand(t *testing.T) {
	t.Parallel()
	r := compute(t, handTop()).Mass
	// By hand, mm³: skins 2·9·1200·600 = 12 960 000; lengthwise ribs
	// 7·1200·75·12 = 7 560 000; crosswise 4·600·75·12 = 2 160 000; the 28 laps
	// hold one another's wood once, −28·12·12·75 = −302 400. Together
	// 22 377 600 mm³ of 680 kg/m³: 15.216 768 kg.
	near(t, "parts", r.Parts, 15.216768, 1e-12)
	// Ribs alone: each loses 12·37.5·12 = 5 400 mm³ a lap.
	near(t, "skins", r.ByKind[0].Mass, 12.96e6*680e-9, 1e-12)
	near(t, "lengthwise ribs", r.ByKind[1].Mass, (7.56e6-28*5400)*680e-9, 1e-12)
	near(t, "crosswise ribs", r.ByKind[2].Mass, (2.16e6-28*5400)*680e-9, 1e-12)
	for i, want := range []MassLine{{Kind: SkinPart, Count: 2}, {Kind: LengthwisePart, Count: 7}, {Kind: CrosswisePart, Count: 4}} {
		if got := r.ByKind[i]; got.Kind != want.Kind || got.Count != want.Count {
			t.Errorf("line %d = %d of %s; want %d of %s", i, got.Count, got.Kind, want.Count, want.Kind)
		}
	}
	if r.Laps != 28 || r.Pieces != 11 {
		t.Errorf("%d laps, %d pieces; want 28 and 11", r.Laps, r.Pieces)
	}
	// Glue: on either face 7·12·1200 + 4·12·600 − 28·12·12 = 125 568 mm²;
	// four cheeks a lap, 28·75·(12 + 12) = 50 400 mm². 301 536 mm² at the mean
	// of 150 to 200 g/m² are 52.768 8 g.
	near(t, "glue", r.Glue, 0.0527688, 1e-12)
	near(t, "total", r.Total, 15.216768+0.0527688, 1e-12)
	// Solid: 1200·600·93 mm³·680 kg/m³ = 45.5328 kg.
	near(t, "slab", r.Slab, 45.5328, 1e-12)
	near(t, "share", r.Share, (15.216768+0.0527688)/45.5328, 1e-12)
	// Symmetric from end to end and from side to side; the laps of the two
	// sets of ribs make up for each other in height.
	for i, want := range []float64{600, 300, 46.5} {
		near(t, "centre", r.Centre[i], want, 1e-12)
	}
}

func TestJointsByHand(t *testing.T) {
	t.Parallel()
	d := handTop()
	// 7·1200 + 4·(600 − 7·12) = 10 464 mm of rib edge.
	near(t, "joint length", compute(t, d).Build.JointLength, 10464, 1e-12)
	near(t, "glued area", compute(t, d).Build.GlueArea, 301536, 1e-12)
	d.EdgeBand = EdgeBand{"plain", 15}
	// Inside 1170 × 570: on a face 7·12·1170 + 4·12·570 − 28·144 = 121 608,
	// laps as before, bands 2·(1170 + 570)·93 = 323 640 mm².
	near(t, "glued area with bands", compute(t, d).Build.GlueArea, 2*121608+50400+323640, 1e-12)
	near(t, "joint length with bands", compute(t, d).Build.JointLength, 7*1170+4*(570-84), 1e-12)
}

func TestPartsAreComplete(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(1, 1))
	for range 200 {
		d := randomDesign(r)
		parts := d.Parts()
		want := 2 + d.Lengthwise.number() + d.Crosswise.number() + len(d.Blocks)
		if d.EdgeBand.Thickness > 0 {
			want += 4
		}
		for i := range d.Seams {
			want += len(d.seamPlates(i))
		}
		for _, s := range d.Splices {
			want += len(d.ribPlates(s))
		}
		seen := map[string]bool{}
		for _, p := range parts {
			if seen[p.ID] {
				t.Fatalf("part %s is there twice", p.ID)
			}
			seen[p.ID] = true
			b := p.Place
			const e = 1e-9
			if b.X0 < -e || b.Y0 < -e || b.Z0 < -e || b.X1 > d.Length+e || b.Y1 > d.Width+e || b.Z1 > d.TotalDepth()+e {
				t.Fatalf("%s at %+v leaves the panel %g × %g × %g", p.ID, b, d.Length, d.Width, d.TotalDepth())
			}
			sides := []float64{b.X1 - b.X0, b.Y1 - b.Y0, b.Z1 - b.Z0}
			sizes := []float64{p.Length, p.Width, p.Thickness}
			slices.Sort(sides)
			slices.Sort(sizes)
			for i := range sides {
				near(t, p.ID+" size", sides[i], sizes[i], 1e-9)
			}
			if !(p.Volume > 0) || !(p.Mass > 0) || p.Name == "" || p.Mark == "" || p.Material == "" {
				t.Fatalf("%s lacks something: %+v", p.ID, p)
			}
		}
		if len(parts) != want {
			t.Fatalf("%d parts; want %d", len(parts), want)
		}
		for _, p := range parts {
			for _, s := range p.Slots {
				if !seen[s.Mate] {
					t.Fatalf("slot of %s for %s, which is not there", p.ID, s.Mate)
				}
			}
		}
	}
}

// voxelTop is a small panel whose every face lies on whole millimetres.
func voxelTop() Design {
	d := plainTop()
	d.Length, d.Width, d.CoreDepth = 200, 150, 30
	d.TopSkin.Thickness, d.BottomSkin.Thickness = 5, 3
	d.Lengthwise = RibSet{Material: "plain", Thickness: 6, Count: 3, Inset: 7}
	d.Crosswise = RibSet{Material: "plain", Thickness: 8, Positions: []float64{20, 88, 180}}
	d.Slots = Slots{Clearance: 2, Relief: 1}
	d.EdgeBand = EdgeBand{"white-oak", 10}
	d.Blocks = []Block{{"white-oak", 1, 0}, {"plain", 0, 1}}
	d.Supports.EndInset, d.Supports.Bearing = 20, 20
	d.Cases = nil
	return d
}

// kindAt says by the design's figures alone what is at a point, "" for air.
func kindAt(d Design, x, y, z float64) PartKind {
	tb := d.EdgeBand.Thickness
	if x < tb || x > d.Length-tb || y < tb || y > d.Width-tb {
		return BandPart
	}
	z -= d.BottomSkin.Thickness
	if z < 0 || z > d.CoreDepth {
		return SkinPart
	}
	ys := []float64{20, 75, 130} // (10 + 7 + 3), the middle, 150 − 20
	xs := d.Crosswise.Positions
	close := func(at float64, places []float64, half float64) bool {
		return slices.ContainsFunc(places, func(p float64) bool { return math.Abs(at-p) < half })
	}
	depth := d.CoreDepth/2 + d.Slots.Relief
	up, down := z > d.CoreDepth-depth, z < depth // where slots from above and from below reach
	if d.Slots.LengthwiseDown {
		up, down = down, up
	}
	bl, bc, c := d.Lengthwise.Thickness/2, d.Crosswise.Thickness/2, d.Slots.Clearance/2
	if close(y, ys, bl) && !(close(x, xs, bc+c) && up) {
		return LengthwisePart
	}
	if close(x, xs, bc) && !(close(y, ys, bl+c) && down) {
		return CrosswisePart
	}
	for _, b := range d.Blocks {
		if x > xs[b.Column]+bc && x < xs[b.Column+1]-bc && y > ys[b.Row]+bl && y < ys[b.Row+1]-bl {
			return BlockPart
		}
	}
	return ""
}

// holds says by a part's figures whether a point is in its wood.
func holds(p Part, x, y, z float64) bool {
	b := p.Place
	if x < b.X0 || x > b.X1 || y < b.Y0 || y > b.Y1 || z < b.Z0 || z > b.Z1 {
		return false
	}
	along := x - b.X0
	if p.Kind == CrosswisePart {
		along = y - b.Y0
	}
	for _, s := range p.Slots {
		edge := z - b.Z0
		if s.FromTop {
			edge = b.Z1 - z
		}
		if math.Abs(along-s.Station) < s.Width/2 && edge < s.Depth {
			return false
		}
	}
	return true
}

// TestEveryCubicMillimetre asks of every cubic millimetre of a panel which
// parts hold it: never two, and always the kind that the design's figures say.
// Their sums are volumes, mass and centre of gravity.
func TestEveryCubicMillimetre(t *testing.T) {
	t.Parallel()
	tests := []struct {
		name   string
		change func(*Design)
	}{
		{"clearance and relief", func(*Design) {}},
		{"tight laps", func(d *Design) { d.Slots = Slots{} }},
		{"slots downwards", func(d *Design) { d.Slots.LengthwiseDown = true }},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			d := voxelTop()
			test.change(&d)
			r := compute(t, d)
			counted := map[PartKind]float64{}
			var mass float64
			var moment [3]float64
			density := map[string]float64{"plain": 680}
			oak, _ := d.Material("white-oak")
			density["white-oak"] = oak.Density
			for x := 0.5; x < d.Length; x++ {
				for y := 0.5; y < d.Width; y++ {
					var column []Part
					for _, p := range r.Parts {
						if x > p.Place.X0 && x < p.Place.X1 && y > p.Place.Y0 && y < p.Place.Y1 {
							column = append(column, p)
						}
					}
					for z := 0.5; z < d.TotalDepth(); z++ {
						var in []Part
						for _, p := range column {
							if holds(p, x, y, z) {
								in = append(in, p)
							}
						}
						want := kindAt(d, x, y, z)
						if len(in) > 1 || len(in) == 0 && want != "" || len(in) == 1 && in[0].Kind != want {
							t.Fatalf("at (%g, %g, %g) are %d parts; want %q", x, y, z, len(in), want)
						}
						if len(in) == 1 {
							counted[want]++
							m := density[in[0].Material] * 1e-9
							mass += m
							for i, at := range []float64{x, y, z} {
								moment[i] += m * at
							}
						}
					}
				}
			}
			volume := map[PartKind]float64{}
			for _, p := range r.Parts {
				volume[p.Kind] += p.Volume
			}
			for kind, want := range counted {
				near(t, string(kind)+" volume", volume[kind], want, 1e-12)
			}
			near(t, "mass", r.Mass.Parts, mass, 1e-9)
			for i := range moment {
				near(t, "centre", r.Mass.Centre[i], moment[i]/mass, 1e-9)
			}
		})
	}
}

func TestCentreFollowsABlock(t *testing.T) {
	t.Parallel()
	d := handTop()
	d.Own = append(d.Own, func() catalog.Sheet { s := plainSheet(); s.Key, s.Density = "heavy", 1500; return s }())
	before := compute(t, d).Mass
	d.Blocks = []Block{{"heavy", 2, 5}}
	after := compute(t, d).Mass
	// Ribs stand at x = 6, 402, 798, 1194 and y = 6, 104, …, 594: the block
	// fills 804 … 1188 by 502 … 588, 384·86·75 mm³ of 1500 kg/m³.
	m := 384.0 * 86 * 75 * 1500e-9
	near(t, "mass", after.Parts, before.Parts+m, 1e-12)
	for i, at := range []float64{996, 545, 46.5} {
		near(t, "centre", after.Centre[i], (before.Parts*before.Centre[i]+m*at)/(before.Parts+m), 1e-12)
	}
}

func TestSlots(t *testing.T) {
	t.Parallel()
	d := testTop() // ribs of 12 mm, thickest 12.2, clearance 0.2: slots of 12.4
	rib := func(d Design, id string) Part {
		p, ok := partByID(d.Parts(), id)
		if !ok {
			t.Fatalf("no part %s", id)
		}
		return p
	}
	l := rib(d, "L3")
	if len(l.Slots) != 11 {
		t.Fatalf("%d slots; want 11", len(l.Slots))
	}
	// Crosswise ribs from 6 to 1794 in ten steps of 178.8. The slot at either
	// end would begin 0.2 beyond it and is cut off there: 12.2 wide.
	for i, s := range l.Slots {
		station, width := 6+178.8*float64(i), 12.4
		switch i {
		case 0:
			station, width = 6.1, 12.2
		case 10:
			station, width = 1800-6.1, 12.2
		}
		near(t, "station", s.Station, station, 1e-12)
		near(t, "width", s.Width, width, 1e-12)
		near(t, "depth", s.Depth, 39, 1e-12) // 76/2 + 1
		if !s.FromTop || rib(d, s.Mate).Slots[2].FromTop || rib(d, s.Mate).Slots[2].Mate != "L3" {
			t.Errorf("slot %d: from top %t, mate %s; want it from the top and its mate's from below for L3", i, s.FromTop, s.Mate)
		}
	}
	d.EdgeBand = EdgeBand{"plain", 20}
	d.Crosswise.Positions = []float64{120, 700, 1500}
	// Stations count from the rib's end, which is behind the band.
	for i, want := range []float64{100, 680, 1480} {
		near(t, "station behind a band", rib(d, "L1").Slots[i].Station, want, 1e-12)
	}
	near(t, "rib length", rib(d, "L1").Length, 1760, 1e-12)
	// Lengthwise ribs between the bands: 26 to 724 in four steps, less the band.
	near(t, "crosswise station", rib(d, "C2").Slots[3].Station, 6+3*(698.0/4), 1e-12)
}

func TestRibPlaces(t *testing.T) {
	t.Parallel()
	d := handTop()
	d.Lengthwise.Inset = 40
	ys, xs := d.RibPlaces()
	// 46 … 554 in six steps; 6 … 1194 in three.
	for i, want := range []float64{46, 46 + 508.0/6, 46 + 2*508.0/6, 300, 46 + 4*508.0/6, 46 + 5*508.0/6, 554} {
		near(t, "even", ys[i], want, 1e-12)
	}
	for i, want := range []float64{6, 402, 798, 1194} {
		near(t, "even", xs[i], want, 1e-12)
	}
	even := compute(t, d)
	d.Lengthwise.Positions, d.Lengthwise.Count, d.Lengthwise.Inset = slices.Clone(ys), 0, 0
	listed := compute(t, d)
	near(t, "sag listed or even", listed.Cases[0].Sag, even.Cases[0].Sag, 1e-12)
	near(t, "mass listed or even", listed.Mass.Total, even.Mass.Total, 1e-12)
	first, last := d.Lengthwise.ends(0, 600)
	near(t, "first", first, 46, 1e-12)
	near(t, "last", last, 554, 1e-12)
}

func TestQuickMassIsTheSumOfParts(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(2, 2))
	for range 300 {
		d := randomDesign(r)
		m := d.materials()
		sum := d.glueMass()
		for _, p := range d.Parts() {
			sum += p.Mass
		}
		near(t, "mass", d.mass(&m), sum, 1e-9)
	}
}

func TestBlockingPieces(t *testing.T) {
	t.Parallel()
	tests := []struct {
		name   string
		change func(*Design)
		want   int
	}{
		// Four gaps between five full ribs, eleven short pieces in each.
		{"flush", func(*Design) {}, 5 + 11*4},
		{"set in: two gaps more", func(d *Design) { d.Lengthwise.Inset = 30 }, 5 + 11*6},
		{"set in at the back only", func(d *Design) { d.Lengthwise.Positions = []float64{6, 200, 350, 500, 650} }, 5 + 11*5},
		{"set in at the front only", func(d *Design) { d.Lengthwise.Positions = []float64{100, 200, 350, 500, 744} }, 5 + 11*5},
		{"flush against a band", func(d *Design) { d.EdgeBand = EdgeBand{"plain", 20} }, 5 + 11*4},
	}
	for _, test := range tests {
		d := testTop()
		d.Own = append(d.Own, plainSheet())
		test.change(&d)
		r := compute(t, d).Mass
		if r.Blocking != test.want || r.Pieces != 16 {
			t.Errorf("%s: %d pieces of blocking for %d ribs; want %d for 16", test.name, r.Blocking, r.Pieces, test.want)
		}
	}
}

func TestCost(t *testing.T) {
	t.Parallel()
	d := handTop()
	d.Prices = []Price{{"plain", 9, 50, 2500, 1250}, {"plain", 12, 60, 2500, 1250}}
	c := compute(t, d).Cost
	// Skins 2·1200·600 mm² at 50/(2500·1250); ribs (7·1200 + 4·600)·75 mm² at 60/(2500·1250).
	near(t, "cost", c.Total, (1_440_000*50.0+810_000*60)/3_125_000, 1e-12)
	if len(c.Missing) != 0 {
		t.Errorf("missing %v; want none", c.Missing)
	}
	d.Prices = d.Prices[:1]
	d.Prices[0].Thickness = 9.04 // the same sheet
	c = compute(t, d).Cost
	near(t, "cost of what has a price", c.Total, 1_440_000*50.0/3_125_000, 1e-12)
	if !slices.Equal(c.Missing, []string{"plain"}) {
		t.Errorf("missing %v; want plain, once", c.Missing)
	}
}
