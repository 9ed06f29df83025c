package build_test

import (
	"testing"

	"fettle/build"
	"fettle/geom"
	"fettle/unit"
)

func actsOnTrim() []act {
	square := build.Box(100*mm, 50*mm)
	seat := build.Piece{ID: "S1", Name: "seat", Width: 410 * mm, Height: 300 * mm, Quantity: 1, Material: "hide", Grade: "A"}
	layout := build.Layout{ID: "hide", Material: "hide", Placed: []build.Placed{{Piece: "S1", Hide: "H1"}, {Piece: "S3", Hide: "H2"}}}
	return []act{
		{&build.SetPiece{Piece: seat}, "Piece S1 changed: 1 × seat, 410 × 300 mm, grade A", func(b *build.Build) any { return line(b.Piece("S1").Width, len(b.Pieces)) }, "410 mm 4"},
		{&build.SetPiece{Piece: with(seat, func(p *build.Piece) { p.ID = "S9" })}, "Piece S9 entered: 1 × seat, 410 × 300 mm, grade A", func(b *build.Build) any { return len(b.Pieces) }, 5},
		{&build.SetRoll{Roll: build.Roll{ID: "R1", Material: "felt", Width: 1500 * mm}}, "Roll R1: felt, 1500 mm wide", func(b *build.Build) any { return line(b.Roll("R1").Width, len(b.Rolls)) }, "1500 mm 1"},
		{&build.SetRoll{Roll: build.Roll{ID: "R1", Material: "felt", Width: 1400 * mm, Nap: true, Repeat: 640 * mm, Across: 700 * mm, Begins: build.Spot{0, 50 * mm}, Edge: 10 * mm, Gap: 2 * mm}}, "Roll R1: felt, 1400 mm wide, with a nap, a pattern every 640 × 700 mm", func(b *build.Build) any { return b.Roll("R1").Begins }, build.Spot{0, 50 * mm}},
		{&build.SetRoll{Roll: build.Roll{ID: "R2", Material: "cord", Width: 900 * mm}}, "Roll R2: cord, 900 mm wide", func(b *build.Build) any { return len(b.Rolls) }, 2},
		{&build.TakeInHide{Hide: build.Hide{ID: "H3", Material: "hide", Lot: "L1", Area: 4 * unit.SquareMetre, Usable: 0.7}}, "Hide H3 in: hide, 4.00 m², lot L1", func(b *build.Build) any { return len(b.Hides) }, 3},
		{&build.DrawHide{Hide: "H1", Outline: build.Box(1800*mm, 2000*mm), OutlineError: 6 * mm}, "Hide H1 drawn: 3.60 m², 0 zones, to within 6 mm",
			func(b *build.Build) any {
				h := b.Hide("H1")
				return line(h.Outline.Area(), len(h.Zones), len(h.Marks), len(h.KeepOuts))
			}, "3.60 m² 0 1 1"},
		{&build.MarkHide{Hide: "H1", Mark: build.Mark{ID: "K2", Kind: "brand", Shape: square}}, "Hide H1: brand of 100 × 50 mm, nothing may lie on it", func(b *build.Build) any { return len(b.Hide("H1").Marks) }, 2},
		{&build.MarkHide{Hide: "H1", Mark: build.Mark{ID: "K1", Kind: "vein", Shape: square, Grade: "B"}}, "Hide H1: vein of 100 × 50 mm, pieces of grade B or lower may lie on it",
			func(b *build.Build) any { return line(b.Hide("H1").Mark("K1").Kind, len(b.Hide("H1").Marks)) }, "vein 1"},
		{&build.ClearMark{Hide: "H1", Mark: "K1"}, "Hide H1: mark K1 is none", func(b *build.Build) any { return len(b.Hide("H1").Marks) }, 0},
		{&build.KeepOut{Hide: "H1", Shapes: []build.Shape{square, square}}, "Hide H1: 2 keep-outs", func(b *build.Build) any { return len(b.Hide("H1").KeepOuts) }, 2},
		{&build.RefuseHide{Hide: "H1", Why: "brand"}, "Hide H1 refused: brand", func(b *build.Build) any {
			return line(b.Hide("H1").Refused, b.Hide("H1").Why, len(b.Layouts[0].Placed))
		}, "true brand 2"},
		{&build.KeepLayout{Layout: layout}, "Cut plan of hide: 2 pieces on 2 hides, lots L1 and L2", func(b *build.Build) any { return line(len(b.Layouts), b.Layout("hide").Where("S3", 0).Hide) }, "1 H2"},
		{&build.KeepLayout{Layout: build.Layout{ID: "felt", Material: "felt", Roll: "R1", Placed: []build.Placed{{Piece: "S4", X: 9}}}}, "Cut plan of felt: 1 pieces on roll R1", func(b *build.Build) any { return b.LayoutOf("felt").Roll }, build.RollID("R1")},
		{&build.LockPieces{Layout: "hide", Copies: []build.PieceCopy{{Piece: "S1"}}}, "Cut plan: 1 pieces stay where they lie", func(b *build.Build) any { return b.Layout("hide").Where("S1", 0).Locked }, true},
		{&build.LockPieces{Layout: "hide", Copies: []build.PieceCopy{{Piece: "S2", Copy: 1}}, Free: true}, "Cut plan: 1 pieces may move again", func(b *build.Build) any { return b.Layout("hide").Where("S2", 1).Locked }, false},
	}
}

func piece(f func(*build.Piece)) build.Change {
	return &build.SetPiece{Piece: with(build.Piece{ID: "S1", Name: "seat", Width: mm, Height: mm, Quantity: 1, Material: "hide", Grade: "A"}, f)}
}

func layout(f func(*build.Layout)) build.Change {
	return &build.KeepLayout{Layout: with(build.Layout{ID: "hide", Material: "hide", Placed: []build.Placed{{Piece: "S1", Hide: "H1"}}}, f)}
}

func mark(f func(*build.Mark)) build.Change {
	return &build.MarkHide{Hide: "H1", Mark: with(build.Mark{ID: "K2", Kind: "scar", Shape: build.Box(mm, mm), Grade: "B"}, f)}
}

func noesOnTrim() []no {
	bow := build.Shape{Outer: build.Ring{{0, 0}, {mm, mm}, {mm, 0}, {0, mm}}}
	many := build.Shape{Outer: make(build.Ring, 5001)}
	return []no{
		{piece(func(p *build.Piece) { p.ID = "" }), 1, "trim piece"},
		{piece(func(p *build.Piece) { p.Name = "" }), 10, "trim piece S1, name"},
		{piece(func(p *build.Piece) { p.Grade = "D" }), 4, "trim piece S1, grade"},
		{piece(func(p *build.Piece) { p.Shape = bow }), 13, "trim piece S1, shape"},
		{piece(func(p *build.Piece) { p.Axis.Tolerance = 91 }), 3, "trim piece S1, axis"},
		{piece(func(p *build.Piece) { p.Pair = "S1" }), 1, "trim piece S1, pair"},
		{piece(func(p *build.Piece) { p.Pair = "S2" }), 9, "trim piece S1, pair"},
		{piece(func(p *build.Piece) { p.ID, p.Quantity, p.Pair = "S3", 1, "S2" }), 11, "trim piece S"},
		{piece(func(p *build.Piece) { p.Pair = "S8" }), 2, "trim piece S8"},
		{piece(func(p *build.Piece) { p.ID, p.Pair, p.Quantity = "S2", "S3", 1 }), 11, "trim piece S"},
		{piece(func(p *build.Piece) { p.Material = "felt" }), 9, "layout hide, line 1"},
		{&build.SetRoll{Roll: build.Roll{Material: "felt", Width: mm}}, 1, "roll"},
		{&build.SetRoll{Roll: build.Roll{ID: "R2", Width: mm}}, 10, "roll R2, material"},
		{&build.SetRoll{Roll: build.Roll{ID: "R2", Material: "felt"}}, 3, "roll R2"},
		{&build.SetRoll{Roll: build.Roll{ID: "R2", Material: "felt", Width: mm, Part: "Q8"}}, 2, "roll R2, part"},
		{&build.SetRoll{Roll: build.Roll{ID: "R2", Material: "felt", Width: 9 * mm, Edge: 5 * mm}}, 3, "roll R2"},
		{&build.SetRoll{Roll: build.Roll{ID: "R2", Material: "felt", Width: mm, Gap: -1}}, 3, "roll R2"},
		{&build.SetRoll{Roll: build.Roll{ID: "R2", Material: "felt", Width: mm, Repeat: -1}}, 3, "roll R2"},
		{&build.SetRoll{Roll: build.Roll{ID: "R2", Material: "felt", Width: mm, Across: 5 * mm, Begins: build.Spot{1, 0}}}, 3, "roll R2"},
		{piece(func(p *build.Piece) { p.Match.At[1] = 21 * unit.Metre }), 3, "trim piece S1, match"},
		{&build.TakeInHide{Hide: build.Hide{ID: "H1", Material: "hide", Area: 1, Usable: 1}}, 1, "hide H1"},
		{&build.TakeInHide{Hide: build.Hide{ID: "H3", Area: 1, Usable: 1}}, 10, "hide H3, material"},
		{&build.TakeInHide{Hide: build.Hide{ID: "H3", Material: "hide", Area: 1}}, 3, "hide H3"},
		{&build.TakeInHide{Hide: build.Hide{ID: "H3", Material: "hide", Area: 1, Usable: 1, Photo: "ab"}}, 1, "hide H3, photo"},
		{&build.DrawHide{Hide: "H9", Outline: build.Box(mm, mm)}, 2, "hide H9"},
		{&build.DrawHide{Hide: "H1"}, 13, "hide H1, outline"},
		{&build.DrawHide{Hide: "H1", Outline: bow}, 13, "hide H1, outline"},
		{&build.DrawHide{Hide: "H1", Outline: many}, 13, "5001 points"},
		{&build.DrawHide{Hide: "H1", Outline: build.Box(21*unit.Metre, mm)}, 13, "point 2"},
		{&build.DrawHide{Hide: "H1", Outline: build.Box(mm, mm), OutlineError: -1}, 3, "hide H1"},
		{&build.DrawHide{Hide: "H1", Outline: build.Box(mm, mm), Zones: []build.HideZone{{Shape: bow, Grade: "B"}}}, 13, "hide H1, zone 1"},
		{&build.DrawHide{Hide: "H1", Outline: build.Box(mm, mm), Zones: []build.HideZone{{Shape: build.Box(mm, mm)}}}, 4, "hide H1, zone 1, grade"},
		{&build.DrawHide{Hide: "H1", Outline: build.Box(mm, mm), Headings: []build.Heading{{Angle: 400}}}, 3, "hide H1, heading 1"},
		{mark(func(m *build.Mark) { m.ID = "" }), 1, "mark of hide H1"},
		{mark(func(m *build.Mark) { m.Kind = "dent" }), 4, "hide H1, mark K2, kind"},
		{mark(func(m *build.Mark) { m.Grade = "D" }), 4, "hide H1, mark K2, grade"},
		{mark(func(m *build.Mark) { m.Shape = bow }), 13, "hide H1, mark K2"},
		{&build.ClearMark{Hide: "H1", Mark: "K9"}, 2, "hide H1"},
		{&build.KeepOut{Hide: "H1", Shapes: []build.Shape{bow}}, 13, "hide H1, keep-out 1"},
		{&build.RefuseHide{Hide: "H1"}, 10, "hide H1, why"},
		{&build.RefuseHide{Hide: "H9", Why: "brand"}, 2, "hide H9"},
		{layout(func(l *build.Layout) { l.ID = "" }), 1, "layout"},
		{layout(func(l *build.Layout) { l.ID = "other" }), 9, "layout other, material"},
		{layout(func(l *build.Layout) { l.Roll = "R9" }), 2, "layout hide, roll"},
		{layout(func(l *build.Layout) { l.Roll = "R1" }), 9, "layout hide, line 1"},
		{layout(func(l *build.Layout) { l.Placed[0].Piece = "S9" }), 2, "layout hide, line 1"},
		{layout(func(l *build.Layout) { l.Placed[0].Piece = "S4" }), 9, "layout hide, line 1"},
		{layout(func(l *build.Layout) { l.Placed[0].Copy = 1 }), 3, "layout hide, line 1"},
		{layout(func(l *build.Layout) { l.Placed[0].Hide = "H9" }), 2, "layout hide, line 1"},
		{layout(func(l *build.Layout) { l.Placed[0].X = 1e9 }), 3, "layout hide, line 1"},
		{layout(func(l *build.Layout) { l.Placed = append(l.Placed, l.Placed[0]) }), 1, "layout hide, line 2"},
		{&build.LockPieces{Layout: "other"}, 2, "layout other"},
		{&build.LockPieces{Layout: "hide", Copies: []build.PieceCopy{{Piece: "S3"}}}, 2, "layout hide, copies, line 1"},
	}
}

// TestKeepLayout_NotOnARefusedHide: a refused hide cannot be cut from anew.
func TestKeepLayout_NotOnARefusedHide(t *testing.T) {
	b := cart()
	refuse := &build.RefuseHide{Hide: "H1", Why: "brand"}
	if err := refuse.Apply(&b); err != nil {
		t.Fatal(err)
	}
	wantRule(t, "a layout on it", layout(func(*build.Layout) {}).Apply(&b), 9, "layout hide, line 1")
	wantRule(t, "refused twice", refuse.Apply(&b), 9, "hide H1")
}

func TestShape_GoesToAPolygonAndBack(t *testing.T) {
	s := build.Shape{Outer: build.Ring{{0, 0}, {100_500, 0}, {0, 40 * mm}}, Holes: []build.Ring{{{10 * mm, 5 * mm}, {20 * mm, 5 * mm}, {10 * mm, 15 * mm}}}}
	back := build.ShapeOf(s.Polygon())
	if len(back.Outer) != 3 || back.Outer[1] != (build.Spot{100_500, 0}) || len(back.Holes) != 1 || back.Area() != 1960 {
		t.Errorf("%+v of %d mm²", back, back.Area())
	}
	if got := build.ShapeOf(geom.Polygon{}); got.Drawn() {
		t.Errorf("nothing is drawn as %+v", got)
	}
	p := build.Piece{Width: 30 * mm, Height: 20 * mm, Quantity: 3}
	if p.Cut().Area() != 600 || p.Area() != 1800 {
		t.Errorf("the rectangle is %d, all of them %d mm²", p.Cut().Area(), p.Area())
	}
}
