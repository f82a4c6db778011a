package engine

import (
	"fmt"
	"math"

	"flatwright/engine/section"
)

// Air is how damp the air is, as relative humidity in percent. A zero is not
// stated, and a usual value is taken.
type Air struct {
	MadeAt float64 `json:"madeAt,omitempty"` // where the panel is glued; 0: 50
	Above  float64 `json:"above,omitempty"`  // over the top in use; 0: 35 in a heated room, 85 in a damp place
	Below  float64 `json:"below,omitempty"`  // under it; 0: as above
}

// Moisture is what the seasons do to a panel without a load.
type Moisture struct {
	Air     Air  `json:"air"`               // as used, nothing zero
	Assumed bool `json:"assumed,omitempty"` // some of Air was not stated

	Made  float64 `json:"made"`  // moisture content when glued, %
	Above float64 `json:"above"` // of the top skin in use, %
	Below float64 `json:"below"` // of the bottom skin, %
	Core  float64 `json:"core"`  // of ribs and edge bands: the mean of both, %

	// BowAlong and BowAcross are the rise of the middle over the two ends of
	// the length and of the width, mm; positive is middle high.
	BowAlong  float64 `json:"bowAlong"`
	BowAcross float64 `json:"bowAcross"`
	// RimStep is by how much a solid-wood edge band comes to stand above the
	// skins, both faces together, mm; negative is below. It is 0 for a band of
	// sheet material and without one.
	RimStep float64 `json:"rimStep"`
}

// What is taken for air that is not stated, %.
const (
	usualMadeAt = 50 // indoor air is 45 to 55 %, Wood Handbook FPL-GTR-282 p. 10-14
	usualHeated = 35 // a heated room in winter; common practice, no source
	usualDamp   = 85 // service class 2 is above it for a few weeks a year, EN 1995-1-1 2.3.1.3, from memory
)

// roomTemperature is that of the air in use, °C: the one that EN 1995-1-1
// 2.3.1.3 ties its service classes to (from memory).
const roomTemperature = 20

// thicknessSwell is the free strain of a sheet through its thickness for one
// percentage point of moisture content: .003 to .004 for plywood, boards pressed
// from chips or fibres much alike; from memory.
const thicknessSwell = 0.003

// stepSeen is the step at a rim that a hand feels, mm; common practice, no
// source.
const stepSeen = 0.1

const (
	sourceEMC   = "equilibrium moisture content by Hailwood and Horrobin, Wood Handbook eq. 4-5, coefficients from memory"
	sourceSwell = "swelling figures of the material table"
)

// equilibrium returns the moisture content, %, that wood takes on in air of
// celsius °C and a relative humidity in %:
//
//	M = 1800/W·[KH/(1 − KH) + (K₁KH + 2K₁K₂K²H²)/(1 + K₁KH + K₁K₂K²H²)]
//
// H is the humidity as a fraction, W and the K are quadratic in temperature. It
// is for solid wood between drying and wetting, right to about a percentage
// point; sheet goods take up a little less, so what follows from it errs high.
//
// Source: Hailwood and Horrobin; Wood Handbook FPL-GTR-282 (2021) eq. 4-5, form
// and coefficients (for °C) from memory.
func equilibrium(celsius, humidity float64) float64 {
	t, h := celsius, humidity/100
	w := 349 + 1.29*t + 0.0135*t*t
	k := 0.805 + 0.000736*t - 0.00000273*t*t
	k1 := 6.27 - 0.00938*t - 0.000303*t*t
	k2 := 1.91 + 0.0407*t - 0.000293*t*t
	kh := k * h
	return 1800 / w * (kh/(1-kh) + (k1*kh+2*k1*k2*kh*kh)/(1+k1*kh+k1*k2*kh*kh))
}

// air returns the design's air with the usual values where it states none.
func (d *Design) air() (a Air, assumed bool) {
	a = d.Air
	assumed = a.MadeAt == 0 || a.Above == 0
	if a.MadeAt == 0 {
		a.MadeAt = usualMadeAt
	}
	if a.Above == 0 {
		a.Above = usualHeated
		if d.Shop.Damp {
			a.Above = usualDamp
		}
	}
	if a.Below == 0 {
		a.Below = a.Above
	}
	return a, assumed
}

// strains are the free strains of a panel's layers along one axis.
type strains struct{ top, bottom, web, rim float64 }

// bowCurvature returns the curvature, 1/mm, that free strains of the layers
// give a panel that nothing holds, positive with the middle high:
//
//	κ = Σ E·A·ε·(z − z₀)/EI
//
// Every layer strains evenly over its own depth, glue lines and skins follow
// rigidly (strain that does not change along the panel shears nothing but its
// ends), and the two directions bow each for itself. A panel with equal skins
// and equal strains in them gives exactly 0, and so do equal strains throughout:
// depths are taken from mid-depth and strains from the bottom skin's.
//
// Source: a layered beam with free strains, as a bimetal; textbook.
func bowCurvature(p section.Panel, e strains) float64 {
	half := (p.H + p.Top.T + p.Bottom.T) / 2
	zTop, zBottom, zWeb := half-p.Top.T/2, p.Bottom.T/2-half, (p.Bottom.T-p.Top.T)/2
	top := p.Top.E * p.Top.T * p.Width
	bottom := p.Bottom.E * p.Bottom.T * p.Width
	web := p.Web.Bending * p.Web.E * p.Web.B * p.H * float64(p.Web.N)
	rim := p.Rim.E * p.Rim.B * 2 * half
	z0 := (top*zTop + bottom*zBottom + web*zWeb) / (top + bottom + web + rim)
	moment := top*(e.top-e.bottom)*(zTop-z0) + web*(e.web-e.bottom)*(zWeb-z0) - rim*(e.rim-e.bottom)*z0
	return moment / p.At(0, section.Connection{}).EI
}

// moisture works out what the air does to the panel.
func (d Design) moisture(mo *model, m *materials) Moisture {
	a, assumed := d.air()
	r := Moisture{Air: a, Assumed: assumed, Made: equilibrium(d.Shop.Temperature, a.MadeAt),
		Above: equilibrium(roomTemperature, a.Above), Below: equilibrium(roomTemperature, a.Below)}
	r.Core = (r.Above + r.Below) / 2
	along, across := d.freeStrains(m, r)
	r.BowAlong = bowCurvature(mo.along.panel, along) * d.Length * d.Length / 8
	r.BowAcross = bowCurvature(mo.across.panel, across) * d.Width * d.Width / 8
	r.RimStep = d.rimStep(m, r)
	return r
}

// freeStrains returns what the layers would do if each were free, along the
// length and along the width.
func (d *Design) freeStrains(m *materials, r Moisture) (along, across strains) {
	top, bottom, core := r.Above-r.Made, r.Below-r.Made, r.Core-r.Made
	swell := func(along, across float64, turned bool) (x, y float64) {
		if turned {
			return across, along
		}
		return along, across
	}
	tx, ty := swell(m.top.SwellAlong, m.top.SwellAcross, d.TopSkin.Across)
	bx, by := swell(m.bottom.SwellAlong, m.bottom.SwellAcross, d.BottomSkin.Across)
	lx, _ := swell(m.lengthwise.SwellAlong, m.lengthwise.SwellAcross, d.Lengthwise.Upright)
	cx, _ := swell(m.crosswise.SwellAlong, m.crosswise.SwellAcross, d.Crosswise.Upright)
	rim := m.band.SwellAlong * core
	return strains{tx * top, bx * bottom, lx * core, rim}, strains{ty * top, by * bottom, cx * core, rim}
}

// rimStep returns by how much more a solid-wood edge band grows in height than
// the panel beside it, mm. The band moves across its grain by the tangential
// figure; the panel is the mean of both sets of ribs and the two skins through
// their thickness.
func (d *Design) rimStep(m *materials, r Moisture) float64 {
	if d.EdgeBand.Thickness == 0 || !m.band.Solid {
		return 0
	}
	upright := func(along, across float64, turned bool) float64 {
		if turned {
			return along
		}
		return across
	}
	ribs := (upright(m.lengthwise.SwellAlong, m.lengthwise.SwellAcross, d.Lengthwise.Upright) +
		upright(m.crosswise.SwellAlong, m.crosswise.SwellAcross, d.Crosswise.Upright)) / 2
	core := r.Core - r.Made
	panel := ribs*core*d.CoreDepth + thicknessSwell*((r.Above-r.Made)*d.TopSkin.Thickness+(r.Below-r.Made)*d.BottomSkin.Thickness)
	return m.band.SwellAcross*core*d.TotalDepth() - panel
}

// addMoisture adds what the seasons do to a result.
func (d Design) addMoisture(mo *model, m *materials, r *Result) {
	r.Moisture = d.moisture(mo, m)
	r.Working = append(r.Working, d.moistureWorking(mo, m, r.Moisture)...)
	r.Problems = append(r.Problems, d.moistureProblems(r.Moisture)...)
}

// moistureProblems advises on a step at the rim and on a bow over the sag
// limit.
func (d *Design) moistureProblems(r Moisture) []Problem {
	var out []Problem
	if math.Abs(r.RimStep) > stepSeen {
		does := "shrinks"
		if r.RimStep > 0 {
			does = "swells"
		}
		out = append(out, Problem{Code: "rim-step", Severity: Advice, Field: "edgeBand.material",
			Text: fmt.Sprintf("Between %s the solid-wood edge band %s %.2f mm more in height than the panel beside it, and a step shows at the rim. A band of sheet material with a thin solid lipping would stay level.", r.airInWords(), does, math.Abs(r.RimStep))})
	}
	limit := d.Limits.Sag
	if bow := math.Max(math.Abs(r.BowAlong), math.Abs(r.BowAcross)); limit > 0 && bow > limit {
		out = append(out, Problem{Code: "moisture-bow", Severity: Advice, Field: "bottomSkin.material",
			Text: fmt.Sprintf("Between %s the top bows by itself, %s along and %s across, more than the sag limit of %.2f mm. Two equal skins, finished alike, and the same air on both sides would keep it flat.", r.airInWords(), bowInWords(r.BowAlong), bowInWords(r.BowAcross), limit)})
	}
	return out
}

// airInWords says from which air to which air the panel goes.
func (r Moisture) airInWords() string {
	use := fmt.Sprintf("use at %g %%", r.Air.Above)
	if r.Air.Above != r.Air.Below {
		use = fmt.Sprintf("use with %g %% above and %g %% below", r.Air.Above, r.Air.Below)
	}
	text := fmt.Sprintf("gluing at %g %% relative humidity and %s", r.Air.MadeAt, use)
	if r.Assumed {
		text += " (usual values where none is stated)"
	}
	return text
}

// contentInWords says how moist the parts are.
func (r Moisture) contentInWords() string {
	return fmt.Sprintf("Moisture content %.1f %% when glued; in use top skin %.1f %%, ribs and bands %.1f %%, bottom skin %.1f %%.", r.Made, r.Above, r.Core, r.Below)
}

// bowInWords prints a bow with its direction.
func bowInWords(mm float64) string { return eitherWay(mm, "middle high", "middle low") }

// stepInWords prints a step with its direction.
func stepInWords(mm float64) string { return eitherWay(mm, "the rim stands up", "the rim falls back") }

func eitherWay(mm float64, positive, negative string) string {
	switch {
	case mm == 0:
		return "0 mm"
	case math.Abs(mm) < 0.01:
		return "under 0.01 mm"
	case mm > 0:
		return fmt.Sprintf("%.2f mm (%s)", mm, positive)
	}
	return fmt.Sprintf("%.2f mm (%s)", -mm, negative)
}

// moistureWorking writes the formulas out with this panel's numbers in them.
func (d *Design) moistureWorking(mo *model, m *materials, r Moisture) []Working {
	along, across := d.freeStrains(m, r)
	out := []Working{{Key: "moisture.content", Title: "Moisture content of the wood",
		Formula: "M = 1800/W·[KH/(1 − KH) + (K₁KH + 2K₁K₂K²H²)/(1 + K₁KH + K₁K₂K²H²)]",
		Numbers: fmt.Sprintf("%s; shop at %g °C, %d °C in use", r.airInWords(), d.Shop.Temperature, roomTemperature),
		Result:  r.contentInWords(),
		Source:  sourceEMC,
		Plain:   "Wood dries until it suits the air. Sheet goods take up a little less water than solid wood, for which this is."}}
	for _, w := range [...]struct {
		key, way string
		p        section.Panel
		e        strains
		length   float64
		bow      float64
	}{{"along", "along the length", mo.along.panel, along, d.Length, r.BowAlong}, {"across", "across the width", mo.across.panel, across, d.Width, r.BowAcross}} {
		out = append(out, Working{Key: "moisture." + w.key, Title: "Bow by moisture " + w.way,
			Formula: "κ = Σ E·A·ε·(z − z₀)/EI, ε = swelling·change of moisture content; bow = κ·L²/8",
			Numbers: fmt.Sprintf("ε: top skin %s, bottom skin %s, ribs %s; EI = %s N·mm²; L = %.0f mm", strain(w.e.top), strain(w.e.bottom), strain(w.e.web), sci(w.p.At(0, section.Connection{}).EI), w.length),
			Result:  bowInWords(w.bow),
			Source:  "layered beam with free strains, textbook; " + sourceSwell,
			Plain:   "Equal skins in equal air pull against each other and stay flat; unequal ones bow with the seasons."})
	}
	if d.EdgeBand.Thickness > 0 && m.band.Solid {
		out = append(out, Working{Key: "moisture.rim", Title: "Step at the solid-wood rim",
			Formula: "step = swelling across the grain·ΔM·depth − (ribs' own swelling·ΔM·height + 0.003·Σ ΔM·thickness over the skins)",
			Numbers: fmt.Sprintf("band %g for 1 %%, ΔM = %.2f %%, depth %.1f mm, core %.1f mm", m.band.SwellAcross, r.Core-r.Made, d.TotalDepth(), d.CoreDepth),
			Result:  stepInWords(r.RimStep) + ", both faces together",
			Source:  sourceSwell + "; tangential figure for the band; skins through their thickness .003 for 1 %, from memory",
			Plain:   "Solid wood moves most across its grain; sheet material at the rim moves with the rest."})
	}
	return out
}

// strain prints a strain in thousandths.
func strain(e float64) string { return fmt.Sprintf("%.3f ‰", 1000*e) }
