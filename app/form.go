package app

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"flatwright/engine"
	"flatwright/engine/length"
	"flatwright/widgets"
)

// form is the left pane: every decision about the top, in groups that fold.
// It holds no value of its own; what its fields show is the last snapshot's.
type form struct {
	session *Session
	content fyne.CanvasObject

	groups  []*group
	column  *fyne.Container
	pane    *widgets.Pane
	help    *widgets.Text
	snap    Snapshot       // shown last
	lengths length.Format  // of snap; the fields print and parse with it
	part    string         // selected when the focus was told last
	add     map[int]string // kind of load picked to be added, by case; not of the design
	hidden  bool           // behind another act; what it shows is then an older snapshot
}

// group is one foldable group of fields.
type group struct {
	name    string
	roots   []string                   // first words of the JSON paths that belong here
	shape   func(engine.Design) string // the fields are made anew when this changes
	build   func(b *builder)
	summary func(Snapshot) string

	fold  *widgets.Fold
	body  *fyne.Container
	own   *widgets.Text // problems of the group that no field of it owns
	lines []*line
	folds map[*widgets.Fold]string // within the group, with what each says folded
	built bool
	as    string // shape it was built in
}

// helpHeight is the room for the explanation below the form: four lines of small
// text. It is fixed, so that fields do not move under the
// pointer when the focus changes.
const helpHeight = 68

// formWidth is the least width of the form.
const formWidth = 288

// newForm returns a form of the groups that make makes.
func newForm(s *Session, make func(*form) []*group) *form {
	f := &form{session: s, add: map[int]string{}, help: widgets.NewNote("", widgets.ColorPencil)}
	f.groups = make(f)
	f.column = container.New(widgets.NewColumn(8))
	for i, g := range f.groups {
		g.own = widgets.NewNote("", widgets.ColorOver)
		g.body = container.New(widgets.NewColumn(8))
		g.fold = widgets.NewFold(g.name, container.New(margins{side: 4, bottom: 8}, g.body))
		g.fold.SetOpen(i == 0) // the other heads show the whole design in a few lines
		g.fold.OnToggled = func(open bool) {
			if open {
				f.showGroup(g)
			}
			f.column.Refresh()
			if open {
				f.bringUpGroup(g)
			}
		}
		g.fold.OnFocus = func(focused bool) {
			if focused {
				f.pane.Reveal(g.fold)
			}
		}
		f.column.Add(g.fold)
	}
	f.pane = widgets.NewPane(container.New(margins{side: 8, top: 4, bottom: 16}, f.column), formWidth)
	help := container.New(fixedHeight(helpHeight), container.New(margins{side: 12, top: 4}, f.help))
	foot := container.NewBorder(widget.NewSeparator(), nil, nil, nil, help)
	f.content = container.NewBorder(nil, foot, nil, nil, f.pane)
	f.explain("")
	s.WatchFocus(f.follow)
	return f
}

// designGroups are the decisions about the top itself.
func designGroups(f *form) []*group {
	return []*group{
		f.sizeGroup(), f.skinsGroup(), f.ribsGroup(), f.edgesGroup(), f.holesGroup(), f.supportsGroup(),
		f.loadsGroup(), f.limitsGroup(), f.shopGroup(), f.builtGroup(),
	}
}

// hide says whether the form is behind another act. What comes to the fore
// shows the newest snapshot.
func (f *form) hide(hidden bool) {
	was := f.hidden
	f.hidden = hidden
	if was && !hidden {
		f.Show(f.session.Now())
	}
}

// Show shows the snapshot in every field. It never edits.
func (f *form) Show(s Snapshot) {
	if f.hidden {
		return
	}
	f.snap, f.lengths = s, s.Lengths
	for _, g := range f.groups {
		f.showGroup(g)
	}
}

// focusedLine returns the line that has the keyboard, or nil.
func (f *form) focusedLine() *line {
	for _, g := range f.groups {
		for _, l := range g.lines {
			if l.focused {
				return l
			}
		}
	}
	return nil
}

// showGroup shows the last snapshot in one group: its fields while it is open,
// its summary while it is not.
func (f *form) showGroup(g *group) {
	if !g.fold.Open() {
		g.fold.SetSummary(f.summaryOf(g))
		return
	}
	f.makeGroup(g)
	problems, own := f.problemsOf(g)
	hidden := map[*widgets.Fold][2]int{} // problems, and advice alone
	for _, l := range g.lines {
		l.show(f.snap)
		l.setProblem(problems[l.path])
		if l.inside != nil && problems[l.path] != "" {
			n := hidden[l.inside]
			if strings.HasPrefix(problems[l.path], severityShape(engine.Advice)) { // the worst comes first
				n[1]++
			} else {
				n[0]++
			}
			hidden[l.inside] = n
		}
	}
	for fold, summary := range g.folds {
		if n, there := hidden[fold]; there {
			summary = problemWords(n[0], n[1]) + " · " + summary
		}
		fold.SetSummary(summary)
	}
	g.own.Set(own, widgets.ColorOver)
}

// makeGroup makes the group's fields if the design needs others than are there,
// and gives the keyboard back to the field that had it.
func (f *form) makeGroup(g *group) {
	shape := g.shape(f.snap.Design)
	if g.built && shape == g.as {
		return
	}
	focused := ""
	for _, l := range g.lines {
		if l.focused {
			focused = l.path
		}
	}
	for _, l := range g.lines {
		f.session.Doubt(l.path, "", false) // what could not be read goes with its field
	}
	g.built, g.as = true, shape
	b := &builder{form: f, summaries: map[*widgets.Fold]string{}}
	g.build(b)
	g.lines, g.folds = b.lines, b.summaries
	for _, l := range g.lines {
		l.group = g
	}
	g.body.Objects = append([]fyne.CanvasObject{g.own}, b.objects...)
	g.body.Refresh()
	f.column.Refresh()
	for _, l := range g.lines {
		if focused != "" && l.path == focused {
			l.focus()
		}
	}
}

// problemsOf returns the sentences for each field of a group, by its path, and
// those that belong to no field of it.
func (f *form) problemsOf(g *group) (byPath map[string]string, own string) {
	byPath = map[string]string{}
	known := f.named(g)
	for _, p := range g.problems(f.snap.Result.Problems) {
		path := ""
		if owner := fieldOwner(p.Field, func(path string) bool { return known[path] != nil }); owner != "" {
			path = known[owner].path
		}
		text := severityShape(p.Severity) + problemText(p, f.lengths)
		if path == "" {
			own = joined(own, text)
			continue
		}
		byPath[path] = joined(byPath[path], text)
	}
	return byPath, own
}

// named is the group's lines by their paths and by what the engine calls them.
func (f *form) named(g *group) map[string]*line {
	lines := map[string]*line{}
	for _, l := range g.lines {
		if l.path != "" {
			lines[l.path] = l
		}
		if l.alias != nil {
			if name := l.alias(f.snap.Design); name != "" {
				lines[name] = l
			}
		}
	}
	return lines
}

// problems returns those of the problems that belong to the group.
func (g *group) problems(all []engine.Problem) []engine.Problem {
	var mine []engine.Problem
	for _, p := range sortedProblems(all) {
		if p.Field != "" && g.owns(p.Field) {
			mine = append(mine, p)
		}
	}
	return mine
}

func (g *group) owns(field string) bool { return g.rootOf(field) != "" }

// rootOf returns the longest of the group's roots that the field at a path lies
// below, "" if none.
func (g *group) rootOf(field string) string {
	found := ""
	for _, root := range g.roots {
		if rest, ok := strings.CutPrefix(field, root); ok && (rest == "" || rest[0] == '.' || rest[0] == '[') && len(root) > len(found) {
			found = root
		}
	}
	return found
}

func joined(a, b string) string {
	if a == "" {
		return b
	}
	return a + " " + b
}

// summaryOf is what the folded head says: problems first.
func (f *form) summaryOf(g *group) string {
	text := g.summary(f.snap)
	if all := g.problems(f.snap.Result.Problems); len(all) > 0 {
		n := 0
		for n < len(all) && all[n].Severity != engine.Advice { // the worst come first
			n++
		}
		return problemWords(n, len(all)-n) + " · " + text
	}
	return text
}

// problemWords counts the problems of a group; advice is told where there is
// nothing worse.
func problemWords(problems, advice int) string {
	if problems == 0 {
		return severityShape(engine.Advice) + countOf(advice, "thing", "things") + " worth knowing"
	}
	return severityShape(engine.Shortfall) + countOf(problems, "problem", "problems")
}

// follow brings the fields of a picked part into view, and the cursor into a
// field that is asked for.
func (f *form) follow(focus Focus) {
	if f.hidden {
		return
	}
	if focus.Part != f.part {
		f.part = focus.Part
		if field := partField(f.snap.Design, focus.Part); field != "" {
			f.reveal(field)
		}
	}
	if focus.Field != "" {
		if l := f.reveal(focus.Field); l != nil {
			l.focus()
		}
	}
}

// reveal opens what hides the field at path, scrolls to it and returns its
// line; nil if no group owns the path.
func (f *form) reveal(path string) *line {
	g := f.owner(path)
	if g == nil {
		return nil
	}
	g.fold.SetOpen(true)
	f.showGroup(g)
	found := f.find(g, path)
	if found == nil {
		f.bringUpGroup(g)
		return nil
	}
	if found.inside != nil {
		found.inside.SetOpen(true)
	}
	f.column.Refresh()
	f.bringUp(found)
	return found
}

// owner returns the group that the field at path belongs to, nil if none.
func (f *form) owner(path string) *group {
	var found *group
	for _, g := range f.groups {
		if root := g.rootOf(path); root != "" && (found == nil || len(root) > len(found.rootOf(path))) {
			found = g
		}
	}
	return found
}

// bringUpGroup scrolls to a group.
func (f *form) bringUpGroup(g *group) {
	y := g.fold.Position().Y + f.column.Position().Y
	f.pane.RevealSpan(y, y+g.fold.Size().Height)
}

// bringUp scrolls to a line. It adds up positions itself, since the toolkit
// knows none of what was made just now.
func (f *form) bringUp(l *line) {
	y := l.object.Position().Y + l.group.body.Position().Y + l.group.fold.Content.Position().Y + l.group.fold.Position().Y + f.column.Position().Y
	if l.inside != nil {
		y += l.inside.Position().Y + l.inside.Content.Position().Y
	}
	f.pane.RevealSpan(y, y+l.object.Size().Height)
}

// find returns the line of a path, else that of the nearest path around it,
// else the first one below it.
func (f *form) find(g *group, path string) *line {
	byPath := f.named(g)
	if owner := fieldOwner(path, func(p string) bool { return byPath[p] != nil }); owner != "" {
		return byPath[owner]
	}
	for _, l := range g.lines {
		if strings.HasPrefix(l.path, path) {
			return l
		}
	}
	return nil
}

// explain shows a word of explanation below the form.
func (f *form) explain(text string) {
	if text == "" {
		text = "Point at a label, or step into a field with Tab: what it means stands here."
	}
	f.help.Set(text, widgets.ColorPencil)
}

// focusChanged is told by every control when the keyboard comes and goes.
func (f *form) focusChanged(l *line, focused bool) {
	l.focused = focused
	if !focused {
		f.explain("")
		return
	}
	f.explain(l.help)
	f.bringUp(l)
	var loadCase int
	if n, _ := fmt.Sscanf(l.path, "cases[%d]", &loadCase); n == 1 {
		f.session.PickCase(loadCase) // the drawing shows what is being typed
	}
}

// fixedHeight is a layout that lies its objects on one another and has one
// height whatever they need.
type fixedHeight float32

func (h fixedHeight) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	for _, o := range objects {
		o.Resize(size)
	}
}

func (h fixedHeight) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(0, float32(h)) }

// path writes a JSON path with an index: path("cases[%d].name", 0).
func path(format string, indices ...any) string { return fmt.Sprintf(format, indices...) }
