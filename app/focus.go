package app

import "flatwright/engine"

// Select picks the part with the given ID, or none if it is "". With a load its
// load case comes into the drawing. A place that was pointed out is so no more.
func (s *Session) Select(part string) {
	s.point(func(f *Focus) {
		f.Part, f.Spot = part, engine.Spot{}
		if loadCase, _, ok := engine.LoadOfPart(part); ok {
			f.Case = loadCase
		}
	})
}

// PickCase brings a load case into the drawing, or the governing one, whichever
// that is, if i is below zero.
func (s *Session) PickCase(i int) { s.point(func(f *Focus) { f.Case = max(i, -1) }) }

// PointOut marks a place of the present result in the drawing and picks its
// part. Pointing it out again takes the mark away.
func (s *Session) PointOut(spot engine.Spot) {
	s.point(func(f *Focus) {
		if f.Spot == spot && f.Of == s.revision {
			spot = engine.Spot{Part: spot.Part}
		}
		f.Part, f.Spot, f.Of = spot.Part, spot, s.revision
	})
}

// spotShown returns the place that is pointed out in the result of a revision.
func (f Focus) spotShown(revision int) engine.Spot {
	if f.Spot.Text == "" || f.Of != revision {
		return engine.Spot{}
	}
	return f.Spot
}

// Hover says which part is under the pointer, "" for none.
func (s *Session) Hover(part string) { s.point(func(f *Focus) { f.Hover = part }) }

// ShowField asks the form to bring the field of that JSON path into view and
// put the cursor there.
func (s *Session) ShowField(field string) { s.point(func(f *Focus) { f.Field = field }) }

// Focus returns what is picked and pointed at now.
func (s *Session) Focus() Focus {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.focus
}

// WatchFocus calls show with the present focus and again after every change.
// Repeating [Session.ShowField] with the same field is told again, since the
// person may have moved away meanwhile.
func (s *Session) WatchFocus(show func(Focus)) {
	s.mu.Lock()
	s.pointers = append(s.pointers, show)
	s.mu.Unlock()
	show(s.Focus())
}

func (s *Session) point(change func(*Focus)) {
	s.mu.Lock()
	before := s.focus
	s.focus.Field = "" // a request holds for one telling
	change(&s.focus)
	same := s.focus == before && s.focus.Field == ""
	s.mu.Unlock()
	if !same {
		s.tellFocus()
	}
}

func (s *Session) tellFocus() {
	s.mu.Lock()
	pointers := s.pointers
	s.mu.Unlock()
	for _, show := range pointers {
		show(s.Focus())
	}
}
