package paint

import (
	"net/url"
	"slices"

	"fettle/build"
	"fettle/internal/drawn"
	"fettle/internal/web/ui/vehicle"
)

// views are the sides of the vehicle on which the product's panels show. A touch
// takes a panel into the mix or out of it.
func (c mixCard) views() []vehicle.View {
	var list []vehicle.View
	for _, v := range drawn.Views(c.Build, drawn.Options{Base: c.Base + "/metal"}) {
		v.Pins = nil
		some := false
		for i := range v.Panels {
			id := build.PanelID(v.Panels[i].ID)
			if panel := c.Build.Panel(id); panel == nil || len(c.zones(*panel)) == 0 {
				continue
			}
			some = true
			v.Panels[i].Lit = slices.Contains(c.Ask.Panels, id)
			v.Panels[i].Href = c.viewPath(c.Ask.toggled(id)) + url.QueryEscape(v.ID) + "#drawn"
		}
		if some {
			list = append(list, v)
		}
	}
	return list
}

// viewPath is the address of an ask that a view's ID is added to.
func (c mixCard) viewPath(a ask) string { return c.mixPath(a) + "&view=" }

// toggled is the same ask with a panel taken in, or out again.
func (a ask) toggled(id build.PanelID) ask {
	panels := slices.Clone(a.Panels)
	if i := slices.Index(panels, id); i >= 0 {
		a.Panels = slices.Delete(panels, i, i+1)
	} else {
		a.Panels = append(panels, id)
	}
	return a
}
