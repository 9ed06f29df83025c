package pdf

import (
	"math"
	"strconv"
	"strings"

	"fettle/fault"
	"fettle/geom"
)

// Paper is what the drawing is printed on.
type Paper struct {
	Width, Height float64        // of a sheet; both 0: one page as large as it must be
	Margin        float64        // that no printer reaches, on all sides; 0 is 8
	Overlap       float64        // of neighbouring tiles; 0 is 10
	Pens          map[string]Pen // by layer; a layer without one is drawn 0.25 wide
}

// Pen is how the lines of a layer look, all in black.
type Pen struct {
	Width float64
	Dash  float64 // length of dashes and gaps; 0 is a whole line
}

// sizes are the papers known by name, upright.
var sizes = map[string][2]float64{
	"a4": {210, 297}, "a3": {297, 420}, "a2": {420, 594}, "a1": {594, 841}, "a0": {841, 1189},
	"letter": {215.9, 279.4}, "legal": {215.9, 355.6}, "tabloid": {279.4, 431.8},
}

// ParsePaper reads a4, a3-wide (turned on its side), letter, 914x1200, or one
// for a single page of true size. The error is a fault of kind Invalid.
func ParsePaper(name string) (Paper, error) {
	name = strings.ToLower(strings.TrimSpace(name))
	if name == "one" {
		return Paper{}, nil
	}
	plain, wide := strings.CutSuffix(name, "-wide")
	if s, ok := sizes[plain]; ok {
		if wide {
			s[0], s[1] = s[1], s[0]
		}
		return Paper{Width: s[0], Height: s[1]}, nil
	}
	w, h, _ := strings.Cut(name, "x")
	width, err1 := strconv.ParseFloat(w, 64)
	height, err2 := strconv.ParseFloat(h, 64)
	p := Paper{Width: width, Height: height}
	if err1 != nil || err2 != nil || p.check() != nil {
		return Paper{}, fault.New(fault.Invalid, "%.40q is no paper", name).
			WithHint("one, a4, a3, a2, a1, a0, letter, legal, tabloid, each with -wide, or width x height in mm such as 914x1200")
	}
	return p, nil
}

const (
	largest = 5080 // mm: a page of PDF has at most 14,400 points
	most    = 2000 // pages
	foot    = 26   // mm below the drawing for bar and words
	least   = 130  // mm of width that these need
)

func (p Paper) filled() Paper {
	if p.Margin == 0 {
		p.Margin = 8
	}
	if p.Overlap == 0 {
		p.Overlap = 10
	}
	return p
}

// check wants a paper with room for the foot and more than the overlap.
func (p Paper) check() error {
	p = p.filled()
	if !(p.Margin > 0 && p.Margin <= 100 && p.Overlap > 0 && p.Overlap <= 200) {
		return fault.New(fault.Invalid, "a margin of %g and an overlap of %g mm", p.Margin, p.Overlap)
	}
	if p.Width == 0 && p.Height == 0 {
		return nil
	}
	if !(p.Width-2*p.Margin >= least && p.Height-2*p.Margin-foot >= max(2*p.Overlap, 50) && p.Width-2*p.Margin >= 2*p.Overlap && max(p.Width, p.Height) <= largest) {
		return fault.New(fault.Invalid, "paper of %g by %g mm", p.Width, p.Height).
			WithHint("It needs room for the check bar: at least 150 by 100 mm, at most 5080.")
	}
	return nil
}

// tiling is how a drawing is cut into windows.
type tiling struct {
	box        geom.Box // of the drawing, with a little white
	w, h       float64  // of a window
	over       float64
	cols, rows int
}

// white is left around the drawing.
const white = 2

func (p Paper) tiling(box geom.Box) (tiling, error) {
	t := tiling{box: box.Grow(white), over: p.Overlap, cols: 1, rows: 1}
	if p.Width == 0 {
		t.w, t.h = max(t.box.Width(), least), t.box.Height()
		if max(t.w, t.h+foot)+2*p.Margin > largest {
			return t, fault.New(fault.TooLarge, "a drawing of %.0f by %.0f mm does not fit one page of at most %d mm", box.Width(), box.Height(), largest).
				WithHint("Print it on tiles: state a paper.")
		}
		return t, nil
	}
	t.w, t.h = p.Width-2*p.Margin, p.Height-2*p.Margin-foot
	cols, rows := tiles(t.box.Width(), t.w, t.over), tiles(t.box.Height(), t.h, t.over)
	if cols*rows > most {
		return t, fault.New(fault.TooLarge, "a drawing of %.0f by %.0f mm takes %.0f pages: at most %d are written", box.Width(), box.Height(), cols*rows, most).
			WithHint("Is the unit right? Else take larger paper.")
	}
	t.cols, t.rows = int(cols), int(rows)
	return t, nil
}

func tiles(all, window, over float64) float64 {
	return max(1, math.Ceil((all-over)/(window-over)-1e-9))
}

// window returns what a tile shows; row 0 is the top one.
func (t tiling) window(row, col int) geom.Box {
	x := t.box.Min.X + float64(col)*(t.w-t.over)
	y := t.box.Max.Y - float64(row)*(t.h-t.over)
	return geom.Box{Min: geom.Point{X: x, Y: y - t.h}, Max: geom.Point{X: x + t.w, Y: y}}
}

// letters names a row as on a map: A to Z, AA, AB …
func letters(row int) (s string) {
	for row++; row > 0; row = (row - 1) / 26 {
		s = string(rune('A'+(row-1)%26)) + s
	}
	return s
}
