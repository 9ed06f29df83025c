package board

import (
	"fettle/engine/loom/route"
	"fettle/geom"
)

// Problem is a routed loom and the board it is to be laid on. The zero value of
// a rule asks for the default that its comment names.
type Problem struct {
	Loom   route.Problem `json:"loom"`
	Routed route.Result  `json:"routed"`
	Rules  Rules         `json:"rules,omitzero"`

	Names map[string]string `json:"names,omitempty"` // of waypoints, to be drawn beside their numbers
}

// Rules are the shop's habits; all defaults are trade defaults.
type Rules struct {
	Width     float64 `json:"width_mm,omitempty"`  // of the board; 0: as wide as it must be
	Height    float64 `json:"height_mm,omitempty"` // 0: as high as it must be
	Margin    float64 `json:"margin_mm,omitempty"` // 0 for 60
	Apart     float64 `json:"apart_mm,omitempty"`  // between branches, beyond their thickness; 0 for 25
	Pitch     float64 `json:"peg_pitch_mm,omitempty"`
	LabelFrom float64 `json:"label_from_mm,omitempty"` // the end of a branch; 0 for 40
}

// Status says how the loom lies.
type Status string

// How it lies.
const (
	Laid        Status = "laid"            // angles and clearances kept
	Narrowed    Status = "laid closer"     // somewhere less than asked, findings say where
	Wedges      Status = "laid in wedges"  // no crossing, angles as they come
	TooLarge    Status = "board too small" // laid on the board that it needs
	Interrupted Status = "interrupted"
)

// Result is the loom on the board.
type Result struct {
	Status   Status          `json:"status"`
	Width    float64         `json:"width_mm"` // of the board, or what it must be
	Height   float64         `json:"height_mm"`
	Angle    float64         `json:"least_angle_deg"` // between two branches at a breakout; 0 where none fork
	Gap      float64         `json:"least_gap_mm"`    // between middles of branches that do not meet; 0 for one branch
	Places   []Place         `json:"places"`
	Branches []Branch        `json:"branches"` // in the order of Routed.Runs
	Pegs     []Peg           `json:"pegs"`
	Faces    []Face          `json:"faces"`
	Lines    []Line          `json:"lines"`
	Texts    []Text          `json:"texts"`
	Findings []route.Finding `json:"findings,omitempty"`
}

// Place is a waypoint on the board.
type Place struct {
	Node      string     `json:"node"`
	At        geom.Point `json:"at_mm"`
	From      float64    `json:"from_datum_mm"` // along the loom
	Tolerance float64    `json:"tolerance_mm"`
	Datum     bool       `json:"datum,omitempty"` // the rest of its tree is measured from it
}

// Branch is one stretch laid flat.
type Branch struct {
	Edge   int          `json:"edge"` // index into Loom.Edges
	ID     string       `json:"id"`
	Points []geom.Point `json:"points_mm"` // from its From waypoint to its To
}

// Peg holds the loom on the board.
type Peg struct {
	At  geom.Point `json:"at_mm"`
	Why string     `json:"why"` // breakout, bend, pitch, end
}

// Face is a connector as seen from the mating side.
type Face struct {
	Node     string       `json:"node"`
	Outline  []geom.Point `json:"outline_mm"`
	Cavities []Cavity     `json:"cavities"`
}

// Cavity is one place of a connector; Wire is empty where none goes in.
type Cavity struct {
	Name string     `json:"name"`
	At   geom.Point `json:"at_mm"`
	Wire string     `json:"wire,omitempty"`

	Colours []string `json:"colours,omitempty"` // of the wires in it
}

// Line is a polyline of the drawing.
type Line struct {
	Layer  string       `json:"layer"`
	Closed bool         `json:"closed,omitempty"`
	Points []geom.Point `json:"points_mm"`
}

// Text is a word of the drawing, its middle at a place.
type Text struct {
	Layer  string     `json:"layer"`
	Text   string     `json:"text"`
	At     geom.Point `json:"at_mm"`
	Height float64    `json:"height_mm"`
}

// The layers of a drawing.
const (
	LayerBoard   = "board"
	LayerLoom    = "loom"
	LayerBundles = "bundles" // their two edges
	LayerPegs    = "pegs"
	LayerFaces   = "connectors"
	LayerSplices = "splices"
	LayerCovers  = "covers"
	LayerDatums  = "datums"
	LayerLabels  = "labels"
)

// The rules that a finding of the board can name.
const (
	RuleBoard  = "board too small"
	RuleCloser = "laid closer"
	RuleFace   = "face covers something"
)
