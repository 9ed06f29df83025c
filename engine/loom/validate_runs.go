package loom

import (
	"math"
	"slices"
	"strings"
)

// places checks zones and bundles.
func (v *validator) places() error {
	seen := map[string]bool{}
	for i, z := range v.p.Zones {
		if z.Name == "" || seen[z.Name] || !(z.AmbientC > -60) || z.AmbientC > 300 {
			return wrong(at("zones", i), "a zone has a name of its own and air from -60 to 300 °C")
		}
		seen[z.Name] = true
	}
	clear(seen)
	for i, b := range v.p.Bundles {
		if b.Name == "" || seen[b.Name] || b.Wires < 0 || b.Wires > mostRuns {
			return wrong(at("bundles", i), "a bundle has a name of its own and 0 to %d wires", mostRuns)
		}
		seen[b.Name] = true
	}
	runs := map[string]bool{}
	for _, r := range v.p.Runs() {
		runs[r.ID] = true
	}
	for i, b := range v.p.Bundles {
		for _, id := range b.Runs {
			if !runs[id] {
				return wrong(at("bundles", i)+" "+b.Name, "there is no run called %q", id)
			}
		}
	}
	return nil
}

// run checks what wires and circuits share.
func (v *validator) run(where string, r *Run, cable Cable) error {
	if strings.TrimSpace(r.ID) == "" {
		return wrong(where, "it has no id")
	}
	where += " " + r.ID
	if first, ok := v.ids[r.ID]; ok {
		return wrong(where, "%s has the id %q too", first, r.ID).WithHint("every wire and circuit has an id of its own")
	}
	v.ids[r.ID] = where
	switch {
	case !(r.LengthM >= 0.01) || r.LengthM > 1000:
		return wrong(where, "length_m is from 0.01 to 1000 m, not %g", r.LengthM)
	case !slices.Contains([]Duty{"", Continuous, Intermittent, Short}, r.Duty):
		return wrong(where, "there is no duty called %q", r.Duty).WithHint("continuous, intermittent or short")
	case !(r.DropPercent >= 0) || r.DropPercent > 100 || !(r.DropV >= 0) || math.IsInf(r.DropV, 1):
		return wrong(where, "a limit of drop is from 0, in percent up to 100")
	}
	if r.Section != "" {
		if _, ok := v.sizes[r.Section]; !ok {
			names := make([]string, len(cable.Sizes))
			for i, c := range cable.Sizes {
				names[i] = c.Name
			}
			return wrong(where, "no cable has a size called %q", r.Section).WithHint(cable.Name + " has " + strings.Join(names, ", "))
		}
	}
	if r.Zone != "" {
		i := slices.IndexFunc(v.p.Zones, func(z Zone) bool { return z.Name == r.Zone })
		if i < 0 {
			return wrong(where, "there is no zone called %q", r.Zone)
		}
		if v.p.Zones[i].AmbientC >= cable.MaxC {
			return wrong(where, "the air of zone %s, %g °C, is more than %s bears, %g °C", r.Zone, v.p.Zones[i].AmbientC, cable.Name, cable.MaxC).WithHint("route it elsewhere, or take cable made for the heat")
		}
	}
	if r.Bundle != "" && !slices.ContainsFunc(v.p.Bundles, func(b Bundle) bool { return b.Name == r.Bundle }) {
		return wrong(where, "there is no bundle called %q", r.Bundle)
	}
	if r.Colour != "" {
		if _, err := ReadColour(r.Colour); err != nil {
			return wrong(where, "%v", err)
		}
	}
	return nil
}

// sizes lists all sizes by name; those of the cable come first, then the owner's
// own, then the rest.
func (p *Problem) sizes(cable Cable) map[string]Conductor {
	list := map[string]Conductor{}
	for _, cables := range [][]Cable{{cable}, p.Own, Cables()} {
		for _, c := range cables {
			for _, s := range c.Sizes {
				if _, ok := list[s.Name]; !ok {
					list[s.Name] = s
				}
			}
		}
	}
	return list
}

func (v *validator) wires(cable Cable) error {
	for i := range v.p.Wires {
		w := &v.p.Wires[i]
		where := at("wires", i)
		if err := v.run(where, &w.Run, cable); err != nil {
			return err
		}
		where += " " + w.ID
		for _, end := range []struct {
			name string
			pin  Pin
		}{{"from", w.From}, {"to", w.To}} {
			if err := v.end(where+", "+end.name, end.pin); err != nil {
				return err
			}
		}
		if w.From == w.To || w.From.Part == Body && w.To.Part == Body {
			return wrong(where, "both its ends are %s", w.From)
		}
	}
	return nil
}

// end checks that a pin is there to be wired.
func (v *validator) end(where string, pin Pin) error {
	part, ok := v.parts[pin.Part]
	switch {
	case pin.Part == "":
		return wrong(where, "the end hangs loose: it names no terminal")
	case !ok:
		return wrong(where, "the end hangs loose: there is no part called %q", pin.Part).WithHint("list it among the parts, or write body for the metal of the vehicle")
	case part.cavities && !strings.HasSuffix(pin.Terminal, "<") && !strings.HasSuffix(pin.Terminal, ">"):
		return wrong(where, "a connector's cavity has a plug side < and a socket side >, such as %s:1<", pin.Part)
	case len(part.terminals) > 0 && !slices.Contains(part.terminals, pin.Terminal):
		return wrong(where, "the end hangs loose: %s has no terminal %q", pin.Part, pin.Terminal).WithHint("it has " + strings.Join(part.terminals, ", "))
	}
	return nil
}

func (v *validator) circuits(cable Cable) error {
	for i := range v.p.Circuits {
		c := &v.p.Circuits[i]
		where := at("circuits", i)
		if err := v.run(where, &c.Run, cable); err != nil {
			return err
		}
		where += " " + c.ID
		if !(c.Amps >= 0) || c.Amps > 5000 {
			return wrong(where, "amps are from 0 to 5000, not %g", c.Amps)
		}
		if !(c.Share >= 0 && c.Share <= 1) {
			return wrong(where, "share is a part of the time, 0 to 1, not %g", c.Share)
		}
		if c.Fuse != "" && !slices.ContainsFunc(v.p.Fuses, func(f Fuse) bool { return f.Name == c.Fuse }) {
			return wrong(where, "there is no fuse called %q", c.Fuse)
		}
	}
	return nil
}

// exclusives checks that what is never together is there.
func (v *validator) exclusives() error {
	for i, x := range v.p.Exclusives {
		for _, what := range x.Never {
			name, position, isPosition := strings.Cut(what, "=")
			found := v.ids[what] != "" || slices.ContainsFunc(v.p.Consumers, func(c Consumer) bool { return c.Name == what })
			if isPosition {
				found = slices.ContainsFunc(v.p.Switches, func(s Switch) bool {
					return s.Name == name && slices.ContainsFunc(s.Positions, func(q Position) bool { return q.Name == position })
				})
			}
			if !found {
				return wrong(at("exclusives", i), "there is nothing called %q", what).WithHint("name circuits, consumers, or positions as switch=position")
			}
		}
	}
	return nil
}
