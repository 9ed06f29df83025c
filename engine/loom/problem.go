package loom

import (
	"strings"

	"fettle/fault"
)

// Problem is a whole loom: parts with terminals, the wires between them, and
// circuits that are known by a list alone. The zero value of a field asks for
// the default that its comment names.
type Problem struct {
	Name          string  `json:"name,omitempty"`
	Rules         string  `json:"rules,omitempty"`          // name of the rule set, InFull unless said
	NominalV      float64 `json:"nominal_v,omitempty"`      // 6, 12 or 24; 12 unless said
	PositiveEarth bool    `json:"positive_earth,omitempty"` // the body is joined to battery plus
	AmbientC      float64 `json:"ambient_c,omitempty"`      // where a run names no zone; 40 unless said
	FlatBundle    float64 `json:"flat_bundle,omitempty"`    // bundle factor where a run names no bundle; of the rule set unless said

	Batteries   []Battery    `json:"batteries,omitempty"`
	Alternators []Alternator `json:"alternators,omitempty"`
	Fuses       []Fuse       `json:"fuses,omitempty"`
	Switches    []Switch     `json:"switches,omitempty"`
	Relays      []Relay      `json:"relays,omitempty"`
	Joints      []Joint      `json:"joints,omitempty"`
	Consumers   []Consumer   `json:"consumers,omitempty"`
	Wires       []Wire       `json:"wires,omitempty"`    // between terminals; loads come from the net
	Circuits    []Circuit    `json:"circuits,omitempty"` // known by a list; loads are declared

	Boxes      []Box       `json:"boxes,omitempty"`
	Zones      []Zone      `json:"zones,omitempty"`
	Bundles    []Bundle    `json:"bundles,omitempty"`
	Exclusives []Exclusive `json:"exclusives,omitempty"`

	Cable string  `json:"cable,omitempty"` // name of the cable, that of the rule set unless said
	Own   []Cable `json:"own_cables,omitempty"`
	Types []Curve `json:"own_fuse_types,omitempty"`
}

// Pin is one terminal of a part, written "part:terminal", such as
// "horn relay:87". Numbers of terminals are those of DIN 72552 where it has one.
type Pin struct{ Part, Terminal string }

// String writes the pin.
func (p Pin) String() string {
	if p.Terminal == "" {
		return p.Part
	}
	return p.Part + ":" + p.Terminal
}

// MarshalText writes the pin.
func (p Pin) MarshalText() ([]byte, error) { return []byte(p.String()), nil }

// UnmarshalText reads a pin; a part alone has an empty terminal.
func (p *Pin) UnmarshalText(text []byte) error {
	part, terminal, _ := strings.Cut(string(text), ":")
	p.Part, p.Terminal = strings.TrimSpace(part), strings.TrimSpace(terminal)
	if p.Part == "" {
		return fault.New(fault.Invalid, "%q names no part", text).WithHint("write part:terminal, such as horn relay:87")
	}
	return nil
}

// Run is what wires and circuits share: a length of one conductor and what is
// asked of it.
type Run struct {
	ID      string  `json:"id"`
	Label   string  `json:"label,omitempty"` // what is printed on it, the ID unless said
	LengthM float64 `json:"length_m"`
	Section string  `json:"section,omitempty"` // name of a size that is fitted, such as "1.5" or "AWG 16"; empty: to be chosen
	Duty    Duty    `json:"duty,omitempty"`    // Continuous unless said
	Colour  string  `json:"colour,omitempty"`  // letters of BS-AU7 or IEC 60757, such as "U/R" or "BURD"

	DropPercent float64 `json:"drop_percent,omitempty"` // of the supply, for this run; 0: by the rule set
	DropV       float64 `json:"drop_v,omitempty"`       // the same in volts; the smaller counts
	Zone        string  `json:"zone,omitempty"`
	Bundle      string  `json:"bundle,omitempty"`
	Pair        string  `json:"pair,omitempty"`    // runs of one pair get one section, left and right
	Unfused     string  `json:"unfused,omitempty"` // why no fuse stands before it, such as "starter cable"
}

// Wire is a run between two terminals of the net.
type Wire struct {
	Run
	From Pin `json:"from"`
	To   Pin `json:"to"`
}

// Circuit is a run that is known by a list: its ends are words, its load is
// declared, its fuse is named.
type Circuit struct {
	Run
	Name  string  `json:"name,omitempty"`
	From  string  `json:"from"`
	To    string  `json:"to"`
	Amps  float64 `json:"amps"`
	Fuse  string  `json:"fuse,omitempty"`  // name of a fuse; empty with Unfused
	Feed  bool    `json:"feed,omitempty"`  // it feeds other circuits and has no load of its own
	Share float64 `json:"share,omitempty"` // of the time it is on; by Duty unless said: 1, 0.3, 0
	Night bool    `json:"night,omitempty"` // on in a wet night at idle
}

// Duty says how long a load lasts.
type Duty string

// The duties. Short loads are left out of what a fuse carries for long.
const (
	Continuous   Duty = "continuous"
	Intermittent Duty = "intermittent"
	Short        Duty = "short" // seconds: starter, horn, washer
)

// Box is a fuse box with so many ways.
type Box struct {
	Name string `json:"name"`
	Ways int    `json:"ways"`
}

// Zone is a part of the vehicle with the warmest air that wires meet there.
type Zone struct {
	Name     string  `json:"name"`
	AmbientC float64 `json:"ambient_c"`
}

// Bundle is a stretch where runs lie together: those that name it, and those it
// names. A run may lie in many and is judged by the one that leaves it least.
// Wires counts those that the problem does not list as well.
type Bundle struct {
	Name  string   `json:"name"`
	Wires int      `json:"wires,omitempty"` // at least the runs that lie in it
	Runs  []string `json:"runs,omitempty"`  // by ID
}

// Exclusive names what is never on together: circuits, consumers, or positions
// of switches written "switch=position".
type Exclusive struct {
	Never []string `json:"never_together"`
}
