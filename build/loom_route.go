package build

import (
	"math"

	"fettle/unit"
)

// WaypointID names a place on the body that wires pass or end at.
type WaypointID string

// Waypoint is a place on the body: x rearward from the front axle, y to the left
// of the centre line, z up from the ground, as the drawn views have it.
type Waypoint struct {
	ID   WaypointID     `json:"id"`
	Name string         `json:"name,omitempty"`
	At   [3]unit.Length `json:"at_mm"`
	What string         `json:"what,omitempty"` // of WaypointKinds; none is a clip, or an end where circuits end
}

// WaypointKinds lists what a waypoint can be: a clip, a place where branches
// part, the end of a circuit.
func WaypointKinds() []string { return []string{"clip", "breakout", "end"} }

// Stretch is a way from waypoint to waypoint along the body.
type Stretch struct {
	ID        string      `json:"id"`
	From      WaypointID  `json:"from"`
	To        WaypointID  `json:"to"`
	Length    unit.Length `json:"length_mm,omitempty"` // along the body; none is straight
	Forbidden string      `json:"forbidden,omitempty"` // why no wire may lie there
	Air       string      `json:"air,omitempty"`
	Moves     bool        `json:"moves,omitempty"`  // across a hinge or to the engine: it needs slack
	Sleeve    string      `json:"sleeve,omitempty"` // of SleeveKinds; none is that of the loom
}

// Hole is a hole that the loom passes, at a waypoint.
type Hole struct {
	ID       string      `json:"id"`
	At       WaypointID  `json:"at"`
	Panel    PanelID     `json:"panel"`
	Diameter unit.Length `json:"diameter_mm"`
	Grommet  string      `json:"grommet,omitempty"` // which one; none is a bare edge
	Bore     unit.Length `json:"bore_mm,omitempty"` // of the grommet; none is 4 mm less than the hole
	Drilled  bool        `json:"drilled,omitempty"`
	Day      unit.Date   `json:"day,omitzero"`
	By       PersonID    `json:"by,omitempty"`
}

// usualWall is what a grommet takes of a hole all round.
const usualWall = 2 * unit.Millimetre

// Clear returns the largest bundle that passes.
func (h Hole) Clear() unit.Length {
	switch {
	case h.Bore > 0:
		return h.Bore
	case h.Grommet != "":
		return h.Diameter - 2*usualWall
	}
	return h.Diameter
}

// Waypoint returns the waypoint of that ID, or nil.
func (l *Loom) Waypoint(id WaypointID) *Waypoint { return find(l.Waypoints, id, (*Waypoint).key) }

// Hole returns the hole of that ID, or nil.
func (l *Loom) Hole(id string) *Hole { return find(l.Holes, id, (*Hole).key) }

// Long returns the length of a stretch: as measured, or straight.
func (l *Loom) Long(s Stretch) unit.Length {
	a, b := l.Waypoint(s.From), l.Waypoint(s.To)
	if s.Length > 0 || a == nil || b == nil {
		return s.Length
	}
	sum := 0.0
	for i := range a.At {
		d := float64(a.At[i] - b.At[i])
		sum += float64(d * d)
	}
	return unit.Length(math.Round(math.Sqrt(sum)))
}

func (w *Waypoint) key() WaypointID { return w.ID }

func (s *Stretch) key() string { return s.ID }

func (h *Hole) key() string { return h.ID }
