package engine

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"reflect"
	"slices"
	"strings"
)

// Encode returns the text of a .flatwright file: indented JSON in UTF-8 that
// ends with a line break, the same bytes for the same design.
//
// Keys that [Decode] did not know are written back where they stood, after the
// known ones of the same object. Those inside the items of a list go to the
// items with the same index; when the list has become longer or shorter, nobody
// can tell which item they belong to, and those of that list are dropped.
//
// It returns a [*FileError] if a number is not finite, because JSON has no way
// to write that, or if the design would be too large to be read again. Text
// that is not UTF-8 is mended with replacement characters.
func Encode(d Design) ([]byte, error) {
	w := &writer{}
	w.buf.WriteString("{\n  \"format\": ")
	fmt.Fprint(&w.buf, FormatVersion)
	w.value("", reflect.ValueOf(d), d.kept, 1)
	if w.err != nil {
		return nil, w.err
	}
	w.buf.WriteByte('\n')
	if w.buf.Len() <= maxFileSize {
		return w.buf.Bytes(), nil
	}
	var compact bytes.Buffer
	if err := json.Compact(&compact, w.buf.Bytes()); err != nil {
		return nil, fmt.Errorf("encode design: %w", err)
	}
	compact.WriteByte('\n')
	if compact.Len() > maxFileSize {
		return nil, tooLarge()
	}
	return compact.Bytes(), nil
}

// writer writes values as indented JSON. After the first error it goes on, but
// keeps that error.
type writer struct {
	buf bytes.Buffer
	err error
}

// line begins a new line at that depth.
func (w *writer) line(depth int) {
	w.buf.WriteByte('\n')
	for range depth {
		w.buf.WriteString("  ")
	}
}

// plain writes a string, number or truth value.
func (w *writer) plain(v any) {
	encoder := json.NewEncoder(&w.buf)
	encoder.SetEscapeHTML(false)
	if err := encoder.Encode(v); err != nil && w.err == nil {
		w.err = fmt.Errorf("encode design: %w", err)
		return
	}
	w.buf.Truncate(w.buf.Len() - 1) // Encode ends with a line break
}

// value writes v, found at path, with the extras that belong to it.
func (w *writer) value(path string, v reflect.Value, kept *extras, depth int) {
	if kept == nil {
		kept = &extras{}
	}
	switch v.Kind() {
	case reflect.Struct:
		w.object(path, v, kept, depth)
	case reflect.Slice:
		w.list(path, v, kept, depth)
	case reflect.Map:
		w.dictionary(path, v, depth)
	case reflect.Float64:
		f := v.Float()
		if math.IsNaN(f) || math.IsInf(f, 0) {
			if w.err == nil {
				w.err = &FileError{Field: path, Reason: fmt.Sprintf("%v is not a number that can be saved; type a figure there", f)}
			}
			return
		}
		w.plain(f)
	default:
		w.plain(v.Interface())
	}
}

// object writes a struct. The whole design, at path "", continues the object
// that its format number has begun.
func (w *writer) object(path string, v reflect.Value, kept *extras, depth int) {
	more := path == ""
	if !more {
		w.buf.WriteByte('{')
		depth++
	}
	key := func(name string) {
		if more {
			w.buf.WriteByte(',')
		}
		more = true
		w.line(depth)
		w.plain(name)
		w.buf.WriteString(": ")
	}
	for i := range v.NumField() {
		name, omit := keyOf(v.Type().Field(i))
		group := v.Field(i).Kind() == reflect.Struct && kept.under[name] != nil
		if name == "" || omit && isEmpty(v.Field(i)) && !group {
			continue
		}
		key(name)
		w.value(join(path, name), v.Field(i), kept.under[name], depth)
	}
	for _, extra := range kept.keys {
		key(extra.name)
		if err := json.Indent(&w.buf, []byte(extra.value), strings.Repeat("  ", depth), "  "); err != nil && w.err == nil {
			w.err = fmt.Errorf("encode design: %w", err)
		}
	}
	if more {
		w.line(depth - 1)
	}
	w.buf.WriteByte('}')
}

// isEmpty reports whether a field marked omitempty or omitzero is left out.
func isEmpty(v reflect.Value) bool {
	switch v.Kind() {
	case reflect.Slice, reflect.Map:
		return v.Len() == 0
	}
	return v.IsZero()
}

// list writes a slice; numbers and texts stand in one line.
func (w *writer) list(path string, v reflect.Value, kept *extras, depth int) {
	grouped := v.Type().Elem().Kind() == reflect.Struct
	w.buf.WriteByte('[')
	for i := range v.Len() {
		var under *extras
		if len(kept.items) == v.Len() {
			under = kept.items[i]
		}
		switch {
		case i > 0 && grouped:
			w.buf.WriteByte(',')
		case i > 0:
			w.buf.WriteString(", ")
		}
		if grouped {
			w.line(depth + 1)
		}
		w.value(fmt.Sprintf("%s[%d]", path, i), v.Index(i), under, depth+1)
	}
	if grouped && v.Len() > 0 {
		w.line(depth)
	}
	w.buf.WriteByte(']')
}

// dictionary writes a map in the order of its keys.
func (w *writer) dictionary(path string, v reflect.Value, depth int) {
	items := map[string]reflect.Value{}
	for iter := v.MapRange(); iter.Next(); {
		items[iter.Key().String()] = iter.Value()
	}
	w.buf.WriteByte('{')
	for i, key := range slices.Sorted(maps.Keys(items)) {
		if i > 0 {
			w.buf.WriteByte(',')
		}
		w.line(depth + 1)
		w.plain(key)
		w.buf.WriteString(": ")
		w.value(join(path, key), items[key], nil, depth+1)
	}
	if len(items) > 0 {
		w.line(depth)
	}
	w.buf.WriteByte('}')
}
