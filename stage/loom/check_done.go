package loom

import (
	"fmt"
	"slices"
	"strings"

	"fettle/build"
	"fettle/engine/loom"
	"fettle/engine/loom/bench"
	"fettle/figure"
	"fettle/takeoff"
)

// undrilled says which holes for the loom are still to be drilled: before
// paint, while that can be.
func undrilled(b *build.Build) []takeoff.Check {
	states := build.PanelStates()
	var open, says []string
	var inputs []figure.Input
	worst := takeoff.Tight
	for _, h := range b.Loom.Holes {
		panel := b.Panel(h.Panel)
		if h.Drilled || panel == nil {
			continue
		}
		open = append(open, fmt.Sprintf("%s %g mm in %s %s", h.ID, h.Diameter.Mm(), panel.ID, panel.Name))
		cost, late := LateHole(b, h)
		if !late {
			continue
		}
		says = append(says, fmt.Sprintf("%s is %s, which costs %s", panel.ID, panel.State, cost.Text))
		inputs = append(inputs, figure.Input{Name: cost.Name, Value: cost.Text, Source: figure.Worked, Note: cost.With})
		switch {
		case slices.Index(states, panel.State) >= slices.Index(states, build.InColour):
			worst = takeoff.Lost
		case worst == takeoff.Tight:
			worst = takeoff.Slipping
		}
	}
	if len(open) == 0 {
		return nil
	}
	n := len(open)
	c := takeoff.Check{ID: "loom/holes", Weight: worst, Link: "metal/holes", Says: fmt.Sprintf("%s not drilled: %s", plural(n, "hole for the loom is", "holes for the loom are"), some(open)), Do: "drill, deburr and prime them before paint; a hole drilled later rusts from its edge",
		Figure: listed("holes to drill", "holes of the route that nobody has ticked off", open)}
	c.Figure.Inputs = append(c.Figure.Inputs, inputs...)
	c.Figure.Caution = "Look behind the panel first: fuel and brake lines, tank, wiring. Eyes, gloves, no sparks near fuel."
	if len(says) > 0 {
		slices.Sort(says)
		c.Says += "; " + strings.Join(slices.Compact(says), ", ")
	}
	return []takeoff.Check{c}
}

func plural(n int, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, more)
}

// offReadings names readings that are not what was worked out.
func (s *solved) offReadings() []takeoff.Check {
	var list []takeoff.Check
	volts, _ := s.p.Resting()
	for i, run := range s.p.Runs() {
		one := s.r.Runs[i]
		size := s.known[one.Section]
		for _, m := range s.b.Loom.Metered {
			if m.Circuit != run.ID {
				continue
			}
			want, bad := "", false
			switch m.Kind {
			case "continuity":
				most := size.Ohms(run.LengthM, 20) + bench.Contacts
				want, bad = fmt.Sprintf("%.2f Ω at most", most), m.Value > most
			case "isolation":
				want, bad = fmt.Sprintf("%g MΩ or more", bench.LeastMegohm), m.Value < bench.LeastMegohm
			case "volts":
				want, bad = fmt.Sprintf("%.1f V or more", volts-one.DropMaxV), m.Value < volts-one.DropMaxV
			case "amps":
				want, bad = fmt.Sprintf("%.2g A", one.Amps), m.Value > 1.25*one.Amps+0.05
			}
			if bad {
				list = append(list, offReading(m, want, one))
			}
		}
	}
	return list
}

func offReading(m build.Metered, want string, one loom.Sized) takeoff.Check {
	return takeoff.Check{ID: "loom/reading/" + m.ID, Weight: takeoff.Slipping, Link: "loom/parts/reading", Says: fmt.Sprintf("%s reads %g for %s, expected %s", m.Circuit, m.Value, m.Kind, want),
		Do: "switch off, look at its ends, earth and crimps, and read it again; enter the new reading and take this one off",
		Figure: figure.Figure{Name: m.Kind + " of " + m.Circuit, Text: fmt.Sprintf("%g", m.Value), Formula: "as read against what was worked out", With: fmt.Sprintf("%g against %s", m.Value, want),
			Inputs: []figure.Input{{Name: "read", Value: fmt.Sprintf("%g", m.Value), Source: figure.Measured, Note: string(m.By)}, {Name: "expected", Value: want, Source: figure.Worked, Note: one.Working.With}}, Caution: powerCaution}}
}

// weakCrimps names crimps that gave too early.
func weakCrimps(b *build.Build) []takeoff.Check {
	var list []takeoff.Check
	for _, c := range b.Loom.Crimps {
		var mm2 float64
		if _, err := fmt.Sscanf(c.Section, "%g", &mm2); err != nil || mm2 <= 0 {
			continue
		}
		least := loom.LeastPull(mm2)
		if c.Newtons >= least-0.5 {
			continue
		}
		list = append(list, takeoff.Check{ID: "loom/crimp/" + c.ID, Weight: takeoff.Slipping, Link: "loom/parts/crimp-test", Says: fmt.Sprintf("a crimp of %s mm² in %s gave at %g N, it must hold %.0f N", c.Section, c.Terminal, c.Newtons, least),
			Do: "set the tool or take the terminal made for the section, and pull five anew; crimps made with that setting are suspect",
			Figure: figure.Figure{Name: "pull of a crimp", Text: fmt.Sprintf("%.0f N", least), Formula: "least newtons by section, between the sizes of the table", With: fmt.Sprintf("%g N < %.0f N", c.Newtons, least),
				Inputs: []figure.Input{{Name: "least", Value: fmt.Sprintf("%.0f N", least), Source: figure.TradeDefault, Note: "a terminal maker's commercial column"}}}})
	}
	return list
}

// stale names labels that were printed and no longer say what the cut list says.
func (s *solved) stale() []takeoff.Check {
	var old []string
	for _, c := range s.cuts {
		for _, l := range s.b.Loom.Labels {
			if l.Circuit == c.Circuit && !slices.Contains(old, c.Circuit) && !slices.ContainsFunc(l.Text, func(t string) bool { return samePlace(t, c.Label) }) {
				old = append(old, c.Circuit)
			}
		}
	}
	if len(old) == 0 {
		return nil
	}
	return []takeoff.Check{{ID: "loom/labels", Weight: takeoff.Tight, Link: "loom/labels", Says: "labels that were printed say something else than the cut list now: " + some(old), Do: "print them anew and throw the old ones away",
		Figure: listed("labels out of date", "printed text against that of the cut list", old)}}
}

// samePlace compares labels but for the number of a branch.
func samePlace(printed, now string) bool {
	_, a, _ := strings.Cut(printed, " · ")
	_, c, _ := strings.Cut(now, " · ")
	return a == c
}
