package engine

import (
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
)

// writeCSV writes a table as CSV (RFC 4180, UTF-8): a row of heads, then rows.
func writeCSV(w io.Writer, rows [][]string) error {
	c := csv.NewWriter(w)
	c.UseCRLF = true
	for _, row := range rows {
		for i, cell := range row {
			row[i] = asText(cell)
		}
		if err := c.Write(row); err != nil {
			return err
		}
	}
	c.Flush()
	return c.Error()
}

// asText puts an apostrophe ahead of a text that a spreadsheet would compute as
// a formula. Numbers are left alone.
func asText(cell string) string {
	if _, err := strconv.ParseFloat(cell, 64); err == nil || cell == "" || !strings.ContainsRune("=+-@\t\r", rune(cell[0])) {
		return cell
	}
	return "'" + cell
}

// decimal prints to 0.001 without needless zeros, with a point whatever the
// country.
func decimal(v float64) string {
	return strconv.FormatFloat(math.Round(v*1000)/1000+0, 'f', -1, 64)
}

// partsCSV writes the list of parts, alike pieces on one line.
func partsCSV(w io.Writer, shapes []shape) error {
	rows := [][]string{{"mark", "part", "count", "pieces", "material", "length mm", "width mm", "thickness mm", "face grain", "mass of one kg", "mass of all kg", "slots", "holes", "grooves", "edges", "drawing"}}
	for _, s := range shapes {
		n := len(s.pieces)
		rows = append(rows, []string{s.Mark, s.name, strconv.Itoa(n), s.ids(" | "), s.material, decimal(s.Length), decimal(s.Width), decimal(s.Thickness),
			s.grain(), decimal(s.Mass), decimal(s.Mass * float64(n)), strconv.Itoa(len(s.Slots)), strconv.Itoa(len(s.Holes)), strconv.Itoa(len(s.Grooves)),
			strings.Join(append(s.faces(), s.Edges...), " "), s.file})
	}
	return writeCSV(w, rows)
}

// slotsCSV writes the slots of every kind of rib, all stations from the datum end
// of the piece.
func slotsCSV(w io.Writer, shapes []shape) error {
	rows := [][]string{{"rib", "count", "pieces", "datum end", "slot", "middle mm", "from mm", "to mm", "width mm", "depth mm", "open edge", "mating rib"}}
	for _, s := range shapes {
		for _, r := range (Part{Slots: s.Slots}).Rows() {
			rows = append(rows, []string{s.Mark, strconv.Itoa(len(s.pieces)), s.ids(" | "), s.Datum, fmt.Sprint(r.Number), decimal(r.Middle),
				decimal(r.From), decimal(r.To), decimal(r.Width), decimal(r.Depth), r.Edge(), r.Mate})
		}
	}
	return writeCSV(w, rows)
}
