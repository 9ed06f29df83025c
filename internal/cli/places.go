package cli

import (
	"fettle/internal/demo"
	"fettle/internal/desk"
	"fettle/internal/place/away"
	"fettle/internal/place/builds"
	"fettle/internal/place/clocking"
	"fettle/internal/place/jobs"
	"fettle/internal/place/journal"
	"fettle/internal/place/knockon"
	"fettle/internal/place/look"
	"fettle/internal/place/loom"
	"fettle/internal/place/metal"
	"fettle/internal/place/paint"
	"fettle/internal/place/people"
	"fettle/internal/place/readin"
	"fettle/internal/place/stores"
	"fettle/internal/place/tin"
	"fettle/internal/place/today"
	"fettle/internal/place/trim"
	"fettle/internal/place/van"
	"fettle/internal/place/wall"
	"fettle/internal/web"
	"fettle/internal/web/gallery"
)

// places lists every place in the order of its plate. Adding one is a folder
// and a line here.
func places(d desk.Desk) []web.Place {
	return []web.Place{
		van.Place(d),
		look.Place(d),
		metal.Place(d),
		readin.Place(d, readin.Example{Build: "pedlar", Name: "blast-sheet.csv", Says: "the fourteen findings of the morning after the blast", Data: demo.BlastList()}),
		paint.Place(d),
		loom.Place(d),
		trim.Place(d),
		stores.Place(d),
		away.Place(d),
		wall.Place(d),
		tin.Place(d),
		today.Place(d),
		clocking.Place(d),
		people.Place(d),
		jobs.Place(d),
		journal.Place(d),
		builds.Place(d),
		knockon.Place(d),
		gallery.Place(),
	}
}
