package vector

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// The readers below share nothing with the writers but the names of the layers.

func num(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatalf("a number cannot be read: %v", err)
	}
	return v
}

func layerNamed(t *testing.T, name string) Layer {
	t.Helper()
	for l := range layers {
		if strings.EqualFold(names[l], name) {
			return l
		}
	}
	t.Fatalf("%q is no layer", name)
	return 0
}

// readDXF reads group codes and values and checks the frame of the file.
func readDXF(t *testing.T, data []byte) Drawing {
	t.Helper()
	lines := strings.Split(strings.TrimSuffix(string(data), "\n"), "\n")
	if len(lines)%2 != 0 {
		t.Fatalf("%d lines: codes and values do not pair", len(lines))
	}
	var d Drawing
	known := map[string]bool{}
	var sections []string
	section, kind := "", ""
	var path *Path
	sequence := false
	for i := 0; i < len(lines); i += 2 {
		code, value := strings.TrimSpace(lines[i]), lines[i+1]
		last := func() *Words { return &d.Words[len(d.Words)-1] }
		circle := func() *Circle { return &d.Circles[len(d.Circles)-1] }
		switch {
		case code == "0" && value == "SECTION":
			section = lines[i+3]
			sections = append(sections, section)
		case code == "0" && value == "ENDSEC":
			section = ""
		case code == "9" && value == "$ACADVER" && lines[i+3] != "AC1009":
			t.Errorf("release %s; want AC1009", lines[i+3])
		case code == "0":
			kind = value
			switch kind {
			case "POLYLINE":
				if sequence {
					t.Fatal("a polyline in a polyline")
				}
				sequence = true
				d.Paths = append(d.Paths, Path{})
				path = &d.Paths[len(d.Paths)-1]
			case "VERTEX":
				path.Points = append(path.Points, Point{})
			case "SEQEND":
				sequence = false
			case "CIRCLE":
				d.Circles = append(d.Circles, Circle{})
			case "TEXT":
				d.Words = append(d.Words, Words{})
			}
		case section == "TABLES" && kind == "LAYER" && code == "2":
			known[value] = true
			if off := strings.TrimSpace(lines[i+4]) == "62" && strings.HasPrefix(lines[i+5], "-"); off != (value == "SLOT") {
				t.Errorf("layer %s is off: %t", value, off)
			}
		case section != "ENTITIES":
		case code == "8":
			if !known[value] {
				t.Errorf("layer %q is not in the table", value)
			}
			switch kind {
			case "POLYLINE":
				path.Layer = layerNamed(t, value)
			case "CIRCLE":
				circle().Layer = layerNamed(t, value)
			}
		case kind == "POLYLINE" && code == "70":
			path.Open = value == "0"
		case kind == "VERTEX" && code == "10":
			path.Points[len(path.Points)-1].X = num(t, value)
		case kind == "VERTEX" && code == "20":
			path.Points[len(path.Points)-1].Y = num(t, value)
		case kind == "CIRCLE" && code == "10":
			circle().Centre.X = num(t, value)
		case kind == "CIRCLE" && code == "20":
			circle().Centre.Y = num(t, value)
		case kind == "CIRCLE" && code == "40":
			circle().Radius = num(t, value)
		case kind == "TEXT" && code == "1":
			last().Text = value
		case kind == "TEXT" && code == "40":
			last().Height = num(t, value)
		case kind == "TEXT" && code == "50":
			last().Angle = num(t, value) * math.Pi / 180
		}
	}
	if got := strings.Join(sections, " "); got != "HEADER TABLES ENTITIES" || kind != "EOF" || section != "" || sequence {
		t.Errorf("sections %q, last %q, open section %q; want HEADER TABLES ENTITIES, EOF", got, kind, section)
	}
	for _, b := range data {
		if b > 126 || b < 32 && b != '\n' {
			t.Fatalf("byte %d is not plain ASCII", b)
		}
	}
	return d
}

var step = regexp.MustCompile(`([MLZ])(?:(-?[0-9.]+) (-?[0-9.]+))?`)

// readSVG reads the elements in their order; y is turned up from the lower edge
// of the view box.
func readSVG(t *testing.T, data []byte) Drawing {
	t.Helper()
	var d Drawing
	var height float64
	var layer Layer
	inText := false
	for decoder := xml.NewDecoder(bytes.NewReader(data)); ; {
		token, err := decoder.Token()
		if errors.Is(err, io.EOF) {
			return d
		}
		if err != nil {
			t.Fatalf("not well-formed: %v", err)
		}
		if chars, ok := token.(xml.CharData); ok && inText {
			d.Words[len(d.Words)-1].Text += string(chars)
		}
		if _, ok := token.(xml.EndElement); ok {
			inText = false
		}
		e, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		a := map[string]string{}
		for _, attribute := range e.Attr {
			a[attribute.Name.Local] = attribute.Value
		}
		switch e.Name.Local {
		case "svg":
			box := strings.Fields(a["viewBox"])
			height = num(t, box[3])
			if a["width"] != box[2]+"mm" || a["height"] != box[3]+"mm" || box[0]+box[1] != "00" {
				t.Errorf("size %s × %s for the view box %q: not 1:1", a["width"], a["height"], a["viewBox"])
			}
		case "g":
			layer = layerNamed(t, a["id"])
			if off := a["display"] == "none"; off != (layer == Slot) {
				t.Errorf("layer %v is off: %t", layer, off)
			}
		case "path":
			p := Path{Layer: layer, Open: true}
			for _, m := range step.FindAllStringSubmatch(a["d"], -1) {
				if m[1] == "Z" {
					p.Open = false
				} else {
					p.Points = append(p.Points, Point{num(t, m[2]), height - num(t, m[3])})
				}
			}
			d.Paths = append(d.Paths, p)
		case "circle":
			d.Circles = append(d.Circles, Circle{layer, Point{num(t, a["cx"]), height - num(t, a["cy"])}, num(t, a["r"])})
		case "text":
			w := Words{At: Point{num(t, a["x"]), height - num(t, a["y"])}, Height: num(t, a["font-size"]) * capitals}
			if turn, ok := strings.CutPrefix(a["transform"], "rotate("); ok {
				w.Angle = -num(t, strings.Fields(turn)[0]) * math.Pi / 180
			}
			d.Words, inText = append(d.Words, w), true
		}
	}
}
