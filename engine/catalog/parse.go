package catalog

import (
	"io/fs"
	"slices"
	"strconv"
	"strings"
)

// Parse reads the catalogue from five CSV files: kinds.csv, materials.csv
// (sheet goods), woods.csv, thicknesses.csv and glues.csv. It stops at the first
// thing that is wrong, with a [*RowError] that knows file, line and column.
func Parse(fsys fs.FS) (*Catalog, error) {
	kinds, err := readKinds(fsys)
	if err != nil {
		return nil, err
	}
	b := &builder{kinds: kinds, sheets: map[string]*draft{}}
	for _, file := range []string{"materials.csv", "woods.csv"} {
		if err := b.readSheets(fsys, file); err != nil {
			return nil, err
		}
	}
	if err := b.readThicknesses(fsys); err != nil {
		return nil, err
	}
	c := &Catalog{Kinds: kinds}
	for _, key := range sortedKeys(b.sheets) {
		s, err := b.sheets[key].finish()
		if err != nil {
			return nil, err
		}
		if s.Solid {
			c.Woods = append(c.Woods, s)
		} else {
			c.Sheets = append(c.Sheets, s)
		}
	}
	c.Glues, err = readGlues(fsys)
	if err != nil {
		return nil, err
	}
	return c, nil
}

// builder gathers the rows of each material.
type builder struct {
	kinds  []Kind
	sheets map[string]*draft
}

// draft is a material half read, with the row that began it.
type draft struct {
	Sheet
	first row
}

// readSheets reads materials.csv or woods.csv.
func (b *builder) readSheets(fsys fs.FS, file string) error {
	rows, err := readRows(fsys, file, "material,field,above,value,unit,as,source")
	if err != nil {
		return err
	}
	for _, r := range rows {
		key := r.cells[0]
		if key == "" {
			return r.fail(0, "the material has no key")
		}
		d := b.sheets[key]
		if d == nil {
			d = &draft{first: r}
			d.Key, d.Solid, d.Sources = key, file == "woods.csv", map[string]string{}
			b.sheets[key] = d
		}
		if d.first.file != file {
			return r.fail(0, "%q is in %s already", key, d.first.file)
		}
		if err := b.readFigure(d, r); err != nil {
			return err
		}
	}
	return nil
}

// readFigure takes one row into a material.
func (b *builder) readFigure(d *draft, r row) error {
	name, text := r.cells[1], r.cells[3]
	switch name {
	case "name":
		return r.text(3, &d.Name)
	case "note":
		return r.text(3, &d.Note)
	case "kind":
		if _, ok := find(b.kinds, text, kindKey); !ok {
			return r.fail(3, "there is no kind %q", text)
		}
		return r.text(3, &d.Kind)
	}
	f, ok := fieldNamed(name)
	if !ok {
		return r.fail(1, "materials have no figure %q", name)
	}
	if r.cells[4] != f.unit {
		return r.fail(4, "%s is in %s, not %q", name, f.unit, r.cells[4])
	}
	v, err := r.number(3)
	if err != nil {
		return err
	}
	source, err := r.source(6)
	if err != nil {
		return err
	}
	v, how, err := r.convert(5, v, func(name string) (float64, bool) {
		g, ok := fieldNamed(name)
		if !ok {
			return 0, false
		}
		_, ok = d.Sources[name]
		return *g.of(&d.Sheet), ok
	})
	if err != nil {
		return err
	}
	if text := f.check(v); text != "" {
		return r.fail(3, "%s: %s", name, text)
	}
	if r.cells[2] != "" {
		return d.addStep(r, name, v, source+how)
	}
	if _, ok := d.Sources[name]; ok {
		return r.fail(1, "%s of %s is given twice", name, d.Key)
	}
	*f.of(&d.Sheet), d.Sources[name] = v, source+how
	return nil
}

// addStep keeps a figure that holds above the thickness in cell 2.
func (d *draft) addStep(r row, name string, v float64, source string) error {
	above, err := r.number(2)
	if err != nil {
		return err
	}
	if _, ok := d.Sources[name]; !ok {
		return r.fail(1, "%s of %s must first be given for the thinnest sheets", name, d.Key)
	}
	i, ok := slices.BinarySearchFunc(d.Steps, above, func(s Step, t float64) int {
		switch {
		case s.Above < t:
			return -1
		case s.Above > t:
			return 1
		}
		return 0
	})
	if !ok {
		d.Steps = slices.Insert(d.Steps, i, Step{Above: above, Values: map[string]float64{}})
	}
	if _, ok := d.Steps[i].Values[name]; ok {
		return r.fail(1, "%s of %s above %g mm is given twice", name, d.Key, above)
	}
	d.Steps[i].Values[name] = v
	d.Sources[name+" above "+r.cells[2]+" mm"] = source
	return nil
}

// finish completes a material once all files are read: it sets the moduli that
// follow from a lay-up, at the middle of the thicknesses sold, and checks all.
func (d *draft) finish() (Sheet, error) {
	slices.SortStableFunc(d.Thicknesses, func(a, b Thickness) int {
		switch {
		case a.Actual < b.Actual:
			return -1
		case a.Actual > b.Actual:
			return 1
		}
		return strings.Compare(a.Nominal, b.Nominal)
	})
	if len(d.Thicknesses) == 0 {
		return Sheet{}, d.first.fail(0, "%s has no thicknesses", d.Key)
	}
	if t, ok := d.layered(d.Thicknesses[len(d.Thicknesses)/2].Actual); ok {
		s := d.At(t.Actual)
		for _, name := range []string{"eAlong", "eAcross", "eBendAlong", "eBendAcross"} {
			if _, ok := d.Sources[name]; ok {
				return Sheet{}, d.first.fail(0, "%s of %s follows from its plies: leave it out", name, d.Key)
			}
			d.Sources[name] = "derived from the lay-up: " + strconv.Itoa(t.Plies) + " plies, " + t.Nominal +
				", with ePlyAlong and ePlyAcross; other thicknesses by their own plies"
		}
		d.EAlong, d.EAcross, d.EBendAlong, d.EBendAcross = s.EAlong, s.EAcross, s.EBendAlong, s.EBendAcross
	}
	if faults := d.Validate(); len(faults) > 0 {
		return Sheet{}, d.first.fail(0, "%s: %s: %s", d.Key, faults[0].Field, faults[0].Text)
	}
	for _, f := range sheetFields {
		if v := *f.of(&d.Sheet); v != 0 && d.Sources[f.name] == "" || v == 0 && f.unit != "MPa" {
			return Sheet{}, d.first.fail(0, "%s: %s is missing", d.Key, f.name)
		}
	}
	return d.Sheet, nil
}

// readThicknesses reads thicknesses.csv. A row is for one material or, with
// "kind:" before it, for all of a kind.
func (b *builder) readThicknesses(fsys fs.FS) error {
	rows, err := readRows(fsys, "thicknesses.csv", "material,nominal,actual,system,plies,layers,source")
	if err != nil {
		return err
	}
	for _, r := range rows {
		t, err := readThickness(r)
		if err != nil {
			return err
		}
		kind, all := strings.CutPrefix(r.cells[0], "kind:")
		hit := false
		for key, d := range b.sheets {
			if key == r.cells[0] || all && d.Kind == kind {
				for _, old := range d.Thicknesses {
					if old.Nominal == t.Nominal {
						return r.fail(1, "%s of %s is given twice", t.Nominal, r.cells[0])
					}
				}
				d.Thicknesses = append(d.Thicknesses, t)
				hit = true
			}
		}
		if !hit {
			return r.fail(0, "there is no material %q", r.cells[0])
		}
	}
	return nil
}

// readThickness reads one row of thicknesses.csv.
func readThickness(r row) (t Thickness, err error) {
	if err = r.text(1, &t.Nominal); err != nil {
		return t, err
	}
	if t.Actual, err = r.number(2); err != nil {
		return t, err
	}
	switch r.cells[3] {
	case "metric":
	case "imperial":
		t.Imperial = true
	default:
		return t, r.fail(3, "the system must be metric or imperial, not %q", r.cells[3])
	}
	if r.cells[4] != "" {
		if t.Plies, err = strconv.Atoi(r.cells[4]); err != nil {
			return t, r.fail(4, "%q is not a number of plies", r.cells[4])
		}
	}
	if r.cells[5] != "" {
		if t.Layers, err = r.numbers(5, len(strings.Fields(r.cells[5]))); err != nil {
			return t, err
		}
	}
	if t.Source, err = r.source(6); err != nil {
		return t, err
	}
	if faults := t.faults("thickness"); len(faults) > 0 {
		return t, r.fail(2, "%s", faults[0].Text)
	}
	return t, nil
}

// text puts cell i, which must not be empty, where it belongs, once.
func (r row) text(i int, to *string) error {
	switch {
	case r.cells[i] == "":
		return r.fail(i, "there is nothing here")
	case *to != "":
		return r.fail(i, "this is given twice")
	}
	*to = r.cells[i]
	return nil
}

// sortedKeys returns the keys of a map in order.
func sortedKeys[V any](m map[string]V) []string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}
