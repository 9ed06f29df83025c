package coat

import (
	"fmt"

	"fettle/fault"
	"fettle/unit"
)

// RustLimit returns the hours that freshly blasted dry steel may stay bare by
// relative humidity in %: under 50 8 h, to 70 4 h, to 85 2 h; damper, or less
// than 3 °C over the dew point, none: do not blast (trade default; seen: minutes
// in damp air, ten days in dry mountain air).
func RustLimit(metal, air, rh float64) (float64, error) {
	margin, err := Margin(metal, air, rh)
	switch {
	case err != nil:
		return 0, err
	case margin < DewMargin || rh > 85:
		return 0, nil
	case rh < 50:
		return 8, nil
	case rh <= 70:
		return 4, nil
	}
	return 2, nil
}

// Damp is some hours that steel stood bare, and in what.
type Damp struct {
	Hours, Metal, Air, RH float64 // h, °C, °C, %
}

// longestBare is when bare steel is over in any air, in hours.
const longestBare = 24.0

// Bare is the clock of bare steel.
type Bare struct {
	Used  float64 // the part of the limit that is used up, 1 and more: over
	Left  float64 // hours left in the air of the last spell
	By    unit.Moment
	Words string
}

// BareSince returns how the clock of steel stands that was blasted at a moment
// and has stood in these spells since, the last being the air it stays in. Every
// spell uses up its hours ÷ the limit of its air, and all is over after 24 h.
func BareSince(blasted unit.Moment, spells []Damp) (Bare, error) {
	if len(spells) == 0 {
		return Bare{}, fault.New(fault.Invalid, "no reading of the air").At("bare steel").WithHint("read air, humidity and metal now")
	}
	var b Bare
	hours, limit := 0.0, 0.0
	for i, s := range spells {
		where := fmt.Sprintf("spell %d", i+1)
		var err error
		if limit, err = RustLimit(s.Metal, s.Air, s.RH); err != nil {
			return Bare{}, fault.Wrap(fault.Invalid, err, where)
		}
		if err := within(where+", hours", s.Hours, 0, 1e4, "h", "give the hours since the spell before"); err != nil {
			return Bare{}, err
		}
		hours += s.Hours
		switch {
		case limit > 0:
			b.Used += s.Hours / limit
		case s.Hours > 0:
			b.Used = max(b.Used, 1) // it has stood in air that rusts at once
		}
	}
	b.Left = min(max(0, 1-b.Used)*limit, max(0, longestBare-hours))
	b.By = before(blasted, 60*(hours+b.Left))
	last := spells[len(spells)-1]
	switch {
	case limit == 0:
		b.Words = fmt.Sprintf("at %g %% and metal of %g °C steel rusts at once: do not blast, dry and warm the air", last.RH, last.Metal)
	case b.Left == 0:
		b.Words = "the time is over: look for flash rust, scuff, vacuum, wipe with solvent, then epoxy"
	default:
		b.Words = fmt.Sprintf("epoxy within %.1f h in this air, by %s; blow out and vacuum every cavity first", b.Left, b.By)
	}
	return b, nil
}
