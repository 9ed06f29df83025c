package trim

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"fettle/build"
	"fettle/geom"
	"fettle/internal/desk"
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
}

func (p place) patternPage(r *web.Request) (patternPage, error) {
	s, err := p.load(r)
	if err != nil {
		return patternPage{}, err
	}
	page := patternPage{sheet: s}
	hands, err := s.sheetsOf(r)
	if err != nil {
		return page, err
	}
	page.PatternSheet = hands[0]
	page.Edges, page.History = page.edgeTable(), page.historyTable()
	return page, nil
}

func (page patternPage) dressed() web.Sheet {
	return web.Sheet{Place: "trim", Shown: fmt.Sprintf("pattern %s, revision %d", page.Piece.ID, page.Pattern.Revision)}
}

func (p place) pattern(r *web.Request) error {
	page, err := p.patternPage(r)
	if err != nil {
		return err
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

// setPattern keeps seams and allowances of the edges, and pleat lines, as the
// next revision.
func (p place) setPattern(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	page, err := p.patternPage(r)
	if err != nil {
		return err
	}
	next := page.Pattern
	next.Revision++
	next.Edges = append([]build.PatternEdge{}, page.Pattern.Edges...)
	kinds := make([]string, 0, len(build.SeamKinds()))
	for _, k := range build.SeamKinds() {
		kinds = append(kinds, string(k))
	}
	for i := range next.Edges {
		e := &next.Edges[i]
		e.Seam = build.SeamKind(f.Choice("seam-"+e.Name, kinds...))
		e.Allowance = 0
		if strings.TrimSpace(f.Raw("allow-"+e.Name)) != "" {
			e.Allowance = length(f, "allow-"+e.Name, 0, 200)
		}
	}
	next.Why, next.Day, next.By = f.Text("why", 1, 200), page.Today, build.PersonID(r.Person().Code)
	if f.Err() == nil {
		if err := stage.WorkCut(page.Build, &next); err != nil {
			f.Fail("why", "cannot be kept: no cut line holds these allowances: "+err.Error())
		}
	}
	c := &build.SetPattern{Pattern: next}
	desk.Holds(f, page.Build, "why", c)
	if f.Err() != nil {
		page.acts = acts{Open: "pattern", Wrong: f.Errors, typed: f.Raw}
		return r.Invalid(page.dressed(), showPattern(page))
	}
	return p.desk.Propose(r, page.Base+"/slip", c)
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
