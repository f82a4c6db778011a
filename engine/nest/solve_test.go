package nest_test

import (
	"context"
	"errors"
	"fmt"
	"reflect"
	"testing"
	"time"

	"flatwright/engine/nest"
)

// solve solves a job and lets the oracle look at the plan.
func solve(t *testing.T, name string, job nest.Job) nest.Plan {
	t.Helper()
	plan, err := nest.Solve(context.Background(), job, nil)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	for _, f := range faults(job, plan) {
		t.Errorf("%s: %s", name, f)
	}
	return plan
}

// rounds is how many of n rounds to do: fewer under the race detector, which
// runs with -short.
func rounds(n int) int {
	if testing.Short() {
		return max(n/6, 1)
	}
	return n
}

// one is a stock of one sheet entry.
func one(length, width float64) []nest.Sheet {
	return []nest.Sheet{{Name: "sheet", Length: length, Width: width, Price: 10}}
}

func TestByHand(t *testing.T) {
	t.Parallel()
	piece := func(id string, l, w float64, n int) nest.Piece {
		return nest.Piece{ID: id, Length: l, Width: w, Count: n}
	}
	for _, c := range []struct {
		name         string
		job          nest.Job
		sheets, cuts int
		settings     int // 0: not looked at
		cost         float64
	}{
		// 4·250 + 3·4 = 1012: four strips and the three kerfs between fill the
		// sheet to the last; three cuts, one setting.
		{"strips that fill the sheet", nest.Job{Stock: one(1012, 500), Kerf: 4, Pieces: []nest.Piece{piece("A", 500, 250, 4)}}, 1, 3, 1, 10},
		// A micrometre less and only three fit.
		{"a micrometre too short", nest.Job{Stock: one(1011.999, 500), Kerf: 4, Pieces: []nest.Piece{piece("A", 500, 250, 4)}}, 2, 4, 1, 20},
		// 1000 - 2·6 = 988 = 3·326 + 2·5: three across, each 488 = 500 - 12 long.
		// Four trimming cuts (two settings each way: 994, 988, then 494, 488)
		// and two more.
		{"trimmed on four edges", nest.Job{Stock: []nest.Sheet{{Length: 1000, Width: 500, Trim: 6, Price: 10}}, Kerf: 5,
			Pieces: []nest.Piece{piece("A", 488, 326, 3)}}, 1, 6, 5, 10},
		// A part as large as the sheet needs no cut at all.
		{"the whole sheet", nest.Job{Stock: one(800, 600), Kerf: 3, Pieces: []nest.Piece{piece("A", 600, 800, 1)}}, 1, 0, 0, 10},
		// Five parts around a square hole in the middle fit the 700 x 700 sheet
		// only as a pinwheel, which no saw can cut edge to edge: 400·300·4 +
		// 100·100 = 490 000 = 700². A second sheet is needed.
		{"a pinwheel", nest.Job{Stock: one(700, 700), Pieces: []nest.Piece{piece("A", 400, 300, 4), piece("B", 100, 100, 1)}}, 2, -1, 0, 20},
		// The offcut costs nothing and takes the one small part; the large one
		// takes a sheet.
		{"an offcut", nest.Job{Stock: []nest.Sheet{{Length: 1000, Width: 500, Price: 7}, {Length: 300, Width: 200, OnHand: 1, Offcut: true}},
			Pieces: []nest.Piece{piece("A", 1000, 500, 1), piece("B", 290, 200, 1)}}, 2, 1, 0, 7},
		// Two small sheets at 3 are cheaper than a large one at 7.
		{"the cheaper of two ways", nest.Job{Stock: []nest.Sheet{{Length: 1000, Width: 500, Price: 7}, {Length: 500, Width: 500, Price: 3}},
			Pieces: []nest.Piece{piece("A", 500, 500, 2)}}, 2, 0, 0, 6},
		// As dear, but one sheet instead of two.
		{"as dear, fewer sheets", nest.Job{Stock: []nest.Sheet{{Length: 500, Width: 500, Price: 3}, {Length: 1000, Width: 500, Price: 6}},
			Pieces: []nest.Piece{piece("A", 500, 500, 2)}}, 1, 1, 0, 6},
		// With the grain along, 3 strips of 300 fit the width of 1000, 4 would
		// fit turned the length of 1200. Cuts: the end of 200 off and three
		// strips, then the same for one strip.
		{"grain kept", nest.Job{Stock: []nest.Sheet{{Length: 1200, Width: 1000, Price: 10, Grain: nest.AlongLength}},
			Pieces: []nest.Piece{{ID: "A", Length: 1000, Width: 300, Count: 4, Grain: nest.AlongLength}}}, 2, 6, 0, 20},
		{"grain free", nest.Job{Stock: []nest.Sheet{{Length: 1200, Width: 1000, Price: 10, Grain: nest.AlongLength}},
			Pieces: []nest.Piece{piece("A", 1000, 300, 4)}}, 1, 3, 1, 10},
	} {
		plan := solve(t, c.name, c.job)
		if len(plan.Sheets) != c.sheets || plan.Cost != c.cost || !plan.Bound.Proven {
			t.Errorf("%s: %d sheets, cost %g, proven %v; want %d, %g, proven", c.name, len(plan.Sheets), plan.Cost, plan.Bound.Proven, c.sheets, c.cost)
		}
		if c.cuts >= 0 && len(plan.Cuts) != c.cuts || c.settings > 0 && plan.Settings != c.settings {
			t.Errorf("%s: %d cuts, %d settings; want %d, %d", c.name, len(plan.Cuts), plan.Settings, c.cuts, c.settings)
		}
	}
}

// anyJob makes up small jobs with everything a job may ask for.
func anyJob(seed int) nest.Job {
	job := nest.WorkshopJob(seed)
	job.Steps = 300_000
	if seed%3 == 1 {
		job = nest.Guillotined(seed, 1+seed%3, 12+seed%20, 0.1)
		job.Steps = 300_000
	}
	if seed%2 == 0 {
		job.MassPerArea = 650e-9 * 18
		job.Carry = []float64{25, 12, 6, 2}[seed/2%4]
	}
	if seed%5 > 1 {
		job.Stages = 2 + seed/5%4
	}
	if seed%7 == 0 {
		job.Kerf = 0
	}
	if seed%4 == 3 {
		job.Stock[0].Trim = 1.5 // narrower than the kerf
	}
	return job
}

func TestRandomJobs(t *testing.T) {
	t.Parallel()
	for seed := range rounds(60) {
		job := anyJob(seed)
		plan, err := nest.Solve(context.Background(), job, nil)
		var large *nest.TooLargeError
		if errors.As(err, &large) && (job.Stages > 0 && job.Stages < 3) {
			continue
		}
		if err != nil {
			t.Errorf("job %d: %v", seed, err)
			continue
		}
		if len(plan.Unplaced) > 0 {
			t.Errorf("job %d: %v have no place in an unlimited stock", seed, plan.Unplaced)
		}
		for _, f := range faults(job, plan) {
			t.Errorf("job %d: %s", seed, f)
		}
	}
}

func TestSameJobSamePlan(t *testing.T) {
	t.Parallel()
	for seed := range 4 {
		job := nest.WorkshopJob(seed)
		job.Steps = 2_000_000
		first, err := nest.Solve(context.Background(), job, nil)
		if err != nil {
			t.Fatal(err)
		}
		told := 0
		second, err := nest.Solve(context.Background(), job, func(*nest.Plan, float64) { told++ })
		if err != nil || !reflect.DeepEqual(first, second) || told == 0 {
			t.Errorf("job %d: another plan the second time, told %d times, %v", seed, told, err)
		}
	}
}

// The plans that are told on the way become better one after another, each
// passes the oracle, and the last is the answer.
func TestBetterAnswersArrive(t *testing.T) {
	t.Parallel()
	job := nest.Guillotined(3, 3, 60, 0.05)
	job.Steps = 6_000_000
	var plans []nest.Plan
	last := 0.0
	answer, err := nest.Solve(context.Background(), job, func(better *nest.Plan, done float64) {
		if done < last || done > 1 {
			t.Errorf("done goes from %g to %g", last, done)
		}
		last = done
		if better != nil {
			plans = append(plans, *better)
		}
	})
	if err != nil || last != 1 || len(plans) == 0 {
		t.Fatalf("%v, done %g, %d plans", err, last, len(plans))
	}
	for i, p := range plans {
		for _, f := range faults(job, p) {
			t.Errorf("plan %d: %s", i, f)
		}
		if i > 0 && p.Cost > plans[i-1].Cost {
			t.Errorf("plan %d costs %g after %g", i, p.Cost, plans[i-1].Cost)
		}
	}
	if end := plans[len(plans)-1]; end.Cost != answer.Cost || !reflect.DeepEqual(end.Cuts, answer.Cuts) {
		t.Errorf("the last plan told, at cost %g, is not the answer, at %g", end.Cost, answer.Cost)
	}
}

// closing is a context that ends after it was asked n times.
type closing struct {
	context.Context
	asked, n int
}

func (c *closing) Err() error {
	if c.asked++; c.asked > c.n {
		return context.Canceled
	}
	return nil
}

// Whenever the context ends, Solve stops within a few looks at it, and what it
// returns passes the oracle.
func TestStopsAtAnyLook(t *testing.T) {
	t.Parallel()
	job := nest.Guillotined(5, 6, 150, 0)
	job.Steps = 4_000_000
	all := &closing{t.Context(), 0, 1 << 30}
	if _, err := nest.Solve(all, job, nil); err != nil || all.asked < 50 {
		t.Fatalf("%d looks in a whole run, %v; want dozens", all.asked, err)
	}
	for n := 0; n < all.asked; n += 1 + all.asked/rounds(12) {
		c := &closing{t.Context(), 0, n}
		plan, err := nest.Solve(c, job, nil)
		if !errors.Is(err, context.Canceled) || plan.Bound.Proven {
			t.Errorf("ended after look %d: error %v, bound %+v", n, err, plan.Bound)
		}
		if more := c.asked - n; more > 5 {
			t.Errorf("ended after look %d it looked %d times more", n, more)
		}
		for _, f := range faults(job, plan) {
			t.Errorf("ended after look %d: %s", n, f)
		}
	}
}

// The same by the clock, at shares of a whole run, however long that takes here.
// Where other tests keep this one waiting it gets some more tries, of which the
// quickest counts.
func TestStopsSoon(t *testing.T) {
	t.Parallel()
	job := nest.Guillotined(5, 12, 300, 0)
	job.Steps = 60_000_000
	began := time.Now()
	if _, err := nest.Solve(t.Context(), job, nil); err != nil {
		t.Fatal(err)
	}
	whole := time.Since(began)
	for _, share := range [...]float64{0.03, 0.2, 0.6} {
		after := time.Duration(share * float64(whole))
		late := time.Hour
		for try := 0; try < 20 && late > 50*time.Millisecond; try++ {
			ctx, cancel := context.WithCancel(t.Context())
			var ended time.Time
			timer := time.AfterFunc(after, func() { ended = time.Now(); cancel() })
			_, err := nest.Solve(ctx, job, nil)
			timer.Stop()
			switch {
			case ctx.Err() == nil:
				after = after * 3 / 4 // it was over before
			case err == nil && time.Since(ended) > 50*time.Millisecond, err != nil && !errors.Is(err, context.Canceled):
				t.Errorf("ended after %v: error %v; want that of the context", after, err)
			case err != nil:
				late = min(late, time.Since(ended))
			}
			cancel()
		}
		if late > 50*time.Millisecond {
			t.Errorf("ended after %v: back %v later; want at most 50 ms", after, late)
		}
	}
}

func TestStockTooSmall(t *testing.T) {
	t.Parallel()
	job := nest.Job{Stock: []nest.Sheet{{Length: 1000, Width: 500, OnHand: 2}}, Kerf: 4, Steps: 1_000_000,
		Pieces: []nest.Piece{{ID: "A", Length: 480, Width: 240, Count: 9}}}
	plan := solve(t, "two sheets for nine parts", job)
	want := []nest.Missing{{Piece: 0, ID: "A", Count: 1}}
	if !reflect.DeepEqual(plan.Unplaced, want) || !plan.Bound.CannotFit || plan.Bound.Proven {
		t.Errorf("missing %v, bound %+v; want %v and that they cannot fit", plan.Unplaced, plan.Bound, want)
	}
}

// By hand: three of 400 x 300 in a row along the width, 900 of 1000, leave
// 1600 x 1000; in a row along the length they would leave 2000 x 700. Nine of
// 640 x 200 stand side by side as 3 x 3, 1920 x 600, or, with 5 along the width
// and 4 beside them, 1280 x 1000: 720 x 1000 are left, less than 2000 x 400.
func TestLeftoverInOnePiece(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name          string
		l, w          float64
		count         int
		length, width float64
	}{
		{"a row", 400, 300, 3, 1600, 1000},
		{"a field", 640, 200, 9, 2000, 400},
	} {
		job := nest.Job{Stock: one(2000, 1000), Pieces: []nest.Piece{{ID: "A", Length: c.l, Width: c.w, Count: c.count}}}
		left := solve(t, c.name, job).Sheets[0].Leftovers
		if len(left) == 0 || left[0].Length != c.length || left[0].Width != c.width {
			t.Errorf("%s: leftovers %+v; want the largest %g x %g", c.name, left, c.length, c.width)
		}
	}
}

// The one large sheet is needed by the one large part, although the small ones
// would fill it better.
func TestScarceSheet(t *testing.T) {
	t.Parallel()
	job := nest.Job{Kerf: 3, Steps: 1_000_000,
		Stock:  []nest.Sheet{{Name: "large", Length: 2003, Width: 1000, OnHand: 1}, {Name: "small", Length: 1200, Width: 1000, OnHand: 2, Price: 9}},
		Pieces: []nest.Piece{{ID: "small", Length: 1000, Width: 1000, Count: 2}, {ID: "large", Length: 1500, Width: 600, Count: 1}}}
	plan := solve(t, "scarce", job)
	if len(plan.Unplaced) > 0 || plan.Cost != 18 || !plan.Bound.Proven {
		t.Errorf("missing %v, cost %g, bound %+v; want all on three sheets for 18", plan.Unplaced, plan.Cost, plan.Bound)
	}
}

func TestPartTooLarge(t *testing.T) {
	t.Parallel()
	grained := []nest.Sheet{{Length: 2440, Width: 1220, Trim: 10, Grain: nest.AlongLength}}
	for _, c := range []struct {
		name   string
		job    nest.Job
		turned bool
		stages bool
	}{
		{"longer than the sheet", nest.Job{Stock: grained, Pieces: []nest.Piece{{ID: "ok", Length: 100, Width: 100, Count: 1}, {ID: "R7", Length: 2500, Width: 80, Count: 2}}}, false, false},
		{"longer than the trimmed sheet", nest.Job{Stock: grained, Pieces: []nest.Piece{{ID: "R7", Length: 2420.5, Width: 80, Count: 2}}}, false, false},
		{"wider", nest.Job{Stock: grained, Pieces: []nest.Piece{{ID: "R7", Length: 1210, Width: 1210, Count: 2}}}, false, false},
		{"only turned", nest.Job{Stock: grained, Pieces: []nest.Piece{{ID: "R7", Length: 2000, Width: 80, Count: 2, Grain: nest.AlongWidth}}}, true, false},
		{"too few stages", nest.Job{Stock: grained, Stages: 1, Pieces: []nest.Piece{{ID: "R7", Length: 2000, Width: 80, Count: 2}}}, false, true},
	} {
		_, err := nest.Solve(context.Background(), c.job, nil)
		var large *nest.TooLargeError
		if !errors.As(err, &large) || large.ID != "R7" || large.TurnedWouldFit != c.turned || large.Stages != c.stages {
			t.Errorf("%s: %#v", c.name, err)
		}
	}
}

func TestOutOfDomain(t *testing.T) {
	t.Parallel()
	nan := func(f func(*nest.Job)) nest.Job {
		j := nest.Job{Stock: one(1000, 500), Pieces: []nest.Piece{{ID: "A", Length: 10, Width: 10, Count: 1}}}
		f(&j)
		return j
	}
	zero := 0.0
	for i, j := range []nest.Job{
		nan(func(j *nest.Job) { j.Stock[0].Length = zero / zero }),
		nan(func(j *nest.Job) { j.Stock[0].Width = -1 }),
		nan(func(j *nest.Job) { j.Stock[0].Trim = 250 }),
		nan(func(j *nest.Job) { j.Stock[0].Trim = zero / zero }),
		nan(func(j *nest.Job) { j.Stock[0].Price = -1 }),
		nan(func(j *nest.Job) { j.Stock[0].Price = 1 / zero }),
		nan(func(j *nest.Job) { j.Stock[0].OnHand = -1 }),
		nan(func(j *nest.Job) { j.Stock[0].Grain = 3 }),
		nan(func(j *nest.Job) { j.Pieces[0].Length = 1e9 }),
		nan(func(j *nest.Job) { j.Pieces[0].Width = 0 }),
		nan(func(j *nest.Job) { j.Pieces[0].Count = 0 }),
		nan(func(j *nest.Job) { j.Pieces[0].Count = 1 << 40 }),
		nan(func(j *nest.Job) {
			j.Pieces = append(j.Pieces, nest.Piece{ID: "B", Length: 1, Width: 1, Count: 20_000})
		}),
		nan(func(j *nest.Job) { j.Pieces[0].Grain = 7 }),
		nan(func(j *nest.Job) { j.Kerf = zero / zero }),
		nan(func(j *nest.Job) { j.Kerf = -1 }),
		nan(func(j *nest.Job) { j.Stages = -1 }),
		nan(func(j *nest.Job) { j.Carry = -1 }),
		nan(func(j *nest.Job) { j.Carry = 1 / zero }),
		nan(func(j *nest.Job) { j.MassPerArea = zero / zero }),
		nan(func(j *nest.Job) { j.UsefulWidth = zero / zero }),
		nan(func(j *nest.Job) { j.Steps = -1 }),
	} {
		_, err := nest.Solve(context.Background(), j, nil)
		var value *nest.ValueError
		if !errors.As(err, &value) || value.Where == "" || value.What == "" {
			t.Errorf("job %d: %v; want a ValueError", i, err)
		}
	}
	if _, err := nest.Solve(context.Background(), nest.Job{Pieces: []nest.Piece{{}}}, nil); !errors.Is(err, nest.ErrNoStock) {
		t.Errorf("no stock: %v", err)
	}
	if _, err := nest.Solve(context.Background(), nest.Job{Stock: one(1, 1)}, nil); !errors.Is(err, nest.ErrNoPieces) {
		t.Errorf("no pieces: %v", err)
	}
}

func Example() {
	job := nest.Job{
		Stock: []nest.Sheet{{Name: "birch ply 18", Length: 2440, Width: 1220, Trim: 5, Price: 64, Grain: nest.AlongLength}},
		Pieces: []nest.Piece{
			{ID: "skin", Length: 1500, Width: 700, Count: 2, Grain: nest.AlongLength},
			{ID: "long rib", Length: 1464, Width: 90, Count: 4, Grain: nest.AlongLength},
			{ID: "short rib", Length: 664, Width: 90, Count: 7, Grain: nest.AlongLength},
		},
		Kerf: 3,
	}
	plan, err := nest.Solve(context.Background(), job, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%d sheets for %.0f, proven least: %v\n", len(plan.Sheets), plan.Cost, plan.Bound.Proven)
	// Output: 2 sheets for 128, proven least: true
}
