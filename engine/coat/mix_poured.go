package coat

import (
	"fmt"
	"math"

	"fettle/fault"
)

// Tolerance is by how many % the hardener may be off before a mix is flagged:
// beyond it the film stays soft or turns brittle (trade default).
const Tolerance = 5.0

// Off is a component of a poured mix beside what the recipe asks of it.
type Off struct {
	Name    string
	Role    Role
	Percent float64 // more (+) or less (−) than the paint in the cup asks for
	Flagged bool    // a hardener off by more than Tolerance
	Words   string  // what a flag means; empty without one
}

// Poured compares grams poured, one number a component, with the recipe,
// reckoned on the first component that is paint.
func (r Recipe) Poured(grams []float64) ([]Off, error) {
	lead, err := r.lead(grams)
	if err != nil {
		return nil, err
	}
	want, err := r.From(lead, grams[lead])
	if err != nil {
		return nil, err
	}
	list := make([]Off, len(grams))
	for i, s := range want.Steps {
		o := Off{Name: s.Name, Role: s.Role, Percent: 100 * (grams[i]/s.Grams - 1)}
		if s.Role == Hardener && math.Abs(o.Percent) > Tolerance+1e-9 {
			o.Flagged, o.Words = true, fmt.Sprintf("%s is %+.0f %%, beyond ±%g %%: the film may stay soft or turn brittle", s.Name, o.Percent, Tolerance)
		}
		list[i] = o
	}
	return list, nil
}

// Mend returns the smallest mix that holds all that is in the cup already and
// is right again, and the grams to add of each.
func (r Recipe) Mend(grams []float64) (Mix, []float64, error) {
	if _, err := r.lead(grams); err != nil {
		return Mix{}, nil, err
	}
	best := Mix{}
	for i, g := range grams {
		if g == 0 {
			continue
		}
		m, err := r.From(i, g)
		if err != nil {
			return Mix{}, nil, err
		}
		if m.Litres > best.Litres {
			best = m
		}
	}
	add := make([]float64, len(grams))
	for i, s := range best.Steps {
		add[i] = max(0, s.Grams-grams[i])
	}
	return best, add, nil
}

// lead returns the first paint of the recipe and refuses weights that cannot be.
func (r Recipe) lead(grams []float64) (int, error) {
	if len(grams) != len(r.Components) {
		return 0, fault.New(fault.Invalid, "%d weights for %d components", len(grams), len(r.Components)).At("poured").WithHint("give one weight for each, 0 where nothing was poured")
	}
	lead := -1
	for i, g := range grams {
		if err := within(r.Components[i].Name, g, 0, 1e6, "g", "read the scale; give what was poured, not the running total"); err != nil {
			return 0, err
		}
		if lead < 0 && g > 0 && r.Components[i].Role == Paint {
			lead = i
		}
	}
	if lead < 0 {
		return 0, fault.New(fault.Invalid, "no paint was poured").At("poured").WithHint("the paint is what the rest is reckoned on")
	}
	return lead, nil
}

// potShare is the part of the pot life in which a batch must be sprayed (trade default).
const potShare = 0.7

// Batch returns the most litres to mix at once: what is sprayed at litres a
// minute in 70 % of the pot life in minutes, the induction (minutes that the
// mix must stand first, 0 where the sheet asks for none) taken off.
func Batch(potMinutes, litresPerMinute, induction float64) (float64, error) {
	if err := above("pot life", potMinutes, mostTime, "min", "take it from the maker's sheet, at the shop's temperature"); err != nil {
		return 0, err
	}
	if err := above("spraying", litresPerMinute, 10, "l/min", "a gun lays about 0.1 to 0.4 l a minute"); err != nil {
		return 0, err
	}
	if err := within("induction", induction, 0, potMinutes*potShare, "min", "it must leave time to spray within 70 % of the pot life"); err != nil {
		return 0, err
	}
	return (potMinutes*potShare - induction) * litresPerMinute, nil
}

// Batches splits litres into the fewest equal batches of at most so many litres.
func Batches(litres, most float64) (n int, each float64, err error) {
	if err := above("volume", litres, mostLitres, "l", "give the litres ready to spray"); err != nil {
		return 0, 0, err
	}
	if err := above("batch", most, mostLitres, "l", "see how much is sprayed in 70 % of the pot life"); err != nil {
		return 0, 0, err
	}
	count := max(1, math.Ceil(litres/most-1e-9))
	if count > 1000 {
		return 0, 0, fault.New(fault.Invalid, "%g batches", count).At("batch").WithHint("see how much is sprayed in 70 % of the pot life")
	}
	return int(count), litres / count, nil
}
