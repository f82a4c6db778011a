package engine

import (
	"fmt"
)

// sourceBed is where the shares that a panel keeps come from.
const sourceBed = "beam theory: parts follow the bed, the glue does not creep; derived"

// bedWorking writes out how much of the bed's shape the panel keeps.
func (d *Design) bedWorking(k KeptShares) []Working {
	var out []Working
	for _, w := range [...]struct {
		key, title, unit, plain string
		k                       Kept
	}{
		{"along", "Bow of the bed kept, along the length", "N·mm²", "Parts that are bent to the bed spring back when they are free, but the closed panel is so much stiffer than its loose parts that little comes back.", k.Along},
		{"across", "Bow of the bed kept, across the width", "N·mm²", "The same across the width.", k.Across},
		{"wind", "Wind of the bed kept", "N·mm³", "A closed box hardly twists, so wind stays. To turn the panel over does not help: a twisted surface fits itself turned over. Shim wind out first.", k.Wind},
	} {
		formula := "both skins at once, or one after the other: 1 − O/C; turned over for the second skin: −1 + (T·(1 + k₁) + S)/C, k₁ = 1 − (O − S)/T"
		turned := fmt.Sprintf("; turned over %s", shareInWords(w.k.TurnedOver))
		if w.key == "wind" {
			formula, turned = "1 − O/C, turned over or not", ""
		}
		out = append(out, Working{Key: "bed." + w.key, Title: w.title, Formula: formula,
			Numbers: fmt.Sprintf("O (loose parts) = %s, S (the second skin of them) = %s, T (ribs and one skin) = %s, C (closed) = %s %s", sci(w.k.Loose), sci(w.k.second()), sci(w.k.OneSkin), sci(w.k.Closed), w.unit),
			Result:  "Kept: " + shareInWords(w.k.Together) + turned + ".",
			Source:  sourceBed, Plain: w.plain})
	}
	return out
}

// second returns the stiffness of the loose second skin, from the share that is
// kept after the first: k₁ = 1 − (O − S)/T.
func (k Kept) second() float64 { return k.Loose - (1-k.AfterFirst)*k.OneSkin }

// shareInWords prints a share of the bed's shape.
func shareInWords(k float64) string {
	if k < 0 {
		return fmt.Sprintf("%.0f %%, the other way round", -100*k)
	}
	return fmt.Sprintf("%.0f %%", 100*k)
}
