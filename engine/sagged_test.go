package engine

import (
	"math"
	"strings"
	"testing"

	"flatwright/engine/draw"
	"flatwright/engine/length"
)

// By hand: a twentieth of 1800 is 90 mm; 90/0.24 = 375, rounded down to 200;
// 90/0.9 = 100; 90/100 is below 1.
func TestExaggeration(t *testing.T) {
	t.Parallel()
	for _, tt := range [...]struct{ most, want float64 }{{0.24, 200}, {0.9, 100}, {0.17, 500}, {100, 1}, {0, 1}} {
		if got := exaggeration(1800, []float64{tt.most / 2, -tt.most / 3, tt.most}); got != tt.want {
			t.Errorf("largest sag %g: %g times, want %g", tt.most, got, tt.want)
		}
	}
}

// The section's upper face is where the sag map says, the stated number of
// times too large, and the slab's line where its closed form says.
func TestSaggedIsToScale(t *testing.T) {
	t.Parallel()
	d := plainTop()
	r := refined(t, d, Interactive)
	fig, times := Sagged(d, r, 0, length.Format{})
	c := r.Whole.Cases[0]
	nx := c.Map.NX
	row := int(math.Round(c.Y / d.Width * float64(c.Map.NY-1)))
	upper := fig.Areas[0].Points[nx:]
	for i, p := range upper {
		k := nx - 1 - i
		want := d.TotalDepth() - times*c.Map.Sag[row*nx+k]
		if math.Abs(p.Y-want) > 1e-9 || math.Abs(p.X-d.Length*float64(k)/float64(nx-1)) > 1e-9 {
			t.Fatalf("place %d: (%g, %g), want height %g", k, p.X, p.Y, want)
		}
	}
	slab := d.slabAlong(0, c.Y, nx)
	if l := fig.Lines[10]; l.Pen != draw.Hidden || math.Abs(l.A.Y-(d.TotalDepth()-times*slab[10])) > 1e-9 {
		t.Errorf("slab's line at place 10: %+v, want height %g", l, d.TotalDepth()-times*slab[10])
	}
}

// The packet of a computed whole panel has its pages: every support with its
// force, every knob, and the largest sag on the map.
func TestPacketUnderLoad(t *testing.T) {
	t.Parallel()
	d := plainTop()
	r := refined(t, d, Interactive)
	pages, err := Packet(t.Context(), d, r, PacketOptions{})
	if err != nil {
		t.Fatal(err)
	}
	var text strings.Builder
	for _, p := range pages {
		for _, it := range p.Flat.Items {
			text.WriteString(it.Text + " ")
		}
	}
	all := text.String()
	want := []string{"Under load", "Who does the work", "What one step changes", length.Sag(r.Whole.Cases[r.Governing].Sag, length.Format{})}
	for _, f := range r.Whole.Cases[0].Reactions {
		want = append(want, f.Name, length.Force(f.Force, length.Format{}))
	}
	for _, k := range r.Knobs {
		want = append(want, k.Name)
	}
	for _, w := range want {
		if !strings.Contains(all, w) {
			t.Errorf("the packet lacks %q", w)
		}
	}
}

func TestSigned(t *testing.T) {
	t.Parallel()
	print := func(v float64) string { return length.Number(v, 3) }
	for v, want := range map[float64]string{0.5: "+0.5", -0.25: "−0.25", 0: "0"} {
		if got := signed(v, print); got != want {
			t.Errorf("signed(%g) = %q, want %q", v, got, want)
		}
	}
}
