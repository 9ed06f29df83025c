package live

import (
	"fmt"
	"math"

	"fettle/engine/schedule"
)

// Verdict sums up how forecasts compare with what came, over one or several
// builds. Every build weighs the same, however many forecasts it had.
type Verdict struct {
	Builds    int     `json:"builds"`
	Forecasts int     `json:"forecasts"`
	Held      []Held  `json:"held"`     // of the half, the four-in-five and the nine-in-ten days
	Promised  int     `json:"promised"` // builds with a forecast made by the promised day
	Brier     float64 `json:"brier"`    // mean square of chance less outcome: 0 is perfect, 0.25 is a coin
	Says      string  `json:"says"`
}

// Held is how often the days of one chance held.
type Held struct {
	Chance float64 `json:"chance"`    // what they stand for: 0.5, 0.8, 0.9
	Said   float64 `json:"said"`      // given to them on the mean: a little more, for days are whole; 0 for tasks
	Part   float64 `json:"part"`      // of the builds in which they held
	Low    float64 `json:"low"`       // 95 % interval of Part over so many builds
	High   float64 `json:"high"`      // its upper end
	Loss   float64 `json:"loss_days"` // mean pinball loss, in working days: 0 is perfect
}

// VerdictOn scores forecasts.
func VerdictOn(list []Made) Verdict {
	r := schedule.Backtest(forecastsOf(list))
	v := Verdict{Builds: r.Builds, Forecasts: len(list), Promised: r.Promised, Brier: round4(r.Brier), Says: saysOf(r)}
	of := map[string]int{}
	for _, m := range list {
		of[m.Build]++
	}
	for i, h := range r.Held {
		said := 0.0
		for _, m := range list {
			said += m.said[i] / float64(of[m.Build]*r.Builds)
		}
		v.Held = append(v.Held, Held{h.Quantile, round4(said), round4(h.Part), round4(h.Low), round4(h.High), round4(h.Loss)})
	}
	return v
}

// forecastsOf counts in working days, from so many before the finish that no
// forecast lies before the origin.
func forecastsOf(list []Made) []schedule.Forecast {
	const came = 1 << 20
	var counted []schedule.Forecast
	for _, m := range list {
		f := schedule.Forecast{Build: m.Build, Came: came, Chance: m.Ready}
		for i, at := range []*schedule.Minute{&f.P50, &f.P80, &f.P90} {
			*at = schedule.Minute(came - m.off[i])
		}
		if m.Promised != 0 && m.Day <= m.Promised {
			f.Goal = schedule.Minute(came - m.missed)
		}
		counted = append(counted, f)
	}
	return counted
}

// saysOf says what may be read out of a record.
func saysOf(r schedule.Record) string {
	switch {
	case r.Builds == 0:
		return "Nothing to score."
	case r.Builds == 1:
		return "One build: its forecasts hang together, so this tells how that build went, not how good forecasts are. No claim before about 10 finished builds."
	case !r.Enough:
		return fmt.Sprintf("%d builds: too few for a claim, which takes about 10 finished ones. The forecasts of one build hang together.", r.Builds)
	}
	h := r.Held[1]
	return fmt.Sprintf("%d builds: the four-in-five days held in %.0f %% of them, and in the long run in %.0f to %.0f %%, 19 times out of 20.", r.Builds, 100*h.Part, 100*h.Low, 100*h.High)
}

// round4 keeps four decimals, so that a chance reads and compares plainly.
func round4(x float64) float64 { return math.Round(x*10_000) / 10_000 }
