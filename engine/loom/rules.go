package loom

// Rules is a set of rules by which sections are chosen, as data.
type Rules struct {
	Name  string `json:"name"`
	Says  string `json:"says"`
	Cable string `json:"cable"`

	SupplyV      float64 `json:"supply_v"`    // percents are of this, for 12 V nominal
	FlatBundle   float64 `json:"flat_bundle"` // factor where a run names no bundle
	ShortBare    bool    `json:"short_bare"`  // unfused short-time cables: no bundle factor
	Hot          bool    `json:"hot"`         // drop at the temperature the load heats the wire to, ratings by the zone's air
	Counted      bool    `json:"counted"`     // bundle factor by the wires that lie in it
	Faulted      bool    `json:"faulted"`     // short circuit must clear before the insulation is hurt
	Dense        bool    `json:"dense"`       // continuous amps/mm² of the handbook
	FuseLoad     float64 `json:"fuse_load"`   // share of its rating that a fuse carries for long
	FuseLoadSays string  `json:"fuse_load_says"`
	ShortS       float64 `json:"short_s"`      // how long a load of seconds is held at most
	DropPercent  float64 `json:"drop_percent"` // of a run that states no limit
	EarthV       float64 `json:"earth_v"`      // of a return
	PulseShare   float64 `json:"pulse_share"`  // of the melting heat that inrush may take
	LeastAlone   float64 `json:"least_alone"`  // mm² of a wire that lies alone, for strength
	FaultV       float64 `json:"fault_v"`      // of the battery in a short circuit, for 12 V nominal
	ContactsOhm  float64 `json:"contacts_ohm"` // lugs and contacts in a fault loop that the net does not tell
	ReturnOhm    float64 `json:"return_ohm"`   // body and straps back to the battery
	BatteryOhm   float64 `json:"battery_ohm"`  // cold
	ChargeShare  float64 `json:"charge_share"` // of the alternator that loads may take
}

// Names of the rule sets.
const (
	InFull = "in full"
	ByList = "by list"
)

// RuleSets returns the rule sets there are. In full: everything that is checked
// here. By list: a circuit list worked with a pencil, the ratings of ten sizes
// times 0.7 in the bundle against load and fuse, one-way drop at 20 °C.
func RuleSets() []Rules {
	full := Rules{
		Name: InFull, Cable: ThinWall, SupplyV: 12.6, FlatBundle: 0.7,
		Says: "smallest size that carries load and fuse at its air and in its bundle, keeps the drop hot, and outlives a short circuit until its fuse opens",
		Hot:  true, Counted: true, Faulted: true, Dense: true, ShortBare: true,
		FuseLoad: 0.75, FuseLoadSays: "a fuse carries 75 % of its rating for long", ShortS: 10,
		DropPercent: 3, EarthV: 0.1, PulseShare: 0.22, LeastAlone: 1, FaultV: 12.6, ContactsOhm: 0, ReturnOhm: 0.005, BatteryOhm: 0.0108, ChargeShare: 0.8,
	}
	list := full
	list.Name, list.Cable = ByList, ListWall
	list.Says = "smallest of ten sizes whose rating × 0.7 in the bundle is no less than load and fuse, and whose one-way drop at 20 °C is within the limit; unfused short-time cables without the 0.7"
	list.Hot, list.Counted, list.Faulted, list.Dense, list.LeastAlone = false, false, false, false, 0
	list.FuseLoad, list.FuseLoadSays = 0.8, "continuous load × 1.25 is no more than the fuse"
	return []Rules{full, list}
}

// DropLimit is how much of 12 V may be lost on the plus side, from the last
// switch to what it feeds.
type DropLimit struct {
	Use   Use
	Under float64 // watts that the row ends at, 0: any
	Volts float64
	Says  string
}

// DropLimits returns the limits of the handbook.
func DropLimits() []DropLimit {
	return []DropLimit{
		{Lamp, 15, 0.1, "lamps under 15 W: 0.1 V from switch to lamp"},
		{Lamp, 0, 0.5, "lamps of 15 W and more: 0.5 V from switch to lamp"},
		{Headlamp, 0, 0.3, "headlamps: 0.3 V from switch to lamp"},
		{Starter, 0, 0.5, "starter main: 0.5 V"},
		{Control, 0, 0.5, "relay and horn control: 0.5 V"},
		{Solenoid, 0, 1.4, "solenoid at 50, one winding: 1.4 V; with pull-in and hold-in windings 2.4 V may be stated"},
		{Regulate, 0, 0.1, "control of the alternator: 0.1 V"},
	}
}

// density returns the continuous A/mm² of the handbook.
func density(mm2 float64) float64 {
	switch {
	case mm2 <= 4:
		return 10
	case mm2 <= 16:
		return 6
	case mm2 <= 50:
		return 4
	}
	return 3
}
