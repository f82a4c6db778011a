package catalog_test

import (
	"fmt"
	"os"

	"flatwright/engine/catalog"
)

func ExampleSheet_At() {
	c, err := catalog.Parse(os.DirFS("../../resources"))
	if err != nil {
		fmt.Println(err)
		return
	}
	birch, _ := c.Sheet("birch-plywood")
	for _, t := range []float64{3.6, 17.6} {
		s := birch.At(t)
		fmt.Printf("%.1f mm: in the plane %.0f MPa, bent %.0f MPa\n", t, s.EAlong, s.EBendAlong)
	}
	// Output:
	// 3.6 mm: in the plane 10568 MPa, bent 15972 MPa
	// 17.6 mm: in the plane 9122 MPa, bent 9964 MPa
}
