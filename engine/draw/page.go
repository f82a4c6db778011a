package draw

// Paper is the size of a sheet in mm.
type Paper struct{ Width, Height float64 }

// The papers, upright: ANSI Letter 8.5 by 11 in, ISO 216 A4.
var (
	Letter = Paper{215.9, 279.4}
	A4     = Paper{210, 297}
)

// Landscape returns p turned by a quarter.
func (p Paper) Landscape() Paper { return Paper{p.Height, p.Width} }

// Page is a sheet of paper, in mm from its upper left corner, y down. Title
// becomes its bookmark.
type Page struct {
	Title         string
	Width, Height float64
	Metrics       Metrics
	Flat          Flat
}

// NewPage returns an empty page.
func NewPage(title string, paper Paper, m Metrics) *Page {
	return &Page{Title: title, Width: paper.Width, Height: paper.Height, Metrics: m}
}
