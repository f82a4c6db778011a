package plate

import (
	"math"
	"testing"
)

// benchOnRails is the demo's panel on two rails across its ends.
func benchOnRails(divide int) *Panel {
	p := demoPanel(divide)
	p.Pads = []Pad{{X: 20, Y: 375, SX: 40, SY: 750, K: 10}, {X: 1780, Y: 375, SX: 40, SY: 750, K: 10}}
	return p
}

// A skin that is bare all over lets the loads do work between what they do on the same
// layer of less E, and of less E and G: the layer's G also twists it as a plate, which
// being bare does not touch. The least of the energy orders the three.
func TestBareSkin(t *testing.T) {
	t.Parallel()
	load := Press{P: 900, X: 500, Y: 250, SX: 200, SY: 200}
	work := func(change func(p *Panel)) float64 {
		p := benchOnRails(1)
		change(p)
		return answer(t, p, load).Work([]Press{load})
	}
	for _, share := range []float64{0, 0.5} {
		for _, top := range []bool{true, false} {
			soft := func(g float64) float64 {
				return work(func(p *Panel) {
					l := &p.Top
					if !top {
						l = &p.Bottom
					}
					f := math.Max(share, bareShare)
					l.Ex, l.Ey, l.G = l.Ex*f, l.Ey*f, l.G*g
				})
			}
			bare := work(func(p *Panel) { p.Bare = []Bare{{top, 0, 1800, 0, 750, share}} })
			if low, high := soft(1), soft(math.Max(share, bareShare)); !(low < bare && bare < high && high < 1.5*low) {
				t.Errorf("%g of the skin left, top %v: work %.4f N·mm; want between %.4f and %.4f", share, top, bare, low, high)
			}
		}
	}
	if whole := work(func(p *Panel) { p.Bare = []Bare{{true, 0, 1800, 0, 750, 1}} }); whole != work(func(*Panel) {}) {
		t.Errorf("all of the skin left: work %.9f N·mm; want as without a mark", whole)
	}
}

// A strip that lacks at a rim makes a top softer, the more the wider it is, and by the
// same whichever end it is at; nothing pulls in it. One bare strip leaves what is told
// of the other skin alone.
func TestBareStrip(t *testing.T) {
	t.Parallel()
	load := Press{P: 1800, X: 900, Y: 375, SX: 1800, SY: 750}
	last := answer(t, benchOnRails(1), load).Work([]Press{load})
	for _, wide := range []float64{12, 40, 90} {
		var sags [2]float64
		for end, b := range [2]Bare{{true, 0, 1800, 0, wide, 0}, {true, 0, 1800, 750 - wide, 750, 0}} {
			p := benchOnRails(1)
			p.Bare = []Bare{b}
			s := answer(t, p, load)
			sags[end] = s.Work([]Press{load})
			for _, c := range s.Skin(true) {
				if c.Y > b.Y0 && c.Y < b.Y1 && math.Abs(c.NX) > 1e-3 {
					t.Errorf("%.0f mm bare: %.4f N/mm pull in it", wide, c.NX)
				}
			}
		}
		nearRel(t, "either side", sags[0], sags[1], 1e-9)
		if !(sags[0] > last) {
			t.Errorf("%.0f mm bare: the loads' work %.6f N·mm, before %.6f; want more", wide, sags[0], last)
		}
		last = sags[0]
	}
}
