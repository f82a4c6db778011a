package saw

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
)

// ribs are eleven boards with five slots each.
var ribs = Job{Boards: 11, Slots: 5, Height: 80, Thickness: 12.1, Width: 12.3, Depth: 40.5}

func wayOf(t *testing.T, j Job, tools Tools, k Kind) Way {
	t.Helper()
	ways, err := Ways(j, tools)
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range ways {
		if w.Kind == k {
			return w
		}
	}
	t.Fatalf("no way %q", k)
	return Way{}
}

func TestRailOnEdgeByHand(t *testing.T) {
	t.Parallel()
	// One pack: 11 · 12.1 = 133.1 mm of 1400 − 350. Kerf 2.2, overlap 0.5:
	// 1 + ⌈10.1/1.7⌉ = 1 + ⌈5.94⌉ = 7 passes; 5 slots, 35 strokes.
	// Minutes: 20 + 5 + 5·0.5 + 35·0.3 + 35·0.1331·0.3 = 39.398,
	// 40 + 12 + 5·1.5 + 35·0.6 + 35·0.1331·0.7 = 83.761.
	w := wayOf(t, ribs, Usual(), RailOnEdge)
	if !w.Can || w.AtOnce != 11 || w.Packs != 1 || w.Passes != 7 || w.Layers != 1 || w.Strokes != 35 || w.Overrun != 0 {
		t.Errorf("%+v", w)
	}
	near(t, "clear", w.Clear, 71.009, 0.001) // √(40.5·124.5)
	near(t, "least minutes", w.Minutes.Low, 39.398, 0.001)
	near(t, "most minutes", w.Minutes.High, 83.761, 0.001)
}

func TestPacksAreSharedOutEvenly(t *testing.T) {
	t.Parallel()
	// 150 mm on a table saw take 12 boards of 12.1 mm; 25 make three packs of 9.
	j := ribs
	j.Boards = 25
	if w := wayOf(t, j, Usual(), BenchOnEdge); w.AtOnce != 9 || w.Packs != 3 || w.Strokes != 3*5*w.Passes {
		t.Errorf("%+v; want 3 packs of 9", w)
	}
	// A stroke of 60 mm takes 4; 25 make 7 packs of 4.
	tools := Tools{Radial: Saw{Blade: 254, Kerf: 3.2, Reach: 70, Travel: 60}}
	if w := wayOf(t, j, tools, RadialOnEdge); !w.Can || w.AtOnce != 4 || w.Packs != 7 {
		t.Errorf("%+v; want 7 packs of 4", w)
	}
}

func TestRailFlat(t *testing.T) {
	t.Parallel()
	tools := Tools{Rail: Saw{Blade: 165, Kerf: 2.2, Reach: 50}, Overrun: 33, Plunge: 12}
	j := ribs
	j.Thickness = 12
	// TestLargestStack: three boards of 12 mm run out 32.091 mm; 11 boards in 4 stacks of 3.
	w := wayOf(t, j, tools, RailFlat)
	if !w.Can || w.AtOnce != 3 || w.Packs != 4 || w.Stack != (Stack{165, 3, 12, 12}) {
		t.Errorf("%+v; want 4 stacks of 3", w)
	}
	near(t, "overrun", w.Overrun, 32.091, 0.001)
	j.Height = 70 // 40.5 and 32.1 are more
	if w := wayOf(t, j, tools, RailFlat); w.Can || !strings.Contains(w.Why, "in two") {
		t.Errorf("boards cut in two: %+v", w)
	}
	// A single board with 12 mm of plunge runs out 15.3 mm. Of 5 mm accepted the
	// least plunge is beyond the saw's 50 mm: at 38 mm it is 6.36 mm, √(50·115) − √(38·127).
	tools.Overrun = 0
	if w := wayOf(t, ribs, tools, RailFlat); w.Can || !strings.Contains(w.Why, "finish by hand") {
		t.Errorf("5 mm accepted: %+v", w)
	}
	// 7 mm are within reach.
	tools.Overrun = 7
	if w := wayOf(t, j, tools, RailFlat); w.Can || !strings.Contains(w.Why, "A plunge of 3") {
		t.Errorf("7 mm accepted: %+v", w)
	}
}

func TestRouterAndNarrowSaws(t *testing.T) {
	t.Parallel()
	// On edge: 40.5 mm by 6 are 7 layers, 12 mm in 12.3 are 2 passes.
	if w := wayOf(t, ribs, Usual(), RouterOnEdge); !w.Can || w.Layers != 7 || w.Passes != 2 || w.Strokes != 5*14 {
		t.Errorf("%+v", w)
	}
	// Flat: 50 mm take 4 boards of 12.1, 11 boards in 3 stacks of 4, 48.4 mm by 6 in 9 layers.
	if w := wayOf(t, ribs, Usual(), RouterFlat); !w.Can || w.AtOnce != 4 || w.Packs != 3 || w.Layers != 9 {
		t.Errorf("%+v", w)
	}
	// Jig saw: 60 mm take 4 of 12.1; hand saw: 40 mm take 3.
	if w := wayOf(t, ribs, Usual(), JigFlat); !w.Can || w.AtOnce != 4 || w.Passes != 2 {
		t.Errorf("%+v", w)
	}
	if w := wayOf(t, ribs, Usual(), HandOnEdge); !w.Can || w.AtOnce != 3 || w.Packs != 4 {
		t.Errorf("%+v", w)
	}
}

func TestDado(t *testing.T) {
	t.Parallel()
	tools := Tools{Bench: Saw{Blade: 254, Kerf: 3.2, Reach: 80}, Dado: Dado{Diameter: 203, Least: 6, Most: 20, Reach: 50}}
	// 40.5 mm by 20 are 3 layers, one pass wide.
	w := wayOf(t, ribs, tools, DadoBench)
	if !w.Can || w.Passes != 1 || w.Layers != 3 {
		t.Errorf("%+v", w)
	}
	if w := wayOf(t, ribs, tools, DadoRadial); w.Can || w.Owned {
		t.Errorf("without a radial saw: %+v", w)
	}
	j := ribs
	j.Width = 5
	if w := wayOf(t, j, tools, DadoBench); w.Can || !strings.Contains(w.Why, "6 mm") {
		t.Errorf("slot narrower than the cutter: %+v", w)
	}
	j.Width = 30 // 1 + ⌈10/19.5⌉
	if w := wayOf(t, j, tools, DadoBench); w.Passes != 2 {
		t.Errorf("wider slot: %+v", w)
	}
}

func TestWhatCannotSaysWhy(t *testing.T) {
	t.Parallel()
	ways, err := Ways(ribs, Tools{})
	if err != nil || len(ways) != len(paces) || Best(ways) != -1 {
		t.Fatalf("%d ways, %v, best %d", len(ways), err, Best(ways))
	}
	seen := map[Kind]bool{}
	for _, w := range ways {
		if w.Owned || w.Can || w.Why == "" || seen[w.Kind] || len(w.Cautions) == 0 || w.Name == "" {
			t.Errorf("nothing owned: %+v", w)
		}
		seen[w.Kind] = true
		if _, ok := paces[w.Kind]; !ok {
			t.Errorf("%q has no times", w.Kind)
		}
	}
	deep := ribs
	deep.Depth, deep.Height = 52, 104
	thin := ribs
	thin.Width = 2
	rail := Usual()
	rail.Rail.Travel = 360 // leaves 10 mm for the pack
	bare := Tools{Rail: Saw{Blade: 165}, Router: Router{Bit: 12}, Bench: Saw{Blade: 254}, Dado: Dado{Diameter: 203}}
	for _, c := range []struct {
		name  string
		job   Job
		tools Tools
		kind  Kind
		why   string
	}{
		{"reach", deep, Usual(), RailOnEdge, "reaches 50 mm, less than the 52 mm"},
		{"kerf", thin, Usual(), BenchOnEdge, "3.2 mm wide, more than the slot of 2 mm"},
		{"bit", thin, Usual(), RouterFlat, "12 mm wide"},
		{"two cuts", thin, Usual(), JigFlat, "wider than the slot"},
		{"short rail", ribs, rail, RailOnEdge, "room"},
		{"no kerf", ribs, bare, RailOnEdge, "Give the width"},
		{"no kerf flat", ribs, bare, RailFlat, "Give the width"},
		{"no depth", ribs, bare, RouterOnEdge, "how deep"},
		{"no widths", ribs, bare, DadoBench, "least and the greatest"},
	} {
		if w := wayOf(t, c.job, c.tools, c.kind); w.Can || !w.Owned || !strings.Contains(w.Why, c.why) {
			t.Errorf("%s: %+v; want %q", c.name, w, c.why)
		}
	}
}

func TestBestRunsOutLeast(t *testing.T) {
	t.Parallel()
	miss := Miss{Depth: 0.5}
	a := Way{Can: true, Minutes: Range{5, 10}, Overrun: 4, Miss: miss}
	b := Way{Can: true, Minutes: Range{5, 90}, Miss: miss}
	c := Way{Can: true, Minutes: Range{5, 80}, Miss: miss}
	d := Way{Can: true, Minutes: Range{5, 90}, Overrun: 3, Miss: miss}
	no := Way{Minutes: Range{1, 2}, Miss: miss}
	for i, ways := range [][]Way{{a, b, c}, {a, no, c}, {no, no, a}, {a, c, d}, {a, d}, {b, c}} {
		if got, want := Best(ways), []int{2, 2, 2, 1, 1, 1}[i]; got != want {
			t.Errorf("Best of list %d = %d; want %d", i, got, want)
		}
	}
}

func TestMoreWorkTakesNoLess(t *testing.T) {
	t.Parallel()
	last := map[Kind]Range{}
	for n := 1; n < 60; n += 7 {
		for s := 2; s < 12; s += 9 {
			j := ribs
			j.Boards, j.Slots = n, s
			ways, err := Ways(j, Usual())
			if err != nil {
				t.Fatal(err)
			}
			for _, w := range ways {
				if !w.Can {
					continue
				}
				if !(w.Minutes.Low > 0) || w.Minutes.High < w.Minutes.Low || w.AtOnce*w.Packs < n || (w.Packs-1)*w.AtOnce >= n {
					t.Errorf("%d boards: %+v", n, w)
				}
				if s == 11 {
					if w.Minutes.High < last[w.Kind].High || w.Minutes.Low < last[w.Kind].Low {
						t.Errorf("%d boards take %v by %s, fewer take %v", n, w.Minutes, w.Kind, last[w.Kind])
					}
					last[w.Kind] = w.Minutes
				}
			}
		}
	}
}

func TestToolsThatStateNothing(t *testing.T) {
	t.Parallel()
	if (Tools{Overrun: 3}).Stated() || !Usual().Stated() {
		t.Error("Stated is about tools owned")
	}
	f := Tools{Router: Router{Bit: 8}, Plunge: 4}.Filled()
	if f.Overlap != UsualOverlap || f.Overrun != UsualOverrun || f.Plunge != 4 || f.Router.Step != 4 {
		t.Errorf("%+v", f)
	}
}

func TestWaysRefuses(t *testing.T) {
	t.Parallel()
	for name, change := range map[string]func(*Job){
		"no boards":      func(j *Job) { j.Boards = 0 },
		"many boards":    func(j *Job) { j.Boards = maxBoards + 1 },
		"no slots":       func(j *Job) { j.Slots = 0 },
		"no thickness":   func(j *Job) { j.Thickness = 0 },
		"NaN width":      func(j *Job) { j.Width = math.NaN() },
		"NaN height":     func(j *Job) { j.Height = math.NaN() },
		"cut in two":     func(j *Job) { j.Depth = j.Height },
		"infinite width": func(j *Job) { j.Width = math.Inf(1) },
	} {
		j := ribs
		change(&j)
		if _, err := Ways(j, Usual()); !errors.Is(err, ErrDomain) {
			t.Errorf("%s: %v; want ErrDomain", name, err)
		}
	}
}

func TestRandomJobs(t *testing.T) {
	t.Parallel()
	random := rand.New(rand.NewPCG(3, 7))
	size := func() float64 { // from a hair to a house, now and then nothing
		if random.IntN(8) == 0 {
			return 0
		}
		return math.Exp(random.Float64()*14 - 5)
	}
	can := 0
	for range 8000 {
		j := Job{1 + random.IntN(20), 1 + random.IntN(12), size(), size(), size(), size()}
		s := Saw{size(), size(), size(), size()}
		tools := Tools{Rail: s, Bench: s, Radial: s, Dado: Dado{size(), size(), size(), size()}, Router: Router{size(), size(), size()},
			Jig: Narrow{size(), size()}, Hand: Narrow{size(), size()}, Overlap: size(), Overrun: size(), Plunge: size()}
		ways, err := Ways(j, tools)
		if err != nil {
			continue
		}
		for _, w := range ways {
			if !w.Can {
				if w.Why == "" {
					t.Errorf("%+v with %+v: %s cannot and does not say why", j, tools, w.Kind)
				}
				continue
			}
			can++
			if w.AtOnce < 1 || w.Packs < 1 || w.Passes < 1 || w.Layers < 1 || w.Strokes < 1 || !(w.Minutes.High >= w.Minutes.Low) || !(w.Overrun >= 0) || j.Depth+w.Overrun >= j.Height {
				t.Errorf("%+v with %+v: %+v", j, tools, w)
			}
		}
	}
	if can < 1000 {
		t.Errorf("only %d ways of all could", can)
	}
}
