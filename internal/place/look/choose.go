package look

import (
	"slices"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/web"
	"fettle/takeoff/sprayout"
)

// choose lays the choice of a look on the slip. Where a colour would not hide
// what it goes on the page stops first, with the figures.
func (p place) choose(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	s, err := p.scene(r)
	if err != nil {
		return err
	}
	l := s.Build.Look(build.LookID(f.Raw("look")))
	if l == nil {
		return fault.New(fault.NotFound, "there is no look %q", f.Raw("look"))
	}
	m, err := s.apply(l)
	if err != nil {
		return err
	}
	if len(m.Stops) > 0 && f.Raw("anyway") == "" {
		return r.Invalid(p.sheet("wrong undercoat"), showStop(stopPage{s, m}))
	}
	changes := []build.Change{&build.ChooseLook{Look: l.ID}}
	if f.Raw("righted") != "" {
		right := righted(m)
		changes = []build.Change{&build.AddLook{Look: right}, &build.ChooseLook{Look: right.ID}}
	}
	return p.desk.Propose(r, s.Base+"/slip", changes...)
}

// stopPage is a look that would lay a colour over a wrong undercoat.
type stopPage struct {
	scene
	Measured measured
}

// better tells whether there is a right sealer for all that stops.
func (s stopPage) better() bool {
	return !slices.ContainsFunc(s.Measured.Stops, func(one sprayout.Wrong) bool { return one.Right == "" })
}

// righted returns a look of its own with the undercoats that its colours hide.
func righted(m measured) build.Look {
	l := *m.Look
	l.ID, l.Name, l.Chosen = free(m.Build, string(l.ID)), l.Name+", sealed right", false
	l.Zones = append([]build.LookZone{}, l.Zones...)
	for _, stop := range m.Stops {
		for _, zone := range stop.Zones {
			l.Zones = sealed(l.Zones, zone, stop.Right)
		}
	}
	return l
}

// sealed gives a zone of a look another undercoat.
func sealed(zones []build.LookZone, zone build.ZoneID, with build.ProductID) []build.LookZone {
	for i := range zones {
		if zones[i].Zone == zone {
			zones[i].Undercoat = with
			return zones
		}
	}
	return append(zones, build.LookZone{Zone: zone, Undercoat: with})
}

// free returns an ID for a look out of a name, or out of the ID of another look.
func free(b *build.Build, from string) build.LookID {
	return build.LookID(slug(from, "look", func(id string) bool { return b.Look(build.LookID(id)) != nil }))
}
