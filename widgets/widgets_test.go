package widgets

import (
	"flag"
	"image/color"
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
)

var update = flag.Bool("update", false, "write the markup masters again")

// testTheme is the toolkit's theme with the colours of ours that tests look at.
type testTheme struct{ fyne.Theme }

var testColours = map[fyne.ThemeColorName]color.Color{
	ColorPaper:  color.NRGBA{0xF7, 0xF5, 0xF0, 0xFF},
	ColorSheet:  color.NRGBA{0xFF, 0xFF, 0xFF, 0xFF},
	ColorInk:    color.NRGBA{0x1F, 0x29, 0x33, 0xFF},
	ColorPencil: color.NRGBA{0x52, 0x60, 0x6D, 0xFF},
	ColorAccent: color.NRGBA{0x0B, 0x6E, 0x75, 0xFF},
	ColorGood:   color.NRGBA{0x2F, 0x6F, 0x3E, 0xFF},
	ColorNear:   color.NRGBA{0x8F, 0x52, 0x00, 0xFF},
	ColorOver:   color.NRGBA{0xA8, 0x28, 0x1E, 0xFF},
}

func (t testTheme) Color(name fyne.ThemeColorName, variant fyne.ThemeVariant) color.Color {
	if c, ok := testColours[name]; ok {
		return c
	}
	return t.Theme.Color(name, variant)
}

// app starts the toolkit's test app under our test theme.
func app(t *testing.T) {
	t.Helper()
	a := test.NewTempApp(t)
	a.Settings().SetTheme(testTheme{theme.DefaultTheme()})
}

// window shows object in a window of the given size, without padding.
func window(t *testing.T, object fyne.CanvasObject, width, height float32) fyne.Window {
	t.Helper()
	w := test.NewTempWindow(t, object)
	w.SetPadded(false)
	w.Resize(fyne.NewSize(width, height))
	return w
}

// master compares the markup of w with testdata/name.xml.
func master(t *testing.T, w fyne.Window, name string) {
	t.Helper()
	w.Content().Refresh()
	w.Content().Resize(w.Canvas().Size())
	got := test.RenderToMarkup(w.Canvas())
	file := filepath.Join("testdata", name+".xml")
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatalf("no master: %v", err)
	}
	if got != string(want) {
		t.Errorf("%s differs; run the test with -update and read the diff. Got:\n%s", file, got)
	}
}

// write types text into whatever has the focus. The toolkit's test.Type would
// give the focus once more first, which selects all.
func write(t *testing.T, w fyne.Window, text string) {
	t.Helper()
	f := w.Canvas().Focused()
	if f == nil {
		t.Fatalf("nothing has the focus for %q", text)
	}
	for _, r := range text {
		f.TypedRune(r)
	}
}

// keys sends keys to whatever has the focus.
func keys(t *testing.T, w fyne.Window, names ...fyne.KeyName) {
	t.Helper()
	for _, name := range names {
		f := w.Canvas().Focused()
		if f == nil {
			t.Fatalf("nothing has the focus for %s", name)
		}
		f.TypedKey(&fyne.KeyEvent{Name: name})
	}
}

func TestThemeColor(t *testing.T) {
	a := test.NewTempApp(t)
	a.Settings().SetTheme(theme.DefaultTheme())
	for name := range standIns {
		if c := ThemeColor(name, nil); !visible(c) {
			t.Errorf("under a theme of the toolkit, ThemeColor(%q) = %v; want a colour one can see", name, c)
		}
	}
	variant := a.Settings().ThemeVariant()
	if got, want := ThemeColor(ColorOver, nil), theme.DefaultTheme().Color(theme.ColorNameError, variant); got != want {
		t.Errorf("ThemeColor(over) = %v; want the toolkit's error colour %v", got, want)
	}
	a.Settings().SetTheme(testTheme{theme.DefaultTheme()})
	if got := ThemeColor(ColorOver, nil); got != testColours[ColorOver] {
		t.Errorf("ThemeColor(over) = %v; want the theme's own %v", got, testColours[ColorOver])
	}
}

func TestWrap(t *testing.T) {
	app(t)
	style := fyne.TextStyle{}
	width := func(s string) float32 { return fyne.MeasureText(s, 13, style).Width }
	for _, c := range []struct {
		name, text string
		width      float32
		want       []string
	}{
		{"nothing", "", 100, nil},
		{"one line", "a rib", 100, []string{"a rib"}},
		{"two words on two lines", "lengthwise crosswise", width("lengthwise cross"), []string{"lengthwise", "crosswise"}},
		{"exactly fits", "two ribs", width("two ribs"), []string{"two ribs"}},
		{"long word", "WWWWWW", width("WWWW"), []string{"WWWW", "WW"}},
		{"no room at all", "ab", 1, []string{"a", "b"}},
	} {
		got := wrap(c.text, c.width, 13, style)
		if len(got) != len(c.want) {
			t.Errorf("%s: wrap(%q, %v) = %q; want %q", c.name, c.text, c.width, got, c.want)
			continue
		}
		for i := range got {
			if got[i] != c.want[i] {
				t.Errorf("%s: line %d is %q; want %q", c.name, i, got[i], c.want[i])
			}
		}
	}
}

func TestElide(t *testing.T) {
	app(t)
	style := fyne.TextStyle{}
	text := "person at the middle of the front edge"
	if got := elide(text, 1000, 11, style); got != text {
		t.Errorf("elide with room = %q; want it whole", got)
	}
	got := elide(text, 100, 11, style)
	if w := fyne.MeasureText(got, 11, style).Width; w > 100 || got[len(got)-3:] != "…" {
		t.Errorf("elide to 100 = %q, %v wide; want at most 100 and … at the end", got, w)
	}
}
