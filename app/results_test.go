package app

import (
	"context"
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"flatwright/engine"
	"flatwright/engine/length"
	"flatwright/widgets"
)

// handMade is a result typed by hand; nothing in it was computed.
func handMade() Snapshot {
	d := engine.Demo()
	d.Limits = engine.Limits{Sag: 0.25, Mass: 40}
	d.CoreDepth = 80
	r := engine.Result{
		Problems: []engine.Problem{
			{Severity: engine.Advice, Text: "Advice first in the list."},
			{Severity: engine.Shortfall, Field: "limits.sag", Part: "top", Text: "The top sags 0.31 mm, limit 0.25 mm."},
		},
		Mass: engine.MassReport{Total: 20, Glue: 0.5, Slab: 125, Share: 0.16, Pieces: 16, Blocking: 49, Laps: 55,
			ByKind: []engine.MassLine{{Kind: engine.SkinPart, Count: 2, Mass: 12}, {Kind: engine.CrosswisePart, Count: 11, Mass: 7.5}}},
		Stiffness: engine.Stiffness{Along: engine.Direction{EI: 7.2e10, SlabEI: 7.2e10 / 0.61}},
		Cases: []engine.CaseResult{{Name: "Planing", Sag: 0.31, SlabSag: 0.155, Bending: 0.3, Shear: 0.6, Twist: 0.1,
			Loads: []engine.LoadSag{{Name: "person", Sag: 0.31, Alone: 0.28, Stiffness: 2350}}}},
		Margins: []engine.Margin{
			{Code: "slot", Name: "Shear at a slot", Value: 0.8, Times: 0.7, Part: "L2", Capacity: 4, Demand: 5, KMod: 0.9, GammaM: 1.2, Source: "a handbook"},
			{Code: "skin", Name: "Top skin in compression", Value: 5.25, Times: math.Inf(1), Part: "top"},
		},
		Depth: engine.DepthReport{Exponent: math.Log2(2.7), Needed: 90,
			Curve: []engine.DepthPoint{{CoreDepth: 40, Sag: 1, Mass: 15}, {CoreDepth: 80, Sag: 0.31, Mass: 20}, {CoreDepth: 160, Sag: 0.1, Mass: 30}}},
		Knobs: []engine.Knob{{Field: "coreDepth", Name: "core depth", Up: &engine.KnobStep{Value: 85, Sag: -0.03, Mass: 0.2, Margin: 0.1}}},
		Build: engine.BuildPlan{LoadFrom: "2026-05-03T09:00", Steps: []engine.BuildStep{
			{Name: "Dry assembly", Low: 20, High: 30, Starts: "2026-05-02T09:00", Ends: "2026-05-02T09:30"},
			{Name: "Cure", Low: 1440, High: 1440, Starts: "2026-05-02T09:30", Ends: "2026-05-03T09:30", Wait: true}}},
		Working: []engine.Working{{Key: "along.ei", Title: "Bending stiffness", Formula: "EI = E·I", Numbers: "9 000 · 8", Result: "72 000 N·mm²", Source: "a handbook", Plain: "How hard it is to bend."}},
	}
	return Snapshot{Design: d, Result: r, Revision: 1}
}

// words is everything a card says, inside folds as well, one block a line.
func words(blocks []block) string {
	var all strings.Builder
	for _, b := range blocks {
		all.WriteString(strings.Join([]string{b.text, b.value, b.note}, " | ") + "\n" + words(b.inside))
	}
	return all.String()
}

func cardNamed(t *testing.T, cards []card, title string) card {
	t.Helper()
	for _, c := range cards {
		if c.title == title {
			return c
		}
	}
	t.Fatalf("there is no card %q", title)
	return card{}
}

func TestResultTexts(t *testing.T) {
	metric, imperial := handMade(), handMade()
	imperial.Lengths = length.Format{Imperial: true}
	tests := []struct {
		name string
		snap Snapshot
		card string
		want string
	}{
		{"problem with its shape and word", metric, "Problems", "■ Falls short. The top sags 0.31 mm, limit 0.25 mm."},
		// 0.31/25.4 = 0.012204…, 0.25/25.4 = 0.009842…
		{"problem in inches", imperial, "Problems", "The top sags 0.0122 in, limit 0.00984 in."},
		{"sag against its limit", metric, "Sag", "Planing | 0.31 mm | ■ over the limit of 0.25 mm"},
		{"what sag is made of", metric, "Sag", "Of it 60 % shear in the ribs, 30 % bending of the panel, 10 % twist. More or thicker ribs"},
		{"beside the slab", metric, "Sag", "A solid slab of the same outline would sag 0.155 mm there; this top sags 2 times as much at 16 % of its weight."},
		{"stiffness of the panel", metric, "Stiffness", "along the length | 7.2 × 10¹⁰ N·mm² | 61 % of a solid slab's at 16 % of its weight"},
		{"stiffness under a load", metric, "Stiffness", "under person | 2\u2009350 N/mm"},
		// 2350/4.4482216 · 25.4 = 13 418.7
		{"the same in pounds", imperial, "Stiffness", "under person | 13\u2009400 lbf/in"},
		{"weight against its limit", metric, "Weight and cost", "whole top | 20 kg | ● within the limit of 40 kg"},
		{"pieces", metric, "Weight and cost", "16 full-length ribs with 55 half-laps; the same grid of short blocking between full ribs would take 49 pieces."},
		{"lowest margin", metric, "Margins", "Shear at a slot | 0.8 | reached at 0.7 times this load already"},
		{"margin beyond counting", metric, "Margins", "Top skin in compression | 5.25 | more than 1 000 times this load"},
		{"why a margin", metric, "Margins", "it can bear | 4 MPa"},
		{"a step with its clock", metric, "Build steps", "1. Dry assembly | 20 to 30 min | Sat 2 May 09:00 to 09:30"},
		{"a wait over night", metric, "Build steps", "2. Cure | 24 h | Sat 2 May 09:30 to Sun 3 May 09:30; nobody works"},
		{"when it may be loaded", metric, "Build steps", "Put nothing on it before Sun 3 May 09:00."},
		{"working", metric, "Working", "comes to | 72 000 N·mm²"},
	}
	for _, tc := range tests {
		t.Run(tc.name, func(t *testing.T) {
			got := words(cardNamed(t, resultCards(tc.snap), tc.card).blocks)
			if !strings.Contains(got, tc.want) {
				t.Errorf("card %q says\n%swant in it: %q", tc.card, got, tc.want)
			}
		})
	}
}

func TestGravestProblemFirst(t *testing.T) {
	blocks := cardNamed(t, resultCards(handMade()), "Problems").blocks
	if !strings.HasPrefix(blocks[0].text, "■ Falls short") || blocks[0].field != "limits.sag" || blocks[0].part != "top" {
		t.Errorf("the first problem is %+v; want the one that falls short, with its field and part", blocks[0])
	}
}

func TestCardsInOrder(t *testing.T) {
	want := []string{"Problems", "Sag", "Stiffness", "Weight and cost", "Margins", "Build steps", "Working"}
	cards := resultCards(handMade())
	if len(cards) != len(want) {
		t.Fatalf("%d cards; want %d", len(cards), len(want))
	}
	for i, c := range cards {
		if c.title != want[i] {
			t.Errorf("card %d is %q; want %q", i, c.title, want[i])
		}
	}
}

func TestBlockedDesignShowsNoFigures(t *testing.T) {
	s := handMade()
	s.Result.Problems = append(s.Result.Problems, engine.Problem{Severity: engine.Blocking, Field: "coreDepth", Text: "The core depth is 0 mm, but must be more."})
	if got := stateLine(s); got != "There are no figures until this is put right: The core depth is 0 mm, but must be more." {
		t.Errorf("stateLine = %q; want the blocking problem", got)
	}
	if cards := resultCards(s); len(cards) != 1 || cards[0].title != "Problems" {
		t.Errorf("%d cards beside a blocking problem; want the problems alone", len(cards))
	}
}

func TestStaleFiguresAreInPencil(t *testing.T) {
	lookApp(t)
	r := newCardPane(NewSession(func(func()) {}, func(context.Context, engine.Design) (engine.Result, error) { return engine.Result{}, nil }), resultCards)
	s := handMade()
	for _, stale := range []bool{false, true, false} {
		s.Stale = stale
		r.Show(s)
		n := 0
		for _, c := range r.cards {
			for _, v := range c.list.views {
				if line, ok := v.(*lineView); ok {
					n++
					if line.line.Data().Stale != stale {
						t.Fatalf("stale %t: %q is shown as stale %t", stale, line.line.Data().Name, !stale)
					}
				}
			}
		}
		if n < 20 {
			t.Fatalf("only %d lines were looked at", n)
		}
		if got := strings.HasPrefix(r.state.Text(), "Computing…"); got != stale {
			t.Errorf("stale %t: the line above says %q", stale, r.state.Text())
		}
	}
}

func TestPressingALinePicksItsPart(t *testing.T) {
	lookApp(t)
	s := NewSession(func(func()) {}, func(context.Context, engine.Design) (engine.Result, error) { return engine.Result{}, nil })
	r := newCardPane(s, resultCards)
	w := test.NewTempWindow(t, r.content)
	w.Resize(fyne.NewSize(360, 700))
	r.Show(handMade())
	var asked string
	s.WatchFocus(func(f Focus) { asked += f.Field })
	for _, c := range r.cards {
		for _, v := range c.list.views {
			line, ok := v.(*lineView)
			if !ok || line.line.Data().Name != "Shear at a slot" && !strings.HasPrefix(line.line.Data().Name, "■ Falls short") {
				continue
			}
			test.Tap(line.object.(*widgets.Pressable))
		}
	}
	if asked != "limits.sag" {
		t.Errorf("pressing the problem asked for field %q; want limits.sag", asked)
	}
	if got := s.Focus().Part; got != "L2" {
		t.Errorf("pressing the margin picked %q; want L2", got)
	}
}

func TestFoldsStayOpenWhileFiguresChange(t *testing.T) {
	lookApp(t)
	r := newCardPane(NewSession(func(func()) {}, func(context.Context, engine.Design) (engine.Result, error) { return engine.Result{}, nil }), resultCards)
	s := handMade()
	r.Show(s)
	fold := func() *foldView {
		for _, c := range r.cards {
			for _, v := range c.list.views {
				if f, ok := v.(*foldView); ok && c.title == "Working" {
					return f
				}
			}
		}
		t.Fatal("there is no working")
		return nil
	}
	fold().toggle()
	s.Result.Working[0].Numbers = "9 500 · 8"
	r.Show(s)
	if !fold().inside.Visible() || !strings.Contains(words(fold().list.blocks), "9 500 · 8") {
		t.Errorf("after new figures the working shows %q", words(fold().list.blocks))
	}
}

func TestInUnit(t *testing.T) {
	imperial := length.Format{Imperial: true, Denominator: 16}
	tests := []struct{ text, want string }{
		{"Ribs 1 and 2 stand 25.4 mm apart.", `Ribs 1 and 2 stand 1" apart.`},
		{"from 50.8 mm to 76.2 mm", `from 2" to 3"`},
		{"one every 152.4 to 203.2 mm", `one every 6" to 8"`},
		{"a pad of 50.8 × 76.2 mm", `a pad of 2" × 3"`},
		{"from 2 to 60 can be computed", "from 2 to 60 can be computed"},
		{"1 270 mm long", `50" long`},
		{"a sag of 0.25 mm", "a sag of 0.00984 in"},
		{"72 000 N·mm² and 5 N/mm", "72 000 N·mm² and 28.6 lbf/in"}, // 5/4.448·25.4 = 28.55
		{"40 mm² of glue", "0.062 in² of glue"},
		{"12 mmHg", "12 mmHg"},
	}
	for _, tc := range tests {
		if got := inUnit(tc.text, imperial); got != tc.want {
			t.Errorf("inUnit(%q) = %q; want %q", tc.text, got, tc.want)
		}
		if got := inUnit(tc.text, length.Format{}); got != tc.text {
			t.Errorf("inUnit(%q) in millimetres = %q; want it as it is", tc.text, got)
		}
	}
}

func TestForceWords(t *testing.T) {
	// 1961.33 N is 200 kg under standard gravity; 200/0.45359237 = 440.9 lb.
	tests := []struct {
		newtons float64
		f       length.Format
		want    string
	}{
		{1961.33, length.Format{}, "1\u2009960 N · 200 kg · about two people"},
		{1961.33, length.Format{Imperial: true}, "1\u2009960 N · 441 lb · about two people"},
		{490.3325, length.Format{}, "490 N · 50 kg · about half a person"},
		{1, length.Format{}, "1 N · 0.102 kg"},
	}
	for _, tc := range tests {
		if got := forceText(tc.newtons, tc.f); got != tc.want {
			t.Errorf("forceText(%v) = %q; want %q", tc.newtons, got, tc.want)
		}
	}
}

func TestPowerOfTen(t *testing.T) {
	for v, want := range map[float64]string{7.2e10: "7.2 × 10¹⁰", 9.999e9: "1 × 10¹⁰", 1234: "1\u2009230", 0: "0"} {
		if got := powerOfTen(v); got != want {
			t.Errorf("powerOfTen(%v) = %q; want %q", v, got, want)
		}
	}
}

// A margin's place is in the person's unit, and a margin below 1 says so.
func TestMarginDetailInInches(t *testing.T) {
	m := engine.Margin{Code: "rib.shear", Where: "rib L1, 254 mm from the left end", Capacity: 1, Demand: 2, Unit: "MPa"}
	if text := words(marginDetail(m, length.Format{Imperial: true, Denominator: 16})); !strings.Contains(text, "10\" from the left end") || strings.Contains(text, "mm") {
		t.Errorf("in inches it says %q", text)
	}
	if got := timesText(0.5); got != "reached at 0.5 times this load already" {
		t.Errorf("a half of the load: %q", got)
	}
}
