package app

import (
	"math"
	"strconv"
	"strings"
	"unicode"

	"flatwright/engine"
	"flatwright/engine/length"
)

// told is an error that is shown beside a field as it is: sentences for people.
type told string

func (t told) Error() string { return string(t) }

// quantity is how one kind of quantity is typed, shown and stepped. Values are
// in engine units; the format decides what people see.
type quantity struct {
	unit  func(f length.Format) string
	parse func(text string, f length.Format) (float64, error)
	print func(v float64, f length.Format) string
	step  func(v float64, f length.Format, up, coarse bool) float64
}

// lengths are typed as woodworkers write them.
var lengthQuantity = quantity{
	unit:  length.Format.Unit,
	parse: length.Parse,
	print: func(v float64, f length.Format) string { return f.Bare(v) },
	step: func(v float64, f length.Format, up, coarse bool) float64 {
		if up {
			return f.StepUp(v, coarse)
		}
		return f.StepDown(v, coarse)
	},
}

// smallLength is a sag or a gap: decimals of the unit, no fractions.
var smallLength = quantity{
	unit:  length.Format.Unit,
	parse: length.Parse,
	print: func(v float64, f length.Format) string { return plainFigures(v/unitOf(f), 4) },
	step: func(v float64, f length.Format, up, coarse bool) float64 {
		step := 0.05
		if f.Imperial {
			step = 0.002
		}
		return stepped(v/unitOf(f), step, 5, up, coarse) * unitOf(f)
	},
}

// slideQuantity is a small length with a sign: how far something lies from its place.
var slideQuantity = quantity{
	unit:  length.Format.Unit,
	parse: parseSigned,
	print: func(v float64, f length.Format) string { return plainFigures(v/unitOf(f), 4) },
	step: func(v float64, f length.Format, up, coarse bool) float64 {
		step := 1.0
		if f.Imperial {
			step = length.Inch / 32
		}
		if coarse {
			step *= 10
		}
		if !up {
			step = -step
		}
		return math.Round((v+step)*1e6) / 1e6
	},
}

// parseSigned reads a length that may have a sign before it.
func parseSigned(text string, f length.Format) (float64, error) {
	text = strings.TrimSpace(text)
	v, err := length.Parse(strings.TrimLeft(text, "+-−"), f)
	if strings.HasPrefix(text, "-") || strings.HasPrefix(text, "−") {
		v = -v
	}
	return v, err
}

// unitOf is the unit that bare lengths are typed in, in mm.
func unitOf(f length.Format) float64 {
	if f.Imperial {
		return length.Inch
	}
	return 1
}

// massQuantity is a mass in kg, forceQuantity a force in N; both are typed in
// kg or lb, a force in N, kN or lbf as well.
var (
	massQuantity  = weightQuantity(1, map[string]float64{"kg": 1, "g": 0.001, "t": 1000, "lb": length.Pound, "lbs": length.Pound})
	forceQuantity = weightQuantity(engine.Gravity, map[string]float64{
		"kg": engine.Gravity, "t": 1000 * engine.Gravity, "lb": length.PoundForce, "lbs": length.PoundForce,
		"n": 1, "kn": 1000, "lbf": length.PoundForce, "kgf": engine.Gravity,
	})
)

// weightQuantity is shown in kg, which is perKilogram of the engine's unit, or
// in lb.
func weightQuantity(perKilogram float64, units map[string]float64) quantity {
	unit := func(f length.Format) string {
		if f.Imperial {
			return "lb"
		}
		return "kg"
	}
	size := func(f length.Format) float64 {
		if f.Imperial {
			return length.Pound * perKilogram
		}
		return perKilogram
	}
	return quantity{
		unit: unit,
		parse: func(text string, f length.Format) (float64, error) {
			return parseWithUnit(text, unit(f), units)
		},
		print: func(v float64, f length.Format) string { return plainFigures(v/size(f), 4) },
		step: func(v float64, f length.Format, up, coarse bool) float64 {
			return stepped(v/size(f), 1, 10, up, coarse) * size(f)
		},
	}
}

// temperatureQuantity is in °C, typed in °C or °F.
var temperatureQuantity = quantity{
	unit: func(f length.Format) string {
		if f.Imperial {
			return "°F"
		}
		return "°C"
	},
	parse: func(text string, f length.Format) (float64, error) {
		number, unit := splitUnit(text)
		v, err := parseNumber(number)
		if err != nil {
			return 0, err
		}
		switch strings.ToUpper(strings.Trim(unit, "° ")) {
		case "C":
			return v, nil
		case "F":
			return celsius(v), nil
		case "":
			if f.Imperial {
				return celsius(v), nil
			}
			return v, nil
		}
		return 0, told(quoted(unit) + " is not a unit of temperature known here. Type 20 °C or 68 °F.")
	},
	print: func(v float64, f length.Format) string {
		if f.Imperial {
			v = fahrenheit(v)
		}
		return plainFigures(v, 4)
	},
	step: func(v float64, f length.Format, up, coarse bool) float64 {
		if f.Imperial {
			return celsius(stepped(fahrenheit(v), 1, 5, up, coarse))
		}
		return stepped(v, 1, 5, up, coarse)
	},
}

func celsius(fahrenheit float64) float64 { return (fahrenheit - 32) / 1.8 }
func fahrenheit(celsius float64) float64 { return celsius*1.8 + 32 }

// money is a sum in the person's own currency.
var money = quantity{
	unit:  func(length.Format) string { return "" },
	parse: func(text string, _ length.Format) (float64, error) { return positiveNumber(text) },
	print: func(v float64, _ length.Format) string { return plainNumber(v) },
	step: func(v float64, _ length.Format, up, coarse bool) float64 {
		return max(0, stepped(v, 1, 10, up, coarse))
	},
}

// number is a bare figure with a unit that nobody converts.
func number(unit string, step float64) quantity {
	return quantity{
		unit:  func(length.Format) string { return unit },
		parse: func(text string, _ length.Format) (float64, error) { return positiveNumber(text) },
		print: func(v float64, _ length.Format) string { return plainNumber(v) },
		step: func(v float64, _ length.Format, up, coarse bool) float64 {
			return max(0, stepped(v, step, 10, up, coarse))
		},
	}
}

// mostCount bounds what is taken for a number of things, so that it fits an
// int everywhere; the engine has its own, smaller bounds and says so.
const mostCount = 1_000_000

// wholeNumber counts things.
var wholeNumber = quantity{
	unit: func(length.Format) string { return "" },
	parse: func(text string, _ length.Format) (float64, error) {
		n, err := strconv.Atoi(strings.TrimSpace(text))
		if err != nil || n < 0 || n > mostCount {
			return 0, told(quoted(text) + " is not read as a number of things. Type a whole number, such as 5.")
		}
		return float64(n), nil
	},
	print: func(v float64, _ length.Format) string { return strconv.Itoa(int(v)) },
	step: func(v float64, _ length.Format, up, coarse bool) float64 {
		return min(max(0, stepped(v, 1, 5, up, coarse)), mostCount)
	},
}

// optional shows nothing for 0 and reads nothing as 0: not stated, no limit.
func optional(q quantity) quantity {
	parse, print := q.parse, q.print
	q.parse = func(text string, f length.Format) (float64, error) {
		if strings.TrimSpace(text) == "" {
			return 0, nil
		}
		return parse(text, f)
	}
	q.print = func(v float64, f length.Format) string {
		if v == 0 {
			return ""
		}
		return print(v, f)
	}
	return q
}

// stepped returns the next multiple of step, or of coarse steps.
func stepped(v, step, coarseSteps float64, up, coarse bool) float64 {
	if coarse {
		step *= coarseSteps
	}
	const slack = 1e-6
	if up {
		return (math.Floor(v/step+slack) + 1) * step
	}
	return max(0, (math.Ceil(v/step-slack)-1)*step)
}

// plainNumber prints a value as it is typed, with at most nine figures.
func plainNumber(v float64) string { return plainFigures(v, 9) }

// plainFigures prints a value as it is typed: no groups, no exponent.
func plainFigures(v float64, figures int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "—"
	}
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', figures, 64), 64)
	if err != nil {
		rounded = v
	}
	return strconv.FormatFloat(rounded, 'f', -1, 64)
}

// parseNumber reads digits with at most one decimal sign, a point or a comma.
func parseNumber(text string) (float64, error) {
	typed := strings.TrimSpace(text)
	plain := strings.ReplaceAll(strings.ReplaceAll(typed, "−", "-"), ",", ".")
	v, err := strconv.ParseFloat(plain, 64)
	switch {
	case typed == "":
		return 0, told("Nothing is typed yet. Type a number, such as 12.5.")
	case err != nil, math.IsNaN(v), math.IsInf(v, 0), math.Abs(v) > 1e9, strings.ContainsAny(plain, "xXeEpP_"):
		return 0, told(quoted(text) + " is not read as a number. Type one, such as 12.5.")
	}
	return v, nil
}

func positiveNumber(text string) (float64, error) {
	v, err := parseNumber(text)
	if err == nil && v < 0 {
		return 0, told(quoted(text) + " is below zero. Type a number from 0 up.")
	}
	return v, err
}

// parseWithUnit reads a number and a unit out of units; without one it is in
// the unit called bare.
func parseWithUnit(text, bare string, units map[string]float64) (float64, error) {
	number, unit := splitUnit(text)
	v, err := positiveNumber(number)
	if err != nil {
		return 0, err
	}
	if unit == "" {
		unit = bare
	}
	size, ok := units[strings.ToLower(strings.TrimSuffix(unit, "."))]
	if !ok {
		return 0, told(quoted(unit) + " is not a unit known here. Type a number in " + bare + ", or with its unit, such as 100 kg or 220 lb.")
	}
	return v * size, nil
}

// splitUnit parts a typed quantity into its number and its unit.
func splitUnit(text string) (number, unit string) {
	text = strings.TrimSpace(text)
	i := strings.IndexFunc(text, func(r rune) bool { return unicode.IsLetter(r) || r == '°' })
	if i < 0 {
		return text, ""
	}
	return strings.TrimSpace(text[:i]), strings.TrimSpace(text[i:])
}

// quoted sets what was typed between quotation marks, cut to what fits.
func quoted(text string) string {
	runes := []rune(strings.TrimSpace(text))
	if len(runes) > 24 {
		runes = append(runes[:23], '…')
	}
	return "“" + string(runes) + "”"
}
