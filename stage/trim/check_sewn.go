package trim

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fettle/build"
	"fettle/engine/pattern"
	"fettle/figure"
	"fettle/geom"
	"fettle/takeoff"
)

// sewnChecks are what the patterns and seams say is, or will be, wrong.
func sewnChecks(b *build.Build) []takeoff.Check {
	var list []takeoff.Check
	for _, m := range b.Seams {
		list = append(list, lost(b, m)...)
		list = append(list, shortBobbin(b, m)...)
	}
	list = append(list, misfits(b)...)
	for _, piece := range b.Pieces {
		if p := b.Pattern(piece.ID); p != nil {
			list = append(list, older(b, *p)...)
			list = append(list, cutOtherwise(b, piece, *p)...)
			list = append(list, unpaired(b, piece, *p)...)
		}
	}
	list = append(list, oneHanded(b)...)
	list = append(list, noArrow(b)...)
	list = append(list, wrongGlue(b)...)
	list = append(list, unreckoned(b)...)
	return append(list, uncovered(b)...)
}

// lost says that a seam names an edge that the pattern has no more.
func lost(b *build.Build, m build.Seam) []takeoff.Check {
	var list []takeoff.Check
	for _, e := range lostEdges(b, m) {
		p := b.Pattern(e.Piece)
		list = append(list, takeoff.Check{ID: fmt.Sprintf("seam-edge/%s/%s/%s", m.ID, e.Piece, e.Edge), Weight: takeoff.Tight, Link: "trim",
			Says:   fmt.Sprintf("seam %s is sewn along the edge %s of %s, which revision %d of its pattern has not", m.ID, e.Edge, e.Piece, p.Revision),
			Do:     "name the edge that took its place, or take the seam off the list",
			Figure: figure.Figure{Name: "edges of " + string(e.Piece), Text: fmt.Sprint(len(p.Edges)), Formula: "edges of the last revision", With: edgeNames(*p)}})
	}
	return list
}

func edgeNames(p build.Pattern) string {
	var names []string
	for _, e := range p.Edges {
		names = append(names, e.Name)
	}
	return strings.Join(names, ", ")
}

// misfits says which seams' sides do not agree beyond their ease.
func misfits(b *build.Build) []takeoff.Check {
	s := SewnOf(b)
	var list []takeoff.Check
	for _, m := range s.Set.Seams {
		f, err := s.Set.Fit(m)
		if err == nil && f.Fits {
			continue
		}
		c := takeoff.Check{ID: "seam-fit/" + m.ID, Weight: takeoff.Slipping, Link: "trim", Do: "correct the patterns, or say how much ease is designed; cut nothing from it before"}
		c.Figure = figure.Figure{Name: "sides of seam " + m.ID, Formula: "length of side B ÷ length of side A − 1, within 1 % of the ease that is designed, no stretch between two notches over 3 %"}
		if err != nil {
			c.Says, c.Figure.Text, c.Figure.With = fmt.Sprintf("seam %s %s cannot be laid out: %s", m.ID, m.Name, err), "unknown", err.Error()
		} else {
			c.Says = fmt.Sprintf("the sides of seam %s, %s, do not agree: %s", m.ID, m.Name, fitWords(f))
			c.Figure.Text, c.Figure.With = fmt.Sprintf("%+.1f %%", 100*f.Ease), fmt.Sprintf("%.1f ÷ %.1f mm − 1 = %+.2f %%; designed %+.2f %%", f.B, f.A, 100*f.Ease, 100*f.Designed)
		}
		list = append(list, c)
	}
	return list
}

func fitWords(f pattern.Fit) string {
	if f.Tell != "" {
		return f.Tell
	}
	for _, p := range f.Parts {
		if p.Tell != "" {
			return p.Tell
		}
	}
	return ""
}

// older says that a pattern was made from a scan that another took the place of.
func older(b *build.Build, p build.Pattern) []takeoff.Check {
	u := b.Surface(p.Source.Surface)
	if p.Source.Kind != build.FromSurface || u == nil || u.Scan == p.Source.Scan {
		return nil
	}
	return []takeoff.Check{{ID: "pattern-old/" + string(p.Piece), Weight: takeoff.Tight, Link: "trim",
		Says: fmt.Sprintf("the pattern of %s was made from an earlier scan of surface %s, %s", p.Piece, u.ID, u.Name),
		Do:   "lay the surface flat again and keep the next revision, or say why the old one still holds",
		Figure: figure.Figure{Name: "scan of " + string(u.ID), Text: short8(u.Scan), Formula: "the scan the pattern was made from, beside the one there is",
			With: fmt.Sprintf("made from %s, there is %s", short8(p.Source.Scan), short8(u.Scan))}}}
}

func short8(h build.ScanHash) string { return string(h)[:min(8, len(h))] }

// offCut is how far a cut line may lie from that of its pattern, in mm.
const offCut = 0.5

// cutOtherwise says that a piece is not cut as its pattern gives it: that it is
// cut to another line than the one kept with the pattern, or that this line
// does not leave the allowances of the sewn one.
func cutOtherwise(b *build.Build, piece build.Piece, p build.Pattern) []takeoff.Check {
	why := ""
	kept := p.Cut.Polygon().Outer
	flat, err := PatternOf(b, p, false).Flat()
	off := 0.0
	if is := piece.Cut(); !slices.Equal(is.Outer, p.Cut.Outer) {
		off = apart(is.Polygon().Outer, kept)
	}
	switch {
	case err != nil:
		why = "its pleats do not fit it: " + err.Error()
	case off > offCut:
		why = fmt.Sprintf("the two lines lie up to %.1f mm apart", off)
	default:
		if edge, at, want := allowanceOff(flat, kept); edge != "" {
			why = fmt.Sprintf("along the edge %s it leaves %.1f mm, %.1f mm are allowed", edge, at, want)
		}
	}
	if why == "" {
		return nil
	}
	return []takeoff.Check{{ID: "pattern-cut/" + string(piece.ID), Weight: takeoff.Tight, Link: "trim",
		Says: fmt.Sprintf("%s %s is not cut as revision %d of its pattern gives it: %s", piece.ID, piece.Name, p.Revision, why),
		Do:   "keep the next revision, which cuts the piece to it, or draw the pattern as the piece is cut",
		Figure: figure.Figure{Name: "cut line of " + string(piece.ID), Text: why, Formula: "sewn line, what pleats take up and the allowance of every edge, beside the shape that is cut",
			With: why, Inputs: []figure.Input{{Name: "doubted from", Value: fmt.Sprintf("%.1f mm", offCut), Source: figure.TradeDefault}}}}}
}

// allowanceOff looks from the middle of every side of the sewn line for the cut
// line. Nowhere may it be nearer than the allowance of the edge; nor further,
// where the side is so long that no corner takes it in. It returns the edge
// that is worst off, what is left there and what is allowed.
func allowanceOff(p pattern.Piece, cut []geom.Point) (edge string, at, want float64) {
	worst := offCut
	for k, e := range p.Edges {
		last := p.Edges[(k+1)%len(p.Edges)].From
		if last <= e.From {
			last += len(p.Line)
		}
		for i := e.From; i < last; i++ {
			from, to := p.Line[i%len(p.Line)], p.Line[(i+1)%len(p.Line)]
			d := toLine(geom.Point{X: (from.X + to.X) / 2, Y: (from.Y + to.Y) / 2}, cut)
			off := e.Allowed() - d
			if off < 0 && from.Distance(to) < 4*e.Allowed() {
				continue
			}
			if math.Abs(off) > worst {
				worst, edge, at, want = math.Abs(off), e.Name, d, e.Allowed()
			}
		}
	}
	return edge, at, want
}

// apart is how far two closed lines lie from each other where they are
// furthest: over the corners of both, the distance to the other line.
func apart(a, b []geom.Point) float64 {
	far := 0.0
	for _, pair := range [2][2][]geom.Point{{a, b}, {b, a}} {
		for _, q := range pair[0] {
			far = max(far, toLine(q, pair[1]))
		}
	}
	return far
}

func toLine(q geom.Point, ring []geom.Point) float64 {
	least := math.Inf(1)
	for i, p := range ring {
		way := ring[(i+1)%len(ring)].Sub(p)
		off := q.Sub(p)
		long := float64(way.X*way.X) + float64(way.Y*way.Y)
		share := 0.0
		if long > 0 {
			share = min(max((float64(off.X*way.X)+float64(off.Y*way.Y))/long, 0), 1)
		}
		least = min(least, q.Distance(geom.Point{X: p.X + float64(way.X*share), Y: p.Y + float64(way.Y*share)}))
	}
	return least
}
