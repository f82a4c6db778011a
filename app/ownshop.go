package app

import (
	"reflect"

	"flatwright/engine"
	"flatwright/engine/saw"
)

// ownShop is what of a person's shop goes along from one design to the next: it
// is remembered with the settings whenever it is changed in a design.
type ownShop struct {
	Stock   []engine.Stock `json:"stock,omitempty"`
	Prices  []engine.Price `json:"prices,omitempty"`
	Cutting engine.Cutting `json:"cutting,omitzero"`
	Tools   saw.Tools      `json:"tools,omitzero"`
	GlueUp  engine.GlueUp  `json:"glueUp,omitzero"`
	Leaves  []float64      `json:"leaves,omitempty"`
}

// shopOf is the shop that a design carries.
func shopOf(d engine.Design) ownShop {
	d = d.Clone()
	d.Cutting.Free = nil                                 // pieces of that design, not of the shop
	d.GlueUp.Split, d.GlueUp.Press = engine.Together, "" // picked for that design
	return ownShop{d.Stock, d.Prices, d.Cutting, d.Tools, d.GlueUp, d.Leaves}
}

// stated reports whether there is anything to remember.
func (o ownShop) stated() bool { return !reflect.DeepEqual(o, ownShop{}) }

// equip gives a fresh design the shop.
func (o ownShop) equip(d *engine.Design) {
	d.Stock, d.Prices, d.Cutting, d.Tools = o.Stock, o.Prices, o.Cutting, o.Tools
	d.GlueUp, d.Leaves = o.GlueUp, o.Leaves
	*d = d.Clone()
}

// rememberShop keeps the shop of a design whose person has just changed it; before
// is the design as it was.
func (d *desk) rememberShop(before, after engine.Design) {
	if shop := shopOf(after); !reflect.DeepEqual(shop, shopOf(before)) {
		d.keep(func(s *Settings) { s.Shop = shop })
	}
}

// watchShop remembers the shop whenever an edit changes it; opening a file
// does not.
func (d *desk) watchShop() {
	var last Snapshot
	d.session.Watch(func(s Snapshot) {
		if s.Revision != last.Revision && s.Dirty && s.UndoLabel != "" {
			d.rememberShop(last.Design, s.Design)
		}
		last = s
	})
}

// shopFor is the shop that a fresh design gets: the one remembered, else that of
// the design it takes the place of.
func (d *desk) shopFor(present engine.Design) ownShop {
	if d.settings.Shop.stated() {
		return d.settings.Shop
	}
	return shopOf(present)
}

// keepLeftovers remembers the stock as it is once the present plan is cut.
func (d *desk) keepLeftovers() {
	snap := d.session.Now()
	plan := d.session.PlanOf(snap.Design)
	if plan == nil {
		tell(d.win, "Leftovers", "The parts are not laid out yet, so nothing is known to be left over. Wait until the search is over, or stop it.")
		return
	}
	stock := snap.Design.Leftovers(*plan)
	shop := shopOf(snap.Design)
	shop.Stock = stock
	d.keep(func(s *Settings) { s.Shop = shop })
	n := 0
	for _, t := range stock {
		n += t.OnHand
	}
	tell(d.win, "Leftovers", "Your list for the next design has "+countOf(n, "piece", "pieces")+" on hand now. This design stays as it is.")
}
