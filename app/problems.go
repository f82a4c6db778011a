package app

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"flatwright/engine"
	"flatwright/engine/length"
)

// severityWords is the shape and the word that stand before a problem: state
// is never told by colour alone.
func severityWords(s engine.Severity) string {
	switch s {
	case engine.Blocking:
		return "■ Stops the computation"
	case engine.Shortfall:
		return "■ Falls short"
	}
	return "▲ Worth knowing"
}

// sortedProblems returns the problems with the gravest first, else in order.
func sortedProblems(problems []engine.Problem) []engine.Problem {
	sorted := slices.Clone(problems)
	slices.SortStableFunc(sorted, func(a, b engine.Problem) int { return int(b.Severity) - int(a.Severity) })
	return sorted
}

// problemText is the problem's sentence with its lengths in the person's unit.
func problemText(p engine.Problem, f length.Format) string { return inUnit(p.Text, f) }

// A length in an engine sentence: digits with thin or plain spaces between
// groups, a space, "mm" and nothing that makes it another unit. It may be the
// end of a range or a pair: 150 to 200 mm, 300 × 300 mm.
const (
	thousands = `[ \x{00a0}\x{202f}\x{2009}]`
	digits    = `(\d+(?:` + thousands + `\d{3})*(?:\.\d+)?)`
)

// millimetres finds one. The character before and the one after are matched to
// look at, since RE2 has no look-around.
var millimetres = regexp.MustCompile(`(^|[^\p{L}\d.,·/])(?:` + digits + `( to | × |–))?` + digits + thousands + `mm($|[^\p{L}\d²³⁴·/])`)

// inUnit rewrites every length in text, which the engine writes in mm, the way
// f shows lengths.
func inUnit(text string, f length.Format) string {
	if !f.Imperial {
		return text
	}
	// Neighbours share a character between them: a second pass catches the
	// second of two.
	for range 2 {
		text = millimetres.ReplaceAllStringFunc(text, func(found string) string {
			parts := millimetres.FindStringSubmatch(found)
			before, first, between, last, after := parts[1], parts[2], parts[3], parts[4], parts[5]
			if first != "" {
				first = shortLength(first, f)
			}
			return before + first + between + shortLength(last, f) + after
		})
	}
	return engine.InUnits(text, f) // what is not a length
}

// shortLength prints a length out of a sentence, written in millimetres. What
// the engine wrote with hundredths is a sag or a gap and would be lost in
// fractions.
func shortLength(written string, f length.Format) string {
	plain := strings.Map(func(r rune) rune {
		if r == '.' || '0' <= r && r <= '9' {
			return r
		}
		return -1
	}, written)
	mm, err := strconv.ParseFloat(plain, 64)
	if err != nil {
		return written + " mm"
	}
	if _, decimals, found := strings.Cut(plain, "."); found && (len(decimals) > 1 || mm < 2) {
		return length.Sag(mm, f)
	}
	return f.Print(mm)
}

// severityShape is the shape alone, for where the place says the rest.
func severityShape(s engine.Severity) string {
	if s == engine.Advice {
		return "▲ "
	}
	return "■ "
}

// fieldOwner returns the registered path that shows a problem at field: the
// field itself, or the nearest one around it ("cases[0]" for
// "cases[0].loads"), or "" if there is none.
func fieldOwner(field string, known func(path string) bool) string {
	for field != "" {
		if known(field) {
			return field
		}
		cut := strings.LastIndexAny(field, ".[")
		if cut < 0 {
			return ""
		}
		field = field[:cut]
	}
	return ""
}

// partField returns the path of the field to open for a picked part, "" if
// the design has no field for it.
func partField(d engine.Design, part string) string {
	if loadCase, load, ok := engine.LoadOfPart(part); ok {
		field := path("cases[%d].loads[%d]", loadCase, load)
		if l := loadAt(d, part); l != nil {
			switch l.Kind {
			case engine.Patch, engine.Line:
				return field + ".x"
			case engine.Couple:
				return field + ".column"
			}
		}
		return field + ".force"
	}
	if seam, ok := engine.SeamOfPart(part); ok && seam < len(d.Seams) {
		return path("seams[%d].at", seam)
	}
	if foot, ok := engine.FootOfPart(part); ok && foot < len(d.Supports.Feet) {
		return path("supports.feet[%d].x", foot)
	}
	if field := cutField(d, part); field != "" {
		return field
	}
	switch {
	case part == engine.SupportPart:
		return supportField(d.Supports)
	case part == engine.ApronPart:
		return "supports.apron.height"
	case part == "top":
		return "topSkin.material"
	case part == "bottom":
		return "bottomSkin.material"
	case part == string(engine.BandPart), strings.HasPrefix(part, "band"):
		return "edgeBand.thickness"
	case part == string(engine.LengthwisePart), isRib(part, "L"):
		return "lengthwise.count"
	case part == string(engine.CrosswisePart), isRib(part, "C"):
		return "crosswise.count"
	}
	var column, row int
	if n, ok := strings.CutPrefix(part, "block "); ok {
		c, r, _ := strings.Cut(n, ",")
		var err1, err2 error
		column, err1 = strconv.Atoi(c)
		row, err2 = strconv.Atoi(r)
		if err1 == nil && err2 == nil {
			for i, b := range d.Blocks {
				if b.Column == column && b.Row == row {
					return "blocks[" + strconv.Itoa(i) + "].material"
				}
			}
		}
	}
	return ""
}

// cutField returns the path of the field for a hole, a groove or a splice, ""
// if part is none of them.
func cutField(d engine.Design, part string) string {
	for i := range d.Holes {
		if part == engine.HolePart(i) {
			return path("holes[%d].x", i)
		}
	}
	for i := range d.Grooves {
		if part == engine.GroovePart(i) {
			return path("grooves[%d].at", i)
		}
	}
	for i := range d.Splices {
		if part == engine.SplicePartID(i) {
			return path("splices[%d].at", i)
		}
	}
	return ""
}

// supportField is the field that says where the supports stand.
func supportField(s engine.Supports) string {
	switch {
	case s.UsesEnd():
		return "supports.endInset"
	case s.UsesSide():
		return "supports.sideInset"
	}
	return "supports.kind"
}

// isRib reports whether part is a rib's ID of that letter, as L1.
func isRib(part, letter string) bool {
	n, ok := strings.CutPrefix(part, letter)
	if !ok {
		return false
	}
	_, err := strconv.Atoi(n)
	return err == nil
}
