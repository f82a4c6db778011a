package proof

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Line is whether the readings lie on a straight line over the load.
type Line struct {
	Told  bool    // there are three stages or more on the way up, or nothing can be told
	Off   float64 // by which the last stage lies above the line through those before it, mm
	Error float64 // standard error of Off, mm
	Share float64 // Off over the reading that the line leads to expect
	Bends bool    // sags more than in proportion: Off beyond its error and SoftShare
}

// SoftShare is by how much of a stage's reading it may lie above the line of
// those before it. Common practice, no source.
const SoftShare = 0.10

// Straight judges the stages on the way up: a line by least squares through the
// stages under load but the last, and how far the last lies off it. What beds in
// under the first stage shifts the line and does not bend it. Stages are compared
// over what was expected, not over the load, so that a support that lifts by the plan
// does not count as bent.
func Straight(readings []Reading, known Known) Line {
	var up []Reading
	for _, r := range readings {
		if r.Load > 0 && !r.Unloading {
			up = append(up, r)
		}
	}
	n := len(up) - 1
	if n < 2 || !(known.Error > 0) {
		return Line{}
	}
	mx, my, sxx, sxy := 0.0, 0.0, 0.0, 0.0
	for _, r := range up[:n] {
		mx, my = mx+r.Expected/float64(n), my+r.Read/float64(n)
	}
	for _, r := range up[:n] {
		sxx, sxy = sxx+(r.Expected-mx)*(r.Expected-mx), sxy+(r.Expected-mx)*(r.Read-my)
	}
	last := up[n]
	if !(sxx > 0) {
		return Line{}
	}
	reach := last.Expected - mx
	l := Line{Told: true, Off: last.Read - my - sxy/sxx*reach, Error: known.Error * math.Sqrt(1+1/float64(n)+reach*reach/sxx)}
	rise := sxy / sxx * last.Expected
	if rise > 0 {
		l.Share = l.Off / rise
	}
	l.Bends = l.Off > z95*l.Error && l.Off > SoftShare*math.Max(rise, last.Expected)
	return l
}

// z95 and z99 bound 95 and 99 % of a normal distribution from above.
const (
	z95 = 1.6448536
	z99 = 2.3263479
)

// Hold is readings of one stage while the load stays.
type Hold struct {
	Minutes []float64 // since the load was on, increasing
	Read    []float64 // mm
}

// Crept is how a stage crept while it was held.
type Crept struct {
	Told    bool    // there are two readings or more
	Total   float64 // from the first reading to the last, mm
	Share   float64 // Total over the stage's sag
	Slowing bool    // the second half of the hold went at no more than [SlowShare] of the first one's pace, or brought no more than can be read
	Judged  bool    // there are three readings or more, so that Slowing is told
	PerHour float64 // over the second half, mm; over all of it where not Judged
}

// SlowShare is the most of the first half's pace that the second half of a hold may
// keep to count as slowing down. By the time law of wood, t^0.2 to t^0.25 from half a
// minute on, it keeps less than half. Common practice, no source.
const SlowShare = 0.75

// Creeping judges a hold of a stage that sagged sag mm. Creep of wood slows down
// by itself: it goes with a small power of time (EN 1995-1-1 3.1.4 factors, time
// law from memory), so that the second half of any hold brings much less than the first.
// Creep that keeps its pace is a joint that gives way. Times that do not increase
// are left out.
func Creeping(h Hold, sag float64, known Known) Crept {
	var at, read []float64
	for i := range min(len(h.Minutes), len(h.Read)) {
		if m := h.Minutes[i]; m >= 0 && (len(at) == 0 || m > at[len(at)-1]) {
			at, read = append(at, m), append(read, h.Read[i])
		}
	}
	n := len(at) - 1
	if n < 1 {
		return Crept{}
	}
	c := Crept{Told: true, Total: read[n] - read[0], Slowing: true}
	if sag > 0 {
		c.Share = c.Total / sag
	}
	c.PerHour = 60 * c.Total / (at[n] - at[0])
	if n < 2 {
		return c
	}
	c.Judged = true
	middle := (at[0] + at[n]) / 2
	k := 1
	for k < n && at[k] < middle {
		k++
	}
	if k == n {
		k = n - 1 // the last stretch is the later half
	}
	early, late := (read[k]-read[0])/(at[k]-at[0]), (read[n]-read[k])/(at[n]-at[k])
	c.PerHour = 60 * late
	noise := z99 * math.Sqrt2 * known.Error
	c.Slowing = late <= SlowShare*early || read[n]-read[k] <= noise
	return c
}

// Back is what stayed after the load was taken off.
type Back struct {
	Told   bool
	Set    float64 // of the top, mm: what stayed, less what bedded in
	Stayed float64 // all that stayed, mm
	Share  float64 // Set over the largest sag that was read
	Clear  bool    // Set is more than can be a matter of reading and bedding-in
}

// SetShare is what share of the sag may stay at most after a short load. Common
// practice, no source.
const SetShare = 0.10

// After tells the set from the last reading without load.
func After(readings []Reading, f Fitted, known Known) Back {
	if len(readings) < 2 {
		return Back{}
	}
	last := readings[len(readings)-1]
	if last.Load > 0 || !last.Unloading {
		return Back{}
	}
	most := 0.0
	for _, r := range readings {
		most = math.Max(most, r.Read-readings[0].Read)
	}
	b := Back{Told: true, Stayed: last.Read - readings[0].Read}
	b.Set = b.Stayed - math.Max(0, f.Bedding)
	if most > 0 {
		b.Share = b.Set / most
	}
	b.Clear = b.Set > z95*math.Hypot(math.Sqrt2*known.Error, f.BeddingError)
	return b
}

// Band returns the 90 % range of what a stage may read above the first reading,
// mm, by the plan (spread on the logarithm), bedding-in, friction and reading. The
// range of the plan is lognormal, and the others widen it by the root of their
// squares on either side (normal, textbook).
func Band(expected float64, known Known) (low, high float64) {
	if !(expected > 0) {
		w := z90 * math.Sqrt2 * known.Error
		return -w, w
	}
	noise := z90 * math.Sqrt2 * known.Error
	bedding, friction := z90*known.bedding(), known.Friction*expected
	f := math.Exp(z90 * known.Spread)
	low = expected - math.Hypot(math.Hypot(expected-expected/f, noise), friction)
	high = expected + math.Hypot(math.Hypot(expected*f-expected, noise), bedding)
	return low, high
}

// beyond is the probability that a reading this high or higher comes of a top as
// planned.
func beyond(over, expected float64, known Known) float64 {
	if !(over > expected) || !(expected > 0) {
		return 1
	}
	sd := math.Hypot(math.Hypot(known.Spread*expected, math.Sqrt2*known.Error), known.bedding())
	return 1 - distuv.UnitNormal.CDF((over-expected)/sd)
}

// Call is what to do next.
type Call uint8

// The calls, the mildest first.
const (
	GoOn Call = iota
	ReadAgain
	Stop
)

// Verdict is a call with its reasons, the worst first.
type Verdict struct {
	Call    Call
	Reasons []Reason
}

// Reason is one thing that speaks against going on.
type Reason struct {
	Call  Call
	What  Sign
	Stage int // index of the reading; −1 for the whole
	Value float64
	Limit float64
}

// Sign is what was seen.
type Sign uint8

// The signs.
const (
	Cracking  Sign = iota // somebody heard or saw it
	TooMuch               // Value sagged, Limit was the most to be expected, mm
	TooLittle             // Value, Limit the least to be expected, mm: the gauge or the load is not what it seems
	Bent                  // Value above the line of the stages before, Limit what may be, mm
	NotSlower             // creep of Value mm in a hold does not slow down
	Stays                 // Value stayed, Limit what may, mm
)

// rare is how seldom a top as planned reads as much, for a stop: once in a hundred
// stages.
const rare = 0.01

// Judge applies the stop rule to what was read so far. holds are as the readings, empty
// where nothing was held. Common practice, no source, but for the ranges, which are the
// plan's.
func Judge(readings []Reading, holds []Hold, cracking bool, known Known) Verdict {
	var v Verdict
	add := func(r Reason) {
		v.Reasons = append(v.Reasons, r)
		v.Call = max(v.Call, r.Call)
	}
	if cracking {
		add(Reason{Call: Stop, What: Cracking, Stage: -1})
	}
	if len(readings) == 0 {
		return v
	}
	readings = oneRound(readings)
	f, err := Fit(readings, known)
	for i, r := range readings {
		if r.Load <= 0 || r.Unloading {
			continue
		}
		sag := r.Read - readings[0].Read
		low, high := Band(r.Expected, known)
		switch {
		case beyond(sag, r.Expected, known) < rare:
			add(Reason{Stop, TooMuch, i, sag, high})
		case sag > high:
			add(Reason{ReadAgain, TooMuch, i, sag, high})
		case sag < low:
			add(Reason{ReadAgain, TooLittle, i, sag, low})
		}
		if i < len(holds) {
			if c := Creeping(holds[i], r.Expected, known); c.Judged && !c.Slowing {
				add(Reason{Stop, NotSlower, i, c.Total, 0})
			}
		}
	}
	if l := Straight(readings, known); l.Bends {
		add(Reason{Stop, Bent, len(readings) - 1, l.Off, math.Max(z95*l.Error, 0)})
	}
	if err == nil {
		if b := After(readings, f, known); b.Clear && b.Share > SetShare {
			add(Reason{Stop, Stays, len(readings) - 1, b.Set, SetShare * b.Set / b.Share})
		}
	}
	worstFirst(v.Reasons)
	return v
}

// worstFirst sorts reasons by their call, in the order found.
func worstFirst(reasons []Reason) {
	for i := 1; i < len(reasons); i++ {
		for j := i; j > 0 && reasons[j].Call > reasons[j-1].Call; j-- {
			reasons[j], reasons[j-1] = reasons[j-1], reasons[j]
		}
	}
}
