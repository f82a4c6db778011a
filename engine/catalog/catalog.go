// Package catalog holds what is known about materials and glues: stiffness,
// strength, weight, moisture movement, thicknesses as sold and as measured,
// and the duration and creep factors of each kind of material.
//
// The figures live in CSV files, one figure a row with its source beside it;
// [Parse] reads them. Units are mm, MPa, kg/m³ and minutes throughout. Moduli
// and densities are means, strengths are characteristic values (5th
// percentile), unless a comment says otherwise.
package catalog

import (
	"slices"
	"strings"
)

// Catalog is everything that ships with the program, sorted by key. It is read
// only: copies of a material share its lists and maps.
type Catalog struct {
	Sheets []Sheet // sheet goods
	Woods  []Sheet // solid woods for bands and blocks
	Glues  []Glue
	Kinds  []Kind
}

// Sheet is one material: a sheet good or a solid wood. "Along" is along the
// face grain (or the long side of the press for boards), "across" is at right
// angles to it in the plane of the sheet.
//
// Where Steps or plies are given the figures depend on the thickness: the four
// moduli here are those of a middle thickness and the strengths those of the
// thinnest, so compute with [Sheet.At].
type Sheet struct {
	Key  string `json:"key"`
	Name string `json:"name"`
	Kind string `json:"kind"` // key of a Kind
	// Solid is set for solid wood.
	Solid   bool    `json:"solid,omitempty"`
	Note    string  `json:"note,omitempty"`
	Density float64 `json:"density"` // mean, kg/m³, at indoor moisture content

	// EAlong and EAcross are the mean in-plane moduli (tension and
	// compression) in MPa: what a skin of a hollow panel works with. A rib cut
	// along the face grain has EAlong along its length and EAcross upright.
	EAlong  float64 `json:"eAlong"`
	EAcross float64 `json:"eAcross"`
	// EBendAlong and EBendAcross are the mean moduli in plate bending, MPa.
	EBendAlong  float64 `json:"eBendAlong"`
	EBendAcross float64 `json:"eBendAcross"`
	// GEdge is the mean panel shear modulus (edgewise, in the plane), MPa.
	GEdge float64 `json:"gEdge"`
	// GRolling is the mean shear modulus through the thickness (planar or
	// rolling shear), MPa.
	GRolling float64 `json:"gRolling"`
	// Nu is the major in-plane Poisson ratio: strain across for a pull along.
	// The minor one is Nu·EAcross/EAlong.
	Nu float64 `json:"nu"`

	// Characteristic strengths in MPa. FBearing is compression at right angles
	// to the plane of the sheet.
	FBendAlong  float64 `json:"fBendAlong"`
	FBendAcross float64 `json:"fBendAcross"`
	FTensAlong  float64 `json:"fTensAlong"`
	FTensAcross float64 `json:"fTensAcross"`
	FCompAlong  float64 `json:"fCompAlong"`
	FCompAcross float64 `json:"fCompAcross"`
	FEdgeShear  float64 `json:"fEdgeShear"`
	FRolling    float64 `json:"fRolling"`
	FBearing    float64 `json:"fBearing"`

	// Coefficients of variation, as fractions of the mean.
	CVE        float64 `json:"cvE"`
	CVStrength float64 `json:"cvStrength"`
	CVDensity  float64 `json:"cvDensity"`

	// SwellAlong and SwellAcross are the free strain in the plane for a rise
	// of one percentage point in moisture content. For solid wood "across" is
	// the tangential direction, the larger one.
	SwellAlong  float64 `json:"swellAlong"`
	SwellAcross float64 `json:"swellAcross"`

	// EPlyAlong and EPlyAcross are the moduli of one ply along and across its
	// own grain, MPa; both are 0 when the lay-up is not modelled. With them
	// [Sheet.At] gives the moduli of each thickness.
	EPlyAlong  float64 `json:"ePlyAlong,omitempty"`
	EPlyAcross float64 `json:"ePlyAcross,omitempty"`

	// EThrough is the mean modulus through the thickness, MPa; 0 is not known,
	// see [Sheet.Through].
	EThrough float64 `json:"eThrough,omitempty"`

	// Steps replace figures above certain thicknesses, in rising order: boards
	// whose strength falls as they get thicker.
	Steps       []Step      `json:"steps,omitempty"`
	Thicknesses []Thickness `json:"thicknesses,omitempty"`
	// Sources says for each numeric field, by its JSON name, where the figure
	// comes from.
	Sources map[string]string `json:"sources,omitempty"`
}

// Through returns the modulus through the thickness, MPa: where it is not known a
// fifteenth of that along (common practice, no source; the Wood Handbook's
// radial moduli are .07 to .16 of those along the grain, from memory).
func (s *Sheet) Through() float64 {
	if s.EThrough > 0 {
		return s.EThrough
	}
	return s.EAlong / 15
}

// Grained reports whether the material has a face grain: another stiffness along
// than across. A piece of one that has none may be cut either way round.
func (s *Sheet) Grained() bool {
	return s.EAlong != s.EAcross || s.EBendAlong != s.EBendAcross
}

// Step holds the figures that replace those of the Sheet in sheets thicker than
// Above mm, by their JSON names.
type Step struct {
	Above  float64            `json:"above"`
	Values map[string]float64 `json:"values"`
}

// Thickness is one thickness a material is sold in.
type Thickness struct {
	Nominal  string  `json:"nominal"` // as sold: "1/2 in", "12 mm"
	Actual   float64 `json:"actual"`  // mean, mm
	Imperial bool    `json:"imperial,omitempty"`
	Plies    int     `json:"plies,omitempty"` // number of plies, 0 if not layered
	// Layers are the ply thicknesses in mm from face to face; empty means
	// Plies equal ones.
	Layers []float64 `json:"layers,omitempty"`
	Source string    `json:"source,omitempty"`
}

// Glue is one kind of glue. Times are minutes at 20 °C.
type Glue struct {
	Key, Name            string
	Spread               Range // g/m² of joint, spread on one face
	OpenTime, ClosedTime Range // min: spread to joint closed; closed to pressure
	ClampTime            Range // min under pressure, joint not stressed
	CureTime             Range // min until the joint may be loaded
	MinTemp, MaxTemp     float64
	Pressure             Range   // MPa on the glued area
	Strength             float64 // characteristic shear strength of the bond, MPa
	Density              float64 // g/ml
	HalvesPer10          bool    // clamp and cure times halve for +10 °C
	Note                 string
	Sources              map[string]string
}

// Range is a low and a high value; both are the same for a single figure.
type Range struct{ Low, High float64 }

// Kind is a kind of material as the design codes group them.
type Kind struct {
	Key, Name string
	// KMod is the strength factor by service class (1, 2) and duration:
	// permanent, long, medium, short, instantaneous. 0 means the material is
	// not for that use.
	KMod [2][5]float64
	// KDef is the creep factor by service class; 0 where KMod is 0 throughout.
	KDef   [2]float64
	GammaM float64
	// NotchFactor says that shear at a slot is checked with the notch factor
	// of EN 1995-1-1 6.5.2 (solid wood, OSB, MDF) and not by net section.
	NotchFactor bool
	KN          float64 // kn of that factor
	// ShearLagSpan limits the effective flange width to this share of the
	// span (EN 1995-1-1 Table 9.1).
	ShearLagSpan float64
	// BuckleAlong and BuckleAcross limit it to this many skin thicknesses,
	// for ribs along and across the face grain.
	BuckleAlong, BuckleAcross float64
	Source                    string            // all sources in one line
	Sources                   map[string]string // by field
}

// Sheet returns the sheet good or solid wood with that key.
func (c *Catalog) Sheet(key string) (Sheet, bool) {
	if s, ok := find(c.Sheets, key, func(s Sheet) string { return s.Key }); ok {
		return s, true
	}
	return find(c.Woods, key, func(s Sheet) string { return s.Key })
}

// Glue returns the glue with that key.
func (c *Catalog) Glue(key string) (Glue, bool) {
	return find(c.Glues, key, func(g Glue) string { return g.Key })
}

// Kind returns the kind of material with that key.
func (c *Catalog) Kind(key string) (Kind, bool) {
	return find(c.Kinds, key, func(k Kind) string { return k.Key })
}

// find looks a key up in a list sorted by it.
func find[T any](list []T, key string, keyOf func(T) string) (T, bool) {
	i, ok := slices.BinarySearchFunc(list, key, func(t T, k string) int { return strings.Compare(keyOf(t), k) })
	if !ok {
		var zero T
		return zero, false
	}
	return list[i], true
}
