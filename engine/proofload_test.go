package engine

import (
	"context"
	"math"
	"reflect"
	"slices"
	"strings"
	"sync"
	"testing"

	"flatwright/engine/proof"
)

// provedTop is the plain top with a load large enough to read, by dial.
func provedTop() Design {
	d := plainTop()
	d.Cases[0].Loads[0].Force = 2500
	d.Proof = NewProof(d)
	d.Proof.Way = "dial"
	return d
}

// proofBase is what a plan asks of a result: that the whole panel was computed.
func proofBase(t *testing.T, d Design) Result {
	t.Helper()
	r, err := Glance(context.Background(), d)
	if err == nil {
		r, err = Refine(context.Background(), d, r, Interactive)
	}
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// provedPlan is the plan of the proved top, made once.
var provedPlan = sync.OnceValues(func() (ProofPlan, error) {
	d := provedTop()
	r, err := Glance(context.Background(), d)
	if err == nil {
		r, err = Refine(context.Background(), d, r, Interactive)
	}
	if err != nil {
		return ProofPlan{}, err
	}
	return PlanProof(context.Background(), d, r)
})

func thePlan(t *testing.T) ProofPlan {
	t.Helper()
	p, err := provedPlan()
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func planOf(t *testing.T, d Design) ProofPlan {
	t.Helper()
	r := proofBase(t, d)
	p, err := PlanProof(context.Background(), d, r)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// read gives a round the readings of a top that sags scale times as much, beds in
// first, and begins anywhere.
func read(d *Design, p ProofPlan, round int, scale, bedding float64) {
	d.Proof.Rounds[round].Readings = nil
	for i, s := range p.Rounds[round].Stages {
		v := 4.0 + scale*s.Expected
		if i > 0 {
			v += bedding
		}
		d.Proof.Rounds[round].Readings = append(d.Proof.Rounds[round].Readings, ProofReading{Stage: i, Read: v})
	}
}

func TestProofPlanStaysWithinTheService(t *testing.T) {
	t.Parallel()
	d := provedTop()
	p := thePlan(t)
	if p.Refused != "" || len(p.Rounds) != 1 {
		t.Fatalf("plan %+v", p)
	}
	near(t, "service load", p.Service, 2500, 0)
	s := p.Rounds[0].Stages
	// Nothing, four up, half of it, nothing.
	if len(s) != 7 || s[0].Force != 0 || s[6].Force != 0 || !s[5].Down || !s[6].Down || s[4].Down {
		t.Fatalf("stages %+v", s)
	}
	for i, q := range s {
		near(t, "force of the pieces", q.Force, float64(q.Pieces)*21*Gravity, 1e-12)
		if q.Force > p.Cap || i > 0 && i < 5 && (q.Force <= s[i-1].Force || q.Expected <= s[i-1].Expected) || !(q.Low <= q.Expected && q.Expected <= q.High) {
			t.Errorf("stage %d: %+v", i, q)
		}
	}
	if m := p.Rounds[0].Lowest; m.Times < 1 {
		t.Errorf("a stack that leaves %s at %g", m.Name, m.Times)
	}
	r := proofBase(t, d)
	// A top that is not computed, without a load, without a round: said in words.
	for name, change := range map[string]func(*Design){
		"no round":    func(d *Design) { d.Proof.Rounds = nil },
		"no load":     func(d *Design) { d.Cases = nil },
		"beside it":   func(d *Design) { d.Proof.Rounds[0].X = -5 },
		"gauge":       func(d *Design) { d.Proof.X = 5000 },
		"big piece":   func(d *Design) { d.Proof.Piece = 400 },
		"many stages": func(d *Design) { d.Proof.Stages = 99 },
		"edge":        func(d *Design) { d.Proof.Way, d.Proof.From = "straightedge", 1200 },
	} {
		bad := d.Clone()
		change(&bad)
		p, err := PlanProof(context.Background(), bad, r)
		if err != nil {
			t.Fatal(err)
		}
		if p.Refused == "" || len(p.Rounds) != 0 {
			t.Errorf("%s: no refusal", name)
		}
	}
}

// TestProofReadsBySagCoefficients compares expected readings with the published
// coefficients of reference.md D2, w = k1·P·L³/D + k2·P·L/U, where the whole panel is a
// beam: much longer than wide, so thin-walled that the closed form's rigidity holds, the
// load over the whole width. Two halves of a load at both third or quarter points move the
// middle as much as the whole of it at one of them (symmetry), so a stack off the middle
// has their coefficients: by hand P·a·(3L² − 4a²)/48D + P·a/2U. The rigidities are those
// of the closed form, a second method.
func TestProofReadsBySagCoefficients(t *testing.T) {
	t.Parallel()
	const span, from = 2700.0, 150.0
	d := plainTop()
	d.Length, d.Width = 3000, 300
	d.Lengthwise.Count, d.Crosswise.Count = 4, 16
	d.Supports.EndInset, d.Supports.Bearing = from, 30
	d.Cases[0].Loads = []Load{{Name: "line", Kind: Line, Across: true, Force: 600, X: 1500, Y: 150, SizeX: 20, SizeY: 300}}
	d.Proof = NewProof(d)
	d.Proof.Way = "dial"
	cases := []struct {
		name      string
		at, sizeX float64
		k1, k2    float64
	}{
		{"in the middle", span / 2, 20, 1.0 / 48, 1.0 / 4},
		{"at a third", span / 3, 20, 23.0 / 1296, 1.0 / 6},
		{"at a quarter", span / 4, 20, 11.0 / 768, 1.0 / 8},
		{"all over the span", span / 2, span, 5.0 / 384, 1.0 / 8},
	}
	d.Proof.Rounds = nil
	for _, c := range cases {
		d.Proof.Rounds = append(d.Proof.Rounds, ProofRound{X: from + c.at, Y: 150, SizeX: c.sizeX, SizeY: 300})
	}
	r := proofBase(t, d)
	p, err := PlanProof(context.Background(), d, r)
	if err != nil || p.Refused != "" {
		t.Fatal(p.Refused, err)
	}
	along := r.Stiffness.Along
	for i, c := range cases {
		full := p.Rounds[i].full()
		want := c.k1*full.Force*span*span*span/along.EI + c.k2*full.Force*span/along.GA
		// Supports sink, midway between them by the mean: half the force on each of two
		// rails of 30 × 300 mm, 10 N/mm³.
		want += full.Force / 2 / (30 * 300 * WoodOnWood)
		if got := full.Expected; math.Abs(got/want-1) > 0.05 {
			t.Errorf("%s: expected reading %.3f mm; by k1 = %.5f and k2 = %.4f of D2 %.3f mm, within 5 %% (what EI of the first sine term and the mesh part by)", c.name, got, c.k1, c.k2, want)
		}
	}
}

// TestStraightedgeRidesDown: over the top's own two points, of a beam loaded in the
// middle over L, a straightedge from a quarter to three quarters reads
// w(L/2) − w(L/4) = P·L³/48·(1 − 11/16) = 5/16 of the whole by bending, and by shear
// a half (reference: cantilever and beam tables, 11/768 of reference.md D2).
func TestStraightedgeRidesDown(t *testing.T) {
	t.Parallel()
	d := provedTop()
	d.Proof.Way = "straightedge"
	over := planOf(t, d).Rounds[0].full()
	short := d.Clone()
	short.Proof.From, short.Proof.To = 450, 1150 // quarters of the span from 100 to 1500
	part := planOf(t, short).Rounds[0].full()
	if share := part.Expected / over.Expected; share < 5.0/16 || share > 0.5 {
		t.Errorf("a straightedge over the middle half reads %.3f of that over the whole; want between 5/16 and 1/2", share)
	}
	// Over the supports it reads what a bar from support to support does, but for how
	// far these sink.
	bar := d.Clone()
	bar.Proof.Over = OnTheSupports
	onBar := planOf(t, bar).Rounds[0]
	if onBar.full().Expected <= over.Expected || len(onBar.Where) != 1 || len(planOf(t, d).Rounds[0].Where) != 2 {
		t.Errorf("bar %g, straightedge %g: the supports sink, and a straightedge needs a lane", onBar.full().Expected, over.Expected)
	}
}

func TestJudgeProofTellsStiffness(t *testing.T) {
	t.Parallel()
	d := provedTop()
	p := thePlan(t)
	empty := JudgeProof(d, p)
	if empty.Rounds[0].Fit || empty.Rounds[0].Next != 0 || empty.Call != proof.GoOn {
		t.Errorf("nothing read: %+v", empty)
	}
	read(&d, p, 0, 1.1, 0.05)
	r := JudgeProof(d, p)
	q := r.Rounds[0]
	near(t, "scale", q.Fitted.Scale, 1.1, 0.03)
	if !(q.Low < q.Planned/1.1 && q.Planned/1.1 < q.High) || q.Next != -1 || r.Call != proof.GoOn {
		t.Errorf("result %+v", q)
	}
	// What lies on the line has no sign.
	read(&d, p, 0, 1.1, 0)
	exact := JudgeProof(d, p).Rounds[0]
	exact.Line.Off = -1e-9
	if text := strings.Join(exact.Lines(&p.Rounds[0]), " "); strings.Contains(text, "-0.000") || !strings.Contains(text, "+0.000 mm beside it") {
		t.Errorf("on the line: %q", text)
	}
	read(&d, p, 0, 1.1, 0.05)
	// A gauge that falls says the same.
	falls := d.Clone()
	falls.Proof.Falls = true
	for i := range falls.Proof.Rounds[0].Readings {
		falls.Proof.Rounds[0].Readings[i].Read *= -1
	}
	near(t, "stiffness by a gauge that falls", JudgeProof(falls, p).Rounds[0].Stiffness, q.Stiffness, 1e-12)
	// Twice as much, a noise, a set: stop.
	read(&d, p, 0, 2.5, 0)
	if r := JudgeProof(d, p); r.Call != proof.Stop || r.Rounds[0].Next != -1 {
		t.Errorf("sagging 2.5 times as much: call %d", r.Call)
	}
	read(&d, p, 0, 1, 0)
	d.Proof.Rounds[0].Cracking = true
	if r := JudgeProof(d, p); r.Call != proof.Stop {
		t.Error("cracking does not stop it")
	}
}

func TestJudgeProofHoldsByTheClock(t *testing.T) {
	t.Parallel()
	d := provedTop()
	p := thePlan(t)
	s := p.Rounds[0].Stages[1]
	d.Proof.Rounds[0].Readings = []ProofReading{{Stage: 0, Read: 1}}
	for i, at := range []string{"2026-05-02T23:56", "2026-05-03T00:01", "2026-05-03T00:06"} { // over midnight
		d.Proof.Rounds[0].Readings = append(d.Proof.Rounds[0].Readings, ProofReading{Stage: 1, Read: 1 + s.Expected + 0.2*float64(i), At: at})
	}
	r := JudgeProof(d, p)
	c := r.Rounds[0].Crept[1]
	if !c.Judged || c.Slowing || r.Call != proof.Stop {
		t.Errorf("creep that keeps its pace: %+v, call %d", c, r.Call)
	}
	near(t, "creep an hour", c.PerHour, 2.4, 1e-9) // 0.2 mm in 5 min
}

// TestRateProofFindsTheSoftSkins scales the skins of a top, reads what that top's own
// whole-panel model says, in two rounds, and asks what explains it.
func TestRateProofFindsTheSoftSkins(t *testing.T) {
	t.Parallel()
	d := provedTop()
	d.Proof.Rounds = append(d.Proof.Rounds, d.SecondRound())
	p := planOf(t, d)
	const factor = 0.8
	soft := d.scaled(unknownSkins, factor)
	reads, err := soft.provedReads(context.Background(), p)
	if err != nil {
		t.Fatal(err)
	}
	for i := range p.Rounds {
		read(&d, p, i, reads[i]/p.Rounds[i].full().Expected, 0)
	}
	r := JudgeProof(d, p)
	e := r.Told.Explanations[unknownSkins]
	if e.Factor < 0.76 || e.Factor > 0.87 { // first order, and the prior pulls towards the plan
		t.Errorf("skins explained by %.3f; want about %g", e.Factor, factor)
	}
	ratings, err := RateProof(context.Background(), d, p, r)
	if err != nil || len(ratings) == 0 {
		t.Fatal(ratings, err)
	}
	for _, q := range ratings {
		if len(q.Margins) == 0 || len(q.Sags) != len(d.Cases) || q.Sags[0][1] <= q.Sags[0][0] {
			t.Errorf("%s: sags %v, %d margins", q.Name, q.Sags, len(q.Margins))
		}
		for i, v := range q.Reads {
			// What each model says of the gauge is near what was read.
			if math.Abs(v/reads[i]-1) > 0.12 {
				t.Errorf("%s, round %d: the model reads %.3f where %.3f was read", q.Name, i+1, v, reads[i])
			}
		}
	}
	for _, line := range append(r.Lines(), r.Rounds[0].Lines(&p.Rounds[0])...) {
		if strings.Contains(line, "NaN") || strings.Contains(line, "Inf") || strings.Contains(line, "%!") {
			t.Errorf("line %q", line)
		}
	}
}

// TestProvedMarginsAreThoseOfTheFittedModel by another road: the same top drawn with skins
// of a material of its own whose moduli are the factor times as large, computed as any
// design is. What a part takes is the catalogue's still, wherever it is no buckling.
func TestProvedMarginsAreThoseOfTheFittedModel(t *testing.T) {
	t.Parallel()
	d := provedTop()
	p := planOf(t, d)
	read(&d, p, 0, 1.35, 0)
	r := JudgeProof(d, p)
	e := r.Told.Explanations[unknownSkins]
	ratings, err := RateProof(context.Background(), d, p, r)
	if err != nil {
		t.Fatal(err)
	}
	i := slices.IndexFunc(ratings, func(q ProofRating) bool { return q.Name == e.Name })
	if i < 0 || !(e.Factor < 0.9) {
		t.Fatalf("skins are %.3f times the plan and not rated: %+v", e.Factor, ratings)
	}
	soft := d.Clone()
	soft.Proof = Proof{}
	sheet, _ := d.Material(d.TopSkin.Material)
	sheet.Key = "limp"
	for _, v := range []*float64{&sheet.EAlong, &sheet.EAcross, &sheet.EBendAlong, &sheet.EBendAcross, &sheet.GEdge} {
		*v *= e.Factor
	}
	soft.Own = append(soft.Own, sheet)
	soft.TopSkin.Material, soft.BottomSkin.Material = "limp", "limp"
	drawn := refined(t, soft, Normal)
	if len(ratings[i].Margins) != len(drawn.Margins) {
		t.Fatalf("%d margins are rated; want %d", len(ratings[i].Margins), len(drawn.Margins))
	}
	moved := false
	for k, q := range ratings[i].Margins {
		want := drawn.Margins[k]
		near(t, want.Code, q.Proved.Value, want.Value, 1e-9*want.Value)
		moved = moved || math.Abs(q.Proved.Value/q.Planned.Value-1) > 0.01
		if q.Planned.Code == "" || strings.Contains(q.Proved.Code, "buckl") || strings.Contains(q.Proved.Code, "wrinkl") ||
			strings.Contains(q.Proved.Code, "bending") { // pulled or pressed, whichever is the less
			continue
		}
		near(t, want.Code+", what it takes", q.Proved.Capacity, q.Planned.Capacity, 1e-9*q.Planned.Capacity)
	}
	if !moved {
		t.Error("no margin moved by more than 1 % as the loads find another way")
	}
	near(t, "sag", ratings[i].Sags[0][1], drawn.Cases[0].Sag, 1e-9)
}

// TestSightAdvice: a stiff top read by a string cannot be seen; it says so, and what would
// help.
func TestSightAdvice(t *testing.T) {
	t.Parallel()
	d := plainTop()
	d.Proof = NewProof(d)
	d.Proof.Way = "string"
	q := planOf(t, d).Rounds[0]
	text := strings.Join(q.Advice, " ")
	if q.Sight.Useful || !strings.Contains(text, "too little to be seen") || !strings.Contains(text, "Read it by") || !strings.Contains(text, "span") || !strings.Contains(text, "load") {
		t.Errorf("advice %q for %+v", text, q.Sight)
	}
}

// TestWaysAgainstTheSag: by hand of 0.3 mm over two points of the top and 0.5 mm over what
// stays. A dial of 0.01 mm, which stands on the floor as a rule, tells 1.645·√2·0.01 =
// 0.023 mm, 4.7 % of 0.5 mm: fine enough; a straightedge of 0.03 mm on the top tells
// 0.070 mm, 23 % of 0.3 mm: only seen; a string of 0.25 mm tells 0.582 mm: nothing of it.
// Where the person says what the gauge stands on, that is taken for every way.
func TestWaysAgainstTheSag(t *testing.T) {
	t.Parallel()
	q := ProofRoundPlan{Rides: 0.3, Fixed: 0.5}
	for over, wants := range map[ProofReference][]string{
		"": {"Dial indicator, from the floor: 0.500 mm expected; tells 0.023 mm from nothing; the stiffness is known to 5 %: fine enough.",
			"Straightedge and feeler gauges, over two points of the top: 0.300 mm expected; tells 0.070 mm from nothing; seen, but the stiffness only known to 23 %.",
			"Taut string and rule, over two points of the top: 0.300 mm expected; tells 0.582 mm from nothing; too little to be seen."},
		OnTheTop:      {"Dial indicator, over two points of the top: 0.300 mm expected; tells 0.023 mm from nothing; the stiffness is known to 8 %: fine enough."},
		OnTheSupports: {"Straightedge and feeler gauges, over the supports: 0.500 mm expected; tells 0.070 mm from nothing; the stiffness is known to 14 %"},
	} {
		lines := q.WaysAgainst(Proof{Over: over})
		if len(lines) != 1+len(proof.Ways()) {
			t.Fatalf("%d lines: %q", len(lines), lines)
		}
		for _, want := range wants {
			if text := strings.Join(lines, "\n"); !strings.Contains(text, want) {
				t.Errorf("over %q not said: %q in\n%s", over, want, text)
			}
		}
	}
}

// TestOverEitherReference: whichever is planned, both references are told, as a plan with
// each of them expects; the top's own two points go down too, so they read less.
func TestOverEitherReference(t *testing.T) {
	t.Parallel()
	var full, rides, fixed [2]float64
	for i, over := range [...]ProofReference{OnTheTop, OnTheFloor} {
		d := provedTop()
		d.Proof.Over, d.Proof.From, d.Proof.To = over, 200, 1300
		q := planOf(t, d).Rounds[0]
		full[i], rides[i], fixed[i] = q.full().Expected, q.Rides, q.Fixed
	}
	for i := range 2 {
		near(t, "over the top", rides[i], full[0], 1e-9)
		near(t, "over the floor", fixed[i], full[1], 1e-9)
	}
	if !(rides[0] < 0.95*fixed[0]) {
		t.Errorf("over the top %.4f mm, over the floor %.4f mm; want less", rides[0], fixed[0])
	}
}

func TestProofAdvice(t *testing.T) {
	t.Parallel()
	if got := problemsOf(provedTop()); len(got) != len(problemsOf(plainTop())) {
		t.Errorf("a proof load in order is advised on: %v", got)
	}
	for want, change := range map[string]func(*Proof){
		"proof-stack proof.stack":                 func(p *Proof) { p.Stack = "elephants" },
		"proof-piece proof.piece":                 func(p *Proof) { p.Piece = -1 },
		"proof-share proof.share":                 func(p *Proof) { p.Share = 3 },
		"proof-stages proof.stages":               func(p *Proof) { p.Stages = 40 },
		"proof-way proof.way":                     func(p *Proof) { p.Way = "by eye" },
		"proof-over proof.over":                   func(p *Proof) { p.Over = "moon" },
		"proof-hold proof.hold":                   func(p *Proof) { p.Hold = -1 },
		"proof-at proof.rounds[0].readings[0].at": func(p *Proof) { p.Rounds[0].Readings = []ProofReading{{At: "noon"}} },
	} {
		d := provedTop()
		change(&d.Proof)
		found := false
		for _, q := range problemsOf(d) {
			found = found || q.Code+" "+q.Field == want && q.Severity == Advice
		}
		if !found {
			t.Errorf("%s is not advised: %v", want, problemsOf(d))
		}
	}
}

func TestProofIsKept(t *testing.T) {
	t.Parallel()
	d := provedTop()
	d.Proof.Rounds[0].Readings = []ProofReading{{Stage: 2, Read: 1.25, At: "2026-05-02T09:00", Note: "draught"}}
	raw, err := Encode(d)
	if err != nil {
		t.Fatal(err)
	}
	back, err := Decode(raw)
	if err != nil || !reflect.DeepEqual(back.Proof, d.Proof) {
		t.Errorf("back from the file %+v, %v; want %+v", back.Proof, err, d.Proof)
	}
	if raw, _ := Encode(plainTop()); strings.Contains(string(raw), "proof") {
		t.Error("a design without a proof load speaks of one")
	}
	// A clone shares nothing; the plan's input does not know the readings.
	c := d.Clone()
	c.Proof.Rounds[0].Readings[0].Read = 9
	if d.Proof.Rounds[0].Readings[0].Read != 1.25 || !reflect.DeepEqual(c.ProofInput(), d.ProofInput()) {
		t.Error("a reading of the clone is the original's, or the plan depends on it")
	}
}

// Where the top lies during the proof load is told: plainTop on two rails 60 mm wide,
// 100 mm from its ends, and a foot of each leg.
func TestProofSupportsAreTold(t *testing.T) {
	t.Parallel()
	d := provedTop()
	text := d.HowItIsRead()[0]
	for _, want := range []string{"left rail (60 × 700 mm, its middle 100 mm from the left end and 350 mm from the front edge)", "right rail (60 × 700 mm, its middle 1500 mm", "nothing else"} {
		if !strings.Contains(text, want) {
			t.Errorf("not said: %q in %q", want, text)
		}
	}
	d.Supports.Kind, d.Supports.SideInset = FourLegs, 80
	if text := d.HowItIsRead()[0]; strings.Count(text, "60 × 60 mm") != 4 {
		t.Errorf("four legs: %q", text)
	}
}
