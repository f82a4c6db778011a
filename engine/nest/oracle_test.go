package nest_test

import (
	"fmt"
	"math"

	"flatwright/engine/nest"
)

// The oracle knows the job and the plan and nothing of the package's insides.
// It saws: a sheet lies on the bench, each cut must name a piece that lies
// there and part it from edge to edge, and in the end there must be the parts
// and the leftovers and nothing else.

// near is by how much two lengths may differ that ought to be equal, in mm: the
// package rounds each to half a micrometre, and two may come together.
const near = 0.00101

func same(a, b float64) bool { return math.Abs(a-b) <= near }

func sameRectangle(a, b nest.Rectangle) bool {
	return same(a.X, b.X) && same(a.Y, b.Y) && same(a.Length, b.Length) && same(a.Width, b.Width)
}

// sawn is a piece on the bench.
type sawn struct {
	nest.Rectangle
	stage  int
	across bool // direction of the last cut that counts as a stage
}

// faults returns what is wrong with a plan, in words; nothing if all is well.
func faults(job nest.Job, plan nest.Plan) []string {
	var wrong []string
	say := func(format string, args ...any) { wrong = append(wrong, fmt.Sprintf(format, args...)) }
	checkParts(job, plan, say)
	for i := range plan.Sheets {
		checkApart(job, plan.Sheets[i], say)
		checkSawn(job, plan, i, say)
	}
	checkFence(plan, say)
	checkStock(job, plan, say)
	return wrong
}

// checkParts: every part once, in its size, in its grain, within the trimmed
// sheet.
func checkParts(job nest.Job, plan nest.Plan, say func(string, ...any)) {
	seen := map[[2]int]int{}
	for i, sheet := range plan.Sheets {
		entry := job.Stock[sheet.Stock]
		for _, part := range sheet.Parts {
			seen[[2]int{part.Piece, part.Copy}]++
			piece := job.Pieces[part.Piece]
			if part.ID != piece.ID {
				say("part %s carries the name %s", piece.ID, part.ID)
			}
			l, w := piece.Length, piece.Width
			if part.Turned {
				l, w = w, l
			}
			if !same(part.Length, l) || !same(part.Width, w) {
				say("part %s is %g x %g, turned %v; wanted %g x %g", part.ID, part.Length, part.Width, part.Turned, piece.Length, piece.Width)
			}
			if entry.Grain != nest.NoGrain && piece.Grain != nest.NoGrain && (entry.Grain == piece.Grain) == part.Turned {
				say("part %s has its grain the wrong way", part.ID)
			}
			sides := entry.Trim
			if entry.Bar {
				sides = 0
			}
			if part.X < entry.Trim-near || part.Y < sides-near ||
				part.X+part.Length > entry.Length-entry.Trim+near || part.Y+part.Width > entry.Width-sides+near {
				say("part %s is not inside trimmed sheet %d", part.ID, i)
			}
		}
	}
	missing := map[int]int{}
	for _, m := range plan.Unplaced {
		missing[m.Piece] += m.Count
	}
	for i, piece := range job.Pieces {
		for c := range piece.Count - missing[i] {
			if seen[[2]int{i, c}] != 1 {
				say("copy %d of part %s comes %d times", c, piece.ID, seen[[2]int{i, c}])
			}
			delete(seen, [2]int{i, c})
		}
	}
	if len(seen) > 0 {
		say("parts nobody ordered: %v", seen)
	}
}

// checkApart: two parts, or a part and a leftover, are a kerf apart.
func checkApart(job nest.Job, sheet nest.CutSheet, say func(string, ...any)) {
	var all []nest.Rectangle
	for _, p := range sheet.Parts {
		all = append(all, p.Rectangle)
	}
	for _, l := range sheet.Leftovers {
		all = append(all, l.Rectangle)
	}
	for i, a := range all {
		for _, b := range all[:i] {
			dx := max(a.X-b.X-b.Length, b.X-a.X-a.Length)
			dy := max(a.Y-b.Y-b.Width, b.Y-a.Y-a.Width)
			if max(dx, dy) < job.Kerf-near {
				say("%+v and %+v are nearer than a kerf", a, b)
			}
		}
	}
}

// checkSawn saws sheet number i.
func checkSawn(job nest.Job, plan nest.Plan, i int, say func(string, ...any)) {
	entry := job.Stock[plan.Sheets[i].Stock]
	bench := []sawn{{Rectangle: nest.Rectangle{Length: entry.Length, Width: entry.Width}}}
	weight := func(r nest.Rectangle) float64 { return r.Length * r.Width * job.MassPerArea }
	number, broken := 0, true
	for _, c := range plan.Cuts {
		if c.Sheet != i {
			continue
		}
		number++
		if c.Number != number {
			say("sheet %d: cut %d has the number %d", i, number, c.Number)
		}
		at := -1
		for b := range bench {
			if sameRectangle(bench[b].Rectangle, c.Piece) {
				at = b
			}
		}
		if at < 0 {
			say("sheet %d, cut %d: no piece %+v on the bench", i, number, c.Piece)
			return
		}
		piece := bench[at]
		piece.Rectangle = c.Piece // or half micrometres would add up
		bench = append(bench[:at], bench[at+1:]...)
		if job.Carry > 0 {
			tooHeavy := weight(piece.Rectangle) > job.Carry
			if tooHeavy != c.Breaking {
				say("sheet %d, cut %d: breaking is %v for %g kg", i, number, c.Breaking, weight(piece.Rectangle))
			}
			if c.Breaking && !broken && !heavyPart(job, plan) {
				say("sheet %d, cut %d: breaks the sheet after other cuts", i, number)
			}
			broken = broken && c.Breaking
		}
		one, two := piece, piece
		var fence float64
		if c.Across {
			one.Length = c.At - piece.X
			two.X, two.Length = c.At+job.Kerf, piece.X+piece.Length-c.At-job.Kerf
			if fence = one.Length; c.Far {
				fence = two.Length
			}
		} else {
			one.Width = c.At - piece.Y
			two.Y, two.Width = c.At+job.Kerf, piece.Y+piece.Width-c.At-job.Kerf
			if fence = one.Width; c.Far {
				fence = two.Width
			}
		}
		if !same(fence, c.Fence) {
			say("sheet %d, cut %d: fence %g leaves a strip of %g", i, number, c.Fence, fence)
		}
		if !c.Trim {
			if min(one.Length, one.Width) < near {
				say("sheet %d, cut %d: not on the piece", i, number)
			}
			if c.Stage > 0 {
				stage := piece.stage
				if stage == 0 || piece.across != c.Across {
					stage++
				}
				one.stage, two.stage, one.across, two.across = stage, stage, c.Across, c.Across
				if stage > c.Stage || job.Stages > 0 && c.Stage > job.Stages {
					say("sheet %d, cut %d: is stage %d, says %d, allowed %d", i, number, stage, c.Stage, job.Stages)
				}
			}
		} else if kept := fence + entry.Trim; c.Stage != 0 || c.Across && !same(kept, piece.Length) || !c.Across && !same(kept, piece.Width) {
			say("sheet %d, cut %d: trims %+v at %g", i, number, c.Piece, c.At)
		}
		for _, half := range [...]sawn{one, two} {
			if half.Length > near/2 && half.Width > near/2 {
				bench = append(bench, half)
			}
		}
	}
	checkLeft(job, plan.Sheets[i], bench, say)
}

// heavyPart reports whether a part by itself is above what may be carried.
func heavyPart(job nest.Job, plan nest.Plan) bool {
	heavy := false
	for i, p := range job.Pieces {
		is := p.Length*p.Width*job.MassPerArea > job.Carry
		heavy = heavy || is
		told := false
		for _, h := range plan.Heavy {
			told = told || h == i
		}
		if is != told {
			return false
		}
	}
	return heavy
}

// checkLeft: what lies on the bench in the end is the parts and the leftovers.
func checkLeft(job nest.Job, sheet nest.CutSheet, bench []sawn, say func(string, ...any)) {
	take := func(r nest.Rectangle) bool {
		for b := range bench {
			if sameRectangle(bench[b].Rectangle, r) {
				bench = append(bench[:b], bench[b+1:]...)
				return true
			}
		}
		return false
	}
	for _, p := range sheet.Parts {
		if !take(p.Rectangle) {
			say("part %s is not what was sawn: %+v", p.ID, p.Rectangle)
		}
	}
	for n, l := range sheet.Leftovers {
		if !take(l.Rectangle) {
			say("leftover %+v is not what was sawn", l.Rectangle)
		}
		short, long := min(job.UsefulLength, job.UsefulWidth), max(job.UsefulLength, job.UsefulWidth)
		if l.Useful != (min(l.Length, l.Width) >= short && max(l.Length, l.Width) >= long) {
			say("leftover %+v is told to be useful: %v", l.Rectangle, l.Useful)
		}
		if job.Carry > 0 && l.Length*l.Width*job.MassPerArea > job.Carry && max(l.Length, l.Width) > 200+2*job.Kerf {
			say("leftover %+v is too heavy", l.Rectangle)
		}
		if n > 0 && l.Length*l.Width > sheet.Leftovers[n-1].Length*sheet.Leftovers[n-1].Width+near {
			say("leftover %d is larger than the one before", n)
		}
	}
	for _, b := range bench {
		if min(b.Length, b.Width) > near {
			say("a piece %+v lies about that the plan does not know", b.Rectangle)
		}
	}
}

// checkFence: the fence is moved exactly where the plan says so.
func checkFence(plan nest.Plan, say func(string, ...any)) {
	setting := 0
	var fence float64
	for i, c := range plan.Cuts {
		switch {
		case c.Setting == setting+1:
			setting++
		case c.Setting != setting || !same(c.Fence, fence):
			say("cut %d: setting %d with the fence at %g follows %d at %g", i, c.Setting, c.Fence, setting, fence)
		}
		fence = c.Fence
	}
	if setting != plan.Settings {
		say("%d settings counted, the plan says %d", setting, plan.Settings)
	}
}

// checkStock: no more sheets than there are, the right cost, a bound that is
// none above the plan.
func checkStock(job nest.Job, plan nest.Plan, say func(string, ...any)) {
	used := make([]int, len(job.Stock))
	cost := 0.0
	for _, s := range plan.Sheets {
		used[s.Stock]++
		cost += job.Stock[s.Stock].Price
		if s.Sheet != job.Stock[s.Stock] || len(s.Parts) == 0 {
			say("a sheet of entry %d is %+v with %d parts", s.Stock, s.Sheet, len(s.Parts))
		}
	}
	for t, n := range used {
		if job.Stock[t].OnHand > 0 && n > job.Stock[t].OnHand {
			say("%d sheets of entry %d, there are %d", n, t, job.Stock[t].OnHand)
		}
	}
	if math.Abs(cost-plan.Cost) > 1e-4*float64(len(plan.Sheets)+1) {
		say("cost %g; want %g", plan.Cost, cost)
	}
	if len(plan.Unplaced) == 0 && (plan.Bound.Cost > plan.Cost+1e-9 ||
		plan.Bound.Cost == plan.Cost && plan.Bound.Sheets > len(plan.Sheets) || plan.Bound.CannotFit) {
		say("the bound %+v is above the plan, %g and %d sheets", plan.Bound, plan.Cost, len(plan.Sheets))
	}
	if plan.Bound.Proven && (len(plan.Unplaced) > 0 || plan.Above() != 0) {
		say("proven, but %d parts missing or %g %% above", len(plan.Unplaced), plan.Above())
	}
}
