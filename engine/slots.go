package engine

import (
	"context"
	"math"
	"sync"

	"flatwright/engine/catalog"
	"flatwright/engine/plate"
)

// cache keeps the answers of cells that were solved: while a load is dragged or
// a skin is changed back and forth the cells stay the same. It changes no answer,
// only the time.
type cache[K comparable, V any] struct {
	sync.Mutex
	known map[K]V
}

// cacheSize is when a cache starts anew; some 200 B an entry and its key.
const cacheSize = 2000

func (c *cache[K, V]) get(k K) (V, bool) {
	c.Lock()
	defer c.Unlock()
	v, ok := c.known[k]
	return v, ok
}

func (c *cache[K, V]) put(k K, v V) {
	c.Lock()
	defer c.Unlock()
	if c.known == nil || len(c.known) >= cacheSize {
		c.known = map[K]V{}
	}
	c.known[k] = v
}

// of returns what solve makes of k, once for every k, or the zero value where it
// makes an error.
func (c *cache[K, V]) of(k K, solve func(K) (V, error)) V {
	v, ok := c.get(k)
	if ok {
		return v
	}
	v, err := solve(k)
	if err != nil {
		var none V
		return none
	}
	c.put(k, v)
	return v
}

var (
	slotCache   cache[plate.Cell, [2]float64]
	jointCache  cache[plate.Joint, plate.Give]
	rimCache    cache[plate.Joint, plate.Give]
	bridgeCache cache[plate.Joint, plate.Bridge]
)

// solvedJoint returns what a joint of rib and skin gives. One that cannot be
// solved gives nothing: it belongs to a design that is refused elsewhere.
func solvedJoint(j plate.Joint) plate.Give { return jointCache.of(j, plate.Joint.Give) }

// solvedRim is [solvedJoint] where the skin ends at the rib.
func solvedRim(j plate.Joint) plate.Give {
	return rimCache.of(j, func(j plate.Joint) (plate.Give, error) { return j.AtRim(solvedJoint(j)) })
}

// solvedBridge returns what the rib carries across a seam over it, nothing where
// that cannot be solved.
func solvedBridge(j plate.Joint) plate.Bridge {
	return bridgeCache.of(j, func(j plate.Joint) (plate.Bridge, error) { return j.Bridge(solvedJoint(j)) })
}

// leastShare is what a slotted rib keeps at least. In a shallow core between
// thick skins a slot costs the skins' joint work more than the whole of the
// rib's own bending, and the share that stands for it would be below nothing,
// which is no rib and makes the panel's stiffness indefinite. Common practice,
// no source.
const leastShare = 0.05

// solvedSlots returns the slot factors of ribs of set m, solved for one pitch
// and the depth to which they are cut.
// Laps glued tight take nothing away. Where the cell cannot be solved, or ctx is
// done, it falls back to the estimate.
func (d *Design) solvedSlots(ctx context.Context, p *plate.Panel, m *catalog.Sheet, r RibSet, mates RibSet, pitch, spacing, cut float64, fromTop, along bool) (kb, ks float64) {
	if d.Slots.Glued {
		return 1, 1
	}
	c := plate.Cell{Pitch: pitch, Height: d.CoreDepth, B: r.Thickness, SlotWidth: d.Slots.width(mates), SlotDepth: cut,
		Flange: min(pitch, spacing), Top: p.Top, Bottom: p.Bottom, E: m.EAlong, EUp: m.EAcross, G: m.GEdge, Nu: m.Nu}
	if r.Upright {
		c.E, c.EUp, c.Nu = m.EAcross, m.EAlong, m.Nu*m.EAcross/m.EAlong
	}
	if !along {
		c.Top, c.Bottom = c.Top.Turned(), c.Bottom.Turned()
	}
	if !fromTop {
		c.Top, c.Bottom = c.Bottom, c.Top
	}
	if f, ok := slotCache.get(c); ok {
		return f[0], f[1]
	}
	kb, ks, err := c.Slotted(ctx)
	if err != nil {
		return slotFactors(pitch, d.CoreDepth)
	}
	kb, ks = math.Max(kb, leastShare), math.Max(ks, leastShare)
	slotCache.put(c, [2]float64{kb, ks})
	return kb, ks
}
