package coat

import (
	"slices"

	"fettle/fault"
	"fettle/unit"
)

// CheckDay recomputes from the day itself that a sheet can be worked: one thing
// at a time, every coat in the order given and long enough, no coat before its
// flash, window or tape, and what is broken named as trouble. It shares no state
// with what made the sheet.
func CheckDay(d Day, s DaySheet) error {
	c := checker{day: d, sheet: s, last: map[string]coatLaid{}}
	if err := c.lines(); err != nil {
		return err
	}
	next := 0
	for i, r := range d.Runs {
		var err error
		if next, err = c.run(i, r, next); err != nil {
			return err
		}
	}
	for ; next < len(s.Lines); next++ {
		if s.Lines[next].Act == Sprays {
			return c.wrong(s.Lines[next], "sprayed once too often")
		}
	}
	return c.end()
}

type checker struct {
	day   Day
	sheet DaySheet
	last  map[string]coatLaid // by set
}

type coatLaid struct {
	product Product
	at      unit.Moment
}

func (c *checker) wrong(l Line, what string) error {
	return fault.New(fault.Invalid, "%s: %s", l.From.Clock(), what).At(l.Set + " " + l.Product)
}

func (c *checker) lines() error {
	now := c.day.Opens
	for _, l := range c.sheet.Lines {
		if l.From < now || l.To <= l.From {
			return c.wrong(l, "overlaps what is before it")
		}
		now = l.To
	}
	return nil
}

// said reports whether a trouble of a set and product is named.
func (c *checker) said(set, product string) bool {
	return slices.ContainsFunc(c.sheet.Troubles, func(t Trouble) bool { return t.Set == set && t.Product == product })
}

// run follows the coats of a run from a line on and returns the line after them.
func (c *checker) run(index int, r Run, next int) (int, error) {
	mixed, keeps := unit.Moment(0), 0.0
	if r.Product.Pot > 0 {
		pot, err := PotLife(r.Product.Pot, c.day.Metal)
		if err != nil {
			return 0, err
		}
		keeps = potShare * pot
	}
	for coat := 1; coat <= r.Product.Coats; coat++ {
		for _, name := range r.Sets {
			for ; next < len(c.sheet.Lines) && c.sheet.Lines[next].Act != Sprays; next++ {
				if c.sheet.Lines[next].Act == Mixes {
					mixed = c.sheet.Lines[next].To
				}
			}
			if next == len(c.sheet.Lines) {
				return 0, fault.New(fault.Invalid, "coat %d is missing", coat).At(name + " " + r.Product.Name)
			}
			l := c.sheet.Lines[next]
			next++
			set := c.day.Sets[slices.IndexFunc(c.day.Sets, func(s Set) bool { return s.Name == name })]
			if l.Set != name || l.Product != r.Product.Name || l.Coat != coat || float64(l.To-l.From)*r.Product.Rate < set.Area-1e-6 {
				return 0, c.wrong(l, "another coat, or too short, than the run asks")
			}
			if keeps > 0 && mixed != 0 && float64(l.To-mixed) > keeps+1e-6 && !c.said(name, r.Product.Name) {
				return 0, c.wrong(l, "sprayed after 70 % of the pot life")
			}
			if mixed != 0 && float64(l.From-mixed) < r.Product.Stand-1e-6 {
				return 0, c.wrong(l, "sprayed before the mix has stood")
			}
			if err := c.times(index, r, set, l); err != nil {
				return 0, err
			}
			c.last[name] = coatLaid{r.Product, l.To}
		}
	}
	return next, nil
}

// times holds a coat to flash, window, tape and stands.
func (c *checker) times(index int, r Run, set Set, l Line) error {
	before, wet := c.last[set.Name]
	if l.Coat > 1 {
		flash, err := Flash(r.Product.Flash, c.day.Metal, r.Product.Next.Doubling, r.Product.Wet, r.Product.WetSheet)
		if err == nil && float64(l.From-before.at) < flash-1e-6 {
			err = c.wrong(l, "before the flash is over")
		}
		return err
	}
	window := set.Under.Window
	if wet {
		var err error
		if window, err = before.product.Next.Window(before.at, c.day.Metal); err != nil {
			return err
		}
	}
	if l.From < window.From {
		return c.wrong(l, "before the window opens")
	}
	if window.To != 0 && l.To > window.To && !c.said(set.Name, r.Product.Name) {
		return c.wrong(l, "after the window has closed")
	}
	for _, name := range r.Taped {
		if t, ok := c.last[name]; ok {
			tape, err := Scale(t.product.Drying.Tape, c.day.Metal, t.product.Drying.Doubling)
			if err != nil {
				return err
			}
			if float64(l.From-t.at) < tape+r.Turn-1e-6 {
				return c.wrong(l, "tape on "+name+" before it bears it")
			}
		}
	}
	if c.day.Stands > 0 && !wet && c.wet(index, l.From)+set.Panels > c.day.Stands && !c.said(set.Name, r.Product.Name) {
		return c.wrong(l, "no stand for its panels")
	}
	return nil
}

// wet counts the panels that need a stand while a run is on.
func (c *checker) wet(index int, at unit.Moment) int {
	n := 0
	for _, s := range c.day.Sets {
		laid, ok := c.last[s.Name]
		if !ok {
			continue
		}
		more := slices.ContainsFunc(c.day.Runs[index:], func(r Run) bool { return slices.Contains(r.Sets, s.Name) })
		dry, err := Scale(max(laid.product.Drying.Handle, laid.product.Drying.DustFree), c.day.Metal, laid.product.Drying.Doubling)
		if more || err != nil || float64(at-laid.at) < dry-1e-6 {
			n += s.Panels
		}
	}
	return n
}

// end holds the finish to clearance and dust.
func (c *checker) end() error {
	f := c.sheet.Finish
	for _, set := range c.day.Sets {
		l, ok := c.last[set.Name]
		if !ok {
			continue
		}
		free, err := Scale(l.product.Drying.DustFree, c.day.Metal, l.product.Drying.Doubling)
		if err != nil || float64(f-l.at) < max(free, c.day.Clearance)-1e-6 {
			return fault.New(fault.Invalid, "the day ends before it is dust free and cleared").At(set.Name)
		}
	}
	if c.sheet.Spare != int(c.day.Closes-f) {
		return fault.New(fault.Invalid, "%d minutes to spare are not those of the day", c.sheet.Spare).At("day")
	}
	return nil
}
