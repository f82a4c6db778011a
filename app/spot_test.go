package app

import (
	"context"
	"testing"

	"fyne.io/fyne/v2"

	"flatwright/engine"
	"flatwright/engine/draw"
)

// spots counts the places that the drawing points out.
func (b *bench) spots() (n int) {
	for _, m := range b.view.drawing.board.Figure().Marks {
		if m.Kind == draw.SpotMark {
			n++
		}
	}
	return n
}

func TestPointingOutAPlace(t *testing.T) {
	b := openBench(t, t.TempDir())
	spot := engine.Spot{X: 300, Y: 200, Part: "top", Text: "Top skin in bending"}
	b.session.PointOut(spot)
	if got := b.spots(); got != 3 {
		t.Fatalf("%d marks for a place; want one in the plan and one in each section", got)
	}
	if got := b.session.Focus().Part; got != "top" {
		t.Errorf("picked %q with the place; want top", got)
	}
	b.session.PointOut(spot)
	if got := b.spots(); got != 0 {
		t.Errorf("%d marks after pointing the same place out again; want none", got)
	}
	b.session.PointOut(spot)
	b.view.drawing.board.OnSelect("L1")
	if got := b.spots(); got != 0 {
		t.Errorf("%d marks after picking another part; want none", got)
	}
}

// Escape takes the mark away also when nothing has the keyboard.
func TestEscapeWithoutFocus(t *testing.T) {
	b := openBench(t, t.TempDir())
	b.session.PointOut(engine.Spot{X: 300, Y: 200, Part: "top", Text: "here"})
	b.desk.win.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyTab})
	if got := b.spots(); got != 3 {
		t.Errorf("%d marks after another key; want 3", got)
	}
	b.desk.win.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if got := b.spots(); got != 0 {
		t.Errorf("%d marks after Escape; want none", got)
	}
}

// A place belongs to one result: it must not stay on the drawing of another.
func TestAPlaceGoesWithItsResult(t *testing.T) {
	b := openBench(t, t.TempDir())
	b.session.PointOut(engine.Spot{X: 300, Y: 200, Part: "top", Text: "here"})
	b.session.Edit("core", "coreDepth", func(d *engine.Design) { d.CoreDepth += 10 })
	b.settle()
	if got := b.spots(); got != 0 {
		t.Errorf("%d marks on another design's drawing; want none", got)
	}
	b.choose("Edit", "Undo")
	if got := b.spots(); got != 0 {
		t.Errorf("%d marks after undo; want none, it is computed anew", got)
	}
}

// While the finer mesh is awaited the snapshot says so, and no longer once it
// is there or has failed.
func TestFinerIsTold(t *testing.T) {
	for name, fault := range map[string]error{"works": nil, "fails": context.DeadlineExceeded} {
		t.Run(name, func(t *testing.T) {
			queue, release := make(chan func(), 10), make(chan struct{})
			s := NewSession(func(f func()) { queue <- f }, func(context.Context, engine.Design) (engine.Result, error) {
				return engine.Result{Mass: engine.MassReport{Total: 1}}, nil
			})
			s.refine = func(_ context.Context, _ engine.Design, r engine.Result) (engine.Result, error) {
				<-release
				r.Mass.Total = 2
				return r, fault
			}
			s.Open(engine.Design{Name: "a"}, "")
			(<-queue)()
			if now := s.Now(); !now.Finer || now.Stale {
				t.Errorf("before the finer mesh: finer %v, stale %v; want true, false", now.Finer, now.Stale)
			}
			close(release)
			(<-queue)()
			if now := s.Now(); now.Finer || now.Stale {
				t.Errorf("after the finer mesh: finer %v, stale %v; want false, false", now.Finer, now.Stale)
			}
			want := 2.0
			if fault != nil {
				want = 1
			}
			if got := s.Now().Result.Mass.Total; got != want {
				t.Errorf("mass %v at the end; want %v", got, want)
			}
		})
	}
}

// After the finest mesh come the single steps; while they are computed the
// figures are current and the share done is told, and an edit ends it at once.
func TestStepsComeLast(t *testing.T) {
	queue := make(chan func(), 10)
	s := NewSession(func(f func()) { queue <- f }, func(context.Context, engine.Design) (engine.Result, error) {
		return engine.Result{Whole: &engine.Whole{}, Mass: engine.MassReport{Total: 1}}, nil
	})
	s.refine = func(_ context.Context, _ engine.Design, r engine.Result) (engine.Result, error) {
		r.Mass.Total = 2
		return r, nil
	}
	going, ended := make(chan func(done, of int)), make(chan error)
	s.whatIf = func(ctx context.Context, _ engine.Design, r engine.Result, progress func(done, of int)) (engine.Result, error) {
		going <- progress
		select {
		case <-going:
		case <-ctx.Done():
			ended <- ctx.Err()
			return engine.Result{}, ctx.Err()
		}
		r.WhatIf = &engine.WhatIfReport{Panels: 7}
		return r, nil
	}
	s.Open(engine.Design{Name: "a"}, "")
	(<-queue)() // the normal mesh
	(<-queue)() // the finest
	progress := <-going
	if now := s.Now(); !now.Trying || now.Tried != 0 || now.Finer || now.Stale || now.Result.Mass.Total != 2 || now.Result.WhatIf != nil {
		t.Errorf("while the steps are computed: %+v", now)
	}
	progress(1, 30)
	progress(15, 30)
	(<-queue)()
	if now := s.Now(); !now.Trying || now.Tried != 0.5 {
		t.Errorf("at half: trying %v, tried %v", now.Trying, now.Tried)
	}
	going <- nil
	(<-queue)()
	if now := s.Now(); now.Trying || now.Result.WhatIf == nil || now.Result.Mass.Total != 2 {
		t.Errorf("at the end: %+v", now)
	}
	s.Edit("name", "name", func(d *engine.Design) { d.Name = "b" })
	(<-queue)()
	(<-queue)()
	<-going
	s.Edit("name", "", func(d *engine.Design) { d.Name = "c" })
	if err := <-ended; err == nil {
		t.Error("an edit does not end the computing of the steps")
	}
	if now := s.Now(); now.Trying || !now.Stale {
		t.Errorf("after an edit: trying %v, stale %v; want false, true", now.Trying, now.Stale)
	}
	(<-queue)() // what the edit ended: not taken
	if now := s.Now(); !now.Stale {
		t.Error("the figures of an older design pass for current")
	}
	(<-queue)()
	(<-queue)()
	<-going
	s.Edit("name", "", func(d *engine.Design) { d.Name = "d" })
	<-ended
}
