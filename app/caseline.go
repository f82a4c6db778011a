package app

import (
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"flatwright/engine"
	"flatwright/widgets"
)

// caseLine is the line above the drawing that names the load case shown.
// Pressing it shows the next one.
type caseLine struct {
	session *Session
	text    *widgets.Text
	press   *widgets.Pressable
	content *fyne.Container
}

func newCaseLine(s *Session) *caseLine {
	c := &caseLine{session: s, text: widgets.NewNote("", widgets.ColorPencil)}
	c.press = widgets.NewPressable(c.text, c.next)
	c.content = container.NewStack(c.press)
	return c
}

func (c *caseLine) show(s Snapshot, f Focus) {
	text := caseText(s, f)
	c.text.Set(text, widgets.ColorPencil)
	if visible := text != ""; visible != c.content.Visible() {
		if visible {
			c.content.Show()
		} else {
			c.content.Hide()
		}
	}
}

// next shows the case after the one shown; the governing one is shown as such,
// so that another one that comes to govern takes its place.
func (c *caseLine) next() {
	s := c.session.Now()
	n := len(s.Design.Cases)
	if n == 0 {
		return
	}
	i := (caseShown(s.Design, s.Result, c.session.Focus()) + 1) % n
	if i == s.Result.Governing {
		i = -1
	}
	c.session.PickCase(i)
}

// caseShown returns the load case that the drawing shows: the one that is
// picked, else the governing one.
func caseShown(d engine.Design, r engine.Result, f Focus) int {
	if f.Case >= 0 && f.Case < len(d.Cases) {
		return f.Case
	}
	return r.Governing
}

// caseText names the load case that the drawing shows; it is empty if there is
// only one.
func caseText(s Snapshot, f Focus) string {
	n := len(s.Design.Cases)
	i := caseShown(s.Design, s.Result, f)
	if n < 2 || i >= n {
		return ""
	}
	text := "Load case " + strconv.Itoa(i+1) + " of " + strconv.Itoa(n) + ": " + s.Design.Cases[i].Name
	if i == s.Result.Governing {
		text += "; it governs"
	}
	return text + ". Press here for the next one."
}
