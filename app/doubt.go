package app

import "slices"

// doubt is a field whose text cannot be read.
type doubt struct{ path, label string }

// Doubt says that the text in the field of a path cannot be read, or that it can
// be again.
func (s *Session) Doubt(path, label string, doubted bool) {
	s.mu.Lock()
	i := slices.IndexFunc(s.unread, func(d doubt) bool { return d.path == path })
	changed := doubted != (i >= 0)
	switch {
	case !changed:
	case doubted:
		s.unread = append(s.unread, doubt{path, label})
	default:
		s.unread = slices.Delete(s.unread, i, i+1)
	}
	s.mu.Unlock()
	if changed {
		s.post(s.tell) // a view may be in the middle of showing
	}
}
