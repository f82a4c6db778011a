package catalog

import "math"

// Layup returns the mean moduli in MPa of a cross-laminated sheet: in the
// plane along and across the face grain, and in bending along and across.
//
//	axial = Σ E·t / Σ t        bend = Σ E·(t³/12 + t·z²) / (h³/12)
//
// e0 and e90 are the moduli of a ply along and across its own grain, MPa;
// plies are the ply thicknesses in mm from one face to the other, turned by
// 90° from each to the next and starting along the face grain; z is taken from
// the neutral axis of that direction, h = Σ t. Plies are bonded rigidly;
// Poisson coupling and shear between plies are left out. A lay-up that is not
// symmetric about its middle is bent about its own neutral axis.
//
// All four are NaN unless e0, e90 and every ply are positive.
//
// Source: laminated beam theory (transformed section, parallel-axis theorem).
func Layup(e0, e90 float64, plies []float64) (axialAlong, axialAcross, bendAlong, bendAcross float64) {
	axialAlong, bendAlong = layers(e0, e90, plies)
	axialAcross, bendAcross = layers(e90, e0, plies)
	return axialAlong, axialAcross, bendAlong, bendAcross
}

// layers is Layup for one direction: first is the modulus, in that direction,
// of the odd plies, second that of the even ones.
func layers(first, second float64, plies []float64) (axial, bend float64) {
	if !(first > 0) || !(second > 0) || len(plies) == 0 {
		return math.NaN(), math.NaN()
	}
	// Sums over the plies from the outer face: E·t, E·t·z and E·(t³/12 + t·z²).
	var h, ea, es, ei float64
	for i, t := range plies {
		if !(t > 0) {
			return math.NaN(), math.NaN()
		}
		e := first
		if i%2 == 1 {
			e = second
		}
		z := h + t/2
		ea += e * t
		es += e * t * z
		ei += e * (t*t*t/12 + t*z*z)
		h += t
	}
	return ea / h, (ei - es*es/ea) * 12 / (h * h * h)
}

// At returns the material as it is at that thickness in mm: figures that
// change with thickness are replaced by those of its Steps, and where its plies
// are known the moduli follow from the lay-up of the nearest thickness sold.
// Where neither is known it returns s unchanged.
func (s Sheet) At(thickness float64) Sheet {
	for _, step := range s.Steps {
		if !(thickness > step.Above) {
			continue
		}
		for _, f := range sheetFields {
			if v, ok := step.Values[f.name]; ok {
				*f.of(&s) = v
			}
		}
	}
	if t, ok := s.layered(thickness); ok {
		a, b, c, d := Layup(s.EPlyAlong, s.EPlyAcross, t.layers())
		if min(a, b, c, d) > 0 && !math.IsInf(max(a, b, c, d), 0) {
			s.EAlong, s.EAcross, s.EBendAlong, s.EBendAcross = a, b, c, d
		}
	}
	return s
}

// layered returns the thickness sold nearest to the one given whose plies are
// known; of two as near, the first listed.
func (s Sheet) layered(thickness float64) (Thickness, bool) {
	best, found := Thickness{}, false
	if !(s.EPlyAlong > 0) || !(s.EPlyAcross > 0) {
		return best, false
	}
	for _, t := range s.Thicknesses {
		if t.Plies > 0 && (!found || math.Abs(t.Actual-thickness) < math.Abs(best.Actual-thickness)) {
			best, found = t, true
		}
	}
	return best, found
}

// layers returns the ply thicknesses of one thickness sold.
func (t Thickness) layers() []float64 {
	if len(t.Layers) > 0 || t.Plies <= 0 {
		return t.Layers
	}
	plies := make([]float64, t.Plies)
	for i := range plies {
		plies[i] = t.Actual / float64(t.Plies)
	}
	return plies
}
