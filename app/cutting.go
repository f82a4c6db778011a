package app

import (
	"context"
	"reflect"

	"flatwright/engine"
)

// CutState is how far the layout of the parts on sheets is.
type CutState struct {
	Plan    engine.CutPlan
	Found   bool    // there is a plan
	Running bool    // a better one is being looked for
	Done    float64 // how far that is, 0..1
	Stopped bool    // by the person, before the search was over
	Old     bool    // the plan is of another design than the present one: nobody looks at it
}

// cutting is the search for a layout, beside the computing of the panel: it
// starts once somebody looks at it and begins anew only when what is cut, or
// what it is cut from, has changed.
type cutting struct {
	CutState
	wanted  bool
	input   engine.CutInput
	search  int // which one is under way or was last; a late answer of another is dropped
	cancel  context.CancelFunc
	waiting bool // the watchers are yet to be told
}

// WantCut says whether somebody looks at the layout. One that has begun goes on
// without being looked at.
func (s *Session) WantCut(wanted bool) {
	s.mu.Lock()
	s.cut.wanted = wanted
	s.layOut()
	s.mu.Unlock()
	if wanted {
		s.tell()
	}
}

// StopCut ends the search; the best plan found stays.
func (s *Session) StopCut() {
	s.mu.Lock()
	if s.cut.Running {
		s.cut.cancel()
		s.cut.Stopped = true
	}
	s.mu.Unlock()
	s.tell()
}

// SearchCut begins the search anew.
func (s *Session) SearchCut() {
	s.mu.Lock()
	s.cut.input = engine.CutInput{}
	s.layOut()
	s.mu.Unlock()
	s.tell()
}

// dropCut forgets the layout, which is that of another design. It is called with
// mu held.
func (s *Session) dropCut() {
	if s.cut.cancel == nil {
		return // none was begun
	}
	s.cut.cancel()
	s.cut = cutting{wanted: s.cut.wanted, search: s.cut.search + 1}
}

// layOut begins a search if the layout is wanted and not that of the present
// design. It is called with mu held.
func (s *Session) layOut() {
	if s.resultOf != s.revision {
		return
	}
	if s.result.Blocked() {
		s.dropCut()
		return
	}
	if !s.cut.wanted && s.cut.cancel == nil {
		return
	}
	in := s.steps[s.cursor].design.CutInput()
	s.cut.Old = !reflect.DeepEqual(in, s.cut.input)
	if !s.cut.Old || !s.cut.wanted {
		return
	}
	if s.cut.cancel != nil {
		s.cut.cancel()
	}
	ctx, cancel := context.WithCancel(context.Background())
	search := s.cut.search + 1
	s.cut = cutting{CutState: CutState{Running: true}, wanted: true, input: in, search: search, cancel: cancel}
	s.jobs.begin(func() {
		plan, err := engine.CutPlan{}, error(nil)
		fault := s.guard(func() error {
			plan, err = engine.PlanCut(ctx, in, func(p engine.CutPlan, done float64) { s.toldCut(search, p, done) })
			return err
		})
		cancel()
		s.mu.Lock()
		if s.cut.search == search {
			if err == nil && fault == nil {
				s.cut.Plan, s.cut.Found = plan, true
			}
			s.cut.Running, s.cut.Done = false, 1
		}
		s.mu.Unlock()
		s.post(s.tell)
	})
}

// PlanOf returns the layout of a design's parts, nil if it is not found, the
// search is not over, or it was stopped before every part was laid out once.
func (s *Session) PlanOf(d engine.Design) *engine.CutPlan {
	s.mu.Lock()
	defer s.mu.Unlock()
	if !s.cut.Found || s.cut.Running || !s.cut.Plan.Whole() || !reflect.DeepEqual(d.CutInput(), s.cut.input) {
		return nil
	}
	plan := s.cut.Plan
	return &plan
}

// toldCut takes a better plan, or how far the search is, and has the watchers
// told once, however often that comes before they are.
func (s *Session) toldCut(search int, p engine.CutPlan, done float64) {
	s.mu.Lock()
	if s.cut.search != search {
		s.mu.Unlock()
		return
	}
	s.cut.Plan, s.cut.Found, s.cut.Done = p, true, done
	told := s.cut.waiting
	s.cut.waiting = true
	s.mu.Unlock()
	if told {
		return
	}
	s.post(func() { // not with mu held: it may run at once
		s.mu.Lock()
		s.cut.waiting = false
		s.mu.Unlock()
		s.tell()
	})
}
