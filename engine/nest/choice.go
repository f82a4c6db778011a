package nest

import "math/bits"

// choice is so many parts of each kind, counted side by side in two words. Above
// each count stands a bit of guard, so that one choice is part of another where
// none of its counts borrows from the guard of the other's.
type choice [2]uint64

// counter knows where the counts of the kinds stand in a choice.
type counter struct {
	word, shift []int
	stride      []int // of each kind in a choice's number
	numbers     int   // how many numbers there are, or one more than mostNumbers
	guard       choice
	full        choice // all parts, with the guard
}

// newCounter reports false where the counts of the kinds do not fit.
func newCounter(p *problem) (*counter, bool) {
	c := &counter{numbers: 1}
	word, at := 0, 0
	for k := range p.kinds {
		width := bits.Len(uint(p.kinds[k].count)) + 1
		if at+width > 64 {
			word, at = word+1, 0
		}
		if word == len(c.guard) || width > 64 {
			return nil, false
		}
		c.word, c.shift = append(c.word, word), append(c.shift, at)
		c.stride = append(c.stride, c.numbers)
		c.numbers = min(c.numbers*(p.kinds[k].count+1), mostNumbers+1)
		c.full[word] |= uint64(p.kinds[k].count) << at
		at += width
		c.guard[word] |= 1 << (at - 1)
	}
	c.full[0] |= c.guard[0]
	c.full[1] |= c.guard[1]
	return c, true
}

// one returns the choice of a single part.
func (c *counter) one(k int) choice {
	var a choice
	a[c.word[k]] = 1 << c.shift[k]
	return a
}

func (a choice) plus(b choice) choice  { return choice{a[0] + b[0], a[1] + b[1]} }
func (a choice) minus(b choice) choice { return choice{a[0] - b[0], a[1] - b[1]} }

// within reports whether a choice is part of a whole that carries its guard.
func (c *counter) within(a, whole choice) bool {
	return (whole[0]-a[0])&c.guard[0] == c.guard[0] && (whole[1]-a[1])&c.guard[1] == c.guard[1]
}

// number returns the number of a choice without guard, as far as there are any.
func (c *counter) number(a choice) int {
	sum := 0
	for k, at := range c.shift {
		end := 64
		if k+1 < len(c.shift) && c.word[k+1] == c.word[k] {
			end = c.shift[k+1]
		}
		sum += c.stride[k] * int(a[c.word[k]]<<(64-end)>>(64-end+at))
	}
	return sum
}

// plain takes the guard off.
func (c *counter) plain(a choice) choice {
	return choice{a[0] &^ c.guard[0], a[1] &^ c.guard[1]}
}

// book finds the curve of a choice: by its number where there are not too many
// numbers, which is faster, or in a map.
type book struct {
	all    []*curve
	places []int32 // in all and one more, by number; 0 where there is none
	other  map[choice]int32
}

const mostNumbers = 4 << 20

func newBook(count *counter) book {
	var b book
	if count.numbers <= mostNumbers {
		b.places = make([]int32, count.numbers)
	} else {
		b.other = map[choice]int32{}
	}
	return b
}

// of returns the curve of a choice with its number, or nil.
func (b *book) of(a choice, number int) *curve {
	var at int32
	if b.places != nil {
		at = b.places[number]
	} else {
		at = b.other[a]
	}
	if at == 0 {
		return nil
	}
	return b.all[at-1]
}

// enter takes a curve that is not there yet.
func (b *book) enter(c *curve) {
	b.all = append(b.all, c)
	if b.places != nil {
		b.places[c.number] = int32(len(b.all))
	} else {
		b.other[c.of] = int32(len(b.all))
	}
}
