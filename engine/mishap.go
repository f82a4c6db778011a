package engine

import (
	"fmt"
	"slices"

	"flatwright/engine/length"
)

// Mishap is something that goes wrong at the bench: what to do in the next
// minutes, and how the panel is marked so that it is rated as it was made. What
// is advised is common practice, no source.
type Mishap struct {
	Key    string // stable, kebab-case
	Name   string
	AtOnce string // what to do now

	marks func(d *Design, ribs []string) []Built // nil where no mark can tell of it
}

// Mishaps are those that the program knows, in the order of the work.
var Mishaps = []Mishap{
	{"slot-deep", "a slot is cut too deep", "Leave the rib as it is. Type how deep the slot is; the top is rated with it.",
		func(d *Design, ribs []string) []Built {
			return each(ribs, func(rib string) Built { return Built{Kind: SlotDeeper, Part: rib, Value: d.SlotDepth() + 2} })
		}},
	{"wrong-edge", "the wrong edge is slotted", "Do not cut the other edge as well: nothing would be left at the crossings. If all its slots are in the wrong edge, and it has no holes or grooves, turn it over about its length: it is right again, and the top is as drawn. If only some are, saw a new rib, and keep this one for splice plates.",
		nil},
	{"not-wetted", "a rib was not wetted with glue", "If the joint is still open: lift the skin there, spread, close again. If the clamps are on and the glue sets, leave it and mark it.",
		unglued},
	{"open-time", "the open time ran out", "If the glue has a skin that strings no more, scrape it off, spread anew and close. Ribs that were closed too late count as not glued.",
		unglued},
	{"clamps-short", "there were not clamps enough", "Weights help now: stack what is at hand over the ribs that stand open, and cauls under the clamps there are. What stayed open counts as not glued.",
		unglued},
	{"skin-slid", "the skin slid", "While it is wet: push it back, and pin it with two nails through waste wood at opposite corners. Once it is set, trim the edge that stands out and fill the one that lacks: as long as every rib lies under the skin, no figure of the top changes.",
		nil},
	{"cold", "the night was colder than the glue bears", "Warm the room and the top slowly and leave the clamps on for the whole time once more. Below its least temperature a glue may chalk and hold nothing: test a joint on an offcut that lay beside it before you trust it.",
		unglued},
}

// unglued marks ribs as not glued along their whole length.
func unglued(d *Design, ribs []string) []Built {
	return each(ribs, func(rib string) Built {
		far := d.Width
		if along, _, _ := RibOfPart(rib); along {
			far = d.Length
		}
		return Built{Kind: RibUnglued, Part: rib, To: far}
	})
}

func each(ribs []string, mark func(rib string) Built) []Built {
	out := make([]Built, len(ribs))
	for i, rib := range ribs {
		out[i] = mark(rib)
	}
	return out
}

// MishapOf returns the mishap of that key.
func MishapOf(key string) (Mishap, bool) {
	i := slices.IndexFunc(Mishaps, func(m Mishap) bool { return m.Key == key })
	if i < 0 {
		return Mishap{}, false
	}
	return Mishaps[i], true
}

// Marks reports whether the panel can be marked with it, so that it is rated
// anew.
func (m Mishap) Marks() bool { return m.marks != nil }

// Suffer marks the panel with a mishap of one rib, or of all that run one way
// (part is a [PartKind]), and remarks on it at a build step. A mark of the same
// kind that is there already is widened, never made less. Of one that no mark can
// tell of, with or without a part, the remark is all.
func (d *Design) Suffer(m Mishap, part, step string) {
	ribs := []string{part}
	if kind := PartKind(part); kind == LengthwisePart || kind == CrosswisePart {
		ribs = nil
		n := d.Crosswise.number()
		if kind == LengthwisePart {
			n = d.Lengthwise.number()
		}
		for i := range n {
			ribs = append(ribs, RibPart(kind == LengthwisePart, i))
		}
	}
	if m.marks != nil {
		for _, b := range m.marks(d, ribs) {
			i := slices.IndexFunc(d.Built, func(o Built) bool { return o.Kind == b.Kind && o.Part == b.Part })
			if i < 0 {
				d.Built = append(d.Built, b)
				continue
			}
			d.Built[i].widen(b)
		}
	}
	if step != "" {
		note := d.logOf(step).Note
		if note != "" {
			note += "; "
		}
		note += m.Name
		if part != "" {
			note += ": " + part
		}
		d.Remark(step, note)
	}
}

// widen makes a mark hold what another of the same kind and part says as well.
func (b *Built) widen(o Built) {
	b.From, b.To, b.Value = min(b.From, o.From), max(b.To, o.To), max(b.Value, o.Value)
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
	seen := map[BuiltKind]int{}
	for _, b := range d.Built {
		if i, known := seen[b.Kind]; known {
			out[i].What += ", " + b.Part
			continue
		}
		seen[b.Kind] = len(out)
		out = append(out, Mend{What: mendHead[b.Kind] + b.Part, Ways: append(d.mendWays(b), d.limitWay(r)...)})
	}
	return out
}

var mendHead = map[BuiltKind]string{
	SlotDeeper: "Slots deeper than drawn: ", RibUnglued: "Not glued: ", SeamOpen: "Seam left open: ", ThicknessMeasured: "Another thickness: ",
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
			"With both skins on: screws through the skin into the rib hold it down but count for nothing here; they keep the joint from opening.",
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
