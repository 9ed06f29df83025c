package trim_test

import (
	"slices"
	"strings"
	"testing"

	"fettle/build"
	"fettle/stage/trim"
	"fettle/takeoff"
	"fettle/unit"
)

// TestChecks_OfWhatIsSewn: each fault is found by its check and by no other.
func TestChecks_OfWhatIsSewn(t *testing.T) {
	scan := func(s string) build.ScanHash { return build.ScanHash(strings.Repeat(s, 32)) }
	for _, tt := range []struct {
		id, says string
		do       func(*build.Build)
	}{
		{"", "", func(*build.Build) {}},
		{"seam-edge/Z1/A/foot", "which revision 1 of its pattern has not", func(b *build.Build) { b.Patterns[0].Edges[0].Name = "toe" }},
		{"seam-fit/Z1", "410.0 mm, side A 400.0 mm: 2.5 %", func(b *build.Build) {
			b.Patterns[1].Sewn, b.Patterns[1].Cut = build.Ring{{12 * mm, 12 * mm}, {422 * mm, 12 * mm}, {422 * mm, 412 * mm}, {12 * mm, 412 * mm}}, build.Box(434*mm, 424*mm)
			b.Pieces[1].Width = 434 * mm
		}},
		{"", "", func(b *build.Build) {
			b.Patterns[1].Sewn, b.Patterns[1].Cut = build.Ring{{12 * mm, 12 * mm}, {422 * mm, 12 * mm}, {422 * mm, 412 * mm}, {12 * mm, 412 * mm}}, build.Box(434*mm, 424*mm)
			b.Pieces[1].Width, b.Seams[0].Ease = 434*mm, 2.5
		}},
		{"pattern-old/A", "earlier scan", func(b *build.Build) {
			b.Surfaces = []build.Surface{{ID: "U1", Scan: scan("00")}}
			b.Patterns[0].Source = build.PatternSource{Kind: build.FromSurface, Surface: "U1", Scan: scan("11")}
		}},
		{"", "", func(b *build.Build) {
			b.Surfaces = []build.Surface{{ID: "U1", Scan: scan("11")}}
			b.Patterns[0].Source = build.PatternSource{Kind: build.FromSurface, Surface: "U1", Scan: scan("11")}
		}},
		{"pattern-cut/A", "up to 2.0 mm apart", func(b *build.Build) { b.Pieces[0].Width += 2 * mm }},
		{"pattern-cut/A", "leaves 9.0 mm, 12.0 mm are allowed", func(b *build.Build) {
			b.Patterns[0].Cut = build.Box(421*mm, 424*mm)
			b.Pieces[0].Width = 421 * mm
		}},
		{"pattern-cut/A", "leaves 20.0 mm", func(b *build.Build) {
			b.Patterns[0].Cut = build.Box(424*mm, 432*mm)
			b.Pieces[0].Height = 432 * mm
		}},
		{"pattern-cut/A", "pleats do not fit it", func(b *build.Build) {
			b.Patterns[0].Loss, b.Patterns[0].Lines = mm, []build.PatternLine{{Kind: "pleat", Points: build.Ring{{500 * mm, 0}, {500 * mm, 9 * mm}}}}
		}},
		{"pattern-pair/A", "not mirror images", func(b *build.Build) {
			b.Pieces[0].Pair, b.Pieces[1].Pair = "B", "A"
			for i := range b.Patterns {
				b.Patterns[i].Sewn = build.Ring{{12 * mm, 12 * mm}, {412 * mm, 12 * mm}, {412 * mm, 412 * mm}, {32 * mm, 412 * mm}}
				b.Patterns[i].Cut = build.Shape{Outer: build.Ring{{-1_232, 0}, {424 * mm, 0}, {424 * mm, 424 * mm}, {20_615, 424 * mm}}}
				b.Pieces[i].Shape = b.Patterns[i].Cut
			}
		}},
		{"pattern-hand/B", "all 1 copies are cut one way", func(b *build.Build) {
			b.Seams[0].B[0].Mirrored = true
			b.Patterns[1].Sewn = build.Ring{{12 * mm, 12 * mm}, {412 * mm, 12 * mm}, {412 * mm, 412 * mm}, {32 * mm, 412 * mm}}
			b.Patterns[1].Cut = build.Shape{Outer: build.Ring{{-1_232, 0}, {424 * mm, 0}, {424 * mm, 424 * mm}, {20_615, 424 * mm}}}
			b.Pieces[1].Shape = b.Patterns[1].Cut
		}},
		{"", "", func(b *build.Build) { b.Seams[0].B[0].Mirrored = true }}, // a square is its own mirror image
		{"pattern-arrow", "1 pattern has no stretch arrow: A square", func(b *build.Build) { b.Pieces[0].Axis = build.Axis{} }},
		{"bobbin/Z1", "too short for one row", func(b *build.Build) { b.Threads[0].Bobbin = unit.Metre / 2 }},
		{"", "", func(b *build.Build) { b.Threads[0].Bobbin, b.Seams[0].Seen = unit.Metre/2, false }},
		{"seam-unknown", "1 seam is not reckoned, for nobody has said Z1: its length, what it is sewn through, its thread", func(b *build.Build) {
			b.Patterns, b.Covers, b.Seams[0].Stack, b.Seams[0].Thread = nil, nil, 0, ""
		}},
		{"supply/thread/tan", "no part on the list covers L1", func(b *build.Build) { b.Threads[0].Part = "" }},
		{"supply/sound deadening/on panels", "3 m² needed and 1 on the list", func(b *build.Build) {
			b.Deadening = []build.Deadener{{ID: "E1", Name: "floor", Area: 5 * unit.SquareMetre / 2, Mass: 4, Part: "Q1"}}
		}},
		{"glue-vinyl/G1", "A is vinyl", func(b *build.Build) {
			b.Covers[0].Kind = "vinyl"
			b.Glues = []build.Glue{{ID: "G1", Name: "card", Area: unit.SquareMetre, Faces: 2, Pieces: []build.PieceID{"A"}, Part: "Q1"}}
		}},
	} {
		b := bag()
		tt.do(&b)
		list := trim.Checks(&b)
		list = slices.DeleteFunc(list, func(c takeoff.Check) bool { return strings.HasPrefix(c.ID, "material/") })
		switch {
		case tt.id == "" && len(list) == 0:
		case len(list) != 1 || list[0].ID != tt.id || !strings.Contains(list[0].Says, tt.says) || list[0].Do == "" || list[0].Figure.With == "":
			t.Errorf("want %q saying %q, got %+v", tt.id, tt.says, list)
		}
	}
}

// TestChecks_OfTheDemosPatterns: what stands there on purpose, and no more.
func TestChecks_OfTheDemosPatterns(t *testing.T) {
	b := morning(t, october)
	var ids []string
	for _, c := range trim.Checks(&b) {
		ids = append(ids, c.ID)
	}
	if got := strings.Join(ids, " "); got != "material/quilted vinyl pattern-arrow supply/board/hardboard 3.0 mm" {
		t.Errorf("checks: %s", got)
	}
}
