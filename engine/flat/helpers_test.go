package flat_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"flatwright/engine/flat"
)

// near fails unless got is within tol of want, mm.
func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.10g; want %.10g ± %.2g", what, got, want, tol)
	}
}

// table is nx by ny stations over lx by ly mm, x running fastest.
func table(nx, ny int, lx, ly float64) []flat.Station {
	var out []flat.Station
	for j := range ny {
		for i := range nx {
			out = append(out, flat.Station{X: lx * float64(i) / float64(nx-1), Y: ly * float64(j) / float64(ny-1)})
		}
	}
	return out
}

// surface is stations with the heights of f.
func surface(stations []flat.Station, f func(x, y float64) float64) []flat.Point {
	var out []flat.Point
	for _, s := range stations {
		out = append(out, flat.Point{X: s.X, Y: s.Y, Z: f(s.X, s.Y)})
	}
	return out
}

// taken returns a line as it would be read on a surface of heights z, the
// reading taken from what the method means, not from the package's equations.
func taken(m flat.Method, stations []flat.Station, z []float64, at []int, rest float64) flat.Line {
	l := flat.Line{Method: m, Stations: at, Rest: rest}
	over := func(a, k, b int) float64 {
		la := math.Hypot(stations[k].X-stations[a].X, stations[k].Y-stations[a].Y)
		lb := math.Hypot(stations[b].X-stations[k].X, stations[b].Y-stations[k].Y)
		return z[k] - (z[a]*lb+z[b]*la)/(la+lb)
	}
	last := len(at) - 1
	switch m {
	case flat.Straightedge, flat.String:
		for k := 1; k < last; k++ {
			l.Readings = append(l.Readings, rest-over(at[0], at[k], at[last]))
		}
	case flat.Bridge:
		for k := 1; k < last; k++ {
			l.Readings = append(l.Readings, rest+over(at[k-1], at[k], at[k+1]))
		}
	case flat.Winding:
		l.Readings = []float64{(z[at[3]] - z[at[2]]) - (z[at[1]] - z[at[0]])} // sticks of equal length
	default:
		for _, k := range at {
			l.Readings = append(l.Readings, rest-z[k])
		}
	}
	return l
}

// star is rows, columns and both diagonals of a table of nx by ny stations; the
// diagonals have the stations that lie on them.
func star(m flat.Method, stations []flat.Station, z []float64, nx, ny int) []flat.Line {
	var out []flat.Line
	for _, at := range ways(stations, nx, ny) {
		out = append(out, taken(m, stations, z, at, 5))
	}
	return out
}

// ways lists the stations of rows, columns and diagonals.
func ways(stations []flat.Station, nx, ny int) [][]int {
	var out [][]int
	for j := range ny {
		var row []int
		for i := range nx {
			row = append(row, j*nx+i)
		}
		out = append(out, row)
	}
	for i := range nx {
		var column []int
		for j := range ny {
			column = append(column, j*nx+i)
		}
		out = append(out, column)
	}
	lx, ly := stations[nx-1].X, stations[len(stations)-1].Y
	var up, down []int
	for i := range nx {
		for j := range ny {
			s := stations[j*nx+i]
			if math.Abs(s.X/lx-s.Y/ly) < 1e-9 {
				up = append(up, j*nx+i)
			}
			if math.Abs(s.X/lx-1+s.Y/ly) < 1e-9 {
				down = append(down, j*nx+i)
			}
		}
	}
	return append(out, up, down)
}

// rough is random heights, unlike any shape, on a tilt.
func rough(r *rand.Rand, stations []flat.Station) []float64 {
	a, b, c := r.NormFloat64()*0.01, r.NormFloat64()*0.01, r.NormFloat64()*10
	z := make([]float64, len(stations))
	for i, s := range stations {
		z[i] = c + a*s.X + b*s.Y + r.NormFloat64()*0.4
	}
	return z
}

// overPlane returns heights over their own least-squares plane.
func overPlane(t *testing.T, stations []flat.Station, z []float64) []float64 {
	t.Helper()
	points := make([]flat.Point, len(z))
	for i, s := range stations {
		points[i] = flat.Point{X: s.X, Y: s.Y, Z: z[i]}
	}
	d, err := flat.LeastSquares(points)
	if err != nil {
		t.Fatal(err)
	}
	out := make([]float64, len(z))
	for i, p := range points {
		out[i] = d.Plane.Over(p)
	}
	return out
}

func fit(t *testing.T, stations []flat.Station, lines []flat.Line) flat.Heights {
	t.Helper()
	h, err := flat.Fit(stations, lines)
	if err != nil {
		t.Fatal(err)
	}
	return h
}
