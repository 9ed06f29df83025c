package build

import "fettle/unit"

// Metered is a reading taken on a circuit.
type Metered struct {
	ID      string      `json:"id"`
	Circuit string      `json:"circuit"`
	Kind    string      `json:"kind"`
	Value   float64     `json:"value"`
	At      unit.Moment `json:"at"`
	By      PersonID    `json:"by"`
	Note    string      `json:"note,omitempty"`
}

// MeterKinds lists what is read: ohms end to end, megohms to everything else,
// and volts at the far end and amps of a first power-up.
func MeterKinds() []string { return []string{"continuity", "isolation", "volts", "amps"} }

// CrimpTest is a crimp that was pulled until it gave, or as far as it had to hold.
type CrimpTest struct {
	ID       string    `json:"id"`
	Terminal string    `json:"terminal"` // family, as connectors and tools name it
	Section  string    `json:"section"`
	Newtons  float64   `json:"newtons"`
	Day      unit.Date `json:"day,omitzero"`
	By       PersonID  `json:"by,omitempty"`
}

// PrintedWire is a pair of labels that was printed, one for each end.
type PrintedWire struct {
	Circuit string    `json:"circuit"` // or wire
	Text    []string  `json:"text"`
	Day     unit.Date `json:"day,omitzero"`
}

func (m *Metered) key() string { return m.ID }

func (c *CrimpTest) key() string { return c.ID }

func (p *PrintedWire) key() string { return p.Circuit }
