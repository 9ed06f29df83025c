package build

import "fettle/unit"

// Battery has the terminals + and -.
type Battery struct {
	Name     string     `json:"name"`
	AmpHours float64    `json:"ah"` // 20 h rate
	Cranking float64    `json:"cranking_a,omitempty"`
	Volts    float64    `json:"volts,omitempty"` // at rest
	Reserve  float64    `json:"reserve_min,omitempty"`
	Drain    float64    `json:"drain_ma,omitempty"` // measured with everything off
	At       WaypointID `json:"at,omitempty"`
}

// Alternator has the terminals B+ and B-; a dynamo is one too.
type Alternator struct {
	Name  string     `json:"name"`
	Rated float64    `json:"rated_a"`
	Idle  float64    `json:"idle_a,omitempty"`
	Volts float64    `json:"volts,omitempty"`
	At    WaypointID `json:"at,omitempty"`
}

// FuseBox has so many ways for fuses.
type FuseBox struct {
	Name string     `json:"name"`
	Ways int        `json:"ways"`
	At   WaypointID `json:"at,omitempty"`
}

// Fuse has the terminals 1, towards the battery, and 2. What it feeds are the
// circuits that name it.
type Fuse struct {
	Name  string  `json:"name"`
	Amps  float64 `json:"amps"`
	Type  string  `json:"type,omitempty"` // none is blade
	Box   string  `json:"box,omitempty"`
	Empty bool    `json:"empty,omitempty"` // nothing stands in its holder
}

// FuseTypes lists the types of fuse.
func FuseTypes() []string { return []string{"", "blade", "maxi", "link"} }

// Consumer is a lamp, a motor, or whatever else takes current. Its terminals
// are + and - unless it names others.
type Consumer struct {
	Name      string     `json:"name"`
	Circuits  []string   `json:"circuits,omitempty"`
	Use       string     `json:"use,omitempty"`
	Behaviour string     `json:"behaviour,omitempty"`
	Watts     float64    `json:"watts,omitempty"` // or Amps
	Amps      float64    `json:"amps,omitempty"`
	Volts     float64    `json:"volts,omitempty"`  // at which they hold
	Inrush    float64    `json:"inrush,omitempty"` // times its amps
	InrushS   float64    `json:"inrush_s,omitempty"`
	Share     float64    `json:"share,omitempty"` // of the time it is on; none is all of it
	Short     bool       `json:"short,omitempty"` // seconds only
	Night     bool       `json:"night,omitempty"` // on in a wet night at idle
	Always    bool       `json:"always,omitempty"`
	Polarised bool       `json:"polarised,omitempty"`
	Plus      string     `json:"plus,omitempty"`
	Minus     string     `json:"minus,omitempty"`
	At        WaypointID `json:"at,omitempty"`
}

// ConsumerUses lists what consumers are for.
func ConsumerUses() []string {
	return []string{"", "lamp", "headlamp", "starter", "control", "solenoid", "regulator", "other"}
}

// Behaviours lists how consumers take current.
func Behaviours() []string { return []string{"", "resistance", "power", "motor", "filament", "led"} }

// Contact is a terminal, or a cavity of a connector, and the circuits on it.
// Numbers of terminals are those of DIN 72552 where it has one.
type Contact struct {
	Terminal string   `json:"terminal"`
	Circuits []string `json:"circuits"`
}

// Switch joins terminals in each of its positions; the first is that of rest.
type Switch struct {
	Name      string           `json:"name"`
	Positions []SwitchPosition `json:"positions"`
	Contacts  []Contact        `json:"contacts,omitempty"`
	Short     bool             `json:"short,omitempty"` // held for seconds
	At        WaypointID       `json:"at,omitempty"`
}

// SwitchPosition names what a position joins: lists of terminals.
type SwitchPosition struct {
	Name  string     `json:"name"`
	Joins [][]string `json:"joins,omitempty"`
}

// Relay has the terminals 30, 87, 87a of the contact and 85, 86 of the coil.
type Relay struct {
	Name     string     `json:"name"`
	Break    bool       `json:"break,omitempty"` // it has a terminal 87a
	Diode    bool       `json:"diode,omitempty"` // across its coil, plus at 86
	Amps     float64    `json:"amps,omitempty"`  // what its contact is made for
	CoilOhms float64    `json:"coil_ohms,omitempty"`
	Contacts []Contact  `json:"contacts,omitempty"`
	At       WaypointID `json:"at,omitempty"`
}

// Connector joins wires by cavities; cavity n is n< on the plug side and n> on
// the socket side. Families go by the owner's own words.
type Connector struct {
	Name     string     `json:"name"`
	Family   string     `json:"family,omitempty"`
	Cavities int        `json:"cavities"`
	Contacts []Contact  `json:"contacts,omitempty"`
	At       WaypointID `json:"at,omitempty"`
}

// Joint is a splice, or a point where wires are earthed.
type Joint struct {
	Name     string     `json:"name"`
	Kind     string     `json:"kind"`
	Circuits []string   `json:"circuits,omitempty"`
	Panel    PanelID    `json:"panel,omitempty"` // of an earth point
	Ohms     float64    `json:"ohms,omitempty"`  // of an earth point to the body
	Open     bool       `json:"open,omitempty"`  // an earth that is known to have no contact
	At       WaypointID `json:"at,omitempty"`
}

// JointKinds lists the kinds of joint.
func JointKinds() []string { return []string{"splice", "earth"} }

// Wire joins two terminals, each written part:terminal. A circuit that has
// wires is worked out as a net, one that has none by its list.
type Wire struct {
	ID      string      `json:"id"`
	Circuit string      `json:"circuit,omitempty"`
	From    string      `json:"from"`
	To      string      `json:"to"`
	Length  unit.Length `json:"length_mm"`
	Section string      `json:"section,omitempty"`
	Colour  string      `json:"colour,omitempty"`
	Pair    string      `json:"pair,omitempty"`
	Unfused string      `json:"unfused,omitempty"`
	Air     string      `json:"air,omitempty"`
	Label   string      `json:"label,omitempty"`
}

// Cable is a table of one family of conductors that the owner typed in.
type Cable struct {
	Name  string      `json:"name"`
	Says  string      `json:"source"` // where its numbers are from
	Class string      `json:"class,omitempty"`
	MaxC  float64     `json:"max_c"` // that the insulation bears for years
	AirC  float64     `json:"air_c"` // that Amps hold in
	K     float64     `json:"k"`     // A√s/mm² in a short circuit
	Sizes []CableSize `json:"sizes"`
}

// CableSize is one size of a cable, smallest first.
type CableSize struct {
	Name     string      `json:"name"`
	MM2      float64     `json:"mm2"`
	MilliOhm float64     `json:"milliohm_per_m"` // at 20 °C, at most
	Amps     float64     `json:"amps"`           // one wire in free air
	OD       unit.Length `json:"od_mm,omitempty"`
}

func (x *Battery) key() string { return x.Name }

func (x *Alternator) key() string { return x.Name }

func (x *FuseBox) key() string { return x.Name }

func (x *Fuse) key() string { return x.Name }

func (x *Consumer) key() string { return x.Name }

func (x *Switch) key() string { return x.Name }

func (x *Relay) key() string { return x.Name }

func (x *Connector) key() string { return x.Name }

func (x *Joint) key() string { return x.Name }

func (x *Wire) key() string { return x.ID }

func (x *Cable) key() string { return x.Name }

// Fuse returns the fuse of that name, or nil.
func (l *Loom) Fuse(name string) *Fuse { return find(l.Fuses, name, (*Fuse).key) }

// Box returns the fuse box of that name, or nil.
func (l *Loom) Box(name string) *FuseBox { return find(l.Boxes, name, (*FuseBox).key) }
