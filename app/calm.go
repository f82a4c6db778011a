package app

import "fyne.io/fyne/v2"

// calmed is a toolkit application without animations. A cursor that fades in
// and out has the whole window painted a dozen times a second for as long as a
// field has the keyboard: without a graphics card that took 17 % of a core, and
// 2 % with a cursor that stands still.
type calmed struct{ fyne.App }

// Settings returns the application's settings without animations.
func (c calmed) Settings() fyne.Settings { return calmedSettings{c.App.Settings()} }

type calmedSettings struct{ fyne.Settings }

// ShowAnimations reports that there are none.
func (calmedSettings) ShowAnimations() bool { return false }

// calm makes a the running application, without animations.
func calm(a fyne.App) fyne.App {
	c := calmed{a}
	fyne.SetCurrentApp(c)
	return c
}
