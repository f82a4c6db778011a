package engine

import (
	"bytes"
	"errors"
	"io"
	"reflect"
	"strings"
	"testing"

	"flatwright/engine/length"
)

// withPlain is a design that knows the material "plain".
func withPlain() Design {
	d := plainTop()
	return d
}

func readStock(text string, f length.Format) (StockList, error) {
	return ReadStock(strings.NewReader(text), withPlain(), f)
}

func TestReadStock(t *testing.T) {
	t.Parallel()
	mdf := Stock{Material: "mdf", Thickness: 12, Length: 2440, Width: 1220}
	priced := mdf
	priced.Price, priced.OnHand = 64.5, 2
	offcut := Stock{Name: "behind the door", Material: "birch-plywood", Thickness: 9.2, Length: 900, Width: 610, OnHand: 1, Offcut: true, Across: true}
	for _, tc := range []struct {
		name, text string
		format     length.Format
		want       []Stock
	}{
		{"what must be there", "material,thickness,length,width\nmdf,12,2440,1220\n", millimetre, []Stock{mdf}},
		{"any order, heads with units and capitals", "Width (mm);Length mm;THICKNESS;Material\n1220;2440;12;MDF", millimetre, []Stock{mdf}},
		{"all columns", "name,material,thickness mm,length mm,width mm,price,on hand,offcut,face grain\n,mdf,12,2440,1220,64.50,2,,\nbehind the door,\"Birch plywood, all birch\",9.2,900,610,,,yes,across\n",
			millimetre, []Stock{priced, offcut}},
		{"semicolons and decimal commas", "material;thickness;length;width;price;count\nmdf;12,0;2440;1220;64,5;2\n", millimetre, []Stock{priced}},
		{"tabs, byte order mark, empty rows", "\ufeff\nmaterial\tthickness\tlength\twidth\n\t\t\t\nmdf\t12\t2440\t1220\n\n", millimetre, []Stock{mdf}},
		{"a currency's sign", "material,thickness,length,width,price,quantity\nmdf,12,2440,1220,€ 64.50,2\n", millimetre, []Stock{priced}},
		// 12 mm is 0.472 441 in: 1/2 in is 12.7 mm, 8 ft 2438.4, 48 in 1219.2.
		{"inches by the head", "material,thickness in,length ft,width inches\nmdf,1/2,8,48\n", millimetre, []Stock{{Material: "mdf", Thickness: 12.7, Length: 2438.4, Width: 1219.2}}},
		{"inches by the person", "material,thickness,length,width\nmdf,1/2,96,48\n", sixteenths, []Stock{{Material: "mdf", Thickness: 12.7, Length: 2438.4, Width: 1219.2}}},
		{"a unit in the cell goes before that of the head", "material,thickness in,length in,width in\nmdf,12 mm,2440 mm,122 cm\n", sixteenths, []Stock{mdf}},
		{"a short row", "material,thickness,length,width,price,name\nmdf,12,2440,1220\n", millimetre, []Stock{mdf}},
		{"the design's own material", "material,thickness,length,width\nplain,9,2440,1220\n", millimetre, []Stock{{Material: "plain", Thickness: 9, Length: 2440, Width: 1220}}},
	} {
		got, err := readStock(tc.text, tc.format)
		if err != nil || !reflect.DeepEqual(got.Sheets, tc.want) {
			t.Errorf("%s: %+v, %v; want %+v", tc.name, got.Sheets, err, tc.want)
		}
	}
	got, err := readStock("material,colour,thickness,length,width,,rack\nmdf,brown,12,2440,1220,,3\n", millimetre)
	if err != nil || strings.Join(got.Ignored, " ") != "colour rack" {
		t.Errorf("ignored %q, %v; want colour and rack", got.Ignored, err)
	}
}

// Where it is and what would help, for everything that people get wrong.
func TestReadStockTells(t *testing.T) {
	t.Parallel()
	const heads = "material,thickness,length,width,price,on hand,offcut,face grain\n"
	for _, tc := range []struct{ name, text, want string }{
		{"nothing", "", "The list is empty."},
		{"only heads", heads, "no sheets below"},
		{"a workbook", "PK\x03\x04rubbish", "save the sheet as CSV"},
		{"another alphabet", "material\n\xff\xfe", "UTF-8"},
		{"too long", strings.Repeat("a", maxStockFile+1), "over 1 MB"},
		{"no heads", "mdf,12,2440,1220\n", "line 1: The first row has to name the columns, and there is none for: material, thickness, length, width"},
		{"a head is missing", "material,thickness,length\n", "none for: width"},
		{"a head twice", "material,thickness,length,width,thick\n", "line 1, column 5 (thick): There is a second column for the thickness"},
		{"a quotation mark alone", heads + "mdf,12,2440,1220\n\"mdf,12", "line 3: There is a quotation mark"},
		{"a quotation mark for inches", heads + "mdf,1/2\",96\",48\"\n", "line 2: There is a quotation mark"},
		{"no material", heads + ",12,2440,1220\n", "line 2, column 1 (material): No material is named"},
		{"half a material", heads + "birch ply,12,2440,1220\n", "line 2, column 1 (material): “birch ply” is not the name of a material here. Type the whole name: “Birch plywood, all birch”."},
		{"no such material", heads + "\nmdf,12,2440,1220\nunobtainium,12,2440,1220\n", "line 4, column 1 (material): “unobtainium” is no material here."},
		{"no thickness", heads + "mdf,,2440,1220\n", "line 2, column 2 (thickness): Nothing is typed"},
		{"a length in words", heads + "mdf,12,long,1220\n", "line 2, column 3 (length): "},
		{"a thousand's comma", heads + "mdf,12,\"1,220\",1220\n", "line 2, column 3 (length): “1,220” could be 1.22 or 1220."},
		{"thicker than any", heads + "mdf,1200,2440,1220\n", "line 2, column 2 (thickness): "},
		{"of no length", heads + "mdf,12,0,1220\n", "line 2, column 3 (length): "},
		{"a price in words", heads + "mdf,12,2440,1220,dear\n", "line 2, column 5 (price): “dear” cannot be read as a price. Type a plain number"},
		{"a price of two meanings", heads + "mdf,12,2440,1220,\"1,234\"\n", "line 2, column 5 (price): "},
		{"a price with an exponent", heads + "mdf,12,2440,1220,1e3\n", "line 2, column 5 (price): "},
		{"less than nothing to pay", heads + "mdf,12,2440,1220,-3\n", "line 2, column 5 (price): "},
		{"half a sheet", heads + "mdf,12,2440,1220,,1.5\n", "line 2, column 6 (on hand): “1.5” is no whole number"},
		{"fewer than none", heads + "mdf,12,2440,1220,,-2\n", "line 2, column 6 (on hand): "},
		{"perhaps an offcut", heads + "mdf,12,2440,1220,,,perhaps\n", "line 2, column 7 (offcut): “perhaps” says neither yes nor no"},
		{"grain up", heads + "mdf,12,2440,1220,,,,up\n", "line 2, column 8 (face grain): “up” does not say"},
		{"too many rows", heads + strings.Repeat("mdf,12,2440,1220\n", 1001), "1001 kinds of sheets"},
	} {
		got, err := readStock(tc.text, millimetre)
		var e *CSVError
		if !errors.As(err, &e) || !strings.Contains(err.Error(), tc.want) || len(got.Sheets) > 0 {
			t.Errorf("%s: %+v, %v; want no sheets and %q", tc.name, got.Sheets, err, tc.want)
		}
	}
	// All at once, as many as can be read at a time.
	_, err := readStock(heads+"mdf,x,2440,1220\nmdf,12,y,z\n", millimetre)
	if got := strings.Count(err.Error(), "\n") + 1; got != 3 {
		t.Errorf("%d faults told; want 3:\n%v", got, err)
	}
	_, err = readStock(heads+strings.Repeat("mdf,x,2440,1220\n", 500), millimetre)
	if got := strings.Count(err.Error(), "\n") + 1; got != maxCSVErrors {
		t.Errorf("%d faults told; want %d", got, maxCSVErrors)
	}
}

func TestReadStockThatFails(t *testing.T) {
	t.Parallel()
	broken := io.MultiReader(strings.NewReader("material"), brokenReader{})
	if _, err := ReadStock(broken, withPlain(), millimetre); !errors.Is(err, errUnplugged) {
		t.Errorf("ReadStock = %v; want the reader's own error", err)
	}
}

type brokenReader struct{}

var errUnplugged = errors.New("unplugged")

func (brokenReader) Read([]byte) (int, error) { return 0, errUnplugged }

func TestStockRoundTrip(t *testing.T) {
	t.Parallel()
	d := stocked()
	d.Own[0].Name = "=1+1" // a name that a spreadsheet would compute
	sheets := append(d.Stock, Stock{Name: "'quoted', \"twice\"", Material: "birch-plywood", Thickness: 12.125, Length: 100, Width: 50.5, Price: 3.25, Across: true})
	var b bytes.Buffer
	if err := WriteStock(&b, d, sheets); err != nil {
		t.Fatal(err)
	}
	// Read back whatever unit the person has: the heads say mm.
	for _, f := range []length.Format{millimetre, sixteenths} {
		got, err := ReadStock(bytes.NewReader(b.Bytes()), d, f)
		if err != nil || !reflect.DeepEqual(got.Sheets, sheets) || len(got.Ignored) > 0 {
			t.Errorf("read back %+v, %v; want %+v", got, err, sheets)
		}
	}
}

// FuzzReadStock feeds anything to the reader. What it takes must be a stock that
// a design can have, and must come back when it is written and read again.
func FuzzReadStock(f *testing.F) {
	for _, seed := range []string{
		"material,thickness,length,width\nmdf,12,2440,1220\n",
		"name;material;thickness in;length ft;width mm;price;on hand;offcut;face grain\n'=a;Birch plywood, all birch;1/2;8;1220;64,50;2;yes;across\n",
		"\ufeffmaterial\tthick\tlength\twidth\nplain\t9\t2440\t1220\n",
		"material,thickness,length,width\n\"mdf",
	} {
		f.Add([]byte(seed))
	}
	d := withPlain()
	f.Fuzz(func(t *testing.T, data []byte) {
		list, err := ReadStock(bytes.NewReader(data), d, millimetre)
		if err != nil {
			var e *CSVError
			if !errors.As(err, &e) || e.Text == "" || len(list.Sheets) > 0 {
				t.Fatalf("error %v with %d sheets; want one that is told to a person, and none", err, len(list.Sheets))
			}
			return
		}
		e := d
		e.Stock = list.Sheets
		if (Result{Problems: problemsOf(e)}).Blocked() {
			t.Fatalf("%+v is taken, and blocks a design", list.Sheets)
		}
		var first, second bytes.Buffer
		if err := WriteStock(&first, d, list.Sheets); err != nil {
			t.Fatal(err)
		}
		again, err := ReadStock(bytes.NewReader(first.Bytes()), d, millimetre)
		if err != nil {
			t.Fatalf("what was read is written as\n%s\nand cannot be read: %v", first.Bytes(), err)
		}
		if err := WriteStock(&second, d, again.Sheets); err != nil || !bytes.Equal(first.Bytes(), second.Bytes()) {
			t.Fatalf("written again it is\n%s\nnot\n%s", second.Bytes(), first.Bytes())
		}
	})
}
