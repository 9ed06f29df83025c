package build_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"fettle/build"
	"fettle/unit"
)

// aPattern is that of the mat: 876 × 576 mm sewn, 12 mm allowed on all sides.
func aPattern() build.Pattern {
	return build.Pattern{Piece: "S4", Revision: 1, Sewn: build.Ring{{12 * mm, 12 * mm}, {888 * mm, 12 * mm}, {888 * mm, 588 * mm}, {12 * mm, 588 * mm}},
		Edges: []build.PatternEdge{{Name: "front", Seam: build.Hem, Allowance: 12 * mm}, {Name: "round", First: 1, Seam: build.Plain, Allowance: 12 * mm}},
		Marks: []build.PatternMark{{Kind: "notch", At: build.Spot{450 * mm, 12 * mm}}}, Lines: []build.PatternLine{{Kind: "pleat", Points: build.Ring{{0, 0}, {mm, mm}}}},
		Holes: []build.PatternHole{{At: build.Spot{40 * mm, 40 * mm}, Diameter: 8 * mm}}, Cut: build.Box(900*mm, 600*mm),
		Source: build.PatternSource{Kind: build.FromSurface, Surface: "U1", Scan: aScan()}}
}

func aScan() build.ScanHash { return build.ScanHash(strings.Repeat("5c", 32)) }

func aSurface() build.Surface {
	return build.Surface{ID: "U1", Name: "seat", Scan: aScan(), File: "seat.stl", Scale: 1, Vertices: 4, Faces: 2, Area: unit.SquareMetre, Use: build.ForTrim}
}

func aSeam() build.Seam {
	return build.Seam{ID: "Z1", Name: "wing", Kind: build.Piped, A: []build.EdgeOf{{Piece: "S2", Edge: "front"}}, B: []build.EdgeOf{{Piece: "S3", Edge: "front"}}, Times: 2, Length: 300 * mm,
		Pitch: 4 * mm, Thread: "L1", Cord: "C1", Piping: "S1", Top: 5 * mm, Ease: 2, Seen: true}
}

// sewn gives the cart what is sewn and glued.
func sewn(b *build.Build) {
	hem := build.Seam{ID: "Z0", Name: "hem", Kind: build.Hem, A: []build.EdgeOf{{Piece: "S4", Edge: "front"}}, Times: 1, Pitch: 5 * mm}
	b.Surfaces, b.Patterns, b.Seams = []build.Surface{aSurface()}, []build.Pattern{aPattern()}, []build.Seam{hem, with(aSeam(), func(s *build.Seam) { s.After = []build.SeamID{"Z0"} })}
	b.Threads, b.Cords = []build.Thread{{ID: "L1", Name: "bonded", Tex: 135, Bobbin: 40 * unit.Metre, Part: "Q1"}}, []build.Cord{{ID: "C1", Name: "cord", Diameter: 4 * mm}}
	b.Covers = []build.Cover{{ID: "V1", Material: "hide", Kind: "leather", Thickness: 1200, Along: 7, Across: 11, Squeeze: 1}, {ID: "V2", Material: "hide", Lot: "L2", Kind: "leather", Thickness: 1100}}
	b.Foams = []build.Foam{{ID: "F1", Name: "cushion", Kind: "firm", Density: 40, ILD: 30, Width: 400 * mm, Height: 300 * mm, Thickness: 60 * mm, Quantity: 1, Pieces: []build.PieceID{"S1"}}}
	b.Boards = []build.Board{{ID: "D1", Name: "card", Material: "hardboard", Width: 400 * mm, Height: 300 * mm, Thickness: 3 * mm, Quantity: 2, ClipPitch: 120 * mm}}
	b.Deadening = []build.Deadener{{ID: "E1", Name: "floor", Panels: []build.PanelID{"P1"}, Area: unit.SquareMetre, Mass: 4}}
	b.Glues = []build.Glue{{ID: "G1", Name: "card", Area: unit.SquareMetre / 2, Faces: 2, Pieces: []build.PieceID{"S4"}}}
}

func actsOnSewn() []act {
	second := with(aPattern(), func(p *build.Pattern) { p.Revision, p.Why, p.Cut = 2, "10 mm longer", build.Box(910*mm, 600*mm) })
	return []act{
		{&build.SetSurface{Surface: with(aSurface(), func(s *build.Surface) { s.Scan = build.ScanHash(strings.Repeat("00", 32)) })}, "Surface U1 changed: seat, 4 vertices, 1.00 m²", func(b *build.Build) any {
			return line(len(b.Surfaces), b.Surface("U1").Scan == b.Pattern("S4").Source.Scan)
		}, "1 false"},
		{&build.SetSurface{Surface: with(aSurface(), func(s *build.Surface) { s.ID = "U2" })}, "Surface U2 entered: seat, 4 vertices, 1.00 m²", func(b *build.Build) any { return len(b.Surfaces) }, 2},
		{&build.SetPattern{Pattern: second}, "Pattern of S4 mat, revision 2, from surface U1: cut 910 × 600 mm; 10 mm longer", func(b *build.Build) any {
			return line(len(b.Patterns), b.Pattern("S4").Revision, b.Piece("S4").Width, b.Piece("S4").Shape.Outer[1][0])
		}, "2 2 910 mm 910 mm"},
		{&build.DropPattern{Piece: "S4"}, "Pattern of S4 mat: revision 1 taken out", func(b *build.Build) any { return line(len(b.Patterns), b.Pattern("S4") == nil) }, "0 true"},
		{&build.SetSeam{Seam: aSeam()}, "Seam Z1, wing: piped, S2 front to S3 front, a stitch every 4.0 mm", func(b *build.Build) any { return line(len(b.Seams), len(b.Seam("Z1").After)) }, "2 0"},
		{&build.SetThread{Thread: build.Thread{ID: "L2", Name: "fine", Tex: 70}}, "Thread L2: fine, Tex 70", func(b *build.Build) any { return b.Thread("L2").Tex }, 70},
		{&build.SetCord{Cord: build.Cord{ID: "C2", Name: "thin", Diameter: 3 * mm}}, "Piping cord C2: thin, 3.0 mm", func(b *build.Build) any { return b.Cord("C2").Diameter }, 3 * mm},
		{&build.SetCover{Cover: build.Cover{ID: "V2", Material: "hide", Lot: "L1", Kind: "leather", Thickness: 1100, Loss: 3 * mm, Along: 6, Across: 9}}, "hide, lot L1: 1.1 mm thick, stretches 6 % along and 9 % across, a pleat takes up 3.0 mm",
			func(b *build.Build) any {
				return line(b.CoverOf("hide", "L1").ID, b.CoverOf("hide", "L2").ID, b.CoverOf("felt", "") == nil)
			}, "V2 V1 true"},
		{&build.SetFoam{Foam: build.Foam{ID: "F2", Name: "bolster", Kind: "firm", Density: 48, Width: 90 * mm, Height: 80 * mm, Thickness: 70 * mm, Quantity: 2}}, "Foam F2: 2 × bolster, firm, 90 × 80 × 70 mm", func(b *build.Build) any { return b.Foam("F2").Quantity }, 2},
		{&build.SetBoard{Board: build.Board{ID: "D2", Name: "shelf", Material: "ply", Width: 90 * mm, Height: 80 * mm, Thickness: 4 * mm, Quantity: 1}}, "Board D2: 1 × shelf, 90 × 80 mm of ply", func(b *build.Build) any { return b.Board("D2").Cut().Area() }, unit.Area(7200)},
		{&build.SetDeadener{Deadener: build.Deadener{ID: "E2", Name: "doors", Area: unit.SquareMetre, Mass: 2.5}}, "Sound deadening E2: doors, 1.00 m² of 2.5 kg/m²", func(b *build.Build) any { return b.Deadener("E2").Mass }, 2.5},
		{&build.SetGlue{Glue: build.Glue{ID: "G1", Name: "card", Area: unit.SquareMetre, Faces: 2}}, "Glued joint G1: card, 1.00 m² on 2 faces", func(b *build.Build) any { return line(len(b.Glues), len(b.Glue("G1").Pieces)) }, "1 0"},
		{&build.DropSewn{What: "seam", ID: "Z1"}, "seam Z1 is off the list", func(b *build.Build) any { return len(b.Seams) }, 1},
		{&build.DropSewn{What: "foam", ID: "F1"}, "foam F1 is off the list", func(b *build.Build) any { return len(b.Foams) }, 0},
	}
}

func noesOnPatterns() []no {
	surface := func(f func(*build.Surface)) build.Change { return &build.SetSurface{Surface: with(aSurface(), f)} }
	next := func(f func(*build.Pattern)) build.Change {
		return &build.SetPattern{Pattern: with(with(aPattern(), func(p *build.Pattern) {
			p.Revision, p.Why, p.Edges, p.Lines = 2, "sewn", slices.Clone(p.Edges), slices.Clone(p.Lines)
		}), f)}
	}
	return []no{
		{surface(func(s *build.Surface) { s.ID = "" }), 1, "surface 2"},
		{surface(func(s *build.Surface) { s.Name = "" }), 10, "surface U1, name"},
		{surface(func(s *build.Surface) { s.Scan = "5c" }), 1, "surface U1, scan"},
		{surface(func(s *build.Surface) { s.Scale = 0 }), 3, "surface U1"},
		{surface(func(s *build.Surface) { s.Vertices = 2 }), 3, "surface U1"},
		{surface(func(s *build.Surface) { s.Use = "boat" }), 4, "surface U1, use"},
		{surface(func(s *build.Surface) { s.Panel = "P9" }), 2, "surface U1, panel"},
		{next(func(p *build.Pattern) { p.Piece = "S9" }), 2, "pattern of S9"},
		{next(func(p *build.Pattern) { p.Revision = 3 }), 9, "pattern of S4, revision"},
		{next(func(p *build.Pattern) { p.Revision = 1 }), 9, "pattern of S4, revision"},
		{next(func(p *build.Pattern) { p.Why = "" }), 10, "pattern of S4, why"},
		{next(func(p *build.Pattern) { p.Sewn = p.Sewn[:2] }), 13, "pattern of S4, sewn"},
		{next(func(p *build.Pattern) { p.Cut = build.Shape{} }), 13, "pattern of S4, cut"},
		{next(func(p *build.Pattern) { p.Edges = nil }), 2, "pattern of S4, edges"},
		{next(func(p *build.Pattern) { p.Edges[1].First = 0 }), 3, "pattern of S4, edge 2"},
		{next(func(p *build.Pattern) { p.Edges[1].First = 4 }), 3, "pattern of S4, edge 2"},
		{next(func(p *build.Pattern) { p.Edges[1].Name = "front" }), 1, "pattern of S4, edge 2"},
		{next(func(p *build.Pattern) { p.Edges[1].Seam = "glued" }), 4, "pattern of S4, edge 2, seam"},
		{next(func(p *build.Pattern) { p.Edges[1].Seam = build.Raw }), 9, "pattern of S4, edge 2"},
		{next(func(p *build.Pattern) { p.Edges[1].Allowance = -1 }), 3, "pattern of S4, edge 2"},
		{next(func(p *build.Pattern) { p.Marks = []build.PatternMark{{Kind: "nick"}} }), 4, "pattern of S4, mark 1, kind"},
		{next(func(p *build.Pattern) { p.Lines[0].Points = p.Lines[0].Points[:1] }), 3, "pattern of S4, line 1"},
		{next(func(p *build.Pattern) { p.Holes = []build.PatternHole{{}} }), 3, "pattern of S4, clip hole 1"},
		{next(func(p *build.Pattern) { p.Loss = -1 }), 3, "pattern of S4"},
		{next(func(p *build.Pattern) { p.Source = build.PatternSource{} }), 4, "pattern of S4, source, kind"},
		{next(func(p *build.Pattern) { p.Source.Surface = "U9" }), 2, "pattern of S4, source"},
		{next(func(p *build.Pattern) { p.Source = build.PatternSource{Kind: build.FromPhoto, Photo: "ab"} }), 1, "pattern of S4, source, photo"},
		{next(func(p *build.Pattern) { p.Source = build.PatternSource{Kind: build.FromFile} }), 10, "pattern of S4, source, file"},
		{&build.DropPattern{Piece: "S1"}, 2, ""},
		{&build.DropSewn{What: "surface", ID: "U1"}, 2, "surface U1 is still named"},
	}
}

func noesOnSeams() []no {
	seam := func(f func(*build.Seam)) build.Change { return &build.SetSeam{Seam: with(aSeam(), f)} }
	hem := build.Seam{ID: "Z0", Name: "hem", Kind: build.Hem, A: []build.EdgeOf{{Piece: "S4", Edge: "front"}}, Times: 1}
	return []no{
		{seam(func(s *build.Seam) { s.ID = "" }), 1, "seam 3"},
		{seam(func(s *build.Seam) { s.Name = "" }), 10, "seam Z1, name"},
		{seam(func(s *build.Seam) { s.Kind = "stapled" }), 4, "seam Z1, kind"},
		{seam(func(s *build.Seam) { s.Times = 0 }), 3, "seam Z1"},
		{seam(func(s *build.Seam) { s.Pitch = 90 * mm }), 3, "seam Z1"},
		{seam(func(s *build.Seam) { s.Top = -1 }), 3, "seam Z1"},
		{seam(func(s *build.Seam) { s.Ease = 30 }), 3, "seam Z1"},
		{seam(func(s *build.Seam) { s.B = nil }), 11, "seam Z1, b"},
		{seam(func(s *build.Seam) { s.A = nil }), 2, "seam Z1, a"},
		{seam(func(s *build.Seam) { s.Match = []build.Meeting{{A: 0.5, B: 0.5}, {A: 0.6, B: 0.4}} }), 3, "seam Z1, match, line 2"},
		{seam(func(s *build.Seam) {
			s.B = []build.EdgeOf{{Piece: "S2", Edge: "front"}, {Piece: "S9", Edge: "front"}}
		}), 2, "seam Z1, b, edge 2"},
		{seam(func(s *build.Seam) { s.B = []build.EdgeOf{{Piece: "S3"}} }), 10, "seam Z1, b, edge 1, edge"},
		{seam(func(s *build.Seam) { s.Thread = "L9" }), 2, "seam Z1, thread"},
		{seam(func(s *build.Seam) { s.Cord = "C9" }), 2, "seam Z1, cord"},
		{seam(func(s *build.Seam) { s.Kind = build.Plain }), 9, "seam Z1"},
		{seam(func(s *build.Seam) { s.Piping = "S9" }), 2, "seam Z1, piping"},
		{seam(func(s *build.Seam) { s.After = []build.SeamID{"Z9"} }), 2, "seam Z1, after"},
		{&build.SetSeam{Seam: with(hem, func(s *build.Seam) { s.After = []build.SeamID{"Z1"} })}, 6, "seam Z0, after"},
		{&build.DropSewn{What: "seam", ID: "Z0"}, 2, "seam Z0 is still named"},
		{&build.DropSewn{What: "thread", ID: "L1"}, 2, "thread L1 is still named"},
		{&build.DropSewn{What: "seam", ID: "Z9"}, 2, ""},
		{&build.DropSewn{What: "hat"}, 4, "what"},
	}
}

func noesOnSundries() []no {
	block := build.Foam{ID: "F1", Name: "x", Kind: "firm", Density: 40, Width: mm, Height: mm, Thickness: mm, Quantity: 1}
	board := build.Board{ID: "D1", Name: "x", Material: "ply", Width: mm, Height: mm, Thickness: mm, Quantity: 1}
	glue := build.Glue{ID: "G1", Name: "x", Area: 1, Faces: 2}
	return []no{
		{&build.SetThread{Thread: build.Thread{ID: "L1", Name: "x"}}, 3, "thread L1"},
		{&build.SetThread{Thread: build.Thread{ID: "L1", Name: "x", Tex: 70, Part: "Q9"}}, 2, "thread L1, part"},
		{&build.SetCord{Cord: build.Cord{ID: "C1", Name: "x"}}, 3, "piping cord C1"},
		{&build.SetCover{Cover: build.Cover{ID: "V1", Material: "hide", Kind: "fur", Thickness: 1}}, 4, "cover V1, kind"},
		{&build.SetCover{Cover: build.Cover{ID: "V1", Material: "hide", Kind: "cloth", Thickness: 1, Across: -1}}, 3, "cover V1"},
		{&build.SetFoam{Foam: with(block, func(f *build.Foam) { f.Density = 0 })}, 3, "foam F1"},
		{&build.SetFoam{Foam: with(block, func(f *build.Foam) { f.Pieces = []build.PieceID{"S9"} })}, 2, "foam F1, pieces"},
		{&build.SetBoard{Board: with(board, func(d *build.Board) { d.Shape = build.Shape{Outer: build.Ring{{0, 0}, {mm, 0}}} })}, 13, "board D1, shape"},
		{&build.SetBoard{Board: with(board, func(d *build.Board) { d.ClipPart = "Q9" })}, 2, "board D1, clips, part"},
		{&build.SetDeadener{Deadener: build.Deadener{ID: "E1", Name: "x", Area: 1, Panels: []build.PanelID{"P9"}}}, 2, "deadener E1, panels"},
		{&build.SetDeadener{Deadener: build.Deadener{ID: "E1", Name: "x"}}, 3, "deadener E1"},
		{&build.SetGlue{Glue: with(glue, func(g *build.Glue) { g.Faces = 3 })}, 3, "glued joint G1"},
		{&build.SetGlue{Glue: with(glue, func(g *build.Glue) { g.Spread = -1 })}, 3, "glued joint G1"},
	}
}

// TestDropPattern_GoesBackToTheOneBefore: the piece is cut as it was.
func TestDropPattern_GoesBackToTheOneBefore(t *testing.T) {
	b := cart()
	second := with(aPattern(), func(p *build.Pattern) { p.Revision, p.Why, p.Cut = 2, "longer", build.Box(910*mm, 600*mm) })
	for _, c := range []build.Change{&build.SetPattern{Pattern: second}, &build.DropPattern{Piece: "S4"}} {
		if err := c.Apply(&b); err != nil {
			t.Fatal(err)
		}
	}
	if p := b.Piece("S4"); b.Pattern("S4").Revision != 1 || p.Width != 900*mm || p.Cut().Area() != 540_000 {
		t.Errorf("revision %d, piece %+v", b.Pattern("S4").Revision, p)
	}
}

// TestPattern_Line: an edge runs to the first point of the next, the last
// round to that of the first.
func TestPattern_Line(t *testing.T) {
	p := aPattern()
	p.Edges[0].First, p.Edges[1].First = 1, 3
	s := p.Sewn
	for i, want := range []build.Ring{{s[1], s[2], s[3]}, {s[3], s[0], s[1]}} {
		if d := cmp.Diff(want, p.Line(i)); d != "" {
			t.Errorf("edge %d (-want +got):\n%s", i, d)
		}
	}
	one := build.Pattern{Sewn: s, Edges: []build.PatternEdge{{Name: "all"}}}
	if got := one.Line(0); len(got) != len(s)+1 || got[0] != got[len(s)] {
		t.Errorf("a pattern of one edge has the line %v", got)
	}
	if e, i := p.Edge("round"); e == nil || i != 1 {
		t.Errorf("the edge round is %d", i)
	}
}
