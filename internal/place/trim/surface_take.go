package trim

import (
	"fettle/build"
	"fettle/internal/desk"
	"fettle/internal/surfacein"
	"fettle/internal/web"
)

// surfaceForm is the form by which a surface is taken in.
type surfaceForm struct {
	sheet
	acts
	Surface build.Surface
}

func (s sheet) nextSurface() build.SurfaceID {
	return build.SurfaceID(desk.NextID("S%d", len(s.Build.Surfaces), func(id string) bool { return s.Build.Surface(build.SurfaceID(id)) != nil }))
}

func (p place) blankSurface(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	page := surfaceForm{sheet: s, Surface: build.Surface{ID: s.nextSurface()}}
	if old := s.Build.Surface(build.SurfaceID(r.Query("again"))); old != nil {
		page.Surface = *old
	}
	return p.desk.Page(r, web.Sheet{Place: "trim", Shown: "a surface"}, showSurfaceForm(page))
}

// takeSurface reads a surface, puts small faults right, keeps it in the vault
// and lays the fact on the slip.
func (p place) takeSurface(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	s, err := p.load(r)
	if err != nil {
		return err
	}
	one := surfacein.Take(r, p.desk.Vault, f, build.ForTrim)
	c := &build.SetSurface{Surface: one}
	desk.Holds(f, s.Build, "file", c)
	if f.Err() != nil {
		page := surfaceForm{sheet: s, acts: acts{Open: "surface", Wrong: f.Errors, typed: f.Raw}, Surface: one}
		return r.Invalid(web.Sheet{Place: "trim", Shown: "a surface"}, showSurfaceForm(page))
	}
	return p.desk.Propose(r, s.Base+"/slip", c)
}
