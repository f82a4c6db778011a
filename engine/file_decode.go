package engine

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"reflect"
	"strconv"
	"strings"
	"unicode/utf8"
)

// extras are the keys of one object or list of a design file that this program
// does not know: they may come from a newer program or from somebody's script,
// and are written back on saving. It is never changed once read.
type extras struct {
	keys  []extraKey         // of this object, in the file's order
	under map[string]*extras // below the known keys of this object
	items []*extras          // below each item of this list, nil where there are none
}

// extraKey is a key with its value as compact JSON.
type extraKey struct {
	name  string
	value string
}

// Decode reads a design from the text of a .flatwright file. What is wrong
// with the file comes back as a [*FileError]; what is wrong with the design is
// found by [Validate].
//
// Every key may be missing except "format". Keys that are not known are kept
// and written back by [Encode]. Empty lists come back as nil, like those of
// [Design.Clone].
func Decode(data []byte) (Design, error) {
	if len(data) > maxFileSize {
		return Design{}, tooLarge()
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	s := &scanner{data: data}
	if !utf8.Valid(data) {
		return Design{}, s.failAt(invalidOffset(data), "the file is not UTF-8 text; it is not a design, or it was damaged")
	}
	if err := s.format(); err != nil {
		return Design{}, err
	}
	s = &scanner{data: data}
	var d Design
	kept, err := s.bindStruct(reflect.ValueOf(&d).Elem())
	if err != nil {
		return Design{}, err
	}
	d.kept = kept
	return d, nil
}

// invalidOffset returns the offset of the first byte that is not UTF-8.
func invalidOffset(data []byte) int {
	at := 0
	for at < len(data) {
		r, size := utf8.DecodeRune(data[at:])
		if r == utf8.RuneError && size == 1 {
			break
		}
		at += size
	}
	return at
}

// format reads the whole document once, for its grammar and its format.
func (s *scanner) format() error {
	if len(bytes.TrimSpace(s.data)) == 0 {
		return &FileError{Reason: "the file is empty"}
	}
	if s.peek() != '{' {
		return s.misfit("a design, which begins with a brace")
	}
	format := 0
	err := s.object(func(key string) error {
		if key != "format" {
			return s.skip()
		}
		s.space()
		start := s.at
		_, err := s.bind(reflect.ValueOf(&format).Elem())
		if err == nil && format < 1 {
			err = s.failAt(start, "there is no format %d; the first one is 1", format)
		}
		return err
	})
	if err != nil {
		return err
	}
	if s.peek(); s.at < len(s.data) {
		return s.failAt(s.at, "the design is complete, but more text follows it; remove the rest")
	}
	if format == 0 {
		return &FileError{Field: "format", Reason: "the file does not say which format it has, so it is not a Flatwright design"}
	}
	if format > FormatVersion {
		return &FileError{
			Field: "format",
			Reason: fmt.Sprintf("this file was made by a newer Flatwright (format %d); this one reads up to format %d. "+
				"A newer Flatwright opens it", format, FormatVersion),
			Err: ErrNewerFormat,
		}
	}
	return nil
}

// bind reads the next value into v, whose kind decides what may stand there.
func (s *scanner) bind(v reflect.Value) (*extras, error) {
	switch v.Kind() {
	case reflect.Struct:
		return s.bindStruct(v)
	case reflect.Slice:
		return s.bindSlice(v)
	case reflect.Map:
		return nil, s.bindMap(v)
	case reflect.String:
		return nil, s.bindText(v)
	case reflect.Bool:
		return nil, s.bindBool(v)
	case reflect.Float64, reflect.Int:
		return nil, s.bindNumber(v)
	}
	return nil, s.failAt(s.at, "this program cannot read the field")
}

// expect reports an error unless the next value begins with one of the bytes.
func (s *scanner) expect(first, what string) error {
	c := s.peek()
	if strings.IndexByte(first, c) >= 0 && c != 0 {
		return nil
	}
	if strings.IndexByte(`{["-0123456789tfn`, c) < 0 || c == 0 {
		return s.misfit(what)
	}
	if c == '-' || c == 't' || c == 'f' || c == 'n' {
		probe := *s
		if err := probe.skip(); err != nil {
			return err
		}
	}
	return s.failAt(s.at, "expected %s, found %s", what, s.found())
}

// bindStruct reads an object. The key "format" of the document is known.
func (s *scanner) bindStruct(v reflect.Value) (*extras, error) {
	if err := s.expect("{", "a group in braces"); err != nil {
		return nil, err
	}
	var kept extras
	err := s.object(func(key string) error {
		field := fieldByKey(v, key)
		if !field.IsValid() {
			s.space()
			start := s.at
			if err := s.skip(); err != nil {
				return err
			}
			if s.depth == 1 && key == "format" {
				return nil
			}
			var value bytes.Buffer
			if err := json.Compact(&value, s.data[start:s.at]); err != nil {
				return s.failAt(start, "the value cannot be kept: %v", err)
			}
			kept.keys = append(kept.keys, extraKey{key, value.String()})
			return nil
		}
		under, err := s.bind(field)
		if under != nil {
			if kept.under == nil {
				kept.under = map[string]*extras{}
			}
			kept.under[key] = under
		}
		return err
	})
	if err != nil || kept.keys == nil && kept.under == nil {
		return nil, err
	}
	return &kept, nil
}

// bindSlice reads a list.
func (s *scanner) bindSlice(v reflect.Value) (*extras, error) {
	if err := s.expect("[", "a list in brackets"); err != nil {
		return nil, err
	}
	var items []*extras
	found := false
	err := s.list(func() error {
		item := reflect.New(v.Type().Elem()).Elem()
		under, err := s.bind(item)
		if err != nil {
			return err
		}
		v.Set(reflect.Append(v, item))
		items = append(items, under)
		found = found || under != nil
		return nil
	})
	if err != nil || !found {
		return nil, err
	}
	return &extras{items: items}, nil
}

// bindMap reads an object whose keys are data.
func (s *scanner) bindMap(v reflect.Value) error {
	if err := s.expect("{", "a group in braces"); err != nil {
		return err
	}
	return s.object(func(key string) error {
		item := reflect.New(v.Type().Elem()).Elem()
		if _, err := s.bind(item); err != nil {
			return err
		}
		if v.IsNil() {
			v.Set(reflect.MakeMap(v.Type()))
		}
		v.SetMapIndex(reflect.ValueOf(key), item)
		return nil
	})
}

func (s *scanner) bindText(v reflect.Value) error {
	if err := s.expect(`"`, "a text in quotes"); err != nil {
		return err
	}
	text, err := s.text()
	v.SetString(text)
	return err
}

func (s *scanner) bindBool(v reflect.Value) error {
	if err := s.expect("tf", "true or false"); err != nil {
		return err
	}
	word, err := s.word()
	v.SetBool(word == "true")
	return err
}

// bindNumber reads a number into a float64 or an int.
func (s *scanner) bindNumber(v reflect.Value) error {
	what := "a number"
	if v.Kind() == reflect.Int {
		what = "a whole number"
	}
	if err := s.expect("-0123456789", what); err != nil {
		return err
	}
	start := s.at
	written, err := s.number()
	if err != nil {
		return err
	}
	number, err := strconv.ParseFloat(written, 64)
	if err != nil {
		return s.failAt(start, "the number %.20s is too large", written)
	}
	if v.Kind() == reflect.Float64 {
		v.SetFloat(number)
		return nil
	}
	if number != math.Trunc(number) {
		return s.failAt(start, "expected a whole number, found %.20s", written)
	}
	if math.Abs(number) > math.MaxInt32 {
		return s.failAt(start, "the number %.20s is too large", written)
	}
	v.SetInt(int64(number))
	return nil
}

// join returns the path of a key below path.
func join(path, key string) string {
	if path == "" {
		return key
	}
	return path + "." + key
}

// fieldByKey returns the field of a struct that has the JSON key.
func fieldByKey(v reflect.Value, key string) reflect.Value {
	for i := range v.NumField() {
		if name, _ := keyOf(v.Type().Field(i)); name == key && name != "" {
			return v.Field(i)
		}
	}
	return reflect.Value{}
}

// keyOf returns the JSON key of a field, "" if it is not in files, and whether
// an empty value is left out.
func keyOf(field reflect.StructField) (key string, omit bool) {
	if !field.IsExported() {
		return "", false
	}
	key, options, _ := strings.Cut(field.Tag.Get("json"), ",")
	if key == "-" {
		return "", false
	}
	if key == "" {
		key = field.Name
	}
	return key, options == "omitempty" || options == "omitzero"
}
