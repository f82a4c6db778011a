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

// ExportOptions says how the files are written. Drawings and lists are in mm
// whatever Lengths says; it is for the labels, which people read.
type ExportOptions struct {
	Paper   string // of the labels: "letter" or "a4"; anything else is a4
	Lengths length.Format
}

// Exports returns the files of a design: the list of its parts, the schedule of
// its slots, one drawing in either format for every kind of part, and labels.
// The same design and options give the same bytes. It returns [ErrBlocked] for
// a design that cannot be computed, or the error of ctx.
func Exports(ctx context.Context, d Design, o ExportOptions) ([]ExportFile, error) {
	if !d.valid() {
		return nil, ErrBlocked
	}
	shapes := shapesOf(d)
	var out exports
	out.add("parts.csv", func(w io.Writer) error { return partsCSV(w, shapes) })
	out.add("slots.csv", func(w io.Writer) error { return slotsCSV(w, shapes) })
	for _, s := range shapes {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		out.drawing(s.file, s.drawing(d))
	}
	out.add("labels.pdf", func(w io.Writer) error { return WriteLabels(ctx, w, d, o) })
	return out.files, out.err
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
