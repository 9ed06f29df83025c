package paint

import (
	"fettle/build"
	"fettle/fault"
	"fettle/internal/account"
	"fettle/internal/web"
	"fettle/plan"
	"fettle/unit"
)

// sheet is what the pages of the place know.
type sheet struct {
	Base  string // /b/pedlar
	Name  string // short name of the build
	Build *build.Build
	Plan  *plan.Plan
	Today unit.Date
	Now   unit.Moment
	Crew  bool // may act
}

func (p place) load(r *web.Request) (sheet, error) {
	pl, view, err := p.desk.Plan(r)
	if err != nil {
		return sheet{}, err
	}
	return sheet{Base: "/b/" + r.Build(), Name: r.Build(), Build: &view.Build, Plan: pl, Today: view.Now.Date(), Now: view.Now,
		Crew: r.Person().Role >= account.Crew}, nil
}

// product returns the paint of that ID.
func (s sheet) product(id string) (build.Product, error) {
	if p := s.Build.Product(build.ProductID(id)); p != nil {
		return *p, nil
	}
	return build.Product{}, fault.New(fault.NotFound, "there is no paint %q", id).WithHint("the place Paint lists every paint")
}
