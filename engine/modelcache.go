package engine

import (
	"context"
	"encoding/json"
	"fmt"
	"sync"

	"flatwright/engine/plate"
)

// modelCache keeps the panels last prepared: while a load is dragged the panel
// stays the same, and only the answer to the load is new. It changes no
// answer, only the time.
var modelCache struct {
	sync.Mutex
	entries []cachedModel // newest last
}

type cachedModel struct {
	key   string
	model *plate.Model
}

// cachedModels bounds the cache; a refined bench takes about 50 MB.
const cachedModels = 3

// prepare returns the model of a design on a mesh.
func prepare(ctx context.Context, d *Design, mesh Mesh) (*plate.Model, error) {
	p := d.WholePanel(int(mesh))
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
			return e.model, nil
		}
	}
	modelCache.Unlock()
	m, err := plate.Prepare(ctx, p)
	if err != nil {
		return nil, err
	}
	modelCache.Lock()
	defer modelCache.Unlock()
	modelCache.entries = append(modelCache.entries, cachedModel{key, m})
	if n := len(modelCache.entries); n > cachedModels {
		modelCache.entries = append([]cachedModel(nil), modelCache.entries[n-cachedModels:]...)
	}
	return m, nil
}
