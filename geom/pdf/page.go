package pdf

import (
	"fmt"

	"codeberg.org/go-pdf/fpdf"

	"fettle/geom"
	"fettle/geom/outline"
)

// page draws one tile.
func (b *book) page(row, col int) {
	b.AddPageFormat("P", fpdf.SizeType{Wd: b.paper.Width, Ht: b.paper.Height})
	b.SetDrawColor(0, 0, 0)
	b.SetTextColor(0, 0, 0)
	w, m := b.window(row, col), b.paper.Margin
	to := func(q geom.Point) (x, y float64) { return m + q.X - w.Min.X, m + w.Max.Y - q.Y }
	b.ClipRect(m, m, b.w, b.h, false)
	for i, o := range b.Plan.Outlines {
		if !apart(b.boxes[i], w) {
			b.line(o, w, to)
		}
	}
	for _, l := range b.Plan.Labels {
		b.label(l, w, to)
	}
	b.ClipEnd()
	b.marks(row, col, to)
	b.foot(row, col)
}

// line draws the stretches of an outline that come into the window.
func (b *book) line(o outline.Outline, w geom.Box, to func(geom.Point) (float64, float64)) {
	pen, ok := b.paper.Pens[o.Layer]
	if !ok {
		pen.Width = 0.25
	}
	b.SetLineWidth(pen.Width)
	if pen.Dash > 0 {
		b.SetDashPattern([]float64{pen.Dash, pen.Dash}, 0)
		defer b.SetDashPattern(nil, 0)
	}
	down, any := false, false
	for k, p := range o.Points {
		q, ok := after(o, k)
		if !ok || apart(boxOf(p, q), w) {
			down = false
			continue
		}
		if !down {
			b.MoveTo(to(p))
		}
		b.LineTo(to(q))
		down, any = true, true
	}
	if any {
		b.DrawPath("S")
	}
}

// millimetres of a point, and of capitals by the size of letters.
const (
	point    = 25.4 / 72
	capitals = 0.718
)

// label writes a text with its middle at its place, where any of it comes into
// the window.
func (b *book) label(l outline.Label, w geom.Box, to func(geom.Point) (float64, float64)) {
	text, half := b.lettered(l)
	if apart(boxOf(l.At, l.At).Grow(half+l.Height), w) {
		return
	}
	x, y := to(l.At)
	b.Text(x-half, y+l.Height/2, text)
}

// lettered takes the face of a label and returns what it says, and half its width.
func (b *book) lettered(l outline.Label) (text string, half float64) {
	b.SetFont("Helvetica", "", l.Height/capitals/point)
	text = b.text(l.Text)
	return text, b.GetStringWidth(text) / 2
}

// marks draws the edge of the tile, thin, and the crosses it shares with its
// neighbours: they lie in the middle of the overlap.
func (b *book) marks(row, col int, to func(geom.Point) (float64, float64)) {
	if b.rows*b.cols == 1 {
		return
	}
	m := b.paper.Margin
	b.SetLineWidth(0.1)
	b.SetDashPattern([]float64{1, 2}, 0)
	b.Rect(m, m, b.w, b.h, "D")
	b.SetDashPattern(nil, 0)
	w, half := b.window(row, col), b.over/2
	for _, x := range []float64{w.Min.X + half, w.Max.X - half} {
		for _, y := range []float64{w.Min.Y + half, w.Max.Y - half} {
			px, py := to(geom.Point{X: x, Y: y})
			arm := min(half, 5)
			b.SetLineWidth(0.15)
			b.Line(px-arm, py, px+arm, py)
			b.Line(px, py-arm, px, py+arm)
			b.Circle(px, py, arm/2, "D")
		}
	}
}

// foot draws the bar of 100 mm, the words and where the tile lies.
func (b *book) foot(row, col int) {
	m := b.paper.Margin
	x, y := m+2, m+b.h+foot-3
	b.SetLineWidth(0.25)
	b.Line(x, y, x+100, y)
	for i := range 11 {
		tall := 2.0
		if i%10 == 0 {
			tall = 5
		}
		at := x + float64(10*i)
		b.Line(at, y, at, y-tall)
	}
	b.SetFont("Helvetica", "", 8)
	b.Text(x, y-6.5, b.text("This bar is 100 mm: measure it. Print at 100 %, no fit to page."))
	where := "whole drawing, true size"
	if n := b.rows * b.cols; n > 1 {
		where = fmt.Sprintf("row %s, column %d; page %d of %d", letters(row), col+1, b.done, b.pages)
		if b.pages < n {
			where += fmt.Sprintf("; %d empty ones left out", n-b.pages)
		}
		b.SetFont("Helvetica", "B", 14)
		b.Text(x, y-16, fmt.Sprintf("%s%d", letters(row), col+1))
		b.SetFont("Helvetica", "", 8)
		x += 14
		b.overview(row, col, m+b.w-4, y)
	}
	b.Text(x, y-16, b.text(where))
	b.Text(x, y-12, b.text(cut(b.Title, 60)))
}

// cut leaves at most n letters of a text.
func cut(text string, n int) string {
	if r := []rune(text); len(r) > n {
		return string(r[:n-1]) + "…"
	}
	return text
}

// overview draws all tiles small, this one black and those left out empty, with its
// lower right corner at a place.
func (b *book) overview(row, col int, x, y float64) {
	k := min(20/float64(b.cols), 18/float64(b.rows), 5)
	b.SetLineWidth(0.1)
	b.SetFillColor(0, 0, 0)
	for i, drawn := range b.drawn {
		r, c := i/b.cols, i%b.cols
		left, top := x-k*float64(b.cols-c), y-k*float64(b.rows-r)
		switch {
		case r == row && c == col:
			b.Rect(left, top, k, k, "FD")
		case drawn:
			b.Rect(left, top, k, k, "D")
			b.Line(left, top+k, left+k, top)
		default:
			b.Rect(left, top, k, k, "D")
		}
	}
}
