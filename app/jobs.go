package app

import (
	"fmt"
	"runtime/debug"
	"sync"
)

// jobs counts work that is under way. It is the one place in this package that
// starts a goroutine, and it counts the work before it starts, so that "idle"
// has no gap.
type jobs struct {
	mu    sync.Mutex
	count int
	quiet chan struct{} // closed when count falls to 0; nil while nobody waits
}

// begin runs work on a goroutine of its own.
func (j *jobs) begin(work func()) {
	j.add()
	go func() {
		defer j.done()
		work()
	}()
}

func (j *jobs) add() {
	j.mu.Lock()
	j.count++
	j.mu.Unlock()
}

func (j *jobs) done() {
	j.mu.Lock()
	defer j.mu.Unlock()
	j.count--
	if j.count == 0 && j.quiet != nil {
		close(j.quiet)
		j.quiet = nil
	}
}

// idle returns a channel that is closed once the count is 0.
func (j *jobs) idle() <-chan struct{} {
	j.mu.Lock()
	defer j.mu.Unlock()
	if j.count == 0 {
		closed := make(chan struct{})
		close(closed)
		return closed
	}
	if j.quiet == nil {
		j.quiet = make(chan struct{})
	}
	return j.quiet
}

// guard runs work and turns a panic in it into ErrCrash, after handing the
// trace to the crash handler.
func (s *Session) guard(work func() error) (err error) {
	defer func() {
		if value := recover(); value != nil {
			s.crashed(value, debug.Stack())
			err = fmt.Errorf("%w: %v", ErrCrash, value)
		}
	}()
	return work()
}
