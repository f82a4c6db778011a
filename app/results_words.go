package app

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"flatwright/engine"
	"flatwright/engine/length"
)

// fig prints a figure with the three digits that all results have.
func fig(v float64) string { return length.Number(v, 3) }

// percent prints a share of one.
func percent(share float64) string { return length.Number(share*100, 2) + " %" }

// superscript writes an exponent in raised digits.
func superscript(n int) string {
	raised := map[rune]rune{'-': '⁻', '0': '⁰', '1': '¹', '2': '²', '3': '³', '4': '⁴', '5': '⁵', '6': '⁶', '7': '⁷', '8': '⁸', '9': '⁹'}
	return strings.Map(func(r rune) rune { return raised[r] }, strconv.Itoa(n))
}

// powerOfTen prints a large figure as 7.2 × 10¹⁰.
func powerOfTen(v float64) string {
	if !(math.Abs(v) >= 1e5) || math.IsInf(v, 0) {
		return fig(v)
	}
	power := int(math.Floor(math.Log10(math.Abs(v))))
	mantissa := length.Number(v/math.Pow10(power), 3)
	if mantissa == "10" {
		mantissa, power = "1", power+1
	}
	return mantissa + " × 10" + superscript(power)
}

// rigidityText prints a bending or torsional stiffness given in N·mm².
func rigidityText(v float64, f length.Format) string {
	if f.Imperial {
		return powerOfTen(v/length.PoundForce/(length.Inch*length.Inch)) + " lbf·in²"
	}
	return powerOfTen(v) + " N·mm²"
}

// springText prints a stiffness under a load given in N/mm.
func springText(v float64, f length.Format) string {
	if f.Imperial {
		return fig(v/length.PoundForce*length.Inch) + " lbf/in"
	}
	return fig(v) + " N/mm"
}

// springStep is the length that a stiffness under a load is told for.
func springStep(f length.Format) string {
	if f.Imperial {
		return "inch"
	}
	return "millimetre"
}

// signed prints a change with its sign in front, in the words of print.
func signed(v float64, print func(float64) string) string {
	if v > 0 {
		return "+" + print(v)
	}
	return print(v)
}

// countWords are small numbers in words.
var countWords = []string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"}

// countOf prints how many of a thing there are: "one person", "12 people".
func countOf(n int, one, many string) string {
	word := strconv.Itoa(n)
	if n >= 0 && n < len(countWords) {
		word = countWords[n]
	}
	if n == 1 {
		return word + " " + one
	}
	return word + " " + many
}

// personWeight is what one person counts for when a force is told in everyday
// words, in kg. Common practice, no source: a grown person with tools.
const personWeight = 100

// everydayForce tells a force in things one knows. The weights of the things
// are common practice, no source.
func everydayForce(newtons float64) string {
	kg := newtons / engine.Gravity
	switch {
	case !(kg >= 2) || math.IsInf(kg, 0):
		return ""
	case kg < 6:
		return "about a large hand plane"
	case kg < 17:
		return "about a bucket of water"
	case kg < 35:
		return "about a bag of cement"
	case kg < 70:
		return "about half a person"
	case kg < 1000:
		return "about " + countOf(int(math.Round(kg/personWeight)), "person", "people")
	}
	return "about " + countOf(int(math.Round(kg/1000)), "small car", "small cars")
}

// forceText prints a force in newtons and in the weight that presses so hard,
// beside its everyday word.
func forceText(newtons float64, f length.Format) string {
	weight := length.Mass(newtons/engine.Gravity, f)
	words := []string{length.Force(newtons, length.Format{}), weight}
	if everyday := everydayForce(newtons); everyday != "" {
		words = append(words, everyday)
	}
	return strings.Join(words, " · ")
}

// placeText says where on the top a point is.
func placeText(x, y float64, f length.Format) string {
	return f.String(x) + " from the left end, " + f.String(y) + " from the front edge"
}

// sagShares tells how bending, shear and twist share the sag.
func sagShares(c engine.CaseResult) string {
	type share struct {
		value float64
		name  string
	}
	shares := []share{{c.Bending, "bending of the panel"}, {c.Shear, "shear in the ribs"}, {c.Twist, "twist"}}
	slices.SortStableFunc(shares, func(a, b share) int {
		switch {
		case a.value > b.value:
			return -1
		case a.value < b.value:
			return 1
		}
		return 0
	})
	var words []string
	for _, s := range shares {
		if s.value >= 0.005 {
			words = append(words, percent(s.value)+" "+s.name)
		}
	}
	if len(words) == 0 {
		return ""
	}
	sentence := "Of it " + strings.Join(words, ", ") + "."
	switch shares[0].name {
	case "bending of the panel":
		return sentence + " Thicker skins or a deeper core help most."
	case "shear in the ribs":
		return sentence + " More or thicker ribs help most; thicker skins do little."
	}
	return sentence + " Closed edges and support nearer the load help most."
}

// minutesText prints a duration range: "20 to 30 min", "3 to 5 h", "2 days".
func minutesText(low, high float64) string {
	unit, per := "min", 1.0
	switch {
	case high >= 2*24*60:
		unit, per = "days", 24*60
	case high >= 120:
		unit, per = "h", 60
	}
	a, b := length.Number(low/per, 2), length.Number(high/per, 2)
	if a == b {
		return a + " " + unit
	}
	return a + " to " + b + " " + unit
}

// clockText prints a time in [engine.ClockLayout] for people; day says whether
// the day is wanted too. What is not a time is printed as it is.
func clockText(clock string, day bool) string {
	t, err := time.Parse(engine.ClockLayout, clock)
	switch {
	case err != nil:
		return clock
	case day:
		return engine.DayText(t)
	}
	return engine.ClockText(t)
}

// clockSpan prints from when to when, with the day where it changes.
func clockSpan(from, to string) string {
	a, err1 := time.Parse(engine.ClockLayout, from)
	b, err2 := time.Parse(engine.ClockLayout, to)
	if err1 != nil || err2 != nil {
		return ""
	}
	sameDay := a.Format(time.DateOnly) == b.Format(time.DateOnly)
	return clockText(from, true) + " to " + clockText(to, !sameDay)
}
