package engine

import (
	"bytes"
	"reflect"
	"strings"
	"testing"

	"flatwright/engine/length"
)

// tippedTop is a top on two rails with 800 N on its left overhang, far more
// than its weight holds down.
func tippedTop(fastened bool) Design {
	d := plainTop()
	d.Supports = Supports{Kind: RailsAcross, EndInset: 300, Bearing: 10, Fastened: fastened}
	l := &d.Cases[0].Loads[0]
	l.X, l.SizeX = 50, 100
	return d
}

// By hand: rails at 300 and 1300, so the right one carries W/2 + 800 · (50 −
// 300)/1000 = W/2 − 200 N. The force of a rail 10 mm wide lies within 5 mm of
// its middle: 2.5 % of the 200 N.
func TestFastenedByStatics(t *testing.T) {
	t.Parallel()
	d := tippedTop(true)
	r := refined(t, d, Interactive)
	mo, _ := modelOf(d, true)
	f := r.Whole.Cases[0].Reactions
	want := mo.weight/2 - 200
	if got := f[1].Force; !(got > want-5 && got < want+5) || f[1].Lifted {
		t.Errorf("the right rail carries %.2f N; want %.2f ± 5", got, want)
	}
	near(t, "sum", f[0].Force+f[1].Force, mo.weight+800, 1e-6)
	if got := f[1].Pull; !(got >= -f[1].Force && got < 1.2*-f[1].Force) {
		t.Errorf("its screws pull %.2f N at a force of %.2f N", got, f[1].Force)
	}
	if text := f[1].PullText(length.Format{}); !strings.Contains(text, "the screws there must hold "+length.Force(f[1].Pull, length.Format{})) {
		t.Errorf("told as %q", text)
	}
	if text := (Reaction{Force: 100, Pull: leastPull / 2}).PullText(length.Format{}); text != "" {
		t.Errorf("of a support that only pushes %q", text)
	}
	line := d.FastenedLine(r.Whole, length.Format{})
	if !strings.Contains(line, "at the right rail under “Person”") || !strings.Contains(line, length.Force(f[1].Pull, length.Format{})) {
		t.Errorf("told as %q", line)
	}
	// The loose one tips.
	if r := refined(t, tippedTop(false), Interactive); r.NotHeld() == "" || r.Whole != nil {
		t.Error("the loose top with 800 N on its overhang does not tip")
	}
}

// Whatever it rests on, the reactions of a fastened top carry its weight and
// load, screws hold at least what the support holds down, and nothing lifts.
func TestFastenedBalances(t *testing.T) {
	t.Parallel()
	for _, s := range []Supports{
		{Kind: FourLegs, EndInset: 300, SideInset: 100, Bearing: 60},
		{Kind: RailsAlong, SideInset: 200, Bearing: 40},
		{Kind: AllEdges, Bearing: 30},
		{Kind: OnLedger, EndInset: 300, SideInset: 200, Bearing: 50},
		{Kind: OwnFeet, Bearing: 50, Feet: []Foot{{X: 200, Y: 100}, {X: 800, Y: 600}, {X: 1200, Y: 200}}},
	} {
		d := plainTop()
		s.Fastened = true
		d.Supports = s
		l := &d.Cases[0].Loads[0]
		l.X, l.Y = 150, 575
		r := refined(t, d, Interactive)
		mo, _ := modelOf(d, true)
		sum := 0.0
		for _, f := range r.Whole.Cases[0].Reactions {
			sum += f.Force
			if f.Lifted || !(f.Pull >= -f.Force-1e-6) || !(f.Pull >= 0) {
				t.Errorf("%s: %+v", s.Kind, f)
			}
		}
		near(t, string(s.Kind)+": sum of the reactions", sum, mo.weight+800, 1e-6)
		for _, m := range r.Margins {
			if strings.HasPrefix(m.Code, "tipping") {
				t.Errorf("%s: a fastened top has a margin of tipping: %+v", s.Kind, m)
			}
		}
	}
}

// Screws in the middle of the supports hold a top down but do not clamp it: under
// a load that lifts nothing it sags as the loose one, a little less.
func TestFastenedDoesNotClamp(t *testing.T) {
	t.Parallel()
	d := plainTop()
	loose := refined(t, d, Interactive).Whole.Cases[0]
	d.Supports.Fastened = true
	held := refined(t, d, Interactive).Whole.Cases[0]
	if !(held.Sag > 0.95*loose.Sag && held.Sag < 1.05*loose.Sag) {
		t.Errorf("fastened it sags %.4f mm, loose %.4f mm", held.Sag, loose.Sag)
	}
	for i := range loose.Reactions {
		near(t, loose.Reactions[i].Name, held.Reactions[i].Force, loose.Reactions[i].Force, 0.01)
		if loose.Reactions[i].Pull != 0 {
			t.Errorf("a loose top has screws: %+v", loose.Reactions[i])
		}
	}
}

// Somebody who leans on the end of a light top pulls at the far rail: 650 N, 250 mm
// beyond the near one and 1 000 mm between them, is 162.5 N less half of its weight.
func TestLeaningPullsAtScrews(t *testing.T) {
	t.Parallel()
	d := tippedTop(true)
	d.Cases[0].Loads[0].X = 800
	r := refined(t, d, Normal)
	mo, _ := modelOf(d, true)
	l := r.Whole.Lean[0]
	if want := 162.5 - mo.weight/2; l.Where != "left end" || l.PullAt != "right rail" || !(l.Pull > want-5 && l.Pull < want+25) {
		t.Errorf("leaning pulls %.1f N at the %s; want about %.1f", l.Pull, l.PullAt, want)
	}
	if line := d.FastenedLine(r.Whole, length.Format{}); !strings.Contains(line, "when somebody leans on the") {
		t.Errorf("told as %q", line)
	}
	d.Supports.Fastened = false
	if line := d.FastenedLine(r.Whole, length.Format{}); line != "" {
		t.Errorf("of a loose top %q", line)
	}
}

// The file says so only where it is so.
func TestFastenedInTheFile(t *testing.T) {
	t.Parallel()
	for _, fastened := range []bool{true, false} {
		d := tippedTop(fastened)
		data, err := Encode(d)
		if err != nil {
			t.Fatal(err)
		}
		back, err := Decode(data)
		if err != nil {
			t.Fatal(err)
		}
		if bytes.Contains(data, []byte(`"fastened": true`)) != fastened || !reflect.DeepEqual(back.Supports, d.Supports) {
			t.Errorf("fastened %v comes back as %+v", fastened, back.Supports)
		}
	}
}
