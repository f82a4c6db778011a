package app

import (
	"fmt"
	"strconv"
	"strings"

	"flatwright/engine"
)

var supportOptions = []option{
	{string(engine.FourLegs), "four legs"},
	{string(engine.RailsAcross), "two rails across the width"},
	{string(engine.RailsAlong), "two rails along the length"},
	{string(engine.AllEdges), "all four edges"},
	{string(engine.OnLedger), "a ledger along one edge"},
	{string(engine.OwnFeet), "feet at places of your own"},
}

var ledgerOptions = []option{
	{string(engine.BackEdge), "the back edge"},
	{string(engine.FrontEdge), "the front edge"},
	{string(engine.LeftEdge), "the left end"},
	{string(engine.RightEdge), "the right end"},
}

// supportsGroup is what the top rests on.
func (f *form) supportsGroup() *group {
	return &group{
		name: "Supports", roots: []string{"supports"},
		shape: func(d engine.Design) string {
			s := d.Supports
			return fmt.Sprint(s.Kind, s.UsesEnd(), s.UsesSide(), len(s.Feet), s.HasAprons(), s.Fastened)
		},
		build:   f.supportLines,
		summary: func(s Snapshot) string { return supportsSummary(s) },
	}
}

func supportsSummary(s Snapshot) string {
	sup := s.Design.Supports
	text := optionLabel(supportOptions, string(sup.Kind))
	switch sup.Kind {
	case engine.RailsAcross, engine.FourLegs:
		text += ", " + s.Lengths.Print(sup.EndInset) + " in"
	case engine.RailsAlong:
		text += ", " + s.Lengths.Print(sup.SideInset) + " in"
	case engine.OnLedger:
		text = "ledger under " + optionLabel(ledgerOptions, string(sup.LedgerEdge())) + ", " + either(sup.Rail, "a rail", "two legs") + " opposite"
	case engine.OwnFeet:
		text = countOf(len(sup.Feet), "foot", "feet") + " of your own"
	}
	if sup.Fastened {
		text += ", fastened"
	}
	if sup.HasAprons() {
		text += ", aprons " + apronSides(sup.Apron)
	}
	return text
}

func (f *form) supportLines(b *builder) {
	sup := f.snap.Design.Supports
	b.add(f.choice(spec{path: "supports.kind", label: "It rests on", edit: "supports",
		help: "Rails are straight bearers; legs are four pads; all edges is a frame under the rim; a ledger is a batten on a wall; own feet stand anywhere."},
		fixedOptions(supportOptions...),
		func(d engine.Design) string { return string(d.Supports.Kind) }, chooseSupports))
	if sup.Kind == engine.OnLedger {
		b.add(f.choice(spec{path: "supports.ledger", label: "The ledger holds", edit: "ledger edge",
			help: "A batten screwed to a wall: the top lies on it and nothing holds it down. It is flush with that edge."},
			fixedOptions(ledgerOptions...),
			func(d engine.Design) string { return string(d.Supports.LedgerEdge()) },
			func(d *engine.Design, key string) { d.Supports.Ledger = engine.Edge(key) }))
		b.add(f.choice(spec{path: "supports.rail", label: "Opposite it stand", edit: "what stands opposite the ledger",
			help: "What holds up the edge across from the ledger."},
			fixedOptions(option{"legs", "two legs"}, option{"rail", "a rail, straight and stiff"}),
			func(d engine.Design) string { return either(d.Supports.Rail, "rail", "legs") },
			func(d *engine.Design, key string) { d.Supports.Rail = key == "rail" }))
	}
	if sup.UsesEnd() {
		b.add(f.value(spec{path: "supports.endInset", label: "In from each end", edit: "support end inset",
			help: "From the end of the top to the middle of the bearing. A fifth of the length in, the sag is far less than at the very ends."},
			lengthQuantity, func(d *engine.Design) *float64 { return &d.Supports.EndInset }))
	}
	if sup.UsesSide() {
		b.add(f.value(spec{path: "supports.sideInset", label: "In from each side", edit: "support side inset",
			help: "From the front or back edge to the middle of the bearing."},
			lengthQuantity, func(d *engine.Design) *float64 { return &d.Supports.SideInset }))
	}
	b.add(f.value(spec{path: "supports.bearing", label: "Bearing width", edit: "bearing width",
		help: "Width of the rail or ledger, or side of the square pad that the top rests on. A narrow one can crush the rib above it."},
		lengthQuantity, func(d *engine.Design) *float64 { return &d.Supports.Bearing }))
	b.add(f.value(spec{path: "supports.bed", label: "Softness of the bearing", edit: "bearing softness",
		help: "Stiffness of what lies between: felt 0.05 to 0.2, rubber 0.5 to 3, wood on wood 5 to 20. Empty is 10. The top sinks into it; sag does not count that."},
		optional(number("N/mm³", 0.5)), func(d *engine.Design) *float64 { return &d.Supports.Bed }))
	b.add(f.choice(spec{path: "supports.fastened", label: "The top on them", edit: "fastening of the top",
		help: "Loose, supports only push, and a light top can tip or lift. Fastened, screws in the middle of every support hold it down too, and the pull on them is told with the supports."},
		fixedOptions(option{"loose", "lies loose"}, option{"fastened", "is fastened: screwed down"}),
		func(d engine.Design) string { return either(d.Supports.Fastened, "fastened", "loose") },
		func(d *engine.Design, key string) { d.Supports.Fastened = key == "fastened" }))
	if sup.Fastened {
		f.screwLines(b, "supports.screws", "at each support", func(d *engine.Design) *engine.Screws { return &d.Supports.Screws })
	}
	switch sup.Kind {
	case engine.FourLegs:
		f.apronLines(b)
	case engine.OwnFeet:
		f.feetLines(b)
	}
}

// chooseSupports changes the kind. Feet begin where the legs stood.
func chooseSupports(d *engine.Design, key string) {
	if engine.SupportKind(key) == engine.OwnFeet && len(d.Supports.Feet) == 0 {
		d.Supports.Feet = d.FeetOfLegs()
	}
	d.Supports.Kind = engine.SupportKind(key)
}

// feetLines adds the feet, a name, a place and a size each.
func (f *form) feetLines(b *builder) {
	b.heading("Feet: three or more, not in one line")
	for i := range f.snap.Design.Supports.Feet {
		f.footLines(b, i)
	}
	b.add(f.button("Add a foot", "At the middle of the top. It can be dragged in the plan.", func() {
		f.session.Edit("foot", "", func(d *engine.Design) { d.Supports.Feet = append(d.Supports.Feet, d.NextFoot()) })
	}))
}

func (f *form) footLines(b *builder, i int) {
	at := func(d *engine.Design) *engine.Foot {
		if i < len(d.Supports.Feet) {
			return &d.Supports.Feet[i]
		}
		return nil
	}
	number := strconv.Itoa(i + 1)
	root := path("supports.feet[%d]", i)
	pick := func(of func(*engine.Foot) *float64) func(*engine.Design) *float64 {
		return func(d *engine.Design) *float64 {
			if p := at(d); p != nil {
				return of(p)
			}
			return nil
		}
	}
	b.add(f.text(spec{path: root + ".name", label: "Foot " + number, edit: "foot name", help: "What it is called where its load is told. Empty is its number."},
		func(d *engine.Design) *string {
			if p := at(d); p != nil {
				return &p.Name
			}
			return nil
		}))
	b.add(f.value(spec{path: root + ".x", label: "From the left end", edit: "foot place", help: "To the middle of the foot. It can be dragged in the plan too."},
		lengthQuantity, pick(func(p *engine.Foot) *float64 { return &p.X })))
	b.add(f.value(spec{path: root + ".y", label: "From the front edge", edit: "foot place", help: "To the middle of the foot."},
		lengthQuantity, pick(func(p *engine.Foot) *float64 { return &p.Y })))
	b.add(f.value(spec{path: root + ".size", label: "Its own width", edit: "foot size", help: "Side of its square pad. Empty is the bearing width above."},
		optional(lengthQuantity), pick(func(p *engine.Foot) *float64 { return &p.Size })))
	b.add(f.buttonIf("Remove foot "+number, "A top needs three at least.", func(d engine.Design) bool { return len(d.Supports.Feet) > 3 }, func() {
		f.session.Edit("removed foot", "", func(d *engine.Design) { d.Supports.Feet = without(d.Supports.Feet, i) })
	}))
}

// The sides that aprons can lie on, as a choice: each key is the first letters
// of front, back, left and right.
var apronOptions = []option{
	{"", "none"},
	{"fb", "front and back"},
	{"lr", "left and right"},
	{"fblr", "all around"},
	{"f", "front only"},
	{"b", "back only"},
	{"l", "left only"},
	{"r", "right only"},
}

// apronKey is the choice that an apron's sides are.
func apronKey(a engine.Apron) string {
	key := ""
	for i, there := range [...]bool{a.Front, a.Back, a.Left, a.Right} {
		if there {
			key += "fblr"[i : i+1]
		}
	}
	return key
}

// apronSides names the sides.
func apronSides(a engine.Apron) string {
	key := apronKey(a)
	for _, o := range apronOptions {
		if o.key == key {
			return o.label
		}
	}
	var names []string
	for i, name := range [...]string{"front", "back", "left", "right"} {
		if strings.Contains(key, "fblr"[i:i+1]) {
			names = append(names, name)
		}
	}
	return strings.Join(names, ", ")
}

// apronLines adds the rails between the legs.
func (f *form) apronLines(b *builder) {
	b.add(f.choice(spec{path: "supports.apron", label: "Aprons between the legs", edit: "aprons",
		help: "Rails on edge that join the legs under the top. They bend, and what they bend is part of the sag, which is told from the legs."},
		func(s Snapshot) []option {
			key := apronKey(s.Design.Supports.Apron)
			for _, o := range apronOptions {
				if o.key == key {
					return apronOptions
				}
			}
			return append(append([]option(nil), apronOptions...), option{key, apronSides(s.Design.Supports.Apron)})
		},
		func(d engine.Design) string { return apronKey(d.Supports.Apron) }, chooseAprons))
	if !f.snap.Design.Supports.HasAprons() {
		return
	}
	b.add(f.choice(spec{path: "supports.apron.material", label: "Material of the aprons", edit: "apron material",
		help: "Solid wood with its grain along the apron, or a sheet on edge."},
		func(s Snapshot) []option { return materialOptions(s.Design, true, "") },
		func(d engine.Design) string { return d.Supports.Apron.Material },
		func(d *engine.Design, key string) { d.Supports.Apron.Material = key }))
	b.add(f.value(spec{path: "supports.apron.thickness", label: "Their thickness", edit: "apron thickness",
		help: "How thick the rail is; at most as wide as the legs."},
		lengthQuantity, func(d *engine.Design) *float64 { return &d.Supports.Apron.Thickness }))
	b.add(f.value(spec{path: "supports.apron.height", label: "Their height", edit: "apron height",
		help: "Upright. It matters most: the stiffness goes nearly with its cube."},
		lengthQuantity, func(d *engine.Design) *float64 { return &d.Supports.Apron.Height }))
}

// chooseAprons puts aprons on the sides of a key of [apronOptions].
func chooseAprons(d *engine.Design, key string) {
	a := &d.Supports.Apron
	if a.Height == 0 {
		*a = d.StartApron()
	}
	has := func(letter string) bool { return strings.Contains(key, letter) }
	a.Front, a.Back, a.Left, a.Right = has("f"), has("b"), has("l"), has("r")
}
