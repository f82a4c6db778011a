package catalog

import (
	"errors"
	"io/fs"
	"reflect"
	"strings"
	"testing"
	"testing/fstest"
)

// small is a catalogue of one board, one wood and one glue that reads well. The
// figures are made up.
func small() map[string]string {
	figures := func(key string) string {
		var b strings.Builder
		for _, f := range sheetFields {
			v := "0.1"
			switch {
			case f.zero && f.unit == "MPa": // ply moduli
				continue
			case f.unit == "MPa", f.unit == "kg/m3":
				v = "500"
			case f.unit == "1/%":
				v = "0.001"
			}
			b.WriteString(key + "," + f.name + ",," + v + "," + f.unit + ",,made up\n")
		}
		return b.String()
	}
	header := "material,field,above,value,unit,as,source\n"
	var glue strings.Builder
	for _, f := range glueFields {
		v := "10,20"
		if f.one != nil {
			v = "10,"
			if f.name == "maxTemp" {
				v = "30,"
			}
		}
		glue.WriteString("paste," + f.name + "," + v + "," + f.unit + ",,made up\n")
	}
	return map[string]string{
		"kinds.csv": "kind,field,value,source\nslab,name,Slab,\nslab,kmod1,0.1 0.2 0.3 0.4 0.5,made up\nslab,kmod2,- - - 0.4 0.5,made up\n" +
			"slab,kdef,0.5 -,made up\nslab,gammaM,1.5,made up\nslab,slot,notch,made up\nslab,kn,5,made up\n" +
			"slab,shearLagSpan,0.1,made up\nslab,buckleAlong,20,made up\nslab,buckleAcross,25,made up\n",
		"materials.csv":   header + "board,name,,Board,,,\nboard,kind,,slab,,,\nboard,note,,Thin.,,,\n" + figures("board"),
		"woods.csv":       header + "stick,name,,Stick,,,\nstick,kind,,slab,,,\n" + figures("stick"),
		"thicknesses.csv": "material,nominal,actual,system,plies,layers,source\nkind:slab,10 mm,9.9,metric,,,made up\nboard,1/2 in,12,imperial,3,3 6 3,made up\n",
		"glues.csv":       "glue,field,low,high,unit,as,source\npaste,name,Paste,,,,\npaste,note,Thick.,,,,\npaste,halvesPer10,yes,,,,made up\n" + glue.String(),
	}
}

// folder turns file contents into a file system.
func folder(files map[string]string) fs.FS {
	m := fstest.MapFS{}
	for name, text := range files {
		m[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return m
}

func TestParseSmall(t *testing.T) {
	t.Parallel()
	c, err := Parse(folder(small()))
	if err != nil {
		t.Fatal(err)
	}
	s, _ := c.Sheet("board")
	if s.Name != "Board" || s.Note != "Thin." || s.Solid || s.Density != 500 || s.Sources["nu"] != "made up" {
		t.Errorf("board: %+v", s)
	}
	want := []Thickness{{Nominal: "10 mm", Actual: 9.9, Source: "made up"},
		{Nominal: "1/2 in", Actual: 12, Imperial: true, Plies: 3, Layers: []float64{3, 6, 3}, Source: "made up"}}
	if !reflect.DeepEqual(s.Thicknesses, want) {
		t.Errorf("thicknesses %+v; want %+v", s.Thicknesses, want)
	}
	if w, _ := c.Sheet("stick"); !w.Solid || len(w.Thicknesses) != 1 {
		t.Errorf("stick: %+v", w)
	}
	g, _ := c.Glue("paste")
	if g.Spread != (Range{10, 20}) || g.MinTemp != 10 || !g.HalvesPer10 || g.Note != "Thick." {
		t.Errorf("paste: %+v", g)
	}
	k, _ := c.Kind("slab")
	if k.KMod != [2][5]float64{{.1, .2, .3, .4, .5}, {0, 0, 0, .4, .5}} || k.KDef != [2]float64{.5, 0} || !k.NotchFactor {
		t.Errorf("slab: %+v", k)
	}
}

func TestParseConversions(t *testing.T) {
	t.Parallel()
	files := small()
	replace(t, files, "materials.csv", "board,eAlong,,500,MPa,,made up", "board,eAlong,,500,MPa,with-shear,made up")
	replace(t, files, "materials.csv", "board,eAcross,,500,MPa,,made up", "board,eAcross,,0.5,MPa,of:eAlong,made up")
	replace(t, files, "materials.csv", "board,fRolling,,500,MPa,,made up", "board,fRolling,,10,MPa,mean:0.2,made up\nboard,fRolling,6,9,MPa,,made up\nboard,fRolling,3,8,MPa,,made up")
	replace(t, files, "materials.csv", "board,swellAlong,,0.001,1/%,,made up", "board,swellAlong,,0.0015,1/%,over:12,made up")
	c, err := Parse(folder(files))
	if err != nil {
		t.Fatal(err)
	}
	s, _ := c.Sheet("board")
	near(t, "raised by 10 %", s.EAlong, 550, 1e-9)
	near(t, "half of it", s.EAcross, 275, 1e-9)
	near(t, "5th percentile", s.FRolling, 7.0796, 5e-5) // by hand, see TestCharacteristic
	near(t, "over 12 %", s.SwellAlong, 0.000125, 1e-12)
	want := []Step{{3, map[string]float64{"fRolling": 8}}, {6, map[string]float64{"fRolling": 9}}}
	if !reflect.DeepEqual(s.Steps, want) {
		t.Errorf("steps %v; want %v", s.Steps, want)
	}
	for name, words := range map[string]string{"eAlong": "printed as 500, raised", "eAcross": "0.5 of eAlong", "fRolling": "mean 10 lowered", "swellAlong": "over 12 %", "fRolling above 6 mm": "made up"} {
		if !strings.Contains(s.Sources[name], words) {
			t.Errorf("%s: source %q does not say %q", name, s.Sources[name], words)
		}
	}
}

// replace swaps old for new in one file, where it must stand once.
func replace(t *testing.T, files map[string]string, file, old, new string) {
	t.Helper()
	if strings.Count(files[file], old) != 1 {
		t.Fatalf("%s has %q %d times; want once", file, old, strings.Count(files[file], old))
	}
	files[file] = strings.Replace(files[file], old, new, 1)
}

func TestParseMalformed(t *testing.T) {
	t.Parallel()
	const m, k, th, g, w = "materials.csv", "kinds.csv", "thicknesses.csv", "glues.csv", "woods.csv"
	for _, c := range []struct {
		name, file, old, new string
		line, column         int
		words                string
	}{
		{"not a number", m, "board,density,,500", "board,density,,5oo", 5, 16, `"5oo" is not a number`},
		{"NaN", m, "board,density,,500", "board,density,,NaN", 5, 16, "not a number"},
		{"infinite", m, "board,density,,500", "board,density,,1e999", 5, 16, "not a number"},
		{"negative", m, "board,density,,500", "board,density,,-500", 5, 16, "more than 0"},
		{"zero", m, "board,eAlong,,500", "board,eAlong,,0", 6, 15, "more than 0"},
		{"far too much", m, "board,eAlong,,500", "board,eAlong,,5e9", 6, 15, "under 1e+06"},
		{"wrong unit", m, "board,density,,500,kg/m3", "board,density,,500,lb", 5, 20, `in kg/m3, not "lb"`},
		{"no source", m, "board,density,,500,kg/m3,,made up", "board,density,,500,kg/m3,,", 5, 27, "no source"},
		{"unknown figure", m, "board,density", "board,colour", 5, 7, `no figure "colour"`},
		{"given twice", m, "board,eAcross", "board,eAlong", 7, 7, "given twice"},
		{"no key", m, "board,density", ",density", 5, 1, "no key"},
		{"name twice", m, "board,note,,Thin.", "board,name,,Thin.", 4, 13, "given twice"},
		{"empty name", m, "board,name,,Board", "board,name,,", 2, 13, "nothing here"},
		{"unknown kind", m, "board,kind,,slab", "board,kind,,slob", 3, 13, `no kind "slob"`},
		{"unknown conversion", m, "board,density,,500,kg/m3,", "board,density,,500,kg/m3,about", 5, 26, "not a way to read a figure"},
		{"bad conversion", m, "board,density,,500,kg/m3,", "board,density,,500,kg/m3,mean:x", 5, 26, "needs a number"},
		{"share of a later figure", m, "board,density,,500,kg/m3,", "board,density,,500,kg/m3,of:nu", 5, 26, "above this line"},
		{"share of nothing", m, "board,density,,500,kg/m3,", "board,density,,500,kg/m3,of:", 5, 26, "above this line"},
		{"mean of a negative", m, "board,density,,500,kg/m3,", "board,density,,-5,kg/m3,mean:0.1", 5, 16, "must be a number"},
		{"step before its figure", m, "board,density,,500", "board,density,5,500", 5, 7, "first be given"},
		{"step twice", m, "board,eAcross,,500", "board,eAlong,5,500,MPa,,x\nboard,eAlong,5,500,MPa,,x\nboard,eAcross,,500", 8, 7, "above 5 mm is given twice"},
		{"step at no number", m, "board,eAcross,,500", "board,eAlong,x,500,MPa,,x\nboard,eAcross,,500", 7, 14, "not a number"},
		{"step at nothing", m, "board,eAcross,,500", "board,eAlong,-1,500,MPa,,x\nboard,eAcross,,500", 2, 1, "more than 0 mm"},
		{"figure missing", m, "board,nu,,0.1,1,,made up\n", "", 2, 1, "nu is missing"},
		{"modulus missing", m, "board,gEdge,,500,MPa,,made up\n", "", 2, 1, "gEdge"},
		{"moduli beside plies", m, "board,nu,", "board,ePlyAlong,,900,MPa,,x\nboard,ePlyAcross,,30,MPa,,x\nboard,nu,", 2, 1, "follows from its plies"},
		{"too few cells", m, "board,density,,500,kg/m3,,made up", "board,density,,500", 5, 1, "wrong number of fields"},
		{"bare quote", m, "board,density,,500", "board,density,,5\"00", 5, 17, `bare "`},
		{"wrong header", m, "field,above", "fields,above", 1, 1, "the first line must be"},
		{"key in both files", w, "stick,name", "board,name", 2, 1, "in materials.csv already"},
		{"no rows", g, small()[g], "glue,field,low,high,unit,as,source\n", 1, 1, "no rows"},
		{"empty file", g, small()[g], "", 1, 1, "no rows"},
		{"unknown material", th, "board,1/2 in", "plank,1/2 in", 3, 1, `no material "plank"`},
		{"no thickness of it", th, "kind:slab,10 mm", "board,10 mm", 2, 1, "stick has no thicknesses"},
		{"thickness twice", th, "board,1/2 in", "board,10 mm", 3, 7, "given twice"},
		{"thickness no number", th, "9.9", "thin", 2, 17, "not a number"},
		{"thickness zero", th, "9.9", "0", 2, 17, "from 0.01 to 1000 mm"},
		{"neither system", th, "imperial", "royal", 3, 17, "metric or imperial"},
		{"nominal missing", th, "1/2 in", "", 3, 7, "nothing here"},
		{"plies no number", th, "imperial,3,", "imperial,three,", 3, 26, "not a number of plies"},
		{"plies without end", th, "imperial,3,", "imperial,3000000,", 3, 14, "from 0 to 200"},
		{"layers of another count", th, "3 6 3", "3 6", 3, 14, "3 plies"},
		{"layer no number", th, "3 6 3", "3 x 3", 3, 28, "not a number above 0"},
		{"layer dash", th, "3 6 3", "3 - 3", 3, 14, "Each ply"},
		{"thickness without source", th, "3 6 3,made up", "3 6 3,", 3, 34, "no source"},
		{"kmod too few", k, "0.1 0.2 0.3 0.4 0.5", "0.1 0.2", 3, 12, "5 numbers are wanted here, not 2"},
		{"kmod falls", k, "0.1 0.2 0.3", "0.1 0.3 0.2", 3, 12, "must not fall"},
		{"kmod negative", k, "0.1 0.2", "-0.1 0.2", 3, 12, "not a number above 0"},
		{"kind field unknown", k, "slab,kn,5", "slab,km,5", 8, 6, `no field "km"`},
		{"kind field twice", k, "slab,buckleAlong", "slab,kn", 10, 6, "given twice"},
		{"kind field missing", k, "slab,kn,5,made up\n", "", 2, 1, "kn is missing"},
		{"kind without name", k, "slab,name,Slab,\n", "", 2, 1, "no name"},
		{"kind without key", k, "slab,kn", ",kn", 8, 1, "no key"},
		{"kind without source", k, "slab,kn,5,made up", "slab,kn,5,", 8, 11, "no source"},
		{"kind empty", k, "slab,kn,5", "slab,kn,-", 8, 9, "more than 0"},
		{"slot unknown", k, "notch", "half", 7, 11, "notch or net"},
		{"kind name twice", k, "slab,kn,5", "slab,name,5", 8, 11, "given twice"},
		{"glue figure unknown", g, "paste,spread", "paste,smell", 5, 7, `no figure "smell"`},
		{"glue no number", g, "paste,spread,10", "paste,spread,ten", 5, 14, "not a number"},
		{"glue zero", g, "paste,spread,10", "paste,spread,0", 5, 14, "more than 0"},
		{"glue range turned", g, "paste,spread,10,20", "paste,spread,10,2", 5, 17, "2 is under 10"},
		{"glue range bad", g, "paste,spread,10,20", "paste,spread,10,x", 5, 17, "not a number"},
		{"glue range where one is meant", g, "paste,minTemp,10,", "paste,minTemp,10,20", 10, 18, "single figure"},
		{"glue wrong unit", g, "20,g/m2", "20,oz", 5, 20, "in g/m2"},
		{"glue no source", g, "g/m2,,made up", "g/m2,,", 5, 26, "no source"},
		{"glue conversion", g, "g/m2,,made up", "g/m2,of:spread,x", 5, 25, "above this line"},
		{"glue too cold to set", g, "paste,maxTemp,30", "paste,maxTemp,9", 2, 1, "not under maxTemp"},
		{"glue yes or no", g, "halvesPer10,yes", "halvesPer10,maybe", 4, 19, "yes or no"},
		{"glue without halves", g, "paste,halvesPer10,yes,,,,made up\n", "", 2, 1, "halvesPer10 is missing"},
		{"glue figure missing", g, "paste,spread,10,20,g/m2,,made up\n", "", 2, 1, "spread is missing"},
		{"glue figure twice", g, "paste,openTime", "paste,spread", 6, 7, "given twice"},
		{"glue without name", g, "paste,name,Paste,,,,\n", "", 2, 1, "no name"},
		{"glue without key", g, "paste,spread", ",spread", 5, 1, "no key"},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			files := small()
			replace(t, files, c.file, c.old, c.new)
			got, err := Parse(folder(files))
			var at *RowError
			if !errors.As(err, &at) {
				t.Fatalf("Parse = %v, %v; want a RowError", got, err)
			}
			if at.Line != c.line || at.Column != c.column || !strings.Contains(at.Message, c.words) {
				t.Errorf("%v; want %d:%d, with %q", err, c.line, c.column, c.words)
			}
			if !strings.HasPrefix(err.Error(), at.File+":") || !strings.HasSuffix(at.File, ".csv") {
				t.Errorf("%v does not begin with its file", err)
			}
		})
	}
}

func TestParseMissingFile(t *testing.T) {
	t.Parallel()
	for name := range small() {
		files := small()
		delete(files, name)
		if _, err := Parse(folder(files)); !errors.Is(err, fs.ErrNotExist) {
			t.Errorf("without %s: %v; want that it does not exist", name, err)
		}
		// A folder in its place opens but cannot be read.
		files[name+"/x"] = ""
		if _, err := Parse(folder(files)); err == nil {
			t.Errorf("a folder named %s was read", name)
		}
	}
}

// FuzzParse feeds files that are not what they should be: whatever is read must
// hold together, and nothing may panic.
func FuzzParse(f *testing.F) {
	files := small()
	f.Add(files["materials.csv"], files["thicknesses.csv"], files["kinds.csv"], files["glues.csv"])
	f.Add("\"", "", "a,b\n", "glue,field,low,high,unit,as,source\n\n#x\n,,,,,,")
	f.Add(strings.Replace(files["materials.csv"], "board,eAlong,,500", "board,ePlyAlong,,1e-300", 1), files["thicknesses.csv"], files["kinds.csv"], files["glues.csv"])
	f.Fuzz(func(t *testing.T, materials, thicknesses, kinds, glues string) {
		files := small()
		files["materials.csv"], files["thicknesses.csv"], files["kinds.csv"], files["glues.csv"] = materials, thicknesses, kinds, glues
		c, err := Parse(folder(files))
		if err != nil {
			if c != nil {
				t.Errorf("both a catalogue and %v", err)
			}
			return
		}
		for _, s := range c.all() {
			if faults := s.Validate(); len(faults) > 0 {
				t.Errorf("%s was read with %v", s.Key, faults)
			}
			if got, ok := c.Sheet(s.Key); !ok || got.Key != s.Key {
				t.Errorf("%q cannot be found again", s.Key)
			}
			for _, th := range s.Thicknesses {
				if faults := s.At(th.Actual).Validate(); len(faults) > 0 {
					t.Errorf("%s at %g mm: %v", s.Key, th.Actual, faults)
				}
			}
		}
		for _, g := range c.Glues {
			if !(g.Spread.Low > 0 && g.Spread.Low <= g.Spread.High) {
				t.Errorf("%s spreads %v", g.Key, g.Spread)
			}
		}
	})
}
