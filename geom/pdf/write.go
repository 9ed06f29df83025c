package pdf

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"regexp"
	"strconv"
	"time"

	"codeberg.org/go-pdf/fpdf"

	"fettle/fault"
	"fettle/geom"
	"fettle/geom/outline"
)

// Sheet is a plan that is printed by itself.
type Sheet struct {
	Title string // on every page of it
	Plan  outline.Plan
	Map   bool // a page before its tiles shows where each of them lies
}

// Count tells how many pages a sheet takes, its map not counted. The errors are
// those of Write.
func Count(s Sheet, paper Paper) (int, error) {
	if err := paper.check(); err != nil {
		return 0, err
	}
	b, err := newBook(newFile(), s, paper.filled())
	if err != nil {
		return 0, err
	}
	return b.pages, nil
}

// Write writes sheets on paper, one after the other. The errors are faults of
// kind Invalid or TooLarge, or what w says.
func Write(w io.Writer, sheets []Sheet, paper Paper) error {
	if err := paper.check(); err != nil {
		return err
	}
	f := newFile()
	for _, s := range sheets {
		b, err := newBook(f, s, paper.filled())
		if err != nil {
			return err
		}
		if f.PageCount()+b.pages > most {
			return fault.New(fault.TooLarge, "more than %d pages", most).At(s.Title).WithHint("Take larger paper.")
		}
		b.write()
	}
	if f.PageCount() == 0 {
		return fault.New(fault.Invalid, "there is nothing to print")
	}
	var out bytes.Buffer
	if err := f.Output(&out); err != nil {
		return fault.Wrap(fault.Internal, err, "write the pages")
	}
	_, err := w.Write(unscaled(out.Bytes()))
	return err
}

func newFile() *fpdf.Fpdf {
	f := fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm", Size: fpdf.SizeType{Wd: 210, Ht: 297}})
	f.SetCreationDate(time.Unix(0, 0).UTC())
	f.SetModificationDate(time.Unix(0, 0).UTC())
	f.SetCatalogSort(true)
	f.SetProducer("fettle", false)
	f.SetAutoPageBreak(false, 0)
	f.SetMargins(0, 0, 0)
	f.SetLineJoinStyle("round")
	return f
}

// book is the pages of one sheet under way.
type book struct {
	*fpdf.Fpdf
	tiling
	Sheet
	paper Paper
	boxes []geom.Box // of the outlines
	drawn []bool     // by tile, row by row
	pages int        // with anything on them
	done  int        // pages begun
	text  func(string) string
}

func newBook(f *fpdf.Fpdf, s Sheet, paper Paper) (*book, error) {
	box, err := s.Plan.Box()
	if err != nil || len(s.Plan.Outlines) == 0 {
		return &book{}, fault.Within(err, s.Title) // nothing on it: no pages
	}
	t, err := paper.tiling(box)
	if err != nil {
		return nil, fault.Within(err, s.Title)
	}
	if paper.Width == 0 {
		paper.Width, paper.Height = t.w+2*paper.Margin, t.h+foot+2*paper.Margin
	}
	b := &book{Fpdf: f, tiling: t, Sheet: s, paper: paper, drawn: make([]bool, t.cols*t.rows), text: f.UnicodeTranslatorFromDescriptor("")}
	for _, o := range s.Plan.Outlines {
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
	return b, nil
}

func (b *book) write() {
	if b.Map && b.pages > 1 {
		b.mapPage()
	}
	for i, drawn := range b.drawn {
		if drawn {
			b.done++
			b.page(i/b.cols, i%b.cols)
		}
	}
}

// meets says whether any line or word comes into a window.
func (b *book) meets(w geom.Box) bool {
	for _, l := range b.Plan.Labels {
		if _, half := b.lettered(l); !apart(boxOf(l.At, l.At).Grow(half), w) && math.Abs(l.At.Y-min(max(l.At.Y, w.Min.Y), w.Max.Y)) < l.Height {
			return true
		}
	}
	for i, o := range b.Plan.Outlines {
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
