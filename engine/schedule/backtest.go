package schedule

import "math"

// Forecast is what was once said of a finish, and what came of it. Its moments
// count from any origin and in any whole unit, the same for all of a list.
type Forecast struct {
	Build         string // forecasts of one build hang together
	P50, P80, P90 Minute
	Goal          Minute  // the promise; 0 is none
	Chance        float64 // said of Goal
	Came          Minute
}

// enoughBuilds is how many finished builds it takes before a record of
// forecasts says anything of how good they are.
const enoughBuilds = 10

// Record is how forecasts compare with what came. Every build weighs the same,
// however many forecasts it had.
type Record struct {
	Builds   int
	Enough   bool    // at least ten builds; below that, claim nothing
	Held     [3]Held // of P50, P80 and P90
	Promised int     // builds with a promise
	Brier    float64 // mean square of chance less outcome: 0 is perfect, 0.25 a coin
}

// Held is how often the dates of one quantile held.
type Held struct {
	Quantile  float64 // what was said
	Part      float64 // of the builds
	Low, High float64 // 95 % interval of Part over so many builds [Wilson1927]
	Loss      float64 // mean pinball loss, in the unit of the moments: 0 is perfect
}

// Backtest scores forecasts by coverage, by pinball loss and, where there was
// a promise, by Brier score; both losses are least for who says what they
// believe [GneitingRaftery2007].
func Backtest(list []Forecast) Record {
	builds := buildsOf(list)
	r := Record{Builds: len(builds), Enough: len(builds) >= enoughBuilds}
	for i, q := range []float64{0.5, 0.8, 0.9} {
		r.Held[i].Quantile = q
	}
	for _, forecasts := range builds {
		part, promises, brier := 1/float64(len(forecasts)), 0, 0.0
		for _, f := range forecasts {
			for i, said := range []Minute{f.P50, f.P80, f.P90} {
				r.Held[i].take(f.Came, said, part)
			}
			if f.Goal != 0 {
				promises++
				brier += squareOff(f)
			}
		}
		if promises > 0 {
			r.Promised++
			r.Brier += brier / float64(promises)
		}
	}
	r.Brier /= math.Max(1, float64(r.Promised))
	for i := range r.Held {
		r.Held[i].over(float64(r.Builds))
	}
	return r
}

// buildsOf sorts forecasts by build, in order of first appearance.
func buildsOf(list []Forecast) [][]Forecast {
	var builds [][]Forecast
	at := map[string]int{}
	for _, f := range list {
		i, known := at[f.Build]
		if !known {
			i, at[f.Build] = len(builds), len(builds)
			builds = append(builds, nil)
		}
		builds[i] = append(builds[i], f)
	}
	return builds
}

func (h *Held) take(came, said Minute, part float64) {
	off := float64(came) - float64(said)
	if off <= 0 {
		h.Part += part
	}
	h.Loss += float64(part * max(float64(h.Quantile*off), float64((h.Quantile-1)*off)))
}

// over turns sums into means over n builds.
func (h *Held) over(n float64) {
	if n == 0 {
		h.High = 1
		return
	}
	h.Part, h.Loss = h.Part/n, h.Loss/n
	const z = 1.959963984540054
	middle := (h.Part + z*z/(2*n)) / (1 + z*z/n)
	half := z / (1 + z*z/n) * math.Sqrt(h.Part*(1-h.Part)/n+z*z/(4*n*n))
	h.Low, h.High = max(0, middle-half), min(1, middle+half)
}

func squareOff(f Forecast) float64 {
	miss := f.Chance
	if f.Came <= f.Goal {
		miss = 1 - f.Chance
	}
	return miss * miss
}
