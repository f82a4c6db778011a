package engine

import (
	"context"
	"strings"
	"testing"
	"time"

	"flatwright/engine/draw"
	"flatwright/engine/length"
)

// wordsOn gathers the texts of the pages under a title.
func wordsOn(pages []*draw.Page, title string) string {
	var out strings.Builder
	for _, p := range pages {
		if p.Title != title {
			continue
		}
		for _, it := range p.Flat.Items {
			out.WriteString(it.Text + "\n")
		}
	}
	return out.String()
}

// The last pages of the packet tell what was noted; a packet of a top that is not
// begun has none.
func TestPacketRecord(t *testing.T) {
	t.Parallel()
	const title = "Record: as designed, as built"
	ctx := context.Background()
	print := func(d Design) []*draw.Page {
		r, err := Compute(ctx, d)
		if err != nil {
			t.Fatal(err)
		}
		pages, err := Packet(ctx, d, r, PacketOptions{})
		if err != nil {
			t.Fatal(err)
		}
		return pages
	}
	d := Demo()
	if text := wordsOn(print(d), title); text != "" {
		t.Errorf("nothing is begun, and the record says %q", text)
	}
	t0 := time.Date(2026, 5, 2, 23, 50, 0, 0, time.UTC)
	d.Begin("dry", t0)
	d.Finish("dry", t0.Add(25*time.Minute)) // over midnight
	m, _ := MishapOf("not-wetted")
	d.Suffer(m, "L3", "", "spread-bottom")
	d.Remark("close-grid-1", "went together at once") // of a split that is not planned any more
	pages := print(d)
	text := wordsOn(pages, title)
	for _, want := range []string{"Sat 2 May 23:50", "25 min", "L3", "As built it sags", "no longer planned: close grid 1", "went together at once"} {
		if !strings.Contains(strings.Join(strings.Fields(text), " "), want) { // lines are broken anywhere
			t.Errorf("the record does not say %q:\n%s", want, text)
		}
	}
	if last := pages[len(pages)-1].Title; last != title {
		t.Errorf("the last page is %q", last)
	}
}

// All that was read is printed on the last pages, beside what was designed: surveys of
// bed and top with their time, air and notes, every reading of the proof load, ribs as
// measured, the time it took.
func TestRecordHasEveryReading(t *testing.T) {
	t.Parallel()
	ctx := context.Background()
	d := shimmedDemo()
	d.Surveys[0].Notes, d.Surveys[1].Notes = "on the saw horses", "a year later"
	d.Notes = "for the bee house"
	d.Measured = []RibMeasure{{Part: "L2", Height: 119.5, SlotDepth: 60.5}}
	d.Proof = NewProof(d)
	d.Proof.Way, d.Proof.Notes = "dial", "the dog barked"
	d.Proof.Rounds[0].Readings = []ProofReading{{Stage: 0, Read: 1.25, At: "2026-05-09T10:00"}, {Stage: 1, Read: 1.31, At: "2026-05-09T10:06", Note: "draught"}}
	t0 := time.Date(2026, 5, 2, 9, 0, 0, 0, time.UTC)
	d.Begin("dry", t0)
	d.Finish("dry", t0.Add(50*time.Minute))
	m, _ := MishapOf("skin-slid")
	d.Suffer(m, TopSeam, "", "dry")
	r, err := Compute(ctx, d)
	if err != nil || r.Blocked() {
		t.Fatal(err, r.Problems)
	}
	pages, err := Packet(ctx, d, r, PacketOptions{})
	if err != nil {
		t.Fatal(err)
	}
	text := strings.Join(strings.Fields(wordsOn(pages, "Record: as designed, as built")), " ")
	wants := []string{"As designed", "computed with the marks", "Stiffness at the gauge, round 1", "by the proof load", "Flat within", "Work on the steps that are done", "50 min",
		"Every survey, as it was read", "on the saw horses", "a year later", "Every reading of the proof load", "draught", "the dog barked", "1.25 mm", "Ribs as they were measured", "119.5 mm", "for the bee house"}
	for _, s := range d.Surveys {
		for _, l := range s.Lines {
			for _, v := range l.Readings {
				wants = append(wants, strings.TrimLeft(HeightText(v, length.Format{}), "+"))
			}
		}
	}
	for _, want := range wants {
		if !strings.Contains(text, want) {
			t.Errorf("the record does not say %q:\n%s", want, text)
		}
	}
}

// What was noted of the build goes into steps and report: the last wait began on the
// 4th at 10:15 and takes 24 hours, so the top is free on the 5th at 10:15 (by hand).
func TestNotedTimesGoBeforePlannedOnes(t *testing.T) {
	t.Parallel()
	d := Demo()
	d.Shop.Temperature = 20
	r := compute(t, d)
	if got := d.noted(r); got != "" {
		t.Errorf("with nothing noted it says %q", got)
	}
	last := r.Build.Steps[len(r.Build.Steps)-1]
	if last.High != 24*60 {
		t.Fatalf("the last wait takes %v min; the hand calculation is for 1440", last.High)
	}
	for _, s := range r.Build.Steps {
		d.Log = append(d.Log, StepLog{Step: s.Key, Began: "2026-05-04T10:15:00+02:00", Ended: "2026-05-04T10:15:30+02:00"})
	}
	const want = "nothing on it before Tue 5 May 10:15."
	if got := d.noted(r); !strings.Contains(got, want) {
		t.Errorf("it says %q; want %q in it", got, want)
	}
	pages := packetOf(t, d, PacketOptions{})
	if got := strings.Join(strings.Fields(textOf(pages, "Build steps")), " "); !strings.Contains(got, want) {
		t.Errorf("the build steps do not say %q", want)
	}
	if got := textOf(pages, "Record"); !strings.Contains(got, "\n30 s\n") {
		t.Errorf("the record does not say that a step took 30 s:\n%s", got)
	}
	var out strings.Builder
	if err := Report(&out, d, r, millimetre); err != nil || !strings.Contains(out.String(), want) {
		t.Errorf("the report does not say %q, %v", want, err)
	}
}
