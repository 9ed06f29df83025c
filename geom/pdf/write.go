package pdf

import (
	"bytes"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"time"

	"codeberg.org/go-pdf/fpdf"

	"fettle/fault"
	"fettle/geom"
	"fettle/geom/outline"
)

// Write writes a plan on paper. The errors are faults of kind Invalid or
// TooLarge, or what w says.
func Write(w io.Writer, plan outline.Plan, paper Paper) error {
	box, err := plan.Box()
	if err != nil {
		return err
	}
	if len(plan.Outlines) == 0 {
		return fault.New(fault.Invalid, "there is nothing to print")
	}
	if err := paper.check(); err != nil {
		return err
	}
	paper = paper.filled()
	t, err := paper.tiling(box)
	if err != nil {
		return err
	}
	if paper.Width == 0 {
		paper.Width, paper.Height = t.w+2*paper.Margin, t.h+foot+2*paper.Margin
	}
	b := newBook(plan, paper, t)
	for row := range t.rows {
		for col := range t.cols {
			if b.drawn[row*t.cols+col] {
				b.page(row, col)
			}
		}
	}
	var out bytes.Buffer
	if err := b.Output(&out); err != nil {
		return fault.Wrap(fault.Internal, err, "write the pages")
	}
	_, err = w.Write(unscaled(out.Bytes()))
	return err
}

// book is the file under way.
type book struct {
	*fpdf.Fpdf
	tiling
	paper Paper
	plan  outline.Plan
	boxes []geom.Box // of the outlines
	drawn []bool     // by tile, row by row
	pages int
	text  func(string) string
}

func newBook(plan outline.Plan, paper Paper, t tiling) *book {
	f := fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm", Size: fpdf.SizeType{Wd: paper.Width, Ht: paper.Height}})
	f.SetCreationDate(time.Unix(0, 0).UTC())
	f.SetModificationDate(time.Unix(0, 0).UTC())
	f.SetCatalogSort(true)
	f.SetProducer("fettle", false)
	f.SetAutoPageBreak(false, 0)
	f.SetMargins(0, 0, 0)
	f.SetTitle(paper.Title, true)
	f.SetLineJoinStyle("round")
	b := &book{Fpdf: f, tiling: t, paper: paper, plan: plan, drawn: make([]bool, t.cols*t.rows), text: f.UnicodeTranslatorFromDescriptor("")}
	for _, o := range plan.Outlines {
		box := geom.Box{Min: o.Points[0], Max: o.Points[0]}
		for _, q := range o.Points {
			box = box.Union(geom.Box{Min: q, Max: q})
		}
		b.boxes = append(b.boxes, box)
	}
	for i := range b.drawn {
		if b.drawn[i] = b.meets(b.window(i/t.cols, i%t.cols)); b.drawn[i] {
			b.pages++
		}
	}
	return b
}

// meets says whether any line comes into a window.
func (b *book) meets(w geom.Box) bool {
	for i, o := range b.plan.Outlines {
		if apart(b.boxes[i], w) {
			continue
		}
		for k, p := range o.Points {
			if q, ok := after(o, k); ok && !apart(boxOf(p, q), w) {
				return true
			}
		}
	}
	return false
}

// after returns the point that the line goes to from point k.
func after(o outline.Outline, k int) (geom.Point, bool) {
	if k+1 < len(o.Points) {
		return o.Points[k+1], true
	}
	return o.Points[0], o.Closed
}

func boxOf(p, q geom.Point) geom.Box {
	return geom.Box{Min: p, Max: p}.Union(geom.Box{Min: q, Max: q})
}

func apart(a, b geom.Box) bool {
	return a.Min.X > b.Max.X || b.Min.X > a.Max.X || a.Min.Y > b.Max.Y || b.Min.Y > a.Max.Y
}

// unscaled asks viewers to print at true size. The library has no word for it:
// it goes into the catalog, which is the last object, so that only the start of
// the table behind it moves.
func unscaled(data []byte) []byte {
	const catalog, wish = "/Type /Catalog\n", "/ViewerPreferences <</PrintScaling /None>>\n"
	at := bytes.LastIndex(data, []byte(catalog))
	start := regexp.MustCompile(`startxref\n(\d+)\n`).FindSubmatchIndex(data)
	if at < 0 || start == nil {
		return data
	}
	at += len(catalog)
	table, _ := strconv.Atoi(string(data[start[2]:start[3]]))
	out := append([]byte{}, data[:at]...)
	out = append(append(out, wish...), data[at:start[2]]...)
	return append(fmt.Append(out, table+len(wish)), data[start[3]:]...)
}
