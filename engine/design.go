package engine

import (
	"flatwright/engine/catalog"
	"flatwright/engine/saw"
)

// Design is everything a person decides about one top. It is a value: an edit
// makes a new Design with [Design.Clone] and changes the copy. Units are those
// of the package; the unit system in which lengths are shown is not part of it.
type Design struct {
	Name   string  `json:"name"`
	Notes  string  `json:"notes,omitempty"`
	Use    Use     `json:"use,omitempty"`    // what the top is for; only a label and the source of the defaults
	Length float64 `json:"length"`           // along x, finished, over the edge bands, mm
	Width  float64 `json:"width"`            // along y, finished, over the edge bands, mm
	Height float64 `json:"height,omitempty"` // of the working surface above the floor, mm; 0 is not stated

	TopSkin    Skin    `json:"topSkin"`
	BottomSkin Skin    `json:"bottomSkin"`
	Seams      []Seam  `json:"seams,omitempty"`
	CoreDepth  float64 `json:"coreDepth"` // clear distance between the skins, equal to the rib height, mm

	Lengthwise RibSet   `json:"lengthwise"` // ribs along x; their positions are y of the rib's middle
	Crosswise  RibSet   `json:"crosswise"`  // ribs along y; their positions are x of the rib's middle
	Slots      Slots    `json:"slots"`
	EdgeBand   EdgeBand `json:"edgeBand"`
	Blocks     []Block  `json:"blocks,omitempty"`
	Splices    []Splice `json:"splices,omitempty"` // in ribs and edge bands longer than their sheet
	Holes      []Hole   `json:"holes,omitempty"`
	Grooves    []Groove `json:"grooves,omitempty"`
	KeepOff    float64  `json:"keepOff,omitempty"` // distance that holes and grooves keep from ribs, mm; 0 means HoleClearance

	Built    []Built      `json:"built,omitempty"`        // what was made otherwise than drawn
	Log      []StepLog    `json:"log,omitempty"`          // what happened at the build steps
	Measured []RibMeasure `json:"ribsMeasured,omitempty"` // ribs as cut, before they are glued
	Tools    saw.Tools    `json:"tools,omitzero"`         // with which slots can be cut; none stated are the usual ones

	Supports Supports   `json:"supports"`
	Cases    []LoadCase `json:"cases"`
	Limits   Limits     `json:"limits"`

	Air    Air             `json:"air,omitzero"` // about the panel, when glued and in use
	Glue   string          `json:"glue"`         // catalogue key
	Shop   Shop            `json:"shop"`
	Prices []Price         `json:"prices,omitempty"`
	Stock  []Stock         `json:"stock,omitempty"`     // beside Prices, whose sheets also count as stock: see [Design.Sheets]
	Own    []catalog.Sheet `json:"materials,omitempty"` // materials that are not in the catalogue, carried with the design

	Surveys []Survey `json:"surveys,omitempty"` // of the bed and of the finished top, in the order taken
	GlueUp  GlueUp   `json:"glueUp,omitzero"`   // what there is for gluing up

	Leaves []float64 `json:"leaves,omitempty"` // thicknesses that shims are stacked from, mm; none is a usual set of feelers

	Proof Proof `json:"proof,omitzero"` // load of the finished top, and what was read

	Cutting Cutting `json:"cutting,omitzero"` // how sheets are cut up

	kept *extras // unknown keys of the file this design came from; never changed, so clones share it
}

// Use is what a top is for. It fixes nothing after the design is made.
type Use string

// The uses that a new design can start from.
const (
	AssemblyTable Use = "assembly table"
	Workbench     Use = "workbench"
	OutfeedTable  Use = "outfeed table"
	WallFolding   Use = "wall-hung folding top"
	TrestleTop    Use = "top on trestles"
)

// Skin is one face sheet.
type Skin struct {
	Material  string  `json:"material"`         // catalogue key
	Thickness float64 `json:"thickness"`        // actual mean, mm
	Across    bool    `json:"across,omitempty"` // face grain across the length instead of along it
}

// Seam is a butt joint between two sheets of one skin. Without a splice nothing
// pulls or bends across it.
type Seam struct {
	Skin    string  `json:"skin"`              // TopSeam or BottomSeam, the part ID of the skin
	Along   bool    `json:"along,omitempty"`   // runs along the length at y = At instead of along the width at x = At
	At      float64 `json:"at"`                // from the panel's outer edge, mm
	Spliced bool    `json:"spliced,omitempty"` // by a splice plate or a scarf: counts as whole
	Scarf   bool    `json:"scarf,omitempty"`   // of a spliced one: by a scarf instead of a plate; over a rib it always is
}

// The skins that may have seams.
const (
	TopSeam    = "top"
	BottomSeam = "bottom"
)

// RibSet is all ribs that run one way.
type RibSet struct {
	Material  string    `json:"material"`
	Thickness float64   `json:"thickness"`           // actual mean, mm: it sets the stiffness
	Thickest  float64   `json:"thickest,omitempty"`  // thickest of the measured readings, mm: it sets the slots; 0 means Thickness
	Count     int       `json:"count"`               // ribs spaced evenly, unless Positions is given
	Inset     float64   `json:"inset,omitempty"`     // from the edge of the skins to the outer face of the outermost rib, mm
	Positions []float64 `json:"positions,omitempty"` // middle of every rib from the panel's edge, mm, increasing; overrides Count and Inset
	Upright   bool      `json:"upright,omitempty"`   // face grain across the rib's length instead of along it
}

// Slots says how the half-laps are cut.
type Slots struct {
	Clearance      float64  `json:"clearance"`                // slot width over the mating rib's thickest reading, mm
	Relief         float64  `json:"relief"`                   // slot depth over half the rib height, mm
	MoistureRise   float64  `json:"moistureRise,omitempty"`   // by which the ribs may get moister before they are put together, percentage points: their swelling widens the slots
	LengthwiseDown bool     `json:"lengthwiseDown,omitempty"` // lengthwise slots open downwards; by default upwards
	Way            saw.Kind `json:"way,omitempty"`            // in which they are cut, of [Result.SlotWork]; "" is the one that it advises
	Glued          bool     `json:"glued,omitempty"`          // laps glued so tight that they count as whole wood; by default as open slots
}

// EdgeBand closes the four sides over the full height of the panel. The long
// bands run the whole length, the short ones fit between them. Thickness 0 is
// no band.
type EdgeBand struct {
	Material  string  `json:"material,omitempty"`
	Thickness float64 `json:"thickness,omitempty"`
}

// Block fills one bay: the bay Column counts along x from 0 between the
// crosswise ribs, Row along y from 0 between the lengthwise ribs.
type Block struct {
	Material string `json:"material"`
	Column   int    `json:"column"`
	Row      int    `json:"row"`
}

// SupportKind is how the top rests.
type SupportKind string

// The ways a top can rest.
const (
	RailsAcross SupportKind = "rails across" // two lines across the width, EndInset from either end
	RailsAlong  SupportKind = "rails along"  // two lines along the length, SideInset from either side
	FourLegs    SupportKind = "legs"         // four pads, EndInset and SideInset from the edges
	AllEdges    SupportKind = "all edges"    // held up along the whole perimeter
	OnLedger    SupportKind = "ledger"       // a ledger under one whole edge, two legs or a rail at the opposite one
	OwnFeet     SupportKind = "own feet"     // single pads where the person puts them
)

// Supports is the arrangement under the panel. Insets are from the panel's
// outer edge to the middle of the bearing.
type Supports struct {
	Kind      SupportKind `json:"kind"`
	EndInset  float64     `json:"endInset,omitempty"`  // along x, mm
	SideInset float64     `json:"sideInset,omitempty"` // along y, mm
	Bearing   float64     `json:"bearing"`             // width of the rail or side of the square pad, mm
	Bed       float64     `json:"bed,omitempty"`       // stiffness of what lies between top and support, N/mm³; 0 means WoodOnWood

	Fastened bool   `json:"fastened,omitempty"` // screwed to its base: supports also pull; by default it lies loose
	Screws   Screws `json:"screws,omitzero"`    // of a fastened top, at each support

	Ledger Edge   `json:"ledger,omitempty"` // of OnLedger: the edge held, flush with it and Bearing wide; "" is the back
	Rail   bool   `json:"rail,omitempty"`   // of OnLedger: a rail opposite instead of two legs
	Feet   []Foot `json:"feet,omitempty"`   // of OwnFeet
	Apron  Apron  `json:"apron,omitzero"`   // of FourLegs: joins the legs
}

// Screws is what holds a pull at one place. The zero value is not told, and not
// checked.
type Screws struct {
	Number   int     `json:"number,omitempty"`
	Diameter float64 `json:"diameter,omitempty"` // of the thread, outside, mm
	Depth    float64 `json:"depth,omitempty"`    // of the thread in the wood that it pulls on, mm; not of bolts
	Washer   float64 `json:"washer,omitempty"`   // diameter of a bolt's washer, mm: with one they are bolts right through
}

// Told reports whether enough is known of the screws to check them.
func (s Screws) Told() bool {
	return s.Number > 0 && s.Diameter > 0 && (s.Depth > 0 || s.Washer > 0)
}

// Foot is one pad under the panel.
type Foot struct {
	Name string  `json:"name,omitempty"`
	X    float64 `json:"x"` // of its middle, mm
	Y    float64 `json:"y"`
	Size float64 `json:"size,omitempty"` // side of the square, mm; 0 means Bearing
}

// WoodOnWood is the bed of a top that rests on wood, N/mm³; from memory. Felt
// has 0.05 to 0.2, rubber 0.5 to 3, wood on wood 5 to 20, all from memory.
const WoodOnWood = 10.0

// BedStiffness returns the stiffness of the bed under the top, N/mm³.
func (s Supports) BedStiffness() float64 {
	if s.Bed > 0 {
		return s.Bed
	}
	return WoodOnWood
}

// Duration is the load-duration class of EN 1995-1-1 Table 2.1 (from memory).
type Duration string

// The duration classes, longest first.
const (
	Permanent     Duration = "permanent"
	LongTerm      Duration = "long"
	MediumTerm    Duration = "medium"
	ShortTerm     Duration = "short"
	Instantaneous Duration = "instant"
)

// LoadCase is loads that act together, on top of the panel's own weight,
// which always acts.
type LoadCase struct {
	Name     string   `json:"name"`
	Duration Duration `json:"duration"`
	Loads    []Load   `json:"loads"`
}

// LoadKind is the shape of a load.
type LoadKind string

// The load shapes.
const (
	Patch   LoadKind = "patch"   // Force spread over SizeX × SizeY about (X, Y); a point load is a small one
	Line    LoadKind = "line"    // Force spread along a straight line parallel to an edge: a long, narrow patch
	Uniform LoadKind = "uniform" // Force spread over the whole top
	Couple  LoadKind = "couple"  // two opposite forces, Arm apart, that turn a block and press nothing down
)

// Load is one thing that presses on the top or turns it. The footprint of a
// line is kept like that of a patch, so that SizeX is always along the length
// of the top; Across says which of the two is the line's own length.
type Load struct {
	Name  string   `json:"name"`
	Kind  LoadKind `json:"kind"`
	Force float64  `json:"force"` // N, downwards; of a couple, either of its two forces
	X     float64  `json:"x,omitempty"`
	Y     float64  `json:"y,omitempty"`
	SizeX float64  `json:"sizeX,omitempty"`
	SizeY float64  `json:"sizeY,omitempty"`

	Across bool `json:"across,omitempty"` // the line runs across the width: SizeY is its length, SizeX its width

	// Of a couple: the bay of the block on which it acts, as in [Block].
	Pull   Pull    `json:"pull,omitempty"` // where the upper force points
	Arm    float64 `json:"arm,omitempty"`  // height of the upper force above the lower one, mm
	Column int     `json:"column,omitempty"`
	Row    int     `json:"row,omitempty"`

	Screws Screws `json:"screws,omitzero"` // of a couple: what holds the vise on its block where it is pulled up
}

// Limits is what the person asks of the top. A zero is "no limit".
type Limits struct {
	Sag  float64 `json:"sag,omitempty"`  // mm, under the worst load case, relative to the supports
	Mass float64 `json:"mass,omitempty"` // kg
	Cost float64 `json:"cost,omitempty"` // in the person's own currency

	Flatness float64 `json:"flatness,omitempty"` // of the finished top before it is loaded, mm: its minimum zone

	Twist float64 `json:"twist,omitempty"` // mm, by which a corner may drop without its support, the worst of four under the worst case
}

// Shop is where and when the top is glued.
type Shop struct {
	Temperature float64 `json:"temperature"`    // °C
	People      int     `json:"people"`         // spreading glue
	Start       string  `json:"start"`          // local clock time, [ClockLayout]
	Damp        bool    `json:"damp,omitempty"` // service class 2 (unheated, roofed) instead of 1 (heated)
}

// ClockLayout is the form of [Shop.Start], in the notation of package time.
const ClockLayout = "2006-01-02T15:04"

// Price is what one sheet costs. Prices are the person's own; none come with
// the program.
type Price struct {
	Material  string  `json:"material"`
	Thickness float64 `json:"thickness"` // actual, mm, as in the design
	Sheet     float64 `json:"sheet"`     // price of one sheet, own currency
	Length    float64 `json:"length"`    // of the sheet, mm
	Width     float64 `json:"width"`     // of the sheet, mm
}

// Clone returns a deep copy: no slice is shared.
func (d Design) Clone() Design {
	d.Lengthwise.Positions = append([]float64(nil), d.Lengthwise.Positions...)
	d.Crosswise.Positions = append([]float64(nil), d.Crosswise.Positions...)
	d.Seams = append([]Seam(nil), d.Seams...)
	d.Blocks = append([]Block(nil), d.Blocks...)
	d.Splices = append([]Splice(nil), d.Splices...)
	d.Holes = append([]Hole(nil), d.Holes...)
	d.Grooves = append([]Groove(nil), d.Grooves...)
	d.Supports.Feet = append([]Foot(nil), d.Supports.Feet...)
	d.Built = append([]Built(nil), d.Built...)
	d.Log = append([]StepLog(nil), d.Log...)
	d.Measured = append([]RibMeasure(nil), d.Measured...)
	d.Prices = append([]Price(nil), d.Prices...)
	d.Stock = append([]Stock(nil), d.Stock...)
	d.Cutting.Free = append([]string(nil), d.Cutting.Free...)
	d.Own = append([]catalog.Sheet(nil), d.Own...)
	d.Leaves = append([]float64(nil), d.Leaves...)
	d.Surveys = append([]Survey(nil), d.Surveys...)
	for i := range d.Surveys {
		d.Surveys[i] = d.Surveys[i].clone()
	}
	d.Proof = d.Proof.clone()
	d.GlueUp = d.GlueUp.clone()
	cases := append([]LoadCase(nil), d.Cases...)
	for i := range cases {
		cases[i].Loads = append([]Load(nil), cases[i].Loads...)
	}
	d.Cases = cases
	return d
}

// SlotThickness returns the thickness that the other ribs' slots are cut for.
func (r RibSet) SlotThickness() float64 {
	if r.Thickest > 0 {
		return r.Thickest
	}
	return r.Thickness
}

// TotalDepth returns the panel's overall thickness in mm.
func (d Design) TotalDepth() float64 {
	return d.TopSkin.Thickness + d.CoreDepth + d.BottomSkin.Thickness
}
