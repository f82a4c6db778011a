package app

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"flatwright/engine"
	"flatwright/engine/length"
)

// direct runs the watchers' work at once, on the worker's goroutine.
func direct(f func()) { f() }

// weigh is a compute that tells designs apart: the mass is the length.
func weigh(ctx context.Context, d engine.Design) (engine.Result, error) {
	return engine.Result{Mass: engine.MassReport{Total: d.Length}}, ctx.Err()
}

// newTestSession returns an open session whose clock stands still until moved.
func newTestSession(t *testing.T, compute func(context.Context, engine.Design) (engine.Result, error)) (*Session, *time.Time) {
	t.Helper()
	clock := time.Date(2026, 3, 1, 9, 0, 0, 0, time.UTC)
	s := NewSession(direct, compute)
	s.clock = func() time.Time { return clock }
	s.Open(engine.Design{Name: "start", Length: 1}, "start.flatwright")
	waitIdle(t, s)
	return s, &clock
}

func waitIdle(t *testing.T, s *Session) {
	t.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), 20*time.Second)
	defer cancel()
	if err := s.WaitIdle(ctx); err != nil {
		t.Fatalf("session never came to rest: %v", err)
	}
}

func setLength(s *Session, to float64) {
	s.Edit("length", "length", func(d *engine.Design) { d.Length = to })
}

func TestEditComputes(t *testing.T) {
	s, _ := newTestSession(t, weigh)
	before := s.Now()
	setLength(s, 7)
	waitIdle(t, s)
	now := s.Now()
	if now.Design.Length != 7 || now.Result.Mass.Total != 7 || now.Stale {
		t.Errorf("after the edit: length %v, mass %v, stale %v; want 7, 7, false",
			now.Design.Length, now.Result.Mass.Total, now.Stale)
	}
	if now.Revision <= before.Revision {
		t.Errorf("revision %d after %d; want it to grow", now.Revision, before.Revision)
	}
	if !now.Dirty || now.UndoLabel != "length" || now.RedoLabel != "" {
		t.Errorf("dirty %v, undo %q, redo %q; want true, length, empty", now.Dirty, now.UndoLabel, now.RedoLabel)
	}
}

func TestEditWithoutChangeIsNoStep(t *testing.T) {
	s, _ := newTestSession(t, weigh)
	before := s.Now()
	setLength(s, 1)
	now := s.Now()
	if now.Dirty || now.UndoLabel != "" || now.Revision != before.Revision {
		t.Errorf("an edit that changes nothing: dirty %v, undo %q, revision %d; want false, empty, %d",
			now.Dirty, now.UndoLabel, now.Revision, before.Revision)
	}
}

func TestEditGetsACopy(t *testing.T) {
	s, _ := newTestSession(t, weigh)
	s.Open(engine.Design{Cases: []engine.LoadCase{{Name: "a", Loads: []engine.Load{{Force: 1}}}}}, "")
	old := s.Now()
	s.Edit("force", "", func(d *engine.Design) { d.Cases[0].Loads[0].Force = 2 })
	if got := old.Design.Cases[0].Loads[0].Force; got != 1 {
		t.Errorf("an older snapshot's force became %v; want 1", got)
	}
	s.Undo()
	if got := s.Now().Design.Cases[0].Loads[0].Force; got != 1 {
		t.Errorf("force after undo = %v; want 1", got)
	}
	waitIdle(t, s)
}

func TestUndoMerges(t *testing.T) {
	lengths := func(s *Session) (seen []float64) {
		for s.Now().UndoLabel != "" {
			s.Undo()
			seen = append(seen, s.Now().Design.Length)
		}
		return seen
	}
	for _, tc := range []struct {
		name string
		act  func(s *Session, clock *time.Time)
		want []float64 // lengths met while undoing everything
	}{
		{"typing merges", func(s *Session, clock *time.Time) {
			setLength(s, 2)
			*clock = clock.Add(900 * time.Millisecond)
			setLength(s, 3)
			*clock = clock.Add(900 * time.Millisecond)
			setLength(s, 4)
		}, []float64{1}},
		{"a pause parts", func(s *Session, clock *time.Time) {
			setLength(s, 2)
			*clock = clock.Add(time.Second)
			setLength(s, 3)
		}, []float64{2, 1}},
		{"another field parts", func(s *Session, clock *time.Time) {
			setLength(s, 2)
			s.Edit("width", "width", func(d *engine.Design) { d.Width = 9 })
			setLength(s, 3)
		}, []float64{2, 2, 1}},
		{"no field never merges", func(s *Session, clock *time.Time) {
			s.Edit("move", "", func(d *engine.Design) { d.Length = 2 })
			s.Edit("move", "", func(d *engine.Design) { d.Length = 3 })
		}, []float64{2, 1}},
		{"the saved state keeps its step", func(s *Session, clock *time.Time) {
			setLength(s, 2)
			s.Saved("x", s.Now().Revision)
			setLength(s, 3)
		}, []float64{2, 1}},
		{"undo ends a step", func(s *Session, clock *time.Time) {
			setLength(s, 2)
			*clock = clock.Add(time.Second)
			setLength(s, 3)
			s.Undo()
			setLength(s, 4)
		}, []float64{2, 1}},
		{"redo ends a step", func(s *Session, clock *time.Time) {
			setLength(s, 2)
			s.Undo()
			s.Redo()
			setLength(s, 3)
		}, []float64{2, 1}},
	} {
		t.Run(tc.name, func(t *testing.T) {
			s, clock := newTestSession(t, weigh)
			tc.act(s, clock)
			if got := lengths(s); !slices.Equal(got, tc.want) {
				t.Errorf("undoing met %v; want %v", got, tc.want)
			}
			waitIdle(t, s)
		})
	}
}

func TestUndoIsBounded(t *testing.T) {
	s, _ := newTestSession(t, weigh)
	for i := range maxSteps + 50 {
		s.Edit("grow", "", func(d *engine.Design) { d.Length = float64(i + 2) })
	}
	count := 0
	for s.Now().UndoLabel != "" {
		s.Undo()
		count++
	}
	if count != maxSteps-1 {
		t.Errorf("%d steps of undo; want %d", count, maxSteps-1)
	}
	if !s.Now().Dirty {
		t.Error("the oldest step left is not what the file holds, and looks saved")
	}
	waitIdle(t, s)
}

func TestSavedWhileEditing(t *testing.T) {
	s, _ := newTestSession(t, weigh)
	setLength(s, 2)
	written := s.Now().Revision
	s.Edit("width", "width", func(d *engine.Design) { d.Width = 5 })
	s.Saved("x", written)
	if !s.Now().Dirty {
		t.Error("edited while the file was being written, and looks saved")
	}
	s.Saved("x", s.Now().Revision)
	if s.Now().Dirty {
		t.Error("saved, and still dirty")
	}
	waitIdle(t, s)
}

// FuzzUndo plays edits, pauses, saves, undos and redos. Every edit writes a
// name never used before, so that "dirty" has one right answer: the present
// name differs from the file's.
func FuzzUndo(f *testing.F) {
	f.Add("eese")     // merge into the saved state
	f.Add("epesuep")  // cut off a redo tail that holds the saved state
	f.Add("epesuuep") // the same from further back
	f.Add("esuersu")
	f.Add("eopeuure")
	f.Fuzz(func(t *testing.T, acts string) {
		if len(acts) > 200 {
			return
		}
		s, clock := newTestSession(t, weigh)
		file, edits := "start", 0
		for i, act := range acts {
			switch act {
			case 'e', 'w':
				edits++
				name := fmt.Sprint("edit ", edits)
				s.Edit(string(act), string(act), func(d *engine.Design) { d.Name = name })
				if got := s.Now().Design.Name; got != name {
					t.Fatalf("%q: name after edit %q; want %q", acts[:i+1], got, name)
				}
			case 'p':
				*clock = clock.Add(mergeTime)
			case 's':
				s.Saved("x", s.Now().Revision)
				file = s.Now().Design.Name
			case 'u':
				before := s.Now()
				s.Undo()
				if got := s.Now(); before.UndoLabel != "" && (got.RedoLabel != before.UndoLabel || got.Design.Name == before.Design.Name) {
					t.Fatalf("%q: undo of %q leads to %q with redo %q", acts[:i+1], before.UndoLabel, got.Design.Name, got.RedoLabel)
				}
				if before.UndoLabel != "" {
					s.Redo()
					if got := s.Now(); got.Design.Name != before.Design.Name || got.Dirty != before.Dirty {
						t.Fatalf("%q: undo and redo make %q, dirty %v of %q, %v", acts[:i+1], got.Design.Name, got.Dirty, before.Design.Name, before.Dirty)
					}
					s.Undo()
				}
			case 'r':
				s.Redo()
			case 'o':
				edits++
				file = fmt.Sprint("opened ", edits)
				s.Open(engine.Design{Name: file}, "y")
			}
			now := s.Now()
			if want := now.Design.Name != file; now.Dirty != want {
				t.Fatalf("%q: dirty %v with %q on screen and %q in the file", acts[:i+1], now.Dirty, now.Design.Name, file)
			}
		}
		waitIdle(t, s)
	})
}

func TestLatestWins(t *testing.T) {
	begun := make(chan float64, 10)
	var mu sync.Mutex
	var cancelled []float64
	s, _ := newTestSession(t, func(ctx context.Context, d engine.Design) (engine.Result, error) {
		if d.Length == 1 || d.Length == 4 {
			return weigh(ctx, d)
		}
		begun <- d.Length
		<-ctx.Done() // as a long computation that listens
		mu.Lock()
		cancelled = append(cancelled, d.Length)
		mu.Unlock()
		return engine.Result{}, ctx.Err()
	})
	var shown []float64 // masses shown as current
	s.Watch(func(snap Snapshot) {
		mu.Lock()
		defer mu.Unlock()
		if !snap.Stale {
			shown = append(shown, snap.Result.Mass.Total)
		}
	})
	setLength(s, 2)
	if got := <-begun; got != 2 {
		t.Fatalf("computing %v; want 2", got)
	}
	if now := s.Now(); !now.Stale || now.Result.Mass.Total != 1 {
		t.Errorf("while computing: stale %v, mass %v; want the old 1, as stale", now.Stale, now.Result.Mass.Total)
	}
	setLength(s, 4)
	waitIdle(t, s)
	mu.Lock()
	defer mu.Unlock()
	if !slices.Equal(cancelled, []float64{2}) {
		t.Errorf("cancelled %v; want [2]", cancelled)
	}
	if !slices.Equal(shown, []float64{1, 4}) {
		t.Errorf("shown as current %v; want [1 4]", shown)
	}
	if now := s.Now(); now.Err != nil || now.Stale {
		t.Errorf("err %v, stale %v; want none of the cancelled run's", now.Err, now.Stale)
	}
}

// A compute that does not listen to its context still cannot show an old
// result as the present one.
func TestOldResultIsDropped(t *testing.T) {
	gate := make(chan struct{})
	begun := make(chan struct{}, 1)
	s, _ := newTestSession(t, func(_ context.Context, d engine.Design) (engine.Result, error) {
		if d.Length == 2 {
			begun <- struct{}{}
			<-gate
		}
		return engine.Result{Mass: engine.MassReport{Total: d.Length}}, nil
	})
	setLength(s, 2)
	<-begun
	setLength(s, 3)
	var old atomic.Bool
	s.Watch(func(snap Snapshot) {
		if snap.Result.Mass.Total == 2 {
			old.Store(true)
		}
	})
	close(gate)
	waitIdle(t, s)
	if old.Load() {
		t.Error("the result of a design that was gone was shown")
	}
	if now := s.Now(); now.Result.Mass.Total != 3 || now.Stale {
		t.Errorf("mass %v, stale %v; want 3, false", now.Result.Mass.Total, now.Stale)
	}
}

func TestPanicInComputeKeepsTheWork(t *testing.T) {
	s, _ := newTestSession(t, func(ctx context.Context, d engine.Design) (engine.Result, error) {
		if d.Length == 13 {
			panic("thirteen")
		}
		return weigh(ctx, d)
	})
	var trace string
	s.crashed = func(value any, stack []byte) { trace = fmt.Sprint(value, "\n", string(stack)) }
	setLength(s, 13)
	waitIdle(t, s)
	now := s.Now()
	if !errors.Is(now.Err, ErrCrash) || now.Design.Length != 13 || !now.Stale {
		t.Errorf("err %v, length %v, stale %v; want a crash, 13, true", now.Err, now.Design.Length, now.Stale)
	}
	if !strings.HasPrefix(trace, "thirteen\n") || !strings.Contains(trace, "session_test.go") {
		t.Errorf("crash report %q does not say what and where", trace)
	}
	setLength(s, 14)
	waitIdle(t, s)
	if now := s.Now(); now.Err != nil || now.Result.Mass.Total != 14 {
		t.Errorf("after the next edit: err %v, mass %v; want none, 14", now.Err, now.Result.Mass.Total)
	}
}

func TestComputeErrorIsShown(t *testing.T) {
	bad := errors.New("no figures today")
	s, _ := newTestSession(t, func(ctx context.Context, d engine.Design) (engine.Result, error) {
		if d.Length == 2 {
			return engine.Result{}, bad
		}
		return weigh(ctx, d)
	})
	setLength(s, 2)
	waitIdle(t, s)
	if now := s.Now(); !errors.Is(now.Err, bad) || !now.Stale || now.Result.Mass.Total != 1 {
		t.Errorf("err %v, stale %v, mass %v; want the error and the old 1 as stale", now.Err, now.Stale, now.Result.Mass.Total)
	}
	s.Undo()
	waitIdle(t, s)
	if now := s.Now(); now.Err != nil {
		t.Errorf("err %v after undo; want none", now.Err)
	}
}

func TestEveryWatcherEndsWithTheNewest(t *testing.T) {
	s, _ := newTestSession(t, weigh)
	const hands, edits = 4, 50
	last := make([]Snapshot, 3)
	var mu sync.Mutex
	for i := range last {
		s.Watch(func(snap Snapshot) {
			mu.Lock()
			defer mu.Unlock()
			if snap.Revision >= last[i].Revision {
				last[i] = snap
			}
		})
	}
	var group sync.WaitGroup
	for hand := range hands {
		group.Go(func() {
			for i := range edits {
				s.Edit("grow", "", func(d *engine.Design) { d.Length += 1 })
				if i%10 == hand {
					s.SetLengths(length.Format{Imperial: i%2 == 0})
				}
			}
		})
	}
	group.Wait()
	waitIdle(t, s)
	mu.Lock()
	defer mu.Unlock()
	for i, snap := range last {
		if snap.Design.Length != 1+hands*edits {
			t.Errorf("watcher %d ends with length %v; want %d", i, snap.Design.Length, 1+hands*edits)
		}
	}
	if now := s.Now(); now.Result.Mass.Total != 1+hands*edits || now.Stale {
		t.Errorf("mass %v, stale %v; want %d, false", now.Result.Mass.Total, now.Stale, 1+hands*edits)
	}
}

func TestLengthsLeaveTheDesignAlone(t *testing.T) {
	s, _ := newTestSession(t, weigh)
	before := s.Now()
	for i := range 100 {
		s.SetLengths(length.Format{Imperial: i%2 == 0, Denominator: 16 << (i % 3)})
	}
	now := s.Now()
	if now.Revision != before.Revision || now.Dirty || now.UndoLabel != "" {
		t.Errorf("a hundred changes of unit: revision %d, dirty %v, undo %q; want %d, false, empty",
			now.Revision, now.Dirty, now.UndoLabel, before.Revision)
	}
}

func TestBackground(t *testing.T) {
	s, _ := newTestSession(t, weigh)
	fault := errors.New("disk full")
	for _, tc := range []struct {
		name   string
		work   func(context.Context) error
		cancel bool
		want   error
	}{
		{"done", func(context.Context) error { return nil }, false, nil},
		{"failed", func(context.Context) error { return fault }, false, fault},
		{"cancelled", func(ctx context.Context) error { <-ctx.Done(); return ctx.Err() }, true, context.Canceled},
		{"crashed", func(context.Context) error { panic("ouch") }, false, ErrCrash},
	} {
		t.Run(tc.name, func(t *testing.T) {
			got := errors.New("done was not called")
			cancel := s.Background(tc.work, func(err error) { got = err })
			if tc.cancel {
				cancel()
			}
			waitIdle(t, s)
			if !errors.Is(got, tc.want) {
				t.Errorf("done(%v); want %v", got, tc.want)
			}
		})
	}
}

func TestFocus(t *testing.T) {
	s, _ := newTestSession(t, weigh)
	var told []Focus
	s.WatchFocus(func(f Focus) { told = append(told, f) })
	s.Select("L1")
	s.Hover("C2")
	s.Hover("C2")
	s.ShowField("length")
	s.ShowField("length")
	s.Select("L1")
	s.PickCase(2)
	s.Select("load 1.0")
	s.Select("L1")
	s.PickCase(-3)
	want := []Focus{
		{Case: -1},
		{Part: "L1", Case: -1},
		{Part: "L1", Hover: "C2", Case: -1},
		{Part: "L1", Hover: "C2", Field: "length", Case: -1},
		{Part: "L1", Hover: "C2", Field: "length", Case: -1},
		{Part: "L1", Hover: "C2", Case: -1},
		{Part: "L1", Hover: "C2", Case: 2},
		{Part: "load 1.0", Hover: "C2", Case: 1},
		{Part: "L1", Hover: "C2", Case: 1},
		{Part: "L1", Hover: "C2", Case: -1},
	}
	if !slices.Equal(told, want) {
		t.Errorf("told %+v; want %+v", told, want)
	}
	s.Open(engine.Design{}, "")
	if got := s.Focus(); got != (Focus{Case: -1}) {
		t.Errorf("focus %+v after opening another design; want none", got)
	}
	waitIdle(t, s)
}

func TestDetach(t *testing.T) {
	s, _ := newTestSession(t, weigh)
	setLength(s, 2)
	s.Detach()
	if now := s.Now(); now.Path != "" || !now.Dirty || now.Design.Length != 2 {
		t.Errorf("path %q, dirty %v, length %v; want no path, dirty, 2", now.Path, now.Dirty, now.Design.Length)
	}
	s.Undo()
	if now := s.Now(); !now.Dirty || now.Design.Length != 1 {
		t.Errorf("after undo: dirty %v, length %v; want dirty: no file holds it", now.Dirty, now.Design.Length)
	}
	s.Open(engine.Design{}, "")
	s.Detach()
	if s.Now().Dirty {
		t.Error("parting a fresh design from no file made it look changed")
	}
	waitIdle(t, s)
}

// Work that is cancelled while its answer waits to be told has no answer.
func TestBackgroundCancelledBeforeItIsTold(t *testing.T) {
	queue := make(chan func(), 1)
	s := NewSession(func(f func()) { queue <- f }, weigh)
	told := errors.New("nothing told")
	cancel := s.Background(func(context.Context) error { return nil }, func(err error) { told = err })
	tell := <-queue
	cancel()
	tell()
	if !errors.Is(told, context.Canceled) {
		t.Errorf("it is told %v; want that it was cancelled", told)
	}
}
