package saw

// pace is how long the steps of a way take, minutes. Common practice, no source.
type pace struct {
	setUp  Range // once: stops, guide, trial slot
	pack   Range // every pack or stack: align, clamp, release
	place  Range // every slot of a pack: move the stop, or go to the next mark
	stroke Range // every stroke of the tool, without the length of the cut
	metre  Range // every metre that it cuts
	after  Range // every slot of every board, by hand
}

// paces has the times of every kind. One practised person; cutting the boards to
// size and marking them out come on top.
var paces = map[Kind]pace{
	RailOnEdge:   {Range{20, 40}, Range{5, 12}, Range{0.5, 1.5}, Range{0.3, 0.6}, Range{0.3, 0.7}, Range{}},
	BenchOnEdge:  {Range{20, 45}, Range{4, 10}, Range{0.3, 1}, Range{0.3, 0.7}, Range{0.3, 0.7}, Range{}},
	RadialOnEdge: {Range{15, 35}, Range{4, 10}, Range{0.3, 1}, Range{0.2, 0.5}, Range{0.3, 0.7}, Range{}},
	RailFlat:     {Range{20, 40}, Range{4, 10}, Range{0.5, 1.5}, Range{0.5, 1}, Range{0.4, 1}, Range{0.1, 0.3}},
	DadoBench:    {Range{30, 60}, Range{4, 10}, Range{0.3, 1}, Range{0.3, 0.7}, Range{0.5, 1.5}, Range{}},
	DadoRadial:   {Range{30, 60}, Range{4, 10}, Range{0.3, 1}, Range{0.3, 0.7}, Range{0.5, 1.5}, Range{}},
	RouterOnEdge: {Range{30, 60}, Range{5, 12}, Range{1, 2}, Range{0.2, 0.5}, Range{0.5, 1.5}, Range{}},
	RouterFlat:   {Range{30, 60}, Range{4, 10}, Range{1, 2}, Range{0.2, 0.5}, Range{0.5, 1.5}, Range{0.5, 1.5}},
	JigFlat:      {Range{5, 15}, Range{2, 5}, Range{0.3, 0.8}, Range{0.3, 0.8}, Range{2, 6}, Range{1, 2.5}},
	HandOnEdge:   {Range{5, 15}, Range{2, 5}, Range{0.3, 0.8}, Range{0.7, 2}, Range{0, 0}, Range{1, 2.5}},
}

// spend works out strokes and minutes of a way that can.
func (w *Way) spend(j Job) {
	p := paces[w.Kind]
	w.Strokes = w.Packs * j.Slots * w.Passes * w.Layers
	cut := float64(w.AtOnce) * j.Thickness // across a pack
	switch w.Kind {
	case RailFlat, RouterFlat, JigFlat:
		cut = j.Depth // into a stack
	}
	w.Minutes = p.setUp.add(p.pack, w.Packs).add(p.place, w.Packs*j.Slots).add(p.stroke, w.Strokes).
		add(p.metre.times(cut/1000), w.Strokes).add(p.after, j.Boards*j.Slots)
}
