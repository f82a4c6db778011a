package engine

import (
	"reflect"
	"testing"
)

// stocked is the plain top with every sort of sheet.
func stocked() Design {
	d := plainTop()
	d.Prices = []Price{{"plain", 9, 50, 2440, 1220}, {"plain", 12, 64, 2440, 1220}}
	d.Stock = []Stock{
		{Name: "behind the door", Material: "plain", Thickness: 9, Length: 900, Width: 610, OnHand: 2, Offcut: true},
		{Material: "plain", Thickness: 9.04, Length: 2440, Width: 1220, OnHand: 1},
		{Material: "plain", Thickness: 6, Length: 1220, Width: 2440, Price: 41, Across: true},
	}
	d.Cutting = Cutting{Kerf: 2.4, Trim: 5, Stages: 3, Carry: 20, Free: []string{"T", "K"}}
	return d
}

func TestStockInTheFile(t *testing.T) {
	t.Parallel()
	d := stocked()
	data, err := Encode(d)
	if err != nil {
		t.Fatal(err)
	}
	got, err := Decode(data)
	if err != nil || !reflect.DeepEqual(got, d) {
		t.Errorf("Decode(Encode(d)) = %+v, %v; want %+v", got, err, d)
	}
	c := d.Clone()
	c.Stock[0].OnHand, c.Cutting.Free[0] = 7, "B"
	if d.Stock[0].OnHand != 2 || d.Cutting.Free[0] != "T" {
		t.Error("Clone shares its stock with the original")
	}
	if problems := problemsOf(d); len(problems) > 0 {
		t.Errorf("Validate = %v; want nothing", problems)
	}
}

// An older file has prices alone: they are its stock, as many sheets as are
// bought.
func TestPricesAreStock(t *testing.T) {
	t.Parallel()
	d := stocked()
	d.Stock, d.Cutting = nil, Cutting{}
	want := []Stock{{Material: "plain", Thickness: 9, Length: 2440, Width: 1220, Price: 50}, {Material: "plain", Thickness: 12, Length: 2440, Width: 1220, Price: 64}}
	if got := d.Sheets(); !reflect.DeepEqual(got, want) {
		t.Errorf("Sheets = %+v; want %+v", got, want)
	}
	if d.Cutting.SawCut() != SawKerf {
		t.Errorf("SawCut = %g mm; want %g", d.Cutting.SawCut(), SawKerf)
	}
}

func TestSheets(t *testing.T) {
	t.Parallel()
	d := stocked()
	s := d.Sheets()
	// The 9 mm sheet is listed in both: once, at the price of the list of prices.
	// The offcut takes no price. The 12 mm sheet comes from the prices alone.
	if len(s) != 4 || s[0].Price != 0 || s[1].Price != 50 || s[2].Price != 41 || s[3].Thickness != 12 || s[3].Price != 64 {
		t.Errorf("Sheets = %+v", s)
	}
	if d.Stock[1].Price != 0 {
		t.Error("Sheets changed the design")
	}
	if of := d.SheetsOf("plain", 9); len(of) != 2 {
		t.Errorf("SheetsOf 9 mm = %+v; want the offcut and the whole sheet", of)
	}
	// 2440 − 2·5 and 1220 − 2·5; the third lies the other way round.
	for i, want := range [][2]float64{{890, 600}, {2430, 1210}, {2430, 1210}} {
		if along, across := s[i].Usable(d.Cutting); along != want[0] || across != want[1] {
			t.Errorf("Usable of sheet %d = %g × %g; want %g × %g", i, along, across, want[0], want[1])
		}
	}
	if along, across := (Stock{Length: 90, Width: 200}).Usable(Cutting{Trim: 50}); along != 0 || across != 100 {
		t.Errorf("Usable of a strip narrower than its trim = %g × %g; want 0 × 100", along, across)
	}
}

// The cost by area goes on working, and takes the stock's prices where there
// are no others.
func TestCostByStock(t *testing.T) {
	t.Parallel()
	d := handTop()
	d.Prices = []Price{{"plain", 9, 50, 2500, 1250}, {"plain", 12, 60, 2500, 1250}}
	want := compute(t, d).Cost
	d.Stock = []Stock{{Material: "plain", Thickness: 12, Length: 800, Width: 300, Price: 3, OnHand: 1, Offcut: true}}
	for _, p := range d.Prices {
		d.Stock = append(d.Stock, Stock{Material: p.Material, Thickness: p.Thickness, Length: p.Length, Width: p.Width, Price: p.Sheet})
	}
	d.Prices = nil
	if got := compute(t, d).Cost; !reflect.DeepEqual(got, want) {
		t.Errorf("cost by stock %+v; by prices %+v", got, want)
	}
}
