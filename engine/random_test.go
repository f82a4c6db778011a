package engine

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"flatwright/engine/plate"
)

// resultant is the sum of loads, N, and where it acts; what of a footprint lies
// beside the skins is carried by the rest of it.
func resultant(p *plate.Panel, loads []plate.Press) (sum, x, y float64) {
	middle := func(at, size, lo, hi float64) float64 { return (max(at-size/2, lo) + min(at+size/2, hi)) / 2 }
	for _, l := range loads {
		sum += l.P
		x += l.P*middle(l.X, l.SX, p.X0, p.X1) + l.TX
		y += l.P*middle(l.Y, l.SY, p.Y0, p.Y1) + l.TY
	}
	return sum, x / sum, y / sum
}

// reaches tells by how much a place lies within the outline of what the panel
// rests on, negative outside: over all directions, how far the supports reach
// beyond it. Of a support only what lies under the skins counts.
func reaches(p *plate.Panel, x, y float64) float64 {
	least := math.Inf(1)
	for degrees := range 720 {
		s, c := math.Sincos(float64(degrees) * math.Pi / 360)
		far := math.Inf(-1)
		for _, pad := range p.Pads {
			for _, px := range [2]float64{max(pad.X-pad.SX/2, p.X0), min(pad.X+pad.SX/2, p.X1)} {
				for _, py := range [2]float64{max(pad.Y-pad.SY/2, p.Y0), min(pad.Y+pad.SY/2, p.Y1)} {
					far = math.Max(far, c*(px-x)+s*(py-y))
				}
			}
		}
		least = math.Min(least, far)
	}
	return least
}

// Random designs with whatever a design can have, by the whole-panel model: no
// NaN, no panic, reactions that carry own weight and loads exactly, and a refusal
// only where statics has no answer or all but none.
func TestRandomWholePanels(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(500, 4))
	rounds := 500
	if testing.Short() {
		rounds = 40
	}
	has := map[string]int{}
	worst := 0.0 // imbalance, as a part of the load
	for i := range rounds {
		d := randomDesign(r)
		for d.Lengthwise.number()*d.Crosswise.number() > 24 { // to stay cheap
			d = randomDesign(r)
		}
		note := func(what string, yes bool) {
			if yes {
				has[what]++
			}
		}
		p := d.WholePanel(1)
		note("seam", len(d.Seams) > 0)
		note("glued laps", d.Slots.Glued)
		note("legs", d.Supports.Kind == FourLegs)
		note("uneven ribs", len(d.Lengthwise.Positions)+len(d.Crosswise.Positions) > 0)
		note("block", len(d.Blocks) > 0)
		note("ledger", d.Supports.Kind == OnLedger)
		note("own feet", d.Supports.Kind == OwnFeet)
		note("aprons", len(p.Beams) > 0)
		for _, c := range d.Cases {
			note("couple", slices.ContainsFunc(c.Loads, func(l Load) bool { return l.Kind == Couple }))
			note("line", slices.ContainsFunc(c.Loads, func(l Load) bool { return l.Kind == Line }))
		}
		note("band", d.EdgeBand.Thickness > 0)
		note("built otherwise", len(d.Built) > 0)
		note("fastened", d.Supports.Fastened)
		note("hole", len(d.Holes) > 0)
		note("groove", len(d.Grooves) > 0)
		name := fmt.Sprintf("design %d", i)
		m, err := plate.Prepare(t.Context(), p)
		if err != nil {
			if d.Supports.Kind != OwnFeet { // which may stand anywhere, in one line too
				t.Fatalf("%s: %v: %+v", name, err, d)
			}
			continue
		}
		mats := d.materials()
		own := d.Press(Load{Kind: Uniform, Force: d.mass(&mats) * Gravity})
		for _, c := range d.Cases {
			loads := []plate.Press{own}
			for _, l := range c.Loads {
				loads = append(loads, d.Press(l))
			}
			sum, x, y := resultant(p, loads)
			in := math.Inf(1)
			if len(p.Beams) == 0 {
				in = reaches(p, x, y)
			}
			s, err := m.Solve(t.Context(), loads)
			switch {
			case errors.Is(err, plate.ErrLoose):
				note("tips", true)
				if (in > 5 || d.Supports.Fastened) && len(p.Beams) == 0 { // the points of a pad lie a little within its edge
					t.Errorf("%s, %s: refused, %g mm within its supports", name, c.Name, in)
				}
				continue
			case err != nil:
				t.Errorf("%s, %s: %v", name, c.Name, err)
				continue
			case in < -1 && !d.Supports.Fastened:
				t.Errorf("%s, %s: an answer %g mm outside its supports", name, c.Name, -in)
			}
			note("stands", true)
			force, _, pull := d.supported(s)
			up := 0.0
			for i, f := range force {
				up += f
				if !(pull[i] >= 0 && f >= -pull[i]-1e-9*sum) || pull[i] > 0 && !d.Supports.Fastened {
					t.Errorf("%s, %s: a support carries %g N, its screws pull %g N", name, c.Name, f, pull[i])
				}
			}
			for _, b := range p.Beams { // aprons hang on the legs
				sum += b.Own
			}
			worst = max(worst, math.Abs(up-sum)/sum)
			if !(math.Abs(up-sum) <= 1e-9*sum) {
				t.Errorf("%s, %s: %.12g N on it, %.12g N carried", name, c.Name, sum, up)
			}
			for _, at := range [5][2]float64{{0, 0}, {1, 0.3}, {0.5, 0.5}, {0.2, 1}, {1, 1}} {
				if v := s.Sag(d.Length*at[0], d.Width*at[1]); math.IsNaN(v) || math.IsInf(v, 0) {
					t.Errorf("%s, %s: sag %g", name, c.Name, v)
				}
			}
		}
		if i%20 == 0 { // everything that follows from it
			sound(t, name, refined(t, d, Interactive))
		}
		if t.Failed() {
			t.Fatalf("%s: %+v", name, d)
		}
	}
	t.Logf("%v; worst imbalance %.2g", has, worst)
	for _, what := range []string{"seam", "glued laps", "legs", "uneven ribs", "block", "band", "built otherwise", "fastened", "hole", "groove", "ledger", "own feet", "aprons", "couple", "line", "tips", "stands"} {
		if has[what] < rounds/50 {
			t.Errorf("%s: only %d of %d designs", what, has[what], rounds)
		}
	}
}
