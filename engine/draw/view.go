package draw

// View maps the world onto an output plane:
//
//	x' = OriginX + Scale·x
//	y' = OriginY - Scale·y
//
// Clip, in output units, is the part of the plane that shows; an empty Clip
// shows everything. On Covered something else lies, as buttons do: no text stands
// there.
type View struct {
	Scale            float64 // output units per millimetre
	OriginX, OriginY float64 // where the world's (0, 0) lands
	Clip             Rect
	Covered          Rect
}

// Map returns where the world's point p lands on the output plane.
func (v View) Map(p Point) Point {
	return Point{v.OriginX + v.Scale*p.X, v.OriginY - v.Scale*p.Y}
}

// World returns the point of the world that lands at (x, y); the inverse of
// Map. At scale 0 there is none and it returns the world's origin.
func (v View) World(x, y float64) Point {
	if !(v.Scale > 0) {
		return Point{}
	}
	return Point{(x - v.OriginX) / v.Scale, (v.OriginY - y) / v.Scale}
}

// Zoom returns v scaled by factor about the output point (x, y), which keeps
// its place. A factor that is not above 0 changes nothing.
func (v View) Zoom(factor, x, y float64) View {
	if !(factor > 0) {
		return v
	}
	v.OriginX = x + (v.OriginX-x)*factor
	v.OriginY = y + (v.OriginY-y)*factor
	v.Scale *= factor
	return v
}

// Pan returns v moved by (dx, dy) output units.
func (v View) Pan(dx, dy float64) View {
	v.OriginX += dx
	v.OriginY += dy
	return v
}

// Margins are the free borders inside a rectangle, in output units.
type Margins struct{ Left, Top, Right, Bottom float64 }

// Fit returns the view that shows bounds as large as possible, centred, in a
// plane width by height output units with margins kept free; Clip is the whole
// plane. Where bounds is empty, or the margins leave no room, the scale is the
// smallest that keeps the view usable, never 0.
func Fit(bounds Rect, width, height float64, margins Margins) View {
	w := max(width-margins.Left-margins.Right, 1)
	h := max(height-margins.Top-margins.Bottom, 1)
	scale := 1.0
	bw, bh := bounds.Width(), bounds.Height()
	switch {
	case bw > 0 && bh > 0:
		scale = min(w/bw, h/bh)
	case bw > 0:
		scale = w / bw
	case bh > 0:
		scale = h / bh
	}
	c := bounds.Centre()
	return View{
		Scale:   scale,
		OriginX: margins.Left + w/2 - scale*c.X,
		OriginY: margins.Top + h/2 + scale*c.Y,
		Clip:    Rect{Max: Point{width, height}},
	}
}

// Metrics are the sizes that stay the same whatever the scale, in output
// units.
type Metrics struct {
	Thick        float64 // width of a thick line
	ThinRatio    float64 // thick over thin
	TextSize     float64 // em of NoteSize; the other sizes follow
	Arrow        float64 // length of an arrow head
	Gap          float64 // free space beside text and between object and extension line
	RankStep     float64 // distance of dimension lines
	HatchSpacing float64 // distance of hatch lines

	// Measure returns the width of text set at size, in the unit of size.
	Measure func(text string, size float64, bold bool) float64
}

// ScreenMetrics returns the sizes for a screen in the toolkit's pixels.
func ScreenMetrics(measure func(text string, size float64, bold bool) float64) Metrics {
	return Metrics{
		Thick: 2, ThinRatio: 2, TextSize: 11, Arrow: 8, Gap: 3,
		RankStep: 20, HatchSpacing: 7, Measure: measure,
	}
}

// PaperMetrics returns the sizes for paper in millimetres: line group 0.5
// (0.5 and 0.25 mm) of ISO 128, from memory; notes of 8.5 pt, so that running
// text has 10 pt.
func PaperMetrics(measure func(text string, size float64, bold bool) float64) Metrics {
	return Metrics{
		Thick: 0.5, ThinRatio: 2, TextSize: 3, Arrow: 2.5, Gap: 0.8,
		RankStep: 6, HatchSpacing: 2, Measure: measure,
	}
}

// Size returns the em of a text size in output units.
func (m Metrics) Size(s TextSize) float64 {
	switch s {
	case BodySize:
		return m.TextSize * 13 / 11
	case HeadingSize:
		return m.TextSize * 15 / 11
	case FigureSize:
		return m.TextSize * 22 / 11
	}
	return m.TextSize
}

// Width returns the width of text. Without a Measure it takes 0.55 em for
// every sign, close to the mean of a sans serif face (common practice, no
// source).
func (m Metrics) Width(text string, s TextSize, bold bool) float64 {
	if m.Measure != nil {
		return m.Measure(text, m.Size(s), bold)
	}
	return 0.55 * m.Size(s) * float64(len([]rune(text)))
}

// Stroke returns the width of a pen's line.
func (m Metrics) Stroke(p Pen) float64 {
	switch p {
	case NoPen:
		return 0
	case Outline, Accent, Frame:
		return m.Thick
	}
	if !(m.ThinRatio > 0) {
		return m.Thick / 2
	}
	return m.Thick / m.ThinRatio
}

// Dash returns the lengths of dashes and gaps of a pen's line, nil if it is
// continuous: dashed 12d and 3d, chain 24d, 3d, dot, 3d, where d is the width
// of the thin line (ISO 128, from memory; the dot is drawn 2d long so that it
// shows).
func (m Metrics) Dash(p Pen) []float64 {
	d := m.Stroke(p)
	switch p {
	case Hidden:
		return []float64{12 * d, 3 * d}
	case Centre:
		return []float64{24 * d, 3 * d, 2 * d, 3 * d}
	}
	return nil
}

// Colour returns the colour of a pen's line.
func (p Pen) Colour() Fill {
	switch p {
	case NoPen:
		return NoFill
	case DimensionPen:
		return Pencil
	case RulePen:
		return RuleInk
	case Accent:
		return AccentInk
	}
	return Ink
}
