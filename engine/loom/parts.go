package loom

// Body is the part that the metal of the vehicle is: any terminal of it is one
// point, the 0 V that every voltage is told against.
const Body = "body"

// Battery has the terminals + and -.
type Battery struct {
	Name           string  `json:"name"`
	Volts          float64 `json:"volts,omitempty"`              // at rest; 2.1 V a cell unless said: 12.6 of 12
	Ohms           float64 `json:"ohms,omitempty"`               // inside; from the cranking amps unless said
	CrankingAmps   float64 `json:"cranking_amps,omitempty"`      // cold, at 7.2 V of 12
	AmpHours       float64 `json:"amp_hours,omitempty"`          // 20 h rate
	ReserveMinutes float64 `json:"reserve_minutes,omitempty"`    // at 25 A, from the maker's label
	DrainMilliamps float64 `json:"drain_milliamps,omitempty"`    // measured with everything off
	SelfPerMonth   float64 `json:"self_percent_month,omitempty"` // self-discharge
}

// Alternator has the terminals B+ and B-; a dynamo is one too. It holds its
// voltage up to what it can give, and gives that beyond.
type Alternator struct {
	Name      string  `json:"name"`
	Volts     float64 `json:"volts,omitempty"` // regulated; 14.2 of 12 unless said
	Ohms      float64 `json:"ohms,omitempty"`  // of the regulated output; 5 mΩ unless said
	RatedAmps float64 `json:"rated_amps"`
	IdleAmps  float64 `json:"idle_amps,omitempty"` // 0.7 of rated unless said
}

// Fuse has the terminals 1 (towards the battery) and 2.
type Fuse struct {
	Name  string  `json:"name"`
	Amps  float64 `json:"amps"`
	Type  string  `json:"type,omitempty"` // name of a Curve: blade unless said, maxi, link
	Box   string  `json:"box,omitempty"`
	Ohms  float64 `json:"ohms,omitempty"`  // cold; from the table unless said
	Empty bool    `json:"empty,omitempty"` // nothing stands in its holder
}

// Switch joins terminals, in one of its positions; the first is that of rest.
// A switch of one position is a contact that never opens.
type Switch struct {
	Name      string     `json:"name"`
	Positions []Position `json:"positions"`
	Ohms      float64    `json:"ohms,omitempty"`  // of a contact; 5 mΩ unless said
	Short     bool       `json:"short,omitempty"` // held for seconds: starter, horn
}

// Position names what a position joins: lists of terminals, each list one point.
type Position struct {
	Name  string     `json:"name"`
	Joins [][]string `json:"joins,omitempty"`
}

// Relay has the terminals 30, 87, 87a of the contact and 85, 86 of the coil.
type Relay struct {
	Name     string  `json:"name"`
	CoilOhms float64 `json:"coil_ohms,omitempty"` // 85 Ω of 12 V unless said
	PullV    float64 `json:"pull_v,omitempty"`    // pulls in from here; 0.6 of nominal unless said
	HoldV    float64 `json:"hold_v,omitempty"`    // lets go below; 0.2 of nominal unless said
	Ohms     float64 `json:"ohms,omitempty"`      // of the contact; 5 mΩ unless said
	Break    bool    `json:"break,omitempty"`     // it has a terminal 87a
	Diode    bool    `json:"diode,omitempty"`     // a diode across the coil, plus at 86
	Amps     float64 `json:"amps,omitempty"`      // what its contact is made for
}

// JointKind says what a joint is.
type JointKind string

// The kinds of joint.
const (
	Splice    JointKind = "splice"    // all its terminals are one point
	Connector JointKind = "connector" // cavity n is n< on the plug side, n> on the socket side
	Earth     JointKind = "earth"     // its terminals are one point, joined to the body through Ohms
)

// Joint is where wires meet.
type Joint struct {
	Name string    `json:"name"`
	Kind JointKind `json:"kind"`
	Ohms float64   `json:"ohms,omitempty"` // of a cavity or of the point to the body; 0: none worth telling
	Open bool      `json:"open,omitempty"` // an earth that is known to have no contact
}

// Behaviour says how a consumer takes current.
type Behaviour string

// The behaviours.
const (
	Resistance Behaviour = "resistance" // amps follow volts
	Power      Behaviour = "power"      // amps rise as volts fall: electronics, the worst case for drop
	Motor      Behaviour = "motor"      // amps follow the work, not the volts; locked rotor when it starts
	LED        Behaviour = "led"        // amps follow volts from plus to minus, none flow backwards
	Filament   Behaviour = "filament"   // resistance follows the heat: amps ∝ V^0.55, a tenth of the resistance when cold
)

// Use says what a consumer is for: it decides how much of the voltage may be
// lost on the way to it.
type Use string

// The uses with a limit of their own, see DropLimits.
const (
	Lamp     Use = "lamp"
	Headlamp Use = "headlamp"
	Starter  Use = "starter"
	Control  Use = "control"
	Solenoid Use = "solenoid"  // of a starter, terminal 50, with one winding
	Regulate Use = "regulator" // control of an alternator
	Other    Use = "other"
)

// Consumer has the terminals + and - unless Plus and Minus name others.
type Consumer struct {
	Name      string    `json:"name"`
	Behaviour Behaviour `json:"behaviour,omitempty"` // Resistance unless said
	Use       Use       `json:"use,omitempty"`       // Other unless said
	Watts     float64   `json:"watts,omitempty"`     // at Volts; or Amps
	Amps      float64   `json:"amps,omitempty"`
	Volts     float64   `json:"volts,omitempty"` // at which Watts or Amps hold; 13.5 of 12 unless said
	Plus      string    `json:"plus,omitempty"`
	Minus     string    `json:"minus,omitempty"`

	DropV         float64 `json:"drop_v,omitempty"`         // may be lost on the way to it; by Use unless said
	InrushFactor  float64 `json:"inrush_factor,omitempty"`  // 10 of a filament, 6 of a motor unless said
	InrushSeconds float64 `json:"inrush_seconds,omitempty"` // 0.004 of a filament, 0.2 of a motor unless said
	Duty          float64 `json:"duty,omitempty"`           // share of the time it is on; 1 unless said
	Short         bool    `json:"short,omitempty"`          // seconds only
	Night         bool    `json:"night,omitempty"`          // on in a wet night at idle
	Always        bool    `json:"always,omitempty"`         // draws with everything off
	Polarised     bool    `json:"polarised,omitempty"`      // works one way round only
}
