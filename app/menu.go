package app

import (
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"flatwright/engine/length"
)

// menu is the main menu. It holds every command of the program with its
// shortcut: a shortcut on a menu item works wherever the keyboard is, also in
// a field. That takes the fields' own undo away on purpose; Undo is the
// design's.
type menu struct {
	can  commands
	desk *desk
	main *fyne.MainMenu

	undo, redo  *fyne.MenuItem
	recent      *fyne.MenuItem
	recentMenu  *fyne.Menu
	units       map[length.Format]*fyne.MenuItem
	appearances map[appearance]*fyne.MenuItem
	shown       menuState
}

// commands are those that are not the desk's or the session's.
type commands struct {
	acts                  *actRow
	startFromSize         func()
	zoomIn, zoomOut, fit  func()
	goForm, goDrawing     func()
	goResults, goWhy      func()
	goProblems            func()
	toggleResults         func()
	toggleMap             func()
	toggleSagged          func()
	leastSag              func()
	setAppearance         func(appearance)
	showKeys, showLeftOut func()
	showAbout             func()
}

// menuState is what the menu's texts and marks depend on.
type menuState struct {
	undo, redo string
	lengths    length.Format
	appearance appearance
	recent     string // joined paths
}

// keys is a shortcut with the platform's command key, ctrl or ⌘.
func keys(key fyne.KeyName, more ...fyne.KeyModifier) fyne.Shortcut {
	shortcut := &desktop.CustomShortcut{KeyName: key, Modifier: fyne.KeyModifierShortcutDefault}
	for _, m := range more {
		shortcut.Modifier |= m
	}
	return shortcut
}

// item is a command that waits while a dialog is open: shortcuts work through
// it, and what they do belongs behind it.
func (m *menu) item(label string, shortcut fyne.Shortcut, act func()) *fyne.MenuItem {
	entry := fyne.NewMenuItem(label, func() {
		if m.desk.win.Canvas().Overlays().Top() == nil {
			act()
		}
	})
	entry.Shortcut = shortcut
	return entry
}

const shift = fyne.KeyModifierShift

// unitChoices are the ways to show lengths in the View menu.
var unitChoices = []struct {
	label  string
	key    fyne.KeyName
	format length.Format
}{
	{"Millimetres", fyne.Key1, length.Format{}},
	{"Inches to 1/16", fyne.Key2, length.Format{Imperial: true, Denominator: 16}},
	{"Inches to 1/32", fyne.Key3, length.Format{Imperial: true, Denominator: 32}},
	{"Inches to 1/64", fyne.Key4, length.Format{Imperial: true, Denominator: 64}},
}

var appearanceChoices = []struct {
	label      string
	key        fyne.KeyName
	appearance appearance
}{
	{"Light", fyne.Key1, alwaysLight},
	{"Dark", fyne.Key2, alwaysDark},
	{"As the system", fyne.Key3, followSystem},
}

// newMenu builds the menu and puts it on the desk's window.
func newMenu(d *desk, a commands) *menu {
	m := &menu{can: a, desk: d, units: map[length.Format]*fyne.MenuItem{}, appearances: map[appearance]*fyne.MenuItem{}}
	m.main = fyne.NewMainMenu(m.fileMenu(), m.editMenu(), m.viewMenu(), m.goMenu(), m.helpMenu())
	d.win.SetMainMenu(m.main)
	d.session.Watch(m.show)
	return m
}

func (m *menu) fileMenu() *fyne.Menu {
	d := m.desk
	m.recentMenu = fyne.NewMenu("")
	m.recent = fyne.NewMenuItem("Open recent", nil)
	m.recent.ChildMenu = m.recentMenu
	quit := m.item("Quit", keys(fyne.KeyQ), d.close)
	quit.IsQuit = true
	return fyne.NewMenu("File",
		m.item("New from a size…", keys(fyne.KeyN), m.can.startFromSize),
		m.item("Open…", keys(fyne.KeyO), d.open),
		m.recent,
		fyne.NewMenuItemSeparator(),
		m.item("Save", keys(fyne.KeyS), func() { d.save(nil) }),
		m.item("Save as…", keys(fyne.KeyS, shift), func() { d.saveAs(nil) }),
		fyne.NewMenuItemSeparator(),
		m.item("Export packet…", keys(fyne.KeyP), d.exportPacket),
		m.item("Export parts…", keys(fyne.KeyE), d.exportParts),
		fyne.NewMenuItemSeparator(),
		m.item("Read a list of sheets…", keys(fyne.KeyL), d.readList),
		m.item("Write the list of sheets…", keys(fyne.KeyT), d.writeList),
		fyne.NewMenuItemSeparator(),
		quit,
	)
}

func (m *menu) editMenu() *fyne.Menu {
	// With the toolkit's own names for these two keys the menu is asked before
	// a field is; a shortcut of ours for the same key would go to the field.
	m.undo = m.item("Undo", &fyne.ShortcutUndo{}, m.desk.session.Undo)
	m.redo = m.item("Redo", &fyne.ShortcutRedo{}, m.desk.session.Redo)
	return fyne.NewMenu("Edit", m.undo, m.redo, fyne.NewMenuItemSeparator(),
		m.item("Supports to where it sags least", keys(fyne.KeyB), m.can.leastSag))
}

func (m *menu) viewMenu() *fyne.Menu {
	view := fyne.NewMenu("View",
		m.item("Zoom in", keys(fyne.KeyEqual), m.can.zoomIn),
		m.item("Zoom out", keys(fyne.KeyMinus), m.can.zoomOut),
		m.item("Fit the drawing", keys(fyne.Key0), m.can.fit),
		m.item("Show or hide the sag map", keys(fyne.KeyM), m.can.toggleMap),
		m.item("Show or hide the sagged section", keys(fyne.KeyG), m.can.toggleSagged),
		m.item("Show or fold the results", keys(fyne.KeyR), m.can.toggleResults),
		fyne.NewMenuItemSeparator(),
	)
	for _, choice := range unitChoices {
		entry := m.item(choice.label, keys(choice.key), func() { m.setLengths(choice.format) })
		m.units[choice.format] = entry
		view.Items = append(view.Items, entry)
	}
	view.Items = append(view.Items, fyne.NewMenuItemSeparator())
	for _, choice := range appearanceChoices {
		entry := m.item(choice.label, keys(choice.key, shift), func() { m.can.setAppearance(choice.appearance) })
		m.appearances[choice.appearance] = entry
		view.Items = append(view.Items, entry)
	}
	return view
}

func (m *menu) goMenu() *fyne.Menu {
	menu := fyne.NewMenu("Go")
	for i, a := range m.can.acts.acts {
		menu.Items = append(menu.Items, m.item(a.name, keys(actKeys[i]), func() { m.can.acts.show(i) }))
	}
	menu.Items = append(menu.Items,
		fyne.NewMenuItemSeparator(),
		m.item("To the form", keys(fyne.KeyF, shift), m.can.goForm),
		m.item("To the drawing", keys(fyne.KeyD, shift), m.can.goDrawing),
		m.item("To the results", keys(fyne.KeyR, shift), m.can.goResults),
		m.item("To what lies behind them", keys(fyne.KeyW, shift), m.can.goWhy),
		m.item("To the problems", keys(fyne.KeyP, shift), m.can.goProblems),
	)
	return menu
}

// actKeys bring the acts to the fore, in their order.
var actKeys = []fyne.KeyName{fyne.KeyF1, fyne.KeyF2, fyne.KeyF3, fyne.KeyF4, fyne.KeyF5}

func (m *menu) helpMenu() *fyne.Menu {
	return fyne.NewMenu("Help",
		m.item("Keys", keys(fyne.KeySlash), m.can.showKeys),
		m.item("What the numbers leave out", keys(fyne.KeyL, shift), m.can.showLeftOut),
		m.item("About Flatwright", keys(fyne.KeyA, shift), m.can.showAbout),
	)
}

func (m *menu) setLengths(f length.Format) {
	m.desk.session.SetLengths(f)
	m.desk.keep(func(s *Settings) { s.Lengths = f })
}

// show brings the texts and marks up to date, and redraws only if any changed.
func (m *menu) show(snap Snapshot) {
	now := menuState{undo: snap.UndoLabel, redo: snap.RedoLabel, lengths: snap.Lengths, appearance: m.desk.settings.Appearance}
	for _, path := range m.desk.settings.Recent {
		now.recent += path + "\n"
	}
	if now == m.shown && len(m.recentMenu.Items)+len(m.desk.settings.Recent) > 0 {
		return
	}
	m.shown = now
	label(m.undo, "Undo", snap.UndoLabel)
	label(m.redo, "Redo", snap.RedoLabel)
	for format, entry := range m.units {
		entry.Checked = format == normal(snap.Lengths)
	}
	for a, entry := range m.appearances {
		entry.Checked = a == now.appearance
	}
	m.recentMenu.Items = nil
	for _, path := range m.desk.settings.Recent {
		text := filepath.Base(path) + "  (" + filepath.Dir(path) + ")"
		m.recentMenu.Items = append(m.recentMenu.Items, fyne.NewMenuItem(text, func() { m.desk.openPath(path) }))
	}
	m.recent.Disabled = len(m.recentMenu.Items) == 0
	m.main.Refresh()
}

// label puts the name of the step behind the word, and greys the item out if
// there is no step.
func label(entry *fyne.MenuItem, word, step string) {
	entry.Label = word
	if step != "" {
		entry.Label += " " + step
	}
	entry.Disabled = step == ""
}

// normal is f as the menu offers it.
func normal(f length.Format) length.Format {
	if !f.Imperial {
		return length.Format{}
	}
	switch f.Denominator {
	case 32, 64:
	default:
		f.Denominator = 16
	}
	return f
}
