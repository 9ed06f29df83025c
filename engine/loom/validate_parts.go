package loom

import (
	"maps"
	"slices"
	"strings"
)

func sorted[V any](m map[string]V) []string { return slices.Sorted(maps.Keys(m)) }

// tables checks cables and fuse types that the owner has typed.
func (v *validator) tables() error {
	for i, c := range v.p.Own {
		where := at("own_cables", i) + " " + c.Name
		if c.Name == "" || len(c.Sizes) == 0 {
			return wrong(where, "a cable has a name and at least one size")
		}
		if c.MaxC <= c.AmbientC || c.MaxC > 400 || c.AmbientC < -60 || !(c.K > 0) {
			return wrong(where, "max_c lies above ambient_c, and k above 0")
		}
		last := 0.0
		for k, s := range c.Sizes {
			here := where + " " + at("sizes", k)
			if err := positive(here, map[string]float64{"mm2": s.MM2, "milliohm_per_m": s.MilliOhmPerM, "amps": s.Amps, "od_mm": s.OD, "guide_fuse_a": s.GuideFuse}); err != nil {
				return err
			}
			if s.Name == "" || s.MM2 <= last || s.MilliOhmPerM < 0.05 || s.Amps == 0 {
				return wrong(here, "a size has a name, amps, 0.05 milliohms or more, and more mm² than the one before")
			}
			last = s.MM2
		}
	}
	for i, c := range v.p.Types {
		last := Open{}
		for k, o := range c.Points {
			if !(o.Multiple > last.Multiple) || !(o.ShortestS > 0) || !(o.LongestS >= 0) || o.LongestS > 0 && o.LongestS < o.ShortestS || last.LongestS > 0 && o.LongestS == 0 {
				return wrong(at("own_fuse_types", i)+" "+at("points", k), "multiples rise, and the longest time is no less than the shortest")
			}
			last = o
		}
		if c.Name == "" || len(c.Points) == 0 || last.LongestS == 0 || !(c.DropMV > 0) {
			return wrong(at("own_fuse_types", i), "a fuse type has a name, drop_mv, and points up to one where it opens")
		}
	}
	return nil
}

func (v *validator) fuses() error {
	boxes := map[string]bool{}
	for i, b := range v.p.Boxes {
		if b.Name == "" || b.Ways < 1 || b.Ways > 1000 || boxes[b.Name] {
			return wrong(at("boxes", i), "a box has a name of its own and 1 to 1000 ways")
		}
		boxes[b.Name] = true
	}
	for i, f := range v.p.Fuses {
		where := at("fuses", i) + " " + f.Name
		if !(f.Amps > 0) || f.Amps > 2000 {
			return wrong(where, "a rating is from 0 to 2000 A, not %g", f.Amps)
		}
		if err := ohmic(where, v.p.fuseOhms(f, false)); err != nil {
			return err
		}
		if _, ok := v.p.curve(f.Type); !ok {
			return wrong(where, "there is no fuse type called %q", f.Type).WithHint("there are blade, maxi, link and those in own_fuse_types")
		}
		if f.Box != "" && !boxes[f.Box] {
			return wrong(where, "there is no box called %q", f.Box)
		}
	}
	return nil
}

func (v *validator) switches() error {
	for i, s := range v.p.Switches {
		where := at("switches", i) + " " + s.Name
		if len(s.Positions) == 0 || len(s.Positions) > 64 {
			return wrong(where, "a switch has 1 to 64 positions")
		}
		var terminals []string
		names := map[string]bool{}
		for k, q := range s.Positions {
			here := where + " " + at("positions", k)
			if q.Name == "" || names[q.Name] || strings.ContainsAny(q.Name, "=,\n") {
				return wrong(here, "a position has a name of its own, without comma or equals sign")
			}
			names[q.Name] = true
			for _, list := range q.Joins {
				if len(list) < 2 {
					return wrong(here, "a position joins two terminals or more")
				}
				for _, t := range list {
					if t == "" {
						return wrong(here, "a terminal has a name")
					}
				}
				terminals = append(terminals, list...)
			}
		}
		if err := ohmic(where, s.Ohms); err != nil {
			return err
		}
		slices.Sort(terminals)
		if err := v.add(where, s.Name, slices.Compact(terminals)...); err != nil {
			return err
		}
	}
	return nil
}

func (v *validator) others() error {
	for i, r := range v.p.Relays {
		where := at("relays", i) + " " + r.Name
		for _, ohms := range []float64{r.CoilOhms, r.Ohms} {
			if err := ohmic(where, ohms); err != nil {
				return err
			}
		}
		if err := positive(where, map[string]float64{"pull_v": r.PullV, "hold_v": r.HoldV, "amps": r.Amps}); err != nil {
			return err
		}
		if r.HoldV > r.PullV && r.PullV > 0 {
			return wrong(where, "it lets go at %g V, above %g V where it pulls in", r.HoldV, r.PullV)
		}
	}
	for i, j := range v.p.Joints {
		where := at("joints", i) + " " + j.Name
		if j.Kind != Splice && j.Kind != Connector && j.Kind != Earth {
			return wrong(where, "a joint is a splice, a connector or an earth, not %q", j.Kind)
		}
		if err := ohmic(where, j.Ohms); err != nil {
			return err
		}
	}
	for i := range v.p.Consumers {
		if err := v.consumer(at("consumers", i), &v.p.Consumers[i]); err != nil {
			return err
		}
	}
	return nil
}

func (v *validator) consumer(where string, c *Consumer) error {
	where += " " + c.Name
	if err := positive(where, map[string]float64{"watts": c.Watts, "amps": c.Amps, "volts": c.Volts, "drop_v": c.DropV, "inrush_factor": c.InrushFactor, "inrush_seconds": c.InrushSeconds, "duty": c.Duty}); err != nil {
		return err
	}
	switch {
	case (c.Watts > 0) == (c.Amps > 0):
		return wrong(where, "say watts or amps, one of them")
	case c.Volts > mostVolts || c.Volts != 0 && c.Volts < 0.1:
		return wrong(where, "volts are from 0.1 to %d, not %g", mostVolts, c.Volts)
	case !slices.Contains([]Behaviour{"", Resistance, Power, Motor, Filament, LED}, c.Behaviour):
		return wrong(where, "no consumer behaves as %q", c.Behaviour).WithHint("resistance, power, motor, filament or led")
	case !slices.Contains([]Use{"", Lamp, Headlamp, Starter, Control, Solenoid, Regulate, Other}, c.Use):
		return wrong(where, "there is no use called %q", c.Use)
	case c.plus() == c.minus():
		return wrong(where, "both its terminals are called %q", c.plus())
	case c.Duty > 1:
		return wrong(where, "duty is a share from 0 to 1, not %g", c.Duty)
	case c.InrushFactor > 0 && c.InrushFactor < 1 || c.InrushFactor > 100 || c.InrushSeconds > 60:
		return wrong(where, "inrush is 1 to 100 times the amps, for up to a minute")
	}
	volts, amps := v.p.rated(c)
	if amps > mostAmps {
		return wrong(where, "%g A, at most %d", amps, mostAmps)
	}
	return ohmic(where+", volts ÷ amps", volts/amps)
}
