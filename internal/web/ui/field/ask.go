package field

import "slices"

// Ask is one field of a form that is drawn from a description. Pick makes it a
// list to pick one from, Tick a row of boxes.
type Ask struct {
	Params
	Pick, Tick []Option
	Head       string // stands before it
}

// Shown is what a field says to those who may not change it.
func (a Ask) Shown() string {
	for _, o := range append(slices.Clone(a.Pick), a.Tick...) {
		if o.Picked && o.Value != "" {
			return o.Label
		}
	}
	return a.Value
}

// AsTyped shows what was typed and picked again; typed gives all values of a name.
func AsTyped(list []Ask, typed func(name string) []string) []Ask {
	for i := range list {
		in := &list[i]
		values := typed(in.Name)
		if in.Value = ""; len(values) > 0 {
			in.Value = values[0]
		}
		for _, options := range [2][]Option{in.Pick, in.Tick} {
			for n := range options {
				options[n].Picked = slices.Contains(values, options[n].Value)
			}
		}
	}
	return list
}

// Yes is one box to tick.
func Yes(label string, on bool) []Option {
	return []Option{{Value: "yes", Label: label, Picked: on}}
}
