package loom

import (
	"fmt"
	"slices"

	"fettle/figure"
)

// shareOf returns the part of the time that a circuit of a list is on: a trade
// default where it is not told.
func shareOf(d Duty) float64 {
	switch d {
	case Intermittent:
		return 0.3
	case Short:
		return 0
	}
	return 1
}

// drawn sums the circuits of a list for the charging balance and for a wet
// night; of those that are never together the most counts.
func (s *sizer) drawn() (sum, night float64) {
	var ids []string
	var mean, dark []float64
	for i := range s.p.Circuits {
		c := &s.p.Circuits[i]
		if c.Feed {
			continue
		}
		ids, mean, dark = append(ids, c.ID), append(mean, c.Amps*c.TimeOn()), append(dark, 0)
		if c.Night {
			dark[len(dark)-1] = c.Amps
		}
	}
	clash := func(i, j int) bool { return s.p.never(ids[i], ids[j]) }
	return together(mean, clash), together(dark, clash)
}

// never reports whether two circuits are never together.
func (p *Problem) never(a, b string) bool {
	return slices.ContainsFunc(p.Exclusives, func(x Exclusive) bool { return slices.Contains(x.Never, a) && slices.Contains(x.Never, b) })
}

// charge weighs what is drawn against what is made and stored.
func (s *sizer) charge(r *Result) {
	p := s.p
	sum, night := s.drawn()
	for i := range p.Consumers {
		c := &p.Consumers[i]
		_, amps := p.rated(c)
		if c.Night {
			night += amps
		}
		if !c.Short {
			sum += amps * or(c.Duty, 1)
		}
	}
	rated, idle := 0.0, 0.0
	for _, a := range p.Alternators {
		rated, idle = rated+a.RatedAmps, idle+a.most(EngineIdle)
	}
	if rated > 0 && sum > 0 {
		may := s.rules.ChargeShare * rated
		r.Charge = &Charge{LoadA: sum, MayA: may, Enough: !over(sum, may), Working: figure.Figure{
			Name: "charging balance", Text: fmt.Sprintf("%.1f A of %.1f A", sum, may), Formula: "continuous + Σ intermittent × duty ≤ 0.8 × rated",
			With:   fmt.Sprintf("%.1f A against %g × %g A = %.1f A", sum, s.rules.ChargeShare, rated, may),
			Inputs: []figure.Input{{Name: "share", Value: fmt.Sprint(s.rules.ChargeShare), Source: figure.TradeDefault}, {Name: "rated", Value: fmt.Sprintf("%g A", rated), Source: figure.Sheet}},
		}}
	}
	if night > 0 && rated > 0 {
		verdict := "the battery keeps"
		if over(night, idle) {
			verdict = "the battery drains"
		}
		r.Night = &figure.Figure{
			Name: "wet night at idle", Text: verdict, Formula: "headlamps, blower, wipers, stop lamps ≤ output at idle",
			With:   fmt.Sprintf("%.1f A against %.1f A", night, idle),
			Inputs: []figure.Input{{Name: "at idle", Value: fmt.Sprintf("%.1f A", idle), Source: figure.TradeDefault, Note: "0.7 of rated unless the sheet is typed in"}},
		}
	}
	s.reserve(r, sum)
}

// reserve tells how long the battery lasts.
func (s *sizer) reserve(r *Result, sum float64) {
	always := 0.0
	for i := range s.p.Consumers {
		if c := &s.p.Consumers[i]; c.Always {
			_, amps := s.p.rated(c)
			always += amps * 1000
		}
	}
	for _, b := range s.p.Batteries {
		hours, from := b.AmpHours, "20 h rate"
		if b.ReserveMinutes > 0 {
			r.Reserve = append(r.Reserve, figure.Figure{
				Name: "reserve of " + b.Name, Text: fmt.Sprintf("%.0f min at 25 A", b.ReserveMinutes), Formula: "minutes at 25 A, from the label",
				With:   fmt.Sprintf("%.0f min × 25 A = %.1f Ah at that rate", b.ReserveMinutes, b.ReserveMinutes*25/60),
				Inputs: []figure.Input{{Name: "minutes", Value: fmt.Sprintf("%.0f", b.ReserveMinutes), Source: figure.Sheet}},
			})
			if hours == 0 {
				hours, from = b.ReserveMinutes*25/60, "minutes at 25 A"
			}
		}
		if hours > 0 && sum > 0 {
			r.Reserve = append(r.Reserve, figure.Figure{
				Name: "driving without charge on " + b.Name, Text: fmt.Sprintf("%.1f h to half", 0.5*hours/sum), Formula: "half the ampere-hours ÷ mean load",
				With:   fmt.Sprintf("0.5 × %.0f Ah ÷ %.1f A", hours, sum),
				Inputs: []figure.Input{{Name: "Ah", Value: fmt.Sprintf("%.0f", hours), Source: figure.Sheet, Note: from}},
			})
		}
		if drain := always + b.DrainMilliamps; hours > 0 && drain > 0 {
			r.Reserve = append(r.Reserve, parked(b, hours, drain))
		}
	}
}

// parked tells the days until half of a battery is gone.
func parked(b Battery, hours, drain float64) figure.Figure {
	perDay := drain * 24 / 1000
	with := fmt.Sprintf("0.5 × %.0f Ah × 1000 ÷ (%.0f mA × 24)", hours, drain)
	if b.SelfPerMonth > 0 {
		own := hours * b.SelfPerMonth / 100 / 30
		perDay += own
		with += fmt.Sprintf(", and %.2f Ah a day lost by itself", own)
	}
	word := "as a classic should be (≤ 10 mA)"
	switch {
	case drain > 35:
		word = "suspect: above 35 mA something stays on"
	case drain > 10:
		word = "more than the 10 mA that a classic should draw"
	}
	return figure.Figure{
		Name: "parked on " + b.Name, Text: fmt.Sprintf("%.0f days to half", 0.5*hours/perDay), Formula: "half the ampere-hours ÷ what is drawn with everything off; " + word,
		With:   with,
		Inputs: []figure.Input{{Name: "drain", Value: fmt.Sprintf("%.0f mA", drain), Source: figure.Measured, Note: "measured, and consumers that are always on"}},
	}
}
