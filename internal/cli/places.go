package cli

import (
	"fettle/internal/desk"
	"fettle/internal/place/knockon"
	"fettle/internal/place/van"
	"fettle/internal/web"
)

// places lists every place in the order of its plate. Adding one is a folder
// and a line here.
func places(d desk.Desk) []web.Place {
	return []web.Place{
		van.Place(d),
		knockon.Place(d),
	}
}
