package loom

import (
	"fmt"
	"slices"
	"strings"

	"fettle/build"
	"fettle/engine/loom"
)

// powerOrder is the order in which circuits of the list get power, by number in
// the list: feeds from the battery on, each behind the one that it hangs on,
// then loads, fuse by fuse. A feed without a fuse is there from the start.
func powerOrder(b *build.Build, p loom.Problem) []int {
	var feeds, loads []int
	take := func(fuse string) {
		for i, c := range p.Circuits {
			switch {
			case c.Fuse != fuse || fuse == "" && c.Feed:
			case c.Feed:
				feeds = append(feeds, i)
			default:
				loads = append(loads, i)
			}
		}
	}
	for _, f := range p.Fuses {
		take(f.Name)
	}
	take("")
	slices.SortStableFunc(feeds, func(x, y int) int { return feedDepth(b, p, p.Circuits[x], nil) - feedDepth(b, p, p.Circuits[y], nil) })
	return append(feeds, loads...)
}

// feedDepth is how many feeds stand between one and the battery.
func feedDepth(b *build.Build, p loom.Problem, c loom.Circuit, seen []string) int {
	at := c.From
	if f := b.Loom.Fuse(c.Fuse); f != nil && f.Box != "" {
		at = f.Box
	}
	for _, up := range p.Circuits {
		if up.Feed && up.To == at && up.ID != c.ID && !isBattery(b, at) && !slices.Contains(seen, up.ID) {
			return 1 + feedDepth(b, p, up, append(seen, c.ID))
		}
	}
	return 0
}

func isBattery(b *build.Build, name string) bool {
	return slices.ContainsFunc(b.Loom.Batteries, func(x build.Battery) bool { return x.Name == name })
}

// switched tells whether a place is a switch or a relay.
func switched(b *build.Build, name string) bool {
	return slices.ContainsFunc(b.Loom.Switches, func(x build.Switch) bool { return x.Name == name }) ||
		slices.ContainsFunc(b.Loom.Relays, func(x build.Relay) bool { return x.Name == name })
}

// powerDo is what is done in a step: the fuse goes in, or is in from a step
// before, and one load is switched on. A feed is metered at its end, with
// nothing on behind it.
func powerDo(b *build.Build, c loom.Circuit, still bool) string {
	in := "fuse " + c.Fuse + " in"
	switch {
	case c.Fuse == "":
		return c.Name + " on"
	case still:
		in = "fuse " + c.Fuse + " still in"
	case strings.HasPrefix(c.Fuse, "link"):
		in = c.Fuse + " in"
	}
	switch {
	case !c.Feed:
		return in + ", " + c.Name + " on"
	case isBattery(b, c.To):
		return fmt.Sprintf("%s, engine still: meter at the %s", in, c.From)
	case switched(b, c.From):
		return fmt.Sprintf("%s, %s unplugged, %s worked: meter at the plug", in, c.To, c.From)
	}
	return fmt.Sprintf("%s, nothing on behind it: meter at the %s", in, c.To)
}
