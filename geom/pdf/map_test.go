package pdf_test

import (
	"bytes"
	"strings"
	"testing"

	"fettle/geom"
	"fettle/geom/outline"
	"fettle/geom/pdf"
)

// TestCount_WordsAreNotLeftOut: a word far from all lines has its tile, and what
// is empty has none; the map comes before them.
func TestCount_WordsAreNotLeftOut(t *testing.T) {
	far := outline.Plan{Outlines: []outline.Outline{rect("a", 0, 0, 20, 20), rect("a", 900, 900, 20, 20)}}
	two, err := pdf.Count(pdf.Sheet{Plan: far}, a4(t))
	if err != nil || two != 2 {
		t.Errorf("%d pages for two corners, %v", two, err)
	}
	far.Labels = []outline.Label{{Text: "alone", At: geom.Point{X: 450, Y: 450}, Height: 5}}
	if three, _ := pdf.Count(pdf.Sheet{Plan: far}, a4(t)); three != 3 {
		t.Errorf("%d pages, want one for the word", three)
	}
	var b bytes.Buffer
	if err := pdf.Write(&b, []pdf.Sheet{{Title: "far", Plan: far, Map: true}}, a4(t)); err != nil {
		t.Fatal(err)
	}
	if n := strings.Count(b.String(), "/Type /Page\n"); n != 4 {
		t.Errorf("%d pages with the map", n)
	}
}
