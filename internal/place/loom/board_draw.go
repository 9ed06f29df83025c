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
	Box     string
	Wide    string // of the picture on the page
	Size    string // of the letters
	Halo    string // about them
	Bundles []boardLine
	Lines   []boardLine
	Pegs    []boardName
	Cells   []boardCell
	Names   []boardName
}

type boardLine struct{ Class, D, Wide, Says string }

type boardName struct{ X, Y, R, Text string }

// boardCell is a cavity: where it is, and its colours.
type boardCell struct {
	X, Y       string
	Base, Line string
}

// Of the drawing on the screen.
const (
	boardPixels = 820.0 // it is wide at the least, by the zoom
	boardLetter = 13.0  // pixels of its letters
	capital     = 0.72  // of letters that are capitals
)

// draw draws the board small: bundles as thick as they are, pegs, connectors
// with the colours in them, and names that lie over nothing. What is written
// grows with the zoom.
func (page boardPage) draw() boardDrawing {
	b := page.Board
	pixel := (b.Width + 40) / (boardPixels * float64(page.Zoom))
	d := boardDrawing{Box: fmt.Sprintf("-20 -20 %.0f %.0f", b.Width+40, b.Height+40), Wide: fmt.Sprintf("%.0f", boardPixels*float64(page.Zoom)),
		Size: fmt.Sprintf("%.1f", boardLetter*pixel), Halo: fmt.Sprintf("%.1f", 3*pixel)}
	for i, x := range b.Branches {
		s := page.Loom.Route.Runs[i]
		d.Bundles = append(d.Bundles, boardLine{D: path(x.Points, false, b.Height), Wide: fmt.Sprintf("%.1f", max(s.Outside, 1.5*pixel)),
			Says: fmt.Sprintf("%s: %s, %.1f mm over %s, %.0f mm long", x.ID, plural(len(s.Wires), "wire"), s.Outside, s.Cover, s.Length)})
	}
	for _, l := range b.Lines {
		if l.Layer == "board" || l.Layer == "splices" && len(l.Points) == 2 {
			d.Lines = append(d.Lines, boardLine{Class: "board-line board-" + l.Layer, D: path(l.Points, l.Closed, b.Height)})
		}
	}
	for _, p := range b.Pegs {
		d.Pegs = append(d.Pegs, boardName{X: fmt.Sprintf("%.1f", p.At.X), Y: fmt.Sprintf("%.1f", b.Height-p.At.Y), R: fmt.Sprintf("%.1f", max(3, 1.8*pixel)), Text: p.Why})
	}
	for _, f := range b.Faces {
		if len(f.Outline) > 0 {
			d.Lines = append(d.Lines, boardLine{Class: "board-line board-connectors", D: path(f.Outline, true, b.Height)})
		}
		for _, c := range f.Cavities {
			base, line := paints(c.Colours)
			d.Cells = append(d.Cells, boardCell{fmt.Sprintf("%.1f", c.At.X-4), fmt.Sprintf("%.1f", b.Height-c.At.Y-4), base, line})
		}
	}
	placed, leaders := stage.SpreadWords(page.words(boardLetter*capital*pixel), b)
	for _, w := range placed {
		d.Names = append(d.Names, boardName{X: fmt.Sprintf("%.1f", w.At.X), Y: fmt.Sprintf("%.1f", b.Height-w.At.Y+w.Height/2), Text: w.Text})
	}
	for _, l := range leaders {
		d.Lines = append(d.Lines, boardLine{Class: "board-line board-leader", D: path(l.Points, l.Closed, b.Height)})
	}
	return d
}

// words are what is written at this zoom, the ends first.
func (page boardPage) words(height float64) []stage.BoardWord {
	var ends, rest []stage.BoardWord
	face := map[string]bool{}
	for _, f := range page.Board.Faces {
		face[f.Node] = true
	}
	for _, x := range page.Board.Places {
		w := stage.BoardWord{Layer: "datums", At: x.At, Height: height, Text: fmt.Sprintf("%s %.0f", x.Node, x.From)}
		switch {
		case page.Zoom > 1 && face[x.Node]:
			w.Text = fmt.Sprintf("%s %s %.0f ±%s", x.Node, page.placeName(x.Node), x.From, number(x.Tolerance))
		case x.Datum:
			w.Text = x.Node + " datum"
		}
		if face[x.Node] {
			ends = append(ends, w)
		} else if page.Zoom > 1 {
			rest = append(rest, w)
		}
	}
	for i, x := range page.Board.Branches {
		if s := page.Loom.Route.Runs[i]; page.Zoom == 4 && s.Length > 60 {
			rest = append(rest, stage.BoardWord{Layer: "covers", Height: height, At: half(x.Points), Text: fmt.Sprintf("ø%.1f %s", s.Outside, s.Cover)})
		}
	}
	return append(ends, rest...)
}

// half is the middle of the longest straight piece of a line.
func half(points []geom.Point) geom.Point {
	var at geom.Point
	most := -1.0
	for i := 1; i < len(points); i++ {
		if l := points[i].Distance(points[i-1]); l > most {
			most, at = l, points[i].Add(points[i-1]).Scale(0.5)
		}
	}
	return at
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

// mostBoard is the largest side of a board in mm.
const mostBoard = 20_000

// boardSide reads a side of the board; empty is as large as it must be.
func boardSide(f *web.Form, name string) unit.Length {
	if strings.TrimSpace(f.Raw(name)) == "" {
		return 0
	}
	return unit.Length(f.Int(name, 100, mostBoard)) * unit.Millimetre
}
