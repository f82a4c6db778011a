package nest_test

import (
	"context"
	"encoding/json"
	"testing"

	"flatwright/engine/nest"
)

// The oracle itself is tried: every way of spoiling a good plan has to be
// noticed.
func TestOracleNotices(t *testing.T) {
	t.Parallel()
	job := nest.Job{
		Stock: []nest.Sheet{{Name: "sheet", Length: 2440, Width: 1220, Trim: 5, Price: 60, Grain: nest.AlongLength}},
		Pieces: []nest.Piece{
			{ID: "S", Length: 1500, Width: 700, Count: 2, Grain: nest.AlongLength},
			{ID: "R", Length: 664, Width: 90, Count: 9, Grain: nest.AlongLength},
			{ID: "B", Length: 150, Width: 100, Count: 3},
		},
		Kerf: 3, Stages: 4, Carry: 25, MassPerArea: 650e-9 * 18, Steps: 400_000, UsefulLength: 300, UsefulWidth: 100,
	}
	good, err := nest.Solve(context.Background(), job, nil)
	if err != nil {
		t.Fatal(err)
	}
	if f := faults(job, good); len(f) > 0 {
		t.Fatalf("the plan to spoil has faults: %v", f)
	}
	last := len(good.Cuts) - 1
	for name, spoil := range map[string]func(*nest.Plan){
		"a part moved by 2 mm":        func(p *nest.Plan) { p.Sheets[0].Parts[0].X += 2 },
		"a part too short":            func(p *nest.Plan) { p.Sheets[0].Parts[1].Length-- },
		"a part lost":                 func(p *nest.Plan) { p.Sheets[0].Parts = p.Sheets[0].Parts[1:] },
		"a part twice":                func(p *nest.Plan) { p.Sheets[0].Parts = append(p.Sheets[0].Parts, p.Sheets[0].Parts[0]) },
		"a part told to be missing":   func(p *nest.Plan) { p.Unplaced = []nest.Missing{{Piece: 1, ID: "R", Count: 1}} },
		"a name changed":              func(p *nest.Plan) { p.Sheets[0].Parts[0].ID = "Q" },
		"a part told to be turned":    func(p *nest.Plan) { p.Sheets[0].Parts[0].Turned = !p.Sheets[0].Parts[0].Turned },
		"a cut left out":              func(p *nest.Plan) { p.Cuts = append(p.Cuts[:last-1], p.Cuts[last:]...) },
		"the last cut left out":       func(p *nest.Plan) { p.Cuts = p.Cuts[:last] },
		"two cuts in the wrong order": func(p *nest.Plan) { p.Cuts[0], p.Cuts[last] = p.Cuts[last], p.Cuts[0] },
		"a cut a millimetre off":      func(p *nest.Plan) { p.Cuts[last].At++ },
		"a cut the other way":         func(p *nest.Plan) { p.Cuts[last].Across = !p.Cuts[last].Across },
		"a wrong fence":               func(p *nest.Plan) { p.Cuts[last].Fence++ },
		"a fence setting not told":    func(p *nest.Plan) { p.Cuts[last].Setting-- },
		"a wrong number":              func(p *nest.Plan) { p.Cuts[last].Number++ },
		"a stage too early":           func(p *nest.Plan) { p.Cuts[last].Stage = 1 },
		"breaking not told":           func(p *nest.Plan) { p.Cuts[0].Breaking = !p.Cuts[0].Breaking },
		"a leftover not told":         func(p *nest.Plan) { p.Sheets[0].Leftovers = p.Sheets[0].Leftovers[1:] },
		"a useless leftover":          func(p *nest.Plan) { p.Sheets[0].Leftovers[0].Useful = !p.Sheets[0].Leftovers[0].Useful },
		"a sheet free of charge":      func(p *nest.Plan) { p.Cost -= 60 },
		"a bound above the plan":      func(p *nest.Plan) { p.Bound.Cost += 60 },
	} {
		var plan nest.Plan
		text, err := json.Marshal(good)
		if err == nil {
			err = json.Unmarshal(text, &plan)
		}
		if err != nil {
			t.Fatal(err)
		}
		spoil(&plan)
		if len(faults(job, plan)) == 0 {
			t.Errorf("not noticed: %s", name)
		}
	}
	for name, other := range map[string]func(*nest.Job){
		"a wider kerf":        func(j *nest.Job) { j.Kerf = 3.1 },
		"a narrower kerf":     func(j *nest.Job) { j.Kerf = 2.9 },
		"more to trim":        func(j *nest.Job) { j.Stock[0].Trim = 6 },
		"less may be carried": func(j *nest.Job) { j.Carry = 10 },
		"fewer stages":        func(j *nest.Job) { j.Stages = 1 },
		"another grain":       func(j *nest.Job) { j.Pieces[1].Grain = nest.AlongWidth },
		"another entry":       func(j *nest.Job) { j.Stock[0].Name = "other" },
		"one sheet on hand":   func(j *nest.Job) { j.Stock[0].OnHand = 1 },
	} {
		j := job
		j.Stock = append([]nest.Sheet(nil), job.Stock...)
		j.Pieces = append([]nest.Piece(nil), job.Pieces...)
		other(&j)
		plan := good
		if name != "another entry" && name != "one sheet on hand" {
			plan.Sheets = append([]nest.CutSheet(nil), good.Sheets...)
			for i := range plan.Sheets {
				plan.Sheets[i].Sheet = j.Stock[0]
			}
		}
		if len(faults(j, plan)) == 0 {
			t.Errorf("not noticed: %s", name)
		}
	}
}
