package engine

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"strings"

	"flatwright/engine/length"
	"flatwright/engine/vector"
)

// ExportFile is one file for the shop's machines and lists.
type ExportFile struct {
	Name string // plain letters, digits, hyphens and a suffix
	Data []byte
}

// Export is all of them.
type Export struct {
	Files []ExportFile
	Told  []string // sentences on what is not in the files or only assumed, lengths in mm
}

// ExportOptions says how the files are written. Drawings and lists are in mm
// whatever Lengths says; it is for the labels, which people read.
type ExportOptions struct {
	Paper   string // of the labels: "letter" or "a4"; anything else is a4
	Lengths length.Format
	Plan    *CutPlan // of this design; nil lays the parts out first, which may take seconds
}

// Exports returns the files of a design: the lists of its parts, slots, sheets
// and cuts, the stock as it is afterwards, one drawing in either format for every
// kind of piece and every sheet, and labels. The same design and options give
// the same bytes. It returns [ErrBlocked] for a design that cannot be computed,
// or the error of ctx.
func Exports(ctx context.Context, d Design, o ExportOptions) (Export, error) {
	if !d.valid() {
		return Export{}, ErrBlocked
	}
	plan := CutPlan{}
	if o.Plan != nil {
		plan = *o.Plan
	} else {
		var err error
		if plan, err = PlanCut(ctx, d.CutInput(), nil); err != nil {
			return Export{}, err
		}
	}
	shapes := shapesOf(d)
	var out exports
	out.add("parts.csv", func(w io.Writer) error { return partsCSV(w, shapes) })
	out.add("slots.csv", func(w io.Writer) error { return slotsCSV(w, shapes) })
	out.add("sheets.csv", func(w io.Writer) error { return sheetsCSV(w, d, plan, shapes) })
	out.add("cuts.csv", func(w io.Writer) error { return cutsCSV(w, plan) })
	out.add("stock-after.csv", func(w io.Writer) error { return WriteStock(w, d, d.Leftovers(plan)) })
	for _, s := range shapes {
		out.drawing(s.file, s.drawing(d))
	}
	for _, l := range plan.Sheets() {
		if err := ctx.Err(); err != nil {
			return Export{}, err
		}
		out.drawing(l.file(), l.drawing(d, shapes))
	}
	out.add("labels.pdf", func(w io.Writer) error { return WriteLabels(ctx, w, d, o) })
	return Export{out.files, plan.untold(d)}, out.err
}

// exports collects files and the first reason why one could not be made.
type exports struct {
	files []ExportFile
	err   error
}

func (e *exports) add(name string, write func(io.Writer) error) {
	if e.err != nil {
		return
	}
	var b bytes.Buffer
	if err := write(&b); err != nil {
		e.err = fmt.Errorf("%s: %w", name, err)
		return
	}
	e.files = append(e.files, ExportFile{name, b.Bytes()})
}

// drawing adds a drawing in both formats.
func (e *exports) drawing(name string, d vector.Drawing) {
	e.add(name+".svg", func(w io.Writer) error { return vector.SVG(w, d) })
	e.add(name+".dxf", func(w io.Writer) error { return vector.DXF(w, d) })
}

// fileName makes a name of plain small letters, digits and hyphens.
func fileName(text string) string {
	words := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !('a' <= r && r <= 'z' || '0' <= r && r <= '9') })
	return strings.Join(words, "-")
}
