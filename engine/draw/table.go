package draw

// Column is a column of a [Table]: its head, its width in mm, and whether its
// cells stand at the right, as figures do.
type Column struct {
	Head  string
	Width float64
	Right bool
}

// Table is a table with a rule under its head and a thin one under every row.
// Cells wrap inside their column; a missing cell is empty, one too many is left
// out.
type Table struct {
	Columns []Column
	Rows    [][]string
	Size    TextSize
}

// Width returns the sum of the columns' widths.
func (t Table) Width() float64 {
	w := 0.0
	for _, c := range t.Columns {
		w += c.Width
	}
	return w
}

// RowsFit returns how many rows, from the one with index from on, fit with the
// head into height mm. It returns at least 1 while rows are left, so that a
// loop over pages ends even with a row higher than a page.
func (p *Page) RowsFit(t Table, from int, height float64) int {
	height -= p.headHeight(t)
	n := 0
	for i := max(from, 0); i < len(t.Rows); i++ {
		height -= p.rowHeight(t, t.Rows[i], false)
		if height < 0 && n > 0 {
			break
		}
		n++
		if height < 0 {
			break
		}
	}
	return n
}

// TableHeight returns the height of the head and of n rows from the one with
// index from on.
func (p *Page) TableHeight(t Table, from, n int) float64 {
	height := p.headHeight(t)
	from = max(from, 0)
	for i := from; i < min(from+n, len(t.Rows)); i++ {
		height += p.rowHeight(t, t.Rows[i], false)
	}
	return height
}

// Table sets the head and n rows, from the one with index from on, with the
// upper left corner at (x, y). It returns the y below the last row.
func (p *Page) Table(x, y float64, t Table, from, n int) float64 {
	y = p.row(x, y, t, t.heads(), true)
	p.Line(Point{x, y}, Point{x + t.Width(), y}, Outline)
	from = max(from, 0)
	for i := from; i < min(from+n, len(t.Rows)); i++ {
		y = p.row(x, y, t, t.Rows[i], false)
		p.Rule(x, x+t.Width(), y)
	}
	return y
}

// cellPadding returns the free space at the left and right of a cell's text:
// half an em, so that neighbours are an em apart.
func (p *Page) cellPadding() float64 { return p.Metrics.TextSize / 2 }

func (t Table) heads() []string {
	heads := make([]string, len(t.Columns))
	for i, c := range t.Columns {
		heads[i] = c.Head
	}
	return heads
}

// cell returns the lines of a row's cell in column i.
func (p *Page) cell(t Table, row []string, i int, bold bool) []string {
	if i >= len(row) || row[i] == "" {
		return nil
	}
	room := t.Columns[i].Width - 2*p.cellPadding()
	return p.Metrics.Wrap(row[i], room, t.Size, bold)
}

func (p *Page) headHeight(t Table) float64 { return p.rowHeight(t, t.heads(), true) }

func (p *Page) rowHeight(t Table, row []string, bold bool) float64 {
	lines := 1
	for i := range t.Columns {
		lines = max(lines, len(p.cell(t, row, i, bold)))
	}
	return float64(lines)*p.LineHeight(t.Size) + 2*p.Metrics.Gap
}

// row sets the cells of one row and returns the y below it.
func (p *Page) row(x, y float64, t Table, row []string, bold bool) float64 {
	style := Style{Size: t.Size, Bold: bold}
	gap, pad := p.Metrics.Gap, p.cellPadding()
	left := x
	for i, c := range t.Columns {
		at, anchor := left+pad, AtTopLeft
		if c.Right {
			at, anchor = left+c.Width-pad, AtTopRight
		}
		for k, line := range p.cell(t, row, i, bold) {
			p.Text(at, y+gap*1.5+float64(k)*p.LineHeight(t.Size), line, anchor, style)
		}
		left += c.Width
	}
	return y + p.rowHeight(t, row, bold)
}
