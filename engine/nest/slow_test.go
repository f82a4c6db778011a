package nest

import "testing"

// cutter answers by trying every cut at every millimetre and every way to deal
// the parts out to its two sides whether parts can be cut from sheets. It shares
// nothing with the exact search but the question.
type cutter struct {
	sides [][2][2]int // of each part, as it may lie
	ways  []int
	known map[[3]int]bool
}

func newCutter(j Job) *cutter {
	c := &cutter{known: map[[3]int]bool{}}
	for _, p := range j.Pieces {
		for range p.Count {
			l, w := int(p.Length), int(p.Width)
			c.sides = append(c.sides, [2][2]int{{l, w}, {w, l}})
			ways := 2
			if p.Grain == AlongLength && j.Stock[0].Grain == AlongLength {
				ways = 1
			}
			c.ways = append(c.ways, ways)
		}
	}
	return c
}

// fits reports whether the parts of a set of bits can be cut from l by w.
func (c *cutter) fits(set, l, w int) bool {
	if set == 0 {
		return true
	}
	at := [3]int{set, l, w}
	if v, has := c.known[at]; has {
		return v
	}
	v := false
	for i := range c.sides {
		if set == 1<<i {
			for way := range c.ways[i] {
				v = v || c.sides[i][way][0] <= l && c.sides[i][way][1] <= w
			}
			c.known[at] = v
			return v
		}
	}
	for half := (set - 1) & set; half > 0 && !v; half = (half - 1) & set {
		for x := 1; x < l && !v; x++ {
			v = c.fits(half, x, w) && c.fits(set&^half, l-x, w)
		}
		for y := 1; y < w && !v; y++ {
			v = c.fits(half, l, y) && c.fits(set&^half, l, w-y)
		}
	}
	c.known[at] = v
	return v
}

// both reports whether all parts can be cut from two sheets.
func (c *cutter) both(l, w int) bool {
	all := 1<<len(c.sides) - 1
	for half := all; ; half = (half - 1) & all {
		if c.fits(half, l, w) && c.fits(all&^half, l, w) {
			return true
		}
		if half == 0 {
			return false
		}
	}
}

// The exact search agrees with the slow way, alone and with judges who weigh the
// parts in any way whatever, or as a linear programme does.
func TestExactAgainstTheSlowWay(t *testing.T) {
	t.Parallel()
	r := newRandom(41)
	count := map[verdict]int{}
	for round := range rounds(200) {
		l, w := 9+r.below(5), 6+r.below(4)
		j := Job{Stock: []Sheet{{Length: float64(l), Width: float64(w), Grain: Grain(r.below(2))}}}
		sheets := 1 + r.below(2)
		for range 2 + r.below(3) {
			j.add("P", float64(2+r.below(l/2+1)), float64(2+r.below(w/2+1)), 1+r.below(2), Grain(r.below(2)))
		}
		p, err := newProblem(j)
		if err != nil || p.area > 2*p.stores[0].area {
			continue
		}
		c := newCutter(j)
		want := impossible
		if sheets == 1 && c.fits(1<<len(c.sides)-1, l, w) || sheets == 2 && c.both(l, w) {
			want = found
		}
		count[want]++
		work := &work{ctx: t.Context(), limit: 1 << 40}
		for judges := range 3 {
			var all []*judge
			for n := range judges {
				worth, _ := newBounder(p, work, 1<<20).refute([]int{sheets}, 0)
				if n == 0 {
					worth = make([]float64, len(p.kinds))
					for k := range worth {
						worth[k] = r.unit() * r.unit()
					}
				}
				all = append(all, newJudge(p, work, []int{sheets}, worth, [...]int{2000, 1 << 20}[n]))
			}
			e := newExact(p, work, []int{sheets}, all...)
			if judges == 1 { // as where there are too many numbers
				e.curves = book{other: map[choice]int32{}}
			}
			if got, _ := e.decide(); got != want {
				t.Errorf("round %d, %d sheets, %d judges: verdict %d; want %d", round, sheets, judges, got, want)
			}
		}
	}
	if min(count[found], count[impossible]) < rounds(200)/6 {
		t.Errorf("verdicts %v; too few of one to try the other", count)
	}
}

// One of two sheets that stays empty is a layout too: the small one takes none
// of the parts.
func TestExactLeavesASheetEmpty(t *testing.T) {
	t.Parallel()
	for _, first := range [...]int{0, 1} {
		stock := []Sheet{{Length: 100, Width: 100}, {Length: 20, Width: 20, OnHand: 1}}
		stock[0], stock[first] = stock[first], stock[0]
		p, err := newProblem(Job{Stock: stock, Pieces: []Piece{{ID: "A", Length: 60, Width: 50, Count: 2}}})
		if err != nil {
			t.Fatal(err)
		}
		e := newExact(p, &work{ctx: t.Context(), limit: 1 << 40}, []int{1, 1})
		if got, trees := e.decide(); got != found || len(trees) != 2 {
			t.Errorf("small sheet at %d: verdict %d, %d trees; want a layout with one empty", first, got, len(trees))
		}
	}
}

// A counter holds every choice of parts, and tells which is part of which.
func TestChoices(t *testing.T) {
	t.Parallel()
	r := newRandom(47)
	for range 200 {
		p := &problem{}
		for range 1 + r.below(24) {
			p.kinds = append(p.kinds, kind{count: 1 + r.below(6)})
		}
		c, ok := newCounter(p)
		if !ok {
			t.Fatalf("%d kinds do not fit two words", len(p.kinds))
		}
		whole, part, beyond, within := choice{}, choice{}, choice{}, true
		for k := range p.kinds {
			for range p.kinds[k].count {
				whole = whole.plus(c.one(k))
			}
			a, b := r.below(p.kinds[k].count+1), r.below(p.kinds[k].count+1)
			if r.below(4) > 0 {
				b = r.below(p.kinds[k].count - a + 1)
			}
			for range a {
				part = part.plus(c.one(k))
			}
			for range b {
				beyond = beyond.plus(c.one(k))
			}
			within = within && a+b <= p.kinds[k].count
		}
		if n := c.number(whole); c.numbers <= mostNumbers && n != c.numbers-1 || c.number(choice{}) != 0 {
			t.Errorf("%d kinds: all parts have number %d of %d", len(p.kinds), n, c.numbers)
		}
		if whole != c.plain(c.full) || !c.within(part, c.full) || c.within(beyond, c.full.minus(part)) != within {
			t.Errorf("%d kinds: whole %x of %x, within %v; want %v", len(p.kinds), whole, c.full, !within, within)
		}
	}
	if _, ok := newCounter(&problem{kinds: make([]kind, 200)}); ok {
		t.Error("200 kinds of none fit two words")
	}
}
