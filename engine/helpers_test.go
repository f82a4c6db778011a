package engine

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"flatwright/engine/catalog"
)

// near fails unless got is within tol of want, in parts of want; of 1 where
// want is 0.
func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	scale := math.Abs(want)
	if scale == 0 {
		scale = 1
	}
	if !(math.Abs(got-want) <= tol*scale) {
		t.Errorf("%s = %.12g; want %.12g ± %g of it", what, got, want, tol)
	}
}

// plainSheet is a material of the design's own whose figures do not change
// with the thickness and all differ, so that a mix-up shows. Invented.
func plainSheet() catalog.Sheet {
	return catalog.Sheet{
		Key: "plain", Name: "Plain sheet", Kind: "plywood", Density: 680,
		EAlong: 9000, EAcross: 5000, EBendAlong: 9800, EBendAcross: 4400, GEdge: 620, GRolling: 170, Nu: 0.1,
		FBendAlong: 41, FBendAcross: 33, FTensAlong: 37, FTensAcross: 29, FCompAlong: 26, FCompAcross: 21,
		FEdgeShear: 9.5, FRolling: 2.3, FBearing: 6.5, CVE: 0.1, CVStrength: 0.15, CVDensity: 0.05,
		SwellAlong: 1e-4, SwellAcross: 1.2e-4,
	}
}

// plainTop is a top of plainSheet throughout on two rails near its ends, with
// a patch at the middle.
func plainTop() Design {
	return Design{
		Name: "Plain top", Length: 1600, Width: 700,
		TopSkin: Skin{Material: "plain", Thickness: 9}, BottomSkin: Skin{Material: "plain", Thickness: 6},
		CoreDepth:  80,
		Lengthwise: RibSet{Material: "plain", Thickness: 12, Count: 5},
		Crosswise:  RibSet{Material: "plain", Thickness: 9, Count: 8},
		Slots:      Slots{Clearance: 0.2, Relief: 0.5},
		Supports:   Supports{Kind: RailsAcross, EndInset: 100, Bearing: 60},
		Cases: []LoadCase{{Name: "Person", Duration: ShortTerm, Loads: []Load{
			{Name: "feet", Kind: Patch, Force: 800, X: 800, Y: 350, SizeX: 300, SizeY: 250}}}},
		Glue: "pva", Shop: Shop{Temperature: 20, People: 2, Start: "2026-05-02T09:00"},
		Own: []catalog.Sheet{plainSheet()},
	}
}

// compute returns the result of a design that nothing blocks.
func compute(t *testing.T, d Design) Result {
	t.Helper()
	r, err := Estimate(context.Background(), d)
	if err != nil {
		t.Fatalf("Compute: %v", err)
	}
	if r.Blocked() {
		t.Fatalf("Compute: blocked: %v", r.Problems)
	}
	return r
}

// modelOf returns the closed form of a design and its materials.
func modelOf(d Design, harmonics bool) (model, materials) {
	m := d.materials()
	return newModel(&d, &m, harmonics), m
}

// marginOf returns the margin with a code.
func marginOf(t *testing.T, margins []Margin, code string) Margin {
	t.Helper()
	for _, m := range margins {
		if m.Code == code {
			return m
		}
	}
	t.Fatalf("no margin %s among %d", code, len(margins))
	return Margin{}
}

func pick[T any](r *rand.Rand, list ...T) T { return list[r.IntN(len(list))] }

// randomDesign returns a valid design that uses whatever a design can have.
func randomDesign(r *rand.Rand) Design {
	for {
		d := anyDesign(r)
		if !(Result{Problems: problemsOf(d)}).Blocked() {
			return d
		}
	}
}

func anyDesign(r *rand.Rand) Design {
	within := func(lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }
	d := plainTop()
	d.Length, d.Width, d.CoreDepth = within(300, 3000), within(250, 1500), within(15, 200)
	material := func() string {
		if r.IntN(4) == 0 {
			return "plain"
		}
		return Catalogue().Sheets[r.IntN(len(Catalogue().Sheets))].Key
	}
	skin := func() Skin { return Skin{material(), within(2.5, 25), r.IntN(2) == 0} }
	set := func(extent float64) RibSet {
		s := RibSet{Material: material(), Thickness: within(3, 25), Count: 2 + r.IntN(9), Upright: r.IntN(3) == 0}
		if r.IntN(2) == 0 {
			s.Thickest = s.Thickness * within(1, 1.1)
		}
		switch r.IntN(3) {
		case 0:
			s.Inset = within(0, extent/5)
		case 1:
			s.Positions = make([]float64, s.Count)
			for i := range s.Positions {
				s.Positions[i] = extent * (float64(i) + within(0.2, 0.8)) / float64(s.Count)
			}
		}
		return s
	}
	d.TopSkin, d.BottomSkin = skin(), skin()
	d.Lengthwise, d.Crosswise = set(d.Width), set(d.Length)
	d.Slots = Slots{Clearance: within(0, 0.5), Relief: within(0, d.CoreDepth/4), LengthwiseDown: r.IntN(2) == 0}
	if r.IntN(2) == 0 {
		d.EdgeBand = EdgeBand{pick(r, "white-oak", "plain"), within(3, 30)}
	}
	d.Supports = Supports{Kind: pick(r, RailsAcross, RailsAlong, FourLegs, FourLegs, AllEdges, OnLedger, OwnFeet), EndInset: d.Length * within(0.01, 0.4), SideInset: d.Width * within(0.01, 0.4), Bearing: within(10, 60)}
	if r.IntN(2) == 0 {
		d.Supports.Apron = Apron{Material: pick(r, "white-oak", "plain"), Thickness: within(5, d.Supports.Bearing), Height: within(20, 150), Front: r.IntN(2) == 0, Back: r.IntN(2) == 0, Left: r.IntN(2) == 0, Right: r.IntN(2) == 0}
	}
	d.Supports.Ledger, d.Supports.Rail = pick(r, "", FrontEdge, BackEdge, LeftEdge, RightEdge), r.IntN(2) == 0
	if d.Supports.Kind == OwnFeet {
		for range 3 + r.IntN(4) {
			d.Supports.Feet = append(d.Supports.Feet, Foot{X: d.Length * r.Float64(), Y: d.Width * r.Float64(), Size: pick(r, 0, within(10, 50))})
		}
	}
	for i := range r.IntN(3) {
		d.Blocks = append(d.Blocks, Block{pick(r, "white-oak", "plain"), i, r.IntN(2)})
	}
	d.Shop.Damp, d.Shop.Temperature = r.IntN(4) == 0, within(15, 28)
	d.Glue = Catalogue().Glues[r.IntN(len(Catalogue().Glues))].Key
	d.Limits = Limits{Sag: within(0.05, 1)}
	d.Cases = nil
	for i := range 1 + r.IntN(3) {
		c := LoadCase{Name: fmt.Sprintf("case %d", i), Duration: pick(r, Permanent, LongTerm, MediumTerm, ShortTerm, Instantaneous)}
		for j := range r.IntN(4) {
			l := Load{Name: fmt.Sprintf("load %d.%d", i, j), Kind: Patch, Force: within(50, 2000), SizeX: within(20, 280), SizeY: within(20, 240)}
			l.X, l.Y = within(l.SizeX/2, d.Length-l.SizeX/2), within(l.SizeY/2, d.Width-l.SizeY/2)
			if r.IntN(5) == 0 {
				l = Load{Name: l.Name, Kind: Uniform, Force: l.Force}
			}
			switch n := len(d.Blocks); {
			case l.Kind == Patch && r.IntN(4) == 0:
				l.Kind, l.Across = Line, r.IntN(2) == 0
			case n > 0 && r.IntN(4) == 0:
				b := d.Blocks[r.IntN(n)]
				l = Load{Name: l.Name, Kind: Couple, Force: within(1, 300), Arm: within(20, 300), Pull: pick(r, PullRight, PullLeft, PullBack, PullFront), Column: b.Column, Row: b.Row}
			}
			c.Loads = append(c.Loads, l)
		}
		d.Cases = append(d.Cases, c)
	}
	if r.IntN(3) == 0 {
		d.Seams = []Seam{{Skin: pick(r, TopSeam, BottomSeam), At: d.Length * within(0.1, 0.9), Spliced: r.IntN(3) == 0},
			{Skin: pick(r, TopSeam, BottomSeam), Along: true, At: d.Width * within(0.1, 0.9)}}
	}
	if r.IntN(3) == 0 {
		d.Built = []Built{{Kind: SlotDeeper, Part: "C1", Value: d.SlotDepth() + 1}, {Kind: RibUnglued, Part: "L2", From: d.Length * 0.2, To: d.Length * within(0.3, 0.8)}}
	}
	if r.IntN(3) == 0 {
		for i := range d.Seams {
			d.Seams[i].Scarf = d.Seams[i].Spliced && r.IntN(2) == 0
		}
		d.Splices = []Splice{{Part: "L1", At: d.Length * within(0.2, 0.8), Plates: r.IntN(2) == 0}, {Part: "C2", At: d.Width * within(0.3, 0.7), Plates: r.IntN(2) == 0}, {Part: "band back", At: d.Length * within(0.3, 0.7)}}
		if d.EdgeBand.Thickness == 0 {
			d.Splices = d.Splices[:2]
		}
	}
	if r.IntN(3) == 0 {
		d.Holes = []Hole{{Kind: DogHole, Part: pick(r, TopSeam, BothSkins), X: d.Length * 0.2, Y: d.Width * 0.3, Diameter: within(3, 20), Count: 3, StepX: d.Length * 0.1, StepY: d.Width * within(0, 0.1)},
			{Kind: CableHole, Part: "C1", Y: d.Width * within(0.2, 0.8), Up: d.CoreDepth / 2, Diameter: within(2, d.CoreDepth/3)}}
		d.Grooves = []Groove{{Skin: pick(r, TopSeam, BottomSeam), Along: r.IntN(2) == 0, At: d.Width * within(0.3, 0.7), From: 60, Width: within(5, 30), Depth: within(0.5, 2.4)},
			{Skin: TopSeam, Along: r.IntN(2) == 0, At: d.Width * 0.25, Width: 20, Depth: 1.2, To: d.Width * 0.6}}
	}
	d.Slots.Glued = r.IntN(4) == 0
	if r.IntN(4) == 0 {
		d.Supports.Bed = within(0.05, 20)
	}
	if r.IntN(4) == 0 {
		d.Holes = []Hole{{Kind: pick(r, DogHole, BoltHole), Part: pick(r, TopSeam, BottomSeam, BothSkins), X: d.Length * r.Float64(), Y: d.Width * r.Float64(), Diameter: within(4, 30)}}
	}
	if r.IntN(4) == 0 {
		d.Grooves = []Groove{{Skin: pick(r, TopSeam, BottomSeam), Along: r.IntN(2) == 0, At: min(d.Length, d.Width) * r.Float64(), Width: within(3, 20), Depth: within(0.5, 5)}}
	}
	if d.Supports.Fastened = r.IntN(4) == 0; d.Supports.Fastened {
		d.Supports.Screws = pick(r, Screws{}, Screws{Number: 1 + r.IntN(6), Diameter: within(3, 8), Depth: within(5, 60)}, Screws{Number: 2, Diameter: within(5, 10), Washer: within(15, 30)})
	}
	return d
}

// eachNumber calls f with every number below v and its path.
func eachNumber(path string, v reflect.Value, f func(path string, v float64)) {
	switch v.Kind() {
	case reflect.Float64:
		f(path, v.Float())
	case reflect.Pointer:
		if !v.IsNil() {
			eachNumber(path, v.Elem(), f)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				eachNumber(path+"."+v.Type().Field(i).Name, v.Field(i), f)
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			eachNumber(fmt.Sprintf("%s[%d]", path, i), v.Index(i), f)
		}
	}
}

// eachText calls f with every string below v and its path.
func eachText(path string, v reflect.Value, f func(path, text string)) {
	switch v.Kind() {
	case reflect.String:
		f(path, v.String())
	case reflect.Pointer:
		if !v.IsNil() {
			eachText(path, v.Elem(), f)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				eachText(path+"."+v.Type().Field(i).Name, v.Field(i), f)
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			eachText(fmt.Sprintf("%s[%d]", path, i), v.Index(i), f)
		}
	}
}
