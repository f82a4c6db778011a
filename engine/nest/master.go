package nest

import "math"

// master is the linear programme of the cutting-stock problem: how often to
// cut each pattern so that all parts are there at the least cost, patterns not
// whole numbers. Revised simplex with the inverse of the basis kept as a full
// matrix (Gilmore and Gomory, Oper. Res. 9, 1961; textbook form, from memory).
//
// Rows are the kinds of parts (at least so many), then the entries of the stock
// (at most so many). Its answer needs not be exact: what is made of it is
// weighed again in whole numbers (weights).
type master struct {
	kinds, rows int
	inverse     [][]float64
	basic       []column
	x           []float64 // how often each basic pattern is cut
}

// column is a pattern: how many of each kind it has, and from which sheet.
type column struct {
	counts []int
	store  int   // −1: no pattern, but a part bought ready-made, or a row not used up
	slack  int   // the row that is not used up, or −1
	sheets []int // of one that is no pattern: how many sheets of each entry it gives
	cost   float64
}

// newMaster starts with every part bought, at a cost for each kind that no
// pattern has, and no sheet used.
func newMaster(wanted, limits []int, dear []float64) *master {
	m := &master{kinds: len(wanted), rows: len(wanted) + len(limits)}
	for i := range m.rows {
		row := make([]float64, m.rows)
		row[i] = 1
		m.inverse = append(m.inverse, row)
		if i < m.kinds {
			counts := make([]int, m.kinds)
			counts[i] = 1
			m.basic = append(m.basic, column{counts: counts, store: -1, slack: -1, cost: dear[i]})
			m.x = append(m.x, float64(wanted[i]))
		} else {
			m.basic = append(m.basic, column{store: -1, slack: i})
			m.x = append(m.x, float64(limits[i-m.kinds]))
		}
	}
	return m
}

// settle takes in the slack that saves the most until none does, and returns
// what the rows are worth then.
func (m *master) settle() []float64 {
	d := m.duals()
	for range 4 * m.rows {
		s := m.cheapestSlack(d)
		if s < 0 || !m.enter(column{store: -1, slack: s}) {
			break
		}
		d = m.duals()
	}
	return d
}

// price returns what the present mix costs.
func (m *master) price() float64 {
	sum := 0.0
	for i, c := range m.basic {
		sum += float64(c.cost * m.x[i])
	}
	return sum
}

// duals returns what one more of each row is worth: of a part what it costs
// (0 or more), of a sheet what it saves (0 or less).
func (m *master) duals() []float64 {
	d := make([]float64, m.rows)
	for i, c := range m.basic {
		if c.cost == 0 {
			continue
		}
		for j := range d {
			d[j] += float64(c.cost * m.inverse[i][j])
		}
	}
	return d
}

// column returns the inverse of the basis times a pattern.
func (m *master) column(c column) []float64 {
	u := make([]float64, m.rows)
	for i := range u {
		row := m.inverse[i]
		switch {
		case c.slack >= m.kinds:
			u[i] = row[c.slack]
			continue
		case c.slack >= 0: // more parts than asked for
			u[i] = -row[c.slack]
			continue
		}
		sum := 0.0
		for k, n := range c.counts {
			if n > 0 {
				sum += float64(float64(n) * row[k])
			}
		}
		if c.store >= 0 {
			sum += row[m.kinds+c.store]
		}
		for t, n := range c.sheets {
			sum -= float64(row[m.kinds+t] * float64(n))
		}
		u[i] = sum
	}
	return u
}

// enter takes a pattern into the basis. It reports false where the pattern
// changes nothing.
func (m *master) enter(c column) bool {
	const tiny = 1e-9
	u := m.column(c)
	out, step := -1, math.Inf(1)
	for i, v := range u {
		if v <= tiny {
			continue
		}
		r := m.x[i] / v
		if r < step-tiny || r < step+tiny && out >= 0 && v > u[out] {
			out, step = i, r
		}
	}
	if out < 0 {
		return false
	}
	step = max(step, 0)
	pivot := m.inverse[out]
	for j := range pivot {
		pivot[j] /= u[out]
	}
	for i, v := range u {
		if i == out || v == 0 {
			continue
		}
		row := m.inverse[i]
		for j := range row {
			row[j] -= float64(v * pivot[j])
		}
		m.x[i] = max(m.x[i]-float64(v*step), 0)
	}
	m.x[out] = step
	m.basic[out] = c
	return true
}

// cheapestSlack returns the row whose slack would save the most, or −1.
func (m *master) cheapestSlack(d []float64) int {
	best, least := -1, -1e-9
	for j, v := range d {
		reduced := v // parts above the demand cost what a part is worth
		if j >= m.kinds {
			reduced = -v
		}
		if reduced < least {
			best, least = j, reduced
		}
	}
	return best
}
