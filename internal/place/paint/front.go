package paint

import (
	"fmt"

	"fettle/internal/web"
)

func (p place) frontRoutes() []web.Route {
	return []web.Route{{Pattern: "GET /b/{build}/paint", Who: web.Guest, Handle: p.show}}
}

// show answers with what is to be painted and with what.
func (p place) show(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	return p.desk.Page(r, web.Sheet{Place: "paint", Shown: fmt.Sprintf("%d paints", len(s.Build.Products))}, frontPage(s))
}
