package nest

import "math"

// size is a length in micrometres, kerf included: a part of length l takes
// l + kerf of the l + kerf of a sheet, so that inside the package cuts have no
// width.
type size = int32

// Orientations of a part on a sheet, as bits.
const (
	straight uint8 = 1
	turned   uint8 = 2
)

// kind is all parts that are alike: equal sides and equal grain, from one
// piece or several.
type kind struct {
	l, w  size
	count int
	area  int64 // l·w
	grain Grain
	from  []int // indices of the pieces
}

// store is an entry of the stock, trimmed.
type store struct {
	l, w  size
	limit int // how many there are, or enough for all parts
	price int64
	area  int64
	grain Grain
	ways  []uint8 // per kind, the orientations in which it fits
}

// problem is a job in the package's own numbers.
type problem struct {
	kinds  []kind
	stores []store
	kerf   size
	stages int
	parts  int
	area   int64 // of all parts
}

// micro rounds millimetres to micrometres.
func micro(mm float64) size { return size(math.Round(mm * 1000)) }

// newProblem translates a job that passes Check. It fails with a
// TooLargeError for the first piece that fits nowhere.
func newProblem(j Job) (*problem, error) {
	p := &problem{kerf: micro(j.Kerf), stages: j.Stages}
	of := make([]int, len(j.Pieces))
	for i, piece := range j.Pieces {
		of[i] = p.add(piece, i)
	}
	for _, s := range j.Stock {
		p.stores = append(p.stores, p.store(s))
	}
	for i, piece := range j.Pieces {
		if err := p.tooLarge(j, i, of[i]); err != nil {
			err.ID, err.Length, err.Width = piece.ID, piece.Length, piece.Width
			return nil, err
		}
	}
	for _, k := range p.kinds {
		p.parts += k.count
		p.area += k.area * int64(k.count)
	}
	for t := range p.stores {
		if s := &p.stores[t]; s.limit == 0 || s.limit > p.parts {
			s.limit = p.parts
		}
	}
	return p, nil
}

// add puts a piece into its kind and returns the kind's index.
func (p *problem) add(piece Piece, index int) int {
	l, w := micro(piece.Length)+p.kerf, micro(piece.Width)+p.kerf
	grain := piece.Grain
	if w > l { // a part and the same part named the other way round are one kind
		l, w = w, l
		switch grain {
		case AlongLength:
			grain = AlongWidth
		case AlongWidth:
			grain = AlongLength
		}
	}
	for i := range p.kinds {
		if k := &p.kinds[i]; k.l == l && k.w == w && k.grain == grain {
			k.count += piece.Count
			k.from = append(k.from, index)
			return i
		}
	}
	p.kinds = append(p.kinds, kind{l, w, piece.Count, int64(l) * int64(w), grain, []int{index}})
	return len(p.kinds) - 1
}

// store translates one entry of the stock.
func (p *problem) store(s Sheet) store {
	trim := s.raw()
	st := store{
		l:     micro(s.Length) - trim[low] - trim[high] + p.kerf,
		w:     micro(s.Width) - trim[bottom] - trim[top] + p.kerf,
		limit: s.OnHand,
		price: int64(math.Round(s.Price * 10_000)),
		grain: s.Grain,
	}
	st.area = int64(st.l) * int64(st.w)
	for _, k := range p.kinds {
		st.ways = append(st.ways, p.waysOn(st.l, st.w, s.Grain, k))
	}
	return st
}

// raw returns what is to be trimmed off each edge.
func (s Sheet) raw() [4]size {
	trim := micro(s.Trim)
	if s.Bar {
		return [4]size{low: trim, high: trim}
	}
	return [4]size{trim, trim, trim, trim}
}

// waysOn returns the orientations in which a part of a kind can be cut from a
// sheet. Of a square only one is told.
func (p *problem) waysOn(l, w size, grain Grain, k kind) uint8 {
	var ways uint8
	free := k.grain == NoGrain || grain == NoGrain
	if (free || k.grain == grain) && k.l <= l && k.w <= w && p.allows(l, w, k.l, k.w) {
		ways |= straight
	}
	if (free || k.grain != grain) && k.w <= l && k.l <= w && p.allows(l, w, k.w, k.l) {
		ways |= turned
	}
	if ways == straight|turned && k.l == k.w {
		ways = straight
	}
	return ways
}

// allows reports whether a part of lx by ly alone on a sheet is within the
// limit of stages.
func (p *problem) allows(l, w, lx, ly size) bool {
	need := 0
	if lx < l {
		need++
	}
	if ly < w {
		need++
	}
	return p.stages == 0 || need <= p.stages
}

// tooLarge returns an error for a piece that fits onto no sheet.
func (p *problem) tooLarge(j Job, piece, of int) *TooLargeError {
	for t := range p.stores {
		if p.stores[t].ways[of] != 0 {
			return nil
		}
	}
	e := &TooLargeError{Piece: piece}
	k := p.kinds[of]
	for t, s := range p.stores {
		grain := j.Stock[t].Grain
		free := k.grain == NoGrain || grain == NoGrain
		asIs, round := k.l <= s.l && k.w <= s.w, k.w <= s.l && k.l <= s.w
		switch {
		case asIs && (free || k.grain == grain), round && (free || k.grain != grain):
			e.Stages = true
		case asIs, round:
			e.TurnedWouldFit = true
		}
	}
	if e.Stages {
		e.TurnedWouldFit = false
	}
	return e
}

// sides returns how far a part of a kind reaches along and across the sheet.
func (k *kind) sides(way uint8) (lx, ly size) {
	if way == turned {
		return k.w, k.l
	}
	return k.l, k.w
}
