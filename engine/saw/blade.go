package saw

import (
	"fmt"
	"math"
)

// HalfChord returns half of the length, mm, over which a round blade of that
// diameter stands in the plane z mm below the surface out of which it reaches by
// exposure mm:
//
//	c = √((exposure − z)·(diameter − exposure + z))
//
// At z = 0 it is by how much a cut stopped at full depth is longer on the face
// that the tool lies on than at its deepest point. It is exact for a thin disc;
// set teeth make it longer by a few tenths of a millimetre at most.
//
// It returns [ErrDomain] unless 0 < exposure ≤ diameter/2 (beyond it the arbor
// would be in the wood) and 0 ≤ z ≤ exposure.
//
// Source: a chord of a circle by its height, Euclid III 35.
func HalfChord(diameter, exposure, z float64) (float64, error) {
	if !(exposure > 0) || !(exposure <= diameter/2) || math.IsInf(diameter, 0) {
		return 0, fmt.Errorf("a blade of %g mm that reaches out by %g mm: %w", diameter, exposure, ErrDomain)
	}
	if !(z >= 0) || !(z <= exposure) {
		return 0, fmt.Errorf("%g mm below the surface, where the blade reaches %g mm: %w", z, exposure, ErrDomain)
	}
	return halfChord(diameter, exposure-z), nil
}

// halfChord is the half chord at a height over the blade's lowest point.
func halfChord(diameter, height float64) float64 { return math.Sqrt(height * (diameter - height)) }

// Stack is boards of one thickness, laid flat on each other on a board that may
// be cut into. A round blade comes in from their edge until the lowest board is
// cut home: through its lower face up to the mark.
type Stack struct {
	Diameter  float64 `json:"diameter"`  // of the blade, mm
	Boards    int     `json:"boards"`    //
	Thickness float64 `json:"thickness"` // of one board, mm
	Plunge    float64 `json:"plunge"`    // how far the blade reaches below the lowest board, mm
}

// Exposure returns how far the blade reaches below the top of the stack, mm.
func (s Stack) Exposure() float64 { return float64(s.Boards)*s.Thickness + s.Plunge }

// Cut is where the blade leaves one board of a stack, mm past the mark (before
// it if negative).
type Cut struct {
	Board int     `json:"board"` // counted from 1, the uppermost
	Upper float64 `json:"upper"` // on its upper face: the farthest
	Lower float64 `json:"lower"` // on its lower face; 0 on the lowest board
}

// Cuts returns where the blade leaves every board, from the uppermost to the
// lowest, when the lowest is cut home. With T the stack's height and c the
// [HalfChord] it is c(z) − c(T) at the depth z: most on the upper face of the
// uppermost board, nothing at the mark on the lower face of the lowest.
//
// It returns [ErrDomain] unless there is a board, its thickness is above 0, the
// plunge at least 0 and the exposure at most half the blade.
func (s Stack) Cuts() ([]Cut, error) {
	if err := s.check(); err != nil {
		return nil, err
	}
	out := make([]Cut, s.Boards)
	for i := range out {
		out[i] = Cut{Board: i + 1, Upper: s.past(float64(i) * s.Thickness), Lower: s.past(float64(i+1) * s.Thickness)}
	}
	out[s.Boards-1].Lower = 0
	return out, nil
}

// Overrun returns how far the uppermost board is cut past the mark on its upper
// face, mm: the most that any slot of the stack is deeper than drawn. If instead
// the saw stops where the uppermost board is at its mark, the lowest lacks as
// much on its lower face. Domain as [Stack.Cuts].
func (s Stack) Overrun() (float64, error) {
	if err := s.check(); err != nil {
		return 0, err
	}
	return s.past(0), nil
}

// Centre returns where the middle of the blade stands when the lowest board is
// cut home, for a drawing: x mm past the mark, z mm below the top of the stack;
// both are negative. Domain as [Stack.Cuts].
func (s Stack) Centre() (x, z float64, err error) {
	if err := s.check(); err != nil {
		return 0, 0, err
	}
	return -halfChord(s.Diameter, s.Plunge), s.Exposure() - s.Diameter/2, nil
}

// past is where the blade leaves the wood at the depth z, mm past the mark.
func (s Stack) past(z float64) float64 {
	return halfChord(s.Diameter, math.Max(0, s.Exposure()-z)) - halfChord(s.Diameter, s.Plunge)
}

func (s Stack) check() error {
	e := s.Exposure()
	if s.Boards < 1 || s.Boards > maxBoards || !(s.Thickness > 0) || !(s.Plunge >= 0) || !(e <= s.Diameter/2) || math.IsInf(s.Diameter, 0) {
		return fmt.Errorf("%d boards of %g mm under a blade of %g mm that reaches %g mm below them: %w", s.Boards, s.Thickness, s.Diameter, s.Plunge, ErrDomain)
	}
	return nil
}

// maxBoards is the most boards that one stack is worked out for.
const maxBoards = 1000

// LeastPlunge returns how far the blade must at least reach below a stack of
// that height so that the uppermost board is cut past the mark by no more than
// overrun mm; 0 if it needs no plunge. Deeper runs out less: the lower the stack
// lies in the blade's circle, the steeper the arc.
//
// The blade leaves the stack at two points, overrun apart along the cut and
// height apart in depth. They are the ends of a chord s long whose middle lies
// m = √(D²/4 − s²/4) from the centre, at right angles to it:
//
//	plunge = D/2 − m·overrun/s − height/2, s = √(overrun² + height²)
//
// It returns [ErrDomain] unless height and overrun are above 0 and the height at
// most half the blade, and where no plunge is enough because the blade would have
// to reach down by more than half of itself.
//
// Source: derived as above.
func LeastPlunge(diameter, height, overrun float64) (float64, error) {
	if !(height > 0) || !(overrun > 0) || !(height <= diameter/2) || math.IsInf(diameter, 0) {
		return 0, fmt.Errorf("a stack of %g mm under a blade of %g mm, %g mm past the mark: %w", height, diameter, overrun, ErrDomain)
	}
	if overrun >= halfChord(diameter, height) {
		return 0, nil // the blade's lowest point may stand at the mark
	}
	s := math.Hypot(overrun, height)
	m := math.Sqrt(diameter*diameter-s*s) / 2
	plunge := diameter/2 - m*overrun/s - height/2
	if plunge+height > diameter/2+nearly {
		return 0, fmt.Errorf("no depth of a %g mm blade stays within %g mm past the mark through %g mm: %w", diameter, overrun, height, ErrDomain)
	}
	return math.Max(0, plunge), nil
}

// LargestStack returns the highest stack of boards of that thickness, of at most
// boards, that the saw cuts through with nobody's slot more than overrun mm past
// the mark, with the deepest plunge that the board below and the saw allow. The
// reach is how far the blade can come out of the saw's base or rail, mm. Where
// not even one board stays within the overrun there is none, and ok is false.
// Figures out of domain give none.
func LargestStack(blade Saw, thickness float64, boards int, plunge, overrun float64) (s Stack, ok bool) {
	reach := math.Min(blade.Reach, blade.Blade/2)
	for k := 1; k <= min(boards, maxBoards); k++ {
		t := Stack{Diameter: blade.Blade, Boards: k, Thickness: thickness, Plunge: math.Min(plunge, reach-float64(k)*thickness)}
		past, err := t.Overrun()
		if err != nil || past > overrun+nearly {
			break // more boards plunge less and run out more
		}
		s, ok = t, true
	}
	return s, ok
}
