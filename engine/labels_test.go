package engine

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"

	"flatwright/engine/draw"
	"flatwright/engine/length"
)

// labelled is the demo with every sort of part and one that is alone.
func labelled() Design {
	d := Demo()
	d.EdgeBand = EdgeBand{Material: d.TopSkin.Material, Thickness: 12}
	d.Blocks = []Block{{d.TopSkin.Material, 1, 2}, {d.TopSkin.Material, 3, 0}}
	d.BottomSkin.Across = true
	return d
}

// labelPages are the pages of labels alone.
func labelPages(t *testing.T, d Design, o PacketOptions) []draw.Page {
	t.Helper()
	p, err := newPacket(d, Result{}, o)
	if err != nil {
		t.Fatal(err)
	}
	p.labels()
	p.footers()
	var out []draw.Page
	for _, page := range p.pages {
		out = append(out, *page)
	}
	return out
}

// Every piece has one label, with all that is asked of it, within the paper and
// within its own lines.
func TestLabels(t *testing.T) {
	t.Parallel()
	long := labelled()
	long.Name = strings.Repeat("A very long name of a bench ", 20)
	for name, d := range map[string]Design{"every sort": labelled(), "long name": long} {
		for _, o := range []PacketOptions{{Paper: "letter", Lengths: length.Format{Imperial: true, Denominator: 64}}, {Paper: "a4"}} {
			pages := labelPages(t, d, o)
			fits(t, name+" "+o.Paper, pages)
			text := textOf(pages, "Labels")
			frames := 0
			for _, page := range pages {
				for _, frame := range labelFrames(page) {
					frames++
					for _, it := range page.Flat.Items {
						box := it.Box()
						if it.Shape == draw.Words && frame.Overlaps(box) && !frame.Grow(-labelAir+0.6).Contains(box) {
							t.Errorf("%s: %q at %v leaves its label %v", name, it.Text, box, frame)
						}
					}
				}
			}
			if parts := d.Pieces(); frames != len(parts) {
				t.Errorf("%s: %d labels; want one for each of %d pieces", name, frames, len(parts))
			}
			for _, part := range d.Pieces() {
				if strings.Count("\n"+text+"\n", "\n"+part.Name+"\n") != 1 {
					t.Errorf("%s: %q is not on exactly one label", name, part.Name)
				}
			}
		}
	}
}

// labelFrames are the closed lines that are as wide as a label.
func labelFrames(p draw.Page) []draw.Rect {
	var out []draw.Rect
	for _, it := range p.Flat.Items {
		if b := it.Box(); it.Shape == draw.Stroke && it.Closed && b.Width() > (p.Width-2*margin)/labelColumns-1 {
			out = append(out, b)
		}
	}
	return out
}

// What one label says, word by word.
func TestLabelSays(t *testing.T) {
	t.Parallel()
	d := labelled()
	text := textOf(labelPages(t, d, PacketOptions{}), "Labels")
	m, _ := d.Material(d.Lengthwise.Material)
	ys := d.Length - 24 // between the bands
	for _, want := range []string{
		"L3\nLengthwise rib 3\n" + fmt.Sprintf("%g mm × 120 mm × 12 mm", ys) + "\n" + m.Name + "\nGrain along the length, one of 5 alike, mark L\n" + d.Name,
		"Bottom\nBottom skin\n",
		"Top\nTop skin\n",
		"\nGrain across the length, mark B\n",
		"K\nBlock in bay 2,3\n",
		"F\nFront edge band\n",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("no label says %q", want)
		}
	}
}

// The arrow of a board lies along its face grain: the skins of one design, one
// with the grain along, one across, have arrows at right angles.
func TestLabelArrow(t *testing.T) {
	t.Parallel()
	page := labelPages(t, labelled(), PacketOptions{})[0]
	frames := labelFrames(page)
	for i, along := range []bool{true, false} {
		longest := draw.Rect{}
		for _, it := range page.Flat.Items {
			if b := it.Box(); it.Shape == draw.Stroke && len(it.Points) == 2 && frames[i].Contains(b) && b.Width()+b.Height() > longest.Width()+longest.Height() {
				longest = b
			}
		}
		if got := longest.Width() > longest.Height(); got != along {
			t.Errorf("label %d: the arrow is %v; want it lying: %t", i+1, longest, along)
		}
	}
}

func TestWriteLabels(t *testing.T) {
	t.Parallel()
	var a, b bytes.Buffer
	for _, w := range []*bytes.Buffer{&a, &b} {
		if err := WriteLabels(context.Background(), w, labelled(), ExportOptions{Paper: "letter"}); err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.Equal(a.Bytes(), b.Bytes()) || !bytes.HasPrefix(a.Bytes(), []byte("%PDF-")) {
		t.Error("two writings of the labels differ, or are no PDF")
	}
	d := labelled()
	d.CoreDepth = -1
	if err := WriteLabels(context.Background(), &a, d, ExportOptions{}); !errors.Is(err, ErrBlocked) {
		t.Errorf("a blocked design: %v; want ErrBlocked", err)
	}
}
