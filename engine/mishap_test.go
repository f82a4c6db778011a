package engine

import (
	"context"
	"strings"
	"testing"
)

// Every mishap that marks the panel makes it weaker or softer, and every mark is
// one that validates.
func TestMishapsAreRated(t *testing.T) {
	t.Parallel()
	for _, m := range Mishaps {
		if m.Name == "" || m.AtOnce == "" {
			t.Errorf("%s says nothing", m.Key)
		}
		d := Demo()
		part := "L2"
		if m.Skin {
			part = TopSeam
		}
		d.Suffer(m, part, "", "clamp-bottom")
		if got := d.logOf("clamp-bottom").Note; got != m.Name+": "+part {
			t.Errorf("%s: the step notes %q", m.Key, got)
		}
		d.Suffer(m, part, "", "")
		if len(d.Built) != 1 {
			t.Errorf("%s twice on one part makes %d marks; want 1", m.Key, len(d.Built))
		}
		r, err := Compute(context.Background(), d)
		if err != nil || r.Blocked() || r.AsBuilt == nil {
			t.Fatalf("%s: %v, blocked %v, as built %v", m.Key, err, r.Blocked(), r.AsBuilt)
		}
		if !(r.AsBuilt.Sag > r.AsBuilt.DesignedSag) {
			t.Errorf("%s: it sags %g as built, %g as designed", m.Key, r.AsBuilt.Sag, r.AsBuilt.DesignedSag)
		}
		mends := d.Mends(r)
		if len(mends) != 1 || len(mends[0].Ways) < 3 || !strings.Contains(mends[0].What, part) || !strings.Contains(strings.Join(mends[0].Ways, " "), "As built it sags") {
			t.Errorf("%s: mends %+v", m.Key, mends)
		}
	}
}

// A mishap of all ribs of one way marks each; what can be done is told once.
func TestMishapOfAllRibs(t *testing.T) {
	t.Parallel()
	d := Demo()
	m, ok := MishapOf("cold")
	if !ok {
		t.Fatal("there is no cold night")
	}
	d.Suffer(m, string(CrosswisePart), "", "hold-top")
	if len(d.Built) != d.Crosswise.number() || d.Built[0].To != d.Width {
		t.Errorf("%d ribs are marked up to %g; want %d up to %g", len(d.Built), d.Built[0].To, d.Crosswise.number(), d.Width)
	}
	if mends := d.Mends(Result{}); len(mends) != 1 || !strings.Contains(mends[0].What, "C1, C2") {
		t.Errorf("it is told %d times: %+v", len(mends), mends)
	}
}

// A rib that is marked along a stretch and then fails whole is marked whole.
func TestMishapWidensAMark(t *testing.T) {
	t.Parallel()
	d := Demo()
	d.Built = []Built{{Kind: RibUnglued, Part: "L2", From: 400, To: 700}}
	m, _ := MishapOf("not-wetted")
	d.Suffer(m, "L2", "", "")
	if len(d.Built) != 1 || d.Built[0].From != 0 || d.Built[0].To != d.Length {
		t.Errorf("marked: %+v; want L2 from end to end", d.Built)
	}
}

// A margin below 1 as built limits the load to what is left of it.
func TestMendsLimitTheLoad(t *testing.T) {
	t.Parallel()
	d := Demo()
	d.Built = []Built{{Kind: SeamOpen, Part: "seam 1"}}
	r := Result{AsBuilt: &AsBuilt{Sag: 0.5, DesignedSag: 0.2, Margin: 0.8, DesignedMargin: 1.4, Lowest: Margin{Name: "Skin in tension", Times: 0.7}}}
	if got := strings.Join(d.Mends(r)[0].Ways, " "); !strings.Contains(got, "no more than 70 %") {
		t.Errorf("a margin of 0.8 at 0.7 times the load says %q", got)
	}
	r.AsBuilt.Lowest.Times = 0
	if got := strings.Join(d.Mends(r)[0].Ways, " "); !strings.Contains(got, "own weight alone") || strings.Contains(got, "still carries") {
		t.Errorf("a margin of 0.8 whatever the load says %q", got)
	}
}

// The own weight's sag stays when the load is taken off: by hand, of 0.5 mm 0.1
// are the own weight's, so that 0.3 leave 0.2 of 0.4 for the load, a half.
func TestMendsLimitTheSag(t *testing.T) {
	t.Parallel()
	d := Demo()
	d.Limits.Sag = 0.3
	d.Built = []Built{{Kind: SeamOpen, Part: "seam 1"}}
	r := Result{Cases: []CaseResult{{Sag: 0.1, OwnSag: 0.04}, {Sag: 0.25, OwnSag: 0.05}},
		AsBuilt: &AsBuilt{Sag: 0.5, Sags: []float64{0.2, 0.5}, DesignedSag: 0.25, Margin: 1.2, DesignedMargin: 1.4, Lowest: Margin{Name: "Skin in tension", Times: 1.3}}}
	if got := strings.Join(d.Mends(r)[0].Ways, " "); !strings.Contains(got, "about 50 %") {
		t.Errorf("0.5 mm where 0.3 were asked for says %q", got)
	}
	d.Limits.Sag = 0.1
	if got := strings.Join(d.Mends(r)[0].Ways, " "); !strings.Contains(got, "own weight alone") {
		t.Errorf("0.5 mm where 0.1 were asked for says %q", got)
	}
}

// What fails at one skin is marked there alone and noted so; both sides of a rib are two
// marks. A wrong edge everywhere swallows a stretch of it.
func TestMishapAtOneSkin(t *testing.T) {
	t.Parallel()
	d := Demo()
	m, _ := MishapOf("not-wetted")
	for _, step := range []string{"spread-bottom", "clamp-top"} {
		d.Suffer(m, "L2", SkinOfStep(step), step)
	}
	if len(d.Built) != 2 || d.Built[0].Side != BottomSeam || d.Built[1].Side != TopSeam {
		t.Errorf("marked: %+v; want L2 once to the bottom and once to the top", d.Built)
	}
	if got := d.logOf("clamp-top").Note; got != m.Name+": L2 at the top skin" {
		t.Errorf("the step notes %q", got)
	}
	if got := SkinOfStep("spread-grid-1"); got != "" {
		t.Errorf("the grid glues the %s skin", got)
	}
	e := Demo()
	wrong, _ := MishapOf("wrong-edge")
	e.Built = []Built{{Kind: WrongEdge, Part: "C2", From: 100, To: 200}}
	e.Suffer(wrong, "C2", "", "")
	if len(e.Built) != 1 || !e.Built[0].everywhere() {
		t.Errorf("marked: %+v; want C2 all along", e.Built)
	}
}

// What a skin lacks is told with what is left of the glue line: by hand, of a rib 12 mm
// thick 5 mm are bare and 7 mm glued; of one that it slid past, nothing.
func TestMendsOfASlidSkin(t *testing.T) {
	t.Parallel()
	d := plainTop()
	for y, want := range map[float64]string{5: "At the front edge it lacks 5 mm, and of the 12 mm of rib L1 there 7 mm are glued to it", -40: "At the back edge it lacks 40 mm, and rib L5 there is not glued to it"} {
		d.Built = []Built{{Kind: SkinSlid, Part: TopSeam, Y: y}}
		if m := d.Mends(Result{}); len(m) != 1 || m[0].What != "Slid: the top skin" || !strings.HasPrefix(m[0].Ways[0], want) {
			t.Errorf("slid %g mm: %+v; want %q", y, m, want)
		}
	}
}

// What the top as built carries is said once: with the one thing that was made
// otherwise, or of all of them together.
func TestMendsTellTheLimitOnce(t *testing.T) {
	t.Parallel()
	d := Demo()
	d.Built = []Built{{Kind: SeamOpen, Part: "seam 1"}, {Kind: WrongEdge, Part: "L2"}, {Kind: WrongEdge, Part: "L3"}}
	mends := d.Mends(Result{AsBuilt: &AsBuilt{Sag: 0.5, DesignedSag: 0.2, Margin: 1.1, DesignedMargin: 1.4}})
	told := 0
	for _, m := range mends {
		told += strings.Count(strings.Join(m.Ways, " "), "As built it sags")
	}
	if len(mends) != 3 || mends[1].What != "Slotted in the wrong edge: L2, L3" || told != 1 || !strings.Contains(mends[2].Ways[0], "As built it sags") {
		t.Errorf("%+v", mends)
	}
}

// A rib of which two stretches are marked is named once, one at another skin beside it.
func TestMendsNameARibOnce(t *testing.T) {
	t.Parallel()
	d := *plainTop().withBuilt(Built{Kind: RibUnglued, Part: "L1", Side: TopSeam, To: 100}, Built{Kind: RibUnglued, Part: "L1", Side: TopSeam, From: 300, To: 400}, Built{Kind: RibUnglued, Part: "L1", Side: BottomSeam, To: 100})
	if got, want := d.Mends(Result{})[0].What, "Not glued: L1 to the top skin, L1 to the bottom skin"; got != want {
		t.Errorf("told as %q; want %q", got, want)
	}
}
