package app

import (
	"context"
	"time"

	"flatwright/engine"
)

// restTime is how long a design must stay as it is before it is computed more
// finely.
const restTime = 400 * time.Millisecond

// rest waits for restTime and reports whether ctx still stands.
func rest(ctx context.Context) bool {
	wait := time.NewTimer(restTime)
	defer wait.Stop()
	select {
	case <-ctx.Done():
		return false
	case <-wait.C:
		return true
	}
}

// finer computes the same design more finely, unless it changes meanwhile: what
// was computed in a hurry first as it is at rest. What fails leaves the result
// there is.
func (s *Session) finer(ctx context.Context, revision int, design engine.Design, result engine.Result, hurried bool) {
	if !rest(ctx) {
		return
	}
	try := func(compute func() (engine.Result, error)) {
		var better engine.Result
		err := s.guard(func() (err error) {
			better, err = compute()
			return err
		})
		if err == nil {
			result = better
		}
	}
	if hurried {
		try(func() (engine.Result, error) { return s.compute(ctx, design) })
		normal := result
		s.post(func() { s.take(revision, normal, nil) })
	}
	if s.refine != nil {
		try(func() (engine.Result, error) { return s.refine(ctx, design, result) })
	}
	whatIf := s.whatIf != nil && result.Whole != nil && ctx.Err() == nil
	s.mu.Lock()
	if s.finerOf == revision {
		s.finerOf = 0
	}
	if whatIf {
		s.tryOf, s.tried = revision, 0
	}
	s.mu.Unlock()
	finest := result
	s.post(func() { s.take(revision, finest, nil) })
	if !whatIf {
		return
	}
	try(func() (engine.Result, error) {
		return s.whatIf(ctx, design, result, func(done, of int) { s.tell10(revision, float64(done)/float64(of)) })
	})
	s.mu.Lock()
	if s.tryOf == revision {
		s.tryOf = 0
	}
	s.mu.Unlock()
	s.post(func() { s.take(revision, result, nil) })
}

// tell10 tells the watchers at every tenth how far the single steps are.
func (s *Session) tell10(revision int, share float64) {
	s.mu.Lock()
	news := s.tryOf == revision && int(10*share) > int(10*s.tried)
	if s.tryOf == revision {
		s.tried = share
	}
	s.mu.Unlock()
	if news {
		s.post(s.tell)
	}
}
