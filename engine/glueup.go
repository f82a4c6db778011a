package engine

import "slices"

// GlueUp is what the person has for gluing the skins on and how the work is
// split. The zero value means: nothing stated, all as usual.
type GlueUp struct {
	Split  Split      `json:"split,omitempty"`
	Tool   SpreadTool `json:"tool,omitempty"` // what spreads the glue; "" wastes a sixth of it
	Rate   float64    `json:"rate,omitempty"` // rib edge that one person wets, mm a minute; 0 is usual
	Press  PressWay   `json:"press,omitempty"`
	Clamps Clamps     `json:"clamps,omitzero"`
	Caul   CaulStock  `json:"caul,omitzero"`

	MoreClamps []Clamps    `json:"moreClamps,omitempty"` // of other kinds, beside Clamps; only those with a Count
	MoreCauls  []CaulStock `json:"moreCauls,omitempty"`  // of other sizes, beside Caul; only those with a Count

	Weight float64     `json:"weight,omitempty"` // at hand to lay on it, kg; 0 is not stated
	Screws PressScrews `json:"screws,omitzero"`
	Vacuum Vacuum      `json:"vacuum,omitzero"`
}

// Split is how the spreading is divided so that no glue lies open too long.
type Split string

// The splits. The zero value wets laps and bottom skin in one go and the top
// skin in another.
const (
	Together  Split = ""
	GridFirst Split = "grid first"     // the laps alone, then one skin after the other
	HalfGrid  Split = "half the grid"  // the laps of one half, of the other, then the skins
	SkinADay  Split = "one skin a day" // the laps, the bottom and the top skin on three days
)

// Splits lists them.
var Splits = [...]Split{Together, GridFirst, HalfGrid, SkinADay}

// InWords says what a split is.
func (s Split) InWords() string {
	switch s {
	case GridFirst:
		return "the grid first, then the skins"
	case HalfGrid:
		return "half the grid at a time, then the skins"
	case SkinADay:
		return "grid, bottom skin and top skin on three days"
	}
	return "laps and bottom skin in one go, then the top skin"
}

// SpreadTool is what glue is spread with.
type SpreadTool string

// The tools.
const (
	Roller  SpreadTool = "roller"
	Brush   SpreadTool = "brush"
	Bottle  SpreadTool = "bottle"
	Trowel  SpreadTool = "notched trowel"
	anyTool SpreadTool = ""
)

// SpreadTools lists them.
var SpreadTools = [...]SpreadTool{Roller, Brush, Bottle, Trowel}

// Waste is the share of what is poured that stays in the tool and the tray or
// drips off; common practice, no source.
func (t SpreadTool) Waste() float64 {
	switch t {
	case Roller:
		return 0.20
	case Brush:
		return 0.12
	case Bottle:
		return 0.05
	case Trowel:
		return 0.15
	}
	return 1.0 / 6 // a fifth more than stays in the joints
}

// clone returns a deep copy.
func (g GlueUp) clone() GlueUp {
	g.MoreClamps, g.MoreCauls = slices.Clone(g.MoreClamps), slices.Clone(g.MoreCauls)
	return g
}

// Clamps are those of one kind at hand, all alike.
type Clamps struct {
	Count int     `json:"count,omitempty"` // 0 is not stated
	Force float64 `json:"force,omitempty"` // of each, N; 0 is usual
	Reach float64 `json:"reach,omitempty"` // from the bar to the middle of the pad, mm; 0 is not stated
}

// CaulStock is the wood for cauls of one size; zeros are proposed.
type CaulStock struct {
	Count  int     `json:"count,omitempty"`  // 0 is not stated: as many as it takes
	Width  float64 `json:"width,omitempty"`  // of the face that presses, mm
	Height float64 `json:"height,omitempty"` // mm
}

// PressScrews are screws through a skin into the ribs that hold while the glue sets.
type PressScrews struct {
	Diameter float64 `json:"diameter,omitempty"` // of the thread, outside, mm
	Depth    float64 `json:"depth,omitempty"`    // of the thread in the rib, mm
	Head     float64 `json:"head,omitempty"`     // diameter of the head, mm
}

// Vacuum is a pump with a bag.
type Vacuum struct {
	Share    float64 `json:"share,omitempty"`    // of the air that its gauge says is taken out, %; 0 is usual
	Altitude float64 `json:"altitude,omitempty"` // of the shop, m; 0 is sea level
	Flow     float64 `json:"flow,omitempty"`     // of the pump, litres a minute; 0 is not stated
}

// PressWay is a way to press skins onto ribs; "" is the one that is advised.
type PressWay string

// The ways.
const (
	ByClamps  PressWay = "clamps"
	ByCauls   PressWay = "cauls"
	ByWeights PressWay = "weights"
	ByScrews  PressWay = "screws"
	ByVacuum  PressWay = "vacuum"
)

// PressWays lists them.
var PressWays = [...]PressWay{ByClamps, ByCauls, ByWeights, ByScrews, ByVacuum}

// GlueUpReport is how the panel is glued up.
type GlueUpReport struct {
	Sides  []GlueSide    `json:"sides"`
	Waste  float64       `json:"waste"`  // share of the glue that the tool wastes
	Factor float64       `json:"factor"` // by which open and closed times are those of the table, in this shop
	Air    string        `json:"air"`    // where Factor comes from, in words
	Splits []SplitOption `json:"splits"`
	Best   int           `json:"best"`  // of Splits
	Taken  int           `json:"taken"` // of Splits, as [GlueUp.Split] says

	Needed   float64       `json:"needed"` // pressure on the ribs, MPa
	Source   string        `json:"source"` // of Needed
	Area     float64       `json:"area"`   // of ribs under one skin, mm²
	Force    float64       `json:"force"`  // on one skin, N
	RibLines []RibLine     `json:"ribLines"`
	Ways     []PressOption `json:"ways"`     // as [PressWays]
	Way      int           `json:"way"`      // of Ways: the one picked, else the one advised; -1 if none reaches
	Pressing Range         `json:"pressing"` // minutes to lay one skin on and press it; 0 where no way reaches
	Closing  string        `json:"closing"`

	Checks []PressCheck `json:"checks"` // of what the pressure does to the wood
	Pins   []PinPlace   `json:"pins"`   // against sliding
	Vents  []Vent       `json:"vents"`  // that the bays need in a bag
}

// GlueSide is the glue of one side.
type GlueSide struct {
	Name        string  `json:"name"`
	Length      float64 `json:"length,omitempty"` // of joint, mm; of the laps 0
	Area        float64 `json:"area"`             // mm²
	Grams       float64 `json:"grams"`            // to have ready, with what the tool wastes
	Millilitres float64 `json:"millilitres"`
}

// RibLine is one rib's edge under a skin.
type RibLine struct {
	Rib   string  `json:"rib"` // part ID
	At    float64 `json:"at"`  // of its middle: x of a crosswise, y of a lengthwise rib, mm
	Area  float64 `json:"area"`
	Force float64 `json:"force"` // N, at the pressure needed

	Clamps  int     `json:"clamps"`  // of those stated or usual
	Spacing float64 `json:"spacing"` // mm

	// Of several kinds of clamps: how many of each, as they are stated, and the force
	// that they leave lacking, N.
	Kinds []int   `json:"kinds,omitempty"`
	Lacks float64 `json:"lacks,omitempty"`
}

// PressOption is one way to press.
type PressOption struct {
	Way      PressWay `json:"way"`
	Name     string   `json:"name"`
	Stated   bool     `json:"stated"`  // the person said what there is of it
	Reaches  bool     `json:"reaches"` // the pressure needed
	Pressure float64  `json:"pressure"`
	Why      string   `json:"why,omitempty"` // it does not reach it
	Lines    []string `json:"lines"`         // what to do

	Count int     `json:"count,omitempty"` // of clamps, screws or cauls
	Pitch float64 `json:"pitch,omitempty"` // of cauls along the panel or screws along a rib, mm
	Dip   float64 `json:"dip"`             // of the skin between ribs while it is pressed, mm

	Places []float64 `json:"places,omitempty"` // of the cauls along the panel, mm, where they are not evenly spaced
}

// PressCheck is one way in which the pressure can hurt the wood.
type PressCheck struct {
	Name   string  `json:"name"`
	Value  float64 `json:"value"` // MPa, or mm of a dip
	Limit  float64 `json:"limit"`
	Unit   string  `json:"unit"`
	Source string  `json:"source"`
}

// Holds reports whether the wood takes it.
func (c PressCheck) Holds() bool { return c.Value <= c.Limit }

// PinPlace is where a pin keeps a wet skin from sliding.
type PinPlace struct {
	X float64 `json:"x"`
	Y float64 `json:"y"`
}

// Vent is a hole through a rib that lets the air out of a bay.
type Vent struct {
	Rib      string  `json:"rib"`
	X        float64 `json:"x"`
	Y        float64 `json:"y"`
	Up       float64 `json:"up"` // of its middle above the rib's lower edge, mm
	Diameter float64 `json:"diameter"`
}

// addGlueUp adds how the panel is glued up.
func (d *Design) addGlueUp(m *materials, r *Result) {
	j := d.joints()
	g := GlueUpReport{Waste: d.GlueUp.Tool.Waste(), Sides: d.glueSides(j), Area: j.face}
	g.Factor, g.Air = d.openFactor(d.Shop.Temperature)
	g.Splits, g.Best = d.splitOptions(j)
	for i, s := range g.Splits {
		if s.Split == d.GlueUp.Split && s.People == 0 && s.Glue == "" {
			g.Taken = i
		}
	}
	d.pressing(m, &g)
	r.GlueUp = g
}
