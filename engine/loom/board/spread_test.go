package board_test

import (
	"testing"

	"fettle/engine/loom/board"
	"fettle/geom"
)

// written is the box of a word, by its own letters.
func written(w board.Text) (lo, hi geom.Point) {
	x, y := 0.36*w.Height*float64(len([]rune(w.Text))), w.Height/2
	return geom.Point{X: w.At.X - x, Y: w.At.Y - y}, geom.Point{X: w.At.X + x, Y: w.At.Y + y}
}

// covering counts pairs of words that lie over each other, and words that lie
// over a middle of the loom.
func covering(r board.Result) (words, loom int) {
	for i, w := range r.Texts {
		lo, hi := written(w)
		for _, o := range r.Texts[:i] {
			if a, b := written(o); lo.X < b.X && a.X < hi.X && lo.Y < b.Y && a.Y < hi.Y {
				words++
			}
		}
		for _, b := range r.Branches {
			for k := 1; k < len(b.Points); k++ {
				for s := range 401 { // places along it, nearer to each other than letters are high
					p := b.Points[k-1].Add(b.Points[k].Sub(b.Points[k-1]).Scale(float64(s) / 400))
					if p.X > lo.X && p.X < hi.X && p.Y > lo.Y && p.Y < hi.Y {
						loom++
						break
					}
				}
			}
		}
	}
	return words, loom
}

// TestSpread_NothingOverAnother: on a loom of 110 connectors every word can be
// read.
func TestSpread_NothingOverAnother(t *testing.T) {
	for _, p := range []board.Rules{{}, {Width: 5000, Height: 2400}} {
		_, r := lay(t, vehicle(110, 400), p)
		if words, loom := covering(r); words > 0 || loom > 0 {
			t.Errorf("of %d words %d lie over another and %d over the loom", len(r.Texts), words, loom)
		}
	}
}

// TestSpread_Crowded puts forty words on one place: each gets its own, with a
// line where it is far.
func TestSpread_Crowded(t *testing.T) {
	var words []board.Text
	for range 40 {
		words = append(words, board.Text{Text: "battery", Height: 4})
	}
	placed, leaders := board.Spread(words, nil)
	n, _ := covering(board.Result{Texts: placed})
	if n > 0 || len(placed) != 40 || len(leaders) < 10 {
		t.Errorf("%d over another, %d words, %d lines", n, len(placed), len(leaders))
	}
}

// TestSmallest lays a loom on the fewest whole sheets that keep all.
func TestSmallest(t *testing.T) {
	b, _ := lay(t, nose(), board.Rules{})
	r, tried, err := board.Smallest(t.Context(), b)
	if err != nil || r.Status != board.Laid || r.Width != 2440 || r.Height != 1220 || len(tried) != 1 {
		t.Errorf("%s on %v × %v after %v, %v", r.Status, r.Width, r.Height, tried, err)
	}
	b.Loom.Edges[0].Length, b.Loom.Edges[2].Length = 7000, 3000
	b, _ = lay(t, b.Loom, board.Rules{})
	if r, tried, err = board.Smallest(t.Context(), b); err != nil || r.Status != board.Laid || len(tried) < 2 || board.Check(b, r) != nil {
		t.Errorf("%s on %v × %v after %v, %v", r.Status, r.Width, r.Height, tried, err)
	}
	last := 0.0
	for _, s := range board.Sizes() {
		if s.Area() < last || s.Area() > 3*float64(s.Sheets) {
			t.Errorf("%+v", s)
		}
		last = s.Area()
	}
}
