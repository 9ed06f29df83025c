package trim

import (
	"fmt"
	"hash/fnv"
	"slices"
	"strings"

	"fettle/build"
	"fettle/geom"
	stage "fettle/stage/trim"
)

// editorOf is the bench of a material: its drawn hides, and the pieces where
// the layout has them.
func editorOf(b *build.Build, material, at string) editor {
	e := editor{Title: "Laid by hand: " + material, At: at, Draft: b.Name + "/" + material, Clearance: stage.Clearance}
	for _, h := range b.Hides {
		if h.Material == material && !h.Refused && h.Outline.Drawn() {
			e.Sheets = append(e.Sheets, hideSheet(h))
		}
	}
	layout := b.LayoutOf(material)
	for _, c := range stage.Cuts(b, material) {
		for _, n := range c.Copies {
			e.Copies = append(e.Copies, e.copyOf(c, n, layout))
		}
	}
	if set, err := stage.SetOf(b, stage.Asked{Material: material}); err == nil {
		e.Together = set.Together()
	}
	e.Base = e.print()
	return e
}

// hideSheet is a hide to lay on: its marks and zones with what they take, and
// the line that pieces keep their margin to.
func hideSheet(h build.Hide) editSheet {
	s := editSheet{ID: string(h.ID), Name: "Hide " + string(h.ID), Outline: h.Outline.Polygon()}
	s.Line, s.Margin = stage.CutLine(h)
	for _, z := range h.Zones {
		if q := stage.Quality(z.Grade); q < stage.Quality("A") {
			s.Zones = append(s.Zones, editZone{z.Shape.Polygon(), q, strings.TrimSpace(z.Part + " " + z.Grade)})
		}
	}
	for _, m := range h.Marks {
		if q := stage.Takes(m); q < stage.Quality("A") {
			s.Zones = append(s.Zones, editZone{m.Shape.Polygon(), q, strings.TrimSpace(m.Kind + " " + m.Grade)})
		}
	}
	for _, k := range h.KeepOuts {
		s.KeepOuts = append(s.KeepOuts, k.Polygon().Outer)
	}
	for _, d := range h.Headings {
		s.Headings = append(s.Headings, editHeading{geom.Point{X: d.At[0].Mm(), Y: d.At[1].Mm()}, d.Angle})
	}
	return s
}

func (e *editor) copyOf(c stage.Cut, n int, layout *build.Layout) editCopy {
	out := editCopy{Key: c.Name(n), Piece: c.Piece.ID, Copy: n, Name: c.Piece.Name, Grade: c.Piece.Grade, Shape: c.Shape, Quality: stage.Quality(c.Piece.Grade), Free: true}
	if a := c.Axis(); a.Known() {
		out.Axis = &editAxis{Angle: a.Angle, Tolerance: a.Tolerance}
	}
	if layout == nil {
		return out
	}
	// What lay on a hide that is gone is in the tray again.
	if at := layout.Where(c.Piece.ID, n); at != nil && e.sheetOf(string(at.Hide)) != nil {
		out.Place = editPlace{Sheet: string(at.Hide), X: at.X, Y: at.Y, Turn: at.Rotation, Lock: at.Locked}
	}
	return out
}

// print names the plan that the bench shows: equal plans have equal prints.
func (e *editor) print() string {
	h := fnv.New64a()
	for _, c := range e.Copies {
		fmt.Fprintf(h, "%s %v;", c.Key, c.Place)
	}
	for _, s := range e.Sheets {
		fmt.Fprintf(h, "%s %v %v;", s.ID, s.Outline, s.KeepOuts)
	}
	return fmt.Sprintf("%x", h.Sum64())
}

// placed are the copies that lie on a sheet, as facts.
func (e *editor) placed() []build.Placed {
	var list []build.Placed
	for _, c := range e.Copies {
		if p := c.Place; p.Sheet != "" {
			list = append(list, build.Placed{Piece: c.Piece, Copy: c.Copy, Hide: build.HideID(p.Sheet), X: p.X, Y: p.Y, Rotation: p.Turn, Locked: p.Lock})
		}
	}
	return list
}

// changes are what keeping the bench does to the build: the cut plan, and the
// keep-outs of hides whose own were drawn anew.
func (e *editor) changes(b *build.Build, material string) []build.Change {
	layout := build.Layout{ID: build.LayoutID(material), Material: material}
	if old := b.LayoutOf(material); old != nil {
		layout = *old
	}
	layout.Placed, layout.Job = e.placed(), ""
	var list []build.Change
	for _, s := range e.Sheets {
		h := b.Hide(build.HideID(s.ID))
		if h == nil || slices.EqualFunc(s.KeepOuts, hideSheet(*h).KeepOuts, slices.Equal) {
			continue
		}
		change := &build.KeepOut{Hide: h.ID}
		for _, ring := range s.KeepOuts {
			change.Shapes = append(change.Shapes, build.ShapeOf(geom.Polygon{Outer: ring}))
		}
		list = append(list, change)
	}
	return append(list, &build.KeepLayout{Layout: layout})
}

// judge asks the exact checker of what lies on the bench.
func (e *editor) judge(b *build.Build, material string) error {
	with, err := build.ApplyAll(*b, e.changes(b, material))
	if err != nil {
		return err
	}
	set, err := stage.SetOf(&with, stage.Asked{Material: material, Keep: true})
	if err != nil {
		return err
	}
	e.Checked, e.Fresh, e.Found = true, true, nil
	for _, f := range set.Judge(e.placed()).Faults {
		e.Found = append(e.Found, found{Key: f.Name, Words: f.Says})
	}
	return nil
}
