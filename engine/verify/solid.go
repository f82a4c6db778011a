// Package verify checks the whole-panel model against three-dimensional solid
// finite elements that we did not write: it writes a deck of 8-node bricks with
// incompatible modes for the general-purpose solver CalculiX, runs it, and
// compares sag and reactions.
package verify

import (
	"bufio"
	"bytes"
	"context"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"flatwright/engine"
	"flatwright/engine/catalog"
)

// Mesh says how fine the solids are.
type Mesh struct {
	Plan float64 // largest element in plan, mm
	Skin int     // elements through a skin
	Core int     // elements over the core's height, even
	Rib  int     // elements through a rib
}

// Spot is a place on the top.
type Spot struct{ X, Y float64 }

// solid is the brick model of a design: slots are real gaps without width,
// the two ribs of a lap share no node, both share those of the skins.
type solid struct {
	d          engine.Design
	xs, ys, zs []float64
	low, high  int // z lines of the bottom skin's upper and the top skin's lower face
	mid        int
	ribX       []int // for each y cell the lengthwise rib in it, or -1
	ribY       []int
	ids        map[nodeKey]int
	nodes      []nodeKey
	out        bytes.Buffer
	elements   int
}

type nodeKey struct {
	i, j, k int
	body    uint8 // 1: lengthwise rib, 2: crosswise rib, 0: shared
}

func newSolid(d engine.Design, m Mesh) *solid {
	s := &solid{d: d, ids: map[nodeKey]int{}}
	ys, xs := d.RibPlaces()
	s.xs = s.lines(d.Length, xs, d.Crosswise.Thickness, m, func(l engine.Load) (float64, float64) { return l.X, l.SizeX }, d.Supports.EndInset)
	s.ys = s.lines(d.Width, ys, d.Lengthwise.Thickness, m, func(l engine.Load) (float64, float64) { return l.Y, l.SizeY }, d.Supports.SideInset)
	tb, h, tt := d.BottomSkin.Thickness, d.CoreDepth, d.TopSkin.Thickness
	s.zs = slices.Concat(split(0, tb, m.Skin), split(tb, tb+h, m.Core)[1:], split(tb+h, tb+h+tt, m.Skin)[1:])
	s.low, s.high = m.Skin, m.Skin+m.Core
	s.mid = m.Skin + m.Core/2
	s.ribX = inRib(s.ys, ys, d.Lengthwise.Thickness)
	s.ribY = inRib(s.xs, xs, d.Crosswise.Thickness)
	return s
}

func split(a, b float64, n int) []float64 {
	out := make([]float64, n+1)
	for i := range out {
		out[i] = a + (b-a)*float64(i)/float64(n)
	}
	return out
}

func (s *solid) lines(extent float64, ribs []float64, b float64, m Mesh, load func(engine.Load) (float64, float64), inset float64) []float64 {
	marks := []float64{0, extent, extent / 2}
	for _, r := range ribs {
		marks = append(marks, r-b/2, r+b/2)
	}
	for _, c := range s.d.Cases {
		for _, l := range c.Loads {
			if l.Kind == engine.Patch {
				at, size := load(l)
				marks = append(marks, at-size/2, at, at+size/2)
			}
		}
	}
	half := s.d.Supports.Bearing / 2
	marks = append(marks, inset-half, inset, inset+half, extent-inset-half, extent-inset, extent-inset+half)
	slices.Sort(marks)
	out := []float64{0}
	for _, v := range marks {
		last := out[len(out)-1]
		if v-last < 0.01 || v > extent {
			continue
		}
		n := int(math.Ceil((v-last)/m.Plan - 1e-9))
		for _, r := range ribs {
			if math.Abs((v+last)/2-r) < b/2 {
				n = max(n, m.Rib)
			}
		}
		out = append(out, split(last, v, n)[1:]...)
	}
	return out
}

func inRib(lines, ribs []float64, b float64) []int {
	out := make([]int, len(lines)-1)
	for i := range out {
		out[i] = -1
		at := (lines[i] + lines[i+1]) / 2
		for r, v := range ribs {
			if math.Abs(at-v) < b/2 {
				out[i] = r
			}
		}
	}
	return out
}

// node numbers a node, counting from 1.
func (s *solid) node(i, j, k int, body uint8) int {
	if k <= s.low || k >= s.high {
		body = 0
	}
	key := nodeKey{i, j, k, body}
	id, ok := s.ids[key]
	if !ok {
		s.nodes = append(s.nodes, key)
		id = len(s.nodes)
		s.ids[key] = id
	}
	return id
}

// bodyOf returns the rib that fills a core cell: 1 lengthwise, 2 crosswise, 0
// none. In a lap the lower half is the lengthwise rib's if its slots open
// upwards.
func (s *solid) bodyOf(i, j, k int) uint8 {
	along, across := s.ribX[j] >= 0, s.ribY[i] >= 0
	switch {
	case along && across:
		if (k < s.mid) != s.d.Slots.LengthwiseDown {
			return 1
		}
		return 2
	case along:
		return 1
	case across:
		return 2
	}
	return 0
}

// perpendicular is the modulus through a sheet's thickness, MPa; common
// practice, no source. It hardly matters.
const perpendicular = 600

// material writes engineering constants with axes 1, 2 in the sheet and 3
// through it.
func (s *solid) material(name string, m catalog.Sheet) {
	const nu = 0.02
	fmt.Fprintf(&s.out, "*MATERIAL,NAME=%s\n*ELASTIC,TYPE=ENGINEERING CONSTANTS\n%g,%g,%g,%g,%g,%g,%g,%g,\n%g\n", name,
		m.EAlong, m.EAcross, float64(perpendicular), m.Nu, nu, nu, m.GEdge, m.GRolling, m.GRolling)
}

// deck writes everything; spots are the nodes that are printed.
func (s *solid) deck(spots []Spot, loads []engine.Load) (prints []int) {
	bodies := [4]bytes.Buffer{} // bottom, top, lengthwise, crosswise
	for i := range len(s.xs) - 1 {
		for j := range len(s.ys) - 1 {
			for k := range len(s.zs) - 1 {
				b, set := uint8(0), 0
				switch {
				case k < s.low:
				case k >= s.high:
					set = 1
				default:
					b = s.bodyOf(i, j, k)
					if b == 0 {
						continue
					}
					set = int(b) + 1
				}
				s.elements++
				fmt.Fprintf(&bodies[set], "%d,%d,%d,%d,%d,%d,%d,%d,%d\n", s.elements,
					s.node(i, j, k, b), s.node(i+1, j, k, b), s.node(i+1, j+1, k, b), s.node(i, j+1, k, b),
					s.node(i, j, k+1, b), s.node(i+1, j, k+1, b), s.node(i+1, j+1, k+1, b), s.node(i, j+1, k+1, b))
			}
		}
	}
	springs := s.springs()
	for _, p := range spots {
		i, j := nearest(s.xs, p.X), nearest(s.ys, p.Y)
		prints = append(prints, s.node(i, j, len(s.zs)-1, 0))
	}
	s.out.WriteString("*NODE,NSET=ALL\n")
	for id, n := range s.nodes {
		fmt.Fprintf(&s.out, "%d,%.8g,%.8g,%.8g\n", id+1, s.xs[n.i], s.ys[n.j], s.zs[n.k])
	}
	d := s.d
	for set, name := range [...]string{"BOTTOM", "TOP", "ALONG", "ACROSS"} {
		fmt.Fprintf(&s.out, "*ELEMENT,TYPE=C3D8I,ELSET=%s\n", name)
		s.out.Write(bodies[set].Bytes())
	}
	skin := func(name string, k engine.Skin) {
		m, _ := d.Material(k.Material)
		s.material(name, m.At(k.Thickness))
		axes := "1,0,0,0,1,0"
		if k.Across {
			axes = "0,1,0,-1,0,0"
		}
		fmt.Fprintf(&s.out, "*ORIENTATION,NAME=O%s\n%s\n*SOLID SECTION,ELSET=%s,MATERIAL=%s,ORIENTATION=O%s\n", name, axes, name, name, name)
	}
	skin("BOTTOM", d.BottomSkin)
	skin("TOP", d.TopSkin)
	rib := func(name string, r engine.RibSet, along, up string) {
		m, _ := d.Material(r.Material)
		s.material(name, m.At(r.Thickness))
		axes := along + "," + up
		if r.Upright {
			axes = up + "," + along
		}
		fmt.Fprintf(&s.out, "*ORIENTATION,NAME=O%s\n%s\n*SOLID SECTION,ELSET=%s,MATERIAL=%s,ORIENTATION=O%s\n", name, axes, name, name, name)
	}
	rib("ALONG", d.Lengthwise, "1,0,0", "0,0,1")
	rib("ACROSS", d.Crosswise, "0,1,0", "0,0,1")
	s.out.Write(springs.Bytes())
	a, b := s.node(0, 0, 0, 0), s.node(len(s.xs)-1, 0, 0, 0)
	fmt.Fprintf(&s.out, "*BOUNDARY\n%d,1,2\n%d,2,2\n*STEP\n*STATIC,SOLVER=SPOOLES\n*CLOAD\n", a, b)
	for _, l := range loads {
		s.press(l)
	}
	s.out.WriteString("*NSET,NSET=SPOTS\n")
	for _, n := range prints {
		fmt.Fprintf(&s.out, "%d\n", n)
	}
	s.out.WriteString("*NODE PRINT,NSET=SPOTS\nU\n*NODE PRINT,NSET=FEET\nU\n*END STEP\n")
	return prints
}

func nearest(lines []float64, v float64) int {
	best := 0
	for i, l := range lines {
		if math.Abs(l-v) < math.Abs(lines[best]-v) {
			best = i
		}
	}
	return best
}

// tributary returns the length that a node stands for within lo..hi.
func tributary(lines []float64, i int, lo, hi float64) float64 {
	sum := 0.0
	clip := func(a, b float64) float64 { return max(0, min(b, hi)-max(a, lo)) }
	if i > 0 {
		sum += clip(lines[i-1], lines[i]) / 2
	}
	if i < len(lines)-1 {
		sum += clip(lines[i], lines[i+1]) / 2
	}
	return sum
}

// press writes the nodal forces of a patch on the upper face.
func (s *solid) press(l engine.Load) {
	x0, x1, y0, y1 := l.X-l.SizeX/2, l.X+l.SizeX/2, l.Y-l.SizeY/2, l.Y+l.SizeY/2
	if l.Kind == engine.Uniform {
		x0, x1, y0, y1 = 0, s.d.Length, 0, s.d.Width
	}
	q := l.Force / ((x1 - x0) * (y1 - y0))
	for i := range s.xs {
		for j := range s.ys {
			if f := q * tributary(s.xs, i, x0, x1) * tributary(s.ys, j, y0, y1); f > 0 {
				fmt.Fprintf(&s.out, "%d,3,%.10g\n", s.node(i, j, len(s.zs)-1, 0), -f)
			}
		}
	}
}

// springs writes the pads as springs to ground under the bottom face.
func (s *solid) springs() *bytes.Buffer {
	var b bytes.Buffer
	feet := []int{}
	groups := map[string][]int{}
	for _, p := range s.d.WholePanel(1).Pads {
		for i := range s.xs {
			for j := range s.ys {
				k := p.K * tributary(s.xs, i, p.X-p.SX/2, p.X+p.SX/2) * tributary(s.ys, j, p.Y-p.SY/2, p.Y+p.SY/2)
				if k > 0 {
					n := s.node(i, j, 0, 0)
					key := strconv.FormatFloat(k, 'f', 6, 64)
					groups[key] = append(groups[key], n)
					feet = append(feet, n)
				}
			}
		}
	}
	keys := make([]string, 0, len(groups))
	for k := range groups {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	id := s.elements // the solver's arrays are as long as the largest number
	for i, k := range keys {
		fmt.Fprintf(&b, "*ELEMENT,TYPE=SPRING1,ELSET=S%d\n", i)
		for _, n := range groups[k] {
			id++
			fmt.Fprintf(&b, "%d,%d\n", id, n)
		}
		fmt.Fprintf(&b, "*SPRING,ELSET=S%d\n3\n%s,0.\n", i, k)
	}
	b.WriteString("*NSET,NSET=FEET\n")
	slices.Sort(feet)
	for _, n := range slices.Compact(feet) {
		fmt.Fprintf(&b, "%d\n", n)
	}
	return &b
}

// Answer is what the solids say, mm and N, positive down.
type Answer struct {
	Down     []float64 // at the spots, settlement included
	Nodes    int
	Elements int
}

// Solve runs the solver on a design under loads that act together, with pads
// that also pull.
func Solve(ctx context.Context, d engine.Design, loads []engine.Load, spots []Spot, m Mesh) (Answer, error) {
	s := newSolid(d, m)
	prints := s.deck(spots, loads)
	dir, err := os.MkdirTemp("", "solid")
	if err != nil {
		return Answer{}, err
	}
	if os.Getenv("KEEPDECK") == "" {
		defer os.RemoveAll(dir)
	} else {
		fmt.Println(dir)
	}
	if err := os.WriteFile(filepath.Join(dir, "panel.inp"), s.out.Bytes(), 0o644); err != nil {
		return Answer{}, err
	}
	run := exec.CommandContext(ctx, "ccx", "panel")
	run.Dir = dir
	run.Env = append(os.Environ(), "OMP_NUM_THREADS=2")
	if out, err := run.CombinedOutput(); err != nil {
		return Answer{}, fmt.Errorf("run ccx: %w: %s", err, tail(out))
	}
	u, err := readDisplacements(filepath.Join(dir, "panel.dat"))
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Nodes: len(s.nodes), Elements: s.elements}
	for _, n := range prints {
		w, ok := u[n]
		if !ok {
			return a, fmt.Errorf("node %d is not in the solver's answer", n)
		}
		a.Down = append(a.Down, -w)
	}
	return a, nil
}

func tail(b []byte) string {
	if len(b) > 600 {
		b = b[len(b)-600:]
	}
	return string(b)
}

// readDisplacements reads the uz of every printed node.
func readDisplacements(path string) (map[int]float64, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	u := map[int]float64{}
	sc := bufio.NewScanner(f)
	for sc.Scan() {
		w := strings.Fields(sc.Text())
		if len(w) != 4 {
			continue
		}
		n, err1 := strconv.Atoi(w[0])
		z, err2 := strconv.ParseFloat(w[3], 64)
		if err1 == nil && err2 == nil {
			u[n] = z
		}
	}
	return u, sc.Err()
}
