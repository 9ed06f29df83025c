package surface

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"fettle/geom"
)

func board() Board {
	s := tent()
	s.Spots = nil
	b := Board{Name: "tent", Solid: s, Side: Side("front"), Cut: "cut", On: "up", Laid: "down", Path: func(side string) string { return "?side=" + side }}
	b.Words[Pulled] = "stretch"
	return b
}

// TestBoard_Said: before it is laid flat the island gets the solid alone, after
// it the flat shape in the order of its faces, each with class and measures.
func TestBoard_Said(t *testing.T) {
	b := board()
	got := b.Said(true)
	if len(got.Points) != 15 || len(got.Faces) != 12 || got.Flat != nil || got.Class != "" || len(got.Measures) != 0 {
		t.Errorf("before: %+v", got)
	}
	if got.Words[Pulled] != "stretch" || got.Words[Lies] != "lies by itself" || got.Cut != "cut" {
		t.Errorf("words %v", got.Words)
	}
	b.Flat = &Flat{Points: []geom.Point{{}, {X: 10.006}, {X: 10, Y: 10}, {Y: 10}, {X: 5, Y: 5}}, Faces: b.Solid.Faces, Class: b.Solid.Class, Spots: []Spot{{1, "1"}}, Lines: [][2]geom.Point{{{X: 1}, {X: 2}}}}
	b.Source = []int32{0, 1, 2, 3, 4}
	b.Measures = []Measure{Measured("area", 4, func(i int) float64 { return float64(i) / 100 })}
	got = b.Said(false)
	if got.Points != nil || got.Faces != nil || got.Class != "0153" || len(got.Flat.Source) != 5 || got.Flat.Points[2] != 10.01 || got.Measures[0].Of[3] != 30 || got.Lines[0][2] != 2 || len(got.Paths) != 1 {
		t.Errorf("after: %+v, flat %+v", got, got.Flat)
	}
	text, err := json.Marshal(Board{Cut: "cut"}.Said(false))
	if err != nil || strings.Contains(string(text), "null,\"class") == false || !strings.Contains(string(text), `"paths":[]`) || !strings.Contains(string(text), `"lines":[]`) {
		t.Errorf("empty: %s, %v", text, err)
	}
}

// TestShow_WithoutScript: still pictures and every way to look, and the words
// for a cut throughout.
func TestShow_WithoutScript(t *testing.T) {
	var out bytes.Buffer
	if err := Show(board()).Render(t.Context(), &out); err != nil {
		t.Fatal(err)
	}
	page := out.String()
	for _, want := range []string{"tent, seen from: Front", `href="?side=above"`, `aria-current="true"`, "Draw a cut", "Cut off", `aria-keyshortcuts="Control+Z"`, `data-needs="place"`, "sf-h-3"} {
		if !strings.Contains(page, want) {
			t.Errorf("the board lacks %q", want)
		}
	}
	if strings.Contains(strings.ReplaceAll(page, `data-act="seam"`, ""), "Draw a seam") {
		t.Error("a cut is called a seam")
	}
}

func TestMarks(t *testing.T) {
	long := make([]int32, 1000)
	for i := range long {
		long[i] = int32(i)
	}
	if got := Marks([][]int32{{7, 8, 9}}); len(got) != 3 || got[0] != 7 {
		t.Errorf("of three: %v", got)
	}
	if got := Marks([][]int32{long}); len(got) < 20 || len(got) > 40 || got[1]-got[0] != got[2]-got[1] {
		t.Errorf("of a thousand: %v", got)
	}
	if got := Marks([][]int32{long, long, long, long, long}); len(got) > 84 {
		t.Errorf("of five rims: %d", len(got))
	}
}

func TestOffers(t *testing.T) {
	draw := func(o Offered) string {
		var out bytes.Buffer
		if err := Offers(o).Render(t.Context(), &out); err != nil {
			t.Fatal(err)
		}
		return out.String()
	}
	if got := draw(Offered{Title: "Where"}); got != "" {
		t.Errorf("nothing was asked for: %s", got)
	}
	if got := draw(Offered{Looked: true, Title: "Where", None: "leave it whole"}); !strings.Contains(got, "leave it whole") {
		t.Errorf("nothing found: %s", got)
	}
	if got := draw(Offered{Looked: true, Title: "Where", Says: "take one", List: []Offer{{"3 4", "dart, 40 mm", "?cuts=3+4"}}}); !strings.Contains(got, `data-take="3 4"`) || !strings.Contains(got, `href="?cuts=3+4"`) || strings.Contains(got, "leave") {
		t.Errorf("one found: %s", got)
	}
}
