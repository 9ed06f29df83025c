package clocking

import "fettle/internal/web/ui/field"

// stopTime is what the field of a forgotten stop shows.
func (f face) stopTime() string {
	if f.Time != "" {
		return f.Time
	}
	return f.On.Guess.Clock()
}

// options are the tasks, with the one that was picked.
func (s daySheet) options() []field.Option {
	all := make([]field.Option, len(s.Tasks))
	for i, o := range s.Tasks {
		o.Picked = o.Value == s.Sent["task"]
		all[i] = o
	}
	return all
}
