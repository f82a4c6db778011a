package engine

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"flatwright/engine/nest"
	"flatwright/engine/vector"
)

// onSheet is a small sheet with three ribs on it: two along the length, one
// turned, 3 mm of kerf between them, after a trim of 5.
func onSheet() (LaidSheet, []shape) {
	slots := []Slot{{Station: 100, Width: 12, Depth: 40.5, FromTop: true}, {Station: 400, Width: 12, Depth: 40.5, FromTop: true}}
	rib := shape{Piece: Piece{ID: "L1", Mark: "L", Length: 600, Width: 80, Thickness: 12, Grain: GrainAlong, Slots: slots,
		Outline: ribOutline(Part{Length: 600, Width: 80, Slots: slots})}}
	rib.pieces = []Piece{{ID: "L1"}, {ID: "L2"}, {ID: "L3"}}
	at := func(n int, x, y, length, width float64) nest.Placement {
		return nest.Placement{Copy: n, Rectangle: nest.Rectangle{X: x, Y: y, Length: length, Width: width}, Turned: n == 2}
	}
	whole := nest.Rectangle{Length: 700, Width: 900}
	sheet := nest.CutSheet{Sheet: nest.Sheet{Length: 700, Width: 900, Trim: 5},
		Parts:     []nest.Placement{at(0, 5, 5, 600, 80), at(1, 5, 88, 600, 80), at(2, 608, 5, 80, 600)},
		Leftovers: []nest.Leftover{{Rectangle: nest.Rectangle{X: 5, Y: 171, Length: 600, Width: 724}, Useful: true}, {Rectangle: nest.Rectangle{X: 691, Y: 5, Length: 4, Width: 600}}}}
	cuts := []nest.Cut{
		{Number: 1, Piece: whole, Across: true, At: -2, Trim: true},
		{Number: 2, Piece: whole, Across: true, At: 605},
		{Number: 3, Piece: nest.Rectangle{X: 5, Length: 600, Width: 900}, At: 85},
	}
	stock := StockCut{Material: "poplar-plywood", Thickness: 12, Job: nest.Job{Kerf: 3}, Parts: []SheetParts{{IDs: []string{"L1", "L2", "L3"}}},
		Plan: nest.Plan{Sheets: []nest.CutSheet{sheet}, Cuts: cuts}}
	return LaidSheet{Number: 2, Stock: stock}, []shape{rib}
}

func TestSheetDrawing(t *testing.T) {
	t.Parallel()
	l, shapes := onSheet()
	d := l.drawing(Design{Name: "Bench"}, shapes)
	low, high := d.Bounds()
	if low != (vector.Point{}) || high != (vector.Point{X: 700, Y: 900}) {
		t.Errorf("the sheet reaches from %v to %v; want (0, 0) to (700, 900)", low, high)
	}
	var outlines []vector.Path
	for _, p := range d.Paths {
		if p.Layer == vector.Outline {
			outlines = append(outlines, p)
		}
	}
	// By hand: the third is turned to the left, so its length runs up and its
	// upper edge, with the slots, looks to the left: x from 608 to 688, slots
	// from 608 to 648.5, the first at y = 5 + 94 to 5 + 106.
	for i, want := range [][4]float64{{5, 5, 605, 85}, {5, 88, 605, 168}, {608, 5, 688, 605}} {
		low, high := vector.Drawing{Paths: outlines[i : i+1]}.Bounds()
		if math.Abs(low.X-want[0])+math.Abs(low.Y-want[1])+math.Abs(high.X-want[2])+math.Abs(high.Y-want[3]) > 1e-9 {
			t.Errorf("piece %d from %v to %v; want %v", i+1, low, high, want)
		}
		// 600·80 - 2·12·40.5 = 47 028, and anticlockwise still: not mirrored.
		near(t, "area of a piece", shoelace(outlines[i].Points), 47028, 1e-6)
	}
	found := false
	for _, p := range outlines[2].Points {
		found = found || math.Hypot(p.X-648.5, p.Y-99) < 1e-9
	}
	if !found {
		t.Errorf("no corner of the turned rib's first slot at (648.5, 99): %v", outlines[2].Points)
	}
	// The kerfs are 605 to 608 and 85 to 88: their middles are cut along. That of
	// the trim is -2 to 1, off the sheet, and is drawn on its edge.
	var cuts []vector.Path
	for _, p := range d.Paths {
		if p.Layer == vector.SawCut {
			cuts = append(cuts, p)
		}
	}
	for i, want := range [][2]vector.Point{{{}, {Y: 900}}, {{X: 606.5}, {X: 606.5, Y: 900}}, {{X: 5, Y: 86.5}, {X: 605, Y: 86.5}}} {
		if cuts[i].Points[0] != want[0] || cuts[i].Points[1] != want[1] {
			t.Errorf("cut %d is %v; want %v", i+1, cuts[i].Points, want)
		}
	}
	for _, write := range []func(*bytes.Buffer) error{
		func(b *bytes.Buffer) error { return vector.SVG(b, d) },
		func(b *bytes.Buffer) error { return vector.DXF(b, d) },
	} {
		var b bytes.Buffer
		if err := write(&b); err != nil {
			t.Error(err)
		}
		for _, want := range []string{"L1", "L3", "left over, 600 ", "700 ", "3 saw cuts", "Poplar plywood"} {
			if !strings.Contains(b.String(), want) {
				t.Errorf("%q is not written", want)
			}
		}
	}
}

// Every piece of the demo lies on exactly one sheet's drawing, within the sheet,
// and takes as much of it there as in the drawing of the piece alone; the lists
// agree with them.
func TestSheetsHoldThePieces(t *testing.T) {
	t.Parallel()
	d := labelled()
	d.BottomSkin.Across = false
	d.Seams = []Seam{{Skin: BottomSeam, At: 850, Spliced: true}}
	d.Splices = []Splice{{Part: "L2", At: 620}}
	plan := planned(t, d)
	shapes := shapesOf(d)
	areas := map[string]float64{}
	for _, s := range shapes {
		for _, p := range s.pieces {
			areas[p.ID] = shoelace(s.line(vector.Outline, s.Outline).Points)
		}
	}
	seen := map[string]int{}
	for _, l := range plan.Sheets() {
		sheet := l.Sheet().Sheet
		for _, p := range l.laidPieces(shapes) {
			seen[p.id]++
			for _, path := range p.on(p.lines("")).Paths {
				if path.Layer != vector.Outline {
					continue
				}
				low, high := vector.Drawing{Paths: []vector.Path{path}}.Bounds()
				if low.X < -1e-9 || low.Y < -1e-9 || high.X > sheet.Length+1e-9 || high.Y > sheet.Width+1e-9 {
					t.Errorf("%s reaches from %v to %v on a sheet of %g × %g", p.id, low, high, sheet.Length, sheet.Width)
				}
				near(t, p.id+" area", shoelace(path.Points), areas[p.id], 1e-9)
			}
		}
	}
	for id := range areas {
		if seen[id] != 1 {
			t.Errorf("%s is drawn on %d sheets; want one", id, seen[id])
		}
	}
	files := exportedOf(t, d, plan)
	listed := 0
	for _, row := range table(t, files["sheets.csv"]) {
		listed += strings.Count(row["pieces"], " | ") + 1
		if row["from"] != "to buy" || files[row["drawing"]+".dxf"] == nil || files[row["drawing"]+".svg"] == nil {
			t.Errorf("sheet %v; want it to buy, and drawn", row)
		}
	}
	if listed != len(areas) {
		t.Errorf("%d pieces on the list of sheets; want %d", listed, len(areas))
	}
	cuts := 0
	for _, s := range plan.Stocks {
		cuts += len(s.Plan.Cuts)
	}
	if got := len(table(t, files["cuts.csv"])); got != cuts || cuts == 0 {
		t.Errorf("%d cuts on the list; want %d", got, cuts)
	}
}

// What is left can be read into the next design as it is written.
func TestStockAfterIsRead(t *testing.T) {
	t.Parallel()
	d := Demo()
	d.Lengthwise.Count, d.Crosswise.Count = 3, 4
	top := d.TopSkin
	d.Stock = []Stock{{Material: top.Material, Thickness: top.Thickness, Length: 2440, Width: 1220, OnHand: 3}}
	plan := planned(t, d)
	got, err := ReadStock(bytes.NewReader(exportedOf(t, d, plan)["stock-after.csv"]), d, millimetre)
	want := d.Leftovers(plan)
	if err != nil || len(got.Sheets) != len(want) || len(want) < 2 {
		t.Fatalf("%+v, %v; want %+v", got.Sheets, err, want)
	}
	for i, s := range got.Sheets {
		near(t, "length", s.Length, want[i].Length, 1e-6)
		s.Length, s.Width = want[i].Length, want[i].Width
		if s != want[i] {
			t.Errorf("sheet %d is %+v; want %+v", i, s, want[i])
		}
	}
}

// Who has listed no sheets is told what is assumed, and who has too few, what has
// found no place. Nothing here is long to lay out.
func TestExportsTell(t *testing.T) {
	t.Parallel()
	d := Demo()
	d.Lengthwise.Count, d.Crosswise.Count = 3, 4
	told := func() string {
		e, err := Exports(t.Context(), d, ExportOptions{})
		if err != nil {
			t.Fatal(err)
		}
		return strings.Join(e.Told, "\n")
	}
	if got := told(); strings.Count(got, "are assumed") != 2 {
		t.Errorf("told %q; want the sheets of 9.2 and of 12 mm assumed", got)
	}
	d.Stock = []Stock{{Material: d.TopSkin.Material, Thickness: d.TopSkin.Thickness, Length: 1900, Width: 800, OnHand: 1, Offcut: true},
		{Material: d.Lengthwise.Material, Thickness: d.Lengthwise.Thickness, Length: 900, Width: 800}}
	if got := told(); !strings.Contains(got, "no room for all parts") || !strings.Contains(got, "larger than every sheet") || strings.Contains(got, "assumed") {
		t.Errorf("told %q; want one sheet too few and ribs too long", got)
	}
}
