package press

import "math"

// Atmosphere returns the pressure of the air, Pa, at an altitude in metres, −500
// to 11 000:
//
//	101325·(1 − 2.25577e-5·h)^5.25588
//
// Source: standard atmosphere, ISO 2533, from memory; it gives
// 84.6 kPa at 1 500 m. Weather moves it by some 3 %.
func Atmosphere(altitude float64) float64 {
	return 101325 * math.Pow(1-2.25577e-5*altitude, 5.25588)
}

// OnFace returns the pressure, MPa, with which the air presses on the bag: that
// of the altitude times the share of it that the pump takes out, 0..1, times what
// leaks leave of that, 0..1.
func OnFace(altitude, share, leak float64) float64 {
	return Atmosphere(altitude) * 1e-6 * share * leak
}

// PumpDown returns the minutes a pump of flow litres a minute takes to bring a
// volume of litres down to the share of the air that is left, 0..1: V/S·ln(1/left).
// Source: the pump takes out its own volume of what is there, textbook; leaks and
// the pump's own slowing down come on top.
func PumpDown(volume, flow, left float64) float64 { return volume / flow * math.Log(1/left) }

// HoleFlow is how much air a hole lets through into a vacuum, litres a minute for
// each mm² of it: 0.2 l/s, the choked flow of air at 20 °C. Source: speed of sound
// in the throat times the density there, textbook, from memory.
const HoleFlow = 0.2 * 60

// VentMinutes returns the minutes in which a bay of volume litres empties through a
// hole of diameter mm down to the share of the air that is left, taken at choked
// flow throughout.
func VentMinutes(volume, diameter, left float64) float64 {
	return PumpDown(volume, HoleFlow*math.Pi/4*diameter*diameter, left)
}
