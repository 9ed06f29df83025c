package paint

import (
	"fmt"

	"fettle/build"
	"fettle/engine/coat"
	"fettle/unit"
)

// BareMetal is a panel that stands bare, with its clock of flash rust.
type BareMetal struct {
	Panel build.Panel
	Since unit.Moment
	Clock coat.Bare // zero where nobody read the air
	Known bool
}

// BareMetals returns the panels that were bared and have had no coat since.
// The air is the one they have stood in; where it was not read, the clock is not
// known. Readings that cannot be right are refused.
func BareMetals(b *build.Build, now unit.Moment, air *Readings) ([]BareMetal, error) {
	var list []BareMetal
	for _, p := range b.Panels {
		if p.Bare == 0 || p.Bare > now || coatedSince(b, p) {
			continue
		}
		m := BareMetal{Panel: p, Since: p.Bare}
		if air != nil {
			var err error
			hours := float64(now-p.Bare) / 60
			if m.Clock, err = coat.BareSince(p.Bare, []coat.Damp{{Hours: hours, Metal: air.Metal, Air: air.Air, RH: air.RH}}); err != nil {
				return nil, err
			}
			m.Known = true
		}
		list = append(list, m)
	}
	return list, nil
}

func coatedSince(b *build.Build, p build.Panel) bool {
	coats := b.CoatsOn(p.ID, p.Face())
	return len(coats) > 0 && coats[len(coats)-1].At >= p.Bare
}

// Say tells how the bare panel stands at a moment.
func (m BareMetal) Say(now unit.Moment) string {
	if m.Known {
		return m.Clock.Words
	}
	hours := float64(now-m.Since) / 60
	return fmt.Sprintf("bare for %.1f h: read air, humidity and metal to know how long it may stay so; epoxy goes on in the same shift", hours)
}
