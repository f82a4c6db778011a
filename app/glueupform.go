package app

import (
	"strconv"
	"strings"

	"flatwright/engine"
)

// spreadGroup is how the glue is spread and the work is split.
func (f *form) spreadGroup() *group {
	return &group{
		name: "Spreading the glue", roots: []string{"glueUp.split", "glueUp.tool", "glueUp.rate"},
		shape: func(engine.Design) string { return "" },
		build: func(b *builder) {
			b.add(f.choice(spec{path: "glueUp.split", label: "How the work is split", edit: "split of the glue-up",
				help: "Spread glue dries while you go on. The cards at the right say which split is over in time. The build steps follow what you pick."},
				fixedOptions(splitOptions()...),
				func(d engine.Design) string { return string(d.GlueUp.Split) },
				func(d *engine.Design, key string) { d.GlueUp.Split = engine.Split(key) }))
			b.add(f.choice(spec{path: "glueUp.tool", label: "Spread with", edit: "spreading tool", help: "Some of what is poured stays in the tool and the tray; so much more is to be ready."},
				fixedOptions(toolOptions()...),
				func(d engine.Design) string { return string(d.GlueUp.Tool) },
				func(d *engine.Design, key string) { d.GlueUp.Tool = engine.SpreadTool(key) }))
			b.add(f.value(spec{path: "glueUp.rate", label: "Rib edge in a minute", edit: "rate of spreading",
				help: "That one person wets. Time yourself on an offcut. Empty takes two to four metres."},
				optional(lengthQuantity), func(d *engine.Design) *float64 { return &d.GlueUp.Rate }))
		},
		summary: func(s Snapshot) string { return s.Design.GlueUp.Split.InWords() },
	}
}

func splitOptions() []option {
	var out []option
	for _, s := range engine.Splits {
		out = append(out, option{string(s), s.InWords()})
	}
	return out
}

func toolOptions() []option {
	out := []option{{"", "not stated"}}
	for _, t := range engine.SpreadTools {
		out = append(out, option{string(t), string(t)})
	}
	return out
}

// pressNames are the ways of pressing in few words.
var pressNames = []option{
	{"", "as advised"}, {string(engine.ByClamps), "clamps on the rib lines"}, {string(engine.ByCauls), "cauls and clamps"},
	{string(engine.ByWeights), "dead weights"}, {string(engine.ByScrews), "screws"}, {string(engine.ByVacuum), "vacuum bag"},
}

// pressGroup is what there is to press with; nothing need be told.
func (f *form) pressGroup() *group {
	return &group{
		name: "Clamps and weights at hand", roots: []string{"glueUp"},
		shape: func(d engine.Design) string {
			return strconv.Itoa(len(d.GlueUp.MoreClamps)) + "|" + strconv.Itoa(len(d.GlueUp.MoreCauls))
		},
		build: func(b *builder) {
			b.add(f.choice(spec{path: "glueUp.press", label: "Press with", edit: "way of pressing",
				help: "As advised takes the first way that makes the pressure, of those you have before the others. The drawing and the checks are of this way."},
				fixedOptions(pressNames...),
				func(d engine.Design) string { return string(d.GlueUp.Press) },
				func(d *engine.Design, key string) { d.GlueUp.Press = engine.PressWay(key) }))
			b.heading("Clamps")
			f.clampLines(b)
			b.heading("Cauls")
			f.caulLines(b)
			for _, fold := range pressFolds {
				b.fold(fold.name, "", func(b *builder) {
					for _, field := range fold.fields {
						b.add(f.value(field.spec, field.q, field.of))
					}
				})
			}
		},
		summary: pressSummary,
	}
}

// pressSummary names what is stated.
func pressSummary(s Snapshot) string {
	g := s.Design.GlueUp
	var words []string
	clamps := g.Clamps.Count
	for _, c := range g.MoreClamps {
		clamps += c.Count
	}
	if clamps > 0 {
		words = append(words, countOf(clamps, "clamp", "clamps"))
	}
	if g.Weight > 0 {
		words = append(words, "weights")
	}
	if g.Screws.Diameter > 0 {
		words = append(words, "screws")
	}
	if g.Vacuum != (engine.Vacuum{}) {
		words = append(words, "a vacuum pump")
	}
	if len(words) == 0 {
		return "none stated: usual ones are taken"
	}
	return strings.Join(words, ", ")
}

// pressField is one figure of what there is to press with.
type pressField struct {
	spec spec
	q    quantity
	of   func(*engine.Design) *float64
}

// pressFolds are the other ways of pressing with their figures.
var pressFolds = []struct {
	name   string
	fields []pressField
}{
	{"Dead weights", []pressField{
		{spec{path: "glueUp.weight", label: "All of it together", edit: "weight at hand", help: "Water, sand, slabs, whatever can be laid on a board over the skin."},
			optional(massQuantity), func(d *engine.Design) *float64 { return &d.GlueUp.Weight }}}},
	{"Screws", []pressField{
		{spec{path: "glueUp.screws.diameter", label: "Thread", edit: "screws of the glue-up", help: "Outer diameter. In the edge of a thin rib a thick thread splits. Empty takes 4 mm."},
			optional(lengthQuantity), func(d *engine.Design) *float64 { return &d.GlueUp.Screws.Diameter }},
		{spec{path: "glueUp.screws.depth", label: "Thread in the rib", edit: "screws of the glue-up", help: "Empty takes 25 mm."},
			optional(lengthQuantity), func(d *engine.Design) *float64 { return &d.GlueUp.Screws.Depth }},
		{spec{path: "glueUp.screws.head", label: "Head", edit: "screws of the glue-up", help: "Its diameter. Empty takes twice the thread."},
			optional(lengthQuantity), func(d *engine.Design) *float64 { return &d.GlueUp.Screws.Head }}}},
	{"Vacuum pump and bag", []pressField{
		{spec{path: "glueUp.vacuum.share", label: "Air taken out", edit: "vacuum", help: "As a part of the air pressure, from the gauge: 0.8 bar at sea level are 80 %. Empty takes 80 %."},
			optional(number("%", 5)), func(d *engine.Design) *float64 { return &d.GlueUp.Vacuum.Share }},
		{spec{path: "glueUp.vacuum.altitude", label: "Height above the sea", edit: "vacuum", help: "Of the shop: higher up the air presses less. Empty is sea level."},
			optional(number("m", 100)), func(d *engine.Design) *float64 { return &d.GlueUp.Vacuum.Altitude }},
		{spec{path: "glueUp.vacuum.flow", label: "Flow of the pump", edit: "vacuum", help: "How much air it moves a minute. Empty: the time to draw down is not told."},
			optional(number("l/min", 10)), func(d *engine.Design) *float64 { return &d.GlueUp.Vacuum.Flow }}}},
}
