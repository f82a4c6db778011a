package flat_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"flatwright/engine/flat"
)

// TestEveryMethodFindsTheSurface reads random surfaces without a flaw and must
// give their heights back, whatever their tilt.
func TestEveryMethodFindsTheSurface(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(6, 11))
	stations := table(5, 3, 1310, 570)
	z := rough(r, stations)
	want := overPlane(t, stations, z)
	whole, err := flat.LeastSquares(surfaceOf(stations, z))
	if err != nil {
		t.Fatal(err)
	}
	level := []int{0, 2, 4, 5, 7, 9, 10, 12, 14}
	for name, lines := range map[string][]flat.Line{
		"straightedge":       star(flat.Straightedge, stations, z, 5, 3),
		"string":             star(flat.String, stations, z, 5, 3),
		"bridge":             star(flat.Bridge, stations, z, 5, 3),
		"level, one set-up":  {taken(flat.LaserLevel, stations, z, []int{0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14}, 310)},
		"levels, two set-up": {taken(flat.WaterLevel, stations, z, append(level, 1, 3), 40), taken(flat.LaserLevel, stations, z, []int{1, 6, 8, 11, 13, 3, 4}, 900)},
		"rows, columns and winding sticks": append(star(flat.Straightedge, stations, z, 5, 3)[:8],
			taken(flat.Winding, stations, z, []int{0, 10, 4, 14}, 0), taken(flat.Winding, stations, z, []int{4, 0, 14, 10}, 0)),
	} {
		h := fit(t, stations, lines)
		if h.WindAssumed || len(h.Bad) > 0 || !h.Agrees || slices.Contains(h.Known, false) {
			t.Errorf("%s: wind assumed %v, bad %v, agrees %v, known %v", name, h.WindAssumed, h.Bad, h.Agrees, h.Known)
		}
		for i := range want {
			near(t, fmt.Sprintf("%s: station %d", name, i), h.Z[i], want[i], 1e-9)
		}
		if level := strings.HasPrefix(name, "level"); h.TiltTold != level {
			t.Errorf("%s: tilt told %v; want %v", name, h.TiltTold, level)
		} else if level {
			near(t, name+": slope along", h.Tilt.SlopeX, whole.Plane.SlopeX, 1e-12)
			near(t, name+": slope across", h.Tilt.SlopeY, whole.Plane.SlopeY, 1e-12)
		}
	}
}

// jack is the eight lines of a square of 3 by 3 stations with one reading in
// the middle of each: near edge, far edge, left, right, both diagonals, the middle
// row, the middle column. readings are heights over the line's ends.
func jack(readings [8]float64) ([]flat.Station, []flat.Line) {
	ends := [8][3]int{{0, 1, 2}, {6, 7, 8}, {0, 3, 6}, {2, 5, 8}, {0, 4, 8}, {2, 4, 6}, {3, 4, 5}, {1, 4, 7}}
	var lines []flat.Line
	for i, e := range ends {
		lines = append(lines, flat.Line{Stations: e[:], Readings: []float64{-readings[i]}, Error: 0.05})
	}
	return table(3, 3, 900, 900), lines
}

// TestJackByHand has the answers of a survey small enough for paper.
//
// With corners at t, −t, −t, t (near left, near right, far left, far right) and
// diagonals that read d1 (from near left) and d2, the middle is t + d1 = −t + d2. So
// t = (d2 − d1)/2, wind is 4t = 2·(d2 − d1), the middle stands (d1 + d2)/2. Middles of
// edges stand at e1…e4. Two conditions are left, of the middle row and of the
// middle column:
//
//	(d1+d2)/2 − (e3+e4)/2 − row = 0,  (d1+d2)/2 − (e1+e2)/2 − column = 0
func TestJackByHand(t *testing.T) {
	t.Parallel()
	// d1 = .1, d2 = .3; e = .02, .06, .04, −.02: row .2 − .01 = .19, column .2 − .04 = .16.
	stations, lines := jack([8]float64{0.02, 0.06, 0.04, -0.02, 0.1, 0.3, 0.19, 0.16})
	h := fit(t, stations, lines)
	if h.Freedom != 2 || !h.Agrees || len(h.Bad) != 0 {
		t.Errorf("freedom %d, agrees %v, bad %v; want 2, true, none", h.Freedom, h.Agrees, h.Bad)
	}
	near(t, "wind", h.Shape(stations).Wind.Value, 0.4, 1e-12)
	near(t, "scatter", h.Scatter, 0, 1e-9)
	mean := (h.Z[0] + h.Z[2] + h.Z[6] + h.Z[8]) / 4
	near(t, "middle over the corners' mean", h.Z[4]-mean, 0.2, 1e-12)
	near(t, "left and right edges' middles over it", h.Z[3]+h.Z[5]-2*mean, 0.02, 1e-12)
	near(t, "near and far edges' middles over it", h.Z[1]+h.Z[7]-2*mean, 0.08, 1e-12)

	// The row reads .3 too high. All other readings say what it should be, so its
	// misclosure is .3. The two conditions have the variances 4/4 + 1 = 2 and the
	// covariance 2/4 of a reading's, so the share of the row's error that shows is
	// [2 .5; .5 2]⁻¹₁₁ = 2/3.75 = 8/15. Left is .3·8/15 = .16, the score is .3·√(8/15)/.05.
	// The two edges' middles come in the same condition only: it may be any of the three.
	stations, lines = jack([8]float64{0.02, 0.06, 0.04, -0.02, 0.1, 0.3, 0.49, 0.16})
	h = fit(t, stations, lines)
	row := h.Readings[6]
	near(t, "misclosure of the row", row.Misclosure, 0.3, 1e-12)
	near(t, "left of the row", row.Left, 0.16, 1e-12)
	// Of eight readings, one is condemned beyond the normal deviate of .01/16, 3.227
	// (tables); .842 is that of four out of five.
	near(t, "what the row notices", row.Notices, (3.227+0.842)*0.05/math.Sqrt(8.0/15), 1e-4)
	if len(h.Bad) != 1 || h.Agrees {
		t.Fatalf("bad %v, agrees %v; want one, false", h.Bad, h.Agrees)
	}
	b := h.Bad[0]
	named := append([]int{b.Reading}, b.Or...)
	slices.Sort(named)
	if !slices.Equal(named, []int{2, 3, 6}) {
		t.Errorf("readings %v may be bad; want 2, 3 and 6", named)
	}
	near(t, "score", math.Abs(b.Score), 0.3*math.Sqrt(8.0/15)/0.05, 1e-9)
	for i, r := range h.Readings {
		if r.Out {
			t.Errorf("reading %d is left out though the survey cannot tell which is bad", i)
		}
	}
}

// dense is a square table of n by n stations read along rows, columns and every
// diagonal of three stations or more.
func dense(m flat.Method, stations []flat.Station, z []float64, n int) []flat.Line {
	var out []flat.Line
	for _, step := range [...][2]int{{1, 0}, {0, 1}, {1, 1}, {-1, 1}} {
		for start := range n * n {
			i, j := start%n, start/n
			if p, q := i-step[0], j-step[1]; p >= 0 && p < n && q >= 0 && q < n {
				continue // not the first of its line
			}
			var at []int
			for ; i >= 0 && i < n && j < n; i, j = i+step[0], j+step[1] {
				at = append(at, j*n+i)
			}
			if len(at) >= 3 {
				out = append(out, taken(m, stations, z, at, 5))
			}
		}
	}
	return out
}

// TestBadReadingIsNamed plants one bad reading after the other in a survey with
// small flaws. Where three lines or more read a station, two outvote the bad one.
// Where two do, nobody can tell which of them is bad, but it must be among those
// that are named.
func TestBadReadingIsNamed(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(6, 12))
	stations := table(5, 5, 1200, 1200)
	z := rough(r, stations)
	lines := dense(flat.Straightedge, stations, z, 5)
	lines = append(lines, star(flat.Bridge, stations, z, 5, 5)[:3]...)
	lines = append(lines, taken(flat.WaterLevel, stations, z, []int{0, 4, 12, 16, 20, 23}, 100))
	shake(r, lines)
	clean := fit(t, stations, lines)
	if len(clean.Bad) != 0 || !clean.Agrees {
		t.Fatalf("without a bad reading: bad %v, scatter %g", clean.Bad, clean.Scatter)
	}
	about := map[int]int{}
	for _, q := range clean.Readings {
		if lines[q.Line].Method == flat.Straightedge {
			about[q.Station]++
		}
	}
	alone := 0
	for k, q := range clean.Readings {
		method := lines[q.Line].Method
		sigma := method.StandardError()
		lines[q.Line].Readings[q.Index] += 60 * sigma
		h := fit(t, stations, lines)
		lines[q.Line].Readings[q.Index] -= 60 * sigma
		what := fmt.Sprintf("line %d reading %d", q.Line, q.Index)
		if len(h.Bad) != 1 || h.Bad[0].Reading != k && !slices.Contains(h.Bad[0].Or, k) {
			t.Errorf("%s, %d: named %v", what, k, h.Bad)
			continue
		}
		b := h.Bad[0]
		if h.Readings[k].Out != (len(b.Or) == 0) {
			t.Errorf("%s: left out %v, in doubt between %v", what, h.Readings[k].Out, b.Or)
		}
		if method == flat.WaterLevel || method == flat.Straightedge && about[q.Station] < 3 {
			continue // six staffs on a plane leave three to spare, not always enough to tell
		}
		alone++
		sign := -1.0 // a gap reads larger where the surface is lower
		if method == flat.Bridge {
			sign = 1
		}
		if len(b.Or) != 0 {
			t.Errorf("%s: in doubt between %d and %v", what, b.Reading, b.Or)
			continue
		}
		near(t, what+" is off by", b.Off, sign*60*sigma, 15*sigma)
		near(t, what+": its misclosure afterwards", h.Readings[k].Misclosure, b.Off, 1e-9)
	}
	if alone < 40 {
		t.Errorf("only %d readings could be named alone", alone)
	}
}

// TestBadStaffIsNamed: of two set-ups of a level over the same bed one staff is
// read 20 mm wrong; it is left out, and its misclosure is told against heights and
// the height of its own set-up.
func TestBadStaffIsNamed(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(6, 20))
	stations := table(4, 3, 1200, 800)
	z := rough(r, stations)
	all := []int{0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11}
	lines := []flat.Line{taken(flat.WaterLevel, stations, z, all, 40), taken(flat.LaserLevel, stations, z, all, 900), taken(flat.WaterLevel, stations, z, all, -300)}
	lines[1].Readings[5] += 20
	h := fit(t, stations, lines)
	if len(h.Bad) != 1 || h.Bad[0].Reading != 17 || len(h.Bad[0].Or) != 0 {
		t.Fatalf("named %v; want reading 17 alone", h.Bad)
	}
	near(t, "off", h.Bad[0].Off, -20, 1e-9)
	near(t, "misclosure", h.Readings[17].Misclosure, -20, 1e-9)
	for i, want := range overPlane(t, stations, z) {
		near(t, fmt.Sprintf("station %d", i), h.Z[i], want, 1e-9)
	}
}

// TestWorstMisclosure is the largest of the readings that are counted.
func TestWorstMisclosure(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(6, 21))
	for range 20 {
		stations := table(5, 5, 1200, 1200)
		lines := dense(flat.Straightedge, stations, rough(r, stations), 5)
		shake(r, lines)
		if r.IntN(2) == 0 {
			lines[1].Readings[2] += 2
		}
		h := fit(t, stations, lines)
		most := 0.0
		for _, q := range h.Readings {
			if !q.Out && !q.Unchecked {
				most = max(most, math.Abs(q.Misclosure))
			}
		}
		if h.Worst < 0 || math.Abs(h.Readings[h.Worst].Misclosure) != most || most == 0 {
			t.Errorf("worst is reading %d; the largest misclosure is %g", h.Worst, most)
		}
	}
	stations, lines := jack([8]float64{})
	if h := fit(t, stations, lines[:6]); h.Worst != -1 || h.Freedom != 0 || h.Scatter != 0 || !h.Agrees {
		t.Errorf("nothing checks six readings, but worst is %d of freedom %d", h.Worst, h.Freedom)
	}
}

// shake adds the method's own error to every reading.
func shake(r *rand.Rand, lines []flat.Line) {
	for i := range lines {
		for j := range lines[i].Readings {
			lines[i].Readings[j] += r.NormFloat64() * lines[i].Method.StandardError()
		}
	}
}

// TestThreeBadReadings are found one after the other, and the heights are those
// without them.
func TestThreeBadReadings(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(6, 13))
	stations := table(5, 5, 1200, 1200)
	z := rough(r, stations)
	lines := dense(flat.Straightedge, stations, z, 5)
	shake(r, lines)
	lines[1].Readings[2] += 2
	lines[7].Readings[1] -= 1.2
	lines[11].Readings[1] += 0.9
	h := fit(t, stations, lines)
	var named []string
	for _, b := range h.Bad {
		q := h.Readings[b.Reading]
		named = append(named, fmt.Sprint(q.Line, q.Index, b.Or))
	}
	slices.Sort(named)
	if want := []string{"1 2 []", "11 1 []", "7 1 []"}; !slices.Equal(named, want) {
		t.Errorf("named %v; want %v", named, want)
	}
	for i, want := range overPlane(t, stations, z) {
		near(t, fmt.Sprintf("station %d", i), h.Z[i], want, 4*h.Error[i])
	}
}

// TestErrorsAreHonest surveys the same bed many times: heights, bow and wind must
// scatter as their standard errors say, clean readings be blamed in no more than
// one survey in a hundred, and slips of the size that a reading notices be named
// in four of five.
func TestErrorsAreHonest(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(6, 14))
	stations := table(5, 4, 1500, 900)
	z := rough(r, stations)
	want, clean := overPlane(t, stations, z), star(flat.Straightedge, stations, z, 5, 4)[:9]
	clean = append(clean, taken(flat.Straightedge, stations, z, []int{0, 6, 12}, 0), taken(flat.Straightedge, stations, z, []int{4, 8, 12}, 0),
		taken(flat.Straightedge, stations, z, []int{15, 11, 7}, 0), taken(flat.Straightedge, stations, z, []int{2, 6, 10}, 0), taken(flat.Winding, stations, z, []int{0, 15, 4, 19}, 0))
	shape := flat.ShapeOf(surfaceOf(stations, z))
	const surveys = 400
	blamed, scored, height, wind, bow := 0, 0, 0.0, 0.0, 0.0
	for range surveys {
		lines := copied(clean)
		shake(r, lines)
		h := fit(t, stations, lines)
		if len(h.Bad) > 0 {
			blamed++
			continue
		}
		scored++
		unit := max(1, h.Scatter)
		for i := range z {
			e := (h.Z[i] - want[i]) / h.Error[i] * unit
			height += e * e / float64(len(z))
		}
		s := h.Shape(stations)
		wind += square((s.Wind.Value - shape.Wind.Value) / s.Wind.Error * unit)
		bow += square((s.BowX.Value - shape.BowX.Value) / s.BowX.Error * unit)
	}
	// The mean of n squares of normal deviates is 1 ± √(2/n); four times that.
	n := float64(scored)
	near(t, "mean square of heights over their standard error", height/n, 1, 4*math.Sqrt(2/n))
	near(t, "of wind", wind/n, 1, 4*math.Sqrt(2/n))
	near(t, "of bow", bow/n, 1, 4*math.Sqrt(2/n))
	// Four in 400 are expected; more than 13 have a chance of one in 10 000.
	if blamed > 13 {
		t.Errorf("%d of %d surveys without a bad reading have one named; want about one in a hundred or fewer", blamed, surveys)
	}
	found := 0
	notices := fit(t, stations, clean).Readings
	for range surveys {
		lines, k := copied(clean), r.IntN(len(notices)-1)
		shake(r, lines)
		lines[notices[k].Line].Readings[notices[k].Index] += notices[k].Notices
		for _, b := range fit(t, stations, lines).Bad {
			if b.Reading == k || slices.Contains(b.Or, k) {
				found++
			}
		}
	}
	// 320 ± 8 of 400.
	near(t, "slips named of 400", float64(found), 320, 32)
}

// TestReadingsWorseThanSaid: where all readings scatter three times as far as
// their standard errors say, that is told, and hardly one of them is named.
func TestReadingsWorseThanSaid(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(6, 17))
	stations := table(5, 5, 1200, 1200)
	z := rough(r, stations)
	named := 0
	for range 30 {
		lines := dense(flat.Straightedge, stations, z, 5)
		shake(r, lines)
		for i := range lines {
			lines[i].Error = flat.Straightedge.StandardError() / 3
		}
		h := fit(t, stations, lines)
		named += len(h.Bad)
		if h.Agrees {
			t.Errorf("scatter %g passes as that of the standard errors", h.Scatter)
		}
		// With about 30 readings more than needed the scatter is 3 ± 3/√60; four times that.
		near(t, "scatter", h.Scatter, 3, 1.6)
	}
	if named > 30 {
		t.Errorf("%d readings named in 30 surveys without a bad one", named)
	}
}

func square(x float64) float64 { return x * x }

func copied(lines []flat.Line) []flat.Line {
	out := slices.Clone(lines)
	for i := range out {
		out[i].Readings = slices.Clone(out[i].Readings)
	}
	return out
}

func surfaceOf(stations []flat.Station, z []float64) []flat.Point {
	k := -1
	return surface(stations, func(_, _ float64) float64 { k++; return z[k] })
}

// TestWindThatNothingTells: rows and columns fit any twist; one diagonal tells.
func TestWindThatNothingTells(t *testing.T) {
	t.Parallel()
	stations := table(5, 3, 1200, 600)
	twisted := make([]float64, len(stations))
	for i, s := range stations {
		twisted[i] = 0.8 * s.X / 1200 * s.Y / 600
	}
	lines := star(flat.Straightedge, stations, twisted, 5, 3)
	h := fit(t, stations, lines[:8])
	if !h.WindAssumed || slices.Contains(h.Known, false) {
		t.Errorf("rows and columns: wind assumed %v, known %v; want true and all", h.WindAssumed, h.Known)
	}
	for i := range h.Z {
		near(t, fmt.Sprintf("station %d without its wind", i), h.Z[i], 0, 1e-9)
	}
	if w := h.Shape(stations).Wind; w.Told {
		t.Errorf("the wind is told as %v though nothing tells it", w)
	}
	h = fit(t, stations, append(lines[:8], taken(flat.String, stations, twisted, []int{4, 7, 10}, 0)))
	if w := h.Shape(stations).Wind; h.WindAssumed || !w.Told {
		t.Errorf("with a diagonal: wind assumed %v, told %v", h.WindAssumed, w.Told)
	} else {
		near(t, "wind by a diagonal", w.Value, 0.8, 1e-9)
	}
}

// TestStationsThatHangInTheAir: a station no reading names, and a line that only
// its end ties to the rest, are not known; all others are.
func TestStationsThatHangInTheAir(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(6, 15))
	stations := append(table(3, 3, 900, 600), flat.Station{X: 2000, Y: 900}, flat.Station{X: 1100, Y: 300}, flat.Station{X: 1300, Y: 300})
	z := rough(r, stations)
	lines := star(flat.Straightedge, stations[:9], z[:9], 3, 3)
	// From station 3 over 5 to the new 11, with 10 between: a straight row, whose
	// stations 5 and 10 are read against its ends, so that 11 and 10 are tied.
	tied := append(slices.Clone(lines), taken(flat.Straightedge, stations, z, []int{3, 5, 10, 11}, 0))
	h := fit(t, stations, tied)
	if want := []bool{true, true, true, true, true, true, true, true, true, false, true, true}; !slices.Equal(h.Known, want) {
		t.Errorf("known %v; want all but the tenth", h.Known)
	}
	// From 5 only its end is on the rest: where the other end is, nobody knows.
	hanging := append(slices.Clone(lines), taken(flat.Straightedge, stations, z, []int{5, 10, 11}, 0))
	h = fit(t, stations, hanging)
	if want := []bool{true, true, true, true, true, true, true, true, true, false, false, false}; !slices.Equal(h.Known, want) {
		t.Errorf("hanging: known %v; want the first nine", h.Known)
	}
	for i, want := range overPlane(t, stations[:9], z[:9]) {
		near(t, fmt.Sprintf("station %d", i), h.Z[i], want, 1e-9)
	}
}

// TestMirroredAndScaled: a bed read from the other end, in other units or in
// another order of lines is the same bed.
func TestMirroredAndScaled(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(6, 16))
	stations := table(5, 3, 1200, 700)
	z := rough(r, stations)
	lines := star(flat.Straightedge, stations, z, 5, 3)
	shake(r, lines)
	h := fit(t, stations, lines)
	backwards := make([]flat.Line, len(lines))
	for i, l := range lines {
		b := l
		b.Stations, b.Readings = slices.Clone(l.Stations), slices.Clone(l.Readings)
		slices.Reverse(b.Stations)
		slices.Reverse(b.Readings)
		backwards[len(lines)-1-i] = b
	}
	again := fit(t, stations, backwards)
	twice, lines2 := slices.Clone(stations), copied(lines)
	for i := range twice {
		twice[i].X, twice[i].Y = -2*twice[i].X, 2*twice[i].Y
	}
	for i := range lines2 {
		lines2[i].Rest *= 2
		lines2[i].Error = 2 * 0.03
		for j := range lines2[i].Readings {
			lines2[i].Readings[j] *= 2
		}
	}
	double := fit(t, twice, lines2)
	for i := range h.Z {
		near(t, fmt.Sprintf("read backwards: station %d", i), again.Z[i], h.Z[i], 1e-9)
		near(t, fmt.Sprintf("mirrored and doubled: station %d", i), double.Z[i], 2*h.Z[i], 1e-9)
		near(t, fmt.Sprintf("its error, station %d", i), double.Error[i], 2*h.Error[i], 1e-9)
	}
	near(t, "wind mirrored and doubled", double.Shape(twice).Wind.Value, -2*h.Shape(stations).Wind.Value, 1e-9)
}

func TestHang(t *testing.T) {
	t.Parallel()
	// By hand: a steel wire of 0.3 mm weighs 0.0707 mm² · 7.85e-6 kg/mm³ · 9.81 = 5.44e-6 N/mm;
	// over 2000 mm at 50 N: 5.44e-6·4e6/400 = .0544 mm.
	near(t, "wire", flat.Hang(5.44e-6, 2000, 50), 0.0544, 1e-6)
	near(t, "slack wire", flat.Hang(5.44e-6, 2000, 0), 0, 0)
	// A flat bed read under that wire has a gap smaller by the hang in the middle and
	// by three quarters of it at a quarter of the way.
	stations := table(5, 2, 2000, 500)
	l := flat.Line{Method: flat.String, Stations: []int{0, 1, 2, 3, 4}, Rest: 3, Hang: 0.0544,
		Readings: []float64{3 - 0.75*0.0544, 3 - 0.0544, 3 - 0.75*0.0544}}
	for i, z := range fit(t, stations, []flat.Line{l}).Z {
		near(t, fmt.Sprintf("station %d under the wire", i), z, 0, 1e-12)
	}
}

func TestLinesThatCannotBeUsed(t *testing.T) {
	t.Parallel()
	stations := append(table(3, 3, 900, 600), flat.Station{X: math.NaN()}, flat.Station{X: 5}, flat.Station{Y: math.Inf(1)})
	for name, l := range map[string]flat.Line{
		"two stations":        {Stations: []int{0, 1}},
		"too many readings":   {Stations: []int{0, 1, 2}, Readings: []float64{1, 2}},
		"a station not there": {Stations: []int{0, 1, 12}, Readings: []float64{1}},
		"before the first":    {Stations: []int{0, 1, -1}, Readings: []float64{1}},
		"there and back":      {Stations: []int{0, 1, 0}, Readings: []float64{1}},
		"out of order":        {Stations: []int{1, 0, 2}, Readings: []float64{1}},
		"round a corner":      {Stations: []int{0, 1, 8}, Readings: []float64{1}},
		"no number":           {Stations: []int{0, 1, 2}, Readings: []float64{math.NaN()}},
		"endless":             {Stations: []int{0, 1, 2}, Readings: []float64{math.Inf(1)}},
		"negative error":      {Stations: []int{0, 1, 2}, Readings: []float64{1}, Error: -1},
		"one level reading":   {Method: flat.LaserLevel, Stations: []int{0}, Readings: []float64{1}},
		"three under sticks":  {Method: flat.Winding, Stations: []int{0, 1, 2}, Readings: []float64{1}},
		"crossed sticks":      {Method: flat.Winding, Stations: []int{0, 6, 2, 4}, Readings: []float64{1}},
		"station nowhere":     {Method: flat.LaserLevel, Stations: []int{0, 9, 10}, Readings: []float64{1, 1, 1}},
		"endless station":     {Method: flat.LaserLevel, Stations: []int{0, 10, 11}, Readings: []float64{1, 1, 1}},
		"unknown method":      {Method: 99, Stations: []int{0, 1, 2}, Readings: []float64{1}},
	} {
		var bad *flat.LineError
		if _, err := flat.Fit(stations, []flat.Line{l}); !errors.As(err, &bad) || bad.Why == "" || bad.Line != 0 {
			t.Errorf("%s: %v; want a LineError of line 0", name, err)
		}
	}
	if _, err := flat.Fit(stations, nil); !errors.Is(err, flat.ErrNoReadings) {
		t.Errorf("no line: %v", err)
	}
	if _, err := flat.Fit(make([]flat.Station, flat.MaxStations+1), []flat.Line{{Method: flat.LaserLevel, Stations: []int{0, 1}, Readings: []float64{1, 2}}}); !errors.Is(err, flat.ErrTooLarge) {
		t.Errorf("too many stations: %v", err)
	}
}

// TestNothingTypedStops: whatever figures a survey holds, it is answered.
func TestNothingTypedStops(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(6, 18))
	odd := []float64{0, 0, 1, -1, 1e6, -1e6, 1e-300, 1e-4, 0.03, 5e5}
	for range 300 {
		stations := table(4, 3, 900, 600)
		for i := range stations {
			if r.IntN(6) == 0 {
				stations[i] = flat.Station{X: odd[r.IntN(len(odd))], Y: odd[r.IntN(len(odd))]}
			}
		}
		var lines []flat.Line
		for range 1 + r.IntN(9) {
			l := flat.Line{Method: flat.Method(r.IntN(7)), Rest: odd[r.IntN(len(odd))], Hang: odd[r.IntN(len(odd))], Error: odd[r.IntN(len(odd))]}
			for range 3 + r.IntN(3) {
				l.Stations = append(l.Stations, r.IntN(len(stations)))
			}
			for range len(l.Stations) - 2 {
				l.Readings = append(l.Readings, odd[r.IntN(len(odd))])
			}
			lines = append(lines, l)
			if _, err := flat.Fit(stations, lines); err != nil {
				lines = lines[:len(lines)-1]
			}
		}
		h, err := flat.Fit(stations, lines)
		if err != nil {
			if len(lines) > 0 {
				t.Errorf("lines that could be used each cannot be together: %v", err)
			}
			continue
		}
		for i := range h.Z {
			if math.IsNaN(h.Z[i]) || math.IsNaN(h.Error[i]) {
				t.Errorf("station %d at %v ± %v", i, h.Z[i], h.Error[i])
			}
		}
		if points := h.Points(stations); len(points) > 0 {
			flat.ShapeOf(points)
			if z, err := flat.MinimumZone(points); err == nil && !(z.Width >= 0) {
				t.Errorf("zone %v", z)
			}
		}
	}
}

// BenchmarkFit is a bed of 2.4 m by 1.2 m every 300 mm, and one of 4 m every 125 mm.
func BenchmarkFit(b *testing.B) {
	for _, n := range [...][2]int{{9, 5}, {33, 13}} {
		b.Run(fmt.Sprintf("%dx%d", n[0], n[1]), func(b *testing.B) {
			r := rand.New(rand.NewPCG(6, 19))
			stations := table(n[0], n[1], 2400, 1200)
			z := rough(r, stations)
			lines := star(flat.Straightedge, stations, z, n[0], n[1])
			shake(r, lines)
			for b.Loop() {
				if _, err := flat.Fit(stations, lines); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
