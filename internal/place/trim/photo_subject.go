package trim

import (
	"slices"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	stage "fettle/stage/trim"
)

// subject is what a photo shows: a hide, or the panel of a piece whose pattern is
// drawn from it.
type subject struct {
	Hide  build.Hide
	Piece build.Piece
	Photo string // where its photos are
	Way   string // the sheet it belongs to
}

// subject is the hide or the piece that the request names.
func (s sheet) subject(r *web.Request) (subject, error) {
	if id := build.PieceID(r.Path("piece")); id != "" {
		one := s.Build.Piece(id)
		if one == nil {
			return subject{}, fault.New(fault.NotFound, "there is no piece %q", id)
		}
		return subject{Piece: *one, Photo: s.patternPath(id) + "/photo", Way: "/patterns"}, nil
	}
	h, err := s.hide(r)
	if err != nil {
		return subject{}, err
	}
	return subject{Hide: *h, Photo: s.photoPath(h.ID), Way: "/hides"}, nil
}

func (s subject) key() string {
	if s.Piece.ID != "" {
		return "piece/" + string(s.Piece.ID)
	}
	return "hide/" + string(s.Hide.ID)
}

func (s subject) draftKey() string {
	if s.Piece.ID != "" {
		return string(s.Piece.ID)
	}
	return string(s.Hide.ID)
}

func (s subject) name() string {
	if s.Piece.ID != "" {
		return "piece " + string(s.Piece.ID)
	}
	return "hide " + string(s.Hide.ID)
}

func (s subject) title() string {
	if s.Piece.ID != "" {
		return string(s.Piece.ID) + " " + s.Piece.Name
	}
	return "Hide " + string(s.Hide.ID)
}

// tools are what a touch on its photo marks.
func (s subject) tools() []tool {
	if s.Piece.ID == "" {
		return traceTools
	}
	return slices.DeleteFunc(slices.Clone(traceTools), func(t tool) bool { return t.Field == "faults" || t.Field == "zones" || t.Field == "stretch" })
}

// work makes millimetres of what is traced, and the changes that would follow.
func (page tracePage) work(f *web.Form, by build.PersonID) (worked, error) {
	if page.Piece.ID == "" {
		return page.Traced.work(page.Hide, build.PhotoHash(page.Hash))
	}
	w, err := page.Traced.measure()
	if err != nil {
		return w, err
	}
	line, err := (frame{view: w.view, back: page.Traced.Back}).ring(page.Traced.Outline)
	if err != nil {
		return w, misfit{"outline", err}
	}
	d := drawnLine{Points: line, Starts: stage.Starts(line)}
	w.line, w.Bulge = &d, bulge(line)
	s, err := d.square()
	switch {
	case err == nil:
		w.squared = &s
	case f.Has("square"):
		return w, misfit{"outline", err}
	}
	if f.Has("square") {
		w.line = &s.Is
	}
	next := build.Pattern{Piece: page.Piece.ID, Revision: 1}
	if old := page.Build.Pattern(page.Piece.ID); old != nil {
		next = *old
		next.Revision++
	}
	next = stage.Drawn(next, w.line.Points, w.line.Starts)
	next.Source = build.PatternSource{Kind: build.FromPhoto, Photo: build.PhotoHash(page.Hash)}
	next.Day, next.By = page.Today, by
	if next.Why = f.Text("note", 0, 200); next.Why == "" && next.Revision > 1 && f.Raw("do") == "use" {
		f.Fail("note", "is empty: say why the pattern is revised")
	}
	if err := stage.WorkCut(page.Build, &next); err != nil {
		return w, misfit{"outline", err}
	}
	if next.Why == "" && next.Revision > 1 {
		next.Why = "traced" // only to be looked at
	}
	w.Changes = []build.Change{&build.SetPattern{Pattern: next}}
	return w, nil
}

// straighten is the box that asks for squaring.
func (page tracePage) straighten() []field.Option {
	return field.Yes("square it up: nearly straight sides and nearly square corners made true", page.value("square") != "")
}
