package engine

import (
	"fmt"
	"sync"

	"flatwright/engine/catalog"
	"flatwright/resources"
)

// Catalogue returns the materials and glues that come with the program. It is
// read once; callers must not change it.
var Catalogue = sync.OnceValue(func() *catalog.Catalog {
	c, err := catalog.Parse(resources.Data)
	if err != nil {
		// The tables are compiled in and a test reads them: only a broken
		// build gets here.
		panic(fmt.Sprintf("built-in catalogue: %v", err))
	}
	return c
})

// Material returns the material with that key: the design's own ones first,
// then the catalogue's.
func (d Design) Material(key string) (catalog.Sheet, bool) {
	for _, s := range d.Own {
		if s.Key == key {
			return s, true
		}
	}
	return Catalogue().Sheet(key)
}

// glue returns the design's glue; Validate has refused a design without one.
func (d Design) glue() catalog.Glue {
	g, _ := Catalogue().Glue(d.Glue)
	return g
}

// materials is every material of a design, at the thickness it is used in.
type materials struct {
	top, bottom, lengthwise, crosswise, band, apron catalog.Sheet
}

func (d Design) materials() materials {
	at := func(key string, t float64) catalog.Sheet {
		s, _ := d.Material(key)
		return s.At(t)
	}
	m := materials{
		top:        at(d.TopSkin.Material, d.TopSkin.Thickness),
		bottom:     at(d.BottomSkin.Material, d.BottomSkin.Thickness),
		lengthwise: at(d.Lengthwise.Material, d.Lengthwise.Thickness),
		crosswise:  at(d.Crosswise.Material, d.Crosswise.Thickness),
	}
	if d.EdgeBand.Thickness > 0 {
		m.band = at(d.EdgeBand.Material, d.EdgeBand.Thickness)
	}
	if d.Supports.HasAprons() {
		m.apron = at(d.Supports.Apron.Material, d.Supports.Apron.Thickness)
	}
	return m
}
