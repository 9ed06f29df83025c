package trim

import (
	"math"
	"net/url"
	"slices"
	"strings"
	"testing"

	"fettle/build"
	"fettle/internal/placetest"
	stage "fettle/stage/trim"
	"fettle/unit"
)

// drawnBench is the shop with a pattern of T33 entered by its corners: 400 × 300
// mm, its front named.
func drawnBench(t *testing.T) *placetest.Bench {
	t.Helper()
	b := flatBench(t)
	// Clockwise, to be turned round; the edge behind a name runs as it is typed.
	if a := b.Post(t33+"/outline", url.Values{"outline": {"100 100 left\n100 400 rear\n500 400 right\n500 100 front"}, "do": {""}, "why": {""}}); a.Status != 303 {
		t.Fatalf("%d %.600s", a.Status, a.Body)
	}
	keepAll(t, b)
	return b
}

const t33 = "/b/pedlar/trim/pattern/T33"

func lastOf(t *testing.T, b *placetest.Bench, id build.PieceID) build.Pattern {
	t.Helper()
	now := b.Now(t)
	p := now.Pattern(id)
	if p == nil {
		t.Fatalf("%s has no pattern", id)
	}
	return *p
}

// revised sends a form, keeps what it proposes and returns the pattern.
func revised(t *testing.T, b *placetest.Bench, form string, v url.Values) build.Pattern {
	t.Helper()
	v.Set("why", "a trial")
	if a := b.Post(t33+"/"+form, v); a.Status != 303 {
		t.Fatalf("%s: %d %.600s", form, a.Status, a.Body)
	}
	keepAll(t, b)
	return lastOf(t, b, "T33")
}

func TestPattern_EnteredByCorners(t *testing.T) {
	b := drawnBench(t)
	p := lastOf(t, b, "T33")
	want := map[string]float64{"front": 400, "right": 300, "rear": 400, "left": 300}
	for i, e := range p.Edges {
		if got := lineLength(p.Line(i)); math.Abs(got-want[e.Name]) > 0.01 {
			t.Errorf("edge %s is %.1f mm, want %.1f", e.Name, got, want[e.Name])
		}
		if line := p.Line(i); e.Name == "front" && (line[0][1] != 0 || line[1][1] != 0) {
			t.Errorf("the front runs from %v to %v, it lies below", line[0], line[1])
		}
	}
	now := b.Now(t)
	if got := now.Piece("T33").Shape.Area().M2(); math.Abs(got-0.424*0.324) > 1e-4 || p.Source.Kind != build.ByHand {
		t.Errorf("it is cut to %.4f m², want both sizes with 12 mm all round", got)
	}
	// Another line keeps the seams of edges that keep their names.
	revised(t, b, "edges", url.Values{"name-left": {"left"}, "name-rear": {"top edge"}, "name-right": {"right"}, "name-front": {"front"}, "seam-left": {"plain"}, "seam-rear": {"hem"}, "allow-rear": {"25"}, "seam-right": {"plain"}, "seam-front": {"raw"}})
	p = revised(t, b, "outline", url.Values{"outline": {"0 0 front\n420 0 right\n420 300 top edge\n0 300 left"}})
	if e, _ := p.Edge("top edge"); e == nil || e.Seam != build.Hem || e.Allowance != 25*unit.Millimetre {
		t.Errorf("the rear edge is %+v", e)
	}
	holds(t, b.Get(t33), 200, "edge front: raw", "sewn line +60 cm²", "a trial", "420 300 top edge")
}

func TestPattern_OutlineFromAFile(t *testing.T) {
	b := flatBench(t)
	svg := `<svg xmlns="http://www.w3.org/2000/svg" width="400mm" height="300mm" viewBox="0 0 400 300"><path d="M0 0H400V300H0Z M150 100H250V200H150Z"/></svg>`
	a := b.Send(t33+"/outline", url.Values{"outline": {""}, "unit": {""}, "do": {""}, "why": {""}}, "file", "card.svg", []byte(svg))
	if a.Status != 303 {
		t.Fatalf("%d %.500s", a.Status, a.Body)
	}
	keepAll(t, b)
	p := lastOf(t, b, "T33")
	if len(p.Edges) != 4 || len(p.Lines) != 1 || p.Lines[0].Kind != "cut" || p.Source.File != "card.svg" {
		t.Errorf("%d edges, %d lines, from %+v", len(p.Edges), len(p.Lines), p.Source)
	}
	// A motif from a drawing: its middle at a place, as wide as said, turned.
	a = b.Send(t33+"/motif", url.Values{"kind": {"stitch"}, "name": {"diamond"}, "x": {"100"}, "y": {"80"}, "wide": {"50"}, "turn": {"90"}, "pitch": {"3"}, "unit": {""}, "reads": {"yes"}, "why": {"a crest"}}, "file", "a.svg", []byte(`<svg xmlns="http://www.w3.org/2000/svg" width="10mm" height="10mm" viewBox="0 0 10 10"><path d="M0 5L5 0L10 5L5 10Z"/></svg>`))
	if a.Status != 303 {
		t.Fatalf("%d %.500s", a.Status, a.Body)
	}
	keepAll(t, b)
	l := lastOf(t, b, "T33").Lines[1]
	box := build.Shape{Outer: l.Points}.Polygon().Bounds()
	if !l.Closed || !l.Reads || l.Pitch != 3*unit.Millimetre || math.Abs(box.Width()-50) > 0.01 || math.Abs(box.Min.X-75) > 0.01 || math.Abs(box.Max.Y-105) > 0.01 {
		t.Errorf("the motif is %+v within %v", l, box)
	}
	holds(t, b.Get(t33), 200, "stitch diamond closed reads every 3:")
	holds(t, b.Post(t33+"/motif", url.Values{"kind": {"stitch"}, "x": {"0"}, "y": {"0"}, "why": {"x"}}), 422, "is not chosen")
}

func TestPattern_SquaredUpToLookAt(t *testing.T) {
	b := drawnBench(t)
	// 3 mm out of square, with a point 0.5 mm off a side, and a name on it.
	crooked := "0 0 front\n200 0.5 middle\n400 0 right\n403 300 rear\n0 301 left"
	holds(t, b.Post(t33+"/outline", url.Values{"do": {"square"}, "outline": {crooked}}), 200, "corners move", "goes to", "Broken is what was drawn", "middle")
	if got := len(lastOf(t, b, "T33").Sewn); got != 4 {
		t.Error("looking at it has changed it")
	}
	d, err := readOutline(crooked)
	if err != nil {
		t.Fatal(err)
	}
	s, err := d.square()
	if err != nil {
		t.Fatal(err)
	}
	if len(s.Is.Points) != 5 || len(s.Is.Starts) != 5 || s.Told.Most < 0.4 || s.Told.Most > 3 {
		t.Errorf("%d points, %d edges, moved %.2f", len(s.Is.Points), len(s.Is.Starts), s.Told.Most)
	}
	again, err := readOutline(s.Is.text())
	if err != nil || len(again.Starts) != 5 {
		t.Errorf("what squaring gives is not read again: %v", err)
	}
}

func TestPattern_PleatsHolesMarksAndTwin(t *testing.T) {
	b := drawnBench(t)
	p := revised(t, b, "pleats", url.Values{"loss": {""}, "flat": {"200"}, "sewn": {"185"}, "tested": {"5"}, "count": {"7"}, "angle": {"90"}})
	if w := build.Shape.Polygon(p.Cut).Bounds().Width(); len(p.Lines) != 7 || p.Loss != 3*unit.Millimetre || math.Abs(w-(400+7*3+24)) > 0.05 {
		t.Errorf("%d lines that take up %v each: cut %.1f mm wide", len(p.Lines), p.Loss, w)
	}
	p = revised(t, b, "clips", url.Values{"edge": {"front", "left"}, "pitch": {"120"}, "inset": {"15"}, "diameter": {"8"}, "off": {""}})
	for _, h := range p.Holes {
		if h.At[1] != 15*unit.Millimetre && h.At[0] != 15*unit.Millimetre {
			t.Errorf("a hole at %v is not 15 mm inside", h.At)
		}
	}
	if len(p.Holes) != 4+3 { // 320 mm in three, 220 in two
		t.Errorf("%d holes", len(p.Holes))
	}
	holds(t, b.Get(t33), 200, "It has 7 holes", "patt-hole")
	p = revised(t, b, "drawn", url.Values{"drawn": {drawnOnText(p) + "point headrest: 200 250\nstitch badge closed: 40 40, 80 40, 60 80\n"}})
	p = revised(t, b, "label", url.Values{"label": {"needs the foam first"}, "axis": {"90"}, "tolerance": {"15"}})
	now := b.Now(t)
	if len(p.Lines) != 8 || len(p.Marks) != 1 || p.Label == "" || now.Piece("T33").Axis.Angle != 90 {
		t.Errorf("%d lines, %d marks, %q", len(p.Lines), len(p.Marks), p.Label)
	}
	sheets, err := stage.PatternSheets(&now)
	if err != nil {
		t.Fatal(err)
	}
	layers := map[string]int{}
	for _, s := range sheets {
		if s.Piece.ID == "T33" {
			for _, k := range s.Drawn.Strokes {
				layers[string(k.Layer)]++
			}
		}
	}
	if layers["hole"] != 7 || layers["pleat"] != 7 || layers["notch"] < 2 || layers["stitch"] != 1 {
		t.Errorf("drawn are %v", layers)
	}
	if a := b.Post(t33+"/back", nil); a.Status != 303 {
		t.Errorf("the last revision taken back: %d", a.Status)
	}
}

func TestPattern_TwinIsItsMirrorImage(t *testing.T) {
	b := drawnBench(t)
	revised(t, b, "outline", url.Values{"outline": {"0 0 front\n400 0 right\n400 200 slope\n100 300 rear\n0 300 left"}})
	p := revised(t, b, "drawn", url.Values{"drawn": {"stitch badge reads: 20 20, 60 20, 40 50"}})
	if a := b.Post(t33+"/twin", url.Values{"id": {"t90"}, "name": {"the other side"}}); a.Status != 303 {
		t.Fatalf("%d %.500s", a.Status, a.Body)
	}
	keepAll(t, b)
	q, now := lastOf(t, b, "T90"), b.Now(t)
	if now.Piece("T33").Pair != "T90" || now.Piece("T90").Pair != "T33" || math.Abs(q.Cut.Area().M2()-p.Cut.Area().M2()) > 1e-6 {
		t.Error("it is no pair of one size")
	}
	for i, e := range p.Edges {
		_, k := q.Edge(e.Name)
		if k < 0 || math.Abs(lineLength(p.Line(i))-lineLength(q.Line(k))) > 0.01 {
			t.Errorf("edge %s has another length", e.Name)
		}
	}
	if l := q.Lines[0].Points; l[0] != (build.Spot{340 * unit.Millimetre, 20 * unit.Millimetre}) || l[1][0] <= l[0][0] {
		t.Errorf("lettering is mirrored: %v", l)
	}
	back := stage.TwinOf(q, "T33")
	if !slices.Equal(back.Sewn, p.Sewn) {
		t.Error("mirrored twice it is another")
	}
	holds(t, b.Post(t33+"/twin", url.Values{"id": {"T90"}, "name": {"x"}}), 422, "is taken", "there already")
}

func TestPattern_WhatIsTypedWrong(t *testing.T) {
	b := drawnBench(t)
	for _, one := range []struct {
		form, name, value, says string
	}{
		{"outline", "outline", "0 0\n1", "is not x y in mm"},
		{"outline", "outline", "0 0 a\n100 0 a\n100 100", "two edges are called"},
		{"outline", "outline", "0 0\n100 100\n100 0\n0 100", "cross"},
		{"drawn", "drawn", "wish: 1 2, 3 4", "is none of"},
		{"drawn", "drawn", "stitch: 1 2", "two places or more"},
		{"drawn", "drawn", "point: 1 2, 3 4", "stands at one place"},
		{"drawn", "drawn", "stitch 1 2", "and a colon"},
		{"drawn", "drawn", "stitch every x: 1 2, 3 4", "is no number"},
		{"drawn", "drawn", "stitch thread L99: 1 2, 3 4", "does not hold"},
		{"pleats", "count", "500", "must be from 0 to 200"},
		{"clips", "pitch", "100", "tick the edges"},
		{"label", "axis", "x", "is not a number"},
	} {
		v := url.Values{"why": {"a trial"}, "inset": {"15"}, "diameter": {"8"}, one.name: {one.value}}
		holds(t, b.Post(t33+"/"+one.form, v), 422, one.says)
	}
	holds(t, b.Post(t33+"/clips", url.Values{"why": {"x"}, "edge": {"front"}, "pitch": {"100"}, "inset": {"200"}, "diameter": {"8"}}), 422, "leaves no room for")
	holds(t, b.Post(t33+"/outline", url.Values{"outline": {"0 0\n100 0\n100 100"}, "why": {""}}), 422, "is empty")
	if a := b.Get("/b/pedlar/trim/patterns"); a.Status != 200 || !strings.Contains(a.Body, "Draw its pattern") {
		t.Errorf("the set does not lead to what is not drawn: %d", a.Status)
	}
}
