package engine

// Relative humidity that can be computed, %: drier and damper than any room.
// Close to 100 % wood takes up free water, which the formula does not know.
// Common practice, no source.
const (
	minHumidity = 5.0
	maxHumidity = 95.0
)

// air checks the humidities; 0 is not stated.
func (r *review) air() {
	a := r.d.Air
	for _, h := range []struct {
		field, where string
		value        float64
	}{{"madeAt", "in the shop", a.MadeAt}, {"above", "above the top", a.Above}, {"below", "below the top", a.Below}} {
		if h.value != 0 && (h.value < minHumidity || h.value > maxHumidity) {
			r.block("air-humidity", "air."+h.field, "The relative humidity %s is %s %%; from %s to %s %% can be computed. Read it from a hygrometer, or leave it empty for a usual value.",
				h.where, plainNumber(h.value), plainNumber(minHumidity), plainNumber(maxHumidity))
		}
	}
}
