package engine

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"
	"unicode/utf8"
)

// maxNesting bounds how deep a design file may be nested. Ours go six deep
// (common practice, no source).
const maxNesting = 64

// scanner steps through the text of a JSON document. It knows where it is, so
// that whatever is wrong can be pointed at, which encoding/json does not.
type scanner struct {
	data  []byte
	at    int // offset of the next byte
	depth int // of open objects and lists
	path  []pathStep
}

// pathStep is one step to the value being read: a key, or an index if the key
// is not set.
type pathStep struct {
	key   string
	keyed bool
	index int
}

// field returns the path of the value being read.
func (s *scanner) field() string {
	path := ""
	for _, step := range s.path {
		if step.keyed {
			path = join(path, step.key)
		} else {
			path = fmt.Sprintf("%s[%d]", path, step.index)
		}
	}
	return path
}

// failAt returns a FileError for the byte at offset.
func (s *scanner) failAt(offset int, format string, args ...any) error {
	before := s.data[:min(offset, len(s.data))]
	start := bytes.LastIndexByte(before, '\n') + 1
	return &FileError{
		Line:   bytes.Count(before, []byte{'\n'}) + 1,
		Column: utf8.RuneCount(before[start:]) + 1,
		Field:  s.field(),
		Reason: fmt.Sprintf(format, args...),
	}
}

// misfit returns the error for a byte that cannot stand here.
func (s *scanner) misfit(expected string) error {
	s.space()
	rest := s.data[s.at:]
	if len(rest) == 0 {
		return s.failAt(s.at, "the file ends here, before it is complete; it was cut short")
	}
	for _, word := range []string{"NaN", "Infinity", "-Infinity", "Inf", "-Inf"} {
		if bytes.HasPrefix(rest, []byte(word)) {
			return s.failAt(s.at, "%s is not a number that a length or a force can have", word)
		}
	}
	r, _ := utf8.DecodeRune(rest)
	return s.failAt(s.at, "expected %s, found %q", expected, r)
}

// space skips white space.
func (s *scanner) space() {
	for s.at < len(s.data) && strings.IndexByte(" \t\r\n", s.data[s.at]) >= 0 {
		s.at++
	}
}

// peek returns the first byte of the next token, 0 at the end.
func (s *scanner) peek() byte {
	s.space()
	if s.at == len(s.data) {
		return 0
	}
	return s.data[s.at]
}

// take steps over the next token if it is the byte c.
func (s *scanner) take(c byte) bool {
	if s.peek() != c || s.at == len(s.data) {
		return false
	}
	s.at++
	return true
}

// enter opens an object or a list, whose first byte is next.
func (s *scanner) enter() error {
	if s.depth++; s.depth > maxNesting {
		s.path = nil // of no use, and long
		return s.failAt(s.at, "this is nested more than %d deep; no design is", maxNesting)
	}
	s.at++
	return nil
}

// object reads an object, which is next, and calls member for each key; member
// reads the value.
func (s *scanner) object(member func(key string) error) error {
	if err := s.enter(); err != nil {
		return err
	}
	defer func() { s.depth-- }()
	if s.take('}') {
		return nil
	}
	seen := map[string]bool{}
	s.path = append(s.path, pathStep{keyed: true})
	last := len(s.path) - 1
	for {
		if s.peek() != '"' {
			return s.misfit("a key in quotes")
		}
		at := s.at
		key, err := s.text()
		if err != nil {
			return err
		}
		s.path[last].key = key
		if seen[key] {
			return s.failAt(at, "the key %q stands here twice; remove one of them", key)
		}
		seen[key] = true
		if !s.take(':') {
			return s.misfit("a colon after the key")
		}
		if err := member(key); err != nil {
			return err
		}
		if s.take('}') {
			s.path = s.path[:last]
			return nil
		}
		if !s.take(',') {
			return s.misfit("a comma or a closing brace")
		}
	}
}

// list reads a list, which is next, and calls item for each of its items; item
// reads it.
func (s *scanner) list(item func() error) error {
	if err := s.enter(); err != nil {
		return err
	}
	defer func() { s.depth-- }()
	if s.take(']') {
		return nil
	}
	s.path = append(s.path, pathStep{})
	last := len(s.path) - 1
	for i := 0; ; i++ {
		s.path[last].index = i
		if err := item(); err != nil {
			return err
		}
		if s.take(']') {
			s.path = s.path[:last]
			return nil
		}
		if !s.take(',') {
			return s.misfit("a comma or a closing bracket")
		}
	}
}

// text reads a string, which is next.
func (s *scanner) text() (string, error) {
	start := s.at
	plain := true
	for i := start + 1; i < len(s.data); i++ {
		switch c := s.data[i]; {
		case c == '\\':
			plain = false
			i++
		case c < ' ':
			return "", s.failAt(i, "a line break or control character stands inside a text; the closing quote is missing or it must be written with a backslash")
		case c == '"':
			s.at = i + 1
			if plain {
				return string(s.data[start+1 : i]), nil
			}
			var text string
			if json.Unmarshal(s.data[start:s.at], &text) != nil {
				return "", s.failAt(start, "the text has a backslash before something that takes none")
			}
			return text, nil
		}
	}
	s.at = len(s.data)
	return "", s.misfit("")
}

// number reads a number, which is next, as it is written.
func (s *scanner) number() (string, error) {
	start := s.at
	for s.at < len(s.data) && strings.IndexByte("+-.0123456789eE", s.data[s.at]) >= 0 {
		s.at++
	}
	number := s.data[start:s.at]
	if !json.Valid(number) {
		if s.at == len(s.data) {
			return "", s.misfit("")
		}
		s.at = start
		if len(number) == 1 {
			return "", s.misfit("a value")
		}
		return "", s.failAt(start, "%s is not a number", number)
	}
	return string(number), nil
}

// word reads true, false or null.
func (s *scanner) word() (string, error) {
	for _, word := range []string{"true", "false", "null"} {
		if bytes.HasPrefix(s.data[s.at:], []byte(word)) {
			s.at += len(word)
			return word, nil
		}
		if rest := s.data[s.at:]; len(rest) > 0 && strings.HasPrefix(word, string(rest)) {
			s.at = len(s.data)
			break
		}
	}
	return "", s.misfit("a value")
}

// skip reads any value and forgets it.
func (s *scanner) skip() error {
	switch c := s.peek(); {
	case c == '{':
		return s.object(func(string) error { return s.skip() })
	case c == '[':
		return s.list(func() error { return s.skip() })
	case c == '"':
		_, err := s.text()
		return err
	case c == '-' || c >= '0' && c <= '9':
		_, err := s.number()
		return err
	}
	_, err := s.word()
	return err
}

// found names the kind of the next value.
func (s *scanner) found() string {
	switch c := s.peek(); {
	case c == '{':
		return "a group in braces"
	case c == '[':
		return "a list"
	case c == '"':
		return "a text in quotes"
	case c == 't' || c == 'f':
		return "true or false"
	case c == 'n':
		return "null"
	}
	return "a number"
}
