package loom

import (
	"fmt"
	"strings"

	"fettle/geom"
	"fettle/internal/web"
	stage "fettle/stage/loom"
	"fettle/unit"
)

// boardDrawing is the board on the screen, y downwards, in millimetres.
type boardDrawing struct {
	Box   string
	Size  string // of the names
	Lines []boardLine
	Names []boardName
}

type boardLine struct{ Class, D string }

type boardName struct{ X, Y, Text string }

// drawBoard draws the board small: ends by their numbers, which the list below
// has; what is written along the loom is for the paper.
func drawBoard(b stage.Board) boardDrawing {
	d := boardDrawing{Box: fmt.Sprintf("-10 -10 %.0f %.0f", b.Width+20, b.Height+20), Size: fmt.Sprintf("%.0f", max(b.Width/80, 14))}
	for _, l := range b.Lines {
		d.Lines = append(d.Lines, boardLine{"board-line board-" + l.Layer, path(l.Points, l.Closed, b.Height)})
	}
	for _, f := range b.Faces {
		if len(f.Outline) == 0 {
			continue
		}
		at := middle(f.Outline)
		d.Names = append(d.Names, boardName{fmt.Sprintf("%.0f", at.X), fmt.Sprintf("%.0f", b.Height-at.Y), f.Node})
	}
	return d
}

func path(points []geom.Point, closed bool, high float64) string {
	var d strings.Builder
	for i, p := range points {
		letter := "L"
		if i == 0 {
			letter = "M"
		}
		fmt.Fprintf(&d, "%s%.1f %.1f", letter, p.X, high-p.Y)
	}
	if closed {
		d.WriteString("Z")
	}
	return d.String()
}

func middle(points []geom.Point) geom.Point {
	var sum geom.Point
	for _, p := range points {
		sum = sum.Add(p)
	}
	n := float64(len(points))
	return geom.Point{X: sum.X / n, Y: sum.Y / n}
}

// mostBoard is the largest side of a board in mm.
const mostBoard = 20_000

// boardSide reads a side of the board; empty is as large as it must be.
func boardSide(f *web.Form, name string) unit.Length {
	if strings.TrimSpace(f.Raw(name)) == "" {
		return 0
	}
	return unit.Length(f.Int(name, 100, mostBoard)) * unit.Millimetre
}
