package pdf

import (
	"math"
	"testing"

	"fettle/geom"
)

// TestTiling holds neighbours to sharing their crosses, and all tiles to
// covering the drawing.
func TestTiling(t *testing.T) {
	box := geom.Box{Min: geom.Point{X: -300, Y: 12}, Max: geom.Point{X: 1777, Y: 2345}}
	p := Paper{Width: 210, Height: 297}.filled()
	g, err := p.tiling(box)
	if err != nil {
		t.Fatal(err)
	}
	for row := range g.rows - 1 {
		for col := range g.cols - 1 {
			w, right, below := g.window(row, col), g.window(row, col+1), g.window(row+1, col)
			if d := w.Max.X - g.over/2 - (right.Min.X + g.over/2); math.Abs(d) > 1e-9 {
				t.Errorf("the crosses of row %d beside column %d are %g apart", row, col, d)
			}
			if d := w.Min.Y + g.over/2 - (below.Max.Y - g.over/2); math.Abs(d) > 1e-9 {
				t.Errorf("the crosses of column %d below row %d are %g apart", col, row, d)
			}
		}
	}
	first, last := g.window(0, 0), g.window(g.rows-1, g.cols-1)
	if first.Min.X > box.Min.X || first.Max.Y < box.Max.Y || last.Max.X < box.Max.X || last.Min.Y > box.Min.Y {
		t.Errorf("the tiles from %v to %v do not cover %v", first, last, box)
	}
	for row, want := range map[int]string{0: "A", 25: "Z", 26: "AA", 51: "AZ", 52: "BA", 702: "AAA"} {
		if letters(row) != want {
			t.Errorf("row %d is %s, want %s", row, letters(row), want)
		}
	}
}
