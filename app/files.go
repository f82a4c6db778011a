package app

import (
	"context"
	"errors"
	"io/fs"
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/storage"

	"flatwright/engine"
)

const designSuffix = ".flatwright"

// desk is what happens to design files in one window: new, open, save, the
// question about unsaved changes, and what is remembered of them.
type desk struct {
	session *Session
	win     fyne.Window
	store   store
	auto    *autosave
	changed func() // the settings changed: recent files, paper, appearance

	settings Settings
	closing  bool
}

// keep remembers a change of the settings.
func (d *desk) keep(change func(*Settings)) {
	change(&d.settings)
	if d.changed != nil {
		d.changed()
	}
	err := d.store.keep(d.settings)
	showTrouble(d.win, "The settings could not be kept.", "They hold until the program ends.", err)
}

// title is the window's: the name of the file or the design, and a mark while
// it is not saved.
func title(snap Snapshot) string {
	name := snap.Design.Name
	if snap.Path != "" {
		name = filepath.Base(snap.Path)
	}
	if name == "" {
		name = "Untitled"
	}
	if snap.Dirty {
		name += " (changed)"
	}
	return name + " - Flatwright"
}

// unlessUnsaved runs then, after asking what to do with unsaved changes.
func (d *desk) unlessUnsaved(then func()) {
	snap := d.session.Now()
	if !snap.Dirty {
		then()
		return
	}
	name := snap.Design.Name
	if snap.Path != "" {
		name = filepath.Base(snap.Path)
	}
	question := sentenceLabel("The changes to " + name + " are not in a file yet. Without saving they are gone.")
	ask(d.win, "Save the changes?", question, 440,
		choice{label: "Go back"},
		choice{"Do not save", then},
		choice{"Save", func() { d.save(then) }})
}

// startFromSize asks for a size and puts a new top there. Unsaved changes of a
// design with a file are asked about first; without a file, undo brings the
// old design back.
func (d *desk) startFromSize() {
	show := func() { showMakeItMine(d.win, d.session, d.shopFor(d.session.Now().Design)) }
	if d.session.Now().Path == "" {
		show()
		return
	}
	d.unlessUnsaved(show)
}

// open lets the person choose a design file.
func (d *desk) open() {
	d.unlessUnsaved(func() {
		choose := dialog.NewFileOpen(func(file fyne.URIReadCloser, err error) {
			if err != nil {
				showTrouble(d.win, "The file could not be opened.", "Your design is as it was.", err)
				return
			}
			if file == nil {
				return
			}
			path := filepath.FromSlash(file.URI().Path())
			if err := file.Close(); err != nil {
				showTrouble(d.win, "The file could not be closed.", "Your design is as it was.", err)
			}
			d.load(path)
		}, d.win)
		choose.SetFilter(storage.NewExtensionFileFilter([]string{designSuffix}))
		choose.SetTitleText("Open a design")
		showAt(choose, startFolder(d.settings.Folder))
	})
}

// openPath opens the design at path, after the question about unsaved changes.
func (d *desk) openPath(path string) { d.unlessUnsaved(func() { d.load(path) }) }

// load reads the design at path in the background and shows it.
func (d *desk) load(path string) {
	if absolute, err := filepath.Abs(path); err == nil {
		path = absolute
	}
	var design engine.Design
	d.session.Background(func(context.Context) (err error) {
		design, err = engine.ReadFile(path)
		return err
	}, func(err error) {
		if errors.Is(err, fs.ErrNotExist) {
			d.keep(func(s *Settings) { s.forget(path) })
		}
		if err != nil {
			showTrouble(d.win, "The design could not be opened.", "What was open still is.", err)
			return
		}
		d.session.Open(design, path)
		d.keep(func(s *Settings) { s.remember(path) })
	})
}

// dropped opens the first design file among those dropped on the window.
func (d *desk) dropped(_ fyne.Position, files []fyne.URI) {
	for _, file := range files {
		if file.Scheme() == "file" {
			d.openPath(filepath.FromSlash(file.Path()))
			return
		}
	}
}

// save writes the design to its file, asking where if it has none, and then
// runs then, if it is not nil.
func (d *desk) save(then func()) {
	snap := d.session.Now()
	if snap.Path == "" {
		d.saveAs(then)
		return
	}
	d.write(snap, snap.Path, then)
}

// saveAs asks where to write the design.
func (d *desk) saveAs(then func()) {
	snap := d.session.Now()
	name, folder := plainName(snap.Design.Name), startFolder(d.settings.Folder)
	if snap.Path != "" {
		name, folder = filepath.Base(snap.Path), filepath.Dir(snap.Path)
	}
	place := &placeDialog{
		win: d.win, title: "Save the design", act: "Save", suffix: designSuffix, folder: folder,
		answer: func(path string) { d.write(d.session.Now(), path, then) },
	}
	place.show(name)
}

func (d *desk) write(snap Snapshot, path string, then func()) {
	d.session.Background(func(context.Context) error {
		return engine.WriteFile(path, snap.Design)
	}, func(err error) {
		if err != nil {
			showTrouble(d.win, "The design could not be saved.", "It is still open with all its changes.", err)
			return
		}
		d.session.Saved(path, snap.Revision)
		d.keep(func(s *Settings) { s.remember(path) })
		if then != nil {
			then()
		}
	})
}

// close closes the window, after the question about unsaved changes.
func (d *desk) close() {
	if d.closing {
		return
	}
	d.unlessUnsaved(func() {
		d.closing = true
		d.auto.close()
		d.win.Close()
	})
}

// offerLost offers the newest design that a crash left, one at a time.
func (d *desk) offerLost(found []lost) {
	if len(found) == 0 {
		return
	}
	l, rest := found[0], found[1:]
	name := "A design without a file of its own"
	if l.origin != "" {
		name = filepath.Base(l.origin)
	}
	text := sentenceLabel(name + " had unsaved changes when Flatwright stopped without closing. " +
		"They were put aside on " + l.at.Format("2 January 2006 at 15:04") + ".")
	ask(d.win, "Unsaved work was found", text, 460,
		choice{label: "Later"},
		choice{"Throw it away", func() {
			showTrouble(d.win, "The old work could not be removed.", "It will be offered again.", l.remove())
			d.offerLost(rest)
		}},
		choice{"Bring it back", func() { d.bringBack(l) }})
}

// bringBack opens what was put aside as an unsaved design. The file that was
// put aside goes once this program has put the design aside itself.
func (d *desk) bringBack(l lost) {
	var design engine.Design
	d.session.Background(func(context.Context) (err error) {
		design, err = engine.ReadFile(l.path)
		return err
	}, func(err error) {
		if err != nil {
			showTrouble(d.win, "The unsaved work could not be read.", "The file that holds it was left alone: "+l.path+".", err)
			return
		}
		d.session.Recover(design, l.origin)
		snap := d.session.Now()
		d.session.Background(func(context.Context) error { return d.auto.put(snap) }, func(err error) {
			if err == nil && l.path != d.auto.path() {
				err = l.remove()
			}
			showTrouble(d.win, "The unsaved work could not be put aside again.", "It is open; save it now.", err)
		})
	})
}
