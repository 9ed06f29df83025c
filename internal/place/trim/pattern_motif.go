package trim

import (
	"math"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/geom"
	"fettle/internal/shapein"
	"fettle/internal/web"
	"fettle/unit"
)

// spotAt is a place of millimetres.
func spotAt(q geom.Point) build.Spot {
	return build.ShapeOf(geom.Polygon{Outer: []geom.Point{q}}).Outer[0]
}

func outlineLow(list []geom.Point) geom.Point { return geom.Polygon{Outer: list}.Bounds().Min }

// mostMotif is how many lines one drawing may bring.
const mostMotif = 200

// readMotif reads the lines of a drawing and lays them on the pattern: its middle
// at a place, turned, and scaled to a width.
func readMotif(f *web.Form, page *patternPage, next *build.Pattern) []build.Change {
	kind, name := f.Choice("kind", "stitch", "motif", "cut"), f.Text("name", 0, 40)
	at := geom.Point{X: length(f, "x", -20_000, 20_000).Mm(), Y: length(f, "y", -20_000, 20_000).Mm()}
	wide, pitch := maybe(f, "wide", 1, 20_000).Mm(), maybe(f, "pitch", 0, 50)
	turn := 0.0
	if strings.TrimSpace(f.Raw("turn")) != "" {
		turn = float64(f.Decimal("turn", 1, -3600, 3600)) / 10
	}
	in, head := f.File("file")
	if in == nil {
		f.Fail("file", "is not chosen: a DXF or SVG drawing")
		return nil
	}
	defer in.Close()
	lines, err := shapein.Lines(head.Filename, in, shapein.Unit(f))
	if err == nil && len(lines) > mostMotif {
		err = fault.New(fault.TooLarge, "has %d lines, at most %d", len(lines), mostMotif)
	}
	if err != nil {
		f.Fail("file", err.Error())
		return nil
	}
	var all []geom.Point
	for _, l := range lines {
		all = append(all, l.Points...)
	}
	box := geom.Polygon{Outer: all}.Bounds()
	mid, scale := box.Min.Add(box.Max).Scale(0.5), 1.0
	if wide > 0 && box.Width() > 0 {
		scale = wide / box.Width()
	}
	sin, cos := math.Sincos(turn * math.Pi / 180)
	for _, l := range lines {
		one := build.PatternLine{Kind: kind, Name: name, Closed: l.Closed, Pitch: pitch, Reads: f.Has("reads")}
		for _, q := range l.Points {
			q = q.Sub(mid).Scale(scale)
			one.Points = append(one.Points, spotAt(at.Add(geom.Point{X: q.X*cos - q.Y*sin, Y: q.X*sin + q.Y*cos})))
		}
		next.Lines = append(next.Lines, one)
	}
	return nil
}

// middle is the middle of a pattern, where a motif goes unless it is said.
func (page patternPage) middle() (x, y string) {
	if page.Bare {
		return "", ""
	}
	low, high := page.Pattern.Sewn[0], page.Pattern.Sewn[0]
	for _, s := range page.Pattern.Sewn {
		for i := range s {
			low[i], high[i] = min(low[i], s[i]), max(high[i], s[i])
		}
	}
	half := func(a, b unit.Length) string { return short(math.Round((a + b).Mm() / 2)) }
	return half(low[0], high[0]), half(low[1], high[1])
}
