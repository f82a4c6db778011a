package engine

import (
	"context"
	"encoding/json"
	"fmt"
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
	key   string
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
	defer c.mu.Unlock()
	c.answers = append(c.answers, cachedAnswer{slices.Clone(loads), s})
	if len(c.answers) > cachedAnswers {
		c.answers = slices.Delete(c.answers, 0, 1)
	}
	return s, nil
}

// cachedModels bounds the cache; a refined bench takes about 50 MB.
const cachedModels = 3

// prepare returns the model of a design on a mesh.
func prepare(ctx context.Context, d *Design, mesh Mesh) (*cachedModel, error) {
	p := d.wholePanel(ctx, int(mesh))
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	text, err := json.Marshal(p)
	if err != nil {
		return nil, fmt.Errorf("name the panel: %w", err)
	}
	key := string(text)
	modelCache.Lock()
	for i, e := range modelCache.entries {
		if e.key == key {
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
	c := &cachedModel{key: key, model: m}
	modelCache.Lock()
	defer modelCache.Unlock()
	modelCache.entries = append(modelCache.entries, c)
	if n := len(modelCache.entries); n > cachedModels {
		modelCache.entries = slices.Delete(modelCache.entries, 0, n-cachedModels)
	}
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
	key   string
	model *plate.Model
	lift  [4]float64
}

// holdThree returns a panel made ready on three pads and what 1 N upwards on a
// square of that side at each of four corners adds to how far the last lies
// out of the plane of the others, mm.
func holdThree(ctx context.Context, p *plate.Panel, at [4]point, side float64) (*plate.Model, [4]float64, error) {
	text, err := json.Marshal(p)
	if err != nil {
		return nil, [4]float64{}, fmt.Errorf("name the panel: %w", err)
	}
	onThree.Lock()
	defer onThree.Unlock()
	if onThree.model != nil && onThree.key == string(text) {
		return onThree.model, onThree.lift, nil
	}
	m, err := plate.Prepare(ctx, p)
	if err != nil {
		return nil, [4]float64{}, err
	}
	var lift [4]float64
	for i := range at {
		up, err := m.Lift(ctx, 1, at[i].x, at[i].y, side)
		if err != nil {
			return nil, lift, err
		}
		lift[i] = up.OutOfPlane(at[0].x, at[3].x, at[0].y, at[3].y)
	}
	onThree.key, onThree.model, onThree.lift = string(text), m, lift
	return m, lift, nil
}
