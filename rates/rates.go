// Package rates is the shop's own memory: defaults that start as habits of the
// trade, each with its source, and are narrowed by finished work. With n
// records the shop's own mean takes over as n ÷ (n + 10); n is always shown.
package rates

import (
	"fmt"

	"fettle/build"
	"fettle/figure"
	"fettle/unit"
)

// prior is how many records the trade default is worth.
const prior = 10

// Remedy is what one way of putting a finding right takes: hours at the bench
// and hours for each metre of cut edge.
type Remedy struct {
	Decision build.PanelState `json:"decision"`
	Fixed    unit.Effort      `json:"fixed_h"`
	PerMetre unit.Effort      `json:"per_metre_h"`
	Ratio    float64          `json:"ratio"` // own hours ÷ guessed hours, shrunk towards 1
	Records  int              `json:"records"`
}

// Rates holds the defaults in force.
type Rates struct {
	Remedies []Remedy `json:"remedies"`
	// Transfers is what mixes weighed back showed, by the use of the paint.
	Transfers []Transfer `json:"transfers,omitempty"`
	Past      []Past     `json:"-"` // earlier builds, for the odds; Learn leaves it empty
}

// Default returns the habits of the trade.
func Default() Rates {
	return Rates{Remedies: []Remedy{
		{Decision: build.Repair, Fixed: 2 * unit.Hour, PerMetre: 4 * unit.Hour, Ratio: 1},
		{Decision: build.Replace, Fixed: 5 * unit.Hour, PerMetre: 2 * unit.Hour, Ratio: 1},
		{Decision: build.Make, Fixed: 3 * unit.Hour, PerMetre: 5 * unit.Hour, Ratio: 1},
	}}
}

// Learn narrows the defaults by the closed findings of builds that have hours
// booked on them, and by their mixes that were weighed back.
func Learn(builds ...build.Build) Rates {
	r := Default()
	for i := range r.Remedies {
		m := &r.Remedies[i]
		var sum float64
		for _, b := range builds {
			for _, f := range b.Findings {
				if own, ok := ownRatio(b, f, *m); ok {
					sum += own
					m.Records++
				}
			}
		}
		m.Ratio = (sum + prior) / float64(m.Records+prior)
	}
	r.Transfers = transfers(builds)
	return r
}

// ownRatio compares the hours booked on a closed finding with the guess.
func ownRatio(b build.Build, f build.Finding, m Remedy) (float64, bool) {
	if f.State != build.Closed || f.Remedy != m.Decision {
		return 0, false
	}
	var booked unit.Effort
	for _, h := range b.Hours {
		if h.Finding == f.ID {
			booked += h.Worked
		}
	}
	guess := m.guess(f.Size)
	return float64(booked) / float64(guess), booked > 0 && guess > 0
}

// edge returns the length of edge to cut and weld, in metres.
func edge(s build.Size) float64 {
	w, h := s.Width, s.Height
	if s.Round {
		h = w
	}
	return float64(s.Places()) * 2 * (w.Mm() + h.Mm()) / 1000
}

func (m Remedy) guess(s build.Size) unit.Effort {
	return m.Fixed + unit.Hours(m.PerMetre.H()*edge(s))
}

// halfHour is the step in which guesses are offered.
const halfHour = 30 * unit.Minute

// Hours guesses what a remedy of a finding takes, rounded to half an hour.
func (r Rates) Hours(decision build.PanelState, s build.Size) (unit.Effort, figure.Figure) {
	for _, m := range r.Remedies {
		if m.Decision != decision {
			continue
		}
		raw := unit.Hours(m.guess(s).H() * m.Ratio)
		hours := (raw + halfHour/2) / halfHour * halfHour
		return hours, figure.Figure{
			Name: "hours to " + string(decision), Text: hours.String(),
			Formula: "(hours at the bench + hours a metre × metres of edge) × own ratio, to the half hour",
			With:    fmt.Sprintf("(%s + %s × %.2f m) × %.2f = %s", m.Fixed, m.PerMetre, edge(s), m.Ratio, hours),
			Inputs: []figure.Input{
				{Name: "size", Value: s.String(), Source: figure.Measured},
				{Name: "at the bench", Value: m.Fixed.String(), Source: figure.TradeDefault},
				{Name: "a metre of edge", Value: m.PerMetre.String(), Source: figure.TradeDefault},
				{Name: "own ratio", Value: fmt.Sprintf("%.2f", m.Ratio), Source: figure.OwnPast, Note: fmt.Sprintf("n = %d closed findings", m.Records)},
			},
			Caution: "Rust goes further than is seen: plan the larger cut. A load path is for a competent person, to factory seams.",
		}
	}
	return 0, figure.Figure{Name: "hours to keep", Text: "0 h", Formula: "nothing to do", With: "0 h"}
}
