package van

import (
	"fmt"

	"fettle/internal/web"
	"fettle/plan"
)

// weighed is the page of what would move the date most.
type weighed struct {
	Base  string
	Gains []plan.Gain
}

// showMovers plays the build a few times over, so it is asked for.
func (p place) showMovers(r *web.Request) error {
	list, _, err := p.desk.Shop.Gains(r.Context(), r.Build())
	if err != nil {
		return err
	}
	if r.As() == "json" {
		return r.JSON(list)
	}
	w := weighed{"/b/" + r.Build(), list}
	return p.desk.Page(r, web.Sheet{Place: "van", Shown: "what would move the date"}, moversPage(w))
}

// below says by which day four in five would be finished.
func below(g plan.Gain) string {
	return fmt.Sprintf("4 in 5 by %s instead of %s; it sets the date in %.0f of 100 builds", g.After.Short(), g.Before.Short(), 100*g.Critical)
}
