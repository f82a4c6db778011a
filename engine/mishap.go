package engine

import (
	"fmt"
	"slices"
	"strings"

	"flatwright/engine/length"
)

// Mishap is something that goes wrong at the bench: what to do in the next
// minutes, and how the panel is marked so that it is rated as it was made. What
// is advised is common practice, no source.
type Mishap struct {
	Key    string // stable, kebab-case
	Name   string
	AtOnce string // what to do now

	Skin   bool // it is about a skin, else about ribs
	Either bool // a rib may fail at one skin alone

	mark func(d *Design, part string) Built
}

// Mishaps are those that the program knows, in the order of the work.
var Mishaps = []Mishap{
	{Key: "slot-deep", Name: "a slot is cut too deep", AtOnce: fmt.Sprintf("Leave the rib as it is. Until you type how deep the slot is, %g mm more than drawn are taken; type it under As built.", deeperUntilTyped),
		mark: func(d *Design, rib string) Built {
			return Built{Kind: SlotDeeper, Part: rib, Value: d.SlotDepth() + deeperUntilTyped}
		}},
	{Key: "wrong-edge", Name: "the wrong edge is slotted", AtOnce: "Do not cut the other edge as well: nothing would be left at the crossings. If all its slots are in the wrong edge, and it has no holes or grooves, turn it over about its length: it is right again, and the top is as drawn. If only some are, saw a new rib, and keep this one for splice plates. If it has to go in all the same, mark it: it counts as cut off at every crossing; type under As built from where to where if it is not all of them.",
		mark: func(_ *Design, rib string) Built { return Built{Kind: WrongEdge, Part: rib} }},
	{Key: "not-wetted", Either: true, Name: "a rib was not wetted with glue", AtOnce: "If the joint is still open: lift the skin there, spread, close again. If the clamps are on and the glue sets, leave it and mark it. The whole rib is marked; type under As built from where to where if it is less.",
		mark: unglued},
	{Key: "open-time", Either: true, Name: "the open time ran out", AtOnce: "If the glue has a skin that strings no more, scrape it off, spread anew and close. Ribs that were closed too late count as not glued.",
		mark: unglued},
	{Key: "clamps-short", Either: true, Name: "there were not clamps enough", AtOnce: "Weights help now: stack what is at hand over the ribs that stand open, and cauls under the clamps there are. What stayed open counts as not glued.",
		mark: unglued},
	{Key: "skin-slid", Skin: true, Name: "the skin slid", AtOnce: fmt.Sprintf("While it is wet: push it back, and pin it with two nails through waste wood at opposite corners. Once it is set, measure how far it lies from its place and mark it. Until you type that under As built, %g mm to the right are taken.", slidUntilTyped),
		mark: func(_ *Design, skin string) Built { return Built{Kind: SkinSlid, Part: skin, X: slidUntilTyped} }},
	{Key: "cold", Either: true, Name: "the night was colder than the glue bears", AtOnce: "Warm the room and the top slowly and leave the clamps on for the whole time once more. Below its least temperature a glue may chalk and hold nothing: test a joint on an offcut that lay beside it before you trust it.",
		mark: unglued},
}

// What is taken until it is measured and typed, mm; common practice, no source.
const (
	deeperUntilTyped = 2.0
	slidUntilTyped   = 5.0
)

// unglued marks a rib as not glued along its whole length.
func unglued(d *Design, rib string) Built {
	far, tb := d.Width, d.EdgeBand.Thickness
	if along, _, _ := RibOfPart(rib); along {
		far = d.Length
	}
	return Built{Kind: RibUnglued, Part: rib, From: tb, To: far - tb}
}

// MishapOf returns the mishap of that key.
func MishapOf(key string) (Mishap, bool) {
	i := slices.IndexFunc(Mishaps, func(m Mishap) bool { return m.Key == key })
	if i < 0 {
		return Mishap{}, false
	}
	return Mishaps[i], true
}

// SkinOfStep returns the skin that a build step glues, "" if it glues none or not
// one alone.
func SkinOfStep(step string) string {
	for _, skin := range [...]string{TopSeam, BottomSeam} {
		if strings.Contains(step, "-"+skin) {
			return skin
		}
	}
	return ""
}

// Suffer marks the panel with a mishap of one skin, of one rib, or of all ribs that run
// one way (part is a [PartKind]), and remarks on it at a build step. skin is the one to
// which ribs are not glued, "" for both. A mark of the same kind that is there already
// is widened, never made less.
func (d *Design) Suffer(m Mishap, part, skin, step string) {
	parts := []string{part}
	if kind := PartKind(part); kind == LengthwisePart || kind == CrosswisePart {
		parts = nil
		n := d.Crosswise.number()
		if kind == LengthwisePart {
			n = d.Lengthwise.number()
		}
		for i := range n {
			parts = append(parts, RibPart(kind == LengthwisePart, i))
		}
	}
	for _, part := range parts {
		b := m.mark(d, part)
		if m.Either {
			b.Side = skin
		}
		i := slices.IndexFunc(d.Built, func(o Built) bool { return o.Kind == b.Kind && o.Part == b.Part && o.Side == b.Side })
		if i < 0 {
			d.Built = append(d.Built, b)
			continue
		}
		d.Built[i].widen(b)
	}
	if step != "" {
		note := d.logOf(step).Note
		if note != "" {
			note += "; "
		}
		note += m.Name
		note += ": " + part
		if m.Either && skin != "" {
			note += " at the " + skin + " skin"
		}
		d.Remark(step, note)
	}
}

// widen makes a mark hold what another of the same kind and part says as well.
func (b *Built) widen(o Built) {
	if b.Kind == WrongEdge && (b.everywhere() || o.everywhere()) {
		b.From, b.To = 0, 0
		return
	}
	b.From, b.To, b.Value = min(b.From, o.From), max(b.To, o.To), max(b.Value, o.Value)
	if b.Kind == SkinSlid && b.X == 0 && b.Y == 0 {
		b.X = o.X
	}
}

// Mend is what can be done about one thing that was made otherwise.
type Mend struct {
	What string   // was made otherwise, lengths in mm
	Ways []string // to mend it, sentences, the least work first
}

// Mends says what can be done about what is marked in [Design.Built]. What is
// advised is common practice, no source; the figures are those of the panel as
// built.
func (d Design) Mends(r Result) []Mend {
	var out []Mend
	seen, named := map[BuiltKind]int{}, map[string]bool{}
	for _, b := range d.Built {
		again := named[string(b.Kind)+b.name()]
		named[string(b.Kind)+b.name()] = true
		if i, known := seen[b.Kind]; known {
			if again && b.Kind != SkinSlid { // the last slide holds
				continue
			}
			out[i].What += ", " + b.name()
			if b.Kind == SkinSlid {
				out[i].Ways = append(d.mendWays(b)[:1], out[i].Ways...)
			}
			continue
		}
		seen[b.Kind] = len(out)
		out = append(out, Mend{What: mendHead[b.Kind] + b.name(), Ways: d.mendWays(b)})
	}
	limit := d.limitWay(r)
	switch {
	case len(out) == 0 || len(limit) == 0:
	case len(out) == 1:
		out[0].Ways = append(out[0].Ways, limit...)
	default: // of all marks together
		out = append(out, Mend{What: "The top with all of it", Ways: limit})
	}
	return out
}

// name is what a mark is about, in a list.
func (b Built) name() string {
	if b.Kind == RibUnglued && b.Side != "" {
		return b.Part + " to the " + b.Side + " skin"
	}
	if b.Kind == SkinSlid {
		return "the " + b.Part + " skin"
	}
	return b.Part
}

var mendHead = map[BuiltKind]string{
	SlotDeeper: "Slots deeper than drawn: ", RibUnglued: "Not glued: ", SeamOpen: "Seam left open: ", ThicknessMeasured: "Another thickness: ",
	WrongEdge: "Slotted in the wrong edge: ", SkinSlid: "Slid: ",
}

func (d Design) mendWays(b Built) []string {
	switch b.Kind {
	case SlotDeeper:
		return []string{
			"Put the rib where the loads are not: ribs of one kind that are the same piece can change places.",
			fmt.Sprintf("Sister it: glue a strip of the same sheet, as high as the rib and reaching %s beyond the slot on either side, to one cheek, notched for the crossing rib.", inMM(2*d.CoreDepth)),
			"Saw the rib anew. A sliver glued into the slot passes pressure, not pull.",
		}
	case RibUnglued:
		return []string{
			"Before the second skin is on: wet the joint from the open side and clamp it for the whole time once more.",
			"Glue blocks into the corner of rib and skin, one in every second bay, from the open side.",
			fmt.Sprintf("Sister it: glue a second rib of the same sheet, %s high, along its cheek, cut to fit between the crossing ribs, to whichever skin is on.", inMM(d.CoreDepth)),
			"With both skins on: screws through the skin into the rib hold it down but count for nothing here; they keep the joint from opening.",
		}
	case WrongEdge:
		return []string{
			"Saw the rib anew and remove the mark; this one makes splice plates and blocks. It is the only way that leaves the top as drawn.",
			"If it goes in, it is cut off at each of those crossings: the right slot meets the wrong one, and nothing is left between them. It is rated so. The pieces hold what they hold between the crossings: glue each to both skins.",
			"At a crossing either of the two ribs can be the one that is cut off. Mark the crosswise rib instead of the lengthwise one, or the other way round, and see under which the top sags less.",
			"Glue blocks into the corners beside the cut, from skin to skin, as long as the bay allows: they hand the shear on. They are not in the figures. A piece glued into the wrong slot passes pressure, not pull, and is not in them either.",
		}
	case SkinSlid:
		return []string{
			capital(d.lackText(b)) + ".",
			"Trim what stands over flush with the core. Fill what lacks with a strip of the same sheet, glued to the rib and to the skin's edge: it carries what stands there, and nothing pulls across its joint. It is rated so.",
			"A seam or a splice of that skin slid with it: set its plate anew over the seam as it lies, and check that holes for bolts still meet their blocks.",
			"With the other skin still off, a lath along the rim rib, glued to rib and skin, gives the lost glue width back.",
		}
	case SeamOpen:
		return []string{fmt.Sprintf("Glue a splice plate behind the seam, %s wide (25 times the skin), while the bay is open; afterwards one on the outside does as well, where it is not in the way.", inMM(25*d.BottomSkin.Thickness))}
	}
	return []string{"Use the thicker sheet for the bottom skin, where the pull is, or set the loads below to what the top can carry."}
}

// limitWay says what the panel as built can carry.
func (d Design) limitWay(r Result) []string {
	a := r.AsBuilt
	if a == nil {
		return nil
	}
	text := fmt.Sprintf("As built it sags %s mm instead of %s mm, and its lowest margin is %s instead of %s (%s).", length.Number(a.Sag, 3), length.Number(a.DesignedSag, 3),
		length.Number(a.Margin, 3), length.Number(a.DesignedMargin, 3), a.Lowest.Name)
	switch {
	case a.Margin < 1 && a.Lowest.Times > 0:
		return []string{text, fmt.Sprintf("Limit the load: no more than %.0f %% of what is entered, or start over.", 100*a.Lowest.Times)}
	case a.Margin < 1:
		return []string{text, "By these figures its own weight alone is too much for it: prop it, and mend it or start over."}
	case d.Limits.Sag > 0 && a.Sag > d.Limits.Sag:
		text += fmt.Sprintf(" It sags more than the %s that were asked for: ", inMM(d.Limits.Sag))
		share := a.shareWithin(d.Limits.Sag, r.Cases)
		if !(share > 0) {
			return []string{text + "its own weight alone makes that much. Prop it, mend it, or put up with it."}
		}
		return []string{text + fmt.Sprintf("limit the load to about %.0f %%, or put up with it.", 100*share)}
	}
	return []string{text, "It still carries what was asked of it, by these figures: to leave it as it is, is one way."}
}

// shareWithin returns what part of the loads of the worst case sags the top as
// built by no more than limit mm, own weight kept. That share of the sag which is
// the own weight's is taken to be as designed.
func (a *AsBuilt) shareWithin(limit float64, cases []CaseResult) float64 {
	own := 0.0
	for i, sag := range a.Sags {
		if sag == a.Sag && i < len(cases) && cases[i].Sag > 0 {
			own = sag * cases[i].OwnSag / cases[i].Sag
		}
	}
	return (limit - own) / (a.Sag - own)
}
