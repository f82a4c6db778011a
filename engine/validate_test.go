package engine

import (
	"math"
	"math/rand/v2"
	"reflect"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"flatwright/engine/catalog"
)

// testTop is a plain design without problems: an assembly table on four legs
// with half a person's weight at its middle. The figures are invented.
func testTop() Design {
	return Design{
		Name:       "Test top",
		Use:        AssemblyTable,
		Length:     1800,
		Width:      750,
		Height:     880,
		TopSkin:    Skin{Material: "birch-plywood", Thickness: 9},
		BottomSkin: Skin{Material: "birch-plywood", Thickness: 9},
		CoreDepth:  76,
		Lengthwise: RibSet{Material: "birch-plywood", Thickness: 12, Thickest: 12.2, Count: 5},
		Crosswise:  RibSet{Material: "birch-plywood", Thickness: 12, Thickest: 12.2, Count: 11},
		Slots:      Slots{Clearance: 0.2, Relief: 1},
		Supports:   Supports{Kind: FourLegs, EndInset: 150, SideInset: 100, Bearing: 60},
		Cases: []LoadCase{{
			Name:     "Leaning on the middle",
			Duration: ShortTerm,
			Loads:    []Load{{Name: "Person", Kind: Patch, Force: 490.33, X: 900, Y: 375, SizeX: 300, SizeY: 300}},
		}},
		Limits: Limits{Sag: 0.25, Mass: 50},
		Glue:   "pva-d3",
		Shop:   Shop{Temperature: 20, People: 2, Start: "2026-05-02T09:00"},
	}
}

// problemsOf validates a design as Compute does.
func problemsOf(d Design) []Problem { return Validate(d, d.Material, Catalogue().Glue) }

// told returns problems as "Severity code field" lines.
func told(problems []Problem) []string {
	names := map[Severity]string{Blocking: "blocking", Shortfall: "shortfall", Advice: "advice"}
	var lines []string
	for _, p := range problems {
		lines = append(lines, strings.TrimSpace(names[p.Severity]+" "+p.Code+" "+p.Field))
	}
	return lines
}

func TestValidateTakes(t *testing.T) {
	t.Parallel()
	listed := func(d *Design) {
		d.Lengthwise.Positions = []float64{6, 200, 375, 550, 744}
		d.Lengthwise.Count, d.Lengthwise.Inset = 0, -5 // both overridden
	}
	tests := []struct {
		name   string
		change func(*Design)
	}{
		{"test top", func(*Design) {}},
		{"listed positions", listed},
		{"edge band", func(d *Design) { d.EdgeBand = EdgeBand{"white-oak", 20} }},
		{"no edge band, whatever its material", func(d *Design) { d.EdgeBand.Material = "granite" }},
		{"blocks in the corner bays", func(d *Design) {
			d.Blocks = []Block{{"birch-plywood", 0, 0}, {"white-oak", 9, 3}}
		}},
		{"rails across", func(d *Design) { d.Supports = Supports{Kind: RailsAcross, EndInset: 30, SideInset: -9, Bearing: 60} }},
		{"rails along", func(d *Design) { d.Supports = Supports{Kind: RailsAlong, SideInset: 30, EndInset: 5000, Bearing: 60} }},
		{"all edges", func(d *Design) { d.Supports = Supports{Kind: AllEdges, Bearing: 40} }},
		{"uniform load without a place", func(d *Design) { d.Cases[0].Loads[0] = Load{Kind: Uniform, Force: 500, X: -7, SizeX: -1} }},
		{"line across the width", func(d *Design) {
			d.Cases[0].Loads[0] = Load{Kind: Line, Across: true, Force: 9, X: 10, Y: 375, SizeX: 20, SizeY: 750}
		}},
		{"couple at a block", func(d *Design) {
			d.Blocks = []Block{{"white-oak", 0, 1}}
			d.Cases[0].Loads[0] = Load{Kind: Couple, Force: 300, Pull: PullBack, Arm: 4000, Row: 1, X: -7, SizeX: -1}
		}},
		{"load up to the corner", func(d *Design) { d.Cases[0].Loads[0].X, d.Cases[0].Loads[0].Y = 150, 600 }},
		{"load over the whole top", func(d *Design) { d.Cases[0].Loads[0].SizeX, d.Cases[0].Loads[0].SizeY = 1800, 750 }},
		{"own weight only", func(d *Design) { d.Cases[0].Loads = nil }},
		{"no limits", func(d *Design) { d.Limits = Limits{} }},
		{"price", func(d *Design) { d.Prices = []Price{{"birch-plywood", 9, 0, 2440, 1220}} }},
		{"spliced seams in both skins", func(d *Design) {
			d.Seams = []Seam{{Skin: TopSeam, At: 900, Spliced: true}, {Skin: BottomSeam, At: 900, Spliced: true}, {Skin: TopSeam, Along: true, At: 700, Spliced: true, Scarf: true}}
		}},
		{"largest panel", func(d *Design) { d.Length, d.Width = maxSize, maxSize }},
		{"thickest twice the mean", func(d *Design) { d.Crosswise.Thickest = 24 }},
		// Ribs 12 mm thick, slots 12.2 + 0.2 = 12.4 mm, 8 mm between: 20.4 mm
		// from middle to middle, and 12 + 19 × 20.4 = 399.6 mm for twenty.
		{"as close as ribs may stand", func(d *Design) { d.Lengthwise.Count, d.Lengthwise.Inset = 20, (750-399.6)/2 }},
		{"as deep as slots may be", func(d *Design) { d.Slots.Relief = 35 }}, // 38 − 35 = 3 mm left
		{"sheet within its tolerance", func(d *Design) { d.TopSkin.Thickness = 8.6 }},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			d := testTop()
			test.change(&d)
			if problems := problemsOf(d); len(problems) > 0 {
				t.Errorf("Validate = %+v; want nothing", problems)
			}
		})
	}
}

// ownMaterial returns a copy of a catalogue material under another key.
func ownMaterial(key string) catalog.Sheet {
	s, _ := Catalogue().Sheet("birch-plywood")
	s.Key, s.Name = key, "Shed plywood"
	return s
}

func TestValidate(t *testing.T) {
	t.Parallel()
	nan, inf := math.NaN(), math.Inf(1)
	load := func(d *Design) *Load { return &d.Cases[0].Loads[0] }
	couple := Load{Kind: Couple, Force: 300, Pull: PullFront, Arm: 150, Row: 1}
	tests := []struct {
		name   string
		change func(*Design)
		told   string // severity, code and field of each problem, joined by commas
		text   string // part of the first text, if it has figures worked out by hand
	}{
		{"length zero", func(d *Design) { d.Length = 0 }, "blocking panel-length length", "0 mm, but must be more than 0"},
		{"length negative", func(d *Design) { d.Length = -1800 }, "blocking panel-length length", "-1800 mm"},
		{"length of a hand", func(d *Design) { d.Length = 99.9 }, "blocking panel-length length", "99.9 mm, under the 100 mm"},
		{"length over 10 m", func(d *Design) { d.Length = 10000.5 }, "blocking panel-length length", "10000.5 mm, over the 10000 mm"},
		{"length huge", func(d *Design) { d.Length = 1e300 }, "blocking panel-length length", "1e+300 mm"},
		{"length NaN", func(d *Design) { d.Length = nan; d.Width = -1 }, "blocking not-finite length", ""},
		{"length infinite", func(d *Design) { d.Length = inf }, "blocking not-finite length", ""},
		{"width zero", func(d *Design) { d.Width = 0 }, "blocking panel-width width", ""},
		{"width over 10 m", func(d *Design) { d.Width = 1e5 }, "blocking panel-width width", ""},
		{"height negative", func(d *Design) { d.Height = -1 }, "blocking panel-height height", ""},
		{"height of a roof", func(d *Design) { d.Height = 8800 }, "blocking panel-height height", "8800 mm above the floor"},

		{"top skin zero", func(d *Design) { d.TopSkin.Thickness = 0 }, "blocking skin-thickness topSkin.thickness", ""},
		{"top skin negative", func(d *Design) { d.TopSkin.Thickness = -9 }, "blocking skin-thickness topSkin.thickness", ""},
		{"bottom skin paper", func(d *Design) { d.BottomSkin.Thickness = 0.2 }, "blocking skin-thickness bottomSkin.thickness", "0.2 mm, under the 1 mm"},
		{"bottom skin beam", func(d *Design) { d.BottomSkin.Thickness = 90 }, "blocking skin-thickness bottomSkin.thickness", ""},
		{"skin of a size not sold", func(d *Design) { d.TopSkin.Thickness = 10.6 }, "advice thickness-not-sold topSkin.thickness", "9.2 mm"},
		{"skin unknown", func(d *Design) { d.TopSkin.Material = "granite" }, "blocking material-unknown topSkin.material", "“granite”"},
		{"skin not picked", func(d *Design) { d.BottomSkin.Material = "" }, "blocking material-missing bottomSkin.material", ""},
		{"skin of solid wood", func(d *Design) { d.TopSkin.Material = "white-oak" }, "blocking material-solid topSkin.material", "the top skin needs sheet goods"},
		{"core zero", func(d *Design) { d.CoreDepth = 0 }, "blocking core-depth coreDepth", ""},
		{"core thin", func(d *Design) { d.CoreDepth = 9 }, "blocking core-depth coreDepth", "9 mm, under the 10 mm"},
		{"core of a metre", func(d *Design) { d.CoreDepth = 1000 }, "blocking core-depth coreDepth", ""},

		{"ribs unknown", func(d *Design) { d.Lengthwise.Material = "x" }, "blocking material-unknown lengthwise.material", ""},
		{"ribs of solid wood", func(d *Design) { d.Crosswise.Material = "white-oak" }, "blocking material-solid crosswise.material", ""},
		{"ribs without thickness", func(d *Design) { d.Lengthwise.Thickness = 0 }, "blocking rib-thickness lengthwise.thickness", ""},
		{"ribs very thick", func(d *Design) { d.Crosswise.Thickness = 101 }, "blocking rib-thickness crosswise.thickness", ""},
		{"ribs of a size not sold", func(d *Design) { d.Lengthwise.Thickness, d.Lengthwise.Thickest = 13.4, 0 }, "advice thickness-not-sold lengthwise.thickness", ""},
		{"one rib", func(d *Design) { d.Lengthwise.Count = 1 }, "blocking rib-count lengthwise.count", "from 2 to 60"},
		{"no ribs", func(d *Design) { d.Crosswise.Count = 0 }, "blocking rib-count crosswise.count", ""},
		{"minus three ribs", func(d *Design) { d.Crosswise.Count = -3 }, "blocking rib-count crosswise.count", ""},
		{"a million ribs", func(d *Design) { d.Crosswise.Count = 1000000 }, "blocking rib-count crosswise.count", ""},
		{"one listed rib", func(d *Design) { d.Crosswise.Positions = []float64{900} }, "blocking rib-count crosswise.positions", ""},
		{"61 listed ribs", func(d *Design) { d.Crosswise.Positions = make([]float64, 61) }, "blocking rib-count crosswise.positions", ""},
		{"thickest reading under the mean", func(d *Design) { d.Lengthwise.Thickest = 11.9 }, "blocking rib-thickest lengthwise.thickest", "11.9 mm, is under the mean thickness of 12 mm"},
		{"thickest reading negative", func(d *Design) { d.Lengthwise.Thickest = -12 }, "blocking rib-thickest lengthwise.thickest", ""},
		{"thickest reading of another sheet", func(d *Design) { d.Lengthwise.Thickest = 25 }, "blocking rib-thickest lengthwise.thickest", ""},
		{"inset negative", func(d *Design) { d.Lengthwise.Inset = -20 }, "blocking rib-inset lengthwise.inset", "stand 20 mm outside"},
		// 12 + 20.4 mm for two ribs; (750 − 32.4)/2 = 358.8.
		{"inset leaves no room", func(d *Design) { d.Lengthwise.Inset = 370 }, "blocking rib-inset lengthwise.inset", "An inset up to 358 mm"},
		{"inset huge", func(d *Design) { d.Crosswise.Inset = 1e300 }, "blocking rib-inset crosswise.inset", ""},
		// 750 − 12 = 738 mm over 59 pitches: 12.51 mm; 738/20.4 = 36.2, so 37 fit.
		{"slots meet", func(d *Design) { d.Lengthwise.Count = 60 }, "blocking slots-meet lengthwise.count", "stand 12.51 mm apart, and their slots, 12.4 mm wide, leave under 8 mm of wood between them. At most 37 fit"},
		// 750 − 2·50 − 18 = 632 mm over 39: 16.21 mm; slots 18.2 + 8 = 26.2: 632/26.2 = 24.1, so 25.
		{"ribs collide", func(d *Design) {
			d.Lengthwise.Thickness, d.Lengthwise.Thickest, d.Lengthwise.Count, d.Lengthwise.Inset = 18, 0, 40, 50
		}, "blocking ribs-collide lengthwise.count", "18 mm thick, stand 16.21 mm apart from middle to middle and run into each other. At most 25 fit"},
		{"two ribs do not fit", func(d *Design) {
			d.Width, d.Lengthwise.Thickness, d.Lengthwise.Thickest, d.Lengthwise.Count, d.Supports, d.Cases = 100, 51, 0, 2, Supports{Kind: RailsAcross, EndInset: 100, Bearing: 50}, []LoadCase{{Duration: ShortTerm}}
		}, "advice thickness-not-sold lengthwise.thickness, blocking ribs-collide lengthwise.thickness", ""},
		{"ribs out of order", func(d *Design) { d.Lengthwise.Positions = []float64{100, 300, 200, 400} }, "blocking rib-order lengthwise.positions[2]", "Rib 3 stands at 200 mm, which is not beyond rib 2 at 300 mm"},
		{"the same rib twice", func(d *Design) { d.Crosswise.Positions = []float64{100, 900, 900} }, "blocking rib-order crosswise.positions[2]", ""},
		{"listed rib off the start", func(d *Design) { d.Crosswise.Positions = []float64{5.9, 900} }, "blocking rib-off-panel crosswise.positions[0]", "between 6 mm and 1794 mm"},
		{"listed rib off the end", func(d *Design) { d.Lengthwise.Positions = []float64{100, 760} }, "blocking rib-off-panel lengthwise.positions[1]", ""},
		{"listed rib in the edge band", func(d *Design) {
			d.EdgeBand, d.Lengthwise.Positions = EdgeBand{"white-oak", 20}, []float64{10, 375, 724}
		}, "blocking rib-off-panel lengthwise.positions[0]", "between 26 mm and 724 mm"},
		{"listed ribs collide", func(d *Design) { d.Crosswise.Positions = []float64{100, 111, 900} }, "blocking ribs-collide crosswise.positions[1]", "stand 11 mm apart"},
		{"listed ribs' slots meet", func(d *Design) { d.Crosswise.Positions = []float64{100, 900, 918} }, "blocking slots-meet crosswise.positions[2]", "20.4 mm is enough"},

		{"slots too narrow", func(d *Design) { d.Slots.Clearance = -0.1 }, "blocking slot-clearance slots.clearance", "0.1 mm narrower"},
		{"slots far too wide", func(d *Design) { d.Slots.Clearance = 40 }, "blocking slot-clearance slots.clearance", ""},
		{"slots loose", func(d *Design) { d.Slots.Clearance = 1.5 }, "advice slot-loose slots.clearance", ""},
		{"slots too shallow", func(d *Design) { d.Slots.Relief = -1 }, "blocking slot-relief slots.relief", ""},
		{"slots cut through", func(d *Design) { d.Slots.Relief = 40 }, "blocking slot-depth slots.relief", "78 mm deep in ribs 76 mm high and leave 0 mm"},
		{"slots nearly cut through", func(d *Design) { d.Slots.Relief = 36 }, "blocking slot-depth slots.relief", "leave 2 mm of wood; 3 mm must stay"},

		{"band negative", func(d *Design) { d.EdgeBand = EdgeBand{"white-oak", -1} }, "blocking band-thickness edgeBand.thickness", ""},
		{"band over a quarter", func(d *Design) { d.EdgeBand = EdgeBand{"white-oak", 188} }, "blocking band-thickness edgeBand.thickness", "(187.5 mm)"},
		{"band unknown", func(d *Design) { d.EdgeBand = EdgeBand{"brass", 20} }, "blocking material-unknown edgeBand.material", ""},
		{"band without material", func(d *Design) { d.EdgeBand.Thickness = 20 }, "blocking material-missing edgeBand.material", ""},
		{"block beyond the ribs", func(d *Design) { d.Blocks = []Block{{"white-oak", 9, 3}, {"white-oak", 10, 0}} }, "blocking block-off-grid blocks[1].column", "column 11, but the ribs make column 1 to 10"},
		{"block below the ribs", func(d *Design) { d.Blocks = []Block{{"white-oak", 0, -1}} }, "blocking block-off-grid blocks[0].row", ""},
		{"block off both ways", func(d *Design) { d.Blocks = []Block{{"white-oak", 99, 4}} }, "blocking block-off-grid blocks[0].column, blocking block-off-grid blocks[0].row", ""},
		{"block twice", func(d *Design) { d.Blocks = []Block{{"white-oak", 2, 1}, {"white-oak", 1, 2}, {"mdf", 2, 1}} }, "blocking block-twice blocks[2]", "Blocks 1 and 3 fill the same bay, column 3, row 2"},
		{"more blocks than bays there can be", func(d *Design) { d.Blocks = make([]Block, 3482) }, "blocking too-many-blocks blocks", ""},
		{"block unknown", func(d *Design) { d.Blocks = []Block{{"cheese", 0, 0}} }, "blocking material-unknown blocks[0].material", ""},

		{"supports unknown", func(d *Design) { d.Supports.Kind = "ropes" }, "blocking support-kind supports.kind", "“ropes”"},
		{"bearing zero", func(d *Design) { d.Supports.Bearing = 0 }, "blocking support-bearing supports.bearing", ""},
		{"ledges meet", func(d *Design) { d.Supports = Supports{Kind: AllEdges, Bearing: 375} }, "blocking support-bearing supports.bearing", ""},
		{"legs off the end", func(d *Design) { d.Supports.EndInset = -10 }, "blocking support-off-panel supports.endInset", "10 mm outside the end"},
		{"legs off the side", func(d *Design) { d.Supports.SideInset = -0.5 }, "blocking support-off-panel supports.sideInset", ""},
		{"legs past the middle", func(d *Design) { d.Supports.EndInset = 900 }, "blocking support-crossed supports.endInset", "Less than 870 mm"},
		{"rails past the middle", func(d *Design) { d.Supports.Kind, d.Supports.SideInset = RailsAlong, 400 }, "blocking support-crossed supports.sideInset", ""},
		{"legs run into each other", func(d *Design) { d.Supports.SideInset = 345 }, "blocking supports-overlap supports.sideInset", "60 mm wide, 60 mm apart"},
		{"legs stick out", func(d *Design) { d.Supports.EndInset = 20 }, "advice support-sticks-out supports.endInset", "reaches 10 mm beyond"},

		{"no load case", func(d *Design) { d.Cases = nil }, "advice no-load-case cases", ""},
		{"41 load cases", func(d *Design) { d.Cases = make([]LoadCase, 41) }, "blocking too-many-cases cases", ""},
		{"41 loads", func(d *Design) { d.Cases[0].Loads = make([]Load, 41) }, "blocking too-many-loads cases[0].loads", ""},
		{"two cases of one name", func(d *Design) { d.Cases = append(d.Cases, d.Cases[0]) }, "advice case-name-twice cases[1].name", "Load cases 1 and 2"},
		{"duration unknown", func(d *Design) { d.Cases[0].Duration = "a while" }, "blocking case-duration cases[0].duration", "“a while”"},
		{"duration missing", func(d *Design) { d.Cases[0].Duration = "" }, "blocking case-duration cases[0].duration", ""},
		{"kind of load unknown", func(d *Design) { load(d).Kind = "heap" }, "blocking load-kind cases[0].loads[0].kind", ""},
		{"force zero", func(d *Design) { load(d).Force = 0 }, "blocking load-force cases[0].loads[0].force", ""},
		{"force upwards", func(d *Design) { load(d).Force = -100 }, "blocking load-force cases[0].loads[0].force", "-100 N"},
		{"force of a ship", func(d *Design) { load(d).Force = 1e9 }, "blocking load-force cases[0].loads[0].force", ""},
		{"force NaN", func(d *Design) { load(d).Force = nan }, "blocking not-finite cases[0].loads[0].force", ""},
		{"place NaN of a uniform load", func(d *Design) { *load(d) = Load{Kind: Uniform, Force: 1, Y: nan} }, "blocking not-finite cases[0].loads[0].y", ""},
		{"load on a point", func(d *Design) { load(d).SizeX = 0 }, "blocking load-size cases[0].loads[0].sizeX", ""},
		{"load of negative size", func(d *Design) { load(d).SizeY = -10 }, "blocking load-size cases[0].loads[0].sizeY", ""},
		{"load longer than the panel", func(d *Design) { load(d).SizeX = 1900 }, "blocking load-size cases[0].loads[0].sizeX", ""},
		{"load off the end", func(d *Design) { load(d).X = 1700 }, "blocking load-off-panel cases[0].loads[0].x", "from 1550 mm to 1850 mm along the length, but the panel ends at 0 and 1800 mm. Put its middle between 150 mm and 1650 mm"},
		{"load off the side", func(d *Design) { load(d).Y = 100 }, "blocking load-off-panel cases[0].loads[0].y", ""},
		{"load in the next room", func(d *Design) { load(d).X, load(d).Y = 5000, -5000 }, "blocking load-off-panel cases[0].loads[0].x, blocking load-off-panel cases[0].loads[0].y", ""},
		{"line without a length", func(d *Design) { *load(d) = Load{Kind: Line, Force: 9, X: 900, Y: 375, SizeY: 20} }, "blocking load-size cases[0].loads[0].sizeX", ""},
		{"line without a width", func(d *Design) { *load(d) = Load{Kind: Line, Force: 9, X: 900, Y: 375, SizeX: 500} }, "blocking load-size cases[0].loads[0].sizeY", ""},
		{"line off the end", func(d *Design) { *load(d) = Load{Kind: Line, Force: 9, X: 100, Y: 375, SizeX: 500, SizeY: 20} }, "blocking load-off-panel cases[0].loads[0].x",
			"from -150 mm to 350 mm along the length"},
		{"line turned without its sizes", func(d *Design) {
			*load(d) = Load{Kind: Line, Across: true, Force: 9, X: 900, Y: 375, SizeX: 500, SizeY: 20}
		},
			"advice line-turned cases[0].loads[0].sizeY", "only 20 mm long and 500 mm wide"},
		{"couple on a hollow bay", func(d *Design) { *load(d), d.Blocks = couple, []Block{{"white-oak", 0, 1}}; d.Blocks[0].Column = 3 }, "blocking couple-no-block cases[0].loads[0].column", "bay 1 from the left and 2 from the front, which is hollow"},
		{"couple without any block", func(d *Design) { *load(d), d.Blocks = couple, []Block{{"white-oak", 0, 1}}; d.Blocks = nil }, "blocking couple-no-block cases[0].loads[0].column", "A couple needs a block"},
		{"couple beside the ribs", func(d *Design) { *load(d), d.Blocks = couple, []Block{{"white-oak", 0, 1}}; load(d).Column = 10 }, "blocking couple-off-grid cases[0].loads[0].column", "bay 11 from the left and 2 from the front, but the ribs make 10 by 4 bays"},
		{"couple far beside the ribs", func(d *Design) { *load(d), d.Blocks = couple, []Block{{"white-oak", 0, 1}}; load(d).Row = math.MaxInt }, "blocking couple-off-grid cases[0].loads[0].column", ""},
		{"couple in bay nought", func(d *Design) { *load(d), d.Blocks = couple, []Block{{"white-oak", 0, 1}}; load(d).Column = -1 }, "blocking couple-off-grid cases[0].loads[0].column", ""},
		{"couple without an arm", func(d *Design) { *load(d), d.Blocks = couple, []Block{{"white-oak", 0, 1}}; load(d).Arm = 0 }, "blocking couple-arm cases[0].loads[0].arm", "pulls 0 mm above"},
		{"couple with an arm downwards", func(d *Design) { *load(d), d.Blocks = couple, []Block{{"white-oak", 0, 1}}; load(d).Arm = -80 }, "blocking couple-arm cases[0].loads[0].arm", "-80 mm"},
		{"couple with a mast for an arm", func(d *Design) { *load(d), d.Blocks = couple, []Block{{"white-oak", 0, 1}}; load(d).Arm = 4001 }, "blocking couple-arm cases[0].loads[0].arm", "over the 4000 mm"},
		{"couple with an arm NaN", func(d *Design) { *load(d), d.Blocks = couple, []Block{{"white-oak", 0, 1}}; load(d).Arm = nan }, "blocking not-finite cases[0].loads[0].arm", ""},
		{"couple that pulls nowhere", func(d *Design) { *load(d), d.Blocks = couple, []Block{{"white-oak", 0, 1}}; load(d).Pull = "up" }, "blocking couple-pull cases[0].loads[0].pull", "“up” is none of the four"},
		{"couple without a force", func(d *Design) { *load(d), d.Blocks = couple, []Block{{"white-oak", 0, 1}}; load(d).Force = 0 }, "blocking load-force cases[0].loads[0].force", "pulls with 0 N"},
		{"second load of second case", func(d *Design) {
			d.Cases = append(d.Cases, LoadCase{Name: "two", Duration: LongTerm, Loads: []Load{*load(d), {Kind: Uniform}}})
		}, "blocking load-force cases[1].loads[1].force", "“load 2”"},

		{"sag limit negative", func(d *Design) { d.Limits.Sag = -0.1 }, "blocking limit-negative limits.sag", "-0.1 mm"},
		{"mass limit negative", func(d *Design) { d.Limits.Mass = -1 }, "blocking limit-negative limits.mass", ""},
		{"cost limit negative", func(d *Design) { d.Limits.Cost = -1 }, "blocking limit-negative limits.cost", ""},
		{"glue not picked", func(d *Design) { d.Glue = "" }, "blocking glue-missing glue", ""},
		{"glue unknown", func(d *Design) { d.Glue = "honey" }, "blocking glue-unknown glue", "“honey”"},
		{"shop too cold for the glue", func(d *Design) { d.Shop.Temperature = 4 }, "shortfall glue-too-cold shop.temperature", "At 4 °C"},
		{"shop too warm for the glue", func(d *Design) { d.Shop.Temperature = 45 }, "shortfall glue-too-warm shop.temperature", ""},
		{"shop in Fahrenheit", func(d *Design) { d.Shop.Temperature = 68 }, "blocking shop-temperature shop.temperature", "68 °C"},
		{"nobody", func(d *Design) { d.Shop.People = 0 }, "blocking shop-people shop.people", ""},
		{"a crowd", func(d *Design) { d.Shop.People = 21 }, "blocking shop-people shop.people", ""},
		{"no start", func(d *Design) { d.Shop.Start = "" }, "blocking shop-start shop.start", ""},
		{"start at 25 o'clock", func(d *Design) { d.Shop.Start = "2026-05-02T25:00" }, "blocking shop-start shop.start", ""},
		{"start on 30 February", func(d *Design) { d.Shop.Start = "2026-02-30T09:00" }, "blocking shop-start shop.start", ""},
		{"start in words", func(d *Design) { d.Shop.Start = "Saturday" }, "blocking shop-start shop.start", ""},

		{"price negative", func(d *Design) { d.Prices = []Price{{"mdf", 9, -5, 2440, 1220}} }, "blocking price-negative prices[0].sheet", ""},
		{"price without an end", func(d *Design) { d.Prices = []Price{{"mdf", 9, 1e200, 2440, 1220}} }, "blocking price-huge prices[0].sheet", ""},
		{"sheet without a size", func(d *Design) { d.Prices = []Price{{"mdf", 9, 5, 0, 1220}} }, "blocking price-sheet-size prices[0].length", ""},
		{"sheet of no width", func(d *Design) { d.Prices = []Price{{"mdf", 9, 5, 2440, -1}} }, "blocking price-sheet-size prices[0].width", ""},
		{"price for no thickness", func(d *Design) { d.Prices = []Price{{"mdf", 0, 5, 2440, 1220}} }, "blocking price-thickness prices[0].thickness", ""},
		{"1001 prices", func(d *Design) { d.Prices = make([]Price, 1001) }, "blocking too-many-prices prices", ""},
		{"price twice", func(d *Design) { d.Prices = []Price{{"mdf", 9, 5, 2440, 1220}, {"mdf", 9, 6, 2440, 1220}} }, "advice price-twice prices[1]", ""},

		{"hole for nothing", func(d *Design) { d.Holes = []Hole{{Part: TopSeam, X: 100, Y: 100, Diameter: 20}} }, "blocking hole-kind holes[0].kind", ""},
		{"hole of no width", func(d *Design) { d.Holes = []Hole{{Kind: DogHole, Part: TopSeam, X: 100, Y: 100}} }, "blocking hole-diameter holes[0].diameter", ""},
		{"hole through nothing", func(d *Design) { d.Holes = []Hole{{Kind: DogHole, Part: "lid", X: 100, Y: 100, Diameter: 20}} }, "blocking hole-part holes[0].part", "“lid”"},
		{"hole through rib 6 of 5", func(d *Design) { d.Holes = []Hole{{Kind: CableHole, Part: "L6", X: 100, Up: 30, Diameter: 20}} }, "blocking hole-part holes[0].part", "L6"},
		{"hole beside the panel", func(d *Design) { d.Holes = []Hole{{Kind: DogHole, Part: TopSeam, X: -5, Y: 100, Diameter: 20}} }, "blocking hole-off-panel holes[0].x", ""},
		{"row that leaves the panel", func(d *Design) {
			d.Holes = []Hole{{Kind: DogHole, Part: TopSeam, X: 100, Y: 100, Diameter: 20, Count: 20, StepX: 100}}
		}, "blocking hole-off-panel holes[0].x", ""},
		{"row without a step", func(d *Design) {
			d.Holes = []Hole{{Kind: DogHole, Part: TopSeam, X: 113, Y: 100, Diameter: 20, Count: 4}}
		}, "blocking holes-meet holes[0].stepX", ""},
		{"less than no holes", func(d *Design) {
			d.Holes = []Hole{{Kind: DogHole, Part: TopSeam, X: 113, Y: 100, Diameter: 20, Count: -1}}
		}, "blocking hole-count holes[0].count", ""},
		{"holes far from ribs below nothing", func(d *Design) { d.KeepOff = -1 }, "blocking keep-off keepOff", ""},
		{"1001 rows of holes", func(d *Design) { d.Holes = make([]Hole, 1001) }, "blocking too-many-holes holes", ""},
		// Lengthwise ribs 12 mm thick stand 184.5 mm apart from 6 mm on, so one at 190.5 ± 6.
		{"1002 holes", func(d *Design) {
			row := Hole{Kind: DogHole, Part: TopSeam, X: 113, Y: 100, Diameter: 1, Count: 334, StepX: 4}
			d.Holes = []Hole{row, row, row}
		}, "blocking too-many-holes holes", "1002 holes"},
		{"hole in a rib", func(d *Design) {
			d.Holes = []Hole{{Kind: DogHole, Part: TopSeam, X: 113, Y: 190.5, Diameter: 20}}
		}, "shortfall hole-in-rib holes[0].x", "16 mm into rib L2"},
		{"hole beside a rib", func(d *Design) {
			d.Holes = []Hole{{Kind: DogHole, Part: TopSeam, X: 113, Y: 209.5, Diameter: 20}}
		}, "advice hole-beside-rib holes[0].x", "3 mm from rib L2"},
		{"hole above a rib", func(d *Design) { d.Holes = []Hole{{Kind: CableHole, Part: "L2", X: 113, Up: 70, Diameter: 20}} }, "blocking hole-off-rib holes[0].up", ""},
		{"hole beyond a rib", func(d *Design) {
			d.Holes = []Hole{{Kind: CableHole, Part: "L2", X: 1795, Up: 38, Diameter: 20}}
		}, "blocking hole-off-rib holes[0].x", ""},
		{"hole in a slot", func(d *Design) { d.Holes = []Hole{{Kind: CableHole, Part: "L2", X: 185, Up: 38, Diameter: 20}} }, "blocking hole-in-slot holes[0].x", ""},
		{"hole half as high as a rib", func(d *Design) { d.Holes = []Hole{{Kind: CableHole, Part: "L2", X: 95, Up: 38, Diameter: 38}} }, "shortfall hole-deep-in-rib holes[0].diameter", "38 mm of the 76 mm"},
		{"groove in no skin", func(d *Design) { d.Grooves = []Groove{{Skin: "lid", At: 100, Width: 20, Depth: 4}} }, "blocking groove-skin grooves[0].skin", ""},
		{"groove of no width", func(d *Design) { d.Grooves = []Groove{{Skin: TopSeam, At: 100, Depth: 4}} }, "blocking groove-width grooves[0].width", ""},
		{"groove of no depth", func(d *Design) { d.Grooves = []Groove{{Skin: TopSeam, At: 100, Width: 4}} }, "blocking groove-depth grooves[0].depth", ""},
		{"groove through the skin", func(d *Design) {
			d.Grooves = []Groove{{Skin: TopSeam, At: 100, Width: 20, Depth: 8.5}}
		}, "blocking groove-through grooves[0].depth", "0.5 mm of the top skin"},
		{"groove beside the panel", func(d *Design) { d.Grooves = []Groove{{Skin: TopSeam, At: 1799, Width: 20, Depth: 4}} }, "blocking groove-off-panel grooves[0].at", ""},
		{"groove on a rib", func(d *Design) {
			d.Grooves = []Groove{{Skin: TopSeam, Along: true, At: 190.5, Width: 20, Depth: 4}}
		}, "advice groove-beside-rib grooves[0].at", "rib L2, 0 mm"},
		{"41 grooves", func(d *Design) { d.Grooves = make([]Groove, 41) }, "blocking too-many-grooves grooves", ""},
		{"splice in no rib", func(d *Design) { d.Splices = []Splice{{Part: "L9", At: 800}} }, "blocking splice-part splices[0].part", "“L9”"},
		{"splice in a band that is not there", func(d *Design) { d.Splices = []Splice{{Part: "band back", At: 800}} }, "blocking splice-part splices[0].part", ""},
		{"splice beyond the rib", func(d *Design) { d.Splices = []Splice{{Part: "L2", At: 1750}} }, "blocking splice-off-part splices[0].at", ""},
		{"two splices at one place", func(d *Design) { d.Splices = []Splice{{Part: "L2", At: 250}, {Part: "L2", At: 300}} }, "blocking splices-meet splices[1].at", ""},
		{"1001 splices", func(d *Design) { d.Splices = make([]Splice, 1001) }, "blocking too-many-splices splices", ""},
		// Crosswise ribs stand 178.8 mm apart from 6 mm on: one at 363.6.
		{"splice at a slot", func(d *Design) { d.Splices = []Splice{{Part: "L2", At: 363}} }, "shortfall splice-at-slot splices[0].at", "rib C3"},
		{"plates on a crossing rib", func(d *Design) { d.Splices = []Splice{{Part: "L2", At: 363, Plates: true}} }, "blocking splice-no-room splices[0].at", "leaves 0 mm"},
		{"splice at midspan", func(d *Design) { d.Splices = []Splice{{Part: "L2", At: 810}} }, "advice splice-midspan splices[0].at", ""},
		{"splices beside each other", func(d *Design) { d.Splices = []Splice{{Part: "L2", At: 274}, {Part: "L3", At: 274}} }, "advice splices-beside splices[1].at", "ribs L2 and L3"},
		{"plates on a band", func(d *Design) {
			d.EdgeBand = EdgeBand{"white-oak", 20}
			d.Splices = []Splice{{Part: "band back", At: 800, Plates: true}}
		}, "advice splice-band splices[0].plates", ""},
		{"plate without room", func(d *Design) {
			d.Seams = []Seam{{Skin: TopSeam, At: 274, Spliced: true}}
		}, "advice splice-plate-narrow seams[0].at", "a scarf 72 mm long"},
		{"stock without a thickness", func(d *Design) { d.Stock = []Stock{{Material: "mdf", Length: 900, Width: 300}} }, "blocking stock-thickness stock[0].thickness", ""},
		{"stock without a size", func(d *Design) { d.Stock = []Stock{{Material: "mdf", Thickness: 9, Width: 300}} }, "blocking stock-size stock[0].length", ""},
		{"stock of no width", func(d *Design) { d.Stock = []Stock{{Material: "mdf", Thickness: 9, Length: 900, Width: -1}} }, "blocking stock-size stock[0].width", ""},
		{"stock at less than nothing", func(d *Design) {
			d.Stock = []Stock{{Material: "mdf", Thickness: 9, Length: 900, Width: 300, Price: -1}}
		}, "blocking stock-price stock[0].price", ""},
		{"stock without an end", func(d *Design) {
			d.Stock = []Stock{{Material: "mdf", Thickness: 9, Length: 900, Width: 300, Price: 1e200}}
		}, "blocking stock-price stock[0].price", ""},
		{"less than no sheets", func(d *Design) {
			d.Stock = []Stock{{Material: "mdf", Thickness: 9, Length: 900, Width: 300, OnHand: -1}}
		}, "blocking stock-count stock[0].onHand", ""},
		{"sheets without an end", func(d *Design) {
			d.Stock = []Stock{{Material: "mdf", Thickness: 9, Length: 900, Width: 300, OnHand: 1e9}}
		}, "blocking stock-count stock[0].onHand", ""},
		{"offcut that is gone", func(d *Design) {
			d.Stock = []Stock{{Material: "mdf", Thickness: 9, Length: 900, Width: 300, Offcut: true}}
		}, "advice offcut-gone stock[0].onHand", ""},
		{"1001 kinds of sheets", func(d *Design) { d.Stock = make([]Stock, 1001) }, "blocking too-much-stock stock", ""},
		{"two prices for a sheet", func(d *Design) {
			d.Prices, d.Stock = []Price{{"mdf", 9, 5, 2440, 1220}}, []Stock{{Material: "mdf", Thickness: 9, Length: 2440, Width: 1220, Price: 6}}
		}, "advice stock-price-twice stock[0].price", ""},
		{"kerf below nothing", func(d *Design) { d.Cutting.Kerf = -1 }, "blocking cut-kerf cutting.kerf", ""},
		{"kerf of a hand's width", func(d *Design) { d.Cutting.Kerf = 80 }, "blocking cut-kerf cutting.kerf", ""},
		{"trim below nothing", func(d *Design) { d.Cutting.Trim = -1 }, "blocking cut-trim cutting.trim", ""},
		{"stages below nothing", func(d *Design) { d.Cutting.Stages = -1 }, "blocking cut-stages cutting.stages", ""},
		{"carry without an end", func(d *Design) { d.Cutting.Carry = 1e9 }, "blocking cut-carry cutting.carry", ""},
		{"1001 free pieces", func(d *Design) { d.Cutting.Free = make([]string, 1001) }, "blocking cut-free cutting.free", ""},

		{"own material without a key", func(d *Design) { d.Own = []catalog.Sheet{ownMaterial("")} }, "blocking own-material materials[0].key", ""},
		{"1001 own materials", func(d *Design) { d.Own = make([]catalog.Sheet, 1001) }, "blocking too-many-materials materials", ""},
		{"own material twice", func(d *Design) { d.Own = []catalog.Sheet{ownMaterial("a"), ownMaterial("b"), ownMaterial("a")} }, "blocking own-material-twice materials[2].key", "number 1 and number 3"},
		{"own material without weight", func(d *Design) {
			s := ownMaterial("a")
			s.Density = -680
			d.Own = []catalog.Sheet{s}
		}, "blocking own-material materials[0].density", ""},
		{"own material NaN", func(d *Design) {
			s := ownMaterial("a")
			s.GEdge = nan
			d.Own = []catalog.Sheet{s}
		}, "blocking own-material materials[0].gEdge", ""},
		{"own material of no kind", func(d *Design) {
			s := ownMaterial("a")
			s.Kind = "cardboard"
			d.Own = []catalog.Sheet{s}
		}, "blocking own-material-kind materials[0].kind", ""},
		{"own material over the catalogue's", func(d *Design) {
			s := ownMaterial("birch-plywood")
			s.Solid = true
			d.Own, d.Lengthwise.Material, d.Crosswise.Material, d.BottomSkin.Material = []catalog.Sheet{s}, "mdf", "mdf", "mdf"
		}, "blocking material-solid topSkin.material", ""},

		{"everything missing", func(d *Design) { *d = Design{} }, "blocking panel-length length, blocking panel-width width, " +
			"blocking material-missing topSkin.material, blocking skin-thickness topSkin.thickness, " +
			"blocking material-missing bottomSkin.material, blocking skin-thickness bottomSkin.thickness, blocking core-depth coreDepth, " +
			"blocking material-missing lengthwise.material, blocking rib-thickness lengthwise.thickness, blocking rib-count lengthwise.count, " +
			"blocking material-missing crosswise.material, blocking rib-thickness crosswise.thickness, blocking rib-count crosswise.count, " +
			"blocking support-kind supports.kind, advice no-load-case cases, blocking glue-missing glue, " +
			"blocking shop-people shop.people, blocking shop-start shop.start", ""},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			d := testTop()
			test.change(&d)
			problems := problemsOf(d)
			if got := strings.Join(told(problems), ", "); got != test.told {
				t.Fatalf("Validate tells\n%s\nwant\n%s", got, test.told)
			}
			if !strings.Contains(problems[0].Text, test.text) {
				t.Errorf("text %q; want %q in it", problems[0].Text, test.text)
			}
			for _, p := range problems {
				proofread(t, p)
			}
		})
	}
}

var (
	kebab  = regexp.MustCompile(`^[a-z]+(-[a-z]+)*$`)
	second = regexp.MustCompile(`\. [A-Z0-9]`) // the start of a second sentence
)

// banned are words that no problem may use: they say nothing, or too much.
var banned = regexp.MustCompile(`(?i)\b(error|invalid|warning|safe|safely|safety|illegal)\b`)

// proofread holds a problem's words against the house rules.
func proofread(t *testing.T, p Problem) {
	t.Helper()
	if !kebab.MatchString(p.Code) {
		t.Errorf("code %q is not kebab-case", p.Code)
	}
	if word := banned.FindString(p.Text); word != "" {
		t.Errorf("%s: %q in %q", p.Code, word, p.Text)
	}
	if first, _ := utf8.DecodeRuneInString(p.Text); !unicode.IsUpper(first) && !unicode.IsDigit(first) && first != '“' {
		t.Errorf("%s: %q does not begin like a sentence", p.Code, p.Text)
	}
	// What and why come first, what would help has its own sentence.
	if !strings.HasSuffix(p.Text, ".") || !second.MatchString(p.Text) {
		t.Errorf("%s: %q has no second sentence that says what would help", p.Code, p.Text)
	}
	if strings.Contains(p.Text, "%!") || strings.Contains(p.Text, "  ") {
		t.Errorf("%s: %q is badly put together", p.Code, p.Text)
	}
}

// TestValidatePart names the rib at fault.
func TestValidatePart(t *testing.T) {
	t.Parallel()
	d := testTop()
	d.Crosswise.Positions = []float64{100, 300, 305, 1799}
	problems := problemsOf(d)
	if got, want := strings.Join(told(problems), ", "), "blocking ribs-collide crosswise.positions[2], blocking rib-off-panel crosswise.positions[3]"; got != want {
		t.Fatalf("Validate tells %s; want %s", got, want)
	}
	if problems[0].Part != "C3" || problems[1].Part != "C4" {
		t.Errorf("parts %q and %q; want C3 and C4", problems[0].Part, problems[1].Part)
	}
}

// TestLimitsOfRoom compares the room that the texts promise with what is then
// taken: the largest number of ribs and the largest inset fit, one more does
// not.
func TestLimitsOfRoom(t *testing.T) {
	t.Parallel()
	random := rand.New(rand.NewPCG(1, 2))
	most := regexp.MustCompile(`At most (\d+) fit`)
	upTo := regexp.MustCompile(`An inset up to (\d+) mm`)
	counts, insets := 0, 0
	for range 2000 {
		d := testTop()
		d.Width = 300 + math.Round(random.Float64()*600)
		d.Supports = Supports{Kind: RailsAcross, EndInset: 200, Bearing: 50}
		d.Cases[0].Loads = nil
		d.Lengthwise.Thickness = 9 + random.Float64()*9
		d.Lengthwise.Thickest = 0
		d.Lengthwise.Inset = math.Round(random.Float64() * 300)
		d.Lengthwise.Count = minRibs + random.IntN(maxRibs-minRibs+1)
		var text string
		for _, p := range problemsOf(d) {
			if p.Severity == Blocking {
				text = p.Text
			}
		}
		fits := func(d Design) bool { return !Result{Problems: problemsOf(d)}.Blocked() }
		if m := most.FindStringSubmatch(text); m != nil {
			counts++
			d.Lengthwise.Count, _ = strconv.Atoi(m[1])
			if !fits(d) {
				t.Errorf("%q, but they do not", text)
			}
			if d.Lengthwise.Count++; fits(d) {
				t.Errorf("%q, but %d do", text, d.Lengthwise.Count)
			}
		}
		if m := upTo.FindStringSubmatch(text); m != nil {
			insets++
			d.Lengthwise.Count = 2
			d.Lengthwise.Inset, _ = strconv.ParseFloat(m[1], 64)
			if !fits(d) {
				t.Errorf("%q, but that does not fit", text)
			}
			if d.Lengthwise.Inset++; fits(d) {
				t.Errorf("%q, but %g mm fits", text, d.Lengthwise.Inset)
			}
		}
	}
	if counts < 100 || insets < 100 {
		t.Errorf("only %d texts told a number of ribs and %d an inset", counts, insets)
	}
}

// garbage sets everything below v at random: to what it has by rights, or to
// anything at all.
func garbage(v reflect.Value, random *rand.Rand) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				garbage(v.Field(i), random)
			}
		}
	case reflect.Slice:
		n := random.IntN(4)
		if random.IntN(30) == 0 {
			n = random.IntN(100)
		}
		v.Set(reflect.MakeSlice(v.Type(), n, n))
		for i := range n {
			garbage(v.Index(i), random)
		}
	case reflect.Map:
		v.Set(reflect.MakeMap(v.Type()))
	case reflect.String:
		words := []string{"", "birch-plywood", "mdf", "white-oak", "granite", "pva-d3", "legs", "rails along", "all edges", "patch", "uniform",
			"short", "permanent", "plywood", "2026-05-02T09:00", "\xff%s%d\x00"}
		v.SetString(words[random.IntN(len(words))])
	case reflect.Bool:
		v.SetBool(random.IntN(2) == 0)
	case reflect.Float64:
		odd := []float64{0, -1, 1, 1e-300, 1e300, -1e300, math.MaxFloat64, math.NaN(), math.Inf(1), math.Inf(-1), 12, 100, 1800}
		if random.IntN(40) == 0 {
			v.SetFloat(odd[random.IntN(len(odd))])
		} else {
			v.SetFloat(math.Exp(random.Float64()*14) - 1)
		}
	case reflect.Int:
		odd := []int64{0, -1, 1, 2, 5, 60, math.MaxInt64, math.MinInt64}
		v.SetInt(odd[random.IntN(len(odd))])
	}
}

// TestGarbage validates designs that nobody would draw: it must not panic,
// whatever it is given, and must stay within the design.
func TestGarbage(t *testing.T) {
	t.Parallel()
	random := rand.New(rand.NewPCG(3, 4))
	rounds := 5000
	if testing.Short() { // the race detector is content with less
		rounds = 500
	}
	for range rounds {
		d := testTop()
		v := reflect.ValueOf(&d).Elem()
		if random.IntN(4) == 0 {
			garbage(v, random) // all of it
		} else {
			for range 1 + random.IntN(3) { // some fields
				if f := v.Field(random.IntN(v.NumField())); f.CanSet() {
					garbage(f, random)
				}
			}
		}
		kept := d.Clone()
		problems := problemsOf(d)
		for _, p := range problems {
			proofread(t, p)
			if !fieldExists(d, p.Field) {
				t.Errorf("%s: there is no field %q", p.Code, p.Field)
			}
		}
		if again := problemsOf(kept); !reflect.DeepEqual(again, problems) {
			t.Errorf("the same design has other problems the second time:\n%v\n%v", problems, again)
		}
		if t.Failed() {
			return
		}
	}
}

// fieldExists reports whether a JSON path leads to a value of the design. It
// walks what encoding/json makes of the type, not our own reader.
func fieldExists(d Design, path string) bool {
	v := reflect.ValueOf(d)
	for _, step := range strings.FieldsFunc(path, func(r rune) bool { return r == '.' || r == '[' || r == ']' }) {
		if v.Kind() == reflect.Slice {
			i, err := strconv.Atoi(step)
			if err != nil || i < 0 || i >= v.Len() {
				return false
			}
			v = v.Index(i)
			continue
		}
		if v.Kind() != reflect.Struct {
			return false
		}
		found := false
		for i := range v.NumField() {
			if tag, _, _ := strings.Cut(v.Type().Field(i).Tag.Get("json"), ","); tag == step {
				v, found = v.Field(i), true
				break
			}
		}
		if !found {
			return false
		}
	}
	return path != ""
}

func BenchmarkValidate(b *testing.B) {
	d := testTop()
	for b.Loop() {
		if problems := problemsOf(d); len(problems) > 0 {
			b.Fatal(problems)
		}
	}
}
