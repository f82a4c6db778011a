package engine

import (
	"context"
	"strings"
	"testing"

	"flatwright/engine/length"
)

// TestProvedMarginsInThePacket: a proof load that was read prints every sag and margin
// as the readings explain them, those of [RateProof]; one that was not prints none.
func TestProvedMarginsInThePacket(t *testing.T) {
	t.Parallel()
	const title = "Proof load"
	ctx := context.Background()
	d := provedTop()
	r := proofBase(t, d)
	print := func(d Design) string {
		pages, err := Packet(ctx, d, r, PacketOptions{})
		if err != nil {
			t.Fatal(err)
		}
		return wordsOn(pages, title)
	}
	if text := print(d); text == "" || strings.Contains(text, "As proved") {
		t.Errorf("nothing was read, and the page says:\n%s", text)
	}
	p := thePlan(t)
	read(&d, p, 0, 1.06, 0)
	if text := print(d); strings.Contains(text, "Every reading") {
		t.Error("what the table of the stages holds is printed twice")
	}
	// A stage read thrice, with a remark: all of it is printed, and the noise.
	noted := d.Clone()
	q := &noted.Proof.Rounds[0]
	q.Readings = append(q.Readings, ProofReading{Stage: 2, Read: 4.321}, ProofReading{Stage: 2, Read: 4.777, Note: "a door slammed"}, ProofReading{Stage: 40, Read: 9.126})
	q.Cracking = true
	text := print(noted)
	for _, want := range []string{"Every reading", "4.32 mm", "4.78 mm", "a door slammed", "40, which the plan does not have", "9.13 mm", "A noise of cracking was heard"} {
		if !strings.Contains(text, want) {
			t.Errorf("the page does not say %q:\n%s", want, text)
		}
	}
	ratings, err := RateProof(ctx, d, p, JudgeProof(d, p))
	if err != nil || len(ratings) < 2 {
		t.Fatalf("%d ratings, %v", len(ratings), err)
	}
	text = print(d)
	flat := strings.Join(strings.Fields(text), " ") // lines are broken anywhere
	full := p.Rounds[0].full()
	for _, want := range []string{"As proved", "A limp sheet is often a weak one too", "A: were it the " + ratings[0].Name, "B: were it the " + ratings[1].Name,
		"and " + GaugeText(1.06*full.Expected, length.Format{}) + " was read"} {
		if !strings.Contains(flat, want) {
			t.Errorf("the page does not say %q:\n%s", want, text)
		}
	}
	for _, m := range ratings[0].Margins {
		if !strings.Contains(flat, "Margin: "+m.Proved.Name) {
			t.Errorf("no margin %q", m.Proved.Name)
		}
	}
	for i, q := range ratings {
		if sag := length.Sag(q.Sags[0][1], length.Format{}); !strings.Contains(flat, sag) {
			t.Errorf("explanation %d: the sag %s is not told", i, sag)
		}
		if m := q.margin(ratings[0].Margins[0].Proved); m.Code != ratings[0].Margins[0].Proved.Code || !(m.Value > 0) {
			t.Errorf("explanation %d has no margin %s", i, ratings[0].Margins[0].Proved.Code)
		}
	}
	if strings.Contains(flat, "NaN") {
		t.Error("the page is not all numbers")
	}
}
