package catalog

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math"
	"slices"
	"strconv"
	"strings"
)

// RowError says what is wrong in a data file and where. Line and Column count
// from 1, Column in bytes.
type RowError struct {
	File         string
	Line, Column int
	Message      string
}

func (e *RowError) Error() string {
	return fmt.Sprintf("%s:%d:%d: %s", e.File, e.Line, e.Column, e.Message)
}

// row is one record of a data file with the place of each cell.
type row struct {
	file    string
	cells   []string
	columns []int
	line    int
}

// fail returns an error at cell i.
func (r row) fail(i int, format string, args ...any) error {
	return &RowError{r.file, r.line, r.columns[i], fmt.Sprintf(format, args...)}
}

// readRows reads a data file whose first record must be the header given.
// Lines that start with # are comments. Cells are trimmed of space.
func readRows(fsys fs.FS, file, header string) ([]row, error) {
	f, err := fsys.Open(file)
	if err != nil {
		return nil, fmt.Errorf("open catalogue data: %w", err)
	}
	defer f.Close()
	want := strings.Split(header, ",")
	r := csv.NewReader(f)
	r.Comment = '#'
	r.FieldsPerRecord = len(want)
	var rows []row
	for n := 0; ; n++ {
		cells, err := r.Read()
		if err == io.EOF {
			break
		}
		if err != nil {
			var at *csv.ParseError
			if errors.As(err, &at) {
				return nil, &RowError{file, at.Line, at.Column, at.Err.Error()}
			}
			return nil, fmt.Errorf("read %s: %w", file, err)
		}
		row := row{file: file, cells: cells, columns: make([]int, len(cells))}
		for i := range cells {
			row.line, row.columns[i] = r.FieldPos(i)
			cells[i] = strings.TrimSpace(cells[i])
		}
		row.line, _ = r.FieldPos(0)
		if n > 0 {
			rows = append(rows, row)
		} else if !slices.Equal(cells, want) {
			return nil, row.fail(0, "the first line must be %q", header)
		}
	}
	if len(rows) == 0 {
		return nil, &RowError{file, 1, 1, "there are no rows"}
	}
	return rows, nil
}

// number reads cell i as a finite number.
func (r row) number(i int) (float64, error) {
	v, err := strconv.ParseFloat(r.cells[i], 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		return 0, r.fail(i, "%q is not a number", r.cells[i])
	}
	return v, nil
}

// numbers reads cell i as count numbers from 0 up with spaces between; a dash
// stands for 0, "not for this use".
func (r row) numbers(i, count int) ([]float64, error) {
	words := strings.Fields(r.cells[i])
	if len(words) != count {
		return nil, r.fail(i, "%d numbers are wanted here, not %d", count, len(words))
	}
	list := make([]float64, count)
	for k, w := range words {
		if w == "-" {
			continue
		}
		v, err := strconv.ParseFloat(w, 64)
		if err != nil || !(v > 0) || math.IsInf(v, 0) {
			return nil, r.fail(i, "%q is not a number above 0", w)
		}
		list[k] = v
	}
	return list, nil
}

// source reads cell i as a source, which no figure may lack.
func (r row) source(i int) (string, error) {
	if r.cells[i] == "" {
		return "", r.fail(i, "the figure has no source")
	}
	return r.cells[i], nil
}

// convert applies what the "as" cell i says about a printed figure v and
// returns the figure to compute with and words on what was done:
//
//	mean:CV     a mean strength; lowered to its 5th percentile
//	with-shear  a modulus from a bending test at span/depth 14; raised by 10 %
//	of:FIELD    a share of a figure given earlier
//	over:N      a strain over N percentage points of moisture content
func (r row) convert(i int, v float64, earlier func(string) (float64, bool)) (float64, string, error) {
	how, arg, _ := strings.Cut(r.cells[i], ":")
	switch how {
	case "":
		return v, "", nil
	case "with-shear":
		return v * 1.1, fmt.Sprintf("; printed as %g, raised by 10 %% to take the shear out (note c)", v), nil
	case "of":
		base, ok := earlier(arg)
		if !ok {
			return 0, "", r.fail(i, "%q is not a figure given above this line", arg)
		}
		return v * base, fmt.Sprintf("; %g of %s", v, arg), nil
	case "mean", "over":
		n, err := strconv.ParseFloat(arg, 64)
		if err != nil || !(n > 0) || math.IsInf(n, 0) {
			return 0, "", r.fail(i, "%q needs a number above 0 after the colon", r.cells[i])
		}
		if how == "over" {
			return v / n, fmt.Sprintf("; %g over %g %% of moisture content", v, n), nil
		}
		return Characteristic(v, n), fmt.Sprintf("; mean %g lowered to the 5th percentile of a lognormal with CV %g", v, n), nil
	}
	return 0, "", r.fail(i, "%q is not a way to read a figure: use mean, with-shear, of or over", r.cells[i])
}
