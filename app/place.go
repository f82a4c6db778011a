package app

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/widget"
)

// placeDialog asks under which name and in which folder a file is to be
// written. The toolkit's own dialog empties the file at once; this one only
// answers with the path, so that an old file stays whole until the new one is.
type placeDialog struct {
	win    fyne.Window
	title  string // "Save the design"
	act    string // the button: "Save"
	suffix string // ".pdf"
	folder string
	extra  fyne.CanvasObject // more to ask, nil for nothing
	answer func(path string)

	name   *answerEntry
	where  *widget.Label
	note   *widget.Label
	button *answerButton
	dialog *dialog.CustomDialog
}

// show asks, proposing a name.
func (p *placeDialog) show(name string) {
	hide := func() { p.dialog.Hide() }
	p.name = newAnswerEntry(name, hide)
	p.name.OnChanged = func(string) { p.look() }
	p.name.OnSubmitted = func(string) { p.done() }
	p.where = widget.NewLabel("")
	p.where.Truncation = fyne.TextTruncateEllipsis
	p.note = sentenceLabel("")
	p.button = newAnswerButton(p.act, p.done, hide)
	p.button.Importance = widget.HighImportance
	rows := container.NewVBox(
		widget.NewLabel("Name"), p.name,
		container.NewBorder(nil, nil, widget.NewLabel("Folder"), widget.NewButton("Change…", p.browse), p.where),
	)
	if p.extra != nil {
		rows.Add(p.extra)
	}
	rows.Add(p.note)
	p.dialog = dialog.NewCustomWithoutButtons(p.title, rows, p.win)
	p.dialog.SetButtons([]fyne.CanvasObject{newAnswerButton("Cancel", hide, hide), p.button})
	p.dialog.Resize(fyne.NewSize(460, 0))
	p.look()
	p.dialog.Show()
	escapable(p.win, hide)
	p.win.Canvas().Focus(p.name)
}

// path returns the path asked for, "" while there is no name.
func (p *placeDialog) path() string {
	name := strings.TrimSpace(p.name.Text)
	if name == "" || strings.ContainsAny(name, `/\`) || name == "." || name == ".." {
		return ""
	}
	if !strings.EqualFold(filepath.Ext(name), p.suffix) {
		name += p.suffix
	}
	return filepath.Join(p.folder, name)
}

// look shows what stands at the path already.
func (p *placeDialog) look() {
	p.where.SetText(p.folder)
	path := p.path()
	note := ""
	switch info, err := os.Stat(path); {
	case path == "":
		note = "Type a name, without / or \\."
	case err == nil && info.IsDir():
		note = "▲ " + filepath.Base(path) + " is a folder. Choose another name."
		path = ""
	case err == nil:
		note = "▲ " + filepath.Base(path) + " is there already and will be replaced."
	case !errors.Is(err, fs.ErrNotExist):
		note = "▲ This folder cannot be looked into. Choose another one."
		path = ""
	}
	p.note.SetText(note)
	if path == "" {
		p.button.Disable()
	} else {
		p.button.Enable()
	}
}

func (p *placeDialog) browse() {
	d := dialog.NewFolderOpen(func(folder fyne.ListableURI, err error) {
		if err != nil {
			showTrouble(p.win, "The folder could not be opened.", "Nothing was changed.", err)
			return
		}
		if folder != nil && folder.Scheme() == "file" {
			p.folder = filepath.FromSlash(folder.Path())
			p.look()
		}
	}, p.win)
	showAt(d, p.folder)
}

func (p *placeDialog) done() {
	path := p.path()
	if path == "" || p.button.Disabled() {
		return
	}
	p.dialog.Hide()
	p.answer(path)
}

// showAt shows a file dialog that begins in a folder, if it is there, at a size
// that shows something. The toolkit's dialog can be sized only once it shows.
func showAt(d *dialog.FileDialog, folder string) {
	if listable, err := storage.ListerForURI(storage.NewFileURI(folder)); err == nil && folder != "" {
		d.SetLocation(listable)
	}
	d.Show()
	d.Resize(fyne.NewSize(760, 520))
}

// startFolder is where dialogs begin: the last folder used, else the home
// folder, else the present one.
func startFolder(last string) string {
	for _, folder := range []func() (string, error){
		func() (string, error) { return last, nil }, os.UserHomeDir, os.Getwd,
	} {
		path, err := folder()
		if err != nil || path == "" {
			continue
		}
		if info, err := os.Stat(path); err == nil && info.IsDir() {
			return path
		}
	}
	return "."
}

// plainName turns a design's name into a file's.
func plainName(name string) string {
	name = strings.Map(func(r rune) rune {
		if strings.ContainsRune(`/\:*?"<>|`, r) || r < ' ' {
			return '-'
		}
		return r
	}, strings.TrimSpace(name))
	name = strings.Trim(name, ". ")
	if runes := []rune(name); len(runes) > 80 {
		name = string(runes[:80])
	}
	if name == "" {
		return "bench top"
	}
	return name
}
