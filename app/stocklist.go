package app

import (
	"context"
	"errors"
	"io"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/storage"

	"flatwright/engine"
)

const listSuffix = ".csv"

// readList asks for a list of sheets and adds it to what is on hand.
func (d *desk) readList() {
	choose := dialog.NewFileOpen(func(file fyne.URIReadCloser, err error) {
		if err != nil {
			showTrouble(d.win, "The list could not be opened.", "Your design is as it was.", err)
			return
		}
		if file == nil {
			return
		}
		defer file.Close()
		d.takeList(file)
	}, d.win)
	choose.SetFilter(storage.NewExtensionFileFilter([]string{listSuffix}))
	choose.SetTitleText("Read a list of sheets")
	showAt(choose, startFolder(d.settings.Folder))
}

// takeList adds the sheets of a list, or says for every cell why it cannot be
// read.
func (d *desk) takeList(r io.Reader) {
	snap := d.session.Now()
	list, err := engine.ReadStock(r, snap.Design, snap.Lengths)
	var cell *engine.CSVError
	switch {
	case errors.As(err, &cell):
		lines := container.NewVBox(sentenceLabel("Nothing was taken over. Put these right in the list and read it again:"))
		for _, line := range strings.Split(err.Error(), "\n") {
			lines.Add(sentenceLabel("■ " + line))
		}
		showText(d.win, "The list cannot be read", lines)
		return
	case err != nil:
		showTrouble(d.win, "The list could not be read.", "Your design is as it was.", err)
		return
	}
	d.session.Edit("list of sheets", "", func(e *engine.Design) { e.Stock = append(e.Stock, list.Sheets...) })
	text := capital(countOf(len(list.Sheets), "kind of sheet is", "kinds of sheets are")) + " on your list now. Undo takes that back."
	if len(list.Ignored) > 0 {
		text += " Nothing was read from the columns " + strings.Join(list.Ignored, ", ") + "."
	}
	tell(d.win, "List of sheets", text)
}

// writeList asks where to write what is on hand, and writes it.
func (d *desk) writeList() {
	snap := d.session.Now()
	place := &placeDialog{win: d.win, title: "Write the list of sheets", act: "Write", suffix: listSuffix, folder: startFolder(d.settings.Folder),
		answer: func(path string) {
			err := replaceFile(path, func(w io.Writer) error { return engine.WriteStock(w, snap.Design, snap.Design.Sheets()) })
			if err != nil {
				showTrouble(d.win, "The list could not be written.", "An older one is as it was.", err)
				return
			}
			tell(d.win, "List of sheets", "Written to "+path+".")
		}}
	place.show("sheets" + listSuffix)
}

// exportParts asks for a folder and writes the parts into it: lists, drawings
// and labels.
func (d *desk) exportParts() {
	snap := d.session.Now()
	choose := dialog.NewFolderOpen(func(folder fyne.ListableURI, err error) {
		if err != nil {
			showTrouble(d.win, "The folder could not be opened.", "Nothing was written.", err)
			return
		}
		if folder != nil && folder.Scheme() == "file" {
			d.exportPartsTo(filepath.FromSlash(folder.Path()), snap)
		}
	}, d.win)
	showAt(choose, startFolder(d.settings.Folder))
}

// exportPartsTo writes the parts in the background and says what came of it.
func (d *desk) exportPartsTo(folder string, snap Snapshot) {
	options := engine.ExportOptions{Paper: paperOr(d.settings.Paper, snap.Lengths), Lengths: snap.Lengths, Plan: d.session.PlanOf(snap.Design)}
	var done exportedFiles
	var cancel func()
	waiting := ask(d.win, "Writing the parts", sentenceLabel("Lists, drawings at full size and labels go into "+folder+"."), 420, choice{"Cancel", func() { cancel() }})
	cancel = d.session.Background(func(ctx context.Context) (err error) {
		done, err = writeExports(ctx, folder, snap.Design, options)
		return err
	}, func(err error) {
		waiting.Hide()
		var blocked errBlocked
		switch {
		case errors.As(err, &blocked):
			d.showBlocked(blocked)
		case err != nil:
			showTrouble(d.win, "Not all parts could be written.", capital(countOf(len(done.written), "file was", "files were"))+" written before.", err)
		default:
			tell(d.win, "Parts", exportedText(folder, done))
		}
	})
}

// exportedText says which files there are now, and what is not in them.
func exportedText(folder string, done exportedFiles) string {
	text := capital(countOf(len(done.written), "file was", "files were")) + " written to " + folder + "."
	if len(done.told) > 0 {
		text += "\n" + strings.Join(done.told, "\n")
	}
	if n := len(done.older); n > 0 {
		text += "\nLeft as they were, and not of this design: " + strings.Join(done.older, ", ") + ". Do not cut from them."
	}
	return text
}
