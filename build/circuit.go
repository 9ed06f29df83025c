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
	FuseA     float64     `json:"fuse_a,omitempty"`
}
