package loom

import (
	"strings"

	"fettle/fault"
)

// setting is a position for every switch.
type setting []uint8

// name tells a setting by what is not at rest.
func (n *net) name(s setting) string {
	var list []string
	for i, k := range s {
		if k != 0 {
			list = append(list, n.p.Switches[i].Name+"="+n.p.Switches[i].Positions[k].Name)
		}
	}
	if list == nil {
		return "all at rest"
	}
	return strings.Join(list, ", ")
}

// barred reports whether a setting has two positions that never go together.
func (n *net) barred(s setting) bool {
	for _, x := range n.p.Exclusives {
		on := 0
		for _, what := range x.Never {
			name, position, ok := strings.Cut(what, "=")
			if !ok {
				continue
			}
			for i, k := range s {
				if n.p.Switches[i].Name == name && n.p.Switches[i].Positions[k].Name == position {
					on++
				}
			}
		}
		if on > 1 {
			return true
		}
	}
	return false
}

// product calls with every combination of positions of a group laid over a
// setting, rest included.
func (n *net) product(g group, over setting, with func(setting)) {
	s := append(setting{}, over...)
	for _, i := range g.switches {
		s[i] = 0
	}
	for {
		if !n.barred(s) {
			with(s)
		}
		k := 0
		for ; k < len(g.switches); k++ {
			i := g.switches[k]
			if s[i]++; int(s[i]) < len(n.p.Switches[i].Positions) {
				break
			}
			s[i] = 0
		}
		if k == len(g.switches) {
			return
		}
	}
}

// positions counts the positions of all switches together, up to one more than
// most.
func (n *net) positions(most int) int {
	size := 1
	for _, s := range n.p.Switches {
		if size *= len(s.Positions); size > most {
			return most + 1
		}
	}
	return size
}

// bounded refuses a group with more states than may be asked for.
func (n *net) bounded(g group, most int) error {
	size := 1
	for _, i := range g.switches {
		if size *= len(n.p.Switches[i].Positions); size > most {
			names := make([]string, len(g.switches))
			for k, j := range g.switches {
				names[k] = n.p.Switches[j].Name
			}
			return fault.New(fault.TooLarge, "these %d switches feed the same wires and have more than %d positions together", len(names), most).
				At("switches " + strings.Join(names[:min(4, len(names))], ", ")).WithHint("name positions that never go together, or join switches that are one")
		}
	}
	return nil
}

// parse reads a setting such as "ignition=on, lamps=head"; what is not named
// is at rest.
func (n *net) parse(text string) (setting, error) {
	s := make(setting, len(n.p.Switches))
	if strings.TrimSpace(text) == "" {
		return s, nil
	}
next:
	for _, one := range strings.Split(text, ",") {
		name, position, _ := strings.Cut(strings.TrimSpace(one), "=")
		for i, w := range n.p.Switches {
			if w.Name != name {
				continue
			}
			for k, at := range w.Positions {
				if at.Name == position {
					s[i] = uint8(k)
					continue next
				}
			}
			return nil, fault.New(fault.Invalid, "switch %s has no position %q", name, position)
		}
		return nil, fault.New(fault.Invalid, "there is no switch called %q", name)
	}
	return s, nil
}
