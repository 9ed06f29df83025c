package loom

import (
	"math"
	"slices"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/desk"
	"fettle/internal/drawn"
	"fettle/internal/web"
	"fettle/unit"
)

// unplaced is an end of the list of circuits that no waypoint goes by.
type unplaced struct {
	Name     string
	Circuits []string
	Panel    *build.Panel // that is named so, or nil
	At       [3]float64   // its middle, mm, where it is known
	Known    bool
}

// placesIn parts what a circuit reaches, such as "front side L + tail L", into
// places. One that is a letter only leaves the whole as it is.
func placesIn(to string) []string {
	list := strings.Split(to, " + ")
	for _, p := range list {
		if len(strings.TrimSpace(p)) < 3 {
			return []string{to}
		}
	}
	return list
}

// unplacedEnds are the ends of circuits without a way on the body, by name.
func (s sheet) unplacedEnds() []unplaced {
	var list []unplaced
	add := func(name, circuit string) {
		name = strings.TrimSpace(name)
		if name == "" || slices.ContainsFunc(s.Build.Loom.Waypoints, func(w build.Waypoint) bool { return strings.EqualFold(w.Name, name) }) {
			return
		}
		i := slices.IndexFunc(list, func(u unplaced) bool { return strings.EqualFold(u.Name, name) })
		if i < 0 {
			i = len(list)
			list = append(list, s.guess(name))
		}
		list[i].Circuits = append(list[i].Circuits, circuit)
	}
	for _, c := range s.Build.Circuits {
		if len(c.Ends) > 1 {
			continue
		}
		add(c.From, c.ID)
		for _, to := range placesIn(c.To) {
			add(to, c.ID)
		}
	}
	return list
}

// guess finds the panel that a place is named after, and its middle.
func (s sheet) guess(name string) unplaced {
	u := unplaced{Name: name}
	words := strings.Fields(strings.ToLower(name))
	for i := range s.Build.Panels {
		p := &s.Build.Panels[i]
		side := p.Side == "C" || slices.Contains(words, strings.ToLower(p.Side))
		if !side || !strings.Contains(strings.ToLower(name), strings.ToLower(p.Name)) || u.Panel != nil && len(u.Panel.Name) >= len(p.Name) {
			continue
		}
		u.Panel = p
	}
	if u.Panel != nil {
		at, known := drawn.Centre(s.Build, u.Panel)
		u.At, u.Known = at, known[0] && known[2] && (known[1] || u.Panel.Side == "C")
	}
	return u
}

// unplacedWords are the circuits of an end and the panel it is named after.
func (s sheet) unplacedWords(u unplaced) string {
	text := strings.Join(u.Circuits, " ")
	if u.Known {
		text += ", on " + s.panelName(u.Panel.ID)
	}
	return text
}

// placeable counts the ends that are named after a panel.
func placeable(ends []unplaced) int {
	n := 0
	for _, u := range ends {
		if u.Known {
			n++
		}
	}
	return n
}

// start lays a beginning on the slip: waypoints where ends are named after
// panels, or straight stretches between the waypoints that are there.
func (p place) start(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	s, err := p.load(r)
	if err != nil {
		return err
	}
	var changes []build.Change
	switch f.Choice("with", "ends", "ways") {
	case "ends":
		changes = s.startEnds()
	case "ways":
		changes = s.startWays()
	}
	if err := f.Err(); err != nil {
		return err
	}
	if len(changes) == 0 {
		return fault.New(fault.Conflict, "there is nothing to begin with: no end is named after a panel, or all waypoints are joined").WithHint("Touch the ends in on the drawing.")
	}
	return p.desk.Propose(r, s.Base+"/slip", changes...)
}

func (s sheet) startEnds() []build.Change {
	next := *s.Build
	next.Loom.Waypoints = slices.Clone(s.Build.Loom.Waypoints)
	var changes []build.Change
	for _, u := range s.unplacedEnds() {
		if !u.Known {
			continue
		}
		w := build.Waypoint{Name: u.Name, What: "end", ID: build.WaypointID(desk.NextID("W%02d", len(next.Loom.Waypoints), func(id string) bool { return next.Loom.Waypoint(build.WaypointID(id)) != nil }))}
		for i, v := range u.At {
			w.At[i] = unit.Length(math.Round(v)) * unit.Millimetre
		}
		next.Loom.Waypoints = append(next.Loom.Waypoints, w)
		changes = append(changes, &build.SetWaypoint{Waypoint: w})
	}
	return append(changes, ended(&next)...)
}

// ended gives circuits without ends those that the waypoints' names tell, where
// all of a circuit's are there.
func ended(b *build.Build) []build.Change {
	var changes []build.Change
	for _, c := range b.Circuits {
		if len(c.Ends) > 1 {
			continue
		}
		one := c
		one.Ends = nil
		for _, name := range append([]string{c.From}, placesIn(c.To)...) {
			i := slices.IndexFunc(b.Loom.Waypoints, func(w build.Waypoint) bool { return strings.EqualFold(w.Name, strings.TrimSpace(name)) })
			if i < 0 || slices.Contains(one.Ends, b.Loom.Waypoints[i].ID) {
				one.Ends = nil
				break
			}
			one.Ends = append(one.Ends, b.Loom.Waypoints[i].ID)
		}
		if len(one.Ends) > 1 {
			changes = append(changes, &build.SetCircuit{Circuit: one})
		}
	}
	return changes
}

// startWays joins all waypoints that no stretches join yet by the shortest
// straight lines: a beginning, to be led along the body by hand. It grows one
// tree by its nearest waypoint, where what stretches join already costs nothing.
func (s sheet) startWays() []build.Change {
	points, part := s.Build.Loom.Waypoints, s.parts()
	near, far := make([]int, len(points)), make([]float64, len(points))
	for i := range points {
		far[i] = math.Inf(1)
	}
	var changes []build.Change
	n := len(s.Build.Loom.Stretches)
	for range points {
		at := -1
		for i, d := range far {
			if d >= 0 && (at < 0 || d < far[at]) {
				at = i
			}
		}
		if d := far[at]; d > 0 && !math.IsInf(d, 1) {
			id := desk.NextID("R%02d", n, s.stretchTaken)
			n++
			changes = append(changes, &build.SetStretch{Stretch: build.Stretch{ID: id, From: points[near[at]].ID, To: points[at].ID}})
		}
		far[at] = -1 // in the tree
		for i := range points {
			d := straight(points[at], points[i])
			if part[i] == part[at] {
				d = 0
			}
			if d < far[i] {
				near[i], far[i] = at, d
			}
		}
	}
	return changes
}

// parts numbers the parts of the route that hang together, by waypoint.
func (s sheet) parts() []int {
	l := &s.Build.Loom
	part, number := make([]int, len(l.Waypoints)), map[build.WaypointID]int{}
	for i, w := range l.Waypoints {
		part[i], number[w.ID] = i, i
	}
	for _, x := range l.Stretches {
		to, from := part[number[x.From]], part[number[x.To]]
		for i := range part {
			if part[i] == from {
				part[i] = to
			}
		}
	}
	return part
}
