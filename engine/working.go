package engine

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"flatwright/engine/catalog"
	"flatwright/engine/section"
)

// Sources that several workings share.
const (
	sourceGamma = "γ-method of EN 1995-1-1 Annex B, from memory, with the connection taken as slip and shear lag"
	sourceSlip  = "anti-plane shear of the skin's cross-section, derived"
)

// working writes the formulas out with this panel's numbers in them.
func (d Design) working(mo *model, m *materials, r Result) []Working {
	var out []Working
	add := func(key, title, formula, numbers, result, source, plain string) {
		out = append(out, Working{key, title, formula, numbers, result, source, plain})
	}
	for _, w := range []way{{&mo.along, true, 1}, {&mo.across, false, 1}} {
		d.workDirection(w, mo, add)
		d.workWidths(w, m, add)
	}
	height := mo.along.panel.H + (mo.along.panel.Top.T+mo.along.panel.Bottom.T)/2
	add("torsion", "Twisting stiffness", "GJ = 4·A²/Σ(s/(G·t))",
		fmt.Sprintf("a closed box %.1f mm deep between the skins' middles; skins G·t = %.0f and %.0f N/mm", height,
			mo.along.panel.Top.G*mo.along.panel.Top.T, mo.along.panel.Bottom.G*mo.along.panel.Bottom.T),
		sci(mo.along.gj)+" N·mm²", "Bredt, textbook", "How hard it is to wind the top: the closed box is what makes a hollow top stiff in twist.")
	if len(r.Cases) > 0 {
		d.workSag(mo, r, add)
	}
	if len(r.Cases) > 0 {
		d.workCouples(d.Cases[r.Governing], add)
	}
	out = append(out, marginWorking(r)...)
	j := d.joints()
	add("mass", "Weight", "Σ volume·density + glue",
		fmt.Sprintf("%.2f kg of parts and %.2f kg of glue on %.2f m² of joint", r.Mass.Parts, r.Mass.Glue, j.area()*1e-6),
		fmt.Sprintf("%.2f kg", r.Mass.Total), "densities and spread from the material and glue tables", "Glue is counted wet; it loses some weight as it dries.")
	if r.Depth.Exponent != 0 {
		out = append(out, d.depthWorking(r))
	}
	return out
}

// marginKey is the key of the working of the lowest margin.
const marginKey = "margin"

// marginWorking writes out the lowest margin.
func marginWorking(r Result) []Working {
	if len(r.Margins) == 0 {
		return nil
	}
	g := r.Margins[0]
	if strings.HasPrefix(g.Code, "tipping") {
		return []Working{{marginKey, "Lowest margin", "margin = 0.9·own weight·its arm ÷ (1.5·force at the rim·its arm)",
			fmt.Sprintf("%s, %s: own weight holds down with %.3g %s, somebody who leans turns with %.3g %s; arms from the line it tips over", g.Name, g.Where, g.Capacity, g.Unit, g.Demand, g.Unit),
			fmt.Sprintf("%.2f", g.Value), g.Source, "Below 1 the loose top can tip there; fastened down it does not tip this way."}}
	}
	return []Working{{marginKey, "Lowest margin", "margin = R·kmod/γM ÷ (1.35·own weight + 1.5·load)",
		fmt.Sprintf("%s, %s: capacity %.3g %s with kmod %.2f and γM %.2f; demand %.3g %s", g.Name, g.Where, g.Capacity, g.Unit, g.KMod, g.GammaM, g.Demand, g.Unit),
		fmt.Sprintf("%.2f", g.Value), "format of EN 1990 and EN 1995-1-1, factors from memory; " + g.Source,
		"1 is just enough by the timber code's own reserves; more is better."}}
}

type addWorking func(key, title, formula, numbers, result, source, plain string)

func (d Design) workDirection(w way, mo *model, add addWorking) {
	p, f, key := w.panel, w.first, w.name()
	s, k := p.Spacing(), math.Pi/(w.span.B-w.span.A)
	title := "bent along the length"
	slab := mo.slab.ei
	if !w.along {
		title, slab = "bent along the width", mo.slab.eiAcross
	}
	for _, side := range []struct {
		name string
		skin section.Skin
		g    float64
	}{{"top", p.Top, f.GammaTop}, {"bottom", p.Bottom, f.GammaBottom}} {
		c := section.Slip(p.Web.B, s, side.skin.T, side.skin.GRoll, side.skin.G)
		l := section.ShearLag(k, s, side.skin.T, side.skin.E, side.skin.G)
		add(key+".gamma."+side.name, "How much of the "+side.name+" skin works, "+title,
			"γ = 1/(1 + k²·E·t·s·(c + λ)), k = π/span",
			fmt.Sprintf("k = π/%.0f mm, E = %.0f MPa, t = %.2f mm, rib spacing s = %.1f mm, slip c = %s mm²/N, shear lag λ = %s mm²/N", w.span.B-w.span.A, side.skin.E, side.skin.T, s, sci(c), sci(l)),
			fmt.Sprintf("%.3f", side.g), sourceGamma+"; slip: "+sourceSlip,
			"1 would be a skin that follows the ribs perfectly. Wide bays and soft plies let it lag behind.")
	}
	name, formula := "What the slots leave of the ribs, ", "from slot pitch over rib height"
	if len(d.Splices) > 0 {
		name, formula = "What slots and splices leave of the ribs, ", formula+"; a joint that adds a length ℓ of rib at x takes 2ℓ/L·sin²(πx/L) of its bending and cos² of its shear"
	}
	add(key+".slots", name+title, formula,
		fmt.Sprintf("the rib's own bending × %.2f, its shear × %.2f", p.Web.Bending, p.Web.Shear), fmt.Sprintf("%.2f and %.2f", p.Web.Bending, p.Web.Shear),
		d.slotSource(), slotsPlain(d.Slots))
	add(key+".ei", "Bending stiffness, "+title, "EI = ΣE·I + Σγ·E·A·(z − z₀)²",
		fmt.Sprintf("top skin %s, bottom skin %s, ribs, skins' own and bands %s N·mm²; neutral axis %.1f mm above the underside", sci(f.SkinTop), sci(f.SkinBottom), sci(f.EI-f.SkinTop-f.SkinBottom), f.Neutral),
		sci(f.EI)+" N·mm²", sourceGamma, fmt.Sprintf("%.0f %% of the solid slab's %s N·mm².", 100*f.EI/slab, sci(slab)))
	d1 := p.H + (p.Top.T+p.Bottom.T)/2
	add(key+".shear", "Shear stiffness, "+title, "S = ks·Σ G·b·d²/h",
		fmt.Sprintf("%d ribs of %.2f mm, G = %.0f MPa, d = %.1f mm between the skins' middles, h = %.1f mm, ks = %.2f", p.Web.N, p.Web.B, p.Web.G, d1, p.H, p.Web.Shear),
		sci(w.ga)+" N", "Allen, Analysis and Design of Structural Sandwich Panels (1969), from memory", "Ribs resist the skins sliding past each other; in a deep, short top this matters more than bending.")
}

// workWidths sets how much of each skin counts with a rib by the code's limits beside
// what the model's own stress peak at the rib comes to.
func (d Design) workWidths(w way, m *materials, add addWorking) {
	p, f := w.panel, w.first
	span, s := w.span.B-w.span.A, p.Spacing()
	title := "bent along the length"
	if !w.along {
		title = "bent along the width"
	}
	for _, side := range [...]struct {
		name  string
		skin  section.Skin
		sheet *catalog.Sheet
		of    Skin
		lag   float64
	}{{"top", p.Top, &m.top, d.TopSkin, f.LagTop}, {"bottom", p.Bottom, &m.bottom, d.BottomSkin, f.LagBottom}} {
		kind, ok := Catalogue().Kind(side.sheet.Kind)
		if !ok {
			continue
		}
		buckle := kind.BuckleAlong
		if side.of.Across == w.along { // the ribs run across the face grain
			buckle = kind.BuckleAcross
		}
		clear := math.Max(0, s-p.Web.B)
		pulled := section.EffectiveWidth(p.Web.B, clear, kind.ShearLagSpan, span, math.Inf(1), side.skin.T)
		pushed := section.EffectiveWidth(p.Web.B, clear, kind.ShearLagSpan, span, buckle, side.skin.T)
		add(w.name()+".width."+side.name, "How much of the "+side.name+" skin counts with a rib, "+title, "b_ef = b + min(clear, lag·span, buckling·t)",
			fmt.Sprintf("rib %.1f mm and %.1f mm clear; shear lag %.2f · %.0f mm = %.0f mm, buckling %.0f · %.2f mm = %.0f mm", p.Web.B, clear, kind.ShearLagSpan, span, kind.ShearLagSpan*span, buckle, side.skin.T, buckle*side.skin.T),
			fmt.Sprintf("%.0f mm pulled and %.0f mm pressed; by the model's own stress peak %.0f of %.0f mm", pulled, pushed, s/side.lag, s),
			"EN 1995-1-1 9.1.2 and Table 9.1, from memory; Design of timber structures vol. 1 (Swedish Wood 2016) Table 5.1",
			"The code lets no more of a skin work with a rib than this. The model counts all of it, with its stress highest at the rib, and checks buckling by itself.")
	}
}

func slotsPlain(s Slots) string {
	if s.Glued {
		return "Glue that fills the laps passes pressure and some of the pull, so the truth lies between whole wood, which is taken here, and open slots."
	}
	return "Open half-laps weaken a rib; the skins hold most of the bending, so it costs little."
}

func (d Design) workSag(mo *model, r Result, add addWorking) {
	c := r.Cases[r.Governing]
	formula := "w = Σ Mₘ·(1/(k²·EI) + 1/S), two rails along one axis"
	switch mo.kind {
	case FourLegs:
		formula = "w = w along + w across, each w = Σ Mₘ·(1/(k²·EI) + 1/S), plus twist"
	case AllEdges:
		formula = "Navier's double series for the orthotropic plate with shear"
	}
	add("sag", "Sag under “"+c.Name+"”", formula,
		fmt.Sprintf("at %.0f mm, %.0f mm: bending %.3f, shear %.3f, twist %.3f mm; own weight %.3f mm of it", c.X, c.Y, c.Bending*c.Sag, c.Shear*c.Sag, c.Twist*c.Sag, c.OwnSag),
		fmt.Sprintf("%.3f mm", c.Sag), "Euler–Bernoulli bending, Timoshenko shear, textbook; "+sourceGamma, c.Reach)
}

// workCouples writes out the couples of a case.
func (d Design) workCouples(c LoadCase, add addWorking) {
	for i := range c.Loads {
		l := &c.Loads[i]
		if l.Kind != Couple {
			continue
		}
		s := d.Spread(*l)
		a, b := s.SizeX, s.SizeY
		if x, _ := l.Pull.way(); x == 0 {
			a, b = b, a
		}
		add(fmt.Sprintf("couple.%d", i+1), "The couple “"+l.Name+"”", "M = F·e; pressure at the block's edge p = 6·M/(b·a²), half of it through either skin",
			fmt.Sprintf("F = %.0f N, e = %.0f mm; block a = %.1f mm the way it pulls, b = %.1f mm", l.Force, l.Arm, a, b),
			fmt.Sprintf("M = %.1f N·m, p/2 = %.3f MPa", l.Moment()/1000, d.edgePressure(l)), "statics; section modulus of a rectangle, textbook",
			"One edge of the block is pressed down and the other pulled up by as much, so nothing is pressed down in all. The sideways pull itself goes into the legs and is left out.")
	}
}

// sci prints a figure with three significant digits and a power of ten as
// people write it.
func sci(v float64) string {
	if v == 0 || math.IsNaN(v) || math.IsInf(v, 0) {
		return fmt.Sprintf("%g", v)
	}
	mantissa, exponent, _ := strings.Cut(strconv.FormatFloat(v, 'e', 2, 64), "e")
	e, err := strconv.Atoi(exponent)
	if err != nil || e >= -2 && e < 3 {
		return fmt.Sprintf("%.3g", v)
	}
	return mantissa + " × 10" + superscript(e)
}

var superscripts = []rune("⁰¹²³⁴⁵⁶⁷⁸⁹")

func superscript(n int) string {
	out := ""
	if n < 0 {
		out, n = "⁻", -n
	}
	for _, c := range fmt.Sprint(n) {
		out += string(superscripts[c-'0'])
	}
	return out
}

// depthKey is the key of the working of depth against sag.
const depthKey = "depth"

// depthWorking tells how sag goes with core depth, and which model says so.
func (d *Design) depthWorking(r Result) Working {
	numbers, source := fmt.Sprintf("the closed form at %.2f and %.2f mm of core", (1-depthStep)*d.CoreDepth, (1+depthStep)*d.CoreDepth), "recomputed by the closed form"
	if r.WhatIf != nil {
		numbers, source = fmt.Sprintf("the whole panel computed anew at %.2f and %.2f mm of core", d.CoreDepth/nearDepth, d.CoreDepth*nearDepth), "recomputed by the whole-panel model"
	}
	return Working{Key: depthKey, Title: "Depth against sag", Formula: "n = −ln(w₂/w₁)/ln(h₂/h₁)", Numbers: numbers,
		Result: fmt.Sprintf("sag goes with core depth to the power −%.2f", r.Depth.Exponent), Source: source,
		Plain: fmt.Sprintf("A solid slab has 3. Twice the core depth here: about %.1f times less sag, as long as the power holds; the curve says more.", math.Pow(2, r.Depth.Exponent))}
}
