package app

import "flatwright/engine"

// Select picks the part with the given ID, or none if it is "". With a load its
// load case comes into the drawing.
func (s *Session) Select(part string) {
	s.point(func(f *Focus) {
		f.Part = part
		if loadCase, _, ok := engine.LoadOfPart(part); ok {
			f.Case = loadCase
		}
	})
}

// PickCase brings a load case into the drawing, or the governing one, whichever
// that is, if i is below zero.
func (s *Session) PickCase(i int) { s.point(func(f *Focus) { f.Case = max(i, -1) }) }

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
