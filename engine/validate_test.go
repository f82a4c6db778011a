package engine

// testTop is a plain design without problems: an assembly table on four legs
// with half a person's weight at its middle. The figures are invented.
func testTop() Design {
	return Design{
		Name:       "Test top",
		Use:        AssemblyTable,
		Length:     1800,
		Width:      750,
		Height:     880,
		TopSkin:    Skin{Material: "birch-plywood", Thickness: 9},
		BottomSkin: Skin{Material: "birch-plywood", Thickness: 9},
		CoreDepth:  76,
		Lengthwise: RibSet{Material: "birch-plywood", Thickness: 12, Thickest: 12.2, Count: 5},
		Crosswise:  RibSet{Material: "birch-plywood", Thickness: 12, Thickest: 12.2, Count: 11},
		Slots:      Slots{Clearance: 0.2, Relief: 1},
		Supports:   Supports{Kind: FourLegs, EndInset: 150, SideInset: 100, Bearing: 60},
		Cases: []LoadCase{{
			Name:     "Leaning on the middle",
			Duration: ShortTerm,
			Loads:    []Load{{Name: "Person", Kind: Patch, Force: 490.33, X: 900, Y: 375, SizeX: 300, SizeY: 300}},
		}},
		Limits: Limits{Sag: 0.25, Mass: 50},
		Glue:   "pva-d3",
		Shop:   Shop{Temperature: 20, People: 2, Start: "2026-05-02T09:00"},
	}
}
