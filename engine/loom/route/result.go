package route

import (
	"fettle/engine/loom/steiner"
	"fettle/figure"
	"fettle/geom"
)

// Options bound the work.
type Options struct {
	Seed uint64 `json:"seed,omitempty"`
	Tree steiner.Options
	// Starts of the packing of each bundle; 0 for what engine/loom/circles takes.
	Starts int `json:"starts,omitempty"`
}

// Status says what is known of a result.
type Status string

// What is known.
const (
	Proved      Status = "proved best"    // no tree is cheaper
	Bounded     Status = "within the gap" // none is cheaper by more than the gap
	Infeasible  Status = "not all fits"   // findings say what
	Interrupted Status = "interrupted"
)

// Result is the routed loom.
type Result struct {
	Status   Status        `json:"status"`
	Tree     Tree          `json:"tree"`
	Runs     []Stretch     `json:"stretches"` // of the tree, in the order of the edges
	Wires    []Lead        `json:"wires"`     // in the order given; one without a way has none
	Splices  []Joint       `json:"splices,omitempty"`
	Holes    []HoleRow     `json:"holes,omitempty"`
	Findings []Finding     `json:"findings,omitempty"`
	Mass     figure.Figure `json:"mass"`
	Cautions []string      `json:"cautions"`
}

// Tree is how good the chosen way is known to be.
type Tree struct {
	Length  float64       `json:"length_mm"`
	Cost    float64       `json:"cost"`  // with what new holes add, millimetres
	Bound   float64       `json:"bound"` // no tree costs less
	Gap     float64       `json:"gap"`   // of cost over bound, a share
	Rounds  int           `json:"rounds"`
	Working figure.Figure `json:"working"`
}

// Stretch is one edge of the tree and what runs in it.
type Stretch struct {
	Edge     int           `json:"edge"` // index into Problem.Edges
	ID       string        `json:"id"`
	From     string        `json:"from"`
	To       string        `json:"to"`
	Length   float64       `json:"length_mm"`
	Wires    []int         `json:"wires"` // indexes into Problem.Wires, rising
	Packed   float64       `json:"packed_mm"`
	At       []geom.Point  `json:"at_mm"` // centre of each wire in the packed section
	Rule     float64       `json:"rule_mm"`
	Cover    Cover         `json:"cover"`
	Outside  float64       `json:"outside_mm"`  // packed, with the cover
	Bend     float64       `json:"bend_mm"`     // least radius
	Clearest float64       `json:"tightest_mm"` // radius that the corners of the line leave; 0 where it is straight
	Working  figure.Figure `json:"working"`
}

// Step is a part of a wire's way: a stretch and from where to where on it,
// millimetres from its From end.
type Step struct {
	Edge int     `json:"edge"`
	From float64 `json:"from_mm"`
	To   float64 `json:"to_mm"`
}

// Lead is the way and the length of one wire.
type Lead struct {
	ID      string        `json:"id"`
	Steps   []Step        `json:"steps"`
	Along   float64       `json:"along_mm"` // through the loom, end to end
	Cut     float64       `json:"cut_mm"`   // to be cut
	Mass    float64       `json:"mass_g,omitempty"`
	Ohms    float64       `json:"ohms,omitempty"`
	Working figure.Figure `json:"working"`
}

// Joint is where a splice lies.
type Joint struct {
	ID    string   `json:"id"`
	Edge  int      `json:"edge"`
	At    float64  `json:"at_mm"` // from the From end of the stretch
	Wires []string `json:"wires"`
	Why   string   `json:"why"`
}

// HoleRow is a hole that the loom passes.
type HoleRow struct {
	ID      string        `json:"id"`
	Panel   string        `json:"panel"`
	At      [3]float64    `json:"at_mm"`
	New     bool          `json:"new"`
	Bore    float64       `json:"bore_mm"`           // there, or to drill
	Inside  float64       `json:"grommet_inside_mm"` // of the grommet
	Bundle  float64       `json:"bundle_mm"`         // outer diameter of what passes
	Wires   int           `json:"wires"`
	Fits    bool          `json:"fits"`
	Working figure.Figure `json:"working"`
}

// Finding is something that a person must see to.
type Finding struct {
	Rule  string `json:"rule"`
	Where string `json:"where"`
	Text  string `json:"text"`
	Hint  string `json:"hint,omitempty"`
}

// The rules that a finding can name.
const (
	RuleNoWay   = "no way"
	RuleHole    = "hole too small"
	RuleClip    = "clip too small"
	RuleBend    = "bend too tight"
	RuleSplice  = "no room for a splice"
	RuleStopped = "interrupted"
)
