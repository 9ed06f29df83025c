package route

import (
	"cmp"
	"fmt"
	"math"

	"fettle/fault"
)

// Limits of a problem.
const (
	MaxNodes = 5000
	MaxEdges = 20000
	MaxWires = 2000
	farthest = 1e6 // millimetres
)

// filled puts the defaults in.
func (r Rules) filled() Rules {
	set := func(v *float64, habit float64) {
		if *v == 0 {
			*v = habit
		}
	}
	set(&r.NewHole, 1)
	r.NewHole = max(r.NewHole, 0)
	set(&r.Slack, 0.04)
	set(&r.FlexSlack, 50)
	set(&r.Strip, 7)
	set(&r.Service, 75)
	set(&r.RoundUp, 5)
	set(&r.TapeWall, 0.4)
	set(&r.SleeveWall, 1)
	set(&r.Bend, 4)
	set(&r.SpliceApart, 40)
	set(&r.Tolerance, 5)
	if len(r.Grommets) == 0 {
		r.Grommets = grommets
	}
	r.Rounds = cmp.Or(max(r.Rounds, 0), 12)
	return r
}

// grommets are common sizes; trade habit, no published source. A shop types
// those of its supplier.
var grommets = []Grommet{{8, 5}, {10, 6.5}, {12, 8}, {14, 9.5}, {16, 11}, {20, 14}, {22, 16}, {25, 18}, {28, 21}, {32, 24}, {38, 29}, {44, 34}, {50, 40}, {60, 50}}

// given is a problem that has passed the door.
type given struct {
	p      Problem
	r      Rules
	node   map[string]int
	splice map[string]int
	ends   [][2]int  // nodes of each edge
	length []float64 // of each edge, millimetres
	scale  []float64 // of a typed length over that of the drawn line
	wires  [][2]int  // ends of each wire: a node, or −1−s for splice s
	part   []int     // of the graph, by node
	home   []int     // the part that a splice lies in, −1 for none
}

// at names a place in the input.
func at(what string, i int, id string) string {
	if id == "" {
		return fmt.Sprintf("%s %d", what, i+1)
	}
	return what + " " + id
}

// accept holds the problem to its rules. 1 Names are given and stand once;
// splices and waypoints share one set of names. 2 Places are finite and within
// a kilometre. 3 Stretches join two known waypoints and are longer than
// nothing. 4 Wires end at known places that are no holes, in two different
// cavities, and have a thickness. 5 Splices join two wires or more. 6 Rules lie
// within what can be meant. 7 There is no more than the limits take.
func accept(p Problem) (*given, error) {
	if len(p.Nodes) > MaxNodes || len(p.Edges) > MaxEdges || len(p.Wires) > MaxWires {
		return nil, fault.New(fault.TooLarge, "%d waypoints, %d stretches, %d wires", len(p.Nodes), len(p.Edges), len(p.Wires)).
			WithHint(fmt.Sprintf("at most %d, %d, %d: route the parts of a large loom one by one", MaxNodes, MaxEdges, MaxWires))
	}
	g := &given{p: p, r: p.Rules.filled(), node: map[string]int{}, splice: map[string]int{}}
	for _, f := range []func() error{g.acceptRules, g.acceptNodes, g.acceptEdges, g.acceptWires} {
		if err := f(); err != nil {
			return nil, err
		}
	}
	g.part = g.parts()
	g.home = g.homes()
	return g, nil
}

func (g *given) acceptRules() error {
	r := g.r
	for _, x := range []struct {
		name           string
		v, least, most float64
	}{
		{"new_hole", r.NewHole, 0, 1000}, {"slack", r.Slack, 0, 1}, {"flex_slack_mm", r.FlexSlack, 0, 2000},
		{"strip_mm", r.Strip, 0, 100}, {"service_mm", r.Service, 0, 2000}, {"round_up_mm", r.RoundUp, 0.1, 1000},
		{"tape_wall_mm", r.TapeWall, 0, 20}, {"sleeve_wall_mm", r.SleeveWall, 0, 20}, {"bend", r.Bend, 0.5, 100},
		{"splice_apart_mm", r.SpliceApart, 0, 2000}, {"tolerance_mm", r.Tolerance, 0.1, 200}, {"rounds", float64(r.Rounds), 1, 100},
	} {
		if !(x.v >= x.least && x.v <= x.most) {
			return fault.New(fault.Invalid, "%v", x.v).At("rules, " + x.name).WithHint(fmt.Sprintf("between %v and %v", x.least, x.most))
		}
	}
	for i, s := range r.Grommets {
		if !(s.Inside > 0 && s.Bore > s.Inside && s.Bore < 1000) || i > 0 && s.Inside <= r.Grommets[i-1].Inside {
			return fault.New(fault.Invalid, "bore %v, inside %v", s.Bore, s.Inside).At(fmt.Sprintf("rules, grommet %d", i+1)).WithHint("rising, the bore larger than the inside")
		}
	}
	return nil
}

func (g *given) acceptNodes() error {
	for i, n := range g.p.Nodes {
		where := at("waypoint", i, n.ID)
		if _, twice := g.node[n.ID]; twice || n.ID == "" {
			return fault.New(fault.Invalid, "it has no name, or another has the same").At(where)
		}
		g.node[n.ID] = i
		for _, x := range n.At {
			if !(math.Abs(x) <= farthest) {
				return fault.New(fault.Invalid, "it lies at %v", n.At).At(where)
			}
		}
		switch n.Kind {
		case Clip, Hole, Breakout, Connector:
		default:
			return fault.New(fault.Invalid, "it is a %q", n.Kind).At(where).WithHint("clip, hole, breakout or connector")
		}
		for _, x := range []float64{n.Bore, n.Largest, n.Stub, n.Service, n.Tolerance} {
			if !(x >= 0 && x <= 10000) {
				return fault.New(fault.Invalid, "a measure of %v mm", x).At(where)
			}
		}
		if n.Cavities < 0 || n.Columns < 0 || n.Cavities > 1000 || n.Columns > 1000 {
			return fault.New(fault.Invalid, "%d cavities in %d columns", n.Cavities, n.Columns).At(where)
		}
	}
	for i, s := range g.p.Splices {
		_, node := g.node[s.ID]
		if _, twice := g.splice[s.ID]; twice || node || s.ID == "" {
			return fault.New(fault.Invalid, "it has no name, or another has the same").At(at("splice", i, s.ID))
		}
		g.splice[s.ID] = i
	}
	return nil
}

func (g *given) acceptEdges() error {
	seen := map[string]bool{}
	for i := range g.p.Edges {
		e := &g.p.Edges[i]
		where := at("stretch", i, g.edgeID(i))
		a, okA := g.node[e.From]
		b, okB := g.node[e.To]
		if !okA || !okB || a == b {
			return fault.New(fault.Invalid, "from %q to %q: no two waypoints have these names", e.From, e.To).At(where)
		}
		if seen[g.edgeID(i)] {
			return fault.New(fault.Invalid, "another has the same name").At(where)
		}
		seen[g.edgeID(i)] = true
		drawn := 0.0
		line := g.line(i)
		for k, p := range line {
			for _, x := range p {
				if !(math.Abs(x) <= farthest) {
					return fault.New(fault.Invalid, "it runs over %v", p).At(where)
				}
			}
			if k > 0 {
				drawn += distance(line[k-1], p)
			}
		}
		long, scale := e.Length, 1.0
		if long == 0 {
			long = drawn
		} else if drawn > 0 {
			scale = long / drawn
		}
		if !(long > 1e-3 && long <= farthest) {
			return fault.New(fault.Invalid, "it is %v mm long", long).At(where).WithHint("longer than nothing: give a length, or two different places")
		}
		if !(e.Slack >= 0 && e.Slack <= 1) {
			return fault.New(fault.Invalid, "a slack of %v", e.Slack).At(where).WithHint("a share of the length, 0 to 1")
		}
		switch e.Cover {
		case "", Tape, Sleeve, Bare:
		default:
			return fault.New(fault.Invalid, "covered with %q", e.Cover).At(where).WithHint("tape, sleeve or bare")
		}
		g.ends, g.length, g.scale = append(g.ends, [2]int{a, b}), append(g.length, long), append(g.scale, scale)
	}
	for i, s := range g.p.Splices {
		if s.Edge != "" && !seen[s.Edge] {
			return fault.New(fault.Invalid, "no stretch is called %q", s.Edge).At(at("splice", i, s.ID))
		}
	}
	return nil
}

func (g *given) acceptWires() error {
	seen := map[string]bool{}
	joined := make([]int, len(g.p.Splices))
	for i, w := range g.p.Wires {
		where := at("wire", i, w.ID)
		if seen[w.ID] || w.ID == "" {
			return fault.New(fault.Invalid, "it has no name, or another has the same").At(where)
		}
		seen[w.ID] = true
		if !(w.Outside > 0 && w.Outside <= 100) || !(w.Mass >= 0 && w.Mass <= 1e5) || !(w.Ohms >= 0 && w.Ohms <= 1e3) {
			return fault.New(fault.Invalid, "%v mm thick, %v g/m, %v Ω/m", w.Outside, w.Mass, w.Ohms).At(where)
		}
		if w.From == w.To {
			return fault.New(fault.Invalid, "both ends are at %s", w.From).At(where)
		}
		var ends [2]int
		for k, e := range []End{w.From, w.To} {
			n, node := g.node[e.Node]
			s, splice := g.splice[e.Node]
			switch {
			case node && g.p.Nodes[n].Kind == Hole:
				return fault.New(fault.Invalid, "it ends in hole %s", e.Node).At(where).WithHint("lead it through, to a connector")
			case node:
				ends[k] = n
			case splice:
				ends[k] = -1 - s
				joined[s]++
			default:
				return fault.New(fault.Invalid, "it ends at %q, which is nowhere", e.Node).At(where).WithHint("the name of a waypoint or splice")
			}
		}
		g.wires = append(g.wires, ends)
	}
	for s, n := range joined {
		if n < 2 {
			return fault.New(fault.Invalid, "%d wires end in it", n).At(at("splice", s, g.p.Splices[s].ID)).WithHint("a splice joins two or more")
		}
	}
	return nil
}

// edgeID is the name of a stretch.
func (g *given) edgeID(i int) string {
	if e := g.p.Edges[i]; e.ID != "" {
		return e.ID
	} else {
		return e.From + "–" + e.To
	}
}

// line is a stretch with its ends.
func (g *given) line(i int) [][3]float64 {
	e := &g.p.Edges[i]
	line := make([][3]float64, 0, len(e.Via)+2)
	line = append(line, g.p.Nodes[g.node[e.From]].At)
	line = append(line, e.Via...)
	return append(line, g.p.Nodes[g.node[e.To]].At)
}

func distance(a, b [3]float64) float64 {
	return math.Hypot(math.Hypot(a[0]-b[0], a[1]-b[1]), a[2]-b[2])
}
