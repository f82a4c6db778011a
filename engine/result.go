package engine

// Severity orders problems.
type Severity uint8

// Blocking problems leave nothing to compute; a Shortfall misses a limit the
// person set or a margin of 1; Advice is worth knowing.
const (
	Advice Severity = iota
	Shortfall
	Blocking
)

// Problem is one thing that is wrong or weak in a design, told to a person.
// It is data, never an error.
type Problem struct {
	Code     string   `json:"code"` // stable, kebab-case
	Severity Severity `json:"severity"`
	Field    string   `json:"field,omitempty"` // JSON path of the field at fault, as "topSkin.thickness" or "cases[0].loads[1].force"
	Part     string   `json:"part,omitempty"`  // part at fault, as [Part.ID]
	Text     string   `json:"text"`            // what, why, and what would help; lengths are written in mm
}

// Result is everything [Compute] finds out about a design. When a problem is
// Blocking, only Problems is filled in.
type Result struct {
	Problems  []Problem    `json:"problems"`
	Parts     []Part       `json:"parts"`
	Mass      MassReport   `json:"mass"`
	Cost      CostReport   `json:"cost"`
	SlotWork  SlotWork     `json:"slotWork"`
	Stiffness Stiffness    `json:"stiffness"`
	Cases     []CaseResult `json:"cases"`
	Governing int          `json:"governing"` // index into Cases of the largest sag
	Margins   []Margin     `json:"margins"`   // lowest first
	Depth     DepthReport  `json:"depth"`
	Knobs     []Knob       `json:"knobs"`
	Build     BuildPlan    `json:"build"`
	Working   []Working    `json:"working"`
	Whole     *Whole       `json:"whole,omitempty"` // nil until [Refine] has run, or where nothing holds the panel up

	WhatIf *WhatIfReport `json:"whatIf,omitempty"` // nil while Depth and Knobs are estimates: by the closed form, scaled to the whole panel

	AsBuilt *AsBuilt `json:"asBuilt,omitempty"` // nil unless something is marked in [Design.Built] and the mesh is at rest

	closed   closed   // what Refine starts from
	LongTerm []Creep  `json:"longTerm,omitempty"` // as Cases
	Moisture Moisture `json:"moisture"`

	GlueUp GlueUpReport `json:"glueUp"`

	Bed BedReport `json:"bed"` // surveys of bed and top, and what the panel keeps of the bed
}

// AsBuilt sets the panel as it was made beside the panel as designed, by the
// whole-panel model on the same mesh.
type AsBuilt struct {
	DesignedSag    float64 `json:"designedSag"`    // of the governing case, mm
	Sag            float64 `json:"sag"`            // largest of any case as built, mm
	DesignedMargin float64 `json:"designedMargin"` // lowest
	Margin         float64 `json:"margin"`         // lowest as built
	Lowest         Margin  `json:"lowest"`         // the lowest as built, with its place

	Sags []float64 `json:"sags"` // of every case as built, mm
	Mass float64   `json:"mass"` // as built, kg
}

// closed keeps what [Estimate] found before the whole-panel model changed it.
type closed struct {
	problems []Problem // those that do not rest on sag and margins
	working  []Working
	depth    DepthReport
	knobs    []Knob
	cases    []CaseResult
}

// Blocked reports whether the design could not be computed.
func (r Result) Blocked() bool {
	for _, p := range r.Problems {
		if p.Severity == Blocking {
			return true
		}
	}
	return false
}

// notHeldCode is the code of the problem that nothing holds the panel down.
const notHeldCode = "not-held"

// NotHeld says in a sentence under which load the panel tips off its supports or
// rocks on them; it is empty if it does not, or if the whole panel was not
// computed yet. Of such a panel there is no sag and no margin.
func (r Result) NotHeld() string {
	for _, p := range r.Problems {
		if p.Code == notHeldCode {
			return p.Text
		}
	}
	return ""
}

// PartKind is what a part is.
type PartKind string

// The kinds of part.
const (
	SkinPart       PartKind = "skin"
	LengthwisePart PartKind = "lengthwise rib"
	CrosswisePart  PartKind = "crosswise rib"
	BandPart       PartKind = "edge band"
	BlockPart      PartKind = "block"
	SplicePart     PartKind = "splice plate"
)

// Box is an axis-aligned volume in the panel's axes, mm.
type Box struct {
	X0 float64 `json:"x0"`
	X1 float64 `json:"x1"`
	Y0 float64 `json:"y0"`
	Y1 float64 `json:"y1"`
	Z0 float64 `json:"z0"`
	Z1 float64 `json:"z1"`
}

// Part is one piece of the panel as it stands; what is cut for it is its [Piece]s.
type Part struct {
	ID         string   `json:"id"`   // unique and stable: "top", "L1", "C3", "band front", "block 0,2"
	Mark       string   `json:"mark"` // parts with the same mark are the same piece and interchangeable
	Kind       PartKind `json:"kind"`
	Name       string   `json:"name"`
	Material   string   `json:"material"`
	Length     float64  `json:"length"`    // along the part, mm
	Width      float64  `json:"width"`     // height of a rib, mm
	Thickness  float64  `json:"thickness"` // mm
	Place      Box      `json:"place"`
	Slots      []Slot   `json:"slots,omitempty"`
	Volume     float64  `json:"volume"`     // net of slots, holes and grooves, mm³
	Mass       float64  `json:"mass"`       // kg
	GrainAlong bool     `json:"grainAlong"` // face grain runs along Length

	gone []removed // by holes and grooves
}

// Slot is one half-lap notch, measured from the part's datum end, which is
// the end at x = 0 or y = 0.
type Slot struct {
	Station float64 `json:"station"` // datum end to the slot's middle, mm
	Width   float64 `json:"width"`
	Depth   float64 `json:"depth"`
	FromTop bool    `json:"fromTop"` // open at the upper edge of the rib
	Mate    string  `json:"mate"`    // ID of the rib that enters it
}

// MassReport says what the panel weighs, in kg, and where its centre is, in mm.
type MassReport struct {
	Parts    float64    `json:"parts"`
	Glue     float64    `json:"glue"`
	Total    float64    `json:"total"`
	Centre   [3]float64 `json:"centre"`
	ByKind   []MassLine `json:"byKind"`
	Slab     float64    `json:"slab"`     // a solid slab of the same outline and depth in the top skin's material
	Share    float64    `json:"share"`    // Total / Slab
	Pieces   int        `json:"pieces"`   // ribs as designed
	Blocking int        `json:"blocking"` // pieces if short blocking between full lengthwise ribs made the same grid
	Laps     int        `json:"laps"`
	Aprons   float64    `json:"aprons,omitempty"` // of the rails that join the legs, from leg to leg; not in Total, kg
}

// MassLine is the mass of all parts of one kind.
type MassLine struct {
	Kind  PartKind `json:"kind"`
	Count int      `json:"count"`
	Mass  float64  `json:"mass"`
}

// CostReport is the cost of the material, in the person's own currency.
type CostReport struct {
	Total   float64  `json:"total"`             // by area
	Missing []string `json:"missing,omitempty"` // materials in use that have no price
	Sheets  *float64 `json:"sheets,omitempty"`  // what the sheets to buy cost; nil until a layout has told, see [CostReport.With]
}

// Direction is the stiffness of the panel bent along one axis, over its whole
// width across that axis.
type Direction struct {
	EI          float64     `json:"ei"`      // bending stiffness for the first sine term of the span, N·mm²
	Rigid       float64     `json:"rigid"`   // the same with perfectly rigid glue lines and no shear lag, N·mm²
	GA          float64     `json:"ga"`      // shear stiffness, N
	Neutral     float64     `json:"neutral"` // height of the neutral axis above the panel's underside, mm
	Span        float64     `json:"span"`    // mm
	GammaTop    float64     `json:"gammaTop"`
	GammaBottom float64     `json:"gammaBottom"`
	Slot        SlotFactors `json:"slot"`
	SlabEI      float64     `json:"slabEI"` // the solid slab's, N·mm²
}

// SlotFactors are what is left of a rib's own bending and shear stiffness
// once the half-lap slots are cut.
type SlotFactors struct {
	Bending float64 `json:"bending"`
	Shear   float64 `json:"shear"`
	Source  string  `json:"source"`
}

// Stiffness gathers both directions and the twist.
type Stiffness struct {
	Along  Direction `json:"along"`  // bent along x
	Across Direction `json:"across"` // bent along y
	GJ     float64   `json:"gj"`     // torsion about x, N·mm²
}

// CaseResult is one load case.
type CaseResult struct {
	Name    string    `json:"name"`
	Sag     float64   `json:"sag"`    // largest sag found, mm: the whole-panel model's once it has run
	Closed  float64   `json:"closed"` // the closed form's, looked for at the loads, beside them at the edges, and midway between supports
	X       float64   `json:"x"`      // where
	Y       float64   `json:"y"`
	OwnSag  float64   `json:"ownSag"`  // share of the panel's own weight in it, mm
	Bending float64   `json:"bending"` // share of Sag that is bending, 0..1
	Shear   float64   `json:"shear"`
	Twist   float64   `json:"twist"`
	SlabSag float64   `json:"slabSag"` // the solid slab under the same case at the same place, mm
	Loads   []LoadSag `json:"loads"`
	Apart   string    `json:"apart,omitempty"` // where the closed form and the whole panel part by more than 15 %: which assumption fails, in words
	Reach   string    `json:"reach,omitempty"` // which assumption of the closed form this case strains, in words
}

// LoadSag is the sag under one load, all loads of the case and own weight acting.
type LoadSag struct {
	Name      string  `json:"name"`
	X         float64 `json:"x"`
	Y         float64 `json:"y"`
	Sag       float64 `json:"sag"`       // mm
	Alone     float64 `json:"alone"`     // by this load alone, mm
	Stiffness float64 `json:"stiffness"` // Force / Alone, N/mm
}

// Margin is one way the panel can fail: Capacity over Demand, both design
// values, passing at 1.
type Margin struct {
	Code     string  `json:"code"`
	Name     string  `json:"name"`
	Where    string  `json:"where"` // in words
	Part     string  `json:"part"`
	X        float64 `json:"x"`
	Y        float64 `json:"y"`
	Case     string  `json:"case"`
	Value    float64 `json:"value"`    // Capacity / Demand
	Times    float64 `json:"times"`    // the case's loads may be multiplied by this before that point, own weight kept
	Capacity float64 `json:"capacity"` // MPa unless Unit says otherwise
	Demand   float64 `json:"demand"`
	Unit     string  `json:"unit"`
	KMod     float64 `json:"kmod"`
	GammaM   float64 `json:"gammaM"`
	Source   string  `json:"source"`
	Note     string  `json:"note,omitempty"`

	near   point // still to be put into words behind Where
	nearby bool
}

// DepthReport says how sag depends on the core depth for this very panel.
type DepthReport struct {
	Factor   float64      `json:"factor,omitempty"` // by which the closed form's sags are multiplied to agree with the whole-panel model at the present depth; 0 where it has not run
	Exponent float64      `json:"exponent"`         // sag goes with core depth to the power of minus this
	Curve    []DepthPoint `json:"curve"`            // increasing core depth, as far as it can be built
	Needed   float64      `json:"needed"`           // least core depth that meets the sag limit, mm; 0 if none within 3 × the present depth or there is no limit
}

// DepthPoint is one recomputed panel.
type DepthPoint struct {
	CoreDepth float64 `json:"coreDepth"`
	Sag       float64 `json:"sag"`
	Mass      float64 `json:"mass"`
}

// Knob is what one step of one field does, recomputed.
type Knob struct {
	Field string    `json:"field"`
	Name  string    `json:"name"`
	Up    *KnobStep `json:"up,omitempty"`
	Down  *KnobStep `json:"down,omitempty"`
}

// KnobStep is a recomputed neighbour of the design.
type KnobStep struct {
	Value    float64 `json:"value"`              // of the field: mm or a count; the sheet's thickness where a material changes
	Material string  `json:"material,omitempty"` // key of the other material
	Sag      float64 `json:"sag"`                // change, mm
	Mass     float64 `json:"mass"`               // change, kg
	Margin   float64 `json:"margin"`             // change of the lowest margin
	Cost     float64 `json:"cost,omitempty"`     // change, where Priced
	Priced   bool    `json:"priced,omitempty"`   // every material of both has a price, and [WhatIf] has run
}

// BuildPlan is the glue-up in order.
type BuildPlan struct {
	Steps       []BuildStep `json:"steps"`
	GlueMass    float64     `json:"glueMass"`    // to have ready, with waste, kg
	GlueArea    float64     `json:"glueArea"`    // mm²
	JointLength float64     `json:"jointLength"` // rib-to-skin joint of one face, mm
	LoadFrom    string      `json:"loadFrom"`    // clock time before which nothing may be put on it
}

// BuildStep is one step with its time.
type BuildStep struct {
	Key    string  `json:"key"` // stable, kebab-case
	Name   string  `json:"name"`
	Text   string  `json:"text"`
	Low    float64 `json:"low"`    // minutes
	High   float64 `json:"high"`   // minutes
	Starts string  `json:"starts"` // clock time by the high durations, [ClockLayout]
	Ends   string  `json:"ends"`
	Wait   bool    `json:"wait"` // nobody works during it
	Source string  `json:"source"`

	Spreads bool `json:"spreads,omitempty"` // glue lies open from its start until the next step is over
	Cures   bool `json:"cures,omitempty"`   // its time is the glue's, and stretches in the cold
}

// Working is one formula with the numbers in it, for people to follow.
type Working struct {
	Key     string `json:"key"` // as "along.ei"
	Title   string `json:"title"`
	Formula string `json:"formula"`
	Numbers string `json:"numbers"`
	Result  string `json:"result"`
	Source  string `json:"source"`
	Plain   string `json:"plain"` // what it means to a woodworker
}
