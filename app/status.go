package app

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"flatwright/engine"
	"flatwright/widgets"
)

// status is the line at the foot of the window: how many problems there are,
// and what is under the pointer.
type status struct {
	session  *Session
	problems *widget.Button
	part     *widget.Label
	pressing *widgets.Text // what cannot wait, such as glue that lies open
	content  fyne.CanvasObject
}

// newStatus returns the line; problems is called when the count is pressed.
func newStatus(s *Session, problems func()) *status {
	st := &status{session: s, problems: widget.NewButton("", problems), part: widget.NewLabel(""), pressing: widgets.NewText("", widgets.ColorNear)}
	st.problems.Importance = widget.LowImportance
	st.part.Truncation = fyne.TextTruncateEllipsis
	st.content = container.NewBorder(container.New(margins{side: 12, top: 4}, st.pressing), nil, st.problems, nil, st.part)
	st.warn("", false)
	s.Watch(func(snap Snapshot) { st.show(snap, s.Focus()) })
	s.WatchFocus(func(f Focus) { st.show(s.Now(), f) })
	return st
}

// warn says what cannot wait, "" for nothing.
func (st *status) warn(text string, late bool) {
	colour := widgets.ColorNear
	if late {
		colour = widgets.ColorOver
	}
	st.pressing.Set(text, colour)
	if visible := text != ""; visible != st.pressing.Visible() {
		showIf(st.pressing, visible)
		if st.content != nil {
			st.content.Refresh()
		}
	}
}

func (st *status) show(snap Snapshot, f Focus) {
	if text := problemCount(snap); text != st.problems.Text {
		st.problems.SetText(text)
	}
	if text := focusText(snap, f); text != st.part.Text {
		st.part.SetText(text)
	}
}

// focusText names what is under the pointer, else what is picked, else it says
// how to go about it.
func focusText(s Snapshot, f Focus) string {
	switch {
	case f.Hover != "":
		return partText(s, f.Hover)
	case f.Part != "":
		return "Picked: " + partText(s, f.Part)
	}
	return "Point at a part to see what it is; click to pick it."
}

// problemCount says how many problems of each severity there are.
func problemCount(s Snapshot) string {
	if s.Err != nil {
		return "■ Not computed"
	}
	if s.Stale {
		return "Computing…"
	}
	if s.Unread != "" {
		return "▲ “" + s.Unread + "” cannot be read"
	}
	var counts [engine.Blocking + 1]int
	for _, p := range s.Result.Problems {
		counts[min(p.Severity, engine.Blocking)]++
	}
	var parts []string
	if n := counts[engine.Blocking]; n > 0 {
		parts = append(parts, "■ "+countOf(n, "stops", "stop")+" the computation")
	}
	if n := counts[engine.Shortfall]; n > 0 {
		parts = append(parts, "■ "+countOf(n, "falls", "fall")+" short")
	}
	if n := counts[engine.Advice]; n > 0 {
		parts = append(parts, "▲ "+countOf(n, "thing", "things")+" worth knowing")
	}
	if len(parts) == 0 {
		return "● No problems"
	}
	return strings.Join(parts, " · ")
}
