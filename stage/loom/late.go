package loom

import (
	"fmt"
	"slices"

	"fettle/build"
	"fettle/figure"
	"fettle/rates"
	"fettle/takeoff"
	"fettle/unit"
)

// A hole through finished paint costs the panel's respray, so many hours from
// masking to polish: a habit of the trade.
const lateLeast, lateMost = 12, 25

// LateHole is what a hole costs that is drilled while its panel is in paint
// already: in primer the priming anew, in colour the respray of the panel. It is
// false while the panel is in metal or epoxy, where only the edge is primed.
func LateHole(b *build.Build, h build.Hole) (figure.Figure, bool) {
	p := b.Panel(h.Panel)
	if p == nil {
		return figure.Figure{}, false
	}
	states := build.PanelStates()
	at := slices.Index(states, p.State)
	f := figure.Figure{Name: "hole " + h.ID + " drilled late", Caution: takeoff.Spraying}
	switch {
	case at < slices.Index(states, build.InPrimer):
		return figure.Figure{}, false
	case at < slices.Index(states, build.InColour):
		litres, booth, inputs := paintAnew(b, p, []build.Use{build.Epoxy, build.Primer})
		f.Text, f.Formula = fmt.Sprintf("%s, %s", litres, booth), "epoxy and primer anew over the panel: litres and hours in the booth"
		f.With, f.Inputs = fmt.Sprintf("%s is %s: %s of paint, %s in the booth", p.ID, p.State, litres, booth), inputs
	default:
		litres, _, inputs := paintAnew(b, p, build.Uses())
		f.Text, f.Formula = fmt.Sprintf("%d to %d h", lateLeast, lateMost), "respray of the panel, masking to polish; litres of every product that is on it"
		f.With = fmt.Sprintf("%s is %s: %d to %d h, %s of paint", p.ID, p.State, lateLeast, lateMost, litres)
		if litres > 0 {
			f.Text += ", " + litres.String()
		}
		f.Inputs = append([]figure.Input{{Name: "respray of a panel", Value: fmt.Sprintf("%d to %d h", lateLeast, lateMost), Source: figure.TradeDefault, Note: "a hole through finished paint"}}, inputs...)
	}
	return f, true
}

// paintAnew adds up the paint and the booth for products of some uses on a panel.
func paintAnew(b *build.Build, p *build.Panel, uses []build.Use) (litres unit.Volume, booth unit.Effort, inputs []figure.Input) {
	for _, x := range b.Products {
		if !slices.Contains(uses, x.Use) {
			continue
		}
		zones := slices.DeleteFunc(slices.Clone(x.Zones), func(z build.ZoneID) bool { return !p.Has(z) })
		if len(zones) == 0 {
			continue
		}
		area := b.SurfaceOf(x, []build.PanelID{p.ID}, zones)
		need := takeoff.NeedOf(x, area, x.Coats, x.Purge, rates.Default())
		hours, _ := takeoff.Coating(x, area, x.Coats)
		litres, booth = litres+need.Volume, booth+hours
		inputs = append(inputs, figure.Input{Name: x.Name, Value: need.Volume.String(), Source: figure.Worked, Note: need.Figure.With})
	}
	return litres, booth, inputs
}
