package coat

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fettle/unit"
)

// painter works through a day.
type painter struct {
	day     Day
	now     unit.Moment
	sets    map[string]*wet
	sheet   DaySheet
	batch   string      // product in the gun
	mixed   unit.Moment // since when
	slack   int         // what windows of earlier days, where kept, have left at least
	sprayed unit.Moment // end of the last spraying
}

// wet is where a set stands.
type wet struct {
	set     Set
	product Product
	last    unit.Moment // end of its last coat, 0 before the first
	flash   unit.Moment // when the next coat of the product may go on
	next    Clock       // window of the next product
	missed  string      // what missing it costs
	runs    int         // runs of the day still to come on it
}

func newPainter(d Day) *painter {
	p := &painter{day: d, now: d.Opens, sets: map[string]*wet{}, slack: math.MaxInt}
	for _, s := range d.Sets {
		p.sets[s.Name] = &wet{set: s, next: s.Under, missed: s.Missed}
	}
	for _, r := range d.Runs {
		for _, name := range r.Sets {
			p.sets[name].runs++
		}
	}
	return p
}

// line puts minutes of work on the sheet, nothing where there are none.
func (p *painter) line(l Line, minutes float64) *Line {
	if l.From, l.To = p.now, after(p.now, minutes); l.To <= l.From {
		return &l
	}
	p.now = l.To
	p.sheet.Lines = append(p.sheet.Lines, l)
	return &p.sheet.Lines[len(p.sheet.Lines)-1]
}

func (p *painter) wait(until unit.Moment, set, why string) {
	p.line(Line{Act: Waits, Set: set, Why: why}, float64(until-p.now))
}

func (p *painter) trouble(set string, r Run, minutes int, format string, args ...any) {
	p.sheet.Troubles = append(p.sheet.Troubles, Trouble{set, r.Product.Name, minutes, fmt.Sprintf(format, args...)})
}

// run sprays one product over its sets.
func (p *painter) run(r Run) error {
	for _, name := range r.Taped {
		w := p.sets[name]
		if w.last == 0 {
			continue
		}
		tape, err := Scale(w.product.Drying.Tape, p.day.Metal, w.product.Drying.Doubling)
		if err != nil {
			return err
		}
		p.wait(after(w.last, tape), name, "until it bears tape")
	}
	p.line(Line{Act: Turns, Set: strings.Join(r.Sets, ", "), Product: r.Product.Name}, r.Turn)
	flash, err := Flash(r.Product.Flash, p.day.Metal, r.Product.Next.Doubling, r.Product.Wet, r.Product.WetSheet)
	if err != nil {
		return err
	}
	p.batch = ""
	for coat := 1; coat <= r.Product.Coats; coat++ {
		for _, name := range r.Sets {
			if err := p.coat(r, p.sets[name], coat, flash); err != nil {
				return err
			}
		}
	}
	for _, name := range r.Sets {
		p.sets[name].runs--
	}
	return nil
}

// coat waits until it may, mixes where it must, and sprays one coat on one set.
func (p *painter) coat(r Run, w *wet, coat int, flash float64) error {
	ready, why := w.flash, "flash"
	if coat == 1 {
		ready, why = w.next.From, w.next.Name
		p.room(r, w)
	}
	spray := sprayMinutes(w.set, r.Product)
	if err := p.mix(r, w, ready, spray, why); err != nil {
		return err
	}
	p.wait(ready, w.set.Name, why)
	l := p.line(Line{Act: Sprays, Set: w.set.Name, Product: r.Product.Name, Coat: coat}, spray)
	if coat == 1 {
		l.Within = w.next
		p.judge(r, w)
	}
	w.product, w.last, p.sprayed = r.Product, p.now, p.now
	if coat < r.Product.Coats {
		w.flash = after(p.now, flash)
		l.Starts = []Clock{{"flash", Window{From: w.flash}}}
		return nil
	}
	return p.finish(r, w, l)
}

// sprayMinutes is how long a coat takes, a whole minute at least.
func sprayMinutes(s Set, p Product) float64 { return max(1, math.Ceil(s.Area/p.Rate-1e-9)) }

// finish starts the clocks of a product's last coat.
func (p *painter) finish(r Run, w *wet, l *Line) error {
	window, err := r.Product.Next.Window(p.now, p.day.Metal)
	if err != nil {
		return err
	}
	w.next, w.missed = Clock{"next product on " + r.Product.Name, window}, r.Product.Missed
	l.Starts = []Clock{w.next}
	dry, err := r.Product.Drying.Clocks(p.now, p.day.Metal)
	l.Starts = append(l.Starts, dry...)
	return err
}

// judge holds a first coat against the window of what lies under it.
func (p *painter) judge(r Run, w *wet) {
	if w.next.To == 0 {
		return
	}
	left := int(w.next.To - p.now)
	if left >= 0 {
		if w.last == 0 { // windows begun today move with the day
			p.slack = min(p.slack, left)
		}
		return
	}
	cost := w.missed
	if cost == "" {
		cost = "see the maker's sheet"
	}
	p.trouble(w.set.Name, r, -left, "%s on %s comes %s after the window has closed (%s): %s", r.Product.Name, w.set.Name, span(-left), moment(p.now, w.next.To), cost)
}

// mix makes a batch where none is in the gun, or where this coat would end after
// 70 % of its pot life, as late as the wait allows.
func (p *painter) mix(r Run, w *wet, ready unit.Moment, spray float64, why string) error {
	keeps := math.Inf(1)
	if r.Product.Pot > 0 {
		pot, err := PotLife(r.Product.Pot, p.day.Metal)
		if err != nil {
			return err
		}
		keeps = potShare * pot
	}
	if end := float64(max(p.now, ready)-p.mixed) + spray; p.batch != "" && end <= keeps {
		return nil
	}
	p.wait(ready-after(0, r.Product.Mix)-after(0, r.Product.Stand), w.set.Name, why)
	l := p.line(Line{Act: Mixes, Set: w.set.Name, Product: r.Product.Name}, r.Product.Mix)
	p.batch, p.mixed = r.Product.Name, p.now
	if !math.IsInf(keeps, 1) {
		l.Starts = []Clock{{"sprayed by, 70 % of the pot life", Window{From: p.now, To: before(p.now, keeps)}}}
	}
	p.wait(p.now+after(0, r.Product.Stand), w.set.Name, "the mix stands")
	if late := float64(max(p.now, ready)-p.mixed) + spray - keeps; late > 0 {
		p.trouble(w.set.Name, r, int(math.Ceil(late)), "a coat on %s takes %g min, more than 70 %% of the pot life of %s: smaller sets, or a slower hardener", w.set.Name, spray, r.Product.Name)
	}
	return nil
}

// room waits until there is a place for the panels of a set that gets wet, where
// that comes before the day is over.
func (p *painter) room(r Run, w *wet) {
	if p.day.Stands == 0 || w.last != 0 {
		return
	}
	moments := []unit.Moment{p.now}
	for _, s := range p.day.Sets {
		if o := p.sets[s.Name]; o.last != 0 && o.runs == 0 {
			moments = append(moments, o.handled(p.day.Metal))
		}
	}
	slices.Sort(moments)
	for _, m := range moments {
		if m >= p.now && m <= p.day.Closes && p.standing(m)+w.set.Panels <= p.day.Stands {
			p.wait(m, w.set.Name, "until dry panels make room")
			return
		}
	}
	short := p.standing(p.now) + w.set.Panels - p.day.Stands
	p.trouble(w.set.Name, r, 0, "no stand for %d wet panels of %s", short, w.set.Name)
}

// standing counts the panels that are wet, or wait for more, at a moment.
func (p *painter) standing(m unit.Moment) int {
	n := 0
	for _, s := range p.day.Sets {
		if w := p.sets[s.Name]; w.last != 0 && (w.runs > 0 || w.handled(p.day.Metal) > m) {
			n += s.Panels
		}
	}
	return n
}

// handled is when a set's panels may be taken away.
func (w *wet) handled(metal float64) unit.Moment {
	minutes, err := Scale(max(w.product.Drying.Handle, w.product.Drying.DustFree), metal, w.product.Drying.Doubling)
	if err != nil {
		return math.MaxInt64
	}
	return after(w.last, minutes)
}

// close clears the booth, waits for the last film to be dust free, and sums up.
func (p *painter) close() DaySheet {
	p.line(Line{Act: Clears, Why: "nobody enters without air-fed breathing"}, p.day.Clearance)
	dry, twoPack := p.now, false
	for _, r := range p.day.Runs {
		twoPack = twoPack || r.Product.TwoPack
	}
	for _, s := range p.day.Sets {
		w := p.sets[s.Name]
		if w.last == 0 {
			continue
		}
		if free, err := Scale(w.product.Drying.DustFree, p.day.Metal, w.product.Drying.Doubling); err == nil {
			dry = max(dry, after(w.last, free))
		}
	}
	p.line(Line{Act: Dries}, float64(dry-p.now))
	s := p.sheet
	s.Finish, s.Spare, s.Cautions = p.now, int(p.day.Closes-p.now), Cautions(twoPack)
	s.StartBy = p.day.Opens + unit.Moment(min(s.Spare, p.slack))
	for _, set := range p.day.Sets {
		w := p.sets[set.Name]
		if w.last == 0 {
			continue
		}
		clocks, err := w.product.Drying.Clocks(w.last, p.day.Metal)
		if err != nil {
			continue
		}
		for _, c := range append([]Clock{w.next}, clocks...) {
			if c.From > s.Finish || c.To > s.Finish {
				s.Clocks = append(s.Clocks, Clock{set.Name + ": " + c.Name, c.Window})
			}
		}
	}
	return s
}
