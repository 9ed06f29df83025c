package build

import (
	"slices"

	"fettle/unit"
)

// Loom is what is known of the electrics beside the list of circuits. Parts
// that wires end on go by their names, which no two of them share.
type Loom struct {
	Settings    LoomSettings  `json:"settings,omitzero"`
	Batteries   []Battery     `json:"batteries,omitempty"`
	Alternators []Alternator  `json:"alternators,omitempty"`
	Boxes       []FuseBox     `json:"fuse_boxes,omitempty"`
	Fuses       []Fuse        `json:"fuses,omitempty"`
	Consumers   []Consumer    `json:"consumers,omitempty"`
	Switches    []Switch      `json:"switches,omitempty"`
	Relays      []Relay       `json:"relays,omitempty"`
	Connectors  []Connector   `json:"connectors,omitempty"`
	Joints      []Joint       `json:"joints,omitempty"`
	Wires       []Wire        `json:"wires,omitempty"`
	Cables      []Cable       `json:"cables,omitempty"` // the owner's own tables
	Exclusives  []Exclusive   `json:"never_together,omitempty"`
	Waypoints   []Waypoint    `json:"waypoints,omitempty"`
	Stretches   []Stretch     `json:"stretches,omitempty"`
	Holes       []Hole        `json:"holes,omitempty"`
	Supplies    []LoomSupply  `json:"supplies,omitempty"`
	Metered     []Metered     `json:"metered,omitempty"`
	Crimps      []CrimpTest   `json:"crimp_tests,omitempty"`
	Labels      []PrintedWire `json:"labels_printed,omitempty"`
}

// LoomSettings is how the loom is reckoned and made. What is not said is the
// habit of the trade.
type LoomSettings struct {
	Rules         string      `json:"rules,omitempty"`          // in full or by list
	Cable         string      `json:"cable,omitempty"`          // name of its table; none is that of the rules
	Volts         float64     `json:"nominal_v,omitempty"`      // 6, 12 or 24; none is 12
	PositiveEarth bool        `json:"positive_earth,omitempty"` // the body is joined to battery plus
	Code          string      `json:"colour_code,omitempty"`    // that labels are printed in
	Air           float64     `json:"air_c,omitempty"`          // the warmest air where no other is named
	Airs          []WarmAir   `json:"airs,omitempty"`
	Sleeve        string      `json:"sleeve,omitempty"`
	Wall          unit.Length `json:"sleeve_wall_mm,omitempty"`
	Slack         float64     `json:"slack_percent,omitempty"`
	Loop          unit.Length `json:"service_loop_mm,omitempty"` // at each end
	BoardWidth    unit.Length `json:"board_width_mm,omitempty"`
	BoardHeight   unit.Length `json:"board_height_mm,omitempty"`
	ByRoute       bool        `json:"lengths_by_route,omitempty"`   // sections by the lengths of the route where it is drawn, not those of the list
	HoursFor      int         `json:"hours_for_circuits,omitempty"` // that the hours of its tasks were planned with; none: they stay as planned
}

// WarmAir is a part of the vehicle with the warmest air that wires meet there.
type WarmAir struct {
	Name    string  `json:"name"`
	Celsius float64 `json:"celsius"`
}

// LoomRules lists the sets of rules that sections are chosen by.
func LoomRules() []string { return []string{"in full", "by list"} }

// ColourCodes lists the codes of wire colours.
func ColourCodes() []string { return []string{"BS-AU7", "IEC 60757"} }

// SleeveKinds lists what a loom is covered with.
func SleeveKinds() []string { return []string{"braid", "conduit", "tape", "cloth tape", "bare"} }

// LoomSupply says which part on the list of Stores covers a kind of thing that
// the loom takes.
type LoomSupply struct {
	What string      `json:"what"`
	Part PartID      `json:"part"`
	Reel unit.Length `json:"reel_mm,omitempty"` // of cable or sleeve: what is on one
}

// LoomSupplyKinds lists what the loom takes from Stores.
func LoomSupplyKinds() []string {
	return []string{"cable", "terminals", "connectors", "fuses", "fuse box", "relays", "sleeve", "heat-shrink", "grommets", "battery", "isolator", "alternator"}
}

// Exclusive names what is never on together: circuits or consumers.
type Exclusive struct {
	ID    string   `json:"id"`
	Never []string `json:"never"`
	Why   string   `json:"why"`
}

// clone copies the lists.
func (l Loom) clone() Loom {
	l.Settings.Airs = slices.Clone(l.Settings.Airs)
	l.Batteries, l.Alternators, l.Boxes, l.Fuses = slices.Clone(l.Batteries), slices.Clone(l.Alternators), slices.Clone(l.Boxes), slices.Clone(l.Fuses)
	l.Consumers, l.Switches, l.Relays = slices.Clone(l.Consumers), slices.Clone(l.Switches), slices.Clone(l.Relays)
	l.Connectors, l.Joints, l.Wires, l.Cables = slices.Clone(l.Connectors), slices.Clone(l.Joints), slices.Clone(l.Wires), slices.Clone(l.Cables)
	l.Exclusives, l.Waypoints, l.Stretches, l.Holes = slices.Clone(l.Exclusives), slices.Clone(l.Waypoints), slices.Clone(l.Stretches), slices.Clone(l.Holes)
	l.Supplies, l.Metered, l.Crimps, l.Labels = slices.Clone(l.Supplies), slices.Clone(l.Metered), slices.Clone(l.Crimps), slices.Clone(l.Labels)
	return l
}

// Supply returns what covers a kind of thing, or nil.
func (l *Loom) Supply(what string) *LoomSupply { return find(l.Supplies, what, (*LoomSupply).key) }

func (s *LoomSupply) key() string { return s.What }

func (e *Exclusive) key() string { return e.ID }
