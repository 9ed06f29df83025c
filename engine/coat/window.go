package coat

import (
	"fmt"

	"fettle/fault"
	"fettle/unit"
)

// State is where a window stands.
type State uint8

// The states.
const (
	NotYet  State = iota
	Open          // there is time
	Closing       // the last tenth of it, or the last quarter of an hour
	Closed
)

// String names the state.
func (s State) String() string { return [...]string{"not yet", "open", "closing", "closed"}[s&3] }

// Window is when something may be done. A zero To never closes.
type Window struct {
	From, To unit.Moment
}

// At returns the state at a moment and the minutes left: until it opens, until
// it closes (-1 where it never does), or since it closed.
func (w Window) At(now unit.Moment) (State, int) {
	switch {
	case w.To != 0 && now > w.To:
		return Closed, int(now - w.To)
	case now < w.From:
		return NotYet, int(w.From - now)
	case w.To == 0:
		return Open, -1
	}
	length := int(w.To - w.From)
	notice := min(max(15, length/10), length/2)
	if left := int(w.To - now); left > notice {
		return Open, left
	}
	return Closing, int(w.To - now)
}

// Clock is a window with its name, such as "clear over base".
type Clock struct {
	Name string
	Window
}

// Say tells how the clock stands: "clear over base: closing, 35 min left (by 16:10)".
func (c Clock) Say(now unit.Moment) string {
	state, left := c.At(now)
	switch {
	case state == NotYet:
		return fmt.Sprintf("%s: not yet, opens in %s (%s)", c.Name, span(left), moment(now, c.From))
	case state == Closed:
		return fmt.Sprintf("%s: closed %s ago (%s)", c.Name, span(left), moment(now, c.To))
	case left < 0:
		return fmt.Sprintf("%s: open since %s", c.Name, moment(now, c.From))
	}
	return fmt.Sprintf("%s: %s, %s left (by %s)", c.Name, state, span(left), moment(now, c.To))
}

func moment(now, m unit.Moment) string {
	if m.Date() == now.Date() {
		return m.Clock()
	}
	return m.Clock() + " on " + m.Date().Time().Format("Mon 2 Jan")
}

// span writes minutes: "35 min", "2 h 5 min", "3 d 4 h".
func span(minutes int) string {
	switch h := minutes / 60; {
	case h == 0:
		return fmt.Sprintf("%d min", minutes)
	case h < 48 && minutes%60 == 0:
		return fmt.Sprintf("%d h", h)
	case h < 48:
		return fmt.Sprintf("%d h %d min", h, minutes%60)
	default:
		return fmt.Sprintf("%d d %d h", h/24, h%24)
	}
}

// Recoat is when the next product may go on, in minutes at 20 °C after the last
// coat. A zero To never closes.
type Recoat struct {
	From, To float64
	Doubling float64 // °C, 0 for the default of 12
}

// Window returns when the next product may go on a coat laid at a moment on
// metal that stays at a temperature in °C. Cold makes it open later and never
// close later than the sheet says; warmth brings both forward. Outside 16 to
// 30 °C it is refused: ask Latest for the end alone.
func (r Recoat) Window(laid unit.Moment, metal float64) (Window, error) {
	from, err := Scale(r.From, metal, r.Doubling)
	if err != nil {
		return Window{}, err
	}
	to, err := r.Latest(laid, metal)
	if err != nil {
		return Window{}, err
	}
	w := Window{From: after(laid, from), To: to}
	if to != 0 && w.From > to {
		return Window{}, fault.New(fault.Invalid, "at %g °C it opens at %s, after it has closed at %s", metal, w.From, to).At("recoat").WithHint("warm the metal, or ask the maker")
	}
	return w, nil
}

// Latest returns when the window closes, at any temperature; zero for never.
func (r Recoat) Latest(laid unit.Moment, metal float64) (unit.Moment, error) {
	if r.To == 0 {
		return 0, nil
	}
	if err := above("recoat, to", r.To, mostTime, "min", "take it from the maker's sheet, at 20 °C"); err != nil {
		return 0, err
	}
	if err := within("recoat, from", r.From, 0, r.To, "min", "the window opens before it closes"); err != nil {
		return 0, err
	}
	if err := within("metal", metal, coldestAir, hottestOf, "°C", "read the metal"); err != nil {
		return 0, err
	}
	to, err := Scale(r.To, min(max(metal, SheetTemperature), ScaleTo), r.Doubling)
	return before(laid, to), err
}

// Drying is what a film can bear, in minutes at 20 °C after the last coat; 0
// where the sheet does not say.
type Drying struct {
	DustFree, Touch, Tape, Handle, Sand, Polish, Cure float64
	Doubling                                          float64 // °C, 0 for the default of 12
}

// Clocks returns when each is reached on metal that stays at a temperature.
func (d Drying) Clocks(laid unit.Moment, metal float64) ([]Clock, error) {
	var list []Clock
	for _, c := range []struct {
		name    string
		minutes float64
	}{
		{"dust free", d.DustFree}, {"touch dry", d.Touch}, {"tape", d.Tape}, {"handle", d.Handle},
		{"sand", d.Sand}, {"cut and polish", d.Polish}, {"full cure", d.Cure},
	} {
		if c.minutes == 0 {
			continue
		}
		m, err := Scale(c.minutes, metal, d.Doubling)
		if err != nil {
			return nil, fault.Wrap(fault.Invalid, err, c.name)
		}
		list = append(list, Clock{c.name, Window{From: after(laid, m)}})
	}
	return list, nil
}
