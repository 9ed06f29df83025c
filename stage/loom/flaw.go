package loom

import (
	"fmt"
	"strings"

	"fettle/build"
	"fettle/engine/loom"
	"fettle/figure"
	"fettle/takeoff"
)

// mendedAt is the page on which what stands at a place is put right.
func mendedAt(b *build.Build, place string) string {
	kind, name, _ := strings.Cut(place, " ")
	switch {
	case kind == "fuse" || kind == "box":
		return "loom/fuses"
	case kind == "wire" && b.Circuit(name) != nil:
		return "loom/circuit/" + name
	case kind == "wire":
		return "loom/parts/wire"
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
