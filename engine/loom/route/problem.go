package route

import (
	"strings"

	"fettle/fault"
)

// Problem is the body as waypoints and stretches, and the wires to be led. The
// zero value of a rule asks for the default that its comment names.
type Problem struct {
	Name    string   `json:"name,omitempty"`
	Nodes   []Node   `json:"nodes"`
	Edges   []Edge   `json:"edges"`
	Splices []Splice `json:"splices,omitempty"`
	Wires   []Wire   `json:"wires"`
	Rules   Rules    `json:"rules,omitzero"`
}

// Kind is what a waypoint is.
type Kind string

// The kinds.
const (
	Clip      Kind = "clip"
	Hole      Kind = "hole"      // through a panel, with a grommet
	Breakout  Kind = "breakout"  // where a branch may leave
	Connector Kind = "connector" // where wires may end: a connector, a stud, an earth point
)

// Node is a waypoint on the body.
type Node struct {
	ID    string     `json:"id"`
	Kind  Kind       `json:"kind"`
	At    [3]float64 `json:"at_mm"`
	Panel string     `json:"panel,omitempty"`

	// Of holes.
	Bore float64 `json:"bore_mm,omitempty"` // of the hole in the sheet; 0: to be chosen, as large as the bundle asks
	New  bool    `json:"new,omitempty"`     // not there yet: to be drilled before paint

	Largest float64 `json:"largest_bundle_mm,omitempty"` // outer diameter that passes; 0: by the grommet of the bore, without limit for a clip

	// Of connectors.
	Cavities  int     `json:"cavities,omitempty"`    // 0: as many as wires end in it
	Columns   int     `json:"columns,omitempty"`     // of cavities as seen from the mating side; 0: about twice as many as rows
	Stub      float64 `json:"stub_mm,omitempty"`     // from the end of the tree to the terminals
	Service   float64 `json:"service_mm,omitempty"`  // loop kept for making ends anew; 0 by the rules
	NoService bool    `json:"no_service,omitempty"`  // none is kept here
	Tolerance float64 `json:"tolerance_mm,omitzero"` // of the place of a breakout or connector along the loom; 0 by the rules
}

// Edge is a stretch between two waypoints.
type Edge struct {
	ID        string       `json:"id,omitempty"` // "from–to" unless said
	From      string       `json:"from"`
	To        string       `json:"to"`
	Via       [][3]float64 `json:"via_mm,omitempty"`    // corners on the way
	Length    float64      `json:"length_mm,omitempty"` // measured along it; 0: of the line through the places
	Forbidden string       `json:"forbidden,omitempty"` // why no wire may run here: exhaust, moving part
	Slack     float64      `json:"slack,omitempty"`     // share of the length; 0 by the rules
	Flex      string       `json:"flex,omitempty"`      // what moves between its ends: engine, hinge; slack is added
	Cover     Cover        `json:"cover,omitempty"`     // tape unless said
}

// Cover is what a stretch is wrapped in.
type Cover string

// The covers.
const (
	Tape   Cover = "tape"
	Sleeve Cover = "sleeve"
	Bare   Cover = "bare"
)

// Splice is a joint of wires inside the loom. Where it lies is chosen.
type Splice struct {
	ID   string `json:"id"`
	Edge string `json:"edge,omitempty"` // the stretch it must lie on; empty: to be chosen
}

// End is where a wire ends: a connector and its cavity, or a splice, written
// "node" or "node:cavity".
type End struct{ Node, Cavity string }

// String writes the end.
func (e End) String() string {
	if e.Cavity == "" {
		return e.Node
	}
	return e.Node + ":" + e.Cavity
}

// MarshalText writes the end.
func (e End) MarshalText() ([]byte, error) { return []byte(e.String()), nil }

// UnmarshalText reads an end; a name alone has an empty cavity.
func (e *End) UnmarshalText(text []byte) error {
	node, cavity, _ := strings.Cut(string(text), ":")
	e.Node, e.Cavity = strings.TrimSpace(node), strings.TrimSpace(cavity)
	if e.Node == "" {
		return fault.New(fault.Invalid, "%q names no place", text).WithHint("write place:cavity, such as fuse box:F5")
	}
	return nil
}

// Wire is one conductor.
type Wire struct {
	ID      string  `json:"id"`
	From    End     `json:"from"`
	To      End     `json:"to"`
	Outside float64 `json:"outside_mm"`            // over its insulation
	Mass    float64 `json:"mass_g_per_m,omitzero"` // 0: not known
	Ohms    float64 `json:"ohm_per_m,omitzero"`    // at 20 °C; 0: not known
	Section string  `json:"section,omitempty"`
	Colour  string  `json:"colour,omitempty"`
	Net     string  `json:"net,omitempty"` // wires of one net are one conductor electrically; empty: found by shared ends
}

// Rules are the shop's habits. All defaults are trade defaults without a
// published source unless docs/engine/loom-route.md names one.
type Rules struct {
	NewHole     float64   `json:"new_hole,omitempty"`       // how much dearer a stretch at a new hole is, as a share of its length; 0 for 1, below 0 for none
	Slack       float64   `json:"slack,omitempty"`          // share of a stretch for lie, bends and taping; 0 for 0.04
	FlexSlack   float64   `json:"flex_slack_mm,omitempty"`  // for each stretch between parts that move; 0 for 50
	Strip       float64   `json:"strip_mm,omitempty"`       // at each end; 0 for 7
	Service     float64   `json:"service_mm,omitempty"`     // loop at each connector; 0 for 75
	RoundUp     float64   `json:"round_up_mm,omitempty"`    // cut lengths are multiples of this; 0 for 5
	TapeWall    float64   `json:"tape_wall_mm,omitempty"`   // 0 for 0.4
	SleeveWall  float64   `json:"sleeve_wall_mm,omitempty"` // 0 for 1
	Bend        float64   `json:"bend,omitempty"`           // least radius ÷ outer diameter; 0 for 4
	SpliceApart float64   `json:"splice_apart_mm,omitzero"` // from another, a breakout or a hole; 0 for 40
	Tolerance   float64   `json:"tolerance_mm,omitempty"`   // of breakouts and connectors along the loom; 0 for 5
	Grommets    []Grommet `json:"grommets,omitempty"`       // rising; empty for the table of the package
	Rounds      int       `json:"rounds,omitempty"`         // most times the tree is chosen anew for holes that are too small; 0 for 12
}

// Grommet is a size that can be bought: the hole in the sheet that it sits in
// and the thickest bundle that passes.
type Grommet struct {
	Bore   float64 `json:"bore_mm"`
	Inside float64 `json:"inside_mm"`
}
