package svg

import (
	"bufio"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"fettle/geom"
	"fettle/geom/outline"
)

// CheckBar is the layer of the bar that Write can add.
const CheckBar = "check bar"

// Paper says how a drawing is written.
type Paper struct {
	Margin   float64 // millimetres of white around the outlines
	CheckBar bool    // a bar of 100 mm below the outlines, to hold a ruler against
}

// Write writes a plan as an SVG drawing at true size, in millimetres, every
// outline one path in a group of its layer, rounded to a tenth of a
// micrometre, and then the labels. A print of it is true only without any fit to the page: hold a
// ruler against the bar.
//
// The errors are faults of kind Invalid that name the outline or label,
// counted from 1, or what w says.
func Write(w io.Writer, plan outline.Plan, paper Paper) error {
	list := plan.Outlines
	box, err := plan.Box()
	if err != nil {
		return err
	}
	page := box.Grow(paper.Margin)
	if paper.CheckBar {
		page = page.Union(geom.Box{Min: geom.Point{X: page.Min.X, Y: page.Min.Y - 15}, Max: geom.Point{X: page.Min.X + 110, Y: page.Min.Y}})
	}
	b := bufio.NewWriter(w)
	width, height := number(page.Width()), number(page.Height())
	fmt.Fprintf(b, "<svg xmlns=\"%s\" width=\"%smm\" height=\"%smm\" viewBox=\"0 0 %s %s\" fill=\"none\" stroke=\"#000\" stroke-width=\"0.2\">\n", space, width, height, width, height)
	corner := geom.Point{X: page.Min.X, Y: page.Max.Y}
	for i := 0; i < len(list); {
		layer := list[i].Layer
		fmt.Fprintf(b, "<g data-layer=\"%s\">\n", Escape(layer))
		for ; i < len(list) && list[i].Layer == layer; i++ {
			fmt.Fprintf(b, "<path d=\"%s\"/>\n", data(list[i], corner))
		}
		b.WriteString("</g>\n")
	}
	for _, l := range plan.Labels {
		fmt.Fprintf(b, "<text data-layer=\"%s\" x=\"%s\" y=\"%s\" font-size=\"%s\" font-family=\"sans-serif\" text-anchor=\"middle\" dominant-baseline=\"central\" fill=\"#000\" stroke=\"none\">%s</text>\n",
			Escape(l.Layer), number(l.At.X-corner.X), number(corner.Y-l.At.Y), number(l.Height/capitals), Escape(l.Text))
	}
	if paper.CheckBar {
		bar(b, geom.Point{X: 5, Y: page.Height() - 5})
	}
	b.WriteString("</svg>\n")
	return b.Flush()
}

// bar draws 100 mm with an end mark each and a mark every 10 mm.
func bar(b *bufio.Writer, at geom.Point) {
	x, y := number(at.X), number(at.Y)
	fmt.Fprintf(b, "<g data-layer=\"%s\">\n<path d=\"M %s %s h 100\"/>\n", CheckBar, x, y)
	for i := range 11 {
		tall := 2
		if i%10 == 0 {
			tall = 4
		}
		fmt.Fprintf(b, "<path d=\"M %s %s v -%d\"/>\n", number(at.X+10*float64(i)), y, tall)
	}
	fmt.Fprintf(b, "<text x=\"%s\" y=\"%s\" font-size=\"3\" font-family=\"sans-serif\" fill=\"#000\" stroke=\"none\">100 mm: hold a ruler here; print without fit to page</text>\n</g>\n", x, number(at.Y-5))
}

// data writes path data, y down from the corner of the page.
func data(o outline.Outline, corner geom.Point) string {
	var s strings.Builder
	for i, p := range o.Points {
		if i > 0 {
			s.WriteByte(' ')
		}
		s.WriteByte("ML"[min(i, 1)])
		s.WriteString(" " + number(p.X-corner.X) + " " + number(corner.Y-p.Y))
	}
	if o.Closed {
		s.WriteString(" Z")
	}
	return s.String()
}

func number(v float64) string {
	return strconv.FormatFloat(math.Round(v*1e4)/1e4+0, 'f', -1, 64)
}

// capitals is about how high they are for a size of letters.
const capitals = 0.7

// Escape returns a text as it stands in an SVG file.
func Escape(s string) string {
	var b strings.Builder
	_ = xml.EscapeText(&b, []byte(s)) // a Builder never fails
	return b.String()
}
