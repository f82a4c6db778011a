package verify

import (
	"bytes"
	"math"
	"strconv"
	"strings"
	"testing"

	"flatwright/engine"
	"flatwright/engine/plate"
)

var coarse = finer(0.3)

// built builds all of a case, symmetric or not.
func built(c Case) *solid {
	c.Same = Symmetry{}
	s := newSolid(c, coarse)
	s.build()
	return s
}

// at returns where a node is.
func (s *solid) at(node int) [3]float64 {
	n := s.nodes[node-1]
	return [3]float64{s.xs[n.i], s.ys[n.j], s.zs[n.k]}
}

// volume of a brick; the corners of a box whose edges run along the axes.
func (s *solid) volume(b brick) float64 {
	o := s.at(b.nodes[0])
	var e [3][3]float64
	for q, n := range [3]int{1, 3, 4} {
		p := s.at(b.nodes[n])
		for r := range 3 {
			e[q][r] = p[r] - o[r]
		}
	}
	return e[0][0]*(e[1][1]*e[2][2]-e[1][2]*e[2][1]) - e[0][1]*(e[1][0]*e[2][2]-e[1][2]*e[2][0]) + e[0][2]*(e[1][0]*e[2][1]-e[1][1]*e[2][0])
}

func near(a, b, share float64) bool { return math.Abs(a-b) <= share*math.Abs(b) }

// Every brick has eight nodes of its own and a volume, and the parts add up to
// those of the design (by hand: the sheets' own sizes less half a lap at every
// crossing for each of both ribs).
func TestBricksFillTheParts(t *testing.T) {
	t.Parallel()
	for _, c := range Cases() {
		s := built(c)
		var sum [sets]float64
		for i, b := range s.bricks {
			seen := map[int]bool{}
			for _, n := range b.nodes {
				seen[n] = true
			}
			v := s.volume(b)
			if len(seen) != 8 || !(v > 0) {
				t.Fatalf("%s: brick %d has %d different nodes and a volume of %g", c.Name, i+1, len(seen), v)
			}
			sum[b.set] += v
		}
		d, tb := c.Design, c.Design.EdgeBand.Thickness
		ys, xs := d.RibPlaces()
		l, w, h := d.Length-2*tb, d.Width-2*tb, d.CoreDepth
		laps := float64(len(ys)*len(xs)) * d.Lengthwise.Thickness * d.Crosswise.Thickness * h / 2
		depth, blocks := d.TotalDepth(), 0.0
		for _, b := range d.Blocks { // a bay's clear space
			blocks += (xs[b.Column+1] - xs[b.Column] - d.Crosswise.Thickness) * (ys[b.Row+1] - ys[b.Row] - d.Lengthwise.Thickness) * h
		}
		for set, want := range [sets]float64{l * w * d.BottomSkin.Thickness, l * w * d.TopSkin.Thickness,
			float64(len(ys))*l*h*d.Lengthwise.Thickness - laps, float64(len(xs))*w*h*d.Crosswise.Thickness - laps,
			2 * d.Length * tb * depth, 2 * w * tb * depth, blocks} {
			if !near(sum[set], want, 1e-9) {
				t.Errorf("%s: set %d holds %.6g mm³, want %.6g", c.Name, set, sum[set], want)
			}
		}
	}
}

// nodesOf returns the nodes of a set of bricks, in the core's inside or at the
// glue lines.
func (s *solid) nodesOf(set int, inside bool) map[int]bool {
	out := map[int]bool{}
	for _, b := range s.bricks {
		for _, n := range b.nodes {
			if k := s.nodes[n-1].k; b.set == set && inside == (k > s.low && k < s.high) {
				out[n] = true
			}
		}
	}
	return out
}

func common(a, b map[int]bool) (n int) {
	for k := range a {
		if b[k] {
			n++
		}
	}
	return n
}

func TestRibsMeetOnlyAtSkinsUnlessGlued(t *testing.T) {
	t.Parallel()
	for _, c := range Cases() {
		s := built(c)
		along, across := s.nodesOf(lengthwiseSet, true), s.nodesOf(crosswiseSet, true)
		if n := common(along, across); (n > 0) != c.Glued {
			t.Errorf("%s: %d nodes inside the core belong to ribs of both ways, laps glued: %v", c.Name, n, c.Glued)
		}
		for _, set := range []int{bandSet, shortBandSet} {
			bands := s.nodesOf(set, true)
			if n := common(bands, along) + common(bands, across); n > 0 {
				t.Errorf("%s: %d nodes inside the core belong to a rib and a band", c.Name, n)
			}
			if tb := c.Design.EdgeBand.Thickness; (tb > 0) != (len(bands) > 0) {
				t.Errorf("%s: a band of %.0f mm has %d nodes", c.Name, tb, len(bands))
			}
		}
		blocks := s.nodesOf(blockSet, true)
		if n := common(blocks, along) + common(blocks, across); n > 0 || (len(blocks) > 0) != (len(c.Design.Blocks) > 0) {
			t.Errorf("%s: %d nodes inside the core belong to a block, %d of them to a rib as well", c.Name, len(blocks), n)
		}
		for _, rib := range []int{lengthwiseSet, crosswiseSet} {
			edges := s.nodesOf(rib, false)
			skins := s.nodesOf(topSet, false)
			for n := range s.nodesOf(bottomSet, false) {
				skins[n] = true
			}
			if n := common(edges, skins); n != len(edges) || n == 0 {
				t.Errorf("%s: of %d nodes on the edges of ribs of set %d, %d are glued to a skin", c.Name, len(edges), rib, n)
			}
		}
	}
}

// In a lap the rib whose slots open upwards has the lower half.
func TestLapHalves(t *testing.T) {
	t.Parallel()
	for _, down := range []bool{false, true} {
		c := Cases()[0]
		c.Design.Slots.LengthwiseDown = down
		s := built(c)
		ys, xs := c.Design.RibPlaces()
		found := 0
		for _, b := range s.bricks {
			x, y := (s.xs[b.i]+s.xs[b.i+1])/2, (s.ys[b.j]+s.ys[b.j+1])/2
			if math.Abs(x-xs[1]) > c.Design.Crosswise.Thickness/2 || math.Abs(y-ys[1]) > c.Design.Lengthwise.Thickness/2 || b.k < s.low || b.k >= s.high {
				continue
			}
			found++
			if lower := s.zs[b.k] < c.Design.BottomSkin.Thickness+c.Design.CoreDepth/2-1; (b.set == lengthwiseSet) != (lower != down) {
				t.Errorf("slots downwards %v: the brick at height %.0f belongs to set %d", down, s.zs[b.k], b.set)
			}
		}
		if found == 0 {
			t.Error("no brick lies in the lap")
		}
	}
}

// Both sides of a seam have nodes of their own except where a rib crosses it.
func TestSeamDoublesNodes(t *testing.T) {
	t.Parallel()
	seen := 0
	for _, c := range Cases() {
		if len(c.Seams) == 0 {
			continue
		}
		seen++
		v := c.Seams[0]
		s, whole := built(c), c
		sides := [2]map[int]bool{{}, {}}
		lines, mid := s.xs, func(b brick) float64 { return (s.xs[b.i] + s.xs[b.i+1]) / 2 }
		if v.AlongX {
			lines, mid = s.ys, func(b brick) float64 { return (s.ys[b.j] + s.ys[b.j+1]) / 2 }
		}
		line := nearest(lines, v.At)
		if lines[line] != v.At {
			t.Fatalf("%s: no grid line on the seam, the nearest is at %.2f", c.Name, lines[line])
		}
		for _, b := range s.bricks {
			if b.set != bottomSet {
				continue
			}
			for _, n := range b.nodes {
				side := 0
				if mid(b) > v.At {
					side = 1
				}
				sides[side][n] = true
			}
		}
		ys, xs := c.Design.RibPlaces()
		crossing, half := ys, c.Design.Lengthwise.Thickness/2
		under, width := xs, c.Design.Crosswise.Thickness
		if v.AlongX {
			crossing, half = xs, c.Design.Crosswise.Thickness/2
			under, width = ys, c.Design.Lengthwise.Thickness
		}
		glued, other := 0, s.ys
		if v.AlongX {
			other = s.xs
		}
		for _, at := range other {
			for _, r := range crossing {
				if math.Abs(at-r) < half+1e-6 {
					glued++
					break
				}
			}
		}
		for _, r := range under {
			if math.Abs(r-v.At) < width/2 { // a rib runs along the seam
				glued = len(other)
			}
		}
		if n := common(sides[0], sides[1]); n != glued {
			t.Errorf("%s: %d nodes hold both sides of the seam, want the %d on the ribs' glue lines", c.Name, n, glued)
		}
		// The seam doubles the rest of the nodes on its line.
		whole.Seams = nil
		for _, v := range c.Seams {
			v.Top = true
			whole.Seams = append(whole.Seams, v)
		}
		if a, b := len(built(whole).nodes), len(s.nodes); a != b {
			t.Errorf("%s: %d nodes with the seam in the top skin, %d in the bottom one", c.Name, a, b)
		}
		whole.Seams = nil
		// Two seams lie alike on both sides of the middle.
		if more, want := len(s.nodes)-len(newOnSame(whole, c.Seams).nodes), len(c.Seams)*(len(other)*(s.low+1)-glued); more != want {
			t.Errorf("%s: the seams add %d nodes, want %d", c.Name, more, want)
		}
	}
	if seen < 2 {
		t.Errorf("%d cases have a seam, want one along and one across", seen)
	}
}

// newOnSame builds a case without seams on the grid lines of the one with them.
func newOnSame(c Case, v []plate.Seam) *solid {
	c.Same = Symmetry{}
	s := newSolid(c.with(c.Glued, v...), coarse)
	s.c = c
	s.build()
	return s
}

// cards returns the data lines that follow every keyword line that begins with
// key.
func cards(deck []byte, key string) (out [][]string) {
	in := false
	for _, line := range strings.Split(string(deck), "\n") {
		switch {
		case strings.HasPrefix(line, "*"):
			in = strings.HasPrefix(line, key)
		case in && line != "":
			out = append(out, strings.Split(line, ","))
		}
	}
	return out
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// The deck's nodal forces are the loads, and turn about both axes as they do.
// Its springs are the pads: bed stiffness times the area on the panel.
func TestDeckBalances(t *testing.T) {
	t.Parallel()
	for _, c := range Cases() {
		s := built(c)
		deck := s.deck(c.loads(), []int{1}, []int{1})
		var f, fx, fy float64
		for _, w := range cards(deck, "*CLOAD") {
			p, v := s.at(int(number(t, w[0]))), number(t, w[2])
			couple := len(c.Design.Blocks) > 0 && p[2] == c.Design.BottomSkin.Thickness // half of it
			if w[1] != "3" || p[2] != c.Design.TotalDepth() && !couple {
				t.Fatalf("%s: force %v acts at height %.1f", c.Name, w, p[2])
			}
			f, fx, fy = f-v, fx-v*p[0], fy-v*p[1]
		}
		var want, wantX, wantY float64
		for _, l := range c.loads() {
			x, y := l.X, l.Y
			switch l.Kind {
			case engine.Uniform:
				x, y = c.Design.Length/2, c.Design.Width/2
			case engine.Couple: // the upper force points left: down at the left, forces times arm
				if l.Pull != engine.PullLeft {
					t.Fatalf("%s pulls %v", c.Name, l.Pull)
				}
				wantX -= l.Force * l.Arm
				continue
			}
			want, wantX, wantY = want+l.Force, wantX+l.Force*x, wantY+l.Force*y
		}
		if !near(f, want, 1e-7) || !near(fx, wantX, 1e-6) || !near(fy, wantY, 1e-6) {
			t.Errorf("%s: forces %.6g N, moments %.6g and %.6g N·mm; want %.6g, %.6g, %.6g", c.Name, f, fx, fy, want, wantX, wantY)
		}
		var k, area float64
		springs := cards(deck, "*ELEMENT,TYPE=SPRING1")
		for i, each := range bytes.Split(deck, []byte("*ELEMENT,TYPE=SPRING1"))[1:] {
			own := cards(append([]byte("*ELEMENT,TYPE=SPRING1"), each...), "*ELEMENT,TYPE=SPRING1")
			law := cards(each, "*SPRING,ELSET=S"+strconv.Itoa(i))
			if len(law) != 2 || law[0][0] != "3" {
				t.Fatalf("%s: spring set %d has the law %v", c.Name, i, law)
			}
			k += float64(len(own)) * number(t, law[1][0])
		}
		for _, p := range c.panel(1).Pads {
			x := min(p.X+p.SX/2, c.Design.Length) - max(p.X-p.SX/2, 0)
			y := min(p.Y+p.SY/2, c.Design.Width) - max(p.Y-p.SY/2, 0)
			area += x * y * p.K
		}
		if !near(k, area, 1e-6) || len(springs) != len(s.feet) {
			t.Errorf("%s: %d springs of %.8g N/mm together, want %d of %.8g", c.Name, len(springs), k, len(s.feet), area)
		}
		if n := len(cards(deck, "*NODE,")); n != len(s.nodes) {
			t.Errorf("%s: the deck lists %d nodes of %d", c.Name, n, len(s.nodes))
		}
		if n := len(cards(deck, "*ELEMENT,TYPE=C3D8I")); n != len(s.bricks) {
			t.Errorf("%s: the deck lists %d bricks of %d", c.Name, n, len(s.bricks))
		}
	}
}

// Materials lie as the sheets do: axis 1 of a sheet along its face grain.
func TestDeckMaterials(t *testing.T) {
	t.Parallel()
	c := Cases()[0]
	c.Design.TopSkin.Across, c.Design.Crosswise.Upright = true, true
	c.Design.EdgeBand = engine.EdgeBand{Material: "ply", Thickness: 12}
	s := built(c)
	deck := string(s.deck(c.loads(), []int{1}, nil))
	for name, want := range map[string]string{"BOTTOM": "1,0,0,0,1,0", "TOP": "0,1,0,-1,0,0", "ALONG": "1,0,0,0,0,1", "ACROSS": "0,0,1,0,1,0", "BAND": "1,0,0,0,0,1", "SHORTBAND": "0,1,0,0,0,1"} {
		if !strings.Contains(deck, "*ORIENTATION,NAME=O"+name+"\n"+want+"\n*SOLID SECTION,ELSET="+name+",MATERIAL="+name+",ORIENTATION=O"+name+"\n") {
			t.Errorf("set %s does not lie along %s", name, want)
		}
	}
	// E1, E2, E3, ν12, ν13, ν23, G12, G13, G23 of the cases' ply.
	if !strings.Contains(deck, "*MATERIAL,NAME=BAND\n*ELASTIC,TYPE=ENGINEERING CONSTANTS\n9000,7000,600,0.08,0.02,0.02,620,70,\n70\n") {
		t.Error("the band is not of the cases' ply")
	}
	if strings.Contains(deck, "*EL PRINT") {
		t.Error("stresses are asked for of no element")
	}
}
