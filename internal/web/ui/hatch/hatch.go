// Package hatch is the drawing language of panel states: patterns that print
// in black, so that a state is never told by colour alone.
package hatch

import "regexp"

// States are the states of a panel in the order of the work.
var states = [...]string{
	"keep", "repair", "replace", "make", "in metal", "in epoxy", "in primer", "blocked",
	"ready for colour", "in colour", "cut and polished", "fitted",
}

// States lists the words of all panel states in the order of the work.
func States() []string { return append([]string(nil), states[:]...) }

var patterns = map[string]string{
	"repair": "h-repair", "replace": "h-replace", "make": "h-make", "in metal": "h-metal", "in epoxy": "h-epoxy",
	"in primer": "h-primer", "blocked": "h-blocked", "ready for colour": "h-ready",
}

var hex = regexp.MustCompile(`^#[0-9a-fA-F]{6}$`)

// Fill is the value of an SVG fill for a state: a pattern of Defs, the true
// colour where the panel has one, or "none" for bare paper.
func Fill(state, colour string) string {
	switch state {
	case "in colour", "cut and polished", "fitted":
		if hex.MatchString(colour) {
			return colour
		}
		return "none"
	}
	if id, ok := patterns[state]; ok {
		return "url(#" + id + ")"
	}
	return "none"
}

// Class is the class of a shape drawn in a state; it gives the outline its
// weight: heavy once fitted, broken while the panel is to be made or replaced.
func Class(state string) string {
	switch state {
	case "fitted":
		return "panel panel-fitted"
	case "cut and polished":
		return "panel panel-polished"
	case "make", "replace":
		return "panel panel-absent"
	}
	return "panel"
}
