package loom

import (
	"slices"

	"fettle/build"
	stage "fettle/stage/loom"
)

// The sheets of the net.
const (
	charging = "Charging and starting"
	ignition = "Ignition and fuel"
	lighting = "Lighting"
	signals  = "Signals"
	motors   = "Motors and horn"
	inside   = "Inside and outlets"
	gauges   = "Gauges and telltales"
)

// systems are in the order in which they are drawn.
var systems = []string{charging, ignition, lighting, signals, motors, inside, gauges}

// system tells on which sheet a run stands: by what it is tied to, then by what
// it feeds, and lamps by the base colour that the trade gives them.
func (s sheet) system(g rung, c *build.Circuit) string {
	if c == nil {
		return charging
	}
	base := ""
	if names := stage.Hues(stage.Letters(c.Colour)); len(names) > 0 {
		base = names[0]
	}
	i := slices.IndexFunc(s.Build.Loom.Consumers, func(x build.Consumer) bool { return slices.Contains(x.Circuits, c.ID) })
	switch {
	case c.Feed || s.source(g.From) || s.source(g.To) || g.Pin == "50" || g.From == "isolator":
		return charging
	case i < 0:
		return gauges
	case base == "white":
		return ignition
	}
	x := s.Build.Loom.Consumers[i]
	switch {
	case x.Use == "headlamp" || x.Use == "lamp" && (base == "blue" || base == "red"):
		return lighting
	case x.Use == "lamp" && base == "green":
		return signals
	case x.Behaviour == "motor" || x.Short:
		return motors
	}
	return inside
}

// source tells whether a part is a battery or what charges it.
func (s sheet) source(name string) bool {
	return slices.ContainsFunc(s.Build.Loom.Batteries, func(x build.Battery) bool { return x.Name == name }) ||
		slices.ContainsFunc(s.Build.Loom.Alternators, func(x build.Alternator) bool { return x.Name == name }) && name != ""
}

// kindOf is the symbol of a consumer.
func kindOf(x build.Consumer) string {
	switch {
	case x.Behaviour == "motor" || x.Use == "starter":
		return "motor"
	case x.Use == "lamp" || x.Use == "headlamp":
		return "lamp"
	case x.Behaviour == "resistance" && x.Short:
		return "horn"
	case x.Behaviour == "resistance":
		return "coil"
	}
	return "box"
}
