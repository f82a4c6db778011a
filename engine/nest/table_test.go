package nest

import (
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

func readInts(t testing.TB, name string) []int {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("testdata", name))
	if err != nil {
		t.Fatal(err)
	}
	var all []int
	for _, word := range strings.Fields(string(text)) {
		v, err := strconv.Atoi(word)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, v)
	}
	return all
}

// The values of gcut1 to gcut13 (Beasley 1985), parts fixed and turnable:
// reference.md H1, an exact programme of its own (scripts/gcut_dp.cpp); those
// with fixed parts equal the published ones from memory.
var gcut = [13][2]int64{
	{56460, 58136}, {60536, 60611}, {61036, 61626}, {61698, 62265}, {246000, 246000}, {238998, 240951}, {242567, 245866},
	{246633, 247787}, {971100, 971100}, {982025, 982025}, {980096, 980096}, {979986, 988694}, {8997780, 9000000},
}

func gcutJob(t testing.TB, n int, grain Grain) (Job, []int64) {
	all := readInts(t, "gcut"+strconv.Itoa(n)+".txt")
	j := Job{Stock: []Sheet{{Length: float64(all[1]), Width: float64(all[2]), Grain: grain}}}
	var values []int64
	for at := 3; at+2 < len(all); at += 3 {
		// As many as fit by area: the problem has no limit of its own.
		most := all[1] * all[2] / (all[at] * all[at+1])
		j.Pieces = append(j.Pieces, Piece{Length: float64(all[at]), Width: float64(all[at+1]), Count: max(most, 1), Grain: grain})
		values = append(values, int64(all[at+2]))
	}
	return j, values
}

// checkUnlimited compares a table's value, and that of the parts traced from
// it, with the known one.
func checkUnlimited(t testing.TB, n int) {
	t.Helper()
	w := &work{ctx: t.Context(), limit: 1 << 60}
	for way, grain := range [...]Grain{AlongLength, NoGrain} {
		j, values := gcutJob(t, n, grain)
		p, err := newProblem(j)
		if err != nil {
			t.Fatal(err)
		}
		weights := make([]int64, len(p.kinds))
		for k := range p.kinds {
			weights[k] = values[p.kinds[k].from[0]]
		}
		tab := newTable(p, w, &p.stores[0], 1<<40)
		if got, _ := tab.fill(w, weights); got != gcut[n-1][way] || !tab.exact {
			t.Errorf("gcut%d, way %d: value %d (exact %v); want %d", n, way, got, tab.exact, gcut[n-1][way])
		}
		counts, sum := tab.parts(weights, len(p.kinds)), int64(0)
		for k, c := range counts {
			sum += int64(c) * weights[k]
		}
		if sum != gcut[n-1][way] {
			t.Errorf("gcut%d, way %d: the traced parts are worth %d; want %d", n, way, sum, gcut[n-1][way])
		}
	}
}

// All but the largest, which takes seconds and is BenchmarkUnlimited's.
func TestUnlimitedPartsBySheetValue(t *testing.T) {
	t.Parallel()
	for n := 1; n <= 12; n++ {
		checkUnlimited(t, n)
	}
}

func BenchmarkUnlimited(b *testing.B) {
	for b.Loop() {
		checkUnlimited(b, 13)
	}
}
