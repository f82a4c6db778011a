package app

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net/url"
	"path/filepath"
	"strings"
	"sync/atomic"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"flatwright/engine"
	"flatwright/engine/length"
)

const packetSuffix = ".pdf"

// The papers of the packet, as the engine and the settings call them.
const (
	letterPaper = "letter"
	a4Paper     = "a4"
)

// paperNames are the papers as people call them.
var paperNames = map[string]string{letterPaper: "Letter", a4Paper: "A4"}

// paperOr returns the remembered paper, or the one that goes with the unit.
func paperOr(remembered string, f length.Format) string {
	if _, known := paperNames[remembered]; known {
		return remembered
	}
	if f.Imperial {
		return letterPaper
	}
	return a4Paper
}

// errBlocked is the error of a design that there is nothing to print of.
type errBlocked struct{ problems []engine.Problem }

func (e errBlocked) Error() string {
	var lines []string
	for _, p := range e.problems {
		lines = append(lines, p.Text)
	}
	return "the design cannot be computed yet:\n" + strings.Join(lines, "\n")
}

// blocking returns the problems that leave nothing to compute.
func blocking(r engine.Result) []engine.Problem {
	var found []engine.Problem
	for _, p := range r.Problems {
		if p.Severity == engine.Blocking {
			found = append(found, p)
		}
	}
	return found
}

// packetTo computes d and writes its packet to w.
func packetTo(ctx context.Context, w io.Writer, d engine.Design, options engine.PacketOptions) error {
	r, err := computeFinely(ctx, d)
	if err != nil {
		return fmt.Errorf("compute the design: %w", err)
	}
	if r.Blocked() {
		return errBlocked{blocking(r)}
	}
	if options.Cut == nil {
		plan, err := engine.PlanCut(ctx, d.CutInput(), nil)
		if err != nil {
			return fmt.Errorf("lay the parts out: %w", err)
		}
		options.Cut = &plan
	}
	return engine.WritePacket(ctx, w, d, r, options)
}

// writePacket writes the packet of d at path, whole or not at all.
func writePacket(ctx context.Context, path string, d engine.Design, options engine.PacketOptions) error {
	return replaceFile(path, func(w io.Writer) error { return packetTo(ctx, w, d, options) })
}

// exportPacket asks where to write the packet and on which paper, and writes
// it while a bar shows how far it is.
func (d *desk) exportPacket() {
	snap := d.session.Now()
	paper := paperOr(d.settings.Paper, snap.Lengths)
	choice := widget.NewRadioGroup([]string{paperNames[letterPaper], paperNames[a4Paper]}, nil)
	choice.Horizontal = true
	choice.Required = true
	choice.SetSelected(paperNames[paper])
	folder := startFolder(d.settings.Folder)
	name := plainName(snap.Design.Name)
	if snap.Path != "" {
		folder = filepath.Dir(snap.Path)
		name = strings.TrimSuffix(filepath.Base(snap.Path), designSuffix)
	}
	place := &placeDialog{
		win: d.win, title: "Export the build packet", act: "Export", suffix: packetSuffix, folder: folder,
		extra: container.NewHBox(widget.NewLabel("Paper"), choice),
		answer: func(path string) {
			for key, name := range paperNames {
				if name == choice.Selected {
					paper = key
				}
			}
			d.keep(func(s *Settings) { s.Paper = paper })
			d.export(path, paper)
		},
	}
	place.show(name + packetSuffix)
}

// export writes the packet in the background.
func (d *desk) export(path, paper string) {
	snap := d.session.Now()
	bar := widget.NewProgressBar()
	var cancel func()
	progress := ask(d.win, "Writing the packet", bar, 360, choice{"Cancel", func() { cancel() }})
	var far atomic.Int64    // parts per thousand done
	var waiting atomic.Bool // the bar is yet to be told
	cancel = d.session.Background(func(ctx context.Context) error {
		return writePacket(ctx, path, snap.Design, engine.PacketOptions{
			Paper: paper, Lengths: snap.Lengths, Cut: d.session.PlanOf(snap.Design),
			Progress: func(done, total int) {
				far.Store(int64(1000 * share(done, total)))
				if waiting.CompareAndSwap(false, true) {
					d.session.post(func() {
						waiting.Store(false)
						bar.SetValue(float64(far.Load()) / 1000)
					})
				}
			},
		})
	}, func(err error) {
		progress.Hide()
		d.exported(path, err)
	})
}

// share is how far a work of total parts is, from 0 to 1.
func share(done, total int) float64 {
	if total <= 0 {
		return 0
	}
	return min(max(float64(done)/float64(total), 0), 1)
}

// exported says what became of the packet.
func (d *desk) exported(path string, err error) {
	var blocked errBlocked
	switch {
	case errors.As(err, &blocked):
		d.showBlocked(blocked)
		return
	case err != nil:
		showTrouble(d.win, "The packet could not be written.", "The design is as it was, and so is an older packet.", err)
		return
	}
	text := sentenceLabel("Packet written to " + path)
	text.Selectable = true
	show := func(what string) func() {
		return func() {
			target := &url.URL{Scheme: "file", Path: filepath.ToSlash(what)}
			showTrouble(d.win, "The packet could not be shown from here.",
				"It is there all the same: "+path+".", fyne.CurrentApp().OpenURL(target))
		}
	}
	ask(d.win, "The packet is ready", text, 460,
		choice{label: "Close"},
		choice{"Open packet", show(path)},
		choice{"Open folder", show(filepath.Dir(path))})
}

// showBlocked says what must be put right before there can be a packet.
func (d *desk) showBlocked(blocked errBlocked) {
	lines := container.NewVBox()
	for _, p := range sortedProblems(blocked.problems) {
		lines.Add(sentenceLabel("■ " + problemText(p, d.session.Now().Lengths)))
	}
	ask(d.win, "There is nothing to print yet", lines, 460, choice{label: "Close"})
}
