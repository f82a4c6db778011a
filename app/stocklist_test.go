package app

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestListOfSheets(t *testing.T) {
	b := openBench(t, t.TempDir())
	b.desk.takeList(strings.NewReader("material,thickness,length,width,on hand\nbirch-plywood,9.2,1900,800,2\n"))
	b.settle()
	if stock := b.session.Now().Design.Stock; len(stock) != 1 || stock[0].Length != 1900 || stock[0].OnHand != 2 {
		t.Fatalf("the stock is %+v", stock)
	}
	if text := b.dialogText(); !strings.Contains(text, "One kind of sheet is on your list now") {
		t.Errorf("it says %q", text)
	}
	b.desk.win.Canvas().Overlays().Top().Hide()
	b.desk.takeList(strings.NewReader("material,thickness,length,width\nbirch-plywood,thick,1900,800\n"))
	b.settle()
	if text := b.dialogText(); !strings.Contains(text, "line 2, column 2") {
		t.Errorf("of a cell that cannot be read it says %q", text)
	}
	if n := len(b.session.Now().Design.Stock); n != 1 {
		t.Errorf("a list that cannot be read leaves %d kinds of sheets; want 1", n)
	}
}

func TestPartsFromTheWindow(t *testing.T) {
	b := openBench(t, t.TempDir())
	folder := filepath.Join(t.TempDir(), "parts")
	b.desk.exportPartsTo(folder, b.session.Now())
	b.settle()
	found, err := os.ReadDir(folder)
	if err != nil || len(found) < 6 {
		t.Fatalf("%d files: %v", len(found), err)
	}
	if text := b.dialogText(); !strings.Contains(text, "written to "+folder) {
		t.Errorf("it says %q", text)
	}
	if text := exportedText("there", exportedFiles{written: []string{"a"}, told: []string{"No sheet is listed."}, older: []string{"part-x.svg"}}); !strings.Contains(text, "part-x.svg. Do not cut from them.") || !strings.Contains(text, "No sheet is listed.") {
		t.Errorf("of older files it says %q", text)
	}
}
