package loom

import "fettle/figure"

// Status sums a loom up.
type Status string

// The statuses, best first.
const (
	Sound      Status = "sound"      // every run passes every rule, and no flaw was found
	Flawed     Status = "flawed"     // flaws or flags stand in the result
	Impossible Status = "impossible" // some run passes with no size of the cable
)

// Result is what a loom comes to.
type Result struct {
	Status   Status          `json:"status"`
	Rules    Rules           `json:"rules"`
	Runs     []Sized         `json:"runs"` // circuits, then wires, in the order of the problem
	Fuses    []FuseLoad      `json:"fuses"`
	Boxes    []BoxUse        `json:"boxes,omitempty"`
	Flaws    []Flaw          `json:"flaws"`
	States   []State         `json:"states,omitempty"` // without a working point, or all if asked for
	Charge   *Charge         `json:"charge,omitempty"`
	Night    *figure.Figure  `json:"night,omitempty"`
	Reserve  []figure.Figure `json:"reserve,omitempty"`
	Cautions []string        `json:"cautions"`
	Stats    Stats           `json:"stats"`
}

// Stats counts work.
type Stats struct {
	Groups  int  `json:"switch_groups"`
	States  int  `json:"states_solved"`
	Every   bool `json:"every_state"` // no position of the switches was left out: the most of every wire is among them
	Passes  int  `json:"passes"`
	Nodes   int  `json:"nodes"`
	Factors int  `json:"factors"`
}

// Rule names what decided a section.
type Rule string

// The rules.
const (
	ByFitted  Rule = "fitted"        // nothing was chosen
	ByLeast   Rule = "smallest size" // nothing asks for more than the smallest
	ByLoad    Rule = "load"
	ByFuse    Rule = "fuse"
	ByDrop    Rule = "voltage drop"
	ByFault   Rule = "short circuit"
	ByDensity Rule = "density"
	ByAlone   Rule = "strength"
	ByPair    Rule = "pair"
	ByNone    Rule = "no size does"
)

// Sized is a run with its section and what was checked.
type Sized struct {
	ID        string        `json:"id"`
	Section   string        `json:"section"` // name of the size; of the largest where none does
	MM2       float64       `json:"mm2"`
	Rule      Rule          `json:"rule"`
	Fails     []Rule        `json:"fails,omitempty"` // rules that the size breaks
	Amps      float64       `json:"amps"`            // most that it carries, in any state
	State     string        `json:"state,omitempty"` // in which
	UsableA   float64       `json:"usable_a"`        // free air × ambient × bundle
	DropV     float64       `json:"drop_v"`          // one way, at CelsiusC
	DropMaxV  float64       `json:"drop_max_v"`
	Celsius   float64       `json:"celsius"` // of the conductor under load
	Fuse      string        `json:"fuse,omitempty"`
	FuseA     float64       `json:"fuse_a,omitempty"`
	FaultA    float64       `json:"fault_a,omitempty"`
	FaultS    float64       `json:"fault_s,omitempty"`
	FaultHeat float64       `json:"fault_a2s,omitempty"`
	Bears     float64       `json:"bears_a2s,omitempty"` // k²S²
	Return    bool          `json:"return,omitempty"`    // on the earth side
	AU7       string        `json:"colour_bs_au7,omitempty"`
	IEC       string        `json:"colour_iec,omitempty"`
	Working   figure.Figure `json:"working"`
}

// FuseLoad is what a fuse carries for long, and whether it may.
type FuseLoad struct {
	Name    string        `json:"name"`
	Amps    float64       `json:"amps"`   // its rating
	LongA   float64       `json:"long_a"` // continuous and intermittent, exclusives honoured
	ShortA  float64       `json:"short_a,omitempty"`
	NeedA   float64       `json:"need_a"`           // the smallest rating for it
	Flag    bool          `json:"flag"`             // it carries more than it may
	Inrush  string        `json:"inrush,omitempty"` // "holds", "may open", "opens"
	Feeds   []string      `json:"feeds"`            // runs, or consumers
	Window  []float64     `json:"window,omitempty"` // smallest and largest standard rating that do
	Working figure.Figure `json:"working"`
}

// BoxUse is the ways of a fuse box.
type BoxUse struct {
	Name       string        `json:"name"`
	Ways       int           `json:"ways"`
	Used       int           `json:"used"`
	Left       int           `json:"left"`
	AfterSplit int           `json:"after_split"` // ways that splitting its flagged groups takes; 0: none to split
	Working    figure.Figure `json:"working"`
}

// FlawKind names a kind of flaw.
type FlawKind string

// The kinds of flaw.
const (
	OpenEarth   FlawKind = "open earth"
	ThinEarth   FlawKind = "shared thin earth"
	Reversed    FlawKind = "relay reversed"
	NoFuse      FlawKind = "no fuse"
	EmptyHolder FlawKind = "empty fuse holder"
	Joined      FlawKind = "two circuits joined"
	SameLabel   FlawKind = "label twice"
	BoxFull     FlawKind = "box full"
	BigFuse     FlawKind = "fuse too large"
	FuseLoaded  FlawKind = "fuse overloaded"
	FuseOpens   FlawKind = "fuse opens on starting"
	Undersized  FlawKind = "run too thin"
	Collapse    FlawKind = "voltage collapses"
	Chatter     FlawKind = "relay chatters"
	ShortedNet  FlawKind = "plus joined to earth"
	NoFeed      FlawKind = "no feed"
	LooseEnd    FlawKind = "loose end"
	WrongWay    FlawKind = "wrong way round"
	WornContact FlawKind = "relay contact overloaded"
)

// Flaw is something wrong: where, what it does, what to do.
type Flaw struct {
	Kind   FlawKind `json:"kind"`
	Place  string   `json:"place"`
	Does   string   `json:"does"`
	Remedy string   `json:"remedy"`
}

// State is the net in one position of its switches.
type State struct {
	Name     string        `json:"name"`
	Battery  float64       `json:"battery_a"` // out of the batteries
	Holds    bool          `json:"holds"`     // there is a working point, and it was found
	Says     string        `json:"says,omitempty"`
	Consumer []ConsumerHas `json:"consumers,omitempty"`
	Wire     []WireHas     `json:"wires,omitempty"`
	Fuse     []WireHas     `json:"fuses,omitempty"`
}

// ConsumerHas is what reaches a consumer.
type ConsumerHas struct {
	Name  string  `json:"name"`
	Volts float64 `json:"volts"`
	Amps  float64 `json:"amps"`
}

// WireHas is what a wire or a fuse carries: amps from its first end to its
// second, volts lost that way.
type WireHas struct {
	ID    string  `json:"id"`
	Amps  float64 `json:"amps"`
	DropV float64 `json:"drop_v"`
}

// Charge is whether the alternator keeps up.
type Charge struct {
	LoadA   float64       `json:"load_a"` // continuous + intermittent × duty
	MayA    float64       `json:"may_a"`
	Enough  bool          `json:"enough"`
	Working figure.Figure `json:"working"`
}

// Options bound the work.
type Options struct {
	Progress     func(done, of int) // may be nil; states of one pass
	KeepStates   bool               // hand out every state of the last pass, not only those without a working point
	MostPerGroup int                // states of one group of switches; 512 unless said
	Every        int                // states of all switches together up to which every one is solved; 512 unless said, below 0: none
}

// Engine says what turns the alternator.
type Engine string

// What the engine does.
const (
	EngineOff     Engine = "off"
	EngineIdle    Engine = "idle"
	EngineRunning Engine = "running"
)
