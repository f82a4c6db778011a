package nest

import "context"

// work counts what has been spent and notices when it is enough. The context
// is looked at every few thousand steps, so that a cancelled search returns
// within milliseconds; nothing else depends on the clock.
type work struct {
	ctx       context.Context
	spent     int64
	limit     int64 // where the present task has to stop
	next      int64 // when to look at ctx again
	cancelled bool
	watch     func(spent int64)
}

// between looks at the context is how many steps.
const between = 1 << 14

// more counts steps and reports whether to go on.
func (w *work) more(steps int) bool {
	w.spent += int64(steps)
	if w.spent >= w.next {
		w.next = w.spent + between
		if w.ctx.Err() != nil {
			w.cancelled = true
		}
		if w.watch != nil {
			w.watch(w.spent)
		}
	}
	return !w.cancelled && w.spent < w.limit
}
