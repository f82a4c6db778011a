package engine_test

import (
	"context"
	"fmt"
	"os"

	"flatwright/engine"
	"flatwright/engine/length"
)

func ExampleCompute() {
	d := engine.Demo()
	r, err := engine.Compute(context.Background(), d)
	if err != nil {
		fmt.Println(err)
		return
	}
	c := r.Cases[r.Governing]
	fmt.Println(r.Blocked(), c.Name)
	fmt.Println(c.Sag < d.Limits.Sag, r.Mass.Share < 0.5, r.Margins[0].Value > 1)
	d.CoreDepth = 0
	if r, err = engine.Compute(context.Background(), d); err == nil && r.Blocked() {
		fmt.Println(r.Problems[0].Field + ": " + r.Problems[0].Text)
	}
	// Output:
	// false Stack of hive bodies
	// true true true
	// coreDepth: The core depth is 0 mm, but must be more than 0. A twentieth of the length is a good first guess.
}

func ExampleStart() {
	d := engine.Start(engine.Workbench, 1500, 650)
	fmt.Println(d.Lengthwise.Count, d.Crosswise.Count, d.CoreDepth, d.Cases[0].Loads[0].Force > 900)
	// Output: 5 9 83 true
}

func ExampleInUnits() {
	f := length.Format{Imperial: true, Denominator: 16}
	fmt.Println(engine.InUnits("Deeper core: 101.6 mm would do.", f))
	// Output: Deeper core: 4" would do.
}

func ExampleWritePacket() {
	d := engine.Demo()
	r, err := engine.Compute(context.Background(), d)
	if err != nil {
		fmt.Println(err)
		return
	}
	f, err := os.CreateTemp("", "packet-*.pdf")
	if err != nil {
		fmt.Println(err)
		return
	}
	defer os.Remove(f.Name())
	defer f.Close()
	err = engine.WritePacket(context.Background(), f, d, r, engine.PacketOptions{Paper: "letter"})
	fmt.Println(err)
	// Output: <nil>
}
