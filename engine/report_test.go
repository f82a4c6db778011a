package engine

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"flatwright/engine/length"
)

func TestReportJSON(t *testing.T) {
	t.Parallel()
	d := Demo()
	data := reportOf(t, "Estimate", d)
	if !json.Valid(data) || bytes.Contains(data, []byte("NaN")) || bytes.Contains(data, []byte("Inf")) || data[len(data)-1] != '\n' {
		t.Fatal("not sound JSON with a line end")
	}
	var top map[string]json.RawMessage
	if err := json.Unmarshal(data, &top); err != nil {
		t.Fatal(err)
	}
	keys := func(m map[string]json.RawMessage) (out []string) {
		for k := range m {
			out = append(out, k)
		}
		slices.Sort(out)
		return out
	}
	if got := keys(top); !slices.Equal(got, []string{"design", "format", "pieces", "result"}) {
		t.Errorf("keys %v", got)
	}
	var pieces []Piece
	if err := json.Unmarshal(top["pieces"], &pieces); err != nil || !reflect.DeepEqual(pieces, d.Pieces()) {
		t.Errorf("the pieces do not come back from the report: %v", err)
	}
	if !bytes.Contains(top["pieces"], []byte(`"x": 0`)) {
		t.Error("the outlines' keys are not x and y")
	}
	if string(top["format"]) != "1" {
		t.Errorf("format %s; want 1", top["format"])
	}
	var result map[string]json.RawMessage
	if err := json.Unmarshal(top["result"], &result); err != nil {
		t.Fatal(err)
	}
	for _, key := range []string{"problems", "parts", "mass", "cost", "stiffness", "cases", "governing", "margins", "depth", "knobs", "build", "working"} {
		if _, ok := result[key]; !ok {
			t.Errorf("no %q in the result", key)
		}
	}
	// The design in it is the whole design, and reads back.
	back, err := Decode(top["design"])
	if err != nil {
		t.Fatal(err)
	}
	a, _ := Encode(d)
	b, _ := Encode(back)
	if !bytes.Equal(a, b) {
		t.Error("the design does not come back from the report")
	}
	var read Result
	if err := json.Unmarshal(top["result"], &read); err != nil {
		t.Fatal(err)
	}
	r := compute(t, d)
	if read.Cases[0].Sag != r.Cases[0].Sag || read.Mass.Total != r.Mass.Total || len(read.Parts) != len(r.Parts) {
		t.Error("figures do not come back from the report")
	}
}

// Lists are lists in JSON even where there is nothing in them.
func TestReportJSONListsAreNeverNull(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Cases = nil
	blocked := plainTop()
	blocked.Length = -1
	for _, d := range []Design{d, blocked, plainTop()} {
		var read struct{ Result map[string]json.RawMessage }
		if err := json.Unmarshal(reportOf(t, "Estimate", d), &read); err != nil {
			t.Fatal(err)
		}
		for _, key := range []string{"problems", "parts", "cases", "margins", "knobs", "working"} {
			if v := string(read.Result[key]); !strings.HasPrefix(v, "[") {
				t.Errorf("%s: %.20s; want a list", key, v)
			}
		}
	}
}

func TestReport(t *testing.T) {
	t.Parallel()
	d := Demo()
	r := compute(t, d)
	for _, f := range []length.Format{{}, {Imperial: true, Denominator: 16}} {
		var out bytes.Buffer
		if err := Report(&out, d, r, f); err != nil {
			t.Fatal(err)
		}
		text := out.String()
		for _, want := range []string{
			d.Name, f.Print(d.Length), "sag " + length.Sag(r.Cases[0].Sag, f), "Weight " + length.Mass(r.Mass.Total, f) + fmt.Sprintf(" (%.0f %% of a solid slab)", 100*r.Mass.Total/r.Mass.Slab),
			fmt.Sprintf("%.0f %% of the solid slab", 100*r.Stiffness.Across.EI/r.Stiffness.Across.SlabEI), "Margins", r.Margins[0].Name,
			length.Number(r.Margins[0].Value, 3), "Dry assembly", "Nothing on it before", Disclaimer, "under stack: " + length.Sag(r.Cases[0].Loads[0].Sag, f),
		} {
			if !strings.Contains(text, want) {
				t.Errorf("no %q in the report", want)
			}
		}
	}
}

func TestReportOfABlockedDesign(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.CoreDepth = -5
	r, err := Compute(t.Context(), d)
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := Report(&out, d, r, length.Format{}); err != nil {
		t.Fatal(err)
	}
	if text := out.String(); !strings.Contains(text, r.Problems[0].Text) || strings.Contains(text, "Weight") {
		t.Errorf("report %q; want its problem and no figures", text)
	}
}

// A load over a rail that does not sag has no stiffness to tell.
func TestReportTellsNoStiffnessOfNoSag(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Cases[0].Loads[0] = Load{Name: "over the rail", Kind: Patch, Force: 800, X: 100, Y: 350, SizeX: 100, SizeY: 100}
	r := compute(t, d)
	if s := r.Cases[0].Loads[0]; s.Alone > 0 || s.Stiffness != 0 {
		t.Fatalf("load over the rail: %+v", s)
	}
	var out bytes.Buffer
	if err := Report(&out, d, r, length.Format{}); err != nil {
		t.Fatal(err)
	}
	if strings.Contains(out.String(), ", 0 N/mm") {
		t.Error("it says 0 N/mm of a load that does not sag")
	}
}

var errFull = errors.New("disk full")

// full is a writer that takes n bytes.
type full struct{ n int }

func (f *full) Write(p []byte) (int, error) {
	if f.n -= len(p); f.n < 0 {
		return 0, errFull
	}
	return len(p), nil
}

func TestReportTellsAFullDisk(t *testing.T) {
	t.Parallel()
	d := plainTop()
	r := compute(t, d)
	for n := 0; n < 2000; n += 400 {
		if err := Report(&full{n}, d, r, length.Format{}); !errors.Is(err, errFull) {
			t.Errorf("Report after %d bytes: %v; want %v", n, err, errFull)
		}
		if err := ReportJSON(&full{n}, d, r); !errors.Is(err, errFull) {
			t.Errorf("ReportJSON after %d bytes: %v; want %v", n, err, errFull)
		}
	}
}
