package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"flatwright/engine"
)

// boardKeys are the keys of the drawing and the fields; those of the commands
// stand in the menus.
var boardKeys = [][2]string{
	{"Tab, shift + Tab", "next field, field before"},
	{"Up, Down in a field", "one step more or less; with shift a coarse step"},
	{"Escape in a field", "back to the value before typing"},
	{"Return in a field", "take the value over"},
	{"Arrows in the drawing", "move the load or the supports picked, with shift by a coarse step; else move the view"},
	{"+ and - in the drawing", "zoom; the wheel does it too"},
	{"0 or F in the drawing", "fit"},
	{"Tab in the drawing", "the supports and the loads, one after the other, then out of the drawing; with shift back"},
	{"[ and ] in the drawing", "part before, next part"},
	{"Return in the drawing", "to the field of the part picked, to type its place; or pick the part under the pointer"},
	{"Escape in the drawing", "put back what is being dragged; else pick nothing"},
	{"Left, Right on a tab's word", "the tab beside"},
	{"Escape in the results", "take the mark of a pressed margin or support off the drawing"},
	{"Ctrl + Z, Ctrl + Y", "undo and redo of the design, also while typing in a field"},
}

const aboutText = "Flatwright plans a hollow, rib-and-skin workbench or assembly-table top: how stiff and how heavy it will be, " +
	"what to cut and how to glue it. Every figure shows its formula and its source on demand."

// showKeys lists the keys.
func showKeys(win fyne.Window) {
	rows := container.New(layout.NewFormLayout())
	for _, row := range boardKeys {
		key := widget.NewLabel(row[0])
		key.TextStyle.Bold = true
		rows.Add(key)
		rows.Add(sentenceLabel(row[1]))
	}
	note := sentenceLabel("Every command stands in the menus with its shortcut.")
	showText(win, "Keys", container.NewVBox(note, rows))
}

// showLeftOut says what the numbers leave out.
func showLeftOut(win fyne.Window) {
	lines := container.NewVBox()
	for _, text := range engine.LeftOut {
		lines.Add(sentenceLabel(text))
	}
	showText(win, "What the numbers leave out", lines)
}

// showAbout says what the program is.
func showAbout(win fyne.Window, version string) {
	text := aboutText
	if version != "" {
		text += "\n\nVersion " + version + ", under the MIT licence."
	}
	showText(win, "About Flatwright", sentenceLabel(text))
}

// showText shows content in a dialog that fits the window and scrolls.
func showText(win fyne.Window, title string, content fyne.CanvasObject) {
	d := ask(win, title, container.NewVScroll(content), 560, choice{label: "Close"})
	size := win.Canvas().Size()
	d.Resize(fyne.NewSize(min(560, size.Width-40), min(520, size.Height-80)))
}
