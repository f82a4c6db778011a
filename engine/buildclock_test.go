package engine

import (
	"bytes"
	"context"
	"strings"
	"testing"
	"time"
	_ "time/tzdata" // a zone with daylight saving on any machine
)

// clockTop is the demo with a glue of known times, its result, and a zone.
func clockTop(t *testing.T) (Design, Result, *time.Location) {
	t.Helper()
	d := Demo()
	r, err := Estimate(context.Background(), d)
	if err != nil {
		t.Fatal(err)
	}
	zone, err := time.LoadLocation("Europe/Berlin")
	if err != nil {
		t.Fatal(err)
	}
	return d, r, zone
}

// stepAt returns a step of a clock by its key.
func stepAt(t *testing.T, c BuildClock, key string) ClockStep {
	t.Helper()
	for _, s := range c.Steps {
		if s.Key == key {
			return s
		}
	}
	t.Fatalf("there is no step %s", key)
	return ClockStep{}
}

func TestClockBeforeAnything(t *testing.T) {
	t.Parallel()
	d, r, zone := clockTop(t)
	start, err := time.ParseInLocation(ClockLayout, d.Shop.Start, zone)
	if err != nil {
		t.Fatal(err)
	}
	c := d.Clock(r, start.Add(-time.Hour))
	if c.Next != 0 || !c.Steps[0].Began.Equal(start) || c.Steps[0].State != StepAhead {
		t.Errorf("an hour early the first step begins at %v; want the planned %v", c.Steps[0].Began, start)
	}
	// The plan and the clock agree while nothing is noted.
	if want, _ := time.ParseInLocation(ClockLayout, r.Build.LoadFrom, zone); c.LoadFrom.Sub(want).Abs() > time.Duration(len(c.Steps))*time.Minute {
		t.Errorf("nothing on it before %v by the clock, %v by the plan", c.LoadFrom, want)
	}
	d.Remark("dry", "ask for a second pair of hands")
	if c := d.Clock(r, start.Add(-time.Hour)); !c.Steps[0].Began.Equal(start) {
		t.Errorf("with a remark and nothing begun the first step begins at %v; want the planned %v", c.Steps[0].Began, start)
	}
	late := d.Clock(r, start.Add(3*time.Hour))
	if !late.Steps[0].Began.Equal(start.Add(3 * time.Hour)) {
		t.Errorf("three hours late the first step still begins at %v", late.Steps[0].Began)
	}
}

// Open time runs from the spread until the clamps are on; it is the glue's own.
func TestClockWarnsBeforeOpenTimeEnds(t *testing.T) {
	t.Parallel()
	d, r, zone := clockTop(t)
	g := d.glue()
	t0 := time.Date(2026, 5, 2, 10, 0, 0, 0, zone)
	d.Finish("dry", t0.Add(-time.Hour))
	d.Finish("rehearse", t0.Add(-time.Minute))
	d.Begin("spread-bottom", t0)
	for _, tc := range []struct {
		name string
		now  time.Time
		want string
		late bool
	}{
		{"just spread", t0, "Glue lies open", false},
		{"a fifth is left", t0.Add(time.Duration(0.8 * g.OpenTime.Low * float64(time.Minute))), "Glue lies open", true},
		{"low figure over", after(t0, g.OpenTime.Low), "Close the joint now", true},
		{"high figure over", after(t0, g.OpenTime.High), "has been over since " + ClockText(after(t0, g.OpenTime.High)), true},
	} {
		text, late := d.Clock(r, tc.now).Warning(tc.now)
		if !strings.Contains(text, tc.want) || late != tc.late {
			t.Errorf("%s: %q, late %v; want %q, %v", tc.name, text, late, tc.want, tc.late)
		}
	}
	next := t0.Add(24 * time.Hour)
	if text, _ := d.Clock(r, next).Warning(next); !strings.Contains(text, "has been over since "+DayText(after(t0, g.OpenTime.High))) {
		t.Errorf("a day later it says %q", text)
	}
	d.Finish("spread-bottom", after(t0, 4))
	d.Begin("clamp-bottom", after(t0, 4))
	if text, _ := d.Clock(r, after(t0, 4.5)).Warning(after(t0, 4.5)); text == "" {
		t.Error("glue that is spread but not yet clamped gives no warning")
	}
	d.Finish("clamp-bottom", after(t0, 5))
	if text, _ := d.Clock(r, after(t0, 6)).Warning(after(t0, 6)); text != "" {
		t.Errorf("closed and clamped it still says %q", text)
	}
}

// Waits run from the actual start, over midnight and over the night in which the
// clocks go forward: 29 March 2026, 02:00 becomes 03:00 in this zone.
func TestClockOverMidnightAndDaylightSaving(t *testing.T) {
	t.Parallel()
	d, r, zone := clockTop(t)
	began := time.Date(2026, 3, 28, 23, 30, 0, 0, zone)
	for _, key := range []string{"dry", "rehearse", "spread-bottom", "clamp-bottom", "hold-bottom", "spread-top", "clamp-top", "hold-top"} {
		d.Finish(key, began)
	}
	d.Begin("cure", began)
	now := began.Add(2 * time.Hour)
	s := stepAt(t, d.Clock(r, now), "cure")
	if got := s.Late.Sub(began).Minutes(); got < s.High-1e-6 || got > s.High+1e-6 {
		t.Errorf("the cure takes %g real minutes over the change of clocks; want %g", got, s.High)
	}
	// By hand: 23:30 and 24 h are 00:30 two days later on the wall, an hour more
	// than it would be without the change.
	if s.High == 24*60 && (s.Late.Day() != 30 || s.Late.Hour() != 0 || s.Late.Minute() != 30) {
		t.Errorf("24 h after 28 March 23:30 the wall shows %v; want 30 March 00:30", s.Late)
	}
	if !d.Clock(r, now).LoadFrom.Equal(s.Late) {
		t.Errorf("nothing on it before %v; want the end of the cure, %v", d.Clock(r, now).LoadFrom, s.Late)
	}
}

// A program that was closed meanwhile tells the same: all that counts is in the
// file.
func TestClockSurvivesTheFile(t *testing.T) {
	t.Parallel()
	d, r, zone := clockTop(t)
	t0 := time.Date(2026, 10, 24, 22, 15, 0, 0, zone)
	d.Begin("dry", t0)
	d.Remark("dry", "rib C4 was tight")
	d.Finish("dry", t0.Add(40*time.Minute))
	d.Begin("rehearse", t0.Add(50*time.Minute))
	file, err := Encode(d)
	if err != nil {
		t.Fatal(err)
	}
	again, err := Read(bytes.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	now := t0.Add(time.Hour)
	a, b := d.Clock(r, now), again.Clock(r, now)
	if a.Next != 1 || b.Next != a.Next || !b.LoadFrom.Equal(a.LoadFrom) || b.Steps[0].Note != "rib C4 was tight" || b.Steps[1].State != StepUnderWay {
		t.Errorf("before: next %d, load from %v; after: next %d, %v, %+v", a.Next, a.LoadFrom, b.Next, b.LoadFrom, b.Steps[0])
	}
}

// In the cold a reaction glue takes longer: twice for ten degrees.
func TestClockInTheCold(t *testing.T) {
	t.Parallel()
	d, _, zone := clockTop(t)
	for _, g := range Catalogue().Glues {
		if g.HalvesPer10 {
			d.Glue = g.Key
		}
	}
	r, err := Estimate(context.Background(), d)
	if err != nil {
		t.Fatal(err)
	}
	t0 := time.Date(2026, 5, 2, 10, 0, 0, 0, zone)
	d.Begin("hold-bottom", t0)
	warm := stepAt(t, d.Clock(r, t0), "hold-bottom")
	d.Log[0].Measured, d.Log[0].Celsius = true, d.Shop.Temperature-10
	cold := stepAt(t, d.Clock(r, t0), "hold-bottom")
	if got := cold.Late.Sub(t0).Seconds() / warm.Late.Sub(t0).Seconds(); got < 1.999 || got > 2.001 {
		t.Errorf("ten degrees colder it is held %g times as long; want twice", got)
	}
	if dry := stepAt(t, d.Clock(r, t0), "dry"); dry.High != r.Build.Steps[0].High {
		t.Errorf("the dry assembly takes %g min; want %g whatever the glue does", dry.High, r.Build.Steps[0].High)
	}
}

func TestLeftText(t *testing.T) {
	t.Parallel()
	for _, tc := range []struct {
		left time.Duration
		want string
	}{{-time.Minute, "0:00 min"}, {65 * time.Second, "1:05 min"}, {7*time.Minute + 10*time.Second, "8 min"}, {2*time.Hour + 5*time.Minute, "2 h 05 min"}} {
		if got := LeftText(tc.left); got != tc.want {
			t.Errorf("LeftText(%v) = %q; want %q", tc.left, got, tc.want)
		}
	}
}
