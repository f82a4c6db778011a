package engine

import (
	"slices"
	"strconv"
	"strings"
	"unicode"

	"flatwright/engine/catalog"
	"flatwright/engine/length"
)

// length reads a length; one without a unit is in that of the column's head.
func (s *stockReader) length(line int, c stockColumn, cell string) float64 {
	text := cell
	if c.unit != "" && strings.IndexFunc(text, func(r rune) bool { return unicode.IsLetter(r) || strings.ContainsRune(`'"′″’”`, r) }) < 0 {
		text += " " + c.unit
	}
	if cell == "" {
		s.fail(line, c, "Nothing is typed for the %s. Measure the sheet.", c.name)
		return 1
	}
	v, err := length.Parse(text, s.format)
	if err != nil {
		s.fail(line, c, "%v", err)
	}
	return v
}

// material finds a material by its key or its name.
func (s *stockReader) material(line int, c stockColumn, cell string) string {
	cell = fromText(cell)
	var near []string
	for _, m := range s.materials() {
		if strings.EqualFold(m.Key, cell) || strings.EqualFold(m.Name, cell) {
			return m.Key
		}
		if alike(cell, m.Name) {
			near = append(near, "“"+m.Name+"”")
		}
	}
	switch {
	case cell == "":
		s.fail(line, c, "No material is named. Type one as in the list of materials, for instance “%s”.", s.materials()[0].Name)
	case len(near) > 0:
		s.fail(line, c, "“%s” is not the name of a material here. Type the whole name: %s.", shown(cell), strings.Join(near[:min(len(near), 3)], " or "))
	default:
		s.fail(line, c, "“%s” is no material here. Type one as in the list of materials, for instance “%s”, or add it there first.", shown(cell), s.materials()[0].Name)
	}
	return ""
}

// materials are those that the design knows, its own first.
func (s *stockReader) materials() []catalog.Sheet {
	return slices.Concat(s.design.Own, Catalogue().Sheets, Catalogue().Woods)
}

// alike reports whether every word typed begins a word of a name.
func alike(typed, name string) bool {
	words := func(text string) []string {
		return strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	}
	wanted := words(typed)
	for _, w := range wanted {
		if !slices.ContainsFunc(words(name), func(n string) bool { return strings.HasPrefix(n, w) }) {
			return false
		}
	}
	return len(wanted) > 0
}

// price reads an amount in whatever currency; a sign of one at either end is
// passed over.
func (s *stockReader) price(line int, c stockColumn, cell string) float64 {
	text := strings.TrimFunc(cell, func(r rune) bool { return unicode.Is(unicode.Sc, r) || unicode.IsSpace(r) })
	if text == "" {
		return 0
	}
	whole, part, comma := strings.Cut(text, ",")
	if comma && len(part) != 3 && !strings.ContainsAny(part, ",.") && !strings.Contains(whole, ".") {
		text = whole + "." + part
	}
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || strings.IndexFunc(text, func(r rune) bool { return !strings.ContainsRune("0123456789.-", r) }) >= 0 {
		s.fail(line, c, "“%s” cannot be read as a price. Type a plain number, as 64 or 64.50.", shown(cell))
		return 0
	}
	return v
}

// count reads how many sheets there are, and whether anything is typed.
func (s *stockReader) count(line int, c stockColumn, cell string) (n int, counted bool) {
	if cell == "" {
		return 0, false
	}
	n, err := strconv.Atoi(cell)
	if err != nil {
		s.fail(line, c, "“%s” is no whole number of sheets. Type 0, 1, 2 and so on.", shown(cell))
	}
	return n, true
}

func (s *stockReader) yes(line int, c stockColumn, cell string) bool {
	switch strings.ToLower(cell) {
	case "yes", "y", "true", "x", "1":
		return true
	case "", "no", "n", "false", "0", "-":
		return false
	}
	s.fail(line, c, "“%s” says neither yes nor no. Type yes for what is left of a sheet.", shown(cell))
	return false
}

func (s *stockReader) across(line int, c stockColumn, cell string) bool {
	text, _, _ := strings.Cut(strings.ToLower(cell)+" ", " ")
	switch text {
	case "across":
		return true
	case "", "along":
		return false
	}
	s.fail(line, c, "“%s” does not say how the face grain runs. Type along or across: across is at right angles to the sheet's length.", shown(cell))
	return false
}

// shown is a cell in a message: one line, not too long, only signs that print.
func shown(cell string) string {
	const most = 40
	text := []rune(strings.Join(strings.FieldsFunc(cell, func(r rune) bool { return !unicode.IsPrint(r) || r == ' ' }), " "))
	if len(text) > most {
		text = append(text[:most-1], '…')
	}
	return string(text)
}

// fromText takes off the apostrophe of [asText].
func fromText(cell string) string {
	if rest, ok := strings.CutPrefix(cell, "'"); ok && asText(rest) == cell {
		return rest
	}
	return cell
}
