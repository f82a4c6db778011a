package catalog

import "io/fs"

// glueField is one figure of a Glue; a range has low and high, others one.
type glueField struct {
	name, unit string
	span       func(*Glue) *Range
	one        func(*Glue) *float64
}

// glueFields lists every figure of a Glue in the order of the type.
var glueFields = []glueField{
	{name: "spread", unit: "g/m2", span: func(g *Glue) *Range { return &g.Spread }},
	{name: "openTime", unit: "min", span: func(g *Glue) *Range { return &g.OpenTime }},
	{name: "closedTime", unit: "min", span: func(g *Glue) *Range { return &g.ClosedTime }},
	{name: "clampTime", unit: "min", span: func(g *Glue) *Range { return &g.ClampTime }},
	{name: "cureTime", unit: "min", span: func(g *Glue) *Range { return &g.CureTime }},
	{name: "minTemp", unit: "C", one: func(g *Glue) *float64 { return &g.MinTemp }},
	{name: "maxTemp", unit: "C", one: func(g *Glue) *float64 { return &g.MaxTemp }},
	{name: "pressure", unit: "MPa", span: func(g *Glue) *Range { return &g.Pressure }},
	{name: "strength", unit: "MPa", one: func(g *Glue) *float64 { return &g.Strength }},
	{name: "density", unit: "g/ml", one: func(g *Glue) *float64 { return &g.Density }},
}

// readGlues reads glues.csv: one figure of one glue a row, low and high alike
// or high left blank for a single value.
func readGlues(fsys fs.FS) ([]Glue, error) {
	rows, err := readRows(fsys, "glues.csv", "glue,field,low,high,unit,as,source")
	if err != nil {
		return nil, err
	}
	glues, first := map[string]*Glue{}, map[string]row{}
	for _, r := range rows {
		key := r.cells[0]
		if key == "" {
			return nil, r.fail(0, "the glue has no key")
		}
		g := glues[key]
		if g == nil {
			g = &Glue{Key: key, Sources: map[string]string{}}
			glues[key], first[key] = g, r
		}
		if err := g.read(r); err != nil {
			return nil, err
		}
	}
	list := make([]Glue, 0, len(glues))
	for _, key := range sortedKeys(glues) {
		g := glues[key]
		if g.Name == "" {
			return nil, first[key].fail(0, "%s has no name", key)
		}
		if g.Sources["halvesPer10"] == "" {
			return nil, first[key].fail(0, "%s: halvesPer10 is missing", key)
		}
		for _, f := range glueFields {
			if g.Sources[f.name] == "" {
				return nil, first[key].fail(0, "%s: %s is missing", key, f.name)
			}
		}
		if !(g.MinTemp < g.MaxTemp) {
			return nil, first[key].fail(0, "%s: minTemp %g is not under maxTemp %g", key, g.MinTemp, g.MaxTemp)
		}
		list = append(list, *g)
	}
	return list, nil
}

// read takes one row into a glue.
func (g *Glue) read(r row) error {
	name := r.cells[1]
	switch name {
	case "name":
		return r.text(2, &g.Name)
	case "note":
		return r.text(2, &g.Note)
	}
	if g.Sources[name] != "" {
		return r.fail(1, "%s of %s is given twice", name, g.Key)
	}
	source, err := r.source(6)
	if err != nil {
		return err
	}
	if name == "halvesPer10" {
		if r.cells[2] != "yes" && r.cells[2] != "no" {
			return r.fail(2, "this must be yes or no, not %q", r.cells[2])
		}
		g.HalvesPer10, g.Sources[name] = r.cells[2] == "yes", source
		return nil
	}
	for _, f := range glueFields {
		if f.name == name {
			return g.readFigure(f, r, source)
		}
	}
	return r.fail(1, "glues have no figure %q", name)
}

// readFigure takes one figure into a glue.
func (g *Glue) readFigure(f glueField, r row, source string) error {
	if r.cells[4] != f.unit {
		return r.fail(4, "%s is in %s, not %q", f.name, f.unit, r.cells[4])
	}
	low, err := r.number(2)
	if err != nil {
		return err
	}
	low, how, err := r.convert(5, low, func(string) (float64, bool) { return 0, false })
	if err != nil {
		return err
	}
	if !(low > 0) {
		return r.fail(2, "%s must be more than 0", f.name)
	}
	high := low
	if r.cells[3] != "" {
		if f.span == nil {
			return r.fail(3, "%s is a single figure", f.name)
		}
		if high, err = r.number(3); err != nil {
			return err
		}
		if high < low {
			return r.fail(3, "%g is under %g", high, low)
		}
	}
	if f.span != nil {
		*f.span(g) = Range{low, high}
	} else {
		*f.one(g) = low
	}
	g.Sources[f.name] = source + how
	return nil
}
