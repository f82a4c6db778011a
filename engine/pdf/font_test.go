package pdf

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/jung-kurt/gofpdf"

	"flatwright/engine/draw"
)

// allSigns are the signs beyond ASCII that screens and paper of this program
// use.
const allSigns = "½ ⅓ ⅔ ¼ ¾ ⅛ ⅜ ⅝ ⅞ ⅙ ″ ′ × ÷ · ± − ≈ ≤ ≥ √ ∅ ⌀ ° ² ³ ⁴ µ ν σ τ θ Δ ● ▲ ■ ◆ → ← ↑ ↓ ✓ ✗ □ – — … “ ” ‘ ’ € £ ä ö ü ß é ñ ø å"

func TestEverySignIsCovered(t *testing.T) {
	t.Parallel()
	page := draw.NewPage("", draw.A4, draw.PaperMetrics(nil))
	page.Text(0, 0, allSigns+" plain text 0123456789", draw.AtLeft, draw.Style{})
	page.Text(0, 0, allSigns+" plain text 0123456789", draw.AtLeft, draw.Style{Bold: true})
	missing, err := Missing(testFonts(t), []draw.Page{*page})
	if err != nil || len(missing) != 0 {
		t.Errorf("missing %q, %v; want none", missing, err)
	}
}

func TestMissing(t *testing.T) {
	t.Parallel()
	page := draw.NewPage("", draw.A4, draw.PaperMetrics(nil))
	page.Text(0, 0, "ok 木 😀", draw.AtLeft, draw.Style{})
	page.Text(0, 0, "木 again ½", draw.AtLeft, draw.Style{Bold: true})
	missing, err := Missing(testFonts(t), []draw.Page{*page})
	if err != nil || !slices.Equal(missing, []rune{'木', '😀'}) {
		t.Errorf("missing %q, %v; want the character and the emoji, once each", missing, err)
	}
	if _, err := Missing(Fonts{}, nil); !errors.Is(err, ErrFont) {
		t.Errorf("error = %v; want ErrFont", err)
	}
}

// Second method: the PDF library reads the same files with code of its own. It
// rounds each advance to a thousandth of the em, and so may differ by half of
// that a sign.
func TestMeasurerAgreesWithPrint(t *testing.T) {
	t.Parallel()
	fonts := testFonts(t)
	measure, err := Measurer(fonts)
	if err != nil {
		t.Fatal(err)
	}
	f := gofpdf.New("P", "mm", "A4", "")
	f.AddUTF8FontFromBytes(family, "", fonts.Regular)
	f.AddUTF8FontFromBytes(family, "B", fonts.Bold)
	signs := []rune(allSigns + "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789.,()/\"'")
	rng := rand.New(rand.NewPCG(1, 1))
	for _, bold := range []bool{false, true} {
		style := ""
		if bold {
			style = "B"
		}
		f.SetFont(family, style, 3.5/25.4*72)
		for range 300 {
			text := make([]rune, 1+rng.IntN(20))
			for i := range text {
				text[i] = signs[rng.IntN(len(signs))]
			}
			got, want := measure(string(text), 3.5, bold), f.GetStringWidth(string(text))
			if math.Abs(got-want) > 3.5*0.0006*float64(len(text)) {
				t.Fatalf("width of %q, bold %v = %g; the library says %g mm", string(text), bold, got, want)
			}
		}
	}
}

// Advances of DejaVu Sans Condensed in thousandths of the em, from the font
// description in the gofpdf module, which another program made and cut to whole
// numbers: A 615, H 677, i 250, 0 572, space 286.
func TestMeasurerKnownWidths(t *testing.T) {
	t.Parallel()
	measure, err := Measurer(testFonts(t))
	if err != nil {
		t.Fatal(err)
	}
	for text, want := range map[string]float64{"A": 615, "H": 677, "i": 250, "0": 572, " ": 286, "A0i": 1437} {
		if got := measure(text, 1000, false); got < want-0.5*float64(len(text)) || got > want+float64(len(text)) {
			t.Errorf("width of %q = %g; want %g and up to a unit a sign more", text, got, want)
		}
	}
	if a, b := measure("Half", 7, false), measure("Half", 14, false); math.Abs(b-2*a) > 1e-12 {
		t.Errorf("twice the size is %g; want %g", b, 2*a)
	}
	if a, b := measure("Half", 7, false), measure("Half", 7, true); !(b > a) {
		t.Errorf("bold is %g wide, regular %g; want bold wider", b, a)
	}
	// What is printed in place of a sign is what is measured.
	if a, b := measure("木\n", 7, false), measure("□ ", 7, false); a != b {
		t.Errorf("a missing sign and a line break are %g wide; want %g", a, b)
	}
	if _, err := Measurer(Fonts{}); !errors.Is(err, ErrFont) {
		t.Errorf("error = %v; want ErrFont", err)
	}
}

func TestPrintable(t *testing.T) {
	t.Parallel()
	fonts, err := readFaces(testFonts(t))
	if err != nil {
		t.Fatal(err)
	}
	for text, want := range map[string]string{
		"plain ½":      "plain ½",
		"a\nb\tc\x00":  "a b c ",
		"木 😀":          "□ □",
		"half\xe2\x82": "half\ufffd\ufffd",
	} {
		if got := fonts.regular.printable(text); got != want {
			t.Errorf("printable(%q) = %q; want %q", text, got, want)
		}
	}
	if got := new(face).printable("x"); got != "?" {
		t.Errorf("a face without signs prints %q; want a question mark", got)
	}
}

// A font cut off anywhere before its widths and signs are read, or with bytes
// changed, gives an error or a face, never a panic.
func TestDamagedFonts(t *testing.T) {
	t.Parallel()
	good := testFonts(t).Regular
	refused := 0
	for n := 0; n < len(good); n += 9973 {
		if _, err := readFace(good[:n]); err != nil {
			refused++
			if !errors.Is(err, ErrFont) {
				t.Fatalf("cut at %d: %v; want ErrFont", n, err)
			}
		}
	}
	if refused < 50 {
		t.Errorf("%d cut fonts refused; want nearly all", refused)
	}
	rng := rand.New(rand.NewPCG(2, 2))
	for range 100 {
		bad := slices.Clone(good)
		for range 20 {
			bad[rng.IntN(600)] = byte(rng.IntN(256)) // the directory
		}
		if f, err := readFace(bad); err == nil && !(f.em > 0) {
			t.Fatal("a face without an em was accepted")
		}
	}
}
