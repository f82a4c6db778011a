package app

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"flatwright/engine"
	"flatwright/engine/draw"
	"flatwright/engine/length"
)

// key types keys into what has the keyboard.
func (r *formRig) key(t *testing.T, names ...fyne.KeyName) {
	t.Helper()
	for _, name := range names {
		focused := r.win.Canvas().Focused()
		if focused == nil {
			t.Fatalf("nothing has the keyboard for %s", name)
		}
		focused.TypedKey(&fyne.KeyEvent{Name: name})
	}
}

func (r *formRig) loads() []engine.Load { return r.session.Now().Design.Cases[0].Loads }

// problems are what the engine says of the design at hand, shown in the form.
func (r *formRig) validate() []engine.Problem {
	s := r.session.Now()
	s.Result.Problems = engine.Validate(s.Design, s.Design.Material, engine.Catalogue().Glue)
	r.form.Show(s)
	return s.Result.Problems
}

// Every kind is added with the keyboard alone: the choice is stepped with the
// arrow key, the button below it pressed with the space bar. One step of undo
// takes it away again.
func TestAddLoadsByKeyboard(t *testing.T) {
	for downs, check := range map[int]func(l, like engine.Load) bool{
		0: func(l, like engine.Load) bool { return l.Kind == engine.Patch && l.SizeX == like.SizeX },
		2: func(l, _ engine.Load) bool { return l.Kind == engine.Patch && l.SizeX == 50 && l.SizeY == 50 },
		3: func(l, _ engine.Load) bool { return l.Kind == engine.Line && l.SizeY == 20 && l.SizeX > 20 },
		4: func(l, _ engine.Load) bool { return l.Kind == engine.Uniform },
		5: func(l, _ engine.Load) bool { return l.Kind == engine.Couple && l.Arm > 0 && l.Pull == engine.PullFront },
	} {
		r := newFormRig(t, engine.Demo())
		before := r.loads()
		r.line(t, "cases[0].add").focus()
		for range downs {
			r.key(t, fyne.KeyRight)
		}
		if got := r.session.Now(); got.UndoLabel != "" {
			t.Errorf("picking what to add edits the design: %q", got.UndoLabel)
		}
		r.win.Canvas().FocusNext()
		r.key(t, fyne.KeySpace)
		loads := r.loads()
		if len(loads) != len(before)+1 {
			t.Fatalf("%d steps on: %d loads after %d; want one more", downs, len(loads), len(before))
		}
		l, like := loads[len(loads)-1], before[len(before)-1]
		if !check(l, like) {
			t.Errorf("%d steps on added %+v", downs, l)
		}
		if l.Kind != engine.Couple && l.Force != like.Force {
			t.Errorf("%s: force %g; want %g as before", l.Kind, l.Force, like.Force)
		}
		for _, p := range r.validate() {
			if p.Severity == engine.Blocking && (l.Kind != engine.Couple || p.Code != "couple-no-block") {
				t.Errorf("%s: blocked by %s", l.Kind, p.Text)
			}
		}
		r.session.Undo()
		if got := r.loads(); len(got) != len(before) {
			t.Errorf("%d loads after undo; want %d", len(got), len(before))
		}
	}
}

// A line: its length is the size along the top until it is turned.
func TestLineInTheForm(t *testing.T) {
	r := newFormRig(t, engine.Demo())
	r.line(t, "cases[0].loads[0].kind").focus()
	r.key(t, fyne.KeyRight) // from "on one spot"
	if l := r.loads()[0]; l.Kind != engine.Line || l.SizeY != 20 || l.X == 0 {
		t.Fatalf("one step on makes %+v; want a line 20 mm wide", l)
	}
	r.typeInto(t, "cases[0].loads[0].sizeX", "30 cm")
	r.typeInto(t, "cases[0].loads[0].sizeY", "25")
	r.line(t, "cases[0].loads[0].across").focus()
	r.key(t, fyne.KeyRight)
	if l := r.loads()[0]; !l.Across || l.SizeX != 25 || l.SizeY != 300 {
		t.Errorf("turned: %+v; want 25 along, 300 across", l)
	}
	r.typeInto(t, "cases[0].loads[0].sizeY", "400")
	r.typeInto(t, "cases[0].loads[0].x", "500")
	if l := r.loads()[0]; l.SizeY != 400 || l.X != 500 {
		t.Errorf("typed over: %+v; want 400 long at x = 500", l)
	}
	if p := r.validate(); (engine.Result{Problems: p}).Blocked() {
		t.Errorf("the line blocks: %+v", p)
	}
	r.explanationsFit(t)
	s := r.session.Now()
	s.Lengths = length.Format{}
	if got := partText(s, engine.LoadPart(0, 0)); !strings.Contains(got, "400 mm long and 25 mm wide across the width") {
		t.Errorf("the picked line is called %q", got)
	}
	if got := partField(s.Design, engine.LoadPart(0, 0)); got != "cases[0].loads[0].x" {
		t.Errorf("a picked line opens %s", got)
	}
}

// A pull without a block is told at its bay; the button below puts one there.
func TestPullInTheForm(t *testing.T) {
	d := engine.Demo()
	d.Blocks = nil
	r := newFormRig(t, d)
	r.line(t, "cases[0].loads[0].kind").focus()
	r.key(t, fyne.KeyRight, fyne.KeyRight, fyne.KeyRight)
	if l := r.loads()[0]; l.Kind != engine.Couple {
		t.Fatalf("three steps on make a %s; want a couple", l.Kind)
	}
	r.typeInto(t, "cases[0].loads[0].force", "300 N")
	r.typeInto(t, "cases[0].loads[0].arm", "20 cm")
	r.typeInto(t, "cases[0].loads[0].column", "3")
	r.typeInto(t, "cases[0].loads[0].row", "2")
	r.leave()
	r.line(t, "cases[0].loads[0].pull").focus()
	r.key(t, fyne.KeyRight)
	if l := r.loads()[0]; l.Force != 300 || l.Arm != 200 || l.Column != 2 || l.Row != 1 || l.Pull != engine.PullBack {
		t.Errorf("typed: %+v; want 300 N, 200 mm, bay 2, 1 from 0, to the back", l)
	}
	r.validate()
	if got := problemAt(r.line(t, "cases[0].loads[0].column")); !strings.Contains(got, "A couple needs a block") {
		t.Errorf("the bay says %q; want what a couple needs", got)
	}
	r.press(t, "Loads", "Fill this bay with a block")
	if b := r.session.Now().Design.Blocks; len(b) != 1 || b[0].Column != 2 || b[0].Row != 1 {
		t.Fatalf("blocks %+v; want one in that bay", b)
	}
	if p := r.validate(); (engine.Result{Problems: p}).Blocked() {
		t.Errorf("blocked with its block: %+v", p)
	}
	r.press(t, "Loads", "Fill this bay with a block")
	if b := r.session.Now().Design.Blocks; len(b) != 1 {
		t.Errorf("the bay has %d blocks", len(b))
	}
	r.explanationsFit(t)
	// By hand: 300 N · 200 mm.
	s := r.session.Now()
	s.Lengths = length.Format{}
	if got := partText(s, engine.LoadPart(0, 0)); !strings.Contains(got, "60 N·m") {
		t.Errorf("the picked pull is called %q", got)
	}
	if got := loadsSummary(s.Design, length.Format{}); strings.Contains(got, "31 kg") {
		t.Errorf("a pull counts as a weight: %q", got)
	}
	r.line(t, "cases[0].loads[0].kind").focus()
	r.key(t, fyne.KeyLeft)
	if l := r.loads()[0]; l.Kind != engine.Uniform {
		t.Errorf("back up: %s; want uniform", l.Kind)
	}
}

// pullBench is a bench with two blocks and a couple at the left one.
func pullBench(t *testing.T) *bench {
	t.Helper()
	b := loadBench(t)
	b.session.Edit("pull", "", func(d *engine.Design) {
		d.Blocks = []engine.Block{{Material: d.Lengthwise.Material, Column: 1, Row: 1}, {Material: d.Lengthwise.Material, Column: 4, Row: 1}}
		d.Cases[0].Loads = []engine.Load{{Name: "vise", Kind: engine.Couple, Force: 100, Arm: 100, Pull: engine.PullRight, Column: 1, Row: 1}}
	})
	b.settle()
	if r := b.session.Now().Result; r.Blocked() {
		t.Fatalf("the test's design cannot be computed: %+v", r.Problems)
	}
	return b
}

// A pull is dragged and stepped from block to block.
func TestMoveAPull(t *testing.T) {
	b := pullBench(t)
	start := b.session.Now()
	d := start.Design
	from, to := d.Spread(b.load()), d.Spread(engine.Load{Kind: engine.Couple, Column: 4, Row: 1})
	if got := b.drawnLoad(); got != (draw.Point{X: from.X, Y: from.Y}) {
		t.Errorf("drawn at %v; want at its block, %v", got, from)
	}
	h := b.handAt(from.X+from.SizeX/4, from.Y+from.SizeY/4) // beside the rib's hatch
	h.drag((to.X-from.X)/4, 0)
	b.settle()
	if l := b.load(); l.Column != 1 {
		t.Errorf("a quarter of the way: column %d; want 1 still", l.Column)
	}
	h.drag(to.X-from.X, 0)
	h.drop()
	if l := b.load(); l.Column != 4 || l.Row != 1 {
		t.Errorf("dropped at column %d, row %d; want 4, 1", l.Column, l.Row)
	}
	if got := b.drawnLoad(); got != (draw.Point{X: to.X, Y: to.Y}) {
		t.Errorf("drawn at %v; want %v", got, to)
	}
	if now := b.session.Now(); now.UndoLabel != "move load" || now.Result.Blocked() {
		t.Errorf("undo %q, problems %v", now.UndoLabel, now.Result.Problems)
	}
	board := b.view.drawing.board
	b.session.Select(engine.LoadPart(0, 0))
	b.desk.win.Canvas().Focus(board)
	board.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight}) // no block there
	board.TypedKey(&fyne.KeyEvent{Name: fyne.KeyLeft})
	b.settle()
	if l := b.load(); l.Column != 1 || l.Row != 1 {
		t.Errorf("left arrow leads to column %d, row %d; want 1, 1", l.Column, l.Row)
	}
}

// A line is dragged and stepped as any load with a place.
func TestMoveALine(t *testing.T) {
	b := loadBench(t)
	b.session.Edit("line", "", func(d *engine.Design) {
		d.Cases[0].Loads[0] = engine.Load{Name: "fence", Kind: engine.Line, Across: true, Force: 300, X: 600, Y: 300, SizeX: 60, SizeY: 400}
	})
	b.settle()
	h := b.handAt(590, 390)
	h.drag(40, -30)
	h.drop()
	if l := b.load(); l.X != 640 || l.Y != 270 {
		t.Errorf("the line lies at %v, %v; want 640, 270", l.X, l.Y)
	}
	h.drag(5000, 0)
	h.drop()
	if l := b.load(); l.X != 1470 || l.Y != 270 { // 1 500 less half of 60
		t.Errorf("at the end it lies at %v, %v; want 1470, 270", l.X, l.Y)
	}
	b.desk.win.Canvas().Focus(b.view.drawing.board)
	b.view.drawing.board.TypedKey(&fyne.KeyEvent{Name: fyne.KeyLeft})
	b.settle()
	if l := b.load(); l.X != 1469 {
		t.Errorf("left arrow leads to x = %v; want 1469", l.X)
	}
}
