package app

import "flatwright/engine"

// screwLines are the fields of what holds a pull at one place; nothing need be told.
// where is said of the number's label.
func (f *form) screwLines(b *builder, root, where string, at func(*engine.Design) *engine.Screws) {
	pick := func(of func(*engine.Screws) *float64) func(*engine.Design) *float64 {
		return func(d *engine.Design) *float64 {
			if s := at(d); s != nil {
				return of(s)
			}
			return nil
		}
	}
	b.add(f.valueOf(spec{path: root + ".number", label: "Screws " + where, edit: "number of screws",
		help: "How many share the pull there. Empty: they are not checked. Told with thread and depth they get a margin."},
		optional(wholeNumber), func(d *engine.Design) (float64, bool) {
			if s := at(d); s != nil {
				return float64(s.Number), true
			}
			return 0, false
		}, func(d *engine.Design, v float64) {
			if s := at(d); s != nil {
				s.Number = int(v)
			}
		}))
	b.add(f.value(spec{path: root + ".diameter", label: "Their thread", edit: "screw diameter",
		help: "Outer diameter of the thread, 4 to 6 mm for common screws; of bolts their own diameter."},
		optional(lengthQuantity), pick(func(s *engine.Screws) *float64 { return &s.Diameter })))
	b.add(f.value(spec{path: root + ".depth", label: "Thread in the wood", edit: "screw depth",
		help: "How much of the thread sits in the wood that it pulls on: in the skin and the rib or block behind it. Bolts need none."},
		optional(lengthQuantity), pick(func(s *engine.Screws) *float64 { return &s.Depth })))
	b.add(f.value(spec{path: root + ".washer", label: "Washers, if bolts", edit: "washer",
		help: "Outer diameter of the washers of bolts that go right through. Empty for screws."},
		optional(lengthQuantity), pick(func(s *engine.Screws) *float64 { return &s.Washer })))
}
