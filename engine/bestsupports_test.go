package engine

import (
	"context"
	"errors"
	"math"
	"reflect"
	"testing"
)

// An even load on two trestles: a beam that bends sags least at its middle and
// ends alike with the supports 0.223 of the length from the ends (textbook,
// 0.2232 by equal sags); rib shear and the plane through the supports shift it
// a little, so within 0.06 of the length.
func TestBestSupportsOfAnEvenLoad(t *testing.T) {
	t.Parallel()
	d := smallTop()
	d.Supports = Supports{Kind: RailsAcross, EndInset: 30, Bearing: 40}
	d.Cases = []LoadCase{{Name: "even", Duration: MediumTerm, Loads: []Load{{Name: "even", Kind: Uniform, Force: 900}}}}
	best, before, after, err := BestSupports(t.Context(), d)
	if err != nil {
		t.Fatal(err)
	}
	if share := best.EndInset / d.Length; math.Abs(share-0.223) > 0.06 {
		t.Errorf("supports %.3f of the length from the ends, want about 0.223", share)
	}
	if !(after < before/2) {
		t.Errorf("sag from %.4f to %.4f mm; want less than half", before, after)
	}
	if best.Kind != d.Supports.Kind || best.Bearing != d.Supports.Bearing || best.SideInset != d.Supports.SideInset {
		t.Errorf("supports %+v; want nothing but the end inset changed in %+v", best, d.Supports)
	}
}

// What is held along all edges has nothing to move, and a second search finds
// nothing better.
func TestBestSupportsStay(t *testing.T) {
	t.Parallel()
	d := smallTop()
	d.Supports = Supports{Kind: AllEdges, Bearing: 30}
	best, before, after, err := BestSupports(t.Context(), d)
	if err != nil || !reflect.DeepEqual(best, d.Supports) || before != after {
		t.Errorf("all edges: %+v, %g, %g, %v; want as they were", best, before, after, err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, _, _, err := BestSupports(ctx, d); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
}
