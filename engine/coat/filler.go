package coat

import "fettle/fault"

// Limits of body filler (trade defaults; the maker's sheet rules).
const (
	FillerLeast     = 18.0 // °C below which it does not cure well
	FillerGood      = 3.0  // mm finished, good work
	FillerMost      = 6.0  // mm, the limit for an area
	hardenerLeast   = 1.0  // % paste by mass
	hardenerDefault = 2.0
	hardenerMost    = 3.0
)

// Filler is a batch of filler for an area.
type Filler struct {
	Mixed    float64 // g of filler to mix, what is sanded away included
	Hardener float64 // g of paste
	Pot      float64 // min to spread it
	Sand     float64 // min until it can be sanded
	Words    string  // what to heed about the thickness, empty where good
}

// FillerFor returns what to mix for m² at a mean mm that stays, with a density
// in kg/l (light 1.1 to 1.4, standard 1.8), the part that is sanded away (0.60
// to 0.75) and % of hardener paste by mass, 0 for the default of 2. Over 6 mm
// and under 18 °C it is refused. Pot life is 3 to 6 min at 20 °C: the shorter is
// given, halved for every 10 °C more; sanding after 20 to 30 min: the longer.
func FillerFor(area, meanMm, density, sanded, hardener, metal float64) (Filler, error) {
	if hardener == 0 {
		hardener = hardenerDefault
	}
	for _, err := range []error{
		above("area", area, mostArea, "m²", "1 dm² is 0.01 m²"),
		above("thickness", meanMm, FillerMost, "mm", "filler over 6 mm cracks: beat the metal out, or fill with more than one lift of 1 to 2 mm up to 6 mm"),
		above("density", density, 3, "kg/l", "light filler 1.1 to 1.4, standard 1.8"),
		within("sanded away", sanded, 0, 0.9, "as a part", "60 % is written 0.60"),
		within("hardener", hardener, hardenerLeast, hardenerMost, "% by mass", "1 to 3 % of paste, 2 % by habit: too much bleeds through the paint, too little stays soft"),
		within("metal", metal, FillerLeast, 40, "°C", "filler cures from 18 °C, best at 22 to 27 °C: warm the panel"),
	} {
		if err != nil {
			return Filler{}, err
		}
	}
	f := Filler{Mixed: 1000 * area * meanMm * density / (1 - sanded)}
	f.Hardener = f.Mixed * hardener / 100
	pot, err := PotLife(3, min(metal, hottestPot))
	if err != nil {
		return Filler{}, fault.Wrap(fault.Invalid, err, "pot life of filler")
	}
	f.Pot, f.Sand = pot, 30
	if meanMm > FillerGood {
		f.Words = "more than 3 mm finished: metal work would be better"
	}
	return f, nil
}
