package app

import (
	"strconv"

	"flatwright/engine"
	"flatwright/engine/length"
)

// seamShape is what the fields of the seams depend on.
func seamShape(d engine.Design) string {
	shape := ""
	for _, s := range d.Seams {
		if s.Along {
			shape += "="
		} else {
			shape += "|"
		}
	}
	return shape
}

// seamLines adds the seams of both skins.
func (f *form) seamLines(b *builder) {
	b.heading("Seams: where a skin is made of two sheets")
	for i := range f.snap.Design.Seams {
		f.seamLine(b, i)
	}
	b.add(f.button("Add a seam", "In the bottom skin over the rib nearest to a fifth of the length, where a seam costs little.", func() {
		f.session.Edit("seam", "", addSeam)
	}))
}

var (
	seamSkinOptions  = []option{{engine.BottomSeam, "bottom skin"}, {engine.TopSeam, "top skin"}}
	seamRunOptions   = []option{{"across", "across the top, from front to back"}, {"along", "along the top, from end to end"}}
	seamJointOptions = []option{{"butt", "butted, nothing behind it"}, {"spliced", "splice plate or scarf"}}
)

func (f *form) seamLine(b *builder, i int) {
	at := func(d *engine.Design) *engine.Seam {
		if i < len(d.Seams) {
			return &d.Seams[i]
		}
		return nil
	}
	number := strconv.Itoa(i + 1)
	name := "seam " + number
	// pick is a choice of one of two things.
	pick := func(field, label, help string, options []option, get func(*engine.Seam) string, set func(s *engine.Seam, key string)) {
		b.add(f.choice(spec{path: path("seams[%d]."+field, i), label: label, edit: name, help: help}, fixedOptions(options...),
			func(d engine.Design) string {
				if s := at(&d); s != nil {
					return get(s)
				}
				return ""
			},
			func(d *engine.Design, key string) {
				if s := at(d); s != nil {
					set(s, key)
				}
			}))
	}
	pick("skin", "Seam "+number, "Which skin is made of two sheets.", seamSkinOptions,
		func(s *engine.Seam) string { return s.Skin }, func(s *engine.Seam, key string) { s.Skin = key })
	pick("along", "It runs", "Which way the joint between the two sheets runs.", seamRunOptions,
		func(s *engine.Seam) string { return either(s.Along, "along", "across") }, func(s *engine.Seam, key string) { s.Along = key == "along" })
	label, help := "From the left end", "To the joint. Over the middle of a rib both sheets are held level and glued."
	if s := at(&f.snap.Design); s != nil && s.Along {
		label = "From the front edge"
	}
	b.add(f.value(spec{path: path("seams[%d].at", i), label: label, edit: name + " place", help: help},
		lengthQuantity, func(d *engine.Design) *float64 {
			if s := at(d); s != nil {
				return &s.At
			}
			return nil
		}))
	pick("spliced", "Joint", "A butted seam passes no pull. A glued splice plate 25 times as wide as the skin is thick, or a scarf of 1 : 8, makes it whole.", seamJointOptions,
		func(s *engine.Seam) string { return either(s.Spliced, "spliced", "butt") }, func(s *engine.Seam, key string) { s.Spliced = key == "spliced" })
	b.add(f.button("Remove "+name, "", func() {
		f.session.Edit("removed seam", "", func(d *engine.Design) { d.Seams = without(d.Seams, i) })
	}))
}

// either is one of two words.
func either(yes bool, is, isNot string) string {
	if yes {
		return is
	}
	return isNot
}

// addSeam adds a seam like the last one or, the first, in the bottom skin
// across the top; it lies over a rib that has no seam yet.
func addSeam(d *engine.Design) {
	s := engine.Seam{Skin: engine.BottomSeam}
	if n := len(d.Seams); n > 0 {
		s = d.Seams[n-1]
	}
	s.At = engine.SeamPlace(*d, s)
	d.Seams = append(d.Seams, s)
}

// seamText names a seam in one line.
func seamText(i int, s engine.Seam, f length.Format) string {
	from := " from the left end"
	if s.Along {
		from = " from the front edge"
	}
	return "Seam " + strconv.Itoa(i+1) + ": " + optionLabel(seamSkinOptions, s.Skin) + ", " + f.Print(s.At) + from + ", " +
		optionLabel(seamJointOptions, either(s.Spliced, "spliced", "butt"))
}
