package proof

import (
	"math"
	"testing"
)

var shop = Known{Error: 0.02, Spread: 0.12, Friction: 0.03}

func TestJudgeGoesOn(t *testing.T) {
	t.Parallel()
	for _, scale := range []float64{0.85, 1, 1.15} {
		if v := Judge(exact(scale, 0.1, 0.02, 0), nil, false, shop); v.Call != GoOn {
			t.Errorf("a sound top of scale %g: %+v", scale, v)
		}
	}
	if v := Judge(nil, nil, false, shop); v.Call != GoOn {
		t.Errorf("nothing read: %+v", v)
	}
}

func signOf(v Verdict, s Sign) (Reason, bool) {
	for _, r := range v.Reasons {
		if r.What == s {
			return r, true
		}
	}
	return Reason{}, false
}

func TestJudgeStops(t *testing.T) {
	t.Parallel()
	bent := exact(1, 0, 0, 0)[:5]
	bent[4].Read += 0.3 // 0.3 of 2 mm, 15 % above the line
	pace := make([]Hold, 5)
	pace[4] = Hold{Minutes: []float64{0, 5, 10}, Read: []float64{5.2, 5.3, 5.42}}
	for name, c := range map[string]struct {
		r        []Reading
		h        []Hold
		cracking bool
		call     Call
		what     Sign
	}{
		"cracking":     {exact(1, 0, 0, 0)[:2], nil, true, Stop, Cracking},
		"before any":   {nil, nil, true, Stop, Cracking},
		"twice as far": {exact(2, 0, 0, 0)[:5], nil, false, Stop, TooMuch},
		// By hand: the range ends at 2 + √(0.436² + 0.047² + 0.411²) = 2.60 mm, once in a
		// hundred is 2 + 2.326·√(0.24² + 0.028² + 0.25²) = 2.81 mm; 2.7 lies between.
		"a bit far":    {exact(1.35, 0, 0, 0)[:5], nil, false, ReadAgain, TooMuch},
		"hardly moves": {exact(0.5, 0, 0, 0)[:5], nil, false, ReadAgain, TooLittle},
		"bends":        {bent, nil, false, Stop, Bent},
		"keeps pace":   {exact(1, 0, 0, 0)[:5], pace, false, Stop, NotSlower},
		"stays":        {exact(1, 0.1, 0, 0.6), nil, false, Stop, Stays},
	} {
		v := Judge(c.r, c.h, c.cracking, shop)
		if _, there := signOf(v, c.what); v.Call != c.call || !there {
			t.Errorf("%s: %+v; want call %d for %d", name, v, c.call, c.what)
		}
		for i := 1; i < len(v.Reasons); i++ {
			if v.Reasons[i].Call > v.Reasons[i-1].Call {
				t.Errorf("%s: reasons not the worst first", name)
			}
		}
	}
}

func TestStraight(t *testing.T) {
	t.Parallel()
	l := Straight(exact(1.1, 0.4, 0, 0), dial)
	if !l.Told || l.Bends {
		t.Errorf("a line: %+v", l)
	}
	near(t, "off a line", l.Off, 0, 1e-12)
	// By hand, stages at .5, 1, 1.5 and the last at 2: reach 1, Sxx 0.5, so
	// the error is 0.01·√(1 + 1/3 + 1/0.5) = 0.01826.
	near(t, "its error", l.Error, 0.018257, 5e-7)
	if Straight(exact(1, 0, 0, 0)[:3], dial).Told {
		t.Error("two stages tell a bend")
	}
}

func TestCreeping(t *testing.T) {
	t.Parallel()
	// A small power of time slows down whatever it is: t^0.2.
	h := Hold{}
	for _, m := range []float64{1, 2, 5, 10, 15} {
		h.Minutes, h.Read = append(h.Minutes, m), append(h.Read, 2*math.Pow(m, 0.2))
	}
	c := Creeping(h, 2, dial)
	if !c.Judged || !c.Slowing {
		t.Errorf("creep of wood: %+v", c)
	}
	near(t, "total", c.Total, 2*(math.Pow(15, 0.2)-1), 1e-12)
	if c := Creeping(Hold{[]float64{0, 5}, []float64{1, 1.1}}, 1, dial); !c.Told || c.Judged {
		t.Errorf("two readings: %+v", c)
	}
	near(t, "per hour", Creeping(Hold{[]float64{0, 5}, []float64{1, 1.1}}, 1, dial).PerHour, 1.2, 1e-9) // 0.1 mm in 5 min
	// What cannot be read does not stop the work.
	if c := Creeping(Hold{[]float64{0, 5, 10}, []float64{1, 1.001, 1.01}}, 1, dial); !c.Slowing {
		t.Errorf("creep under the noise: %+v", c)
	}
	if Creeping(Hold{[]float64{5, 4}, []float64{1, 2}}, 1, dial).Told {
		t.Error("time that runs backwards tells something")
	}
}

func TestAfterTakesBeddingOff(t *testing.T) {
	t.Parallel()
	r := exact(1, 0.3, 0, 0.25)
	f, _ := Fit(r, dial)
	b := After(r, f, dial)
	near(t, "stayed", b.Stayed, 0.55, 1e-9)
	near(t, "set", b.Set, 0.25, 0.002)
	near(t, "share", b.Share, 0.25/2.3, 0.002)
	if !b.Clear || After(r[:5], f, dial).Told {
		t.Error("set not told after unloading, or told before")
	}
}

func TestBand(t *testing.T) {
	t.Parallel()
	low, high := Band(2, Known{Error: 0.01, Spread: 0.1})
	// By hand: e^0.16449 = 1.1788: 2/1.1788 = 1.6967, 2·1.1788 = 2.3576; reading
	// 0.02326; bedding 1.645·0.25 = 0.4112 upwards.
	near(t, "low", low, 2-math.Hypot(0.3033, 0.02326), 1e-4)
	near(t, "high", high, 2+math.Hypot(math.Hypot(0.3576, 0.02326), 0.4112), 1e-4)
}
