package engine

import (
	"context"
	"reflect"
	"slices"
	"sync"

	"flatwright/engine/plate"
)

// modelCache keeps the panels last prepared: while a load is dragged the panel
// stays the same, and only the answer to the load is new. It changes no
// answer, only the time.
var modelCache struct {
	sync.Mutex
	entries []*cachedModel // newest last
}

// cachedModel is a prepared panel with the answers it gave last.
type cachedModel struct {
	panel *plate.Panel
	model *plate.Model

	mu      sync.Mutex
	answers []cachedAnswer // newest last
	held    []cachedAnswer // fastened down, in the order asked for: somebody leaning, who does not move
}

type cachedAnswer struct {
	loads    []plate.Press
	solution *plate.Solution
}

// cachedAnswers bounds the answers kept with a panel: own weight and a few
// cases, of which a drag changes one.
const cachedAnswers = 8

// solve is the model's Solve, from the answers kept if they have it.
func (c *cachedModel) solve(ctx context.Context, loads []plate.Press) (*plate.Solution, error) {
	c.mu.Lock()
	for _, a := range c.answers {
		if slices.Equal(a.loads, loads) {
			c.mu.Unlock()
			return a.solution, nil
		}
	}
	c.mu.Unlock()
	s, err := c.model.Solve(ctx, loads)
	if err != nil {
		return nil, err
	}
	c.mu.Lock()
	c.answers = append(c.answers, cachedAnswer{slices.Clone(loads), s})
	if len(c.answers) > cachedAnswers {
		c.answers = slices.Delete(c.answers, 0, 1)
	}
	c.mu.Unlock()
	modelCache.Lock()
	defer modelCache.Unlock()
	prune() // a model grows with its first answer
	return s, nil
}

// cachedModels and cachedBytes bound the cache; the newest is kept whatever its
// size. Of a bench a model takes some 8 MB on the interactive mesh and 18 MB on
// the normal one. One on the refined mesh takes 60 MB and is asked for once.
const (
	cachedModels = 3
	cachedBytes  = 40 << 20
)

// prune drops the oldest models beyond the bounds; the caller holds the lock.
func prune() {
	e := modelCache.entries
	sum, keep := 0, 0
	for i := len(e) - 1; i >= 0 && keep < cachedModels; i-- {
		sum += e[i].model.Bytes()
		if keep > 0 && sum > cachedBytes {
			break
		}
		keep++
	}
	modelCache.entries = slices.Delete(e, 0, len(e)-keep)
}

// prepare returns the model of a design on a mesh and keeps it.
func prepare(ctx context.Context, d *Design, mesh Mesh) (*cachedModel, error) {
	return prepared(ctx, d, mesh, mesh < Refined)
}

// prepared returns the model of a design on a mesh, from the cache if it is there.
func prepared(ctx context.Context, d *Design, mesh Mesh, keep bool) (*cachedModel, error) {
	p := d.wholePanel(ctx, int(mesh))
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	modelCache.Lock()
	for i, e := range modelCache.entries {
		if reflect.DeepEqual(e.panel, p) {
			modelCache.entries = append(append(modelCache.entries[:i:i], modelCache.entries[i+1:]...), e)
			modelCache.Unlock()
			return e, nil
		}
	}
	modelCache.Unlock()
	m, err := plate.Prepare(ctx, p)
	if err != nil {
		return nil, err
	}
	c := &cachedModel{panel: p, model: m}
	if !keep {
		return c, nil
	}
	modelCache.Lock()
	defer modelCache.Unlock()
	modelCache.entries = append(modelCache.entries, c)
	prune()
	return c, nil
}

// solveHeld is the model's SolveHeld, from the answers kept if they have it.
func (c *cachedModel) solveHeld(ctx context.Context, loads []plate.Press) (*plate.Solution, error) {
	c.mu.Lock()
	defer c.mu.Unlock()
	for _, a := range c.held {
		if slices.Equal(a.loads, loads) {
			return a.solution, nil
		}
	}
	s, err := c.model.SolveHeld(ctx, loads)
	if err == nil && len(c.held) <= leanMost {
		c.held = append(c.held, cachedAnswer{slices.Clone(loads), s})
	}
	return s, err
}

// onThree keeps the panel last held at three corners: it stays the same while
// loads are dragged.
var onThree struct {
	sync.Mutex
	panel *plate.Panel
	at    plate.Corners
	model *plate.Model
	lift  [4]float64
}

// holdThree returns a panel made ready on three pads and what 1 N upwards on a
// square of that side at each of four corners adds to how far they lie out of a
// plane, mm.
func holdThree(ctx context.Context, p *plate.Panel, at plate.Corners, side float64) (*plate.Model, [4]float64, error) {
	onThree.Lock()
	defer onThree.Unlock()
	if onThree.model != nil && onThree.at == at && reflect.DeepEqual(onThree.panel, p) {
		return onThree.model, onThree.lift, nil
	}
	m, err := plate.Prepare(ctx, p)
	if err != nil {
		return nil, [4]float64{}, err
	}
	var lift [4]float64
	for i := range at {
		up, err := m.Lift(ctx, 1, at[i].X, at[i].Y, side)
		if err != nil {
			return nil, lift, err
		}
		lift[i] = up.OutOfPlane(at)
	}
	onThree.panel, onThree.at, onThree.model, onThree.lift = p, at, m, lift
	return m, lift, nil
}
