package verify

import (
	"bytes"
	"fmt"
	"maps"
	"slices"
	"strconv"

	"flatwright/engine"
	"flatwright/engine/catalog"
)

// deck writes a built solid for the solver. spots and probes are the nodes and
// elements that it prints.
func (s *solid) deck(loads []engine.Load, spots, probes []int) []byte {
	var out bytes.Buffer
	forces := make([]map[int]float64, len(loads))
	for i, l := range loads {
		forces[i] = s.press(l)
	}
	heldX, heldY := s.held()
	out.WriteString("*NODE,NSET=ALL\n")
	for id, n := range s.nodes {
		fmt.Fprintf(&out, "%d,%.8g,%.8g,%.8g\n", id+1, s.xs[n.i], s.ys[n.j], s.zs[n.k])
	}
	for set := range sets {
		s.section(&out, set)
	}
	s.springs(&out)
	list(&out, "NSET", "SPOTS", spots)
	list(&out, "ELSET", "PROBES", probes)
	list(&out, "NSET", "HELDX", heldX)
	list(&out, "NSET", "HELDY", heldY)
	out.WriteString("*BOUNDARY\nHELDX,1,1\nHELDY,2,2\n*STEP\n*STATIC,SOLVER=SPOOLES\n*CLOAD\n")
	for _, f := range forces {
		for _, n := range slices.Sorted(maps.Keys(f)) {
			fmt.Fprintf(&out, "%d,3,%.10g\n", n, -f[n])
		}
	}
	out.WriteString("*NODE PRINT,NSET=SPOTS\nU\n*NODE PRINT,NSET=FEET\nU\n")
	if len(probes) > 0 {
		out.WriteString("*EL PRINT,ELSET=PROBES,GLOBAL=YES\nS\n")
	}
	out.WriteString("*END STEP\n")
	return out.Bytes()
}

func list(out *bytes.Buffer, kind, name string, numbers []int) {
	if len(numbers) == 0 {
		return
	}
	fmt.Fprintf(out, "*%s,%s=%s\n", kind, kind, name)
	for _, n := range numbers {
		fmt.Fprintf(out, "%d\n", n)
	}
}

// section writes one set of elements, its material (engineering constants with
// axes 1, 2 in the sheet and 3 through it) and how that lies.
func (s *solid) section(out *bytes.Buffer, set int) {
	d := s.d
	ofSkin := func(k engine.Skin) (catalog.Sheet, string) {
		m, _ := d.Material(k.Material)
		if k.Across {
			return m.At(k.Thickness), "0,1,0,-1,0,0"
		}
		return m.At(k.Thickness), "1,0,0,0,1,0"
	}
	upright := func(key string, thickness float64, along string, turned bool) (catalog.Sheet, string) {
		m, _ := d.Material(key)
		if turned {
			return m.At(thickness), "0,0,1," + along
		}
		return m.At(thickness), along + ",0,0,1"
	}
	var m catalog.Sheet
	var axes, name string
	switch set {
	case bottomSet:
		name = "BOTTOM"
		m, axes = ofSkin(d.BottomSkin)
	case topSet:
		name = "TOP"
		m, axes = ofSkin(d.TopSkin)
	case lengthwiseSet:
		name = "ALONG"
		m, axes = upright(d.Lengthwise.Material, d.Lengthwise.Thickness, "1,0,0", d.Lengthwise.Upright)
	case crosswiseSet:
		name = "ACROSS"
		m, axes = upright(d.Crosswise.Material, d.Crosswise.Thickness, "0,1,0", d.Crosswise.Upright)
	case bandSet:
		name = "BAND"
		m, axes = upright(d.EdgeBand.Material, d.EdgeBand.Thickness, "1,0,0", false)
	case blockSet: // of one material; its grain runs along x
		name = "BLOCK"
		if len(d.Blocks) > 0 {
			m, axes = ofSkin(engine.Skin{Material: d.Blocks[0].Material})
		}
	case shortBandSet:
		name = "SHORTBAND"
		m, axes = upright(d.EdgeBand.Material, d.EdgeBand.Thickness, "0,1,0", false)
	}
	empty := true
	for i, b := range s.bricks {
		if b.set != set {
			continue
		}
		if empty {
			fmt.Fprintf(out, "*ELEMENT,TYPE=C3D8I,ELSET=%s\n", name)
			empty = false
		}
		n := b.nodes
		fmt.Fprintf(out, "%d,%d,%d,%d,%d,%d,%d,%d,%d\n", i+1, n[0], n[1], n[2], n[3], n[4], n[5], n[6], n[7])
	}
	if empty {
		return
	}
	const nu = 0.02 // through the thickness; common practice, no source
	fmt.Fprintf(out, "*MATERIAL,NAME=%s\n*ELASTIC,TYPE=ENGINEERING CONSTANTS\n%g,%g,%g,%g,%g,%g,%g,%g,\n%g\n", name,
		m.EAlong, m.EAcross, m.Through(), m.Nu, nu, nu, m.GEdge, m.GRolling, m.GRolling)
	fmt.Fprintf(out, "*ORIENTATION,NAME=O%s\n%s\n*SOLID SECTION,ELSET=%s,MATERIAL=%s,ORIENTATION=O%s\n", name, axes, name, name, name)
}

// springs writes the pads as springs to ground, one set for each stiffness,
// and the set of their nodes.
func (s *solid) springs(out *bytes.Buffer) {
	groups := map[string][]int{}
	var nodes []int
	for _, f := range s.feet {
		key := strconv.FormatFloat(f.k, 'f', 6, 64)
		groups[key] = append(groups[key], f.node)
		nodes = append(nodes, f.node)
	}
	id := len(s.bricks) // the solver's arrays are as long as the largest number
	for i, k := range slices.Sorted(maps.Keys(groups)) {
		fmt.Fprintf(out, "*ELEMENT,TYPE=SPRING1,ELSET=S%d\n", i)
		for _, n := range groups[k] {
			id++
			fmt.Fprintf(out, "%d,%d\n", id, n)
		}
		fmt.Fprintf(out, "*SPRING,ELSET=S%d\n3\n%s,0.\n", i, k)
	}
	slices.Sort(nodes)
	list(out, "NSET", "FEET", slices.Compact(nodes))
}
