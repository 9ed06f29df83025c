package paint

import (
	"slices"

	"fettle/build"
	"fettle/engine/coat"
	"fettle/unit"
)

// Readings are what somebody read and looked at before spraying: °C, °C and %,
// NaN where it was not read. The answers are yes, no, or nothing where nobody
// looked.
type Readings struct {
	Metal, Air, RH             float64
	Heat                       float64 // °C of the booth's air while it warms; 0 takes the record's
	Steady, Filters, Breathing string
}

// Answer is whether a product may be sprayed now, why not, and what would help.
type Answer struct {
	coat.Gate
	Product build.Product
	Booth   build.Bay
	Aim     float64     // °C that the metal must reach; 0 where it is there
	Warm    coat.Reach  // how long that takes by the booth's own record
	Ready   unit.Moment // when it is there, begun now; 0 where not known
	Enter   coat.Entry  // when the booth may be entered, were spraying to end now
	EnterBy string      // why that is not known
}

// MaySpray weighs the readings against what a product's sheet asks.
func MaySpray(b *build.Build, p build.Product, r Readings, now unit.Moment) (Answer, error) {
	a := Answer{Product: p, Booth: Booth(b, p)}
	c, err := conditions(b, a.Booth, r)
	if err != nil {
		return a, err
	}
	asks := coat.Asks{Product: p.Name, TwoPack: TwoPack(p), LowestMetal: p.LowMetal, HighestRH: p.HighRH}
	if a.Gate, err = coat.MaySpray(c, asks); err != nil {
		return a, err
	}
	if aim, reach, err := c.Warm(asks); err == nil && aim > r.Metal {
		a.Aim, a.Warm = aim, reach
		if reach.Known {
			a.Ready = now + unit.Moment(reach.Minutes+0.999)
		}
	}
	if a.Enter, err = coat.MayEnter(now, float64(a.Booth.Clearance)); err != nil {
		a.EnterBy = err.Error()
	}
	return a, nil
}

func conditions(b *build.Build, booth build.Bay, r Readings) (coat.Conditions, error) {
	warming, err := Warming(b, booth.ID)
	if err != nil {
		return coat.Conditions{}, err
	}
	air := r.Heat
	if air == 0 {
		air = lastAir(b, booth.ID)
	}
	c := coat.Conditions{Air: r.Air, RH: r.RH, Metal: r.Metal, Steady: looked(r.Steady), Filters: looked(r.Filters),
		Breathing: looked(r.Breathing), WarmAir: air, Warming: warming, Clearance: coat.Bad}
	if booth.Clearance > 0 {
		c.Clearance = coat.Good
	}
	return c, nil
}

func looked(answer string) coat.Checked {
	switch answer {
	case "yes":
		return coat.Good
	case "no":
		return coat.Bad
	}
	return coat.NotChecked
}

// lastAir is the °C that a bay's air had at its last warm-up, 0 without one.
func lastAir(b *build.Build, bay string) float64 {
	air := 0.0
	for _, w := range b.WarmUps {
		if w.Bay == bay {
			air = w.Air
		}
	}
	return air
}

// Booth is the bay in which a product is sprayed: that of its task, else the
// one whose clearance time is posted, else none.
func Booth(b *build.Build, p build.Product) build.Bay {
	id := ""
	if t := b.Task(p.Task); t != nil {
		id = t.Bay
	}
	i := slices.IndexFunc(b.Bays, func(y build.Bay) bool { return id != "" && y.ID == id })
	if i < 0 {
		i = slices.IndexFunc(b.Bays, func(y build.Bay) bool { return y.Clearance > 0 })
	}
	if i < 0 {
		return build.Bay{}
	}
	return b.Bays[i]
}
