package build

import "fettle/unit"

// Circuit is one wire run from the list of lamps.
type Circuit struct {
	ID        string      `json:"id"`
	Name      string      `json:"name"`
	From      string      `json:"from"`
	To        string      `json:"to"`
	Length    unit.Length `json:"length_mm"`
	Load      float64     `json:"load_a"`
	DropLimit float64     `json:"drop_limit_percent"`
	Duty      string      `json:"duty"` // cont, int or short
	Colour    string      `json:"colour"`
	Fuse      string      `json:"fuse"`
	FuseA     float64     `json:"fuse_a,omitempty"` // that of the fuse, where the fuse is on the list of fuses

	Feed    bool         `json:"feed,omitempty"`    // it feeds other circuits and has no load of its own
	Unfused string       `json:"unfused,omitempty"` // why no fuse stands before it
	Pair    string       `json:"pair,omitempty"`    // circuits of one pair, left and right, get one section
	Section string       `json:"section,omitempty"` // that is fitted, or decided by somebody; none is worked out
	Label   string       `json:"label,omitempty"`   // what is printed on it, the ID unless said
	Air     string       `json:"air,omitempty"`     // the warmest air on its way, of the loom's
	Ends    []WaypointID `json:"ends,omitempty"`    // where it begins, then every place that it reaches
}

// Circuit returns the circuit of that ID, or nil.
func (b *Build) Circuit(id string) *Circuit { return find(b.Circuits, id, (*Circuit).key) }

func (c *Circuit) key() string { return c.ID }
