package loom

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"fettle/build"
	"fettle/engine/loom"
	"fettle/engine/loom/route"
)

// RouteOf is the loom as the route takes it: waypoints, stretches with what is
// forbidden, holes, and a wire for each circuit whose ends are placed. A circuit
// that reaches several places is spliced, its branches numbered behind its ID.
// Without stretches nothing is drawn.
func RouteOf(b *build.Build, p loom.Problem, r loom.Result) (route.Problem, bool) {
	l := &b.Loom
	if len(l.Stretches) == 0 {
		return route.Problem{}, false
	}
	out := route.Problem{Name: b.Name, Rules: route.Rules{Slack: l.Settings.Slack / 100, Service: l.Settings.Loop.Mm(), SleeveWall: l.Settings.Wall.Mm()}}
	ends := map[build.WaypointID]bool{}
	known, at := sizesOf(p, r), placesOf(l)
	for i, c := range p.Circuits {
		if one := b.Circuit(c.ID); one != nil {
			lead(&out, b, c, one.Ends, known[r.Runs[i].Section], ends)
		}
	}
	for i, w := range p.Wires {
		if from, to := at[w.From.Part], at[w.To.Part]; from != "" && to != "" && from != to {
			lead(&out, b, loom.Circuit{Run: w.Run}, []build.WaypointID{from, to}, known[r.Runs[len(p.Circuits)+i].Section], ends)
		}
	}
	out.Nodes = nodes(b, ends)
	for _, s := range l.Stretches {
		e := route.Edge{ID: s.ID, From: string(s.From), To: string(s.To), Length: s.Length.Mm(), Forbidden: s.Forbidden, Cover: coverOf(cmp.Or(s.Sleeve, l.Settings.Sleeve))}
		if s.Moves {
			e.Flex = "moves"
		}
		out.Edges = append(out.Edges, e)
	}
	return out, len(out.Wires) > 0
}

// lead adds the wires of a run that begins at the first of its ends and reaches
// all others.
func lead(p *route.Problem, b *build.Build, c loom.Circuit, ends []build.WaypointID, size loom.Conductor, seen map[build.WaypointID]bool) {
	if len(ends) < 2 {
		return
	}
	wire := func(id string, from, to route.End) {
		p.Wires = append(p.Wires, route.Wire{ID: id, From: from, To: to, Outside: outside(size), Ohms: size.MilliOhmPerM / 1000, Section: size.Name, Colour: c.Colour, Net: c.ID})
	}
	end := func(i int) route.End { return route.End{Node: string(ends[i]), Cavity: cavityOf(b, ends[i], c.ID)} }
	for _, id := range ends {
		seen[id] = true
	}
	if len(ends) == 2 {
		wire(c.ID, end(0), end(1))
		return
	}
	splice := route.End{Node: splicePrefix + c.ID}
	p.Splices = append(p.Splices, route.Splice{ID: splice.Node})
	wire(c.ID, end(0), splice)
	for i := 1; i < len(ends); i++ {
		wire(fmt.Sprintf("%s.%d", c.ID, i), splice, end(i))
	}
}

// cavityOf is the cavity of a circuit in the connector at a waypoint; where
// there is none the circuit names its own place.
func cavityOf(b *build.Build, at build.WaypointID, circuit string) string {
	for _, x := range b.Loom.Connectors {
		for _, t := range x.Contacts {
			if x.At == at && slices.Contains(t.Circuits, circuit) {
				return t.Terminal
			}
		}
	}
	return circuit
}

// outside returns the diameter over the insulation, 0.6 mm of wall about the
// strand where no sheet says it.
func outside(c loom.Conductor) float64 {
	if c.OD > 0 {
		return c.OD
	}
	return 1.3*math.Sqrt(max(c.MM2, 0.1)) + 1.2
}

func nodes(b *build.Build, ends map[build.WaypointID]bool) []route.Node {
	var list []route.Node
	for _, w := range b.Loom.Waypoints {
		n := route.Node{ID: string(w.ID), Kind: route.Clip, At: [3]float64{w.At[0].Mm(), w.At[1].Mm(), w.At[2].Mm()}}
		switch {
		case ends[w.ID]:
			n.Kind = route.Connector
		case w.What == "breakout":
			n.Kind = route.Breakout
		}
		for _, x := range b.Loom.Connectors {
			if x.At == w.ID && ends[w.ID] {
				n.Cavities = max(n.Cavities, x.Cavities)
			}
		}
		for _, h := range b.Loom.Holes {
			if h.At == w.ID && !ends[w.ID] {
				n.Kind, n.Panel, n.Bore, n.New, n.Largest = route.Hole, string(h.Panel), h.Diameter.Mm(), !h.Drilled, h.Clear().Mm()
			}
		}
		list = append(list, n)
	}
	return list
}

// placesOf tells where the parts of the loom are.
func placesOf(l *build.Loom) map[string]build.WaypointID {
	at := map[string]build.WaypointID{}
	for _, x := range l.Batteries {
		at[x.Name] = x.At
	}
	for _, x := range l.Alternators {
		at[x.Name] = x.At
	}
	for _, x := range l.Fuses {
		if box := l.Box(x.Box); box != nil {
			at[x.Name] = box.At
		}
	}
	for _, x := range l.Consumers {
		at[x.Name] = x.At
	}
	for _, x := range l.Switches {
		at[x.Name] = x.At
	}
	for _, x := range l.Relays {
		at[x.Name] = x.At
	}
	for _, x := range l.Connectors {
		at[x.Name] = x.At
	}
	for _, x := range l.Joints {
		at[x.Name] = x.At
	}
	return at
}

func coverOf(sleeve string) route.Cover {
	switch sleeve {
	case "braid", "conduit":
		return route.Sleeve
	case "bare":
		return route.Bare
	}
	return route.Tape
}
