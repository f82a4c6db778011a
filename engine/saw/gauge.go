package saw

import (
	"fmt"
	"math"
)

// Tile is one strip of a gauge stick that is drawn at full size and cut from
// paper. All figures are stations from the stick's datum end, mm.
type Tile struct {
	Number    int       `json:"number"`          // from 1
	From      float64   `json:"from"`            // where the strip begins
	To        float64   `json:"to"`              // and ends
	Registers []float64 `json:"registers"`       // where crosses of two strips are laid over each other
	Marks     []Mark    `json:"marks,omitempty"` // slots that lie on it, whole or in part
}

// Mark is one slot on a stick.
type Mark struct {
	Number int     `json:"number"` // from 1, at the datum end
	Middle float64 `json:"middle"`
	From   float64 `json:"from"` // first side of the slot
	To     float64 `json:"to"`   // second side
}

// maxTiles is the most strips that a stick is laid out on.
const maxTiles = 1000

// Tiles lays a stick of that length on strips of at most usable mm, which
// overlap by lap mm. Registers lie in the middle of every overlap, on both of
// its strips, at whole multiples of one distance that is a whole number of 10 mm
// where usable allows it: then every strip but the last is of one length, and
// an error of the printer shows at the same place on each.
//
// It returns [ErrDomain] unless length is above 0, lap at least 0 and usable at
// least twice lap and above 0.
func Tiles(length, usable, lap float64, marks []Mark) ([]Tile, error) {
	if !(length > 0) || !(lap >= 0) || !(usable > 0) || !(usable >= 2*lap) || !(length/usable < maxTiles/2) {
		return nil, fmt.Errorf("a stick of %g mm on strips of %g mm that overlap by %g mm: %w", length, usable, lap, ErrDomain)
	}
	pitch := usable - lap
	if pitch >= 20 {
		pitch = math.Floor(pitch/10+nearly) * 10
	}
	n := max(1, int(math.Ceil((length-lap/2)/pitch-nearly)))
	out := make([]Tile, n)
	for i := range out {
		t := Tile{Number: i + 1, From: float64(i)*pitch - lap/2, To: float64(i+1)*pitch + lap/2}
		if i == 0 {
			t.From = 0
		} else {
			t.Registers = append(t.Registers, float64(i)*pitch)
		}
		if i == n-1 {
			t.To = length
		} else {
			t.Registers = append(t.Registers, float64(i+1)*pitch)
		}
		for _, m := range marks {
			if m.To > t.From && m.From < t.To {
				t.Marks = append(t.Marks, m)
			}
		}
		out[i] = t
	}
	return out, nil
}

// CheckLength returns the length of the line to be measured on every page before
// a stick is trusted, in units of unit mm: the longest multiple of 50 (of 2, if
// unit is an inch or so) that fits into usable mm, at least one.
func CheckLength(usable, unit float64) float64 {
	step := 50.0
	if unit > 10 {
		step = 2
	}
	return step * math.Max(1, math.Floor(usable/(step*unit)+nearly))
}
