package engine

import (
	"slices"
	"strings"
	"testing"

	"flatwright/engine/length"
)

// uneven is a top that creeps and bows.
func uneven() Design {
	d := testTop()
	d.Cases = append(d.Cases, LoadCase{Name: "Machine left on it", Duration: Permanent, Loads: []Load{{Name: "Machine", Kind: Uniform, Force: 900}}})
	d.BottomSkin = Skin{Material: "hardboard", Thickness: 3.2}
	d.EdgeBand = EdgeBand{"white-oak", 20}
	d.Air = Air{MadeAt: 45, Above: 35, Below: 70}
	return d
}

func TestYearsAndSeasonsInPacket(t *testing.T) {
	t.Parallel()
	d := uneven()
	r := compute(t, d)
	for _, f := range []length.Format{millimetre, sixteenths} {
		pages := packetOf(t, d, PacketOptions{Paper: "a4", Lengths: f})
		fits(t, "uneven top", pages)
		text := strings.ReplaceAll(textOf(pages, "Over the years and seasons"), "\n", " ")
		want := []string{"After ten years", "Machine left on it", "Leaning on the middle", "middle low", "the rim stands up", "35 % above and 70 % below"}
		for _, c := range r.LongTerm {
			want = append(want, length.Sag(c.Now, f), length.Sag(c.TenYears, f))
		}
		for _, w := range want {
			if !strings.Contains(text, w) {
				t.Errorf("imperial %t: no %q in %q", f.Imperial, w, text)
			}
		}
		if imperial := !strings.Contains(text, " mm"); imperial != f.Imperial {
			t.Errorf("imperial %t: %q", f.Imperial, text)
		}
	}

	// Without a case only the seasons are told.
	d.Cases = nil
	text := textOf(packetOf(t, d, PacketOptions{}), "Over the years and seasons")
	if strings.Contains(text, "ten years") || !strings.Contains(text, "Moisture content") {
		t.Errorf("a top without cases: %q; want moisture alone", text)
	}
}

func TestYearsAndSeasonsInReport(t *testing.T) {
	t.Parallel()
	d := uneven()
	r := compute(t, d)
	var out strings.Builder
	if err := Report(&out, d, r, millimetre); err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(out.String(), "\n")
	at := slices.Index(lines, "Sag over the years: now, after a day, a year and ten years")
	if at < 0 {
		t.Fatalf("no sag over the years in\n%s", out.String())
	}
	for i, c := range r.LongTerm {
		want := "  " + c.Case + ": " + strings.Join([]string{length.Sag(c.Now, millimetre), length.Sag(c.Day, millimetre), length.Sag(c.Year, millimetre), length.Sag(c.TenYears, millimetre)}, ", ")
		if got := lines[at+1+i]; got != want {
			t.Errorf("line %q; want %q", got, want)
		}
	}
	for _, want := range []string{"Moisture:", "Bow of the length:", "Step at the solid-wood rim, both faces together:"} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("no %q in the report", want)
		}
	}
	d.EdgeBand, d.Cases = EdgeBand{}, nil
	out.Reset()
	if err := Report(&out, d, compute(t, d), millimetre); err != nil {
		t.Fatal(err)
	}
	for _, not := range []string{"over the years", "solid-wood rim"} {
		if strings.Contains(out.String(), not) {
			t.Errorf("%q in the report of a top without cases and bands", not)
		}
	}
}
