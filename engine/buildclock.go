package engine

import (
	"fmt"
	"math"
	"slices"
	"time"
)

// StepLog is what happened at one build step. Times are instants with their
// zone ([time.RFC3339]), so that neither midnight nor daylight saving moves them.
type StepLog struct {
	Step  string `json:"step"`            // as [BuildStep.Key]
	Began string `json:"began,omitempty"` // "" is not yet
	Ended string `json:"ended,omitempty"`
	Note  string `json:"note,omitempty"`

	Celsius  float64 `json:"celsius,omitempty"` // of shop and glue during the step, if Measured
	Measured bool    `json:"measured,omitempty"`
}

// StepState is how far a build step is.
type StepState uint8

// The states.
const (
	StepAhead StepState = iota
	StepUnderWay
	StepDone
)

// BuildClock is where a build stands at one moment.
type BuildClock struct {
	Steps []ClockStep
	Next  int // index of the step that is under way or comes next; as many as there are steps when all are done

	// OpenFrom is when the glue that lies open was first spread, OpenSoon when its
	// open time may be over by the low figure of its table, OpenLate by the high
	// one. Zero while no spread glue lies open.
	OpenFrom, OpenSoon, OpenLate time.Time

	LoadFrom time.Time // nothing heavy on it before; from actual times as far as there are any
}

// ClockStep is one step with its actual and expected times.
type ClockStep struct {
	BuildStep
	State  StepState
	Began  time.Time // actual, or expected while it is ahead
	Ended  time.Time // actual; zero before
	Early  time.Time // when it may be over, by the low duration
	Late   time.Time // when it should be over, by the high duration
	Note   string
	Factor float64 // by which the glue's times are stretched at the temperature of the step
	Open   float64 // by which its open time is
}

// logOf returns what is noted of a step.
func (d Design) logOf(key string) StepLog {
	for _, l := range d.Log {
		if l.Step == key {
			return l
		}
	}
	return StepLog{Step: key}
}

// begun reports whether a time is noted of any step; a remark alone is none.
func (d Design) begun() bool {
	return slices.ContainsFunc(d.Log, func(l StepLog) bool { return l.Began != "" || l.Ended != "" })
}

// noted tells from when on the top may be loaded by the times noted so far, as if the
// steps ahead followed at once upon the last of them; "" while none is noted.
func (d Design) noted(r Result) string {
	var last time.Time
	for _, l := range d.Log {
		for _, text := range [...]string{l.Began, l.Ended} {
			if at, err := time.Parse(time.RFC3339, text); err == nil && at.After(last) {
				last = at
			}
		}
	}
	if last.IsZero() {
		return ""
	}
	return "By the times noted so far: nothing on it before " + DayText(d.Clock(r, last).LoadFrom) + "."
}

// Clock tells where the build of a design stands at a moment: a pure function of
// both. Steps ahead are expected from now on, or from the planned start if that
// is later, one after the other, each taking the longer of its durations. Waits and open
// times are reckoned from the actual start and, where it was measured, from the
// actual temperature. Times that cannot be read count as not noted.
func (d Design) Clock(r Result, now time.Time) BuildClock {
	c := BuildClock{Next: len(r.Build.Steps)}
	free := now // when the next step ahead can begin
	if start, err := time.ParseInLocation(ClockLayout, d.Shop.Start, now.Location()); err == nil && start.After(now) && !d.begun() {
		free = start
	}
	for i, s := range r.Build.Steps {
		l := d.logOf(s.Key)
		step := ClockStep{BuildStep: s, Note: l.Note, Factor: d.stepFactor(l)}
		step.Open, _ = d.openFactor(d.stepCelsius(l))
		if s.Cures {
			planned := cureFactor(d.glue(), d.Shop.Temperature)
			step.Low, step.High = s.Low/planned*step.Factor, s.High/planned*step.Factor
		}
		began, ended := instant(l.Began, now), instant(l.Ended, now)
		switch {
		case began.IsZero():
			step.Began = free
		case ended.IsZero():
			step.State, step.Began = StepUnderWay, began
		default:
			step.State, step.Began, step.Ended = StepDone, began, ended
		}
		step.Early, step.Late = after(step.Began, step.Low), after(step.Began, step.High)
		if step.State != StepDone {
			c.Next = min(c.Next, i)
			free = latest(free, step.Late)
		}
		c.Steps = append(c.Steps, step)
	}
	c.openTime(d)
	c.LoadFrom = c.loadFrom()
	return c
}

// openTime finds the spread glue that no clamp has closed yet.
func (c *BuildClock) openTime(d Design) {
	g := d.glue()
	for i, s := range c.Steps {
		if !s.Spreads || s.State == StepAhead {
			continue
		}
		if i+1 < len(c.Steps) && c.Steps[i+1].State == StepDone {
			continue // closed and clamped
		}
		c.OpenFrom = s.Began
		c.OpenSoon, c.OpenLate = after(s.Began, g.OpenTime.Low*s.Open), after(s.Began, g.OpenTime.High*s.Open)
		return
	}
}

// loadFrom is the end of the last wait.
func (c *BuildClock) loadFrom() time.Time {
	for i := len(c.Steps) - 1; i >= 0; i-- {
		if s := c.Steps[i]; s.Wait {
			return s.Late
		}
	}
	return time.Time{}
}

// stepFactor is by how much the glue's times stretch at a step.
func (d Design) stepFactor(l StepLog) float64 {
	return cureFactor(d.glue(), d.stepCelsius(l))
}

// stepCelsius is how warm it was during a step, or is to be.
func (d Design) stepCelsius(l StepLog) float64 {
	if l.Measured {
		return l.Celsius
	}
	return d.Shop.Temperature
}

// Warning says what presses at a moment, "" if nothing does, and whether it is
// too late already.
func (c BuildClock) Warning(now time.Time) (text string, late bool) {
	if c.OpenFrom.IsZero() {
		return "", false
	}
	switch {
	case !now.Before(c.OpenLate):
		return fmt.Sprintf("The open time of the glue has been over since %s. A joint closed now may not hold: scrape the glue off and spread anew, or mark the rib as not glued.", momentText(c.OpenLate, now)), true
	case !now.Before(c.OpenSoon):
		return fmt.Sprintf("Close the joint now: the glue may skin over from now on, and surely by %s.", ClockText(c.OpenLate)), true
	}
	left := c.OpenSoon.Sub(now)
	return fmt.Sprintf("Glue lies open: close the joint within %s, by %s.", LeftText(left), ClockText(c.OpenSoon)), left < c.OpenSoon.Sub(c.OpenFrom)/4
}

// ClockText prints the time of day.
func ClockText(t time.Time) string { return t.Format("15:04") }

// momentText prints the time of day, with the day where it is not today.
func momentText(t, now time.Time) string {
	if t.YearDay() == now.YearDay() && t.Year() == now.Year() {
		return ClockText(t)
	}
	return DayText(t)
}

// DayText prints the day and the time of day.
func DayText(t time.Time) string { return t.Format("Mon 2 Jan 15:04") }

// LeftText prints how long something takes yet, to the minute, the last five
// minutes to the second.
func LeftText(d time.Duration) string {
	if d < 0 {
		d = 0
	}
	switch {
	case d < 5*time.Minute:
		return fmt.Sprintf("%d:%02d min", int(d.Minutes()), int(d.Seconds())%60)
	case d < 2*time.Hour:
		return fmt.Sprintf("%d min", int(math.Ceil(d.Minutes())))
	}
	return fmt.Sprintf("%d h %02d min", int(d.Hours()), int(d.Minutes())%60)
}

// instant reads a noted time; zero if there is none.
func instant(s string, now time.Time) time.Time {
	t, err := time.Parse(time.RFC3339, s)
	if err != nil {
		return time.Time{}
	}
	return t.In(now.Location())
}

// after is t and so many minutes.
func after(t time.Time, minutes float64) time.Time {
	return t.Add(time.Duration(minutes * float64(time.Minute)))
}

func latest(a, b time.Time) time.Time {
	if b.After(a) {
		return b
	}
	return a
}

// Begin notes that a step begins at a moment.
func (d *Design) Begin(step string, at time.Time) {
	d.note(step, func(l *StepLog) { l.Began, l.Ended = at.Format(time.RFC3339), "" })
}

// Finish notes that a step is over. One that was never begun began then, too.
func (d *Design) Finish(step string, at time.Time) {
	d.note(step, func(l *StepLog) {
		l.Ended = at.Format(time.RFC3339)
		if l.Began == "" {
			l.Began = l.Ended
		}
	})
}

// Remark keeps a note to a step.
func (d *Design) Remark(step, text string) { d.note(step, func(l *StepLog) { l.Note = text }) }

// note changes what is noted of a step.
func (d *Design) note(step string, change func(*StepLog)) {
	for i := range d.Log {
		if d.Log[i].Step == step {
			change(&d.Log[i])
			return
		}
	}
	l := StepLog{Step: step}
	change(&l)
	d.Log = append(d.Log, l)
}
