package saw

import (
	"errors"
	"math"
	"testing"
)

func TestTilesByHand(t *testing.T) {
	t.Parallel()
	// 600 mm on strips of 267 that overlap by 10: one every 250 mm.
	marks := []Mark{{1, 6, 0, 12}, {2, 250, 244, 256}, {3, 594, 588, 600}}
	tiles, err := Tiles(600, 267, 10, marks)
	if err != nil || len(tiles) != 3 {
		t.Fatalf("%d tiles, %v", len(tiles), err)
	}
	for i, want := range []struct {
		from, to  float64
		registers []float64
		marks     []int
	}{
		{0, 255, []float64{250}, []int{1, 2}},
		{245, 505, []float64{250, 500}, []int{2}},
		{495, 600, []float64{500}, []int{3}},
	} {
		got := tiles[i]
		if got.Number != i+1 || got.From != want.from || got.To != want.to || len(got.Registers) != len(want.registers) || len(got.Marks) != len(want.marks) {
			t.Fatalf("tile %d = %+v; want %+v", i+1, got, want)
		}
		for k, r := range want.registers {
			if got.Registers[k] != r {
				t.Errorf("tile %d: register at %g; want %g", i+1, got.Registers[k], r)
			}
		}
		for k, n := range want.marks {
			if got.Marks[k] != marks[n-1] {
				t.Errorf("tile %d: mark %+v; want %+v", i+1, got.Marks[k], marks[n-1])
			}
		}
	}
}

func TestTilesProperties(t *testing.T) {
	t.Parallel()
	for length := 40.0; length < 4000; length += 57.3 {
		for _, usable := range []float64{19, 180, 267, 5000} {
			for _, lap := range []float64{0, 8} {
				tiles, err := Tiles(length, usable, lap, nil)
				if err != nil {
					t.Fatal(err)
				}
				last := len(tiles) - 1
				if tiles[0].From != 0 || tiles[last].To != length {
					t.Fatalf("stick of %g runs from %g to %g", length, tiles[0].From, tiles[last].To)
				}
				for i, s := range tiles {
					if !(s.To > s.From) || s.To-s.From > usable+1e-9 {
						t.Errorf("strip %d of %g on %g reaches from %g to %g", i+1, length, usable, s.From, s.To)
					}
					if i == 0 {
						continue
					}
					// The same cross is on both strips, in the middle of what they share.
					a, b := tiles[i-1].Registers, s.Registers
					if a[len(a)-1] != b[0] || b[0] < s.From || b[0] > tiles[i-1].To {
						t.Errorf("strips %d and %d of %g share no cross: %v, %v", i, i+1, length, a, b)
					}
					if i < last {
						near(t, "overlap", tiles[i-1].To-s.From, lap, 1e-9)
					}
				}
			}
		}
	}
	nan := math.NaN()
	for _, c := range [][3]float64{{0, 200, 10}, {100, 0, 0}, {100, 15, 10}, {100, 200, -1}, {nan, 200, 10}, {100, nan, 10}, {100, 200, nan}, {1e9, 200, 10}} {
		if _, err := Tiles(c[0], c[1], c[2], nil); !errors.Is(err, ErrDomain) {
			t.Errorf("Tiles(%v): %v; want ErrDomain", c, err)
		}
	}
}

func TestCheckLength(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ usable, unit, want float64 }{
		{267, 1, 250}, {180, 1, 150}, {30, 1, 50},
		{249.4, 25.4, 8}, {267, 25.4, 10}, // 9.8 and 10.5 inches
	} {
		if got := CheckLength(c.usable, c.unit); got != c.want {
			t.Errorf("CheckLength(%g, %g) = %g; want %g", c.usable, c.unit, got, c.want)
		}
	}
}
