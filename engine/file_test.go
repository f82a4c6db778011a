package engine

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
)

// fillAll sets every exported field below v to a value of its own, so that a
// field that the file forgets is noticed.
func fillAll(v reflect.Value, next *int) {
	*next++
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				fillAll(v.Field(i), next)
			}
		}
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 2, 2))
		fillAll(v.Index(0), next)
		fillAll(v.Index(1), next)
	case reflect.Map:
		v.Set(reflect.MakeMap(v.Type()))
		for _, key := range []string{"b", "a", "ü \"<&>\u2028"} {
			item := reflect.New(v.Type().Elem()).Elem()
			fillAll(item, next)
			v.SetMapIndex(reflect.ValueOf(key), item)
		}
	case reflect.String:
		v.SetString(strings.Repeat("x", *next%5) + "\n\t\"\\/é½″<&>\u2028\x7f")
	case reflect.Bool:
		v.SetBool(true)
	case reflect.Float64:
		v.SetFloat(float64(*next) + 0.1)
	default:
		v.SetInt(int64(*next))
	}
}

func TestFileRoundTrip(t *testing.T) {
	t.Parallel()
	var full Design
	next := 0
	fillAll(reflect.ValueOf(&full).Elem(), &next)
	extreme := testTop()
	extreme.Length, extreme.Width, extreme.CoreDepth = math.MaxFloat64, math.SmallestNonzeroFloat64, 0.1+0.2
	for name, d := range map[string]Design{"zero": {}, "test top": testTop(), "every field": full, "extreme": extreme} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			data, err := Encode(d)
			if err != nil {
				t.Fatalf("Encode: %v", err)
			}
			got, err := Decode(data)
			if err != nil {
				t.Fatalf("Decode of\n%s\n%v", data, err)
			}
			if !reflect.DeepEqual(got, d) {
				t.Errorf("Decode(Encode(d)) =\n%+v\nwant\n%+v", got, d)
			}
			again, err := Encode(got)
			if err != nil || !bytes.Equal(again, data) {
				t.Errorf("Encode(Decode(b)) differs from b, error %v:\n%s\nwant\n%s", err, again, data)
			}
		})
	}
}

// TestFileIsPlainJSON reads what Encode writes with encoding/json, a second
// reader that shares no code with ours.
func TestFileIsPlainJSON(t *testing.T) {
	t.Parallel()
	var full Design
	next := 0
	fillAll(reflect.ValueOf(&full).Elem(), &next)
	data, err := Encode(full)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.HasPrefix(data, []byte("{\n  \"format\": 1,\n")) || !bytes.HasSuffix(data, []byte("\n}\n")) {
		t.Errorf("Encode = %.40q … %q; want the format first and a line break last", data, data[len(data)-5:])
	}
	var got Design
	if err := json.Unmarshal(data, &got); err != nil {
		t.Fatalf("encoding/json cannot read it: %v", err)
	}
	if !reflect.DeepEqual(got, full) {
		t.Errorf("encoding/json reads\n%+v\nwant\n%+v", got, full)
	}
	var indented bytes.Buffer
	if err := json.Indent(&indented, data, "", "  "); err != nil {
		t.Fatal(err)
	}
	// Ours differs from encoding/json's own layout only in lists of numbers,
	// which stand in one line.
	strip := strings.NewReplacer("\n", "", " ", "")
	if got, want := strip.Replace(string(data)), strip.Replace(indented.String()); got != want {
		t.Errorf("layout: %s\nwant %s", got, want)
	}
}

// TestFormat1 reads the file that stays for ever: what format 1 meant when it
// was made must still be read.
func TestFormat1(t *testing.T) {
	t.Parallel()
	d, err := ReadFile(filepath.Join("..", "testdata", "format1.flatwright"))
	if err != nil {
		t.Fatal(err)
	}
	if d.Name != "Assembly table" || d.Length != 1800 || d.TopSkin.Thickness != 9 || !d.BottomSkin.Across ||
		d.Lengthwise.Count != 5 || len(d.Crosswise.Positions) != 11 || d.Crosswise.Positions[10] != 1774 ||
		d.Slots.Relief != 1 || d.EdgeBand.Thickness != 20 || len(d.Blocks) != 2 || d.Blocks[1].Column != 9 ||
		d.Supports.Kind != FourLegs || len(d.Cases) != 2 || d.Cases[0].Loads[1].Force != 250 ||
		d.Cases[1].Loads[0].Kind != Uniform || d.Limits.Sag != 0.25 || d.Shop.Start != "2026-05-02T09:00" ||
		!d.Shop.Damp || len(d.Prices) != 1 || d.Prices[0].Sheet != 61.5 || len(d.Own) != 1 || d.Own[0].EAlong != 9200 {
		t.Errorf("the file of format 1 reads as\n%+v", d)
	}
	data, err := Encode(d)
	if err != nil {
		t.Fatal(err)
	}
	for _, kept := range []string{`"paintedBy": {`, `"legs": "oak"`, `"hue": 120`} {
		if !bytes.Contains(data, []byte(kept)) {
			t.Errorf("the unknown key %s was lost:\n%s", kept, data)
		}
	}
}

func TestUnknownKeysAreKept(t *testing.T) {
	t.Parallel()
	const text = `{"format":1, "later":{"a":[1,{"b":null}],"n":1.50,"t":"\u00e9"}, "length":1800,
		"topSkin":{"thickness":9,"colour":"red"},
		"cases":[{"name":"one","when":"noon","loads":[{"force":1},{"force":2,"who":["Ann","Bo"]}]},{"name":"two"}],
		"materials":[{"key":"mine","thicknesses":[{"actual":9,"shelf":3}],"sources":{"density":"weighed"},"owner":true}]}`
	d, err := Decode([]byte(text))
	if err != nil {
		t.Fatal(err)
	}
	has := func(d Design, want string) bool {
		t.Helper()
		data, err := Encode(d)
		if err != nil {
			t.Fatal(err)
		}
		var compact bytes.Buffer
		if err := json.Compact(&compact, data); err != nil {
			t.Fatal(err)
		}
		return strings.Contains(compact.String(), want)
	}
	edited := d.Clone()
	edited.Length = 2000
	edited.Cases[0].Loads[1].Force = 3
	for _, want := range []string{
		`"later":{"a":[1,{"b":null}],"n":1.50,"t":"\u00e9"}`, // as written, not as a float would print
		`"topSkin":{"material":"","thickness":9,"colour":"red"}`,
		`"when":"noon"`,
		`"force":3,"who":["Ann","Bo"]`, // at the second load
		`"thicknesses":[{"nominal":"","actual":9,"shelf":3}]`,
		`"owner":true`,
		`"length":2000`,
	} {
		if !has(edited, want) {
			t.Errorf("after an edit, %s is missing", want)
		}
	}

	longer := d.Clone()
	longer.Cases[0].Loads = append(longer.Cases[0].Loads, Load{Name: "third"})
	if has(longer, `"who"`) {
		t.Error("a list that grew kept the unknown keys of its items; want them dropped")
	}
	if !has(longer, `"when":"noon"`) || !has(longer, `"later"`) {
		t.Error("a list that grew cost other places their unknown keys")
	}
	none := d.Clone()
	none.Cases = nil
	if has(none, `"when"`) || !has(none, `"cases":[]`) {
		t.Error("a list that was emptied must be written empty")
	}
	if !has(d, `"force":2,"who":["Ann","Bo"]`) {
		t.Error("editing a clone changed the original")
	}
}

func TestDecodeRefuses(t *testing.T) {
	t.Parallel()
	tests := []struct {
		name, text   string
		line, column int
		field        string // the one that is read or was read last
		reason       string // part of it
	}{
		{"nothing", "", 0, 0, "", "empty"},
		{"only blanks", " \n\t\n", 0, 0, "", "empty"},
		{"only a BOM", "\ufeff", 0, 0, "", "empty"},
		{"no object", "[1]", 1, 1, "", "begins with a brace"},
		{"a picture", "\x89PNG\r\n", 1, 1, "", "not UTF-8"},
		{"not UTF-8 later", "{\"format\":1,\n\"name\":\"caf\xe9\"}", 2, 12, "", "not UTF-8"},
		{"UTF-16", "\xff\xfe{\x00", 1, 1, "", "not UTF-8"},
		{"no format", `{"length":1800}`, 0, 0, "format", "does not say which format"},
		{"format as text", `{"format":"1"}`, 1, 11, "format", "expected a whole number, found a text"},
		{"format null", `{"format":null}`, 1, 11, "format", "expected a whole number, found null"},
		{"format 0", `{"format":0}`, 1, 11, "format", "no format 0"},
		{"newer format", `{"format":2,"length":"five"}`, 0, 0, "format", "made by a newer Flatwright (format 2)"},
		{"format 1.5", `{"format":1.5}`, 1, 11, "format", "whole number"},
		{"format twice", `{"format":1,"format":1}`, 1, 13, "format", `"format" stands here twice`},
		{"key twice", "{\"format\":1,\n \"topSkin\":{\"thickness\":9,\"thickness\":12}}", 2, 27, "topSkin.thickness", `"thickness" stands here twice`},
		{"key twice in an unknown group", `{"format":1,"x":[{"a":1,"\u0061":2}]}`, 1, 25, "x[0].a", `"a" stands here twice`},
		{"text for a length", "{\"format\":1,\n  \"length\": \"1800\"}", 2, 13, "length", "expected a number, found a text"},
		{"number for a name", `{"format":1,"name":7}`, 1, 20, "name", "expected a text in quotes, found a number"},
		{"null for a length", `{"format":1,"length":null}`, 1, 22, "length", "found null"},
		{"list for a skin", `{"format":1,"topSkin":[]}`, 1, 23, "topSkin", "expected a group in braces, found a list"},
		{"object for the cases", `{"format":1,"cases":{}}`, 1, 21, "cases", "expected a list in brackets, found a group"},
		{"number for a switch", `{"format":1,"topSkin":{"across":1}}`, 1, 33, "topSkin.across", "expected true or false, found a number"},
		{"half a rib", `{"format":1,"lengthwise":{"count":4.5}}`, 1, 35, "lengthwise.count", "whole number, found 4.5"},
		{"deep field", "{\"format\":1,\"cases\":[{},\n{\"loads\":[{},{\"force\":true}]}]}", 2, 23, "cases[1].loads[1].force", "expected a number, found true or false"},
		{"position", `{"format":1,"lengthwise":{"positions":[1,2,"3"]}}`, 1, 44, "lengthwise.positions[2]", "found a text"},
		{"own material", `{"format":1,"materials":[{"density":[]}]}`, 1, 37, "materials[0].density", "found a list"},
		{"source", `{"format":1,"materials":[{"sources":{"density":1}}]}`, 1, 48, "materials[0].sources.density", "expected a text"},
		{"column in characters", `{"format":1,"½é″":0,"length":[]}`, 1, 30, "length", "found a list"},
		{"count too large", `{"format":1,"lengthwise":{"count":3e9}}`, 1, 35, "lengthwise.count", "too large"},
		{"length too large for a number", `{"format":1,"length":1e999}`, 1, 22, "length", "too large"},
		{"NaN", `{"format":1,"length":NaN}`, 1, 22, "length", "NaN is not a number"},
		{"Infinity", `{"format":1,"length":Infinity}`, 1, 22, "length", "Infinity is not a number"},
		{"minus Infinity", `{"format":1,"length":-Infinity}`, 1, 22, "length", "-Infinity is not a number"},
		{"leading zero", `{"format":1,"length":018}`, 1, 22, "length", "018 is not a number"},
		{"decimal comma", `{"format":1,"length":1,8}`, 1, 24, "length", "expected a key in quotes"},
		{"hexadecimal", `{"format":1,"length":0x10}`, 1, 23, "length", "expected a comma or a closing brace, found 'x'"},
		{"plus sign", `{"format":1,"length":+1}`, 1, 22, "length", "expected a value, found '+'"},
		{"trailing comma", `{"format":1,}`, 1, 13, "format", "expected a key in quotes"},
		{"trailing comma in a list", `{"format":1,"cases":[{},]}`, 1, 25, "cases[1]", "expected a value"},
		{"no colon", `{"format" 1}`, 1, 11, "format", "expected a colon"},
		{"single quotes", `{'format':1}`, 1, 2, "", "expected a key in quotes"},
		{"comment", "{\"format\":1} // mine", 1, 14, "", "more text follows"},
		{"two designs", "{\"format\":1}\n{\"format\":1}", 2, 1, "", "more text follows"},
		{"a NUL byte after it", "{\"format\":1}\x00", 1, 13, "", "more text follows"},
		{"line break in a text", "{\"format\":1,\"name\":\"a\nb\"}", 1, 22, "name", "control character"},
		{"bad escape", `{"format":1,"name":"a\x"}`, 1, 20, "name", "backslash"},
		{"wrong closing", `{"format":1,"cases":[}`, 1, 22, "cases[0]", "expected a value, found '}'"},
		{"cut in a text", `{"format":1,"name":"Asse`, 1, 25, "name", "cut short"},
		{"cut in a number", `{"format":1,"length":-`, 1, 23, "length", "cut short"},
		{"cut in a word", `{"format":1,"topSkin":{"across":tr`, 1, 35, "topSkin.across", "cut short"},
		{"cut after a colon", `{"format":`, 1, 11, "format", "cut short"},
		{"cut in a list", `{"format":1,"cases":[`, 1, 22, "cases[0]", "cut short"},
		{"too deep", `{"format":1,"x":` + strings.Repeat("[", 200000), 1, 80, "", "nested more than 64 deep"},
		{"too deep in objects", `{"format":1,"x":` + strings.Repeat(`{"x":`, 200000), 1, 332, "", "nested more than 64 deep"},
		{"cut between keys", "{\n  \"format\": 1,\n  \"edgeBand\": {}", 3, 17, "edgeBand", "cut short"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			d, err := Decode([]byte(test.text))
			var fault *FileError
			if !errors.As(err, &fault) {
				t.Fatalf("Decode = %+v, %v; want a *FileError", d, err)
			}
			if fault.Line != test.line || fault.Column != test.column || fault.Field != test.field || !strings.Contains(fault.Reason, test.reason) {
				t.Errorf("Decode = %d:%d %q %q; want %d:%d %q and %q", fault.Line, fault.Column, fault.Field, fault.Reason,
					test.line, test.column, test.field, test.reason)
			}
		})
	}
}

// TestTruncatedAnywhere cuts a real file after every byte: no part of it may
// pass for a whole design.
func TestTruncatedAnywhere(t *testing.T) {
	t.Parallel()
	whole, err := Encode(testTop())
	if err != nil {
		t.Fatal(err)
	}
	for n := range len(whole) - 1 { // the last byte is a line break
		var fault *FileError
		if _, err := Decode(whole[:n]); !errors.As(err, &fault) {
			t.Fatalf("Decode of the first %d bytes of %d: %v; want a *FileError", n, len(whole), err)
		}
	}
}

func TestDecodeTakes(t *testing.T) {
	t.Parallel()
	want := Design{Length: 1800, Lengthwise: RibSet{Count: 5}}
	for name, text := range map[string]string{
		"byte order mark":           "\ufeff{\"format\":1,\"length\":1800,\"lengthwise\":{\"count\":5}}",
		"format last":               `{"length":1800,"lengthwise":{"count":5},"format":1}`,
		"other ways with a number":  `{"format":1.0,"length":18E+2,"lengthwise":{"count":50e-1}}`,
		"Windows line ends":         "{\r\n\"format\":1,\r\n\"length\":1800,\r\n\"lengthwise\":{\"count\":5}}\r\n",
		"escaped key":               `{"format":1,"\u006cength":1800,"lengthwise":{"count":5}}`,
		"empty lists":               `{"format":1,"length":1800,"cases":[],"blocks":[],"materials":[],"lengthwise":{"count":5,"positions":[]}}`,
		"blanks, tabs, empty lines": "\n\n {\t\"format\" : 1 ,\n\"length\":\n1800,\"lengthwise\" :{ \"count\":5 } } \n\n",
	} {
		got, err := Decode([]byte(text))
		if err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("%s: Decode = %+v, %v; want %+v", name, got, err, want)
		}
	}
}

// endless is a file of any size; it counts what is read of it.
type endless struct{ read int }

func (e *endless) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = ' '
	}
	e.read += len(p)
	return len(p), nil
}

func TestTooLarge(t *testing.T) {
	t.Parallel()
	source := &endless{}
	_, err := Read(io.LimitReader(source, 200<<20))
	if !errors.Is(err, ErrTooLarge) || !strings.Contains(err.Error(), "larger than 8 MB") {
		t.Errorf("Read of 200 MB: %v; want ErrTooLarge with the limit", err)
	}
	if source.read > 2*maxFileSize {
		t.Errorf("Read took in %d bytes of 200 MB; want no more than about %d", source.read, maxFileSize)
	}
	if _, err := Decode(make([]byte, maxFileSize+1)); !errors.Is(err, ErrTooLarge) {
		t.Errorf("Decode of 8 MB + 1: %v; want ErrTooLarge", err)
	}
	// A file of just the limit is read.
	text := `{"format":1,"length":1800}`
	text += strings.Repeat(" ", maxFileSize-len(text))
	if d, err := Decode([]byte(text)); err != nil || d.Length != 1800 {
		t.Errorf("Decode of 8 MB: length %g, %v; want 1800", d.Length, err)
	}
}

func TestEncodeRefuses(t *testing.T) {
	t.Parallel()
	for _, value := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		d := testTop()
		d.Cases[0].Loads[0].Force = value
		_, err := Encode(d)
		var fault *FileError
		if !errors.As(err, &fault) || fault.Field != "cases[0].loads[0].force" || !strings.Contains(fault.Reason, "not a number") {
			t.Errorf("Encode with %v: %v; want a *FileError at the force", value, err)
		}
	}
	huge := testTop()
	huge.Notes = strings.Repeat("x", maxFileSize)
	if _, err := Encode(huge); !errors.Is(err, ErrTooLarge) {
		t.Errorf("Encode with notes of 8 MB: %v; want ErrTooLarge", err)
	}
	// What is only too large because it is indented is written without.
	wide := testTop()
	wide.Blocks = make([]Block, 90000)
	data, err := Encode(wide)
	if err != nil || len(data) > maxFileSize {
		t.Fatalf("Encode of 90 000 blocks: %d bytes, %v", len(data), err)
	}
	if got, err := Decode(data); err != nil || !reflect.DeepEqual(got, wide) {
		t.Errorf("90 000 blocks do not survive the file: %v", err)
	}
}

func TestFileErrorText(t *testing.T) {
	t.Parallel()
	_, err := Decode([]byte("{\"format\":1,\n\"cases\":[{\"loads\":[{\"force\":\"50 kg\"}]}]}"))
	if want := "line 2, column 29: cases[0].loads[0].force: expected a number, found a text in quotes"; err == nil || err.Error() != want {
		t.Errorf("error %v; want %s", err, want)
	}
	path := filepath.Join(t.TempDir(), "broken.flatwright")
	if err := os.WriteFile(path, []byte(`{"format":7}`), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := ReadFile(path); !errors.Is(err, ErrNewerFormat) || !strings.HasPrefix(err.Error(), "broken.flatwright: ") {
		t.Errorf("ReadFile = %v; want ErrNewerFormat and the file's name", err)
	}
	if _, err := ReadFile(filepath.Join(t.TempDir(), "none")); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("ReadFile of no file = %v; want os.ErrNotExist", err)
	}
	if _, err := ReadFile(t.TempDir()); err == nil {
		t.Error("ReadFile of a folder succeeded")
	}
}

// FuzzDecode feeds anything to the reader. What it takes must be JSON by
// encoding/json's judgement too, and survive being written and read again.
func FuzzDecode(f *testing.F) {
	whole, err := Encode(testTop())
	if err != nil {
		f.Fatal(err)
	}
	f.Add(whole)
	f.Add([]byte(`{"format":1,"built":[{"kind":"skin slid","part":"top","x":-4,"y":2.5},{"kind":"wrong edge","part":"C2","from":1,"to":4},{"kind":"rib unglued","part":"L1","side":"bottom","to":300}],"glueUp":{"clamps":{"count":4},"moreClamps":[{"count":2,"reach":120}],"moreCauls":[{}]}}`))
	f.Add([]byte(`{"format":1,"later":{"a":[1,{"b":null}]},"cases":[{"when":1,"loads":[{"who":[]}]}]}`))
	f.Add([]byte("\ufeff{\"format\":1.0,\"name\":\"\\ud800\",\"length\":-0,\"\\u2028\":\"\\/\"}"))
	f.Add([]byte(`{"format":1,"materials":[{"sources":{"a":"b"},"steps":[{"above":1,"values":{"x":1e-400}}]}]}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		d, err := Decode(data)
		if err != nil {
			var fault *FileError
			if !errors.As(err, &fault) || fault.Reason == "" {
				t.Fatalf("Decode: %v; want a *FileError with a reason", err)
			}
			return
		}
		if !json.Valid(bytes.TrimPrefix(data, []byte("\ufeff"))) {
			t.Fatal("Decode took what is not JSON")
		}
		text, err := Encode(d)
		if err != nil {
			t.Fatalf("Encode of what was decoded: %v", err)
		}
		again, err := Decode(text)
		if err != nil {
			t.Fatalf("Decode(Encode(d)): %v\n%s", err, text)
		}
		if !reflect.DeepEqual(again, d) {
			t.Fatalf("Decode(Encode(d)) =\n%+v\nwant\n%+v\nin\n%s", again, d, text)
		}
		if stable, err := Encode(again); err != nil || !bytes.Equal(stable, text) {
			t.Fatalf("Encode is not stable: %v\n%s\nthen\n%s", err, text, stable)
		}
	})
}
