package trim

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/a-h/templ"

	"fettle/build"
	"fettle/figure"
	"fettle/geom"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/table"
	stage "fettle/stage/trim"
	"fettle/unit"
)

// patternPage is the pattern of one piece.
type patternPage struct {
	sheet
	acts
	stage.PatternSheet
	Edges   table.Table
	History table.Table
	Bare    bool     // the piece has no pattern yet
	Squared *squared // the outline, when it was squared up to be looked at
}

func (p place) patternPage(r *web.Request) (patternPage, error) {
	s, err := p.load(r)
	if err != nil {
		return patternPage{}, err
	}
	page := patternPage{sheet: s}
	if one := s.Build.Piece(build.PieceID(r.Path("piece"))); one != nil && s.Build.Pattern(one.ID) == nil {
		page.Bare, page.Piece = true, *one
		page.Open = "outline"
		return page, nil
	}
	hands, err := s.sheetsOf(r)
	if err != nil {
		return page, err
	}
	page.PatternSheet = hands[0]
	page.Edges, page.History = page.edgeTable(), page.historyTable()
	return page, nil
}

func (page patternPage) dressed() web.Sheet {
	if page.Bare {
		return web.Sheet{Place: "trim", Shown: fmt.Sprintf("a pattern for %s", page.Piece.ID)}
	}
	return web.Sheet{Place: "trim", Shown: fmt.Sprintf("pattern %s, revision %d", page.Piece.ID, page.Pattern.Revision)}
}

func (p place) pattern(r *web.Request) error {
	page, err := p.patternPage(r)
	if err != nil {
		return err
	}
	if page.Bare {
		return p.desk.Page(r, page.dressed(), showBare(page))
	}
	switch r.As() {
	case "json":
		return r.JSON(page.PatternSheet)
	case "csv":
		return r.CSV(fmt.Sprintf("%s-pattern-%s.csv", r.Build(), page.Piece.ID), page.Edges.Records())
	}
	return p.desk.Page(r, page.dressed(), showPattern(page))
}

// edgeTable is every edge with its seam, allowance and length.
func (page patternPage) edgeTable() table.Table {
	t := table.Table{ID: "edges", Caption: "Edges, from corner to corner", Self: page.patternPath(page.Piece.ID), Columns: []table.Column{{Head: "Edge"}, {Head: "Seam", Wide: true}, {Head: "Allowance", Unit: "mm", Number: true}, {Head: "Sewn length", Unit: "mm", Number: true}}}
	for i, e := range page.Pattern.Edges {
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Text(e.Name), table.Text(string(e.Seam)), table.Text(short(stage.Allowed(e))), table.Text(fmt.Sprintf("%.1f", page.edgeLength(i)))}})
	}
	return t
}

func (page patternPage) cutArea() figure.Figure {
	cut, _ := page.Figures()
	return cut
}

func (page patternPage) sewnArea() figure.Figure {
	_, sewn := page.Figures()
	return sewn
}

func (page patternPage) edgeLength(i int) float64 { return lineLength(page.Pattern.Line(i)) }

// lineLength is how long a line is, mm.
func lineLength(line build.Ring) float64 {
	var sum float64
	for j := range line[1:] {
		sum += math.Hypot(line[j+1][0].Mm()-line[j][0].Mm(), line[j+1][1].Mm()-line[j][1].Mm())
	}
	return sum
}

// historyTable is every revision with what it changed, the last first.
func (page patternPage) historyTable() table.Table {
	t := table.Table{ID: "revisions", Caption: "Revisions", Columns: []table.Column{{Head: "No", Number: true}, {Head: "Day"}, {Head: "By"}, {Head: "From", Wide: true}, {Head: "Why", Wide: true}, {Head: "What changed", Wide: true}}}
	var last *build.Pattern
	for i := range page.Build.Patterns {
		one := &page.Build.Patterns[i]
		if one.Piece != page.Piece.ID {
			continue
		}
		changed := "the first"
		if last != nil {
			changed = stage.Steps(*last, *one)
		}
		last = one
		row := table.Row{Cells: []table.Cell{table.Text(strconv.Itoa(one.Revision)), table.Text(one.Day.String()), table.Text(string(one.By)), table.Text(page.fromWords(*one)), table.Text(one.Why), table.Text(changed)}}
		t.Rows = append([]table.Row{row}, t.Rows...)
	}
	return t
}

// seamOptions are the kinds of seam of an edge.
func seamOptions(picked string) []field.Option {
	var list []field.Option
	for _, k := range build.SeamKinds() {
		list = append(list, field.Option{Value: string(k), Label: string(k), Picked: string(k) == picked})
	}
	return list
}

func allowanceText(v unit.Length) string {
	if v == 0 {
		return ""
	}
	return short(v.Mm())
}

// shot is one stroke of a pattern as SVG draws it.
type shot struct{ Class, D string }

func (page patternPage) strokes() []shot {
	var list []shot
	for _, s := range page.Drawn.Strokes {
		d := ringPath(s.Points)
		if !s.Closed {
			d = strings.TrimSuffix(d, "Z")
		}
		list = append(list, shot{"patt-" + string(s.Layer), d})
	}
	return list
}

func (page patternPage) viewBox() string {
	b := geom.Polygon{Outer: page.Drawn.Strokes[0].Points}.Bounds()
	return fmt.Sprintf("%.1f %.1f %.1f %.1f", b.Min.X-edge, -b.Max.Y-edge, b.Width()+2*edge, b.Height()+2*edge)
}

// textSize keeps words readable on a large piece.
func (page patternPage) textSize() string {
	b := geom.Polygon{Outer: page.Drawn.Strokes[0].Points}.Bounds()
	return short(math.Max(b.Width(), b.Height()) / 34)
}

// edgeName is where the name of an edge stands: inside the middle of it.
type edgeName struct{ X, Y, Text string }

func (page patternPage) edgeNames() []edgeName {
	var list []edgeName
	mid := geom.Ring(page.Drawn.Strokes[0].Points).Centroid()
	for i, e := range page.Pattern.Edges {
		q := halfway(page.Pattern.Line(i), page.edgeLength(i)/2)
		way := mid.Sub(q)
		q = q.Add(way.Scale(math.Min(14/math.Max(math.Hypot(way.X, way.Y), 1), 0.4)))
		list = append(list, edgeName{short(q.X), short(-q.Y), e.Name})
	}
	return list
}

// halfway is the place so many mm along a line.
func halfway(line build.Ring, rest float64) geom.Point {
	at := func(i int) geom.Point { return geom.Point{X: line[i][0].Mm(), Y: line[i][1].Mm()} }
	for i := range line[1:] {
		step := at(i + 1).Sub(at(i))
		long := math.Hypot(step.X, step.Y)
		if rest <= long && long > 0 {
			return at(i).Add(step.Scale(rest / long))
		}
		rest -= long
	}
	return at(0)
}

// outlineText is the sewn line as its field has it.
func (page patternPage) outlineText() string {
	if page.Bare {
		return ""
	}
	return lineOfPattern(page.Pattern).text()
}

// show is the page, of a piece with or without a pattern.
func (page patternPage) show() templ.Component {
	if page.Bare {
		return showBare(page)
	}
	return showPattern(page)
}

func motifKinds(picked string) []field.Option {
	return field.Pick([]field.Option{{Value: "stitch", Label: "stitched"}, {Value: "motif", Label: "marked, to look at"}, {Value: "cut", Label: "cut"}}, picked)
}

func (s squared) viewBox() string {
	b := geom.Polygon{Outer: append(slices.Clone(s.Was.Points), s.Is.Points...)}.Bounds()
	return fmt.Sprintf("%.1f %.1f %.1f %.1f", b.Min.X-edge, -b.Max.Y-edge, b.Width()+2*edge, b.Height()+2*edge)
}

// words say how much squaring moved.
func (s squared) words() string {
	gone := len(s.Was.Points) - len(s.Told.From)
	words := fmt.Sprintf("%d corners move, the farthest place of the line by %.1f mm; points that lay nearly on straight sides: %d.", len(s.Told.Moved), s.Told.Most, gone)
	if len(s.Told.Moved) == 0 && gone == 0 {
		words = "It is square already: nothing moves."
	}
	if s.Told.Held > 0 {
		words += fmt.Sprintf(" %d sides keep their way: a corner would have gone more than 5 mm.", s.Told.Held)
	}
	return words
}
