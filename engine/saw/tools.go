package saw

// Tools is what a person owns to cut slots with, and what is put up with. A tool
// whose first figure is 0 is not owned; the zero value owns nothing. All
// lengths in mm.
type Tools struct {
	Rail   Saw    `json:"rail,omitzero"`   // circular saw on a guide rail
	Bench  Saw    `json:"bench,omitzero"`  // table saw
	Radial Saw    `json:"radial,omitzero"` // saw that is drawn across the work: radial arm or sliding mitre
	Dado   Dado   `json:"dado,omitzero"`   // wide cutter for the table or the radial saw
	Router Router `json:"router,omitzero"`
	Jig    Narrow `json:"jig,omitzero"`  // jig saw
	Hand   Narrow `json:"hand,omitzero"` // hand saw

	Overlap float64 `json:"overlap,omitempty"` // of two passes side by side; 0 is [UsualOverlap]
	Overrun float64 `json:"overrun,omitempty"` // by which a slot may be cut past its mark in a stack; 0 is [UsualOverrun]
	Plunge  float64 `json:"plunge,omitempty"`  // how deep the board under a stack may be cut into; 0 is [UsualPlunge]
}

// Saw is a round blade in its machine.
type Saw struct {
	Blade  float64 `json:"blade"`            // diameter; 0 is not owned
	Kerf   float64 `json:"kerf"`             // width of its cut
	Reach  float64 `json:"reach"`            // how far it comes out of base, rail or table, or below the motor
	Travel float64 `json:"travel,omitempty"` // of a rail its length, of a radial saw its stroke; 0 is not stated and not checked
}

// Dado is a cutter of adjustable width.
type Dado struct {
	Diameter float64 `json:"diameter"` // 0 is not owned
	Least    float64 `json:"least"`    // narrowest width it can be set to
	Most     float64 `json:"most"`     // widest
	Reach    float64 `json:"reach"`    // out of the table or below the motor
}

// Router is a router with one straight bit, run along a guide.
type Router struct {
	Bit  float64 `json:"bit"`            // diameter; 0 is not owned
	Cut  float64 `json:"cut"`            // how deep it reaches
	Step float64 `json:"step,omitempty"` // depth of one pass; 0 is half the bit
}

// Narrow is a saw with a straight blade.
type Narrow struct {
	Kerf  float64 `json:"kerf"`  // 0 is not owned
	Reach float64 `json:"reach"` // how thick it cuts, or how deep below its back
}

// What is taken where nothing is stated; common practice, no source.
const (
	UsualOverlap = 0.5  // leaves no sliver between two passes, mm
	UsualOverrun = 5.0  // mm
	UsualPlunge  = 12.0 // leaves something of an 18 mm board, mm
)

// Usual returns a small workshop's tools, for those who have not stated theirs:
// common practice, no source; blade diameters and kerfs as usually sold, from
// memory.
func Usual() Tools {
	return Tools{
		Rail:   Saw{Blade: 165, Kerf: 2.2, Reach: 50, Travel: 1400},
		Bench:  Saw{Blade: 254, Kerf: 3.2, Reach: 80},
		Router: Router{Bit: 12, Cut: 50, Step: 6},
		Jig:    Narrow{Kerf: 1.5, Reach: 60},
		Hand:   Narrow{Kerf: 0.9, Reach: 75},
	}
}

// Stated reports whether any tool is owned.
func (t Tools) Stated() bool {
	return t.Rail.Blade > 0 || t.Bench.Blade > 0 || t.Radial.Blade > 0 || t.Dado.Diameter > 0 || t.Router.Bit > 0 || t.Jig.Kerf > 0 || t.Hand.Kerf > 0
}

// Filled returns t with the usual values where it states none of overlap,
// overrun, plunge and the router's step.
func (t Tools) Filled() Tools {
	usual := func(v *float64, u float64) {
		if *v == 0 {
			*v = u
		}
	}
	usual(&t.Overlap, UsualOverlap)
	usual(&t.Overrun, UsualOverrun)
	usual(&t.Plunge, UsualPlunge)
	usual(&t.Router.Step, t.Router.Bit/2)
	return t
}
