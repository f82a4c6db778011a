package engine

import (
	"math"
	"slices"

	"flatwright/engine/proof"
	"flatwright/engine/saw"
)

// Proof is a proof load: what is stacked on the finished top, in stages, and what
// the gauge read. Without a round there is none.
type Proof struct {
	Stack  string  `json:"stack,omitempty"`  // key of what is stacked, of [Stackables]; "" is water
	Piece  float64 `json:"piece,omitempty"`  // mass of one piece, kg; 0 is usual for the kind
	Share  float64 `json:"share,omitempty"`  // of the service load that is put on; 0 is all of it
	Stages int     `json:"stages,omitempty"` // on the way up; 0 is [proofStages]
	Hold   float64 `json:"hold,omitempty"`   // of each stage before it is read, minutes; 0 is [proofHold]

	Way    string         `json:"way,omitempty"`    // key of how it is read, of [proof.Ways]; "" is by straightedge
	Error  float64        `json:"error,omitempty"`  // standard error of one reading, mm; 0 is usual for the way
	Over   ProofReference `json:"over,omitempty"`   // what the gauge stands on; "" is usual for the way
	Falls  bool           `json:"falls,omitempty"`  // the reading falls as the top sags
	X      float64        `json:"x,omitempty"`      // where it is read, mm
	Y      float64        `json:"y,omitempty"`      // the same
	Across bool           `json:"across,omitempty"` // the straightedge lies across the width instead of along the length
	From   float64        `json:"from,omitempty"`   // its ends, along it, mm
	To     float64        `json:"to,omitempty"`     // the same

	Rounds []ProofRound `json:"rounds,omitempty"`
	Notes  string       `json:"notes,omitempty"`
}

// ProofRound is one loading up and down, with the stack in one place.
type ProofRound struct {
	X        float64        `json:"x"` // middle of the stack, mm
	Y        float64        `json:"y"`
	SizeX    float64        `json:"sizeX"` // of the ground it covers, mm
	SizeY    float64        `json:"sizeY"`
	Readings []ProofReading `json:"readings,omitempty"` // in the order taken
	Cracking bool           `json:"cracking,omitempty"` // a noise was heard, or a crack seen
}

// ProofReading is one look at the gauge. Of a stage that is read more than once the
// last reading counts, and all tell how it creeps.
type ProofReading struct {
	Stage int     `json:"stage"` // of [ProofRoundPlan.Stages]; 0 is before anything is put on
	Read  float64 `json:"read"`  // mm
	At    string  `json:"at,omitempty"`
	Note  string  `json:"note,omitempty"`
}

// ProofReference is what a gauge stands on.
type ProofReference string

// What a gauge can stand on.
const (
	OnTheTop      ProofReference = "top"      // two points of the top itself: it rides down with it
	OnTheSupports ProofReference = "supports" // a bar from support to support
	OnTheFloor    ProofReference = "floor"
)

// Stackable is a kind of weight.
type Stackable struct {
	Key, Name string
	Piece     float64 // kg
	Source    string
}

// Stackables lists what a shop or a household can stack.
func Stackables() []Stackable {
	return []Stackable{
		{"water", "water in canisters of 20 litres", 21, "1 kg a litre, and 1 kg for the canister: common practice, no source"},
		{"water small", "water in bottles of 1.5 litres, six together", 9.3, "1 kg a litre, and 50 g for a bottle: common practice, no source"},
		{"sand", "bags of sand or mortar", 25, "as sold: common practice, no source"},
		{"slab", "concrete paving slabs 400 × 400 × 40 mm", 15, "0.0064 m³ at 2 350 kg/m³, unreinforced concrete: from memory"},
		{"own", "something weighed", 10, "weigh it"},
	}
}

// Usual figures of a plan; common practice, no source.
const (
	proofStages  = 4
	mostStages   = 12
	proofHold    = 5.0 // minutes, about the time in which moduli are measured (EN 408, EN 789: 300 s, from memory)
	mostShare    = 1.1 // of the service load
	proofLane    = 80.0
	proofPatch   = 400.0 // side of the stack, mm
	maxRounds    = 4
	mostError    = 20.0 // of a reading, mm
	maxProofRead = 200
	maxPiece     = 500.0 // kg
)

// NewProof returns a proof load of a design with one round: the stack in the middle
// between the supports, read by straightedge over the supports.
func NewProof(d Design) Proof {
	along, across := d.spans()
	p := Proof{Stack: "water", Way: "straightedge", Across: d.Supports.pattern() == RailsAlong}
	x, y := (along.A+along.B)/2, (across.A+across.B)/2
	p.X, p.Y = x, y
	p.From, p.To = along.A, along.B
	if p.Across {
		p.From, p.To = across.A, across.B
	}
	p.Rounds = []ProofRound{d.NewRound(x, y)}
	return p
}

// NewRound returns a round with a stack of the usual size, as near to a place as
// it fits on the top.
func (d Design) NewRound(x, y float64) ProofRound {
	sx, sy := math.Min(proofPatch, d.Length), math.Min(proofPatch, d.Width)
	return ProofRound{X: math.Min(math.Max(x, sx/2), d.Length-sx/2), Y: math.Min(math.Max(y, sy/2), d.Width-sy/2), SizeX: sx, SizeY: sy}
}

// SecondRound returns a round that tells shear and slip from bending: the stack
// near a support, where of the sag more is shear.
func (d Design) SecondRound() ProofRound {
	along, across := d.spans()
	if d.Proof.Across {
		return d.NewRound(d.Proof.X, across.A+0.2*(across.B-across.A))
	}
	return d.NewRound(along.A+0.2*(along.B-along.A), d.Proof.Y)
}

// clone returns a deep copy.
func (p Proof) clone() Proof {
	p.Rounds = slices.Clone(p.Rounds)
	for i := range p.Rounds {
		p.Rounds[i].Readings = slices.Clone(p.Rounds[i].Readings)
	}
	return p
}

// Planned reports whether there is a proof load at all.
func (p Proof) Planned() bool { return len(p.Rounds) > 0 }

// Stackable returns what is stacked, with the mass of a piece.
func (p Proof) Stackable() Stackable {
	out := Stackables()[0]
	for _, s := range Stackables() {
		if s.Key == p.Stack {
			out = s
		}
	}
	if p.Piece > 0 && p.Piece <= maxPiece {
		out.Piece = p.Piece
	}
	return out
}

// Reads returns the way it is read, with the standard error of one reading.
func (p Proof) Reads() proof.Way {
	w, ok := proof.WayOf(p.Way)
	if !ok {
		w, _ = proof.WayOf("straightedge")
	}
	if p.Error > 0 && p.Error < mostError {
		w.Error = p.Error
	}
	return w
}

// Reference returns what the gauge stands on.
func (p Proof) Reference() ProofReference {
	switch {
	case p.Over == OnTheTop || p.Over == OnTheSupports:
		return p.Over
	case p.Over == "" && p.Reads().On:
		return OnTheTop
	}
	return OnTheFloor
}

// StagesUp and Minutes are how many stages go up, and for how long each is held.
func (p Proof) StagesUp() int {
	if p.Stages > 0 {
		return p.Stages
	}
	return proofStages
}

// Minutes is for how long each stage is held before it is read.
func (p Proof) Minutes() float64 {
	if p.Hold > 0 && p.Hold <= 24*60 {
		return p.Hold
	}
	return proofHold
}

// withoutReadings returns what the plan depends on.
func (p Proof) withoutReadings() Proof {
	p = p.clone()
	p.Notes = ""
	for i := range p.Rounds {
		p.Rounds[i].Readings, p.Rounds[i].Cracking = nil, false
	}
	return p
}

// ProofInput returns the design without what is read and noted: two designs with
// the same one have the same plan.
func (d Design) ProofInput() Design {
	d = d.Clone()
	d.Proof = d.Proof.withoutReadings()
	d.Name, d.Notes, d.Surveys, d.Stock, d.Prices, d.Measured, d.Leaves, d.Log, d.Shop.Start = "", "", nil, nil, nil, nil, nil, nil, ""
	d.Tools, d.Cutting = saw.Tools{}, Cutting{}
	return d
}

// presses are the patches under a stack. A straightedge on the top needs a lane
// that stays free: the stack stands on both sides of it.
func (d *Design) presses(r ProofRound) []Spread {
	whole := Spread{r.X, r.Y, r.SizeX, r.SizeY}
	if d.Proof.Reference() != OnTheTop {
		return []Spread{whole}
	}
	split := func(at, middle, size float64) (lo, hi [2]float64, cut bool) {
		a, b := middle-size/2, middle+size/2
		if at+proofLane/2 <= a || at-proofLane/2 >= b {
			return lo, hi, false
		}
		return [2]float64{a, at - proofLane/2}, [2]float64{at + proofLane/2, b}, true
	}
	const least = 20.0 // a strip that nothing stands on
	var out []Spread
	if d.Proof.Across {
		lo, hi, cut := split(d.Proof.X, r.X, r.SizeX)
		if !cut {
			return []Spread{whole}
		}
		for _, s := range [...][2]float64{lo, hi} {
			if s[1]-s[0] >= least {
				out = append(out, Spread{(s[0] + s[1]) / 2, r.Y, s[1] - s[0], r.SizeY})
			}
		}
		return out
	}
	lo, hi, cut := split(d.Proof.Y, r.Y, r.SizeY)
	if !cut {
		return []Spread{whole}
	}
	for _, s := range [...][2]float64{lo, hi} {
		if s[1]-s[0] >= least {
			out = append(out, Spread{r.X, (s[0] + s[1]) / 2, r.SizeX, s[1] - s[0]})
		}
	}
	return out
}

// stack returns the loads of a stack of that force, N.
func (d *Design) stack(r ProofRound, force float64) []Load {
	spreads := d.presses(r)
	area := 0.0
	for _, s := range spreads {
		area += s.SizeX * s.SizeY
	}
	var out []Load
	for _, s := range spreads {
		out = append(out, Load{Name: "stack", Kind: Patch, Force: force * s.SizeX * s.SizeY / area, X: s.X, Y: s.Y, SizeX: s.SizeX, SizeY: s.SizeY})
	}
	return out
}
