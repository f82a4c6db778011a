package engine

import (
	"fmt"
	"math"

	"flatwright/engine/length"
	"flatwright/engine/plate"
)

// screwStrip is the width, mm, of the line along the middle of a support on
// which the screws of a top that is fastened down are taken to sit. It is
// narrow, so that they hold the top down without clamping its slope.
const screwStrip = 2.0

// fasten adds, for a top that is screwed to its supports, one pad that also
// pulls to every support of p, after all others and in their order: the middle
// of a foot, the middle line of a rail. It is as stiff as the whole bed there;
// common practice, no source. What statics says of the forces does not depend
// on it. Screws away from the middle would also pry, which is left out.
func (d *Design) fasten(p *plate.Panel) {
	if !d.Supports.Fastened {
		return
	}
	for _, bed := range p.Pads {
		s := bed
		s.SX, s.SY = screwLine(bed.SX, d.Length), screwLine(bed.SY, d.Width)
		if s.SX > screwStrip && s.SY > screwStrip { // a wide pad: the longer side alone
			s.SX, s.SY = screwStrip, screwStrip
		}
		s.X = min(max(s.X, p.X0+s.SX/2), p.X1-s.SX/2)
		s.Y = min(max(s.Y, p.Y0+s.SY/2), p.Y1-s.SY/2)
		s.K, s.Glued = bed.K*bed.SX*bed.SY/(s.SX*s.SY), true
		p.Pads = append(p.Pads, s)
	}
}

// screwLine is how far the screws of a support reach one way: all along a rail,
// which is longer than half of the top, else one row.
func screwLine(size, extent float64) float64 {
	if size > extent/2 {
		return size
	}
	return screwStrip
}

// supported returns what each support does to the panel, as [Design.pads]: its
// force upwards, N, whether it has lifted, and how hard its screws pull the top
// down, N, which is 0 unless it is fastened.
func (d *Design) supported(s *plate.Solution) (force []float64, lifted []bool, pull []float64) {
	force, lifted = s.Reactions()
	n := len(force)
	if d.Supports.Fastened {
		n /= 2
	}
	pull = make([]float64, n)
	if !d.Supports.Fastened {
		return force, lifted, pull
	}
	all := s.Pulls()
	for i := range n {
		force[i] += force[n+i]
		lifted[i] = lifted[i] && lifted[n+i]
		pull[i] = all[n+i]
	}
	return force[:n], lifted[:n], pull
}

// leastPull is the pull of a support's screws, N, below which it is not told:
// that of a coin or two, and of rounding.
const leastPull = 0.5

// PullText says what the screws at a support must hold; "" where they hold
// nothing.
func (r Reaction) PullText(f length.Format) string {
	if !(r.Pull >= leastPull) {
		return ""
	}
	return "the screws there must hold " + length.Force(r.Pull, f)
}

// hardestPull returns the support whose screws are pulled hardest.
func (d *Design) hardestPull(s *plate.Solution) (name string, pull float64) {
	_, _, pulls := d.supported(s)
	for i, p := range d.pads() {
		if pulls[i] > math.Max(pull, leastPull) {
			name, pull = p.Name, pulls[i]
		}
	}
	return name, pull
}

// FastenedLine says of a top that is fastened down what that means; "" of
// others.
func (d Design) FastenedLine(w *Whole, f length.Format) string {
	if !d.Supports.Fastened {
		return ""
	}
	most, where := leastPull, ""
	for i, c := range w.Cases {
		for _, r := range c.Reactions {
			if r.Pull > most {
				most, where = r.Pull, fmt.Sprintf("at the %s under “%s”", r.Name, d.Cases[i].Name)
			}
		}
	}
	for _, l := range w.Lean {
		if l.Pull > most {
			most, where = l.Pull, fmt.Sprintf("at the %s when somebody leans on the %s", l.PullAt, l.Where)
		}
	}
	text := "The top is fastened to its supports, so it does not tip off them, and that has no margin. "
	if where == "" {
		return text + "Nothing computed here pulls at the screws. Whether the legs or the base tip was not computed."
	}
	text += "What pulls at the screws, the most is " + length.Force(most, f) + " " + where + ", is told as it acts: without any factor. " + curlText
	if d.Supports.Screws.Told() {
		return text + " The screws have a margin of their own. Whether the legs or the base tip was not checked."
	}
	return text + " Screws, and whether the legs or the base tip, were not checked: how many there are, how thick and how deep in the wood, is not told."
}

// curlText says why screws pull harder than a support as a whole holds down.
const curlText = "It can be more than the support as a whole holds down, and pull where the whole support still presses: the top lies curved over a support, so one part of that presses it up while another part pulls."
