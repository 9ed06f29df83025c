package look

import (
	"slices"
	"strings"

	"fettle/build"
	"fettle/internal/web"
	"fettle/plan"
	shade "fettle/stage/look"
	"fettle/takeoff/sprayout"
)

// measured is a look with all it takes and how it is seen.
type measured struct {
	Look    *build.Look
	Build   *build.Build // with the look applied
	Account shade.Account
	Zones   []shade.ZoneFace
	Groups  []group
	Stops   []sprayout.Wrong
	Edges   []edge
	Plan    *plan.Plan // with it chosen; nil where that is worked out later
}

// apply dresses the build in a look.
func (s scene) apply(l *build.Look) (measured, error) {
	m := measured{Look: l}
	b, err := shade.Apply(*s.Build, *l)
	if err != nil {
		return m, err
	}
	m.Build, m.Zones, m.Stops = &b, shade.Dress(s.Paints, &b), shade.Stops(s.Paints, &b, s.Rates)
	for _, pair := range shade.Neighbours(l.Break, m.Zones, shade.Panels(&b, m.Zones)) {
		x, y := m.Zones[pair[0]], m.Zones[pair[1]]
		m.edge(s.colour(x.Colour)+" beside "+s.colour(y.Colour), x.Face, y.Face)
	}
	m.Groups = grouped(m.Zones)
	return m, nil
}

// measure adds what a look takes, and with dates the plan with it chosen.
func (p place) measure(r *web.Request, s scene, l *build.Look, dates bool) (measured, error) {
	m, err := s.apply(l)
	if err != nil {
		return m, err
	}
	if m.Account, err = shade.Reckon(*s.Build, *l, s.Rates); err != nil {
		return m, err
	}
	if !dates {
		return m, nil
	}
	changes := append(append([]build.Change{}, s.Slip...), &build.ChooseLook{Look: l.ID})
	trial, err := p.desk.Shop.Try(r.Context(), r.Build(), changes)
	if err != nil {
		return m, err
	}
	m.Plan = trial.After
	return m, nil
}

// paint returns what a look takes of a product, or nil.
func (m measured) paint(id build.ProductID) *shade.Paint {
	for i := range m.Account.Paint {
		if m.Account.Paint[i].Product == id {
			return &m.Account.Paint[i]
		}
	}
	return nil
}

// group is the zones that are seen alike.
type group struct {
	Zones []build.ZoneID
	sprayout.Face
}

func grouped(zones []shade.ZoneFace) []group {
	var list []group
	for _, z := range zones {
		i := slices.IndexFunc(list, func(g group) bool {
			return g.Product == z.Product && g.Over == z.Over && g.Colour == z.Colour
		})
		if i < 0 {
			i = len(list)
			list = append(list, group{Face: z.Face})
		}
		list[i].Zones = append(list[i].Zones, z.Zone)
	}
	return list
}

// edge adds how two faces stand apart, once for two of a name.
func (m *measured) edge(name string, a, b sprayout.Face) {
	if !slices.ContainsFunc(m.Edges, func(e edge) bool { return e.Name == name }) {
		m.Edges = append(m.Edges, edge{name, shade.Beside(a, b)})
	}
}

// edge is how two colours that meet stand apart under the three lights.
type edge struct {
	Name string
	Seen []shade.Edge
}

// near is how little lightness parts two colours that are lost at dusk, L units:
// our judgement.
const near = 10

// dim tells whether a line stands by hue alone under some light.
func (e edge) dim() bool {
	return slices.ContainsFunc(e.Seen, func(x shade.Edge) bool { return x.Lightness < near })
}

// coachline is the colour that a line along the break is drawn in: the one asked
// for, else the first that says it is one.
func (s scene) coachline(asked string) *build.Colour {
	for i, c := range s.Build.Colours {
		if string(c.ID) == asked || asked == "" && strings.Contains(c.Note, "coachline") {
			return &s.Build.Colours[i]
		}
	}
	return nil
}

// lined adds the coachline to the edges, beside each colour that it runs between.
func (m *measured) lined(s scene, line *build.Colour) {
	if line == nil {
		return
	}
	f := s.Paints.Drawn(line.ID)
	for _, z := range m.Zones {
		if z.Zone == m.Look.Break.Upper || z.Zone == m.Look.Break.Lower {
			m.edge(line.Name+" line on "+s.colour(z.Colour), f, z.Face)
		}
	}
}
