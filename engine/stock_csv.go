package engine

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"flatwright/engine/length"
)

// maxStockFile is how large a list of sheets may be, bytes: a thousand rows of a
// thousand signs.
const maxStockFile = 1 << 20

// StockList is a list of sheets as read from CSV.
type StockList struct {
	Sheets  []Stock
	Ignored []string // heads of the columns that nothing is read from
}

// CSVError is one thing in a list that cannot be read, told to a person.
type CSVError struct {
	Line   int    // in the file, from 1; 0 is the whole file
	Column int    // of the table, from 1; 0 is the whole line
	Head   string // of the column
	Text   string // what, and what to type instead
}

// Error returns the place and the text.
func (e *CSVError) Error() string {
	switch {
	case e.Line == 0:
		return e.Text
	case e.Column == 0:
		return fmt.Sprintf("line %d: %s", e.Line, e.Text)
	case e.Head == "":
		return fmt.Sprintf("line %d, column %d: %s", e.Line, e.Column, e.Text)
	}
	return fmt.Sprintf("line %d, column %d (%s): %s", e.Line, e.Column, e.Head, e.Text)
}

// maxCSVErrors is how many are told at a time.
const maxCSVErrors = 20

// ReadStock reads a list of sheets from CSV: comma, semicolon or tab between
// the cells, UTF-8, a row of heads and then a row for each kind of sheet. The
// columns may stand in any order:
//
//	material    name or key of a material of d or of the catalogue
//	thickness   actual, as it is measured
//	length      width
//	name        the person's own word; this and what follows may be missing
//	price       of one sheet; empty is not known
//	on hand     how many there are; empty is none, of an offcut one
//	offcut      yes or no
//	face grain  along or across the length
//
// Lengths are read as they are typed anywhere else; one without a unit is in
// that of its head, as in “length in”, or else in that of f. Empty rows are
// left out. Nothing is read in part: the error joins a
// [*CSVError] for every cell that cannot be read, up to twenty. A reader that
// fails gives its own error.
func ReadStock(r io.Reader, d Design, f length.Format) (StockList, error) {
	data, err := io.ReadAll(io.LimitReader(r, maxStockFile+1))
	if err != nil {
		return StockList{}, fmt.Errorf("read the list: %w", err)
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	if err := plainCSV(data); err != nil {
		return StockList{}, err
	}
	s := &stockReader{design: d, format: f}
	c := csv.NewReader(bytes.NewReader(data))
	c.FieldsPerRecord, c.Comma, c.TrimLeadingSpace = -1, separator(data), true
	for {
		cells, err := c.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			s.broken(err)
			break
		}
		line, _ := c.FieldPos(0)
		if len(strings.TrimSpace(strings.Join(cells, ""))) == 0 {
			continue
		}
		if s.columns == nil {
			s.heads(line, cells)
		} else {
			s.row(line, cells)
		}
		if len(s.errs) > 0 && s.columns == nil || len(s.errs) >= maxCSVErrors {
			break
		}
	}
	return s.done()
}

// plainCSV refuses what is no text.
func plainCSV(data []byte) error {
	fail := func(text string) error { return &CSVError{Text: text} }
	switch {
	case len(data) > maxStockFile:
		return fail("The file is over 1 MB, too long for a list of sheets. Is it the right one?")
	case bytes.HasPrefix(data, []byte("PK\x03\x04")) || bytes.HasPrefix(data, []byte("\xd0\xcf\x11\xe0")):
		return fail("This is a spreadsheet's own file, not CSV. Open it there and save the sheet as CSV in UTF-8.")
	case !utf8.Valid(data) || bytes.IndexByte(data, 0) >= 0:
		return fail("The file is not text in UTF-8. Save it as CSV in UTF-8.")
	}
	return nil
}

// separator is what stands between the heads: the one of three that comes most
// often in the first row with any.
func separator(data []byte) rune {
	for line := range bytes.Lines(data) {
		if line = bytes.TrimSpace(line); len(line) == 0 {
			continue
		}
		best, most := ',', 0
		for _, sign := range []rune{',', ';', '\t'} {
			if n := bytes.Count(line, []byte(string(sign))); n > most {
				best, most = sign, n
			}
		}
		return best
	}
	return ','
}

// The columns of a list, by the first of the words that their heads may have.
var stockHeads = [][]string{
	{"material"},
	{"thickness", "thick"},
	{"length"},
	{"width"},
	{"name", "note"},
	{"price", "price a sheet", "cost"},
	{"on hand", "count", "quantity", "number", "sheets"},
	{"offcut"},
	{"face grain", "grain"},
}

const stockNeeded = 4 // the first ones

// stockColumn is one column that is read.
type stockColumn struct {
	name string // first word of stockHeads
	head string // as it stands in the file
	at   int    // from 0
	unit string // of lengths, as their head says; "" is that of the person
}

// stockReader collects sheets and what could not be read.
type stockReader struct {
	design  Design
	format  length.Format
	columns []stockColumn
	list    StockList
	lines   []int // of the sheets
	errs    []error
}

func (s *stockReader) fail(line int, c stockColumn, format string, values ...any) {
	s.errs = append(s.errs, &CSVError{line, c.at + 1, c.head, fmt.Sprintf(format, values...)})
}

// broken says what is wrong with the form of the file.
func (s *stockReader) broken(err error) {
	e := &CSVError{Text: "The file is not CSV. Save it as CSV in UTF-8."}
	var at *csv.ParseError
	if errors.As(err, &at) {
		e.Line = at.StartLine
		e.Text = fmt.Sprintf("There is a quotation mark without its other half, or within a cell, on line %d. Put a whole cell between two of them and write those inside twice.", at.Line)
	}
	s.errs = append(s.errs, e)
}

// heads reads the row of heads.
func (s *stockReader) heads(line int, cells []string) {
	columns := []stockColumn{}
	for i, cell := range cells {
		c := stockColumn{head: shown(cell), at: i}
		c.name, c.unit = headOf(cell)
		switch {
		case c.name == "" && c.head != "":
			s.list.Ignored = append(s.list.Ignored, c.head)
		case c.name == "":
		case slices.ContainsFunc(columns, func(o stockColumn) bool { return o.name == c.name }):
			s.fail(line, c, "There is a second column for the %s. Keep one of them.", c.name)
		default:
			columns = append(columns, c)
		}
	}
	var missing []string
	for _, h := range stockHeads[:stockNeeded] {
		if !slices.ContainsFunc(columns, func(c stockColumn) bool { return c.name == h[0] }) {
			missing = append(missing, h[0])
		}
	}
	if len(missing) > 0 {
		s.errs = append(s.errs, &CSVError{Line: line, Text: fmt.Sprintf("The first row has to name the columns, and there is none for: %s. A list begins, for instance, with “material,thickness mm,length mm,width mm,price,on hand”.", strings.Join(missing, ", "))})
		return
	}
	s.columns = columns
}

// headOf returns which column a head names and the unit that it gives.
func headOf(cell string) (name, unit string) {
	words := strings.FieldsFunc(strings.ToLower(cell), func(r rune) bool { return !unicode.IsLetter(r) })
	text := strings.Join(words, " ")
	for i, heads := range stockHeads {
		for _, head := range heads {
			if text == head {
				return heads[0], ""
			}
			unit, ok := strings.CutPrefix(text, head+" ")
			if ok && 1 <= i && i < stockNeeded && slices.Contains([]string{"mm", "cm", "m", "in", "inch", "inches", "ft"}, unit) {
				return heads[0], unit
			}
		}
	}
	return "", ""
}

// row reads one kind of sheet.
func (s *stockReader) row(line int, cells []string) {
	var sheet Stock
	counted := false
	for _, c := range s.columns {
		cell := ""
		if c.at < len(cells) {
			cell = strings.TrimSpace(cells[c.at])
		}
		switch c.name {
		case "material":
			sheet.Material = s.material(line, c, cell)
		case "thickness":
			sheet.Thickness = s.length(line, c, cell)
		case "length":
			sheet.Length = s.length(line, c, cell)
		case "width":
			sheet.Width = s.length(line, c, cell)
		case "name":
			sheet.Name = strings.Join(strings.Fields(fromText(cell)), " ")
		case "price":
			sheet.Price = s.price(line, c, cell)
		case "on hand":
			sheet.OnHand, counted = s.count(line, c, cell)
		case "offcut":
			sheet.Offcut = s.yes(line, c, cell)
		case "face grain":
			sheet.Across = s.across(line, c, cell)
		}
	}
	if sheet.Offcut && !counted {
		sheet.OnHand = 1
	}
	s.list.Sheets = append(s.list.Sheets, sheet)
	s.lines = append(s.lines, line)
}

// done checks the sheets as those of a design and returns them, or all that is
// wrong.
func (s *stockReader) done() (StockList, error) {
	if s.columns == nil && len(s.errs) == 0 {
		s.errs = append(s.errs, &CSVError{Text: "The list is empty. Its first row names the columns: material, thickness, length, width."})
	}
	if len(s.errs) == 0 && len(s.list.Sheets) == 0 {
		s.errs = append(s.errs, &CSVError{Text: "The list has heads but no sheets below them."})
	}
	if len(s.errs) > 0 {
		return StockList{}, errors.Join(s.errs...)
	}
	d := Design{Stock: s.list.Sheets}
	r := &review{d: &d}
	r.stock()
	for _, p := range r.problems {
		if p.Severity != Blocking || len(s.errs) == maxCSVErrors {
			continue
		}
		var i int
		var field string
		if n, _ := fmt.Sscanf(p.Field, "stock[%d].%s", &i, &field); n < 2 {
			s.errs = append(s.errs, &CSVError{Text: InUnits(p.Text, s.format)})
			continue
		}
		if field == "onHand" {
			field = "on hand"
		}
		for _, c := range s.columns {
			if c.name == field {
				s.fail(s.lines[i], c, "%s", InUnits(p.Text, s.format))
			}
		}
	}
	if len(s.errs) > 0 {
		return StockList{}, errors.Join(s.errs...)
	}
	return s.list, nil
}

// WriteStock writes sheets in the form that [ReadStock] reads, in mm.
func WriteStock(w io.Writer, d Design, sheets []Stock) error {
	rows := [][]string{{"material", "thickness mm", "length mm", "width mm", "name", "price", "on hand", "offcut", "face grain"}}
	reader := stockReader{design: d}
	for _, s := range sheets {
		name := s.Material
		if m, ok := d.Material(s.Material); ok && reader.material(0, stockColumn{}, m.Name) == m.Key {
			name = m.Name
		}
		price, offcut, grain := "", "no", "along"
		if s.Price != 0 {
			price = strconv.FormatFloat(s.Price, 'f', -1, 64)
		}
		if s.Offcut {
			offcut = "yes"
		}
		if s.Across {
			grain = "across"
		}
		rows = append(rows, []string{name, decimal(s.Thickness), decimal(s.Length), decimal(s.Width), s.Name, price, strconv.Itoa(s.OnHand), offcut, grain})
	}
	return writeCSV(w, rows)
}
