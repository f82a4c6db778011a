package app

import (
	"context"
	"errors"
	"reflect"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"flatwright/engine"
	"flatwright/engine/draw"
	"flatwright/engine/proof"
	"flatwright/widgets"
)

// newProveAct makes the act in which the finished top is loaded and read.
func newProveAct(s *Session) (*act, *proveView) {
	v := &proveView{session: s, board: newPartsBoard(s), stop: widgets.NewFigure(""), why: widgets.NewText("", widgets.ColorInk), said: widgets.NewNote("", widgets.ColorPencil), hidden: true, cancel: func() {}}
	v.which = newPressableLine(func() {
		v.shown++
		v.show(s.Now())
	})
	v.form = newForm(s, v.proveGroups)
	v.cards = newCardPane(s, v.proveCards)
	v.board.ScaleBar = func(limit float64) (float64, string) {
		if v.shown%2 == 0 && len(v.plan.Rounds) > 0 {
			return 0, "" // a plot has scales of its own
		}
		return scaleBar(limit, s.Now().Lengths)
	}
	v.changed = func() { // a plot fills the board
		if !v.hidden {
			v.showPicture(s.Now())
		}
	}
	above := container.New(margins{side: 8, top: 4}, container.New(widgets.NewColumn(2), v.stop, v.why, v.which.content, v.said))
	v.content = container.NewBorder(above, nil, nil, nil, container.New(v, v.board))
	s.Watch(v.show)
	s.Watch(v.form.Show)
	content, panes := newPanes(v.form.content, v.content, v.cards.content)
	return &act{name: "Prove", first: "proof", form: v.form, board: func() *widgets.Board { return v.board }, panes: panes, content: content, hide: v.hide,
		cards: func() {
			panes.showResults(true)
			v.cards.takeFocus()
		}}, v
}

// proveView is the act Prove: what is planned is computed beside all else, once
// somebody looks and anew only when what it depends on has changed; readings are
// judged as they are typed.
type proveView struct {
	session *Session
	form    *form
	cards   *cardPane
	board   *widgets.Board
	stop    *widgets.Text // STOP, in large letters
	why     *widgets.Text
	which   *pressableLine
	said    *widgets.Text
	content fyne.CanvasObject

	plan    engine.ProofPlan
	planned bool          // plan is that of input
	input   engine.Design // the plan is, or will be, of this
	cancel  func()
	trouble string // why there is no plan, where computing failed

	result  engine.ProofResult
	ratings []engine.ProofRating
	rated   engine.Proof // the readings that ratings are of
	rating  bool         // under way

	allRoom // of the board
	shown   int
	hidden  bool
}

func (v *proveView) hide(hidden bool) {
	v.hidden = hidden
	showIf(v.content, !hidden)
	v.show(v.session.Now())
	v.cards.hide(hidden)
}

// show brings plan, judgement and picture up to date.
func (v *proveView) show(s Snapshot) {
	if v.hidden {
		return
	}
	v.makePlan(s)
	v.result = engine.ProofResult{}
	if v.planned {
		v.result = engine.JudgeProof(s.Design, v.plan)
	}
	v.showCall()
	v.showPicture(s)
}

// makePlan begins a plan if there is none of the present design.
func (v *proveView) makePlan(s Snapshot) {
	if s.Stale || s.Result.Blocked() || !s.Design.Proof.Planned() {
		if !s.Design.Proof.Planned() {
			v.plan, v.planned, v.input = engine.ProofPlan{}, false, engine.Design{}
		}
		return
	}
	in := s.Design.ProofInput()
	if reflect.DeepEqual(in, v.input) {
		return
	}
	v.cancel()
	v.input, v.planned, v.trouble, v.ratings = in, false, "", nil
	var plan engine.ProofPlan
	design, result := s.Design, s.Result
	v.cancel = v.session.Background(func(ctx context.Context) (err error) {
		plan, err = engine.PlanProof(ctx, design, result)
		return err
	}, func(err error) {
		if errors.Is(err, context.Canceled) || !reflect.DeepEqual(in, v.input) {
			return // the design has moved on
		}
		if err != nil {
			v.trouble = "The plan could not be computed. Nothing of yours is lost; change a figure to try again."
		} else {
			v.plan, v.planned = plan, true
		}
		v.refresh()
	})
}

// refresh shows everything anew.
func (v *proveView) refresh() {
	now := v.session.Now()
	v.show(now)
	v.form.Show(now)
	v.cards.Show(now)
}

// rate re-rates every margin as the readings explain them.
func (v *proveView) rate() {
	s := v.session.Now()
	if !v.planned || v.rating {
		return
	}
	plan, result, of := v.plan, v.result, v.input
	var ratings []engine.ProofRating
	v.rating = true
	v.cards.Show(s)
	v.session.Background(func(ctx context.Context) (err error) {
		ratings, err = engine.RateProof(ctx, s.Design, plan, result)
		return err
	}, func(err error) {
		v.rating = false
		if err == nil && reflect.DeepEqual(of, v.input) {
			v.ratings, v.rated = ratings, s.Design.Proof
		}
		v.refresh()
	})
}

// ratingsOf returns the ratings if they are those of the readings that show.
func (v *proveView) ratingsOf(s Snapshot) []engine.ProofRating {
	if !v.planned || !reflect.DeepEqual(v.rated, s.Design.Proof) {
		return nil
	}
	return v.ratings
}

// showCall says in large letters to stop.
func (v *proveView) showCall() {
	colour := widgets.ColorNear
	if v.result.Call == proof.Stop {
		colour = widgets.ColorOver
	}
	text, why := engine.ProofCallWords(v.result.Call), ""
	for i := range v.result.Rounds {
		for _, q := range v.result.Rounds[i].Verdict.Reasons {
			if why == "" && q.Call == v.result.Call {
				why = inUnit(engine.ProofReasonWords(&v.plan.Rounds[i], v.result.Rounds[i].Points, q), v.session.Now().Lengths)
			}
		}
	}
	if text != "" {
		text = either(v.result.Call == proof.Stop, "■ ", "▲ ") + text
	}
	v.stop.Set(text, colour)
	v.why.Set(why, widgets.ColorInk)
	showIf(v.stop, text != "")
	showIf(v.why, why != "")
}

// provePicture is one thing that the centre can show.
type provePicture struct {
	name   string
	figure func() draw.Figure
}

func (v *proveView) pictures(s Snapshot) []provePicture {
	var out []provePicture
	for i := range v.plan.Rounds {
		if i >= len(s.Design.Proof.Rounds) {
			break
		}
		round := "round " + path("%d", i+1)
		out = append(out,
			provePicture{"the readings of " + round, func() draw.Figure {
				return engine.ProofPlot(v.plan, v.result, i, draw.Point{X: float64(v.room.Width), Y: float64(v.room.Height)}, s.Lengths)
			}},
			provePicture{"where the stack of " + round + " stands", func() draw.Figure { return engine.ProofPlanDrawing(s.Design, v.plan, i) }})
	}
	return out
}

func (v *proveView) showPicture(s Snapshot) {
	said := ""
	switch {
	case s.Result.Blocked():
		said = "▲ There is nothing to load until the design is put right."
	case !s.Design.Proof.Planned():
		said = "A proof load puts weights on the finished top in stages and compares what a gauge reads with the plan. Press “Plan a proof load” at the left."
	case v.trouble != "":
		said = v.trouble
	case !v.planned:
		said = "Computing what every stage should read…"
	case v.plan.Refused != "":
		said = "▲ " + inUnit(v.plan.Refused, s.Lengths)
	}
	v.said.Set(said, widgets.ColorPencil)
	showIf(v.said, said != "")
	pictures := v.pictures(s)
	if len(pictures) == 0 {
		v.which.set("")
		if !s.Result.Blocked() && !s.Stale {
			v.board.SetFigure(panelFigure(s, v.board.Size()))
		}
		return
	}
	v.shown %= len(pictures)
	v.which.set(capital(pictures[v.shown].name) + ". Press here for " + pictures[(v.shown+1)%len(pictures)].name + ".")
	v.board.SetFigure(pictures[v.shown].figure())
}
