package nest

import "math/bits"

// choice is so many parts of each kind, counted side by side in two words. Above
// each count stands a bit of guard, so that one choice is part of another where
// none of its counts borrows from the guard of the other's.
type choice [2]uint64

// places of counts in a choice.
type counter struct {
	word, shift []int
	guard       choice
	full        choice // all parts, with the guard
}

// newCounter reports false where the counts of the kinds do not fit.
func newCounter(p *problem) (*counter, bool) {
	c := &counter{}
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

// plain takes the guard off.
func (c *counter) plain(a choice) choice {
	return choice{a[0] &^ c.guard[0], a[1] &^ c.guard[1]}
}
