package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"flatwright/widgets"
)

// strip is the head of the window: the acts' words and the button that starts a
// design of one's own, and below them the row of four tiles.
type strip struct {
	tiles   []*widgets.Tile
	start   *widget.Button
	content fyne.CanvasObject
}

// tileKinds are the tiles in their order: how each is made, and the card of
// the results that explains it.
var tileKinds = []struct {
	make func(Snapshot) widgets.TileData
	card string
}{
	{sagTile, "Sag"},
	{weightTile, "Weight and cost"},
	{marginTile, "Margins"},
	{costTile, "Weight and cost"},
}

// newStrip returns the strip. explain is called with the card that explains a
// pressed tile, start when a design of one's own is wanted.
func newStrip(s *Session, words fyne.CanvasObject, explain func(card string), start func()) *strip {
	st := &strip{start: widget.NewButton("Make it mine…", start)}
	row := container.NewGridWithColumns(len(tileKinds))
	for _, kind := range tileKinds {
		tile := widgets.NewTile(func() { explain(kind.card) })
		st.tiles = append(st.tiles, tile)
		row.Add(tile)
	}
	above := container.NewBorder(nil, nil, words, st.start)
	st.content = container.New(margins{side: 8, top: 4, bottom: 8}, container.New(widgets.NewColumn(4), above, row))
	s.Watch(st.Show)
	return st
}

// Show shows the snapshot's figures.
func (st *strip) Show(s Snapshot) {
	for i, kind := range tileKinds {
		tile := kind.make(s)
		tile.Old = s.old()
		st.tiles[i].SetTile(tile)
	}
	importance := widget.MediumImportance
	if s.Path == "" {
		importance = widget.HighImportance // the demo, or a design without a file
	}
	if st.start.Importance != importance {
		st.start.Importance = importance
		st.start.Refresh()
	}
}
