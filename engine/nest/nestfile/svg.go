package nestfile

import (
	"bytes"
	"fmt"
	"io"
	"strconv"

	"fettle/engine/nest"
	"fettle/geom"
	"fettle/geom/svg"
)

// WriteSVG draws a layout: the sheets that are used side by side, each with its
// zones, holes and keep-outs, and the pieces with their names. The y axis of
// the problem points up on the drawing. length is that of a strip.
func WriteSVG(w io.Writer, p nest.Problem, placements []nest.Placement, length float64) error {
	d := drawing{p: &p}
	sheets, err := sheetsOf(p, placements, length)
	if err != nil {
		return err
	}
	for _, s := range sheets {
		b := s.outline.Bounds()
		d.height, d.width = max(d.height, b.Height()), d.width+b.Width()
	}
	gap := max(d.width, d.height) / 40
	d.text = gap / 2
	x := gap
	for _, s := range sheets {
		b := s.outline.Bounds()
		fmt.Fprintf(&d.b, "<g transform=\"translate(%s %s) scale(1 -1)\">\n", number(x-b.Min.X), number(gap+d.height+b.Min.Y))
		d.sheet(s)
		d.b.WriteString("</g>\n")
		x += b.Width() + gap
	}
	_, err = fmt.Fprintf(w, "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 %s %s\" font-family=\"sans-serif\">\n%s</svg>\n", number(x), number(d.height+2*gap), d.b.Bytes())
	return err
}

// drawing grows as its sheets are drawn.
type drawing struct {
	b             bytes.Buffer
	p             *nest.Problem
	width, height float64
	text          float64 // size of letters
}

func (d *drawing) sheet(s *sheet) {
	d.polygon(s.outline, "#f4efe6", "#333")
	for _, z := range s.material.Zones {
		fill := "#e0c9a6"
		if z.Quality == 0 {
			fill = "#999"
		}
		d.polygon(z.Shape, fill, "#b08d57")
	}
	for _, k := range s.material.KeepOut {
		d.polygon(k, "#999", "#333")
	}
	for _, at := range s.on {
		shape := at.Lay(d.p.Pieces[at.Piece].Shape)
		d.polygon(shape, "#8fb3d9", "#123")
		c := deepest(shape)
		fmt.Fprintf(&d.b, "<text transform=\"translate(%s %s) scale(1 -1)\" font-size=\"%s\" text-anchor=\"middle\">%s</text>\n",
			number(c.X), number(c.Y), number(d.text), svg.Escape(d.p.Pieces[at.Piece].ID))
	}
}

func (d *drawing) polygon(p geom.Polygon, fill, line string) {
	d.b.WriteString("<path d=\"")
	for _, r := range p.Rings() {
		letter := "M"
		for _, q := range r {
			d.b.WriteString(letter + number(q.X) + " " + number(q.Y))
			letter = "L"
		}
		d.b.WriteString("Z")
	}
	fmt.Fprintf(&d.b, "\" fill=\"%s\" fill-rule=\"evenodd\" stroke=\"%s\" vector-effect=\"non-scaling-stroke\"/>\n", fill, line)
}

func number(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
