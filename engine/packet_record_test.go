package engine

import (
	"context"
	"strings"
	"testing"
	"time"

	"flatwright/engine/draw"
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
