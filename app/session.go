package app

import (
	"context"
	"errors"
	"reflect"
	"sync"
	"time"

	"flatwright/engine"
	"flatwright/engine/length"
)

// Snapshot is the state of a session at one moment: all that a view shows. It
// is read, never changed.
type Snapshot struct {
	Design    engine.Design
	Result    engine.Result
	Revision  int           // of the design; it grows with every change
	Stale     bool          // Result belongs to an older design, or to none
	Trying    bool          // what single steps would change is being computed by the whole panel
	Tried     float64       // how much of that is done, 0..1
	Finer     bool          // the same design is going to be computed more finely
	Err       error         // why the present design could not be computed
	Path      string        // of the design's file, "" if it has none
	Dirty     bool          // the design differs from its file
	UndoLabel string        // what Undo would take back, "" if nothing
	RedoLabel string        // what Redo would do again, "" if nothing
	Lengths   length.Format // how lengths are shown
	Cut       CutState      // how the parts come out of sheets, once that is wanted
	Unread    string        // label of a field whose text cannot be read, "" if all can: the design is that of an older text
}

// old reports whether the figures are those of another design than the one that
// is being asked for.
func (s Snapshot) old() bool { return s.Stale || s.Unread != "" }

// Focus is what the person points at. The drawing, the form and the tables
// share it. Empty strings are nothing.
type Focus struct {
	Part  string      // picked, a [engine.Part] ID
	Hover string      // under the pointer, a [engine.Part] ID
	Field string      // whose control is asked for, a JSON path as in [engine.Problem]
	Case  int         // load case that the drawing shows, -1 for the governing one
	Spot  engine.Spot // pointed out in the drawing, no text is none
	Of    int         // revision whose result the spot belongs to; on any other it means nothing
}

// nowhere is the focus of a design just opened.
var nowhere = Focus{Case: -1}

// mergeTime is how long edits of one field count as one step of undo.
const mergeTime = time.Second

// maxSteps bounds the line of undo; the oldest steps fall off.
const maxSteps = 500

// step is one design on the line of undo and the edit that led to it.
type step struct {
	design engine.Design
	label  string
	field  string
	at     time.Time
	drag   bool // field names one gesture of the hand
	hurry  bool // one of many to come soon: computed as while a hand drags, and once more at rest
}

// Session holds the design under work, computes it in the background and
// tells its watchers. Views call [Session.Edit] and show snapshots; they never
// call each other.
//
// Its methods may be called from any goroutine. Watchers are called on the
// caller's goroutine, or through start when the worker has something new; in
// the window both are the goroutine of the toolkit.
type Session struct {
	start   func(func())
	compute func(context.Context, engine.Design) (engine.Result, error)
	refine  func(context.Context, engine.Design, engine.Result) (engine.Result, error)                     // nil if there is nothing finer
	whatIf  func(context.Context, engine.Design, engine.Result, func(done, of int)) (engine.Result, error) // once there is nothing finer; nil is never
	quick   func(context.Context, engine.Design) (engine.Result, error)                                    // compute while a hand drags; nil is no other
	clock   func() time.Time
	crashed func(value any, stack []byte)
	finish  func() // makes the edit that a view still holds back; called before undo and redo
	jobs    jobs

	mu       sync.Mutex
	steps    []step
	cursor   int // the present step
	saved    int // the step that is in the file, -1 if none is
	path     string
	lengths  length.Format
	revision int

	result   engine.Result
	resultOf int // revision that result belongs to, 0 is none
	err      error
	errOf    int     // revision that err belongs to
	tryOf    int     // revision whose single steps are being computed, 0 is none
	tried    float64 // share done of them
	finerOf  int     // revision that is going to be computed more finely, 0 is none

	unread []doubt // fields whose text cannot be read

	cut cutting

	running bool // the worker is under way
	hand    bool // drags: results are wanted soon rather than fine
	cancel  context.CancelFunc

	focus    Focus
	watchers []func(Snapshot)
	pointers []func(Focus)
}

// NewSession returns a session without a design; [Session.Open] gives it one.
// compute works the design out and must heed its context; start runs a
// function on the goroutine that the watchers live on.
func NewSession(start func(func()), compute func(context.Context, engine.Design) (engine.Result, error)) *Session {
	return &Session{
		start:   start,
		compute: compute,
		clock:   time.Now,
		crashed: func(any, []byte) {},
		finish:  func() {},
		steps:   []step{{}},
		focus:   nowhere,
	}
}

// Now returns the present state.
func (s *Session) Now() Snapshot {
	s.mu.Lock()
	defer s.mu.Unlock()
	snap := Snapshot{
		Design:   s.steps[s.cursor].design,
		Result:   s.result,
		Revision: s.revision,
		Stale:    s.resultOf == 0 || s.resultOf != s.revision,
		Trying:   s.tryOf != 0 && s.tryOf == s.revision,
		Tried:    s.tried,
		Finer:    s.finerOf != 0 && s.finerOf == s.revision,
		Path:     s.path,
		Dirty:    s.saved != s.cursor,
		Lengths:  s.lengths,
	}
	snap.Cut = s.cut.CutState
	if n := len(s.unread); n > 0 {
		snap.Unread = s.unread[n-1].label
	}
	if s.errOf == s.revision {
		snap.Err = s.err
	}
	if s.cursor > 0 {
		snap.UndoLabel = s.steps[s.cursor].label
	}
	if s.cursor+1 < len(s.steps) {
		snap.RedoLabel = s.steps[s.cursor+1].label
	}
	return snap
}

// Watch calls show with the present state and again after every change. show
// must not call Edit.
func (s *Session) Watch(show func(Snapshot)) {
	s.mu.Lock()
	s.watchers = append(s.watchers, show)
	s.mu.Unlock()
	show(s.Now())
}

// tell shows the newest state to every watcher. Each gets the state of its own
// moment, so that none is left with an old one.
func (s *Session) tell() {
	s.mu.Lock()
	watchers := s.watchers
	s.mu.Unlock()
	for _, show := range watchers {
		show(s.Now())
	}
}

// Edit changes a copy of the design and makes it the present one. label is
// what the Undo menu says, as "rib spacing". Edits of the same field, named by
// its JSON path, merge into one step while they come within a second of each
// other; an edit with no field never merges. A change that changes nothing is
// no step.
func (s *Session) Edit(label, field string, change func(*engine.Design)) {
	if s.edit(step{label: label, field: field}, change) {
		s.tell()
	}
}

// Drag is [Session.Edit] for one gesture of the hand: edits with the same
// gesture merge into one step, however long it takes, and are computed in a
// hurry until [Session.Drop]. A gesture that ends where it began leaves no step.
func (s *Session) Drag(label, gesture string, change func(*engine.Design)) {
	if s.edit(step{label: label, field: gesture, drag: true}, change) {
		s.tell()
	}
}

// Nudge is [Session.Edit] for one of many small steps, as a held key makes them:
// it is computed in a hurry, and as it is at rest once no other follows.
func (s *Session) Nudge(label, field string, change func(*engine.Design)) {
	if s.edit(step{label: label, field: field, hurry: true}, change) {
		s.tell()
	}
}

// Drop ends a gesture: the design is computed as it is at rest.
func (s *Session) Drop() {
	s.mu.Lock()
	again := s.hand && s.quick != nil
	s.hand = false
	if again {
		s.recompute()
	}
	s.mu.Unlock()
	if again {
		s.tell()
	}
}

func (s *Session) edit(next step, change func(*engine.Design)) (changed bool) {
	s.mu.Lock()
	defer s.mu.Unlock() // also when change meets a fault: the work stays in reach
	before := s.steps[s.cursor].design
	design := before.Clone()
	change(&design)
	if reflect.DeepEqual(design, before.Clone()) {
		return false
	}
	next.design, next.at = design, s.clock()
	s.put(next)
	s.hand = s.hand || next.drag
	s.recompute()
	return true
}

// put makes next the present step and cuts off what could have been redone.
// It is called with mu held.
func (s *Session) put(next step) {
	last := s.steps[s.cursor]
	atEnd := s.cursor == len(s.steps)-1
	merges := next.field != "" && next.field == last.field && (next.drag && last.drag || next.at.Sub(last.at) < mergeTime)
	// The state in the file keeps its step: a changed design must not take
	// its place and look saved.
	if merges && atEnd && s.cursor > 0 && s.cursor != s.saved {
		next.label = last.label
		s.steps[s.cursor] = next
		if next.drag && reflect.DeepEqual(next.design, s.steps[s.cursor-1].design.Clone()) {
			s.steps = s.steps[:s.cursor]
			s.cursor--
		}
		return
	}
	if s.saved > s.cursor {
		s.saved = -1
	}
	s.steps = append(s.steps[:s.cursor+1:s.cursor+1], next)
	s.cursor++
	if over := len(s.steps) - maxSteps; over > 0 {
		s.steps = s.steps[over:]
		s.cursor -= over
		s.saved = max(s.saved-over, -1)
	}
}

// Undo goes back one step, if there is one.
func (s *Session) Undo() { s.move(-1) }

// Redo goes forward one step, if there is one.
func (s *Session) Redo() { s.move(1) }

func (s *Session) move(by int) {
	s.finish()
	s.mu.Lock()
	to := s.cursor + by
	if to < 0 || to >= len(s.steps) {
		s.mu.Unlock()
		return
	}
	s.cursor = to
	s.steps[to].field = "" // the next edit is a step of its own
	s.recompute()
	s.mu.Unlock()
	s.tell()
}

// Open starts a new line of undo with d, which is what the file at path holds.
// path is "" for a design that has no file yet.
func (s *Session) Open(d engine.Design, path string) { s.begin(d, path, 0) }

// Recover starts a new line of undo with d, which is not yet in the file at
// path: it is dirty from the start.
func (s *Session) Recover(d engine.Design, path string) { s.begin(d, path, -1) }

func (s *Session) begin(d engine.Design, path string, saved int) {
	s.mu.Lock()
	s.steps = []step{{design: d.Clone()}}
	s.cursor = 0
	s.saved = saved
	s.path = path
	s.result, s.resultOf = engine.Result{}, 0
	s.dropCut()
	s.unread = nil
	s.focus = nowhere
	s.recompute()
	s.mu.Unlock()
	s.tell()
	s.tellFocus()
}

// Saved says that the file at path now holds the design of the given revision.
// If the design has changed since, it stays dirty.
func (s *Session) Saved(path string, revision int) {
	s.mu.Lock()
	s.path = path
	s.saved = -1
	if revision == s.revision {
		s.saved = s.cursor
	}
	s.mu.Unlock()
	s.tell()
}

// Detach parts the design from its file: it is another design now, and saving
// it must not replace the old one unasked.
func (s *Session) Detach() {
	s.mu.Lock()
	if s.path != "" {
		s.path, s.saved = "", -1
	}
	s.mu.Unlock()
	s.tell()
}

// SetLengths changes how lengths are shown. The design stays as it is.
func (s *Session) SetLengths(f length.Format) {
	s.mu.Lock()
	s.lengths = f
	s.mu.Unlock()
	s.tell()
}

// recompute counts a new revision and sees to it that it is computed. It is
// called with mu held.
func (s *Session) recompute() {
	s.revision++
	if s.cancel != nil {
		s.cancel()
	}
	if s.running {
		return // the worker goes on with the newest when it comes round
	}
	s.running = true
	s.jobs.begin(s.work)
}

// work computes until the newest design is done. Only one runs at a time.
func (s *Session) work() {
	for done := 0; ; {
		s.mu.Lock()
		if done == s.revision {
			s.running = false
			s.mu.Unlock()
			return
		}
		done = s.revision
		design := s.steps[s.cursor].design.Clone()
		compute := s.compute
		hurry := s.quick != nil && !s.hand && s.steps[s.cursor].hurry
		if s.quick != nil && (s.hand || hurry) {
			compute = s.quick
		}
		ctx, cancel := context.WithCancel(context.Background())
		s.cancel = cancel
		s.mu.Unlock()

		var result engine.Result
		err := s.guard(func() (err error) {
			result, err = compute(ctx, design)
			return err
		})
		finer := err == nil && (s.refine != nil || hurry) && !result.Blocked()
		if finer {
			s.mu.Lock()
			s.finerOf = done
			s.mu.Unlock()
		}
		s.post(func() { s.take(done, result, err) })
		if finer {
			s.finer(ctx, done, design, result, hurry)
		}
		cancel()
	}
}

// take stores what became of a revision, unless a newer one is under way.
func (s *Session) take(revision int, result engine.Result, err error) {
	s.mu.Lock()
	if revision != s.revision {
		s.mu.Unlock()
		return
	}
	if err != nil {
		s.err, s.errOf = err, revision
	} else {
		s.result, s.resultOf = result, revision
		s.layOut()
	}
	s.mu.Unlock()
	s.tell()
}

// Background runs work on a goroutine of its own and done, with work's error,
// on the watchers' goroutine. The returned function cancels work's context.
func (s *Session) Background(work func(context.Context) error, done func(error)) (cancel func()) {
	ctx, cancel := context.WithCancel(context.Background())
	s.jobs.begin(func() {
		err := s.guard(func() error { return work(ctx) })
		s.post(func() {
			if err == nil {
				err = ctx.Err() // also of what was cancelled while its answer waited to be told
			}
			cancel()
			done(err)
		})
	})
	return cancel
}

// post runs f on the watchers' goroutine and counts it as work until it ran.
func (s *Session) post(f func()) {
	s.jobs.add()
	s.start(func() {
		defer s.jobs.done()
		f()
	})
}

// ErrCrash is the error of work that stopped by a fault of the program.
var ErrCrash = errors.New("the program met a fault of its own")

// WaitIdle waits until nothing is being computed and everything that was has
// been shown, or until ctx is done.
func (s *Session) WaitIdle(ctx context.Context) error {
	select {
	case <-s.Idle():
		return nil
	case <-ctx.Done():
		return ctx.Err()
	}
}

// Idle returns a channel that is closed once nothing is under way.
func (s *Session) Idle() <-chan struct{} { return s.jobs.idle() }
