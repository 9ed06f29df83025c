package build

import (
	"fmt"

	"fettle/unit"
)

// SetWaypoint enters a place that wires pass or end at, or enters it anew.
type SetWaypoint struct {
	Waypoint Waypoint `json:"waypoint"`
}

// Kind names the act.
func (c *SetWaypoint) Kind() string { return "set-waypoint" }

// Say tells what the change does.
func (c *SetWaypoint) Say(*Build) string {
	return fmt.Sprintf("Waypoint %s at %.0f, %.0f, %.0f mm", c.Waypoint.ID, c.Waypoint.At[0].Mm(), c.Waypoint.At[1].Mm(), c.Waypoint.At[2].Mm())
}

// Apply adds it or takes the place of the one that goes by the same name.
func (c *SetWaypoint) Apply(b *Build) error {
	return b.tryWired(func(next *Build) { next.Loom.Waypoints = put(b.Loom.Waypoints, c.Waypoint, (*Waypoint).key) })
}

// SetStretch enters a way from waypoint to waypoint, or enters it anew.
type SetStretch struct {
	Stretch Stretch `json:"stretch"`
}

// Kind names the act.
func (c *SetStretch) Kind() string { return "set-stretch" }

// Say tells what the change does.
func (c *SetStretch) Say(*Build) string {
	return stretchWords(c.Stretch)
}

// Apply adds it or takes the place of the one that goes by the same name.
func (c *SetStretch) Apply(b *Build) error {
	return b.tryWired(func(next *Build) { next.Loom.Stretches = put(b.Loom.Stretches, c.Stretch, (*Stretch).key) })
}

// SetHole enters a hole that the loom passes, or enters it anew.
type SetHole struct {
	Hole Hole `json:"hole"`
}

// Kind names the act.
func (c *SetHole) Kind() string { return "set-hole" }

// Say tells what the change does.
func (c *SetHole) Say(*Build) string {
	return fmt.Sprintf("Hole %s in %s: %.0f mm", c.Hole.ID, c.Hole.Panel, c.Hole.Diameter.Mm())
}

// Apply adds it or takes the place of the one that goes by the same name.
func (c *SetHole) Apply(b *Build) error {
	return b.tryWired(func(next *Build) { next.Loom.Holes = put(b.Loom.Holes, c.Hole, (*Hole).key) })
}

func stretchWords(s Stretch) string {
	text := fmt.Sprintf("Stretch %s: %s to %s", s.ID, s.From, s.To)
	if s.Forbidden != "" {
		text += ", no wire may lie there: " + s.Forbidden
	}
	return text
}

// DrillHole says that a hole for the loom is drilled.
type DrillHole struct {
	Hole string    `json:"hole"`
	Day  unit.Date `json:"day"`
	By   PersonID  `json:"by,omitempty"`
}

// Kind names the act.
func (c *DrillHole) Kind() string { return "drill-hole" }

// Say tells what the change does.
func (c *DrillHole) Say(*Build) string { return fmt.Sprintf("Hole %s is drilled", c.Hole) }

// Apply marks the hole.
func (c *DrillHole) Apply(b *Build) error {
	h := b.Loom.Hole(c.Hole)
	switch {
	case h == nil:
		return missing("hole", c.Hole)
	case h.Drilled:
		return rule(ruleOrder, "it is drilled already").At("hole " + c.Hole)
	}
	drilled := *h
	drilled.Drilled, drilled.Day, drilled.By = true, c.Day, c.By
	return b.tryWired(func(next *Build) { next.Loom.Holes = put(b.Loom.Holes, drilled, (*Hole).key) })
}
