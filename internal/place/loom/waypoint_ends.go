package loom

import (
	"slices"
	"strings"

	"fettle/build"
	"fettle/internal/web"
)

// circuitsAt are the circuits that begin at a waypoint, and those that reach it.
func (s sheet) circuitsAt(id build.WaypointID) (begins, reaches string) {
	var first, rest []string
	for _, c := range s.Build.Circuits {
		switch slices.Index(c.Ends, id) {
		case -1:
		case 0:
			first = append(first, c.ID)
		default:
			rest = append(rest, c.ID)
		}
	}
	return strings.Join(first, " "), strings.Join(rest, " ")
}

// byName are the circuits whose list names a place so: from there, and to it.
func (s sheet) byName(name string) (begins, reaches string) {
	var first, rest []string
	for _, c := range s.Build.Circuits {
		if name == "" || len(c.Ends) > 1 {
			continue
		}
		if strings.EqualFold(c.From, name) {
			first = append(first, c.ID)
		}
		if slices.ContainsFunc(placesIn(c.To), func(to string) bool { return strings.EqualFold(to, name) }) {
			rest = append(rest, c.ID)
		}
	}
	return strings.Join(first, " "), strings.Join(rest, " ")
}

// endings are the changes of circuits that begin at a waypoint or reach it from
// now on, or no longer do.
func (s sheet) endings(f *web.Form, id build.WaypointID) []build.Change {
	begins, reaches := s.circuitsNamed(f, "begins"), s.circuitsNamed(f, "reaches")
	var changes []build.Change
	for _, c := range s.Build.Circuits {
		first, rest := slices.Contains(begins, c.ID), slices.Contains(reaches, c.ID)
		at := slices.Index(c.Ends, id)
		switch {
		case first && rest:
			f.Fail("reaches", "names "+c.ID+", which begins here already")
			continue
		case first && at != 0 && len(c.Ends) > 1:
			f.Fail("begins", "names "+c.ID+", which begins at "+string(c.Ends[0])+": take it off there first")
			continue
		case first && at == 0, rest && at > 0, !first && !rest && at < 0:
			continue
		}
		one := c
		one.Ends = slices.DeleteFunc(slices.Clone(c.Ends), func(e build.WaypointID) bool { return e == id })
		switch {
		case first:
			one.Ends = slices.Insert(one.Ends, 0, id)
		case rest:
			one.Ends = append(one.Ends, id)
		}
		changes = append(changes, &build.SetCircuit{Circuit: one})
	}
	return changes
}

func (s sheet) circuitsNamed(f *web.Form, name string) []string {
	list := names(strings.ToUpper(f.Raw(name)))
	for _, id := range list {
		if s.Build.Circuit(id) == nil {
			f.Fail(name, "names "+id+", which is no circuit of the list")
		}
	}
	return list
}

// holdsOn names what holds on to a waypoint.
func (s sheet) holdsOn(id build.WaypointID) []string {
	l := &s.Build.Loom
	var list []string
	for _, x := range l.Stretches {
		if x.From == id || x.To == id {
			list = append(list, "stretch "+x.ID)
		}
	}
	for _, x := range l.Holes {
		if x.At == id {
			list = append(list, "hole "+x.ID)
		}
	}
	for _, c := range s.Build.Circuits {
		if slices.Contains(c.Ends, id) {
			list = append(list, "circuit "+c.ID)
		}
	}
	return append(list, partsAt(l, id)...)
}

// partsAt names the parts of the loom that are at a waypoint.
func partsAt(l *build.Loom, id build.WaypointID) []string {
	var list []string
	add := func(at build.WaypointID, name string) {
		if at == id {
			list = append(list, name)
		}
	}
	for _, x := range l.Batteries {
		add(x.At, x.Name)
	}
	for _, x := range l.Alternators {
		add(x.At, x.Name)
	}
	for _, x := range l.Boxes {
		add(x.At, x.Name)
	}
	for _, x := range l.Consumers {
		add(x.At, x.Name)
	}
	for _, x := range l.Switches {
		add(x.At, x.Name)
	}
	for _, x := range l.Relays {
		add(x.At, x.Name)
	}
	for _, x := range l.Connectors {
		add(x.At, x.Name)
	}
	for _, x := range l.Joints {
		add(x.At, x.Name)
	}
	return list
}
