package engine

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"flatwright/engine/flat"
	"flatwright/engine/length"
)

// surveyed returns a survey of a surface by straightedge on blocks of 5 mm along
// rows, columns and both diagonals of 5 by 3 stations over the panel. u and v run
// from −1 to 1.
func surveyed(d Design, of SurveyedThing, z func(u, v float64) float64) Survey {
	s := Survey{Name: "saw horses", Of: of}
	for i := range 5 {
		s.Columns = append(s.Columns, d.Length*float64(i)/4)
	}
	for j := range 3 {
		s.Rows = append(s.Rows, d.Width*float64(j)/2)
	}
	line := func(at ...[2]int) {
		l := SurveyedLine{Method: ByStraightedge, Rest: 5}
		n := len(at) - 1
		height := func(k int) float64 { return z(float64(at[k][0])/2-1, float64(at[k][1])-1) }
		for k, p := range at {
			l.Stations = append(l.Stations, StationName(p[0], p[1]))
			if k > 0 && k < n {
				share := float64(k) / float64(n)
				l.Readings = append(l.Readings, 5-height(k)+(1-share)*height(0)+share*height(n))
			}
		}
		s.Lines = append(s.Lines, l)
	}
	for j := range 3 {
		line([2]int{0, j}, [2]int{1, j}, [2]int{2, j}, [2]int{3, j}, [2]int{4, j})
	}
	for i := range 5 {
		line([2]int{i, 0}, [2]int{i, 1}, [2]int{i, 2})
	}
	line([2]int{0, 0}, [2]int{2, 1}, [2]int{4, 2})
	line([2]int{0, 2}, [2]int{2, 1}, [2]int{4, 0})
	return s
}

// onBed returns a design with a survey of its bed, and what is computed of it.
func onBed(t *testing.T, z func(u, v float64) float64) (Design, Result) {
	t.Helper()
	d := plainTop()
	d.Surveys = []Survey{surveyed(d, "", z)}
	return d, compute(t, d)
}

func TestStationNames(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		column, row int
		name        string
	}{{0, 0, "A1"}, {25, 8, "Z9"}, {26, 9, "AA10"}, {51, 0, "AZ1"}, {52, 0, "BA1"}, {2, 99, "C100"}} {
		if got := StationName(c.column, c.row); got != c.name {
			t.Errorf("StationName(%d, %d) = %s; want %s", c.column, c.row, got, c.name)
		}
		if i, j, ok := ParseStation(" " + strings.ToLower(c.name)); !ok || i != c.column || j != c.row {
			t.Errorf("ParseStation(%s) = %d, %d, %v", c.name, i, j, ok)
		}
	}
	for _, name := range []string{"", "A", "7", "A0", "A01", "1A", "A-1", "ABC1", "A1234", "Ä1", "A1B"} {
		if _, _, ok := ParseStation(name); ok {
			t.Errorf("ParseStation takes %q", name)
		}
	}
}

// TestNewSurvey: the lines of a fresh survey, once read, tell every station and
// wind; before, none is a trouble.
func TestNewSurvey(t *testing.T) {
	t.Parallel()
	for _, size := range [][2]float64{{1600, 700}, {300, 250}, {2440, 1220}, {5000, 1500}, {600, 2400}, {900, 901}} {
		d := plainTop()
		d.Length, d.Width = size[0], size[1]
		for _, way := range SurveyMethods {
			s := NewSurvey(d, TheBed, way)
			d.Surveys = []Survey{s}
			if got := s.report(0); got.Trouble != "it has no readings yet" || len(s.troubles()) > 0 {
				t.Errorf("%v by %s, not read yet: %q, %v", size, way, got.Trouble, s.troubles())
			}
			for i := range s.Lines {
				l := &s.Lines[i]
				l.Readings = make([]float64, len(l.Between()))
				if way == ByWinding {
					l.Readings = make([]float64, 1) // one for both pairs of stations
				}
			}
			got := s.report(0)
			if got.Trouble != "" || len(s.troubles()) > 0 {
				t.Errorf("%v by %s: %q, %v", size, way, got.Trouble, s.troubles())
			}
			if way == ByWinding {
				continue // one pair tells wind and nothing else
			}
			if got.WindAssumed || got.Flat == nil || slices.ContainsFunc(got.Stations, func(k StationHeight) bool { return !k.Known }) {
				t.Errorf("%v by %s: wind assumed %v, stations %v", size, way, got.WindAssumed, got.Stations)
			}
			for _, at := range [][]float64{s.Columns, s.Rows} {
				for i := 1; i < len(at); i++ {
					if gap := at[i] - at[i-1]; gap > stationPitch+nearly {
						t.Errorf("%v: stations %g mm apart", size, gap)
					}
				}
			}
		}
	}
}

// TestBedIsSurveyed has the surfaces of reference.md G, now by straightedge
// readings of a whole design: bowl .5, one corner twisted up .4.
func TestBedIsSurveyed(t *testing.T) {
	t.Parallel()
	_, r := onBed(t, func(u, v float64) float64 { return -0.5 * (1 - u*u) * (1 - v*v) })
	s := r.Bed.Surveys[0]
	near(t, "bowl: zone", s.Flat.Zone, 0.5, 1e-9)
	near(t, "bowl: root mean square", s.Flat.RMS, 0.168737, 3e-6)
	if !slices.Equal(s.Flat.Low, []string{"C2"}) || len(s.Flat.High) != 12 || s.Of != TheBed || r.Bed.Bed != 0 {
		t.Errorf("bowl: low %v, high %v, of %s, bed %d", s.Flat.Low, s.Flat.High, s.Of, r.Bed.Bed)
	}
	_, r = onBed(t, func(u, v float64) float64 { return 0.4 * (u + 1) / 2 * (v + 1) / 2 })
	s = r.Bed.Surveys[0]
	near(t, "twist: zone", s.Flat.Zone, 0.2, 1e-9)
	near(t, "twist: wind", s.Wind.Value, 0.4, 1e-9)
	near(t, "twist: bow", s.BowAlong.Value, 0, 1e-9)
	_, r = onBed(t, func(u, v float64) float64 { return 3*u - 7*v + 2 })
	near(t, "tilt: zone", r.Bed.Surveys[0].Flat.Zone, 0, 1e-9)
	if b := r.Bed; b.Best < 0 || len(b.Plans[b.Ways[b.Best].Plan].Shims) > 0 || b.Ways[b.Best].Order != BothAtOnce {
		t.Errorf("a flat bed: best %+v; want both at once without a shim", b.Ways[b.Best])
	}
}

// TestPanelKeepsTheBed: the note on mechanics, section 6, has 89 to 94 % of the
// bow, about minus a half turned over, and almost all of the wind, for usual
// tops. The shares of plainTop are worked out by hand from its figures.
func TestPanelKeepsTheBed(t *testing.T) {
	t.Parallel()
	k := compute(t, Demo()).Bed.Kept
	for name, kept := range map[string]Kept{"along": k.Along, "across": k.Across} {
		if kept.Together < 0.89 || kept.Together > 0.94 {
			t.Errorf("the demo keeps %.3f of bow %s; the note has .89 to .94", kept.Together, name)
		}
		if kept.TurnedOver > -0.4 || kept.TurnedOver < -0.6 {
			t.Errorf("turned over the demo keeps %.3f of bow %s; the note has about −.5", kept.TurnedOver, name)
		}
	}
	d := plainTop()
	r := compute(t, d)
	// Along, slots every 200 mm in ribs of 80 (pitch over height 2.5, so kb = .6 + .2·.75 = .75):
	// ribs EA = .75·9000·12·80·5 = 32.4e6 N, own 32.4e6·80²/12 = 1.728e10;
	// skins own 700/12·9800·(9³ + 6³) = 4.1675e8 + 1.2348e8.
	near(t, "loose", r.Bed.Kept.Along.Loose, 1.728e10+4.16745e8+1.2348e8, 1e-4)
	// Bottom skin EA = 9000·6·700 = 37.8e6, 43 mm from the ribs' middle:
	// T = 1.2348e8 + 1.728e10 + 37.8e6·32.4e6/70.2e6·43² = 4.9661e10.
	near(t, "one skin", r.Bed.Kept.Along.OneSkin, 1.2348e8+1.728e10+37.8e6*32.4e6/70.2e6*43*43, 1e-4)
	// Loose parts twist as strips: 1600·700·620·(9³ + 6³)/3 + 5·1600·620·80·12³/3 + 8·700·620·80·9³/3.
	near(t, "loose parts against wind", r.Bed.Kept.Wind.Loose, 1600*700*620*945.0/3+5*1600*620*80*1728.0/3+8*700*620*80*729.0/3, 1e-9)
	if w := r.Bed.Kept.Wind; w.Together < 0.98 || w.TurnedOver != w.Together {
		t.Errorf("of wind it keeps %g, turned over %g; want almost all, and the same", w.Together, w.TurnedOver)
	}
	banded := d
	banded.EdgeBand = EdgeBand{"plain", 20}
	banded.Length, banded.Width = d.Length+40, d.Width+40
	near(t, "edge bands come later", compute(t, banded).Bed.Kept.Along.Together, r.Bed.Kept.Along.Together, 1e-12)
}

// TestFinishedShape: a bowed and twisted bed, and what the ways make of it, by the
// shares alone.
func TestFinishedShape(t *testing.T) {
	t.Parallel()
	d, r := onBed(t, func(u, v float64) float64 { return 0.9*(1-u*u) - 0.35*(1-v*v) + 0.15*u*v })
	k := r.Bed.Kept
	for _, w := range r.Bed.Ways {
		if w.Plan != 0 {
			continue
		}
		along, across := k.Along.Together, k.Across.Together
		if w.Order == TurnedLong || w.Order == TurnedEndway {
			along, across = k.Along.TurnedOver, k.Across.TurnedOver
		}
		near(t, string(w.Order)+": bow along", w.BowAlong, 0.9*along, 1e-9)
		near(t, string(w.Order)+": bow across", w.BowAcross, -0.35*across, 1e-9)
		near(t, string(w.Order)+": wind", w.Wind, 0.6*k.Wind.Together, 1e-9)
	}
	f := r.Bed.Field
	if f.NX*f.NY != len(f.Bed) || len(f.Kept) != len(f.Bed) || len(f.Finished) != len(f.Bed) {
		t.Fatalf("a field of %d by %d has %d, %d and %d heights", f.NX, f.NY, len(f.Bed), len(f.Kept), len(f.Finished))
	}
	// Middle over the two ends of the middle row: the bow along.
	row := f.NY / 2 * f.NX
	bow := func(z []float64) float64 { return z[row+f.NX/2] - (z[row]+z[row+f.NX-1])/2 }
	near(t, "bed in the field", bow(f.Bed), 0.9, 1e-9)
	near(t, "kept in the field", bow(f.Kept), 0.9*k.Along.Together, 1e-9)
	near(t, "shimmed and glued the best way", bow(f.Finished), 0, 0.05)
	if b := r.Bed; b.Plans[b.Ways[b.Best].Plan].Name != planAll || b.Short != 0 || b.Least != -1 {
		t.Errorf("best %+v, short %g, least %d", b.Ways[b.Best], b.Short, b.Least)
	}
	best := r.Bed.Ways[r.Bed.Best].Flat
	for _, w := range r.Bed.Ways {
		if w.Flat < best-flatSeen {
			t.Errorf("%s on plan %d is flat within %g, flatter than the best, %g", w.Order, w.Plan, w.Flat, best)
		}
	}
	d.Surveys[0].Columns[0], d.Surveys[0].Rows[2] = 300, 620
	if short := compute(t, d).Bed.Short; short != 300 {
		t.Errorf("the survey stops %g mm short; want 300", short)
	}
}

// TestTurningIsAMirror: turned over, a local hump counts half as what looks the
// same from both sides and half as what looks opposite; turned back it is as
// before.
func TestTurningIsAMirror(t *testing.T) {
	t.Parallel()
	d := plainTop()
	k := KeptShares{Kept{Together: 0.9, TurnedOver: -0.5}, Kept{Together: 0.92, TurnedOver: -0.6}, Kept{Together: 0.99, TurnedOver: 0.99}}
	r := rand.New(rand.NewPCG(6, 41))
	bed := d.bedBelow(newSurface(&Survey{Columns: []float64{0, 1600}, Rows: []float64{0, 700}}, nil))
	for i := range bed {
		bed[i].Z = r.NormFloat64()
	}
	for _, order := range []GlueOrder{TurnedLong, TurnedEndway} {
		got := d.keeps(k, bed, order)
		// The same bed, mirrored the way the panel is turned, makes the same top mirrored.
		mirrored := make([]flat.Point, len(bed))
		for n, p := range bed {
			mirrored[n] = flat.Point{X: p.X, Y: p.Y, Z: bed[mirror(n, order)].Z}
		}
		again := d.keeps(k, mirrored, order)
		for n := range bed {
			near(t, fmt.Sprintf("%s, place %d", order, n), again[n].Z, got[mirror(n, order)].Z, 1e-9)
			if mirror(mirror(n, order), order) != n {
				t.Fatalf("%s: turned twice, place %d is elsewhere", order, n)
			}
		}
		// What is left of bow and wind: same from both sides by the mean of the bows
		// turned over, opposite by the mean of the bows not turned.
		s := flat.ShapeOf(bed)
		for n, p := range bed {
			m := mirror(n, order)
			left, other := p.Z-s.At(p.X, p.Y), bed[m].Z-s.At(bed[m].X, bed[m].Y)
			u, v := p.X/800-1, p.Y/350-1
			smooth := -0.5*s.BowX.Value*(1-u*u) - 0.6*s.BowY.Value*(1-v*v) + 0.99*s.Wind.Value/4*u*v
			near(t, fmt.Sprintf("%s, left at %d", order, n), got[n].Z, smooth-0.55*(left+other)/2+0.91*(left-other)/2, 1e-9)
		}
	}
}

// TestShimsOnTheBed: what to lay where, what is left, and as few as meet a limit.
func TestShimsOnTheBed(t *testing.T) {
	t.Parallel()
	shape := func(u, v float64) float64 { return 0.63*(1-u*u) - 0.21*(1-v*v) + 0.17*u*v }
	d, r := onBed(t, shape)
	plan := func(name string) *ShimPlan {
		for i := range r.Bed.Plans {
			if r.Bed.Plans[i].Name == name {
				return &r.Bed.Plans[i]
			}
		}
		t.Fatalf("no plan %q", name)
		return nil
	}
	near(t, "bed without shims", plan(planNone).Bed.Zone, r.Bed.Surveys[0].Flat.Zone, 1e-9)
	// The finest step of the feelers taken is .05, so each station ends within .025.
	if left := plan(planAll).Bed.Zone; left > 0.05+1e-9 {
		t.Errorf("shimmed everywhere the bed is flat within %g; want .05", left)
	}
	for _, s := range plan(planAll).Shims {
		sum := 0.0
		for _, leaf := range s.Leaves {
			sum += leaf
			if !slices.Contains(flat.FeelerSet(), leaf) {
				t.Errorf("%s: no leaf of %g", s.Station, leaf)
			}
		}
		near(t, s.Station+": leaves", sum, s.Thickness, 1e-9)
		near(t, s.Station+": shim and gap", s.Thickness-s.Gap, 0, 0.025+1e-9)
		i, j, _ := ParseStation(s.Station)
		near(t, s.Station+": x", s.X, 400*float64(i), 1e-9)
		near(t, s.Station+": y", s.Y, 350*float64(j), 1e-9)
	}
	for _, w := range r.Bed.Ways {
		if r.Bed.Plans[w.Plan].Name == planWind {
			near(t, "wind after its shims, "+string(w.Order), w.Wind, 0, 0.06) // four corners within .025 make .1 at most; leaves in the middle even out
		}
	}
	// At the near left corner u·v = 1, there the twist is highest and takes no shim; so at
	// the far right. The other two corners take twice .17.
	for _, s := range plan(planWind).Shims {
		if s.Station == "A1" || s.Station == "E3" {
			t.Errorf("%s is the high corner of the wind and gets a shim of %g", s.Station, s.Thickness)
		}
		if s.Station == "A3" || s.Station == "E1" {
			near(t, s.Station+": gap by wind", s.Gap, 0.34, 1e-9)
		}
	}

	d.Limits.Flatness = 0.3
	r = compute(t, d)
	least := r.Bed.Least
	if least < 0 {
		t.Fatal("nothing meets the limit of .3")
	}
	if w := r.Bed.Ways[least]; w.Flat > 0.3 || len(r.Bed.Plans[w.Plan].Shims) >= len(plan(planAll).Shims) || r.Bed.Plans[w.Plan].Name != planEnough {
		t.Errorf("least work: %+v with %d shims, of %d for all", w, len(r.Bed.Plans[w.Plan].Shims), len(plan(planAll).Shims))
	}
	d.Leaves = []float64{0.5, 2}
	r = compute(t, d)
	for _, p := range r.Bed.Plans {
		for _, s := range p.Shims {
			if s.Thickness != 0.5 && s.Thickness != 1 {
				t.Errorf("a shim of %g from leaves of .5 and 2 mm", s.Thickness)
			}
		}
	}
	if !slices.ContainsFunc(r.Problems, func(p Problem) bool { return p.Code == "flatness-bed" && p.Severity == Shortfall }) {
		t.Errorf("with coarse leaves the best is %g, limit .3, and no problem: %v", r.Bed.Ways[r.Bed.Best].Flat, r.Problems)
	}
}

// TestBedLargerThanThePanel: what lies beyond the next station beside the panel
// takes no shim and asks for none, however high or low it is.
func TestBedLargerThanThePanel(t *testing.T) {
	t.Parallel()
	d, r := onBed(t, func(u, v float64) float64 { return 0.5 * (1 - u*u) * (1 - v*v) })
	// The same bed with two more columns at the right, the last of them 9 mm high, and a
	// row behind that is 7 mm low.
	s := d.Surveys[0].clone()
	s.Columns = append(s.Columns, 2000, 2400)
	s.Rows = append(s.Rows, 1050, 1400)
	heights := SurveyedLine{Method: ByLaserLevel, Error: 0.01}
	for row := range s.Rows {
		for column := range s.Columns {
			u, v := min(float64(column)/2-1, 1), min(float64(row)-1, 1)
			z := 0.5 * (1 - u*u) * (1 - v*v)
			if column == 6 {
				z = 9
			}
			if row == 4 {
				z = -7
			}
			heights.Stations = append(heights.Stations, StationName(column, row))
			heights.Readings = append(heights.Readings, 30-z)
		}
	}
	s.Lines = []SurveyedLine{heights}
	d.Surveys[0] = s
	large := compute(t, d)
	if zone := large.Bed.Surveys[0].Flat.Zone; zone < 5 {
		t.Errorf("the whole bed is flat within %g; want what lies beside the panel in it", zone)
	}
	for i, w := range r.Bed.Ways {
		near(t, fmt.Sprintf("way %d", i), large.Bed.Ways[i].Flat, w.Flat, 1e-6)
	}
	for _, shim := range large.Bed.Plans[2].Shims {
		if column, row, _ := ParseStation(shim.Station); column > 5 || row > 3 {
			t.Errorf("a shim of %g far outside the panel, at %s", shim.Thickness, shim.Station)
		}
	}
	// A bed that was measured somewhere else is none for this panel.
	for i := range s.Columns {
		d.Surveys[0].Columns[i] += 5000
	}
	if b := compute(t, d).Bed; b.Laid() || b.Bed != -1 || b.Field != nil {
		t.Errorf("a bed 5 m away is glued on: %+v", b.Ways)
	}
}

// TestMirroredBed: the same bed from the other end has the same ways, its shims
// at the other end.
func TestMirroredBed(t *testing.T) {
	t.Parallel()
	shape := func(u, v float64) float64 { return 0.4*u*u*u + 0.3*u*v - 0.2*v*v + 0.1*u*u*v }
	_, a := onBed(t, shape)
	_, b := onBed(t, func(u, v float64) float64 { return shape(-u, v) + 4*u })
	if len(a.Bed.Ways) != len(b.Bed.Ways) {
		t.Fatalf("%d ways and %d", len(a.Bed.Ways), len(b.Bed.Ways))
	}
	for i, w := range a.Bed.Ways {
		near(t, fmt.Sprintf("way %d", i), b.Bed.Ways[i].Flat, w.Flat, 1e-6)
	}
	thickness := func(r Result, name string) float64 {
		for _, s := range r.Bed.Plans[2].Shims {
			if s.Station == name {
				return s.Thickness
			}
		}
		return 0
	}
	for j := range 3 {
		for i := range 5 {
			near(t, "shim at "+StationName(i, j), thickness(b, StationName(4-i, j)), thickness(a, StationName(i, j)), 1e-9)
		}
	}
}

// TestTiltIsToldByLevels: a level tells what is level, a straightedge does not.
func TestTiltIsToldByLevels(t *testing.T) {
	t.Parallel()
	d, r := onBed(t, func(u, v float64) float64 { return 2 * u })
	if s := r.Bed.Surveys[0]; s.TiltTold || s.TiltAlong != 0 {
		t.Errorf("a straightedge tells a tilt of %g", s.TiltAlong)
	}
	// From left to right 1.2 up, from front to back .6 down; read downwards.
	d.Surveys[0].Lines = []SurveyedLine{{Method: ByWaterLevel, Stations: []string{"A1", "E1", "A3", "E3", "C2"}, Readings: []float64{50, 48.8, 50.6, 49.4, 49.7}}}
	s := compute(t, d).Bed.Surveys[0]
	near(t, "tilt along", s.TiltAlong, 1.2, 1e-9)
	near(t, "tilt across", s.TiltAcross, -0.6, 1e-9)
	near(t, "zone", s.Flat.Zone, 0, 1e-9)
	if text := strings.Join(s.Lines(millimetre), "\n"); !s.TiltTold || !strings.Contains(text, "the right end stands 1.20 mm higher than the left one, the back edge 0.60 mm lower than the front one") {
		t.Errorf("told %v:\n%s", s.TiltTold, text)
	}
}

func TestBadReadingsAreTold(t *testing.T) {
	t.Parallel()
	d, _ := onBed(t, func(u, v float64) float64 { return 0.2 * u * u * v })
	d.Surveys[0].Lines[1].Readings[1] += 0.9
	r := compute(t, d)
	s := r.Bed.Surveys[0]
	if len(s.Bad) != 1 || s.Readings[s.Bad[0].Reading].Station != "C2" || s.Readings[s.Bad[0].Reading].Line != 1 {
		t.Fatalf("bad readings %+v; want C2 of line 2", s.Bad)
	}
	near(t, "off", s.Bad[0].Off, -0.9, 1e-9)
	at := slices.IndexFunc(r.Problems, func(p Problem) bool { return p.Code == "survey-reading" })
	if at < 0 || r.Problems[at].Field != "surveys[0].lines[1].readings[1]" || r.Problems[at].Severity != Advice ||
		!strings.Contains(r.Problems[at].Text, "C2 of line 2 (straightedge from A2 to E2) is 0.90 mm off") {
		t.Errorf("problems: %+v", r.Problems)
	}
	// Two lines cross at B1 only there: nobody can tell which of them is bad.
	d.Surveys[0].Lines[1].Readings[1] -= 0.9
	d.Surveys[0].Lines[1].Readings[0] += 0.9
	r = compute(t, d)
	if s = r.Bed.Surveys[0]; len(s.Bad) != 1 || len(s.Bad[0].Or) == 0 || !strings.Contains(s.Bad[0].Text, "cannot tell which") || !strings.Contains(s.Bad[0].Text, "line 2") || !strings.Contains(s.Bad[0].Text, "line 5") {
		t.Errorf("bad readings %+v; want one of two", s.Bad)
	}
	d.Surveys[0].Lines = d.Surveys[0].Lines[:8]
	d.Surveys[0].Lines[1].Readings[0] -= 0.9
	r = compute(t, d)
	if !r.Bed.Surveys[0].WindAssumed || !slices.ContainsFunc(r.Problems, func(p Problem) bool { return p.Code == "survey-wind" }) {
		t.Error("rows and columns alone: nobody says that wind is not told")
	}
	d.Surveys[0].Lines = d.Surveys[0].Lines[:2]
	r = compute(t, d)
	if !slices.ContainsFunc(r.Problems, func(p Problem) bool { return p.Code == "survey-loose" }) {
		t.Errorf("two rows: nobody says that they hang in the air: %v", r.Problems)
	}
}

func TestSurveysAreChecked(t *testing.T) {
	t.Parallel()
	good := func() Survey { return surveyed(testTop(), "", func(u, v float64) float64 { return u * v }) }
	for _, test := range []struct {
		name string
		edit func(d *Design, s *Survey)
		want []string
	}{
		{"good", func(*Design, *Survey) {}, nil},
		{"of nothing known", func(_ *Design, s *Survey) { s.Of = "moon" }, []string{"advice survey-of surveys[0].of", "advice survey-grid surveys[0]"}},
		{"no date", func(_ *Design, s *Survey) { s.Taken = "yesterday" }, []string{"advice survey-taken surveys[0].taken"}},
		{"steam", func(_ *Design, s *Survey) { s.Humidity = 120 }, []string{"advice survey-humidity surveys[0].humidity"}},
		{"rows out of order", func(_ *Design, s *Survey) { s.Rows[1] = -5 }, []string{"advice survey-grid surveys[0]"}},
		{"no stations", func(_ *Design, s *Survey) { s.Columns = nil }, []string{"advice survey-grid surveys[0]"}},
		{"very many stations", func(_ *Design, s *Survey) {
			s.Columns = nil
			for i := range 200 {
				s.Columns = append(s.Columns, float64(i))
			}
		}, []string{"advice survey-grid surveys[0]"}},
		{"a station that is none", func(_ *Design, s *Survey) { s.Lines[3].Stations[1] = "here" }, []string{"advice survey-line surveys[0].lines[3].readings"}},
		{"a station off the grid", func(_ *Design, s *Survey) { s.Lines[3].Stations[1] = "F1" }, []string{"advice survey-line surveys[0].lines[3].readings"}},
		{"a reading too many", func(_ *Design, s *Survey) { s.Lines[0].Readings = append(s.Lines[0].Readings, 1) }, []string{"advice survey-line surveys[0].lines[0].readings"}},
		{"an unknown way", func(_ *Design, s *Survey) { s.Lines[9].Method = "by eye" }, []string{"advice survey-line surveys[0].lines[9].readings"}},
		{"no shim", func(d *Design, _ *Survey) { d.Leaves = []float64{0.1, 0} }, []string{"advice shim-thickness leaves[1]"}},
		{"very many shims", func(d *Design, _ *Survey) {
			for i := range 30 {
				d.Leaves = append(d.Leaves, 0.1+float64(i))
			}
		}, []string{"advice shim-many leaves"}},
		{"very many surveys", func(d *Design, s *Survey) { d.Surveys = slices.Repeat([]Survey{*s}, maxSurveys+1) }, []string{"advice survey-many surveys"}},
		{"a limit below nothing", func(d *Design, _ *Survey) { d.Limits.Flatness = -1 }, []string{"blocking limit-negative limits.flatness"}},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			d := testTop()
			d.Surveys = []Survey{good()}
			test.edit(&d, &d.Surveys[0])
			if got := told(problemsOf(d)); !slices.Equal(got, test.want) {
				t.Errorf("Validate = %v; want %v", got, test.want)
			}
		})
	}
}

// TestSurveysInFiles: a design without surveys is saved as before there were any,
// and a clone shares nothing with its design.
func TestSurveysInFiles(t *testing.T) {
	t.Parallel()
	data, err := Encode(testTop())
	if err != nil {
		t.Fatal(err)
	}
	for _, key := range []string{`"surveys"`, `"leaves"`, `"flatness"`} {
		if bytes.Contains(data, []byte(key)) {
			t.Errorf("Encode writes %s that nobody took", key)
		}
	}
	d, _ := onBed(t, func(u, v float64) float64 { return u * v })
	d.Leaves = []float64{0.1, 0.2}
	c := d.Clone()
	c.Leaves[0], c.Surveys[0].Columns[1], c.Surveys[0].Rows[1] = 9, 9, 9
	c.Surveys[0].Lines[0].Readings[0], c.Surveys[0].Lines[0].Stations[0] = 9, "Z9"
	c.Surveys[0].Lines[1] = SurveyedLine{}
	if s := d.Surveys[0]; d.Leaves[0] == 9 || s.Columns[1] == 9 || s.Rows[1] == 9 || s.Lines[0].Readings[0] == 9 || s.Lines[0].Stations[0] == "Z9" || s.Lines[1].Method == "" {
		t.Error("a clone shares its surveys with the design")
	}
}

// TestAnySurveyIsAnswered: whatever is typed, the panel is computed.
func TestAnySurveyIsAnswered(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(6, 42))
	odd := []float64{0, 1, -1, 0.1, 1e9, -1e9, 1e-9, 700, 1600}
	for range 40 {
		d := plainTop()
		for range 1 + r.IntN(2) {
			s := surveyed(d, pick[SurveyedThing](r, "", TheBed, TheTop), func(u, v float64) float64 { return r.NormFloat64() })
			for range r.IntN(4) {
				l := &s.Lines[r.IntN(len(s.Lines))]
				switch r.IntN(6) {
				case 0:
					l.Readings[0] = odd[r.IntN(len(odd))]
				case 1:
					l.Method = SurveyMethods[r.IntN(len(SurveyMethods))]
				case 2:
					l.Stations[0] = pick(r, "A1", "C2", "E3", "x", "")
				case 3:
					l.Rest, l.Hang, l.Error = odd[r.IntN(len(odd))], odd[r.IntN(len(odd))], odd[r.IntN(len(odd))]
				case 4:
					s.Lines = s.Lines[:1+r.IntN(len(s.Lines))]
				case 5:
					s.Columns[r.IntN(len(s.Columns))] = odd[r.IntN(len(odd))]
				}
			}
			d.Surveys = append(d.Surveys, s)
		}
		d.Limits.Flatness = pick(r, 0, 0.01, 0.5, 1e9)
		d.Leaves = pick(r, nil, []float64{0.3}, []float64{-1}, []float64{1e9, 1e-9})
		res := compute(t, d)
		if _, err := json.Marshal(res.Bed); err != nil {
			t.Errorf("%v: %+v", err, d.Surveys)
		}
		if b := res.Bed; (b.Bed < 0) != (b.Best < 0) || (b.Best < 0) != (b.Field == nil) {
			t.Errorf("bed %d, best %d, field %v", b.Bed, b.Best, b.Field != nil)
		}
		var out bytes.Buffer
		if err := Report(&out, d, res, length.Format{}); err != nil || strings.Contains(out.String(), "NaN") || strings.Contains(out.String(), "%!") {
			t.Errorf("report: %v\n%s", err, out.String())
		}
	}
}

func TestHeightsInWords(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		mm           float64
		metric, inch string
	}{{0.344, "+0.34", "+0.0135"}, {-1.2, "−1.20", "−0.0472"}, {0.001, "0.00", "0.0000"}, {-0.004, "0.00", "−0.0002"}, {math.Copysign(0, -1), "0.00", "0.0000"}} {
		if got := HeightText(c.mm, millimetre); got != c.metric {
			t.Errorf("HeightText(%g) = %s; want %s", c.mm, got, c.metric)
		}
		if got := HeightText(c.mm, sixteenths); got != c.inch {
			t.Errorf("HeightText(%g) in inches = %s; want %s", c.mm, got, c.inch)
		}
	}
}

// A way that is flatter than the one called flattest, by less than anybody feels, is
// not passed over in silence.
func TestFlattestIsNotContradicted(t *testing.T) {
	t.Parallel()
	d := plainTop()
	// By hand: a hump of half a millimetre along, which turning over makes a little flatter.
	d.Surveys = []Survey{surveyed(d, TheBed, func(u, v float64) float64 { return 0.5*u*(1-u) + 0.3*v*u })}
	r := compute(t, d)
	b := &r.Bed
	told := strings.Contains(strings.Join(b.Advice(d, millimetre), " "), "shows on no feeler")
	flatter := false
	for _, w := range b.Ways {
		flatter = flatter || ThinText(w.Flat, millimetre) != ThinText(b.Ways[b.Best].Flat, millimetre) && w.Flat < b.Ways[b.Best].Flat
	}
	if told != flatter {
		t.Errorf("a flatter way is there: %v, told of: %v", flatter, told)
	}
	if !flatter {
		t.Error("the case has no flatter way; take another bed")
	}
}
