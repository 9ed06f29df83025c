package loom

import (
	"fmt"
	"slices"
	"strings"

	stage "fettle/stage/loom"
)

// facePicture is a connector as it is seen from the mating side, large enough
// to work by.
type facePicture struct {
	Node, Name, Text string
	Mates            bool // it is a connector; else what lands there
	Wide, High       string
	Box              string
	Cells            []faceCell
}

// faceCell is a cavity of it.
type faceCell struct {
	X, Y          int
	Name, Letters string
	Base, Tracer  string
	Href, Says    string
	Size          string // of its name
}

// Of a face on the page: units of a cell, and pixels of a unit.
const (
	cellWide = 20
	cellHigh = 24
	cellGap  = 2
	facePx   = 2.6
)

// faces draws every connector of the board.
func (page boardPage) faces() []facePicture {
	var list []facePicture
	for _, f := range page.Board.Faces {
		pic := facePicture{Node: f.Node, Name: page.placeName(f.Node), Text: plural(len(f.Cavities), "place")}
		for _, x := range page.Build.Loom.Connectors {
			if string(x.At) == f.Node && x.Cavities > 0 {
				pic.Name, pic.Mates = x.Name, true
				pic.Text = strings.TrimPrefix(fmt.Sprintf("%s, %d ways", x.Family, x.Cavities), ", ")
			}
		}
		left, top := f.Outline[0].X, f.Outline[2].Y
		columns, rows := 0, 0
		for _, c := range f.Cavities {
			col, row := int((c.At.X-left)/faceStep), int((top-c.At.Y)/faceStep)
			columns, rows = max(columns, col+1), max(rows, row+1)
			cell := faceCell{X: cellGap + col*(cellWide+cellGap), Y: cellGap + row*(cellHigh+cellGap), Name: c.Name, Letters: strings.Join(c.Colours, " + "), Says: "cavity " + c.Name + ": empty, plug it"}
			cell.Base, cell.Tracer = paints(c.Colours)
			cell.Size = fmt.Sprintf("%.1f", min(8, 33/float64(max(len([]rune(c.Name)), 1))))
			if wire, _, _ := strings.Cut(c.Wire, " + "); wire != "" {
				circuit, _, _ := strings.Cut(wire, ".")
				cell.Href, cell.Says = page.onePath(circuit), fmt.Sprintf("cavity %s: %s, %s", c.Name, page.cutSays(wire), stage.Words(strings.Join(c.Colours[:min(1, len(c.Colours))], "")))
			}
			pic.Cells = append(pic.Cells, cell)
		}
		wide, high := cellGap+columns*(cellWide+cellGap), cellGap+rows*(cellHigh+cellGap)
		pic.Box, pic.Wide, pic.High = fmt.Sprintf("0 0 %d %d", wide, high), fmt.Sprintf("%.0f", facePx*float64(wide)), fmt.Sprintf("%.0f", facePx*float64(high))
		list = append(list, pic)
	}
	slices.SortStableFunc(list, func(a, b facePicture) int {
		switch {
		case a.Mates && !b.Mates:
			return -1
		case b.Mates && !a.Mates:
			return 1
		}
		return strings.Compare(a.Node, b.Node)
	})
	return list
}

// faceStep is from cavity to cavity of a face of the board, in mm.
const faceStep = 10

// cutSays is a wire with the far end, by the cut list.
func (page boardPage) cutSays(id string) string {
	for _, c := range page.Loom.Cuts {
		if c.ID == id {
			return c.Label
		}
	}
	return id
}
