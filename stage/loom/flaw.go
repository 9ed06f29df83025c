package loom

import (
	"fmt"
	"net/url"
	"slices"
	"strings"

	"fettle/build"
	"fettle/engine/loom"
	"fettle/figure"
	"fettle/takeoff"
)

// mendedAt is the page on which what stands at a place is put right: a circuit,
// a part, a waypoint or hole of the route; else the list.
func mendedAt(b *build.Build, place string) string {
	kind, rest, _ := strings.Cut(place, " ")
	name := rest
	for _, end := range []string{", ", " at "} {
		name, _, _ = strings.Cut(name, end)
	}
	part := func(kind, name string, there bool) string {
		if !there { // a name with such an end in it
			return "loom/parts"
		}
		return "loom/parts/" + kind + "/" + url.PathEscape(name)
	}
	switch kind {
	case "fuse", "box":
		return "loom/fuses"
	case "wire":
		circuit, _, _ := strings.Cut(name, ".")
		if b.Circuit(circuit) != nil {
			return "loom/circuit/" + url.PathEscape(circuit)
		}
		return part("wire", name, slices.ContainsFunc(b.Loom.Wires, func(x build.Wire) bool { return x.ID == name }))
	case "consumer":
		return part(kind, name, slices.ContainsFunc(b.Loom.Consumers, func(x build.Consumer) bool { return x.Name == name }))
	case "relay":
		return part(kind, name, slices.ContainsFunc(b.Loom.Relays, func(x build.Relay) bool { return x.Name == name }))
	case "splice", "earth":
		name = strings.TrimPrefix(name, "point ")
		return part("joint", name, slices.ContainsFunc(b.Loom.Joints, func(x build.Joint) bool { return x.Name == name }))
	case "waypoint", "hole":
		return "loom/route/" + kind + "/" + url.PathEscape(name)
	}
	if b.Circuit(kind) != nil { // "C2 and C1"
		return "loom/circuit/" + url.PathEscape(kind)
	}
	return "loom"
}

// flawed puts a flaw of the engine before a person, with the working it has.
func flawed(b *build.Build, r loom.Result, f loom.Flaw) takeoff.Check {
	c := takeoff.Check{ID: "loom/" + strings.ReplaceAll(string(f.Kind), " ", "-") + "/" + f.Place, Weight: takeoff.Slipping, Link: mendedAt(b, f.Place), Says: f.Place + ": " + f.Does, Do: f.Remedy,
		Figure: figure.Figure{Name: string(f.Kind), Text: f.Place, Formula: "found in the net as it stands", With: f.Does, Caution: r.Cautions[1]}}
	if f.Kind == loom.SameLabel {
		c.Weight = takeoff.Tight
	}
	for _, x := range r.Fuses {
		if f.Kind == loom.FuseLoaded && f.Place == "fuse "+x.Name {
			c.Figure = x.Working
			c.Says = fmt.Sprintf("fuse %s: %.1f A for long × %.4g = %.1f A, more than its %g A (%s)", x.Name, x.LongA, 1/r.Rules.FuseLoad, x.LongA/r.Rules.FuseLoad, x.Amps, strings.Join(x.Feeds, ", "))
		}
	}
	for _, x := range r.Runs {
		if f.Place == "wire "+x.ID {
			c.Figure = x.Working
			if one := b.Circuit(x.ID); one != nil {
				c.Says = fmt.Sprintf("circuit %s, %s: %s", x.ID, one.Name, f.Does)
			}
		}
	}
	return c
}
