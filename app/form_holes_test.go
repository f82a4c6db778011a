package app

import (
	"strings"
	"testing"

	"flatwright/engine"
)

func TestHolesAndGroovesAreTyped(t *testing.T) {
	r := newFormRig(t, engine.Demo())
	r.session.Edit("holes", "", func(d *engine.Design) {
		d.Holes = []engine.Hole{{Kind: engine.DogHole, Part: engine.TopSeam, X: 300, Y: 200, Diameter: 20}, {Kind: engine.CableHole, Part: "L2", X: 300, Up: 60, Diameter: 25}}
		d.Grooves = []engine.Groove{{Skin: engine.TopSeam, Along: true, At: 100, Width: 19, Depth: 4}}
		d.Splices = []engine.Splice{{Part: "L1", At: 700}}
	})
	for _, tc := range []struct {
		path, typed string
		got         func(engine.Design) float64
		want        float64
	}{
		{"holes[0].x", "311", func(d engine.Design) float64 { return d.Holes[0].X }, 311},
		{"holes[0].stepX", "96", func(d engine.Design) float64 { return d.Holes[0].StepX }, 96},
		{"holes[0].count", "4", func(d engine.Design) float64 { return float64(d.Holes[0].Count) }, 4},
		{"holes[1].up", "58", func(d engine.Design) float64 { return d.Holes[1].Up }, 58},
		{"grooves[0].depth", "3.5", func(d engine.Design) float64 { return d.Grooves[0].Depth }, 3.5},
		{"keepOff", "8", func(d engine.Design) float64 { return d.KeepOff }, 8},
	} {
		r.typeInto(t, tc.path, tc.typed)
		if got := tc.got(r.session.Now().Design); got != tc.want {
			t.Errorf("%s after typing %s is %g; want %g", tc.path, tc.typed, got, tc.want)
		}
	}
	s := r.session.Now()
	for part, want := range map[string]string{engine.HolePart(0): "Four dog holes", engine.GroovePart(0): "Groove 1: top skin", engine.SplicePartID(0): "Splice 1: L1"} {
		if got := partText(s, part); !strings.Contains(got, want) {
			t.Errorf("partText(%s) = %q; want %q in it", part, got, want)
		}
		if partField(s.Design, part) == "" {
			t.Errorf("%s opens no field", part)
		}
	}
}
