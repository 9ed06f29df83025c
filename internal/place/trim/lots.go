package trim

import (
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/web"
	stage "fettle/stage/trim"
)

func (p place) lotRoutes() []web.Route {
	return []web.Route{{Pattern: "POST /b/{build}/trim/lay/{material}/lots", Who: web.Crew, Handle: p.letDiffer}}
}

// letDiffer says of a cut plan that what is seen may come from several lots, or
// that it may not. The plan may be one in which nothing is laid yet.
func (p place) letDiffer(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	page, err := p.layOf(r)
	if err != nil {
		return err
	}
	if page.Roll != nil {
		return fault.New(fault.Invalid, "%s does not come in hides", page.Material)
	}
	l := build.Layout{ID: build.LayoutID(page.Material), Material: page.Material}
	if page.Layout != nil {
		l = *page.Layout
	}
	l.Mixed = f.Has("differ")
	return p.desk.Propose(r, page.Base+"/slip", &build.KeepLayout{Layout: l})
}

// mixedWords says of a cut plan which faces are of several dye lots.
func mixedWords(b *build.Build, material string) []string {
	var list []string
	for _, m := range stage.MixedLots(b) {
		if m.Material == material {
			list = append(list, m.Says())
		}
	}
	return list
}

// lotSays says which dye lot what is seen is cut from; empty where it is of
// several, or of none.
func (page layPage) lotSays() string {
	if page.Layout == nil || page.Roll != nil {
		return ""
	}
	switch lots := stage.SeenLots(page.Build, *page.Layout); {
	case len(lots) == 1:
		return "All that is seen is of dye lot " + lots[0] + "."
	case len(lots) > 1 && len(mixedWords(page.Build, page.Material)) == 0:
		return "What is seen together is of one dye lot each: " + strings.Join(lots, ", ") + "."
	}
	return ""
}

// severalLots tells whether lots can differ at all.
func (page layPage) severalLots() bool {
	return page.Roll == nil && len(stage.Lots(page.Build, page.Material)) > 1
}

func (page layPage) mixed() bool { return page.Layout != nil && page.Layout.Mixed }

// sample is a hide of the lot that is short, by whose page another is ordered.
func (page workPage) sample() build.HideID {
	lot := page.Laid.Short()
	for _, h := range page.Build.Hides {
		if h.Material == page.Material && h.Lot == lot && lot != "" {
			return h.ID
		}
	}
	return ""
}
