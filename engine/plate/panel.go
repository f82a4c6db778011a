package plate

// Panel is what is computed: two skins of the same outline with ribs between
// them. Positions are in the panel's axes.
type Panel struct {
	X0, X1, Y0, Y1 float64 // outline of the skins
	Top, Bottom    Layer
	Height         float64 // clear distance between the skins
	Along          []Rib   // ribs along x; At is y of the middle
	Across         []Rib   // ribs along y; At is x of the middle
	Rims           []Rim
	Fills          []Fill
	Pads           []Pad
	Beams          []Beam
	Seams          []Seam
	Loose          []Loose
	Bare           []Bare
	Splices        []Splice
	Pierced        []Splice // of ribs with a hole; they bring no lines of their own
	Holes          []Hole
	Grooves        []Groove
	Divide         int          // elements across a bay, at least 1
	Cuts           [2][]float64 // further grid lines x = const and y = const, so that two panels are compared on one mesh

	// Closer asks for more lines: at the edges of the pads and of Loads, which are
	// to come, and where bays are few. It takes longer.
	Closer bool
	Loads  []Press
}

// Rib is one rib as built. G and Own carry all that slots and the glue line's
// give take away.
type Rib struct {
	At float64
	Web
}

// Rim is an edge band glued to the skins' edge on one side, over the full
// height.
type Rim struct {
	Side Side
	Web
}

// Side names an edge of the outline.
type Side uint8

// The edges.
const (
	Left  Side = iota // x = X0
	Right             // x = X1
	Front             // y = Y0
	Back              // y = Y1
)

// Fill is a solid block between the skins.
type Fill struct {
	X0, X1, Y0, Y1     float64
	Ex, Ey, EUp, G, Gz float64 // in-plane moduli, upright modulus, in-plane and through-thickness shear
}

// Pad is an elastic bed under the bottom skin that pushes and never pulls: a
// foot, a rail, a ledger. Name groups pads whose reactions belong together.
type Pad struct {
	Name         string
	X, Y, SX, SY float64
	K            float64 // N/mm³
	Glued        bool    // also pulls, as screws do, and in models that cannot lift
}

// Press is a force P, N, downwards on the top skin, spread evenly over a
// rectangle, and a couple, N·mm, that turns the panel there without pressing it
// down: pressures on both skins that grow evenly from the middle outwards, down
// where x, or y, is larger and up where it is smaller.
type Press struct {
	P, X, Y, SX, SY float64
	TX, TY          float64 // first moments of the couple's pressures along x and along y
}

// Seam is a butt joint of one skin without a splice plate: it carries neither
// membrane force nor moment across, only shear through the thickness. It runs
// along y at x = At, or along x at y = At. Over a rib, the rib carries something
// across.
type Seam struct {
	Top    bool // in the top skin, else in the bottom one
	AlongX bool
	At     float64
	Over   Bridge
}

// SeamWidth is the width of the strip of mesh that stands for a seam, mm.
const SeamWidth = 1.0
