package engine

import (
	"bytes"
	"context"
	"math/rand/v2"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"flatwright/engine/length"
)

func TestInUnits(t *testing.T) {
	t.Parallel()
	inches := length.Format{Imperial: true, Denominator: 16}
	for _, row := range []struct{ text, want string }{
		{"12.7 mm", `1/2"`},
		{"a core of 76.2 mm, or 1219.2 mm", `a core of 3", or 48"`},
		{"1800 mm × 750 mm", `70 7/8" × 29 1/2"`},
		{"sags 0.254 mm, limit 2.54 mm", "sags 0.01 in, limit 0.1 in"}, // below 3 mm: decimals
		{"2.99 mm and 3 mm", `0.118 in and 1/8"`},
		// No lengths: areas, compliances, spreads, rates.
		{"1.2 × 10¹¹ N·mm²", "1.2 × 10¹¹ N·mm²"},
		{"12 mm²", "0.0186 in²"}, {"5 mm³", "5 mm³"}, {"5 mm⁴", "5 mm⁴"}, {"0.1 mm/N", "0.1 mm/N"}, {"5 mm·N", "5 mm·N"},
		{"", ""}, {"mm", "mm"},
		{"(25.4 mm)", `(1")`}, {"25.4 mm.", `1".`},
		// By hand, with 0.45359237 kg and 4.448222 N to the pound and 25.4 mm to the
		// inch: 35/0.4536 = 77.16; 60·25.4/4.448 = 342.6; 1.35·645.16/4.448 = 195.8;
		// 10000/(4.448·25.4) = 88.51; 500/4.448 = 112.4; 1410·5.710 = 8051.
		{"1.35 MPa, 60 N/mm", "196 psi, 343 lbf/in"}, {"35 kg.", "77.2 lb."}, {"10 N·m asked of 500 N", "88.5 lbf·in asked of 112 lbf"},
		{"1\u202f410 N/mm", length.Number(1410/4.4482216*25.4, 3) + " lbf/in"}, {"more than 23 kg is", "more than 50.7 lb is"},
		{"a bed of 10 N/mm³", "a bed of 10 N/mm³"}, {"600 kg/m³", "600 kg/m³"}, {"4.28 × 10⁶ N; 31 %", "4.28 × 10⁶ N; 31 %"}, {"3 Nails", "3 Nails"},
		// Large and small ones as the problems print them: 2.54·10⁷ and 2.54·10⁻³ mm.
		{"2.54e+07 mm", `1000000"`}, {"0.00254 mm", "0.0001 in"}, {"2.54e-03 mm", "0.0001 in"},
		{"-25.4 mm", `-1"`},
	} {
		if got := InUnits(row.text, inches); got != row.want {
			t.Errorf("InUnits(%q) = %q; want %q", row.text, got, row.want)
		}
		if got := InUnits(row.text, length.Format{}); got != row.text {
			t.Errorf("InUnits(%q) in mm = %q; want it as it is", row.text, got)
		}
	}
	if got, want := InUnits("10 mm", length.Format{Imperial: true, Denominator: 32}), `13/32"`; got != want {
		t.Errorf("InUnits in 32nds = %q; want %q", got, want) // 10/25.4 = 12.6 thirty-seconds
	}
}

// topics fails unless every topic is in one of the texts.
func topics(t *testing.T, name string, texts []string, words ...string) {
	t.Helper()
	all := strings.ToLower(strings.Join(texts, "\n"))
	for _, word := range words {
		if !strings.Contains(all, word) {
			t.Errorf("%s say nothing of %q", name, word)
		}
	}
}

func TestCautionsAndLimits(t *testing.T) {
	t.Parallel()
	topics(t, "cautions", Cautions, "saw", "dust", "glue", "formaldehyde", "23 kg", "clamp", "proof load", "nobody under", "not for standing or climbing")
	topics(t, "what is left out", LeftOut, "nails or screws", "partial gluing", "delamination", "creep", "moisture", "impact", "fire", "fatigue",
		"scatter", "higher", "screws and bolts", "slots", "level", "stand under or climb", "local codes")
	topics(t, "the disclaimer", []string{Disclaimer}, "local codes", "licensed practice")
}

// never is a word that no text of the engine may hold.
var never = regexp.MustCompile(`(?i)\bsafe|unsafe|failsafe`)

// TestNeverSafe walks through every text of results, packets and reports of
// designs good and poor.
func TestNeverSafe(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(11, 11))
	check := func(path, text string) {
		if never.MatchString(text) {
			t.Errorf("%s says %q", path, text)
		}
	}
	designs := []Design{Demo(), plainTop(), poorTop()}
	for range 10 {
		designs = append(designs, randomDesign(r))
	}
	for _, d := range designs {
		result := compute(t, d)
		eachText("result", reflect.ValueOf(result), check)
		pages, err := Packet(context.Background(), d, result, PacketOptions{})
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range pages {
			for _, it := range p.Flat.Items {
				check("packet", it.Text)
			}
		}
		var out bytes.Buffer
		if err := Report(&out, d, result, length.Format{}); err != nil {
			t.Fatal(err)
		}
		check("report", out.String())
	}
	for _, list := range [][]string{Cautions, LeftOut, {Disclaimer, ErrBlocked.Error()}} {
		for _, text := range list {
			check("words", text)
		}
	}
	eachText("catalogue", reflect.ValueOf(*Catalogue()), check)
}

// poorTop misses everything that can be asked for.
func poorTop() Design {
	d := testTop()
	d.TopSkin = Skin{Material: "mdf", Thickness: 3}
	d.Crosswise.Material = "mdf"
	d.Cases[0].Loads[0].Force = 20000
	d.Limits = Limits{Sag: 0.01, Mass: 5, Cost: 1}
	d.Prices = []Price{{"birch-plywood", 9, 50, 2440, 1220}}
	d.Shop.Damp, d.Shop.People, d.Shop.Temperature = true, 1, 5
	return d
}

func TestShortfalls(t *testing.T) {
	t.Parallel()
	r := compute(t, poorTop())
	seen := map[string]Problem{}
	for _, p := range r.Problems {
		seen[p.Code] = p
		if p.Text == "" || p.Severity == Blocking {
			t.Errorf("problem %+v", p)
		}
	}
	for code, words := range map[string]string{
		"sag-over-limit":   "The top sags ",
		"mass-over-limit":  "limit 5.0 kg",
		"cost-over-limit":  "limit 1.00",
		"not-for-damp":     "not made for a damp place",
		"margin-below-one": " would help",
		"open-time":        "may lie open",
		"glue-too-cold":    "5 °C",
	} {
		if p, ok := seen[code]; !ok || !strings.Contains(p.Text, words) {
			t.Errorf("%s: %q; want %q in it", code, p.Text, words)
		}
	}
	for _, m := range r.Margins {
		told := 0
		for _, p := range r.Problems {
			if strings.HasPrefix(p.Text, m.Name+":") {
				told++
			}
		}
		if want := map[bool]int{true: 1}[m.Value < 1 || m.KMod == 0]; told != want {
			t.Errorf("%s at %g: told %d times; want %d", m.Name, m.Value, told, want)
		}
	}
	// 23 kg: the load constant of ISO 11228-1, from memory.
	for _, length := range []float64{1200, 2600} {
		d := Start(AssemblyTable, length, 800)
		r := compute(t, d)
		told := false
		for _, p := range r.Problems {
			told = told || p.Code == "lift" && p.Severity == Advice && strings.Contains(p.Text, "two people")
		}
		if told != (r.Mass.Total > 23) || told != (length > 2000) {
			t.Errorf("%g mm long, %.1f kg: told that it is heavy: %t", length, r.Mass.Total, told)
		}
	}
	// A design that meets everything is told nothing.
	d := plainTop()
	d.CoreDepth, d.Limits = 60, Limits{Sag: 5, Mass: 100, Cost: 100}
	d.Cases[0].Loads[0].Force = 100
	d.Shop.People = 6
	for _, p := range compute(t, d).Problems {
		if p.Code != "lift" || compute(t, d).Mass.Total <= liftLimit {
			t.Errorf("a good top is told %+v", p)
		}
	}
}

func TestMarginHelp(t *testing.T) {
	t.Parallel()
	for c := range checks {
		code, name := c.name(true)
		help := marginHelp(code)
		want := map[bool]string{true: "skin", false: "ribs"}[strings.HasPrefix(code, "skin.")]
		switch {
		case code == "glue.block":
			want = "larger block"
		case strings.HasPrefix(code, "screws."):
			want = "longer screws"
		case strings.Contains(code, ".peel."):
			want = "laps that are glued"
		case code == "bearing.load":
			want = "board under the load"
		case strings.HasPrefix(code, "bearing."):
			want = "wider bearing"
		case strings.HasPrefix(code, "seam."):
			want = "seam nearer to a support"
		case code == "rib.crippling":
			want = "block over the foot"
		case strings.HasPrefix(code, "apron."):
			want = "thicker apron"
		}
		if !strings.Contains(help, want) || strings.Contains(name, "%") {
			t.Errorf("%s (%s): help %q; want %q in it", code, name, help, want)
		}
	}
}

// A change that no gauge shows is about 0; others carry their sign.
func TestSagChange(t *testing.T) {
	t.Parallel()
	inch := length.Format{Imperial: true, Denominator: 16}
	for _, c := range []struct {
		mm   float64
		f    length.Format
		want string
	}{
		{0.000184, length.Format{}, "about 0 mm"}, {-0.0009, length.Format{}, "about 0 mm"}, {0.0261, length.Format{}, "+0.0261 mm"}, {-0.0213, length.Format{}, "−0.0213 mm"},
		{0.0254 / 20, inch, "about 0 in"}, {-0.254, inch, "−0.01 in"},
	} {
		if got := SagChange(c.mm, c.f); got != c.want {
			t.Errorf("SagChange(%g) = %q; want %q", c.mm, got, c.want)
		}
	}
}

// Stiffness in inches, by hand: 1 lbf·in² is 4.448222 N × 645.16 mm².
func TestRigidityText(t *testing.T) {
	t.Parallel()
	inch := length.Format{Imperial: true, Denominator: 16}
	if got, want := rigidityText(1e6*4.4482216*645.16, inch), "1.00 × 10⁶ lbf·in²"; got != want {
		t.Errorf("%q; want %q", got, want)
	}
	if got, want := shearText(4.4482216e4, inch), "1.00 × 10⁴ lbf"; got != want {
		t.Errorf("%q; want %q", got, want)
	}
	if got, want := rigidityText(5.39e11, length.Format{}), "5.39 × 10¹¹ N·mm²"; got != want {
		t.Errorf("%q; want %q", got, want)
	}
}

// Pairs, ranges, areas and shear flows in inches, by hand.
func TestPairsAndAreasInInches(t *testing.T) {
	t.Parallel()
	inch := length.Format{Imperial: true, Denominator: 16}
	for in, want := range map[string]string{
		"the rib, 254 × 127 mm, 80 %": `the rib, 10" × 5", 80 %`,
		"from 127 to 254 mm":          `from 5" to 10"`,
		"6451.6 mm² of rib edges":     "10 in² of rib edges",
		"c = 3 mm²/N":                 "c = 3 mm²/N",
	} {
		if got := InUnits(in, inch); got != want {
			t.Errorf("InUnits(%q) = %q; want %q", in, got, want)
		}
	}
	if got := FlowText(1.7512685, inch); got != "10 lbf on each inch" { // 4.4482216 N over 25.4 mm is 0.17512685 N/mm
		t.Errorf("a flow of 10 lbf/in: %q", got)
	}
}
