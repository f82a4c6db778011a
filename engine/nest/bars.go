package nest

// boundBars finds proofs and answers for a job of bars.
func (s *solver) boundBars() {
	s.bounds = &bounder{p: s.p, w: s.w, proofs: []weights{byArea(s.p)}}
	limits, prices, lengths, ones := make([]int, len(s.p.stores)), []float64{}, []float64{}, []float64{}
	paid := false
	for t := range s.p.stores {
		st := &s.p.stores[t]
		limits[t] = st.limit
		prices = append(prices, float64(st.price)/1e4)
		lengths = append(lengths, float64(st.area)/float64(s.p.area))
		ones = append(ones, 1)
		paid = paid || st.price > 0
	}
	wanted := s.p.wanted()
	cost := lengths
	if paid {
		cost = prices
	}
	s.bars.relax(wanted, limits, cost, &s.bounds.proofs)
	if len(limits) > 1 {
		for _, other := range [...][]float64{ones, lengths} {
			s.bars.relabel(other)
			s.bars.relax(wanted, limits, other, &s.bounds.proofs)
		}
		s.bars.relabel(cost)
	}
	chance := 0.0
	for !s.proven() && s.w.more(1) {
		s.offerDive(s.bars.dive(wanted, limits, cost, chance))
		chance = 0.5
	}
}

// relabel gives the patterns found so far other costs.
func (n *linear) relabel(cost []float64) {
	for i := range n.pool {
		n.pool[i].cost = cost[n.pool[i].store]
	}
}

// offerDive takes a dive's answer if it holds all parts.
func (s *solver) offerDive(layouts []*tree) {
	left := s.p.wanted()
	for _, t := range layouts {
		for i := range t.nodes {
			if t.nodes[i].a == none {
				left[t.nodes[i].kind]--
			}
		}
	}
	var hand []int32
	for k, n := range left {
		for range n {
			hand = append(hand, int32(k))
		}
	}
	s.offer(layouts, hand)
}
