package build

import (
	"slices"

	"fettle/unit"
)

// PanelID names a panel, such as P17.
type PanelID string

// PanelState is how far a panel is.
type PanelState string

// The states of a panel, in the order in which a panel passes them. The first
// four are decisions, the rest are stages of work.
const (
	Keep           PanelState = "keep"
	Repair         PanelState = "repair"
	Replace        PanelState = "replace"
	Make           PanelState = "make"
	InMetal        PanelState = "in metal"
	InEpoxy        PanelState = "in epoxy"
	InPrimer       PanelState = "in primer"
	Blocked        PanelState = "blocked"
	ReadyForColour PanelState = "ready for colour"
	InColour       PanelState = "in colour"
	CutPolished    PanelState = "cut and polished"
	Fitted         PanelState = "fitted"
)

// Decisions lists what can be decided about a panel or a finding.
func Decisions() []PanelState { return []PanelState{Keep, Repair, Replace, Make} }

// PanelStates lists all states in order.
func PanelStates() []PanelState {
	return []PanelState{Keep, Repair, Replace, Make, InMetal, InEpoxy, InPrimer, Blocked,
		ReadyForColour, InColour, CutPolished, Fitted}
}

// ZoneArea is the surface of a panel that belongs to one paint zone.
type ZoneArea struct {
	Zone ZoneID    `json:"zone"`
	Area unit.Area `json:"area_m2"`
}

// Panel is one piece of the body.
type Panel struct {
	ID        PanelID     `json:"id"`
	Name      string      `json:"name"`
	Side      string      `json:"side"` // L, R or C
	Gauge     unit.Length `json:"gauge_mm"`
	Areas     []ZoneArea  `json:"areas,omitempty"`
	Decision  PanelState  `json:"decision"` // keep, repair, replace or make
	State     PanelState  `json:"state"`
	Task      TaskID      `json:"metal_task"` // the metal task its findings belong to
	Outlines  []Outline   `json:"outlines,omitempty"`
	Bare      unit.Moment `json:"bare_since,omitzero"` // when it last became bare metal
	Undivided []ZoneArea  `json:"undivided,omitempty"` // its areas before the chosen look divided it otherwise
}

// Area returns the panel's surface over all zones.
func (p Panel) Area() unit.Area {
	var sum unit.Area
	for _, a := range p.Areas {
		sum += a.Area
	}
	return sum
}

// Face returns the zone of the panel's outside, its first; a panel with no
// painted surface has none.
func (p Panel) Face() ZoneID {
	if len(p.Areas) == 0 {
		return ""
	}
	return p.Areas[0].Zone
}

// Has reports whether the panel has surface in a zone.
func (p Panel) Has(zone ZoneID) bool {
	return slices.ContainsFunc(p.Areas, func(a ZoneArea) bool { return a.Zone == zone })
}

// PanelsIn returns the panels with surface in a zone, in their order.
func (b *Build) PanelsIn(zone ZoneID) []PanelID {
	var list []PanelID
	for _, p := range b.Panels {
		if p.Has(zone) {
			list = append(list, p.ID)
		}
	}
	return list
}

// covered reports whether paint for some zones lands on a zone of the panel.
func (p Panel) covered(zones []ZoneID, zone ZoneID) bool {
	if slices.ContainsFunc(zones, p.Has) {
		return p.Has(zone) && slices.Contains(zones, zone)
	}
	return zone != "" && zone == p.Face()
}

// FullName says which panel on which side.
func (p Panel) FullName() string {
	switch p.Side {
	case "L":
		return p.Name + ", left"
	case "R":
		return p.Name + ", right"
	}
	return p.Name
}

// Panel returns the panel of that ID, or nil.
func (b *Build) Panel(id PanelID) *Panel {
	return find(b.Panels, id, func(p *Panel) PanelID { return p.ID })
}
