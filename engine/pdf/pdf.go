// Package pdf writes the pages of package draw as a PDF document. The same
// pages give the same bytes: dates are fixed and objects are sorted.
package pdf

import (
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"time"

	"github.com/jung-kurt/gofpdf"

	"flatwright/engine/draw"
)

// Info is what a reader shows as the document's properties.
type Info struct{ Title, Subject string }

// Fonts are the faces of regular and bold text, as the bytes of TrueType files.
type Fonts struct{ Regular, Bold []byte }

// ErrNoPages is returned for a document without pages.
var ErrNoPages = errors.New("a document needs at least one page")

const family = "sans"

// Write writes pages to w as one document, a bookmark for each page with a
// Title. A sign that the fonts lack is printed as a box; see [Missing].
//
// It returns an error if there is no page, if a page has no size or holds a
// coordinate that is not a number, if a font cannot be read, or if w fails.
func Write(w io.Writer, pages []draw.Page, info Info, fonts Fonts) error {
	if len(pages) == 0 {
		return ErrNoPages
	}
	faces, err := readFaces(fonts)
	if err != nil {
		return err
	}
	f := gofpdf.NewCustom(&gofpdf.InitType{UnitStr: "mm", Size: gofpdf.SizeType{Wd: 210, Ht: 297}})
	f.SetAutoPageBreak(false, 0)
	f.SetMargins(0, 0, 0)
	f.SetCatalogSort(true)
	fixed := time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)
	f.SetCreationDate(fixed)
	f.SetModificationDate(fixed)
	f.SetProducer("Flatwright", true)
	f.SetTitle(faces.regular.printable(info.Title), true)
	f.SetSubject(faces.regular.printable(info.Subject), true)
	// The library writes a checksum into the bytes it is given: each document
	// has a copy of its own.
	f.AddUTF8FontFromBytes(family, "", slices.Clone(fonts.Regular))
	f.AddUTF8FontFromBytes(family, "B", slices.Clone(fonts.Bold))
	f.SetLineCapStyle("butt")
	f.SetLineJoinStyle("miter")
	p := printer{pdf: f, faces: faces}
	for i, page := range pages {
		if err := p.page(page); err != nil {
			return fmt.Errorf("page %d: %w", i+1, err)
		}
	}
	if err := f.Output(w); err != nil {
		return fmt.Errorf("write the document: %w", err)
	}
	return nil
}

// printer draws pages into one document.
type printer struct {
	pdf   *gofpdf.Fpdf
	faces faces
}

// maxSide is the longest side of a page in mm: 14 400 points, the limit of
// PDF 1.x readers (from memory).
const maxSide = 14400 / 72.0 * 25.4

func (p printer) page(page draw.Page) error {
	if !(page.Width > 0 && page.Width <= maxSide && page.Height > 0 && page.Height <= maxSide) {
		return fmt.Errorf("a size of %g × %g mm cannot be printed", page.Width, page.Height)
	}
	p.pdf.AddPageFormat("P", gofpdf.SizeType{Wd: page.Width, Ht: page.Height})
	p.pdf.SetFont(family, "", 10)
	for _, title := range append([]string{page.Title}, page.Also...) {
		if title != "" {
			p.pdf.Bookmark(p.faces.regular.printable(title), 0, 0)
		}
	}
	for _, it := range page.Flat.Items {
		if !printable(it) {
			return fmt.Errorf("the drawing holds a place or size that is not a number (part %q)", it.Part)
		}
		switch it.Shape {
		case draw.Polygon:
			p.polygon(it)
		case draw.Stroke:
			p.stroke(it)
		case draw.Words:
			p.words(it)
		}
	}
	return nil
}

// printable reports whether every number of it is finite.
func printable(it draw.Item) bool {
	sum := it.Width + it.Phase + it.Size + it.Angle
	for _, d := range it.Dash {
		sum += d
	}
	for _, q := range it.Points {
		sum += q.X + q.Y
	}
	return !math.IsNaN(sum) && !math.IsInf(sum, 0)
}

func (p printer) polygon(it draw.Item) {
	if it.Colour == draw.NoFill || len(it.Points) < 3 {
		return
	}
	r, g, b := Colour(it.Colour)
	p.pdf.SetFillColor(int(r), int(g), int(b))
	p.path(it.Points)
	p.pdf.ClosePath()
	p.pdf.DrawPath("F")
}

func (p printer) stroke(it draw.Item) {
	if it.Colour == draw.NoFill || len(it.Points) < 2 || !(it.Width > 0) {
		return
	}
	r, g, b := Colour(it.Colour)
	p.pdf.SetDrawColor(int(r), int(g), int(b))
	p.pdf.SetLineWidth(it.Width)
	p.pdf.SetDashPattern(dashes(it.Dash), it.Phase)
	p.path(it.Points)
	if it.Closed {
		p.pdf.ClosePath()
	}
	p.pdf.DrawPath("D")
}

// dashes returns the pattern, or none where it would be no pattern: all
// lengths must be at least 0 and one above.
func dashes(pattern []float64) []float64 {
	sum := 0.0
	for _, d := range pattern {
		if d < 0 {
			return nil
		}
		sum += d
	}
	if !(sum > 0.01) {
		return nil
	}
	return pattern
}

func (p printer) path(points []draw.Point) {
	p.pdf.MoveTo(points[0].X, points[0].Y)
	for _, q := range points[1:] {
		p.pdf.LineTo(q.X, q.Y)
	}
}

func (p printer) words(it draw.Item) {
	if it.Colour == draw.NoFill || it.Text == "" || len(it.Points) == 0 || !(it.Size > 0) {
		return
	}
	style, face := "", p.faces.regular
	if it.Bold {
		style, face = "B", p.faces.bold
	}
	r, g, b := Colour(it.Colour)
	p.pdf.SetTextColor(int(r), int(g), int(b))
	p.pdf.SetFont(family, style, it.Size/25.4*72)
	at, text := it.Points[0], face.printable(it.Text)
	if it.Angle == 0 {
		p.pdf.Text(at.X, at.Y, text)
		return
	}
	p.pdf.TransformBegin()
	p.pdf.TransformRotate(it.Angle, at.X, at.Y)
	p.pdf.Text(at.X, at.Y, text)
	p.pdf.TransformEnd()
}
