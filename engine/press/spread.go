package press

import "math"

// Glue returns the glue to have ready, grams and millilitres, for an area of mm²
// at spread g/m², of density g/ml, when the tool wastes a share of what is poured,
// 0..1: area·spread/(1 − waste). Source: what a waste is.
func Glue(area, spread, density, waste float64) (grams, millilitres float64) {
	grams = area * 1e-6 * spread / (1 - waste)
	return grams, grams / density
}

// Minutes returns how long people take to wet a length of rib edge, mm, at rate
// mm a minute each.
func Minutes(length, rate float64, people int) float64 { return length / rate / float64(people) }

// Vapour returns the pressure, Pa, of water vapour in air that can take no more, at
// a temperature of °C over 0: 611.2·exp(17.62·T/(243.12 + T)). Source: Magnus
// formula in the form of WMO No. 8, from memory; within 0.4 % of steam tables up to 30 °C.
func Vapour(celsius float64) float64 { return 611.2 * math.Exp(17.62*celsius/(243.12+celsius)) }

// Drying returns how many times as long a film dries at a temperature of °C and a
// relative humidity of % as at 20 °C and 50 %: the ratio of what the air can still
// take up. Source: Dalton's law of evaporation, still air, textbook; films of glue
// under their own label's word.
func Drying(celsius, humidity float64) float64 {
	return Vapour(20) * 0.5 / (Vapour(celsius) * (1 - humidity/100))
}
