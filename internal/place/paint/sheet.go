package paint

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/account"
	"fettle/internal/web"
	"fettle/plan"
	"fettle/rates"
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
	Rates rates.Rates
}

func (p place) load(r *web.Request) (sheet, error) {
	pl, view, err := p.desk.Plan(r)
	if err != nil {
		return sheet{}, err
	}
	now := p.desk.Shop.Now() // to the minute: plans count by quarter hours
	return sheet{Base: "/b/" + r.Build(), Name: r.Build(), Build: &view.Build, Plan: pl, Today: now.Date(), Now: now,
		Crew: r.Person().Role >= account.Crew, Rates: p.desk.Shop.Rates(view)}, nil
}

// product returns the paint of that ID.
func (s sheet) product(id string) (build.Product, error) {
	if p := s.Build.Product(build.ProductID(id)); p != nil {
		return *p, nil
	}
	return build.Product{}, fault.New(fault.NotFound, "there is no paint %q", id).WithHint("the place Paint lists every paint")
}

// reading reads a decimal such as 17.5 between whole bounds; an empty field is
// NaN: nobody has read it.
func reading(f *web.Form, name string, low, high int64) float64 {
	if strings.TrimSpace(f.Raw(name)) == "" {
		return math.NaN()
	}
	return float64(f.Decimal(name, 1, 10*low, 10*high)) / 10
}

// typed writes a reading as it is typed, and nothing where there is none.
func typed(v float64) string {
	if math.IsNaN(v) {
		return ""
	}
	return plainNumber(v)
}

// next is the number that a new thing of a list gets: one more than the highest.
func next[T any](letter string, list []T, id func(T) string) string {
	highest := 0
	for _, one := range list {
		if n, err := strconv.Atoi(strings.TrimPrefix(id(one), letter)); err == nil {
			highest = max(highest, n)
		}
	}
	return fmt.Sprintf("%s%02d", letter, highest+1)
}
