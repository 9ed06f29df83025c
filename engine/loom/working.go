package loom

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fettle/figure"
)

// working shows how a section came about: what every rule asks with the numbers
// in it, the one that decided first.
func (s *sizer) working(a *asked, k checked) figure.Figure {
	f := figure.Figure{
		Name: "section of " + a.run.ID, Text: a.c.Name + " mm²", Formula: s.rules.Says,
		Inputs: make([]figure.Input, 0, 6), Caution: "check the size against the cable maker's own sheet before cutting",
	}
	if strings.HasPrefix(a.c.Name, "AWG") {
		f.Text = a.c.Name
	}
	lines := []string{s.why(a)}
	lines = append(lines, fmt.Sprintf("%g A × %s%.3g bundle = %.1f A ≥ load %.3g A", a.c.Amps, s.airText(a), a.bundle, k.usable, a.amps))
	if a.guard >= 0 {
		lines = append(lines, fmt.Sprintf("fuse %s %g A against %.1f A", s.p.Fuses[a.guard].Name, s.p.Fuses[a.guard].Amps, k.usable))
	}
	lines = append(lines, fmt.Sprintf("%.3g A × %.3g mΩ/m × %g m at %.0f °C = %.2f V of %.2f V", a.amps, a.c.Ohms(1, k.celsius)*1000, a.run.LengthM, k.celsius, k.drop, a.limitV))
	if k.faultA > 0 {
		lines = append(lines, s.faultText(a, k))
	}
	f.With = strings.Join(lines, "; ")
	f.Inputs = append(f.Inputs,
		figure.Input{Name: "load", Value: fmt.Sprintf("%.3g A", a.amps), Source: s.loadSource(a), Note: s.stateNote(a)},
		figure.Input{Name: "length", Value: fmt.Sprintf("%g m", a.run.LengthM), Source: figure.Measured},
		figure.Input{Name: "size " + a.c.Name, Value: fmt.Sprintf("%g A, %.4g mΩ/m", a.c.Amps, a.c.MilliOhmPerM), Source: figure.Sheet, Note: s.cable.Says},
		figure.Input{Name: "bundle", Value: fmt.Sprintf("%.3g", a.bundle), Source: figure.TradeDefault, Note: bundleNote(a)},
		figure.Input{Name: "limit of drop", Value: fmt.Sprintf("%.2f V", a.limitV), Source: figure.TradeDefault, Note: a.says},
	)
	return f
}

func (s *sizer) airText(a *asked) string {
	if !s.rules.Hot {
		return ""
	}
	return fmt.Sprintf("%.3g at %g °C × ", s.ambientFactor(a), a.ambient)
}

// why names the rule that decided, with what the next smaller size would do.
func (s *sizer) why(a *asked) string {
	switch a.rule {
	case ByFitted:
		return "the size is fitted"
	case ByLeast:
		return "the smallest size does"
	case ByNone:
		return "no size of " + s.cable.Name + " does"
	case ByPair:
		return "lifted to that of its pair"
	}
	if a.size < 1 {
		return string(a.rule)
	}
	c := s.cable.Sizes[a.size-1]
	k := s.check(a, c)
	text := string(a.rule) + " decides: with " + c.Name + " mm² "
	switch a.rule {
	case ByLoad:
		return text + fmt.Sprintf("%.1f A < load %.3g A", k.usable, a.amps)
	case ByFuse:
		return text + fmt.Sprintf("%.1f A < fuse %g A", k.usable, s.p.Fuses[a.guard].Amps) + s.smaller(a)
	case ByDrop:
		return text + fmt.Sprintf("%.2f V > %.2f V", k.drop, a.limitV)
	case ByDensity:
		return text + fmt.Sprintf("%.1f A < load %.3g A for long", k.density, a.amps)
	case ByFault:
		return text + s.faultText(a, k) + s.smaller(a)
	}
	return text + "it is too weak to lie alone"
}

// smaller says which fuse of its own, the largest there is, would allow a run half
// the section that it has for the fuse before it.
func (s *sizer) smaller(a *asked) string {
	f := s.p.Fuses[a.guard]
	for _, c := range slices.Backward(s.curves[a.guard].Colours) {
		if c.Amps >= f.Amps {
			continue
		}
		if over(a.amps, c.Amps*s.rules.FuseLoad) {
			break
		}
		b := *a
		b.instead = c.Amps
		if s.choose(&b, 0); b.rule != ByNone && b.c.MM2 <= a.c.MM2/2 {
			return fmt.Sprintf(" (with a fuse of its own of %g A, %s mm² would do)", c.Amps, b.c.Name)
		}
	}
	return ""
}

func (s *sizer) faultText(a *asked, k checked) string {
	f := s.p.Fuses[a.guard]
	text := fmt.Sprintf("short circuit %.0f A = %.1f × %s", k.faultA, k.faultA/f.Amps, f.Name)
	if math.IsInf(k.faultS, 1) {
		return text + ": the fuse need not open, the wire burns"
	}
	if k.faultS > longestFault && k.faultHeat <= k.bears {
		return text + fmt.Sprintf(": open in ≤ %.2g s, which is too slow: what a wire bears is known for %d s", k.faultS, longestFault)
	}
	return text + fmt.Sprintf(", open in ≤ %.2g s, %.0f A²s of the %.0f A²s it bears", k.faultS, k.faultHeat, k.bears)
}

func (s *sizer) loadSource(a *asked) figure.Source {
	if a.wire < 0 {
		return figure.Decided
	}
	return figure.Worked
}

func (s *sizer) stateNote(a *asked) string {
	if a.setting == nil {
		return ""
	}
	return "most in: " + s.n.name(a.setting)
}

func bundleNote(a *asked) string {
	switch {
	case a.wires > 0:
		return fmt.Sprintf("%d wires in %s, MIL-W-5088", a.wires, a.lies)
	case a.bundle == 1:
		return "unfused and for seconds"
	}
	return "flat factor"
}
