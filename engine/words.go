package engine

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"unicode"

	"flatwright/engine/length"
)

// millimetres finds a length in a text of the engine: a number and "mm" that
// is not the start of a compound unit such as mm² or mm/N.
var millimetres = regexp.MustCompile(`(\d+(?:\.\d+)?(?:e[+-]\d+)?) mm(²|³|⁴|/|·|\p{L})?`)

// weights finds a mass, a force, a moment, a stiffness or a stress in a text of
// the engine. The sign after it is matched to be looked at.
var weights = regexp.MustCompile(`(\d+(?:[ \x{00a0}\x{202f}\x{2009}]\d{3})*(?:\.\d+)?) (kg|N·m|N/mm|N|MPa)($|[^\p{L}\d²³⁴·/])`)

// psi is a pound-force per square inch in MPa.
const psi = length.PoundForce / (length.Inch * length.Inch)

// inPounds returns a text with what it has in kg and N in pounds.
func inPounds(text string, f length.Format) string {
	return weights.ReplaceAllStringFunc(text, func(s string) string {
		m := weights.FindStringSubmatch(s)
		v, err := strconv.ParseFloat(strings.Map(func(r rune) rune {
			if unicode.IsSpace(r) {
				return -1
			}
			return r
		}, m[1]), 64)
		if err != nil {
			return s
		}
		switch m[2] {
		case "kg":
			return length.Mass(v, f) + m[3]
		case "N":
			return length.Force(v, f) + m[3]
		case "N·m":
			return MomentText(1000*v, f) + m[3]
		case "N/mm":
			return length.Number(v/length.PoundForce*length.Inch, 3) + " lbf/in" + m[3]
		}
		return length.Number(v/psi, 3) + " psi" + m[3]
	})
}

// InUnits returns a text of a Result with its lengths, which the engine writes
// in millimetres, in the person's own unit, and with masses and forces in pounds
// if that is the inch. Lengths below 3 mm are sags and gaps: they are shown as
// decimals, as [length.Sag] does.
func InUnits(text string, f length.Format) string {
	if !f.Imperial {
		return text
	}
	return inPounds(inInches(text, f), f)
}

// pairs finds the first of two lengths that share one "mm": 163 × 120 mm, 150 to
// 200 mm.
var pairs = regexp.MustCompile(`(\d+(?:\.\d+)?) (×|to) (\d+(?:\.\d+)? mm(?:[^²³⁴/·\p{L}]|$))`)

// squares finds an area.
var squares = regexp.MustCompile(`(\d+(?:\.\d+)?) mm²($|[^/·\p{L}])`)

func inInches(text string, f length.Format) string {
	text = pairs.ReplaceAllString(text, "$1 mm $2 $3")
	text = squares.ReplaceAllStringFunc(text, func(s string) string {
		m := squares.FindStringSubmatch(s)
		v, err := strconv.ParseFloat(m[1], 64)
		if err != nil {
			return s
		}
		return length.Number(v/(length.Inch*length.Inch), 3) + " in²" + m[2]
	})
	return millimetres.ReplaceAllStringFunc(text, func(s string) string {
		m := millimetres.FindStringSubmatch(s)
		v, err := strconv.ParseFloat(m[1], 64)
		if err != nil || m[2] != "" {
			return s
		}
		if v < 3 {
			return length.Sag(v, f)
		}
		return f.Print(v)
	})
}

// leastChange is the least change of a sag that is told as a figure, mm, and
// leastChangeInch where inches are shown: a micrometre and a tenth of a
// thousandth of an inch, less than a gauge of a shop shows. Common practice, no
// source.
const (
	leastChange     = 0.001
	leastChangeInch = 0.0001 * length.Inch
)

// SagChange prints a change of a sag in mm with its sign; one that nobody can
// measure is about 0.
func SagChange(mm float64, f length.Format) string {
	least := leastChange
	if f.Imperial {
		least = leastChangeInch
	}
	if math.Abs(mm) < least {
		return "about " + length.Sag(0, f)
	}
	return signed(mm, func(v float64) string { return length.Sag(v, f) })
}

// rigidityText prints a bending or twisting stiffness given in N·mm².
func rigidityText(v float64, f length.Format) string {
	if f.Imperial {
		return sci(v/length.PoundForce/(length.Inch*length.Inch)) + " lbf·in²"
	}
	return sci(v) + " N·mm²"
}

// shearText prints a shear stiffness given in N.
func shearText(v float64, f length.Format) string {
	if f.Imperial {
		return sci(v/length.PoundForce) + " lbf"
	}
	return sci(v) + " N"
}

// Cautions are what every packet and the build steps say about the work. They
// are common practice; local codes and licensed practice come first.
var Cautions = []string{
	"Saws: guards on, push sticks, no gloves near a turning blade, eye and ear protection. A stopped cut binds easily: clamp the work, let the blade stop before lifting.",
	"Dust: plywood, MDF and hardboard give fine dust. Use extraction and a fitted mask, and clean up before gluing.",
	"Glue: read the label and its data sheet. Gloves, eye protection and fresh air; urea-formaldehyde gives off formaldehyde while it cures.",
	"Lifting: above 23 kg (ISO 11228-1 load constant, from memory) take two people or a hoist. Wet skins slide: keep hands out of the joint.",
	"Clamps and weights: a stack can tip and a clamp can slip. Keep feet and fingers clear.",
	"Proof load: low supports, a catcher a few centimetres under the middle, nobody under or on the top, eye protection. Load in steps, never near the predicted failure. Cracking noises mean stop and unload.",
	"The top is not for standing or climbing on.",
}

// Disclaimer stands on every packet.
const Disclaimer = "This is a plan made from general figures for kinds of material, not an inspection of your boards or your work. Local codes, the makers' instructions and licensed practice come first where they apply. Check every measurement before cutting."

// LeftOut is what the numbers do not cover.
var LeftOut = []string{
	"Glue lines are taken as whole unless marked as built otherwise; nails or screws alone, partial gluing and delamination are not covered. A starved or unclamped joint is weaker and softer than any number here.",
	"Stresses are those at the middle of the mesh's cells: right at a rib's face, at a slot's corner, at a hole's edge or under a load's edge they are higher. Screws and bolts are checked only where the design tells of them, and of bolts the wood under their washers, not their steel. What pulls the skins off the ribs is an estimate: no standard gives what a sheet's face holds, and what a skin's slope pries at the edges of a glue line is left out.",
	"Slots weaken a rib as they do in one pitch of it, solved by itself. Edge bands are taken as rigidly glued; in the closed form blocks add weight but no stiffness. Holes, grooves and splice plates cost stiffness in the whole-panel model; the closed form counts splice plates only, and holes and grooves in its margins. A scarf counts as whole in stiffness, in an edge band too.",
	"Supports are taken as level. A floor out of level or a soft trestle adds its own movement, and nothing is said of legs and trestles themselves. Aprons between legs bend in the model, pinned at the legs; their joints are not checked. A ledger only holds up: how it is fixed to the wall is not checked.",
	"Sag is the sag of the first day: creep under a load that stays and the bow by moisture are told apart from it, and no margin counts them. Impact, fire and fatigue are left out.",
	"The scatter of real sheets, commonly 10 to 20 % in stiffness, is larger than what the model leaves out on ordinary tops. Weigh and bend an offcut to know.",
	"A margin compares what the panel can carry with what you said it will. It says nothing of loads you did not enter, and nothing here is meant for people to stand under or climb on.",
	"Local codes and licensed practice come first wherever people or goods depend on a structure.",
}
