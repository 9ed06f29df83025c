package coat

import (
	"fmt"
	"math"

	"fettle/fault"
)

// WarmUp is one warm-up on record: metal from °C to °C in minutes, in air of °C.
type WarmUp struct {
	From, To, Air float64 // °C
	Minutes       float64
}

// Warming is how metal warms in a booth, fitted to its own record: by the
// gap to the air, minutes = tau × ln((air − from) ÷ (air − to)), where every
// record ended well under the temperature of its air; else by so many °C an hour.
type Warming struct {
	N     int     // warm-ups on record; without one nothing is known
	Tau   float64 // min, 0 where Rate holds
	Rate  float64 // °C/h, 0 where Tau holds
	Error float64 // root of the mean squared relative miss of the record itself, as a part
}

// airGap is by how many °C the air must beat the metal for the curve to hold.
const airGap = 0.5

// FitWarming fits the record by least squares through the origin. An empty
// record is no fault: it gives a Warming that knows nothing.
func FitWarming(record []WarmUp) (Warming, error) {
	w := Warming{N: len(record)}
	curve := true
	for i, r := range record {
		if err := r.refuse(); err != nil {
			return Warming{}, fault.Wrap(fault.Invalid, err, fmt.Sprintf("warm-up %d", i+1))
		}
		curve = curve && r.Air > r.To+airGap
	}
	if w.N == 0 {
		return w, nil
	}
	shape := func(r WarmUp) float64 { return r.To - r.From }
	if curve {
		shape = func(r WarmUp) float64 { return math.Log((r.Air - r.From) / (r.Air - r.To)) }
	}
	xy, xx, miss := 0.0, 0.0, 0.0
	for _, r := range record {
		xy += shape(r) * r.Minutes
		xx += shape(r) * shape(r)
	}
	slope := xy / xx // minutes for a unit of shape
	for _, r := range record {
		d := slope*shape(r)/r.Minutes - 1
		miss += d * d
	}
	w.Error = math.Sqrt(miss / float64(w.N))
	if curve {
		w.Tau = slope
	} else {
		w.Rate = 60 / slope
	}
	return w, nil
}

func (r WarmUp) refuse() error {
	for _, err := range []error{
		above("minutes", r.Minutes, 7*24*60, "min", "give how long it took"),
		within("from", r.From, coldestAir, hottestAir, "°C", "read the metal"),
		within("to", r.To, r.From+0.5, 90, "°C", "a warm-up ends at least half a degree warmer"),
		within("air", r.Air, coldestAir, 120, "°C", "give the air of the booth while it warmed"),
	} {
		if err != nil {
			return err
		}
	}
	return nil
}

// Reach is when metal reaches a temperature.
type Reach struct {
	Known     bool
	Minutes   float64
	Low, High float64 // min; by the miss of the record, a quarter either way at least while n is under 5
	Words     string
}

// Reach returns how long metal of °C takes to another in air of °C. Without a
// record it says so and gives none.
func (w Warming) Reach(from, to, air float64) (Reach, error) {
	for _, err := range []error{
		within("metal", from, coldestAir, hottestAir, "°C", "read the metal"),
		within("aim", to, coldestAir, 90, "°C", "give the temperature the paint asks for"),
		within("air", air, coldestAir, 120, "°C", "give the air of the booth while it warms"),
	} {
		if err != nil {
			return Reach{}, err
		}
	}
	switch {
	case from >= to:
		return Reach{Known: true, Words: "it is there already"}, nil
	case w.N == 0:
		return Reach{Words: "this booth has no warm-up on record: time one, from °C to °C, and it can be reckoned"}, nil
	case w.Tau > 0 && air <= to+airGap:
		return Reach{Words: fmt.Sprintf("air of %g °C does not bring metal to %g °C: turn it up", air, to)}, nil
	}
	r := Reach{Known: true}
	if w.Tau > 0 {
		r.Minutes = w.Tau * math.Log((air-from)/(air-to))
	} else {
		r.Minutes = 60 * (to - from) / w.Rate
	}
	part := w.Error
	if w.N < 5 {
		part = max(part, 0.25)
	}
	r.Low, r.High = r.Minutes*max(0, 1-part), r.Minutes*(1+part)
	record := "one warm-up"
	if w.N > 1 {
		record = fmt.Sprintf("%d warm-ups", w.N)
	}
	r.Words = fmt.Sprintf("%g to %g °C takes about %s (%s to %s), by %s of this booth", from, to,
		span(int(math.Ceil(r.Minutes))), span(int(r.Low)), span(int(math.Ceil(r.High))), record)
	return r, nil
}
