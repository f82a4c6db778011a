package press

import "math"

// Densities of what is at hand as weight, kg/m³: water; dry sand, poured; plain
// concrete, as paving slabs. Source: EN 1991-1-1 Annex A, 10, 16 and 24 kN/m³,
// rounded; from memory.
const (
	Water    = 1000.0
	Sand     = 1600.0
	Concrete = 2400.0
)

// Mass returns the mass, kg, whose weight is force N.
func Mass(force float64) float64 { return force / Gravity }

// Volume returns the volume, litres, of mass kg at density kg/m³.
func Volume(mass, density float64) float64 { return mass / density * 1000 }

// StackHeight returns how high, mm, mass kg of density kg/m³ stands on an area of
// mm².
func StackHeight(mass, density, area float64) float64 { return mass / density * 1e9 / area }

// TipAngle returns by how much, radians, a stack of height mm on a base of width
// mm across may lean before it falls over by itself: its weight then acts over
// the edge of the base. Source: statics of a stiff body.
func TipAngle(width, height float64) float64 { return math.Atan(width / height) }
