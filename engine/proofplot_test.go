package engine

import (
	"context"
	"math"
	"os"
	"strings"
	"testing"

	"flatwright/engine/draw"
	"flatwright/engine/pdf"
)

func TestProofPlotShowsWhatWasRead(t *testing.T) {
	t.Parallel()
	d, p := provedTop(), thePlan(t)
	empty := ProofPlot(p, JudgeProof(d, p), 0, draw.Point{}, millimetre)
	read(&d, p, 0, 1.05, 0.05)
	full := ProofPlot(p, JudgeProof(d, p), 0, draw.Point{}, millimetre)
	// A dot for every stage, a join between every two, and the fitted line.
	if got, want := len(full.Marks), len(p.Rounds[0].Stages); got != want || len(empty.Marks) != 0 {
		t.Errorf("%d dots; want %d, and %d before: want 0", got, want, len(empty.Marks))
	}
	pens := map[draw.Pen]int{}
	for _, l := range full.Lines {
		pens[l.Pen]++
		for _, v := range [...]float64{l.A.X, l.A.Y, l.B.X, l.B.Y} {
			if math.IsNaN(v) || math.Abs(v) > 2*plotWide {
				t.Fatalf("line %+v", l)
			}
		}
	}
	if pens[draw.Hidden] != 2 || pens[draw.Accent] != 1 {
		t.Errorf("pens %v; want two joins on the way down and one fitted line", pens)
	}
	if len(ProofPlot(ProofPlan{}, ProofResult{}, 0, draw.Point{}, millimetre).Lines) != 0 {
		t.Error("a plot of nothing")
	}
	// It fills the room it is given.
	for _, room := range [...]draw.Point{{X: 800, Y: 180}, {X: 300, Y: 600}} {
		if b := ProofPlot(p, JudgeProof(d, p), 0, room, millimetre).Bounds(); math.Abs(b.Width()-room.X) > 1e-9 || math.Abs(b.Height()-room.Y) > 1e-9 {
			t.Errorf("in a room of %v the plot takes %g × %g", room, b.Width(), b.Height())
		}
	}
	// The steps of the scale are round: 1, 2 or 5 times a power of ten.
	for v, want := range map[float64]float64{0.013: 0.02, 0.4: 0.5, 1: 1, 7: 10} {
		near(t, "step", roundStep(v), want, 1e-12)
	}
}

func TestProofPageIsAForm(t *testing.T) {
	t.Parallel()
	d := provedTop()
	d.Proof.Way = "straightedge"
	d.Proof.Rounds = append(d.Proof.Rounds, d.SecondRound())
	r := proofBase(t, d)
	plan, err := PlanProof(context.Background(), d, r)
	if err != nil {
		t.Fatal(err)
	}
	page := func() string {
		p, err := newPacket(d, r, PacketOptions{Lengths: millimetre})
		if err != nil {
			t.Fatal(err)
		}
		p.proofPlan = plan
		p.proof()
		p.footers()
		if out := os.Getenv("PROOF_PDF"); out != "" {
			f, err := os.Create(out)
			if err != nil {
				t.Fatal(err)
			}
			if err := writePages(f, p.pages, pdf.Info{Title: "Proof"}); err != nil {
				t.Fatal(err)
			}
			f.Close()
		}
		var text strings.Builder
		for _, q := range p.pages {
			for _, it := range q.Flat.Items {
				text.WriteString(it.Text + " ")
			}
		}
		return text.String()
	}
	form := page()
	for _, want := range []string{"catcher", "Eye protection", "nobody on it", "Local codes", "stage 4 of 4", "90 %", "________", "Round 2", "rides down"} {
		if !strings.Contains(strings.ReplaceAll(form, "Nobody under it, no hands or feet under it, nobody on it", "nobody on it"), want) {
			t.Errorf("the form does not say %q", want)
		}
	}
	if strings.Contains(form, " safe") {
		t.Error("the form calls something safe")
	}
	for i := range plan.Rounds {
		read(&d, plan, i, 1.1, 0.02)
	}
	filled := page()
	for _, want := range []string{"Stiffness at the gauge", "straight", "bedded in"} {
		if !strings.Contains(filled, want) {
			t.Errorf("the filled form does not say %q", want)
		}
	}
	read(&d, plan, 0, 3, 0)
	if !strings.Contains(page(), "STOP") {
		t.Error("no STOP where it sags three times as much")
	}
}

// However low the picture, something along its height can be read off, and nothing
// stands in the corner, where the loads begin.
func TestProofPlotHasAScale(t *testing.T) {
	t.Parallel()
	for _, sag := range []float64{0.101, 0.2, 0.3, 0.403, 0.5, 0.999, 3.1} {
		p := &proofPlot{load: 1000, sag: sag, wide: 400, high: 60}
		p.axes([]ProofStage{{}, {Force: 900}}, millimetre)
		heights := 0
		for _, n := range p.Notes {
			if n.Anchor == draw.AtRight {
				heights++
				if n.At.Y <= 0 || n.At.Y > p.high {
					t.Errorf("up to %v mm %q stands at a height of %v", sag, n.Text, n.At.Y)
				}
			}
		}
		if heights == 0 {
			t.Errorf("up to %v mm no height has a number", sag)
		}
	}
}
