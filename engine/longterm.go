package engine

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"flatwright/engine/catalog"
)

// Creep is the sag of one load case over the years, in mm: the largest sag
// anywhere on the top while the loads are on it. How it grows is the closed
// form's; where it starts from is the sag of the [CaseResult].
type Creep struct {
	Case     string  `json:"case"`
	Now      float64 `json:"now"`
	Day      float64 `json:"day"`
	Year     float64 `json:"year"`
	TenYears float64 `json:"tenYears"`

	closed [4]float64 // the same four by the closed form
}

// times sets the sags to those of the closed form times a factor.
func (c *Creep) times(f float64) {
	c.Now, c.Day, c.Year, c.TenYears = f*c.closed[0], f*c.closed[1], f*c.closed[2], f*c.closed[3]
}

// Times at which creep is told, in years.
const (
	atOnce   = 0
	oneDay   = 1 / 365.25
	oneYear  = 1
	tenYears = 10
)

// The time law of creep. The factors of EN 1995-1-1 Table 3.2 are those of the
// end of a design working life of 50 years (EN 1990 Table 2.1, from memory).
// The power is 0.2 to 0.25, from memory; the lower one creeps earlier and is
// the cautious end at ten years.
const (
	creepLife  = 50
	creepPower = 0.2
)

const sourceCreep = "EN 1995-1-1 2.2.3 and 2.3.2.2 (moduli over 1 + kdef for what stays) and duration classes of Table 2.1, from memory; time law kdef·(t/50 years)^0.2, from memory"

// creepSoFar returns how much of the final creep factor kdef is reached after
// some years under load:
//
//	kdef(t) = kdef·(t/50 years)^0.2
//
// Temperature, drying and wetting, which can double creep, are left out.
func creepSoFar(kdef, years float64) float64 {
	return kdef * math.Pow(years/creepLife, creepPower)
}

// stays returns for how many years loads of a class keep pressing: up to the
// end of the class in EN 1995-1-1 Table 2.1 (from memory). Permanent loads stay
// for ever; short and instantaneous ones come and go, and their creep is
// forgotten.
func (c Duration) stays() float64 {
	switch c {
	case Permanent:
		return math.Inf(1)
	case LongTerm:
		return 10
	case MediumTerm:
		return 0.5
	}
	return 0
}

// creepFactor returns a material's creep factor at the end of the working
// life. Where the code gives none for a damp place it returns that of a dry
// one, which is too low, and false.
func creepFactor(kind string, damp bool) (kdef float64, known bool) {
	k, _ := Catalogue().Kind(kind)
	if damp && k.KDef[1] > 0 {
		return k.KDef[1], true
	}
	return k.KDef[0], !damp
}

// after returns the materials as soft as they act under a load that has stayed
// for some years: E and G, rolling shear too, over 1 + kdef(t), each material
// with its own kdef (EN 1995-1-1 2.3.2.2, from memory).
func (m materials) after(years float64, damp bool) materials {
	for _, s := range []*catalog.Sheet{&m.top, &m.bottom, &m.lengthwise, &m.crosswise, &m.band, &m.apron} {
		kdef, _ := creepFactor(s.Kind, damp)
		soft := 1 + creepSoFar(kdef, years)
		for _, v := range []*float64{&s.EAlong, &s.EAcross, &s.EBendAlong, &s.EBendAcross, &s.GEdge, &s.GRolling, &s.EThrough} {
			*v /= soft
		}
	}
	return m
}

// ageing makes the closed form of a design as it acts after any time, each
// only once.
type ageing struct {
	d    *Design
	m    *materials
	made map[float64]*model
}

func (a *ageing) at(years float64) *model {
	if a.made[years] == nil {
		m := a.m.after(years, a.d.Shop.Damp)
		mo := newModel(a.d, &m, true)
		a.made[years] = &mo
	}
	return a.made[years]
}

// sag returns the largest sag of a case after some years, mm. Own weight has
// stayed all the time and is carried by the panel as soft as it then is; the
// loads by the panel as soft as it became while they stayed. The panel is
// recomputed with the soft moduli: where its parts creep apart, load moves to
// those that creep less, so no single factor would do. Exact for panels of one
// kind of material; for mixed ones it is the effective-modulus method, which
// takes each load as kept from the first day.
func (a *ageing) sag(c *LoadCase, years float64) float64 {
	own, load := a.at(years), a.at(math.Min(years, c.Duration.stays()))
	best := math.Inf(-1)
	for i := 0; ; i++ {
		p, ok := own.lookAt(c, i)
		if !ok {
			return best
		}
		s := own.sag(own.ownWeight(), p.x, p.y)
		for j := range c.Loads {
			s = s.plus(load.under(&c.Loads[j], p.x, p.y))
		}
		best = math.Max(best, s.total())
	}
}

// creep returns the sag over the years of every case.
func (d Design) creep(mo *model, m *materials) []Creep {
	a := ageing{&d, m, map[float64]*model{atOnce: mo}}
	var out []Creep
	for i := range d.Cases {
		c := &d.Cases[i]
		one := Creep{Case: c.Name, closed: [4]float64{a.sag(c, atOnce), a.sag(c, oneDay), a.sag(c, oneYear), a.sag(c, tenYears)}}
		one.times(1)
		out = append(out, one)
	}
	return out
}

// addCreep adds what the years do to a result that has its cases.
func (d Design) addCreep(mo *model, m *materials, r *Result) {
	r.LongTerm = d.creep(mo, m)
	if len(r.LongTerm) == 0 {
		return
	}
	r.Working = append(r.Working, d.creepWorking(m, *r))
	if names := d.unknownCreep(m); len(names) > 0 {
		r.Problems = append(r.Problems, Problem{Code: "creep-unknown", Severity: Advice, Field: "shop.damp",
			Text: fmt.Sprintf("The timber code gives no creep factor for a damp place for %s: the one for a heated room is used, and the top will sag more than is told. A moisture-resistant sheet or a heated room would help.", strings.Join(names, ", "))})
	}
}

// creepToCases makes the sag over the years start from the sag of the cases,
// once another model has told that, and mends its working.
func (d Design) creepToCases(m *materials, r *Result) {
	r.LongTerm = slices.Clone(r.LongTerm)
	for i := range r.LongTerm {
		if c := &r.LongTerm[i]; c.closed[0] > 0 {
			c.times(r.Cases[i].Sag / c.closed[0])
		}
	}
	r.Working = slices.Clone(r.Working)
	for i := range r.Working {
		if r.Working[i].Key == creepKey {
			r.Working[i] = d.creepWorking(m, *r)
		}
	}
}

// creepShortfalls advises where a sag is within the limit now but not for
// years.
func (d Design) creepShortfalls(r Result) []Problem {
	limit := d.Limits.Sag
	if limit <= 0 || len(r.LongTerm) == 0 || r.Cases[r.Governing].Sag > limit {
		return nil
	}
	worst := slices.MaxFunc(r.LongTerm, func(a, b Creep) int { return cmp.Compare(a.TenYears, b.TenYears) })
	if worst.TenYears <= limit {
		return nil
	}
	return []Problem{{Code: "creep-over-limit", Severity: Advice, Field: "limits.sag",
		Text: fmt.Sprintf("“%s” sags %s now and %s after ten years, limit %s. A stiffer top would help, or taking off what need not stay on it.",
			worst.Case, sagText(worst.Now), sagText(worst.TenYears), sagText(limit))}}
}

// member is a part of the panel with its material, as texts call it.
type member struct {
	name  string
	sheet *catalog.Sheet
}

// members returns the parts that carry; an edge band only where there is one.
func (d *Design) members(m *materials) []member {
	out := []member{{"top skin", &m.top}, {"bottom skin", &m.bottom}, {"lengthwise ribs", &m.lengthwise}, {"crosswise ribs", &m.crosswise}}
	if d.EdgeBand.Thickness > 0 {
		out = append(out, member{"edge band", &m.band})
	}
	if d.Supports.HasAprons() {
		out = append(out, member{"aprons", &m.apron})
	}
	return out
}

const creepKey = "creep" // of the working

// unknownCreep names the materials without a creep factor for this place.
func (d *Design) unknownCreep(m *materials) []string {
	var out []string
	for _, part := range d.members(m) {
		if _, known := creepFactor(part.sheet.Kind, d.Shop.Damp); !known && !slices.Contains(out, part.sheet.Name) {
			out = append(out, part.sheet.Name)
		}
	}
	return out
}

// creepWorking tells how the governing case's sag grows.
func (d *Design) creepWorking(m *materials, r Result) Working {
	var factors, sources []string
	for _, part := range d.members(m) {
		kdef, _ := creepFactor(part.sheet.Kind, d.Shop.Damp)
		factors = append(factors, fmt.Sprintf("%s %.2f", part.name, kdef))
		k, _ := Catalogue().Kind(part.sheet.Kind)
		if s := "kdef: " + k.Sources["kdef"]; !slices.Contains(sources, s) {
			sources = append(sources, s)
		}
	}
	place := "heated room (service class 1)"
	if d.Shop.Damp {
		place = "unheated, roofed (service class 2)"
	}
	l := r.LongTerm[r.Governing]
	model := ""
	if f := l.Now / l.closed[0]; math.Abs(f-1) > 5e-4 {
		model = fmt.Sprintf("; the closed form's figures times %.3f, to begin at the sag of the whole-panel model", f)
	}
	return Working{Key: creepKey, Title: "Sag over the years under “" + l.Case + "”",
		Formula: "w(t) = w of what stays, with E/(1 + kdef(t)) and G/(1 + kdef(t)), plus w of what comes and goes; kdef(t) = kdef·(t/50 years)^0.2",
		Numbers: fmt.Sprintf("%s: kdef %s; of it %.3f after a day, %.3f after a year, %.3f after ten years. %s Now %.3f mm, after a day %.3f mm, after a year %.3f mm%s",
			place, strings.Join(factors, ", "), creepSoFar(1, oneDay), creepSoFar(1, oneYear), creepSoFar(1, tenYears), d.Cases[r.Governing].Duration.staysInWords(), l.Now, l.Day, l.Year, model),
		Result: fmt.Sprintf("%.3f mm after ten years", l.TenYears),
		Source: sourceCreep + "; " + strings.Join(sources, "; "),
		Plain:  "Wood gives way slowly under a load that stays. Warmth and swings of damp can double it; about half of it comes back when the load is taken off (Wood Handbook FPL-GTR-282 ch. 5)."}
}

// staysInWords says which part of a case creeps.
func (c Duration) staysInWords() string {
	switch c.stays() {
	case 0:
		return "Only the own weight stays; these loads come and go."
	case math.Inf(1):
		return "Own weight and loads stay."
	case 0.5:
		return "Own weight stays, the loads for up to half a year."
	}
	return "Own weight stays, the loads for up to ten years."
}
