package nest

import "fmt"

// workshopJob makes up the parts of a hollow top: two skins, ribs of two
// lengths, edge bands, blocks and now and then splice plates; and a stock of
// one or two sheet sizes, with or without offcuts. The sizes of sheets are the
// common ones (reference.md I, from memory); all else is invented.
func workshopJob(seed int) Job {
	r := newRandom(uint64(seed) + 1)
	between := func(low, high int) float64 { return float64(low + r.below(high-low+1)) }
	sheets := [...][2]float64{{2440, 1220}, {2500, 1250}, {2800, 2070}, {1525, 1525}, {2440, 1220}, {2500, 1250}}
	pick := sheets[r.below(len(sheets))]
	j := Job{Kerf: between(16, 40) / 10, UsefulLength: 300, UsefulWidth: 100}
	grain := NoGrain
	if r.below(10) < 7 {
		grain = AlongLength
	}
	trim := [...]float64{0, 0, 5, 8}[r.below(4)]
	j.Stock = []Sheet{{Name: "sheet", Length: pick[0], Width: pick[1], Trim: trim, Price: between(30, 120), Grain: grain}}
	usable := [2]float64{pick[0] - 2*trim, pick[1] - 2*trim}

	length := min(between(900, 2400), usable[0])
	width := min(between(450, 1000), usable[1])
	depth := between(50, 140)
	thick := between(9, 18)
	skins := 2
	if r.below(6) == 0 {
		skins = 1
	}
	j.add("S", length, width, skins, AlongLength)
	j.add("L", length-2*thick, depth, 2+r.below(5), AlongLength)
	j.add("C", width-2*thick, depth, 3+r.below(10), AlongLength)
	if r.below(2) == 0 {
		j.add("E", length, depth+2*thick, 2, AlongLength)
		j.add("F", width-2*thick, depth+2*thick, 2, AlongLength)
	}
	if n := r.below(9); n > 0 {
		j.add("B", between(80, 260), between(80, 200), n, NoGrain)
	}
	if n := r.below(4); n > 0 {
		j.add("P", width-2*thick, between(90, 160), n, NoGrain)
	}
	for range r.below(4) {
		j.add(fmt.Sprint("X", len(j.Pieces)), between(150, 900), between(40, 400), 1+r.below(4), NoGrain)
	}
	if r.below(3) == 0 {
		for range 1 + r.below(3) {
			j.Stock = append(j.Stock, Sheet{Name: "offcut", Length: between(400, 1800), Width: between(150, 900), OnHand: 1, Offcut: true, Grain: grain})
		}
	}
	if r.below(4) == 0 {
		j.Stock = append(j.Stock, Sheet{Name: "half", Length: pick[0], Width: float64(int(pick[1] / 2)), Trim: trim, Price: j.Stock[0].Price * 0.6, Grain: grain})
	}
	return j
}

// manyTops is the parts of several tops, 300 or a few more, from the stock of
// the first.
func manyTops(seed int) Job {
	j := workshopJob(seed)
	for i := 1; j.count() < 300; i++ {
		j.addTop(workshopJob(seed+1000*i), 1000)
	}
	return j
}

// busyJob is a top and as much of others as makes it 45 to 60 parts.
func busyJob(seed int) Job {
	j := workshopJob(seed)
	for i := 1; j.count() < 45; i++ {
		j.addTop(workshopJob(seed+1000*i), 60)
	}
	return j
}

func (j *Job) count() (n int) {
	for _, p := range j.Pieces {
		n += p.Count
	}
	return n
}

// addTop adds the pieces of another job that fit the sheets of this one, as
// long as there are no more than most parts.
func (j *Job) addTop(other Job, most int) {
	for _, p := range other.Pieces {
		if p.Length < j.Stock[0].Length-20 && p.Width < j.Stock[0].Width-20 && j.count()+p.Count <= most {
			j.Pieces = append(j.Pieces, p)
		}
	}
}

// add appends a piece to the job.
func (j *Job) add(id string, length, width float64, count int, grain Grain) {
	j.Pieces = append(j.Pieces, Piece{ID: id, Length: length, Width: width, Count: count, Grain: grain})
}

// guillotined makes parts by cutting sheets at random, so that they are known
// to fit onto count sheets; each then loses a little of its sides, up to loss
// of them.
func guillotined(seed, count, parts int, loss float64) Job {
	r := newRandom(uint64(seed) + 77)
	j := Job{Stock: []Sheet{{Name: "sheet", Length: 2440, Width: 1220, Price: 1}}, Kerf: 3}
	type box struct{ l, w float64 }
	var boxes []box
	for range count {
		boxes = append(boxes, box{2440, 1220})
	}
	for tries := 0; len(boxes) < parts && tries < 10000; tries++ {
		i := r.below(len(boxes))
		b := boxes[i]
		if b.l*b.w < 0.5*2440*1220*float64(count)/float64(parts) {
			continue
		}
		f := 0.2 + 0.6*r.unit()
		if r.below(int(b.l+b.w)) < int(b.l) {
			at := float64(int(f * b.l))
			boxes[i] = box{at, b.w}
			boxes = append(boxes, box{b.l - at - j.Kerf, b.w})
		} else {
			at := float64(int(f * b.w))
			boxes[i] = box{b.l, at}
			boxes = append(boxes, box{b.l, b.w - at - j.Kerf})
		}
	}
	for i, b := range boxes {
		j.add(fmt.Sprint("Q", i), b.l*(1-loss*r.unit()), b.w*(1-loss*r.unit()), 1, NoGrain)
	}
	return j
}
