package pdf

import (
	"fmt"

	"codeberg.org/go-pdf/fpdf"

	"fettle/geom"
)

// mapPage shows the whole drawing small, with the tiles that are printed by
// their names, so that they can be laid out on the table.
func (b *book) mapPage() {
	b.AddPageFormat("P", fpdf.SizeType{Wd: b.paper.Width, Ht: b.paper.Height})
	b.SetDrawColor(0, 0, 0)
	b.SetTextColor(0, 0, 0)
	m := b.paper.Margin
	last := b.window(b.rows-1, b.cols-1)
	whole := geom.Box{Min: geom.Point{X: b.box.Min.X, Y: last.Min.Y}, Max: geom.Point{X: last.Max.X, Y: b.box.Max.Y}}
	k := min(b.w/whole.Width(), b.h/whole.Height())
	to := func(q geom.Point) (x, y float64) { return m + k*(q.X-whole.Min.X), m + k*(whole.Max.Y-q.Y) }
	b.SetFont("Helvetica", "", min(11, 14*k*(b.w-b.over)/point/40))
	for i, drawn := range b.drawn {
		w := b.window(i/b.cols, i%b.cols)
		x, y := to(geom.Point{X: w.Min.X, Y: w.Max.Y})
		wide, high := k*(b.w-b.over), k*(b.h-b.over) // what no other tile shows
		if drawn {
			b.SetLineWidth(0.1)
			b.Rect(x, y, wide, high, "D")
			_, size := b.GetFontSize()
			b.Text(x+0.5, y+size, fmt.Sprintf("%s%d", letters(i/b.cols), i%b.cols+1))
		}
	}
	for _, o := range b.Plan.Outlines {
		b.line(o, whole, to)
	}
	b.SetFont("Helvetica", "B", 11)
	b.Text(m+2, m+b.h+8, b.text(cut(b.Title, 80)))
	b.SetFont("Helvetica", "", 9)
	b.Text(m+2, m+b.h+13, b.text(fmt.Sprintf("Map of the %d tiles that follow, not to scale. Rows A to %s from above, columns 1 to %d from the left.", b.pages, letters(b.rows-1), b.cols)))
	b.Text(m+2, m+b.h+17, b.text("Lay cross on cross: neighbours carry the same crosses. Measure the bar of 100 mm on each before you cut or peg."))
}
