package draw

import "strings"

// Wrap breaks text into lines at most width wide. It breaks at spaces and keeps
// the line breaks that text has; a word that is wider than a line is broken
// inside. Where not even one sign fits, each line has one sign.
func (m Metrics) Wrap(text string, width float64, s TextSize, bold bool) []string {
	var lines []string
	for _, paragraph := range strings.Split(text, "\n") {
		line := ""
		for _, word := range strings.FieldsFunc(paragraph, breakable) {
			longer := word
			if line != "" {
				longer = line + " " + word
			}
			if m.Width(longer, s, bold) <= width {
				line = longer
				continue
			}
			if line != "" {
				lines = append(lines, line)
			}
			pieces := m.breakWord(word, width, s, bold)
			lines = append(lines, pieces[:len(pieces)-1]...)
			line = pieces[len(pieces)-1]
		}
		lines = append(lines, line)
	}
	return lines
}

// breakable reports whether a line may end at r: at a plain space or tab, not at
// a no-break space, which keeps a number beside its unit.
func breakable(r rune) bool { return r == ' ' || r == '\t' || r == '\r' }

// breakWord returns word in pieces that each fit into width, if one sign does.
func (m Metrics) breakWord(word string, width float64, s TextSize, bold bool) []string {
	var pieces []string
	piece := ""
	for _, r := range word {
		longer := piece + string(r)
		if piece != "" && m.Width(longer, s, bold) > width {
			pieces = append(pieces, piece)
			longer = string(r)
		}
		piece = longer
	}
	return append(pieces, piece)
}
