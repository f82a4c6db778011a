package engine

import (
	"slices"
	"strings"
	"testing"
)

// Told is every sheet that is wanted and not listed, once each, as soon as any sheet is: plainTop
// needs 9 mm (top skin, eight crosswise ribs), 6 mm (bottom skin) and 12 mm (five lengthwise ribs).
func TestSheetNotListed(t *testing.T) {
	t.Parallel()
	told := func(d Design) (texts []string) {
		for _, p := range compute(t, d).Problems {
			if p.Code == "sheet-not-listed" {
				if p.Severity != Advice || p.Field != "stock" || p.Part == "" {
					t.Errorf("told as %+v", p)
				}
				texts = append(texts, p.Text)
			}
		}
		return texts
	}
	d := plainTop()
	if got := told(d); got != nil {
		t.Errorf("with nothing listed: %q", got)
	}
	d.Stock = []Stock{{Material: "plain", Thickness: 12.4, Length: 2440, Width: 1220, Price: 60}, {Material: "plain", Thickness: 9, Length: 2440, Width: 1220, Price: 50}}
	got := told(d)
	if len(got) != 2 {
		t.Fatalf("told %q; want 6 mm and 12 mm", got)
	}
	for i, want := range [][]string{
		{"Plain sheet 6 mm", "Bottom skin needs one", "2438.4 mm × 1219.2 mm", "without a price", "listed with 9 mm"},
		{"Plain sheet 12 mm", "and 4 more pieces need one", "listed with 12.4 mm"},
	} {
		if slices.ContainsFunc(want, func(w string) bool { return !strings.Contains(got[i], w) }) {
			t.Errorf("told %q; want %q in it", got[i], want)
		}
	}
	d.Stock = append(d.Stock, Stock{Material: "plain", Thickness: 12, Length: 2440, Width: 1220}, Stock{Material: "plain", Thickness: 6, Length: 2440, Width: 1220})
	if got := told(d); got != nil {
		t.Errorf("with all listed: %q", got)
	}
}
