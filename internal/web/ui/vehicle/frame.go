package vehicle

import (
	"math"
	"strconv"
	"strings"

	"fettle/geom"
)

// frame maps millimetres of a view to units of the drawing. A unit is about a
// pixel at natural size, so that hatches keep their width in every view.
type frame struct {
	k          float64 // units a millimetre
	left, top  float64 // where the box begins
	box        [4]float64
	flip, rise bool // first axis reversed; second axis points up
}

// fit returns the frame that puts a view's box into an area of w by h units
// that begins at left, top, and the size it takes there.
func (v View) fit(left, top, w, h float64) (f frame, wide, high float64) {
	bw, bh := v.Box[2]-v.Box[0], v.Box[3]-v.Box[1]
	k := 1.0
	if bw > 0 && bh > 0 {
		k = min(w/bw, h/bh)
	}
	wide, high = bw*k, bh*k
	return frame{k: k, left: left + (w-wide)/2, top: top, box: v.Box, flip: v.Flip, rise: v.Plane != "xy"}, wide, high
}

// at maps one point.
func (f frame) at(a, b float64) geom.Point {
	p := geom.Point{X: f.left + (a-f.box[0])*f.k, Y: f.top + (b-f.box[1])*f.k}
	if f.flip {
		p.X = f.left + (f.box[2]-a)*f.k
	}
	if f.rise {
		p.Y = f.top + (f.box[3]-b)*f.k
	}
	return p
}

// path maps path data. What cannot be read is left out of the drawing.
func (f frame) path(d string) string {
	read, err := geom.ParsePath(d)
	if err != nil {
		return ""
	}
	var out strings.Builder
	var a float64
	second := false
	for _, word := range words(read.String()) {
		n, err := strconv.ParseFloat(word, 64)
		switch {
		case err != nil:
			out.WriteString(word)
		case second:
			p := f.at(a, n)
			out.WriteString(num(p.X) + " " + num(p.Y) + " ")
			second = false
		default:
			a, second = n, true
		}
	}
	return out.String()
}

// words parts path data into letters and numbers.
func words(d string) []string {
	for _, letter := range "MLCQZ" {
		d = strings.ReplaceAll(d, string(letter), " "+string(letter)+" ")
	}
	return strings.Fields(strings.ReplaceAll(d, ",", " "))
}

// num writes a coordinate to a tenth of a unit.
func num(x float64) string {
	return strconv.FormatFloat(math.Round(x*10)/10, 'f', -1, 64)
}
