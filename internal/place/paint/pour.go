package paint

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/figure"
	"fettle/internal/desk"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	stage "fettle/stage/paint"
	"fettle/unit"
)

// mostGrams is the most a scale of a paint shop is read to, in grams.
const mostGrams = 60_000

// pour keeps what was poured into a mix, as the scale showed it.
func (p place) pour(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	product, err := s.product(r.Path("product"))
	if err != nil {
		return err
	}
	f, err := r.Form()
	if err != nil {
		return err
	}
	entry, err := f.EntryID()
	if err != nil {
		return err
	}
	c := mixCard{sheet: s, Ask: s.ask(product, f)}
	for name, v := range map[string]float64{"metal": c.Ask.Metal, "air": c.Ask.Air, "rh": c.Ask.RH} {
		if math.IsNaN(v) && f.Errors.Of(name) == "" {
			f.Fail(name, "is empty: a mix is kept with the metal, the air and its humidity")
		}
	}
	if cold := c.cold(); cold != "" && !f.Has("anyway") {
		f.Fail("metal", "is too cold: "+cold+"; or say below that it is kept as it is")
	}
	c.Ask.Wrong = nil
	if err := c.work(); err != nil {
		return err
	}
	if c.Pour == nil {
		f.Fail("panel", "is not chosen: touch the panels it is for")
	} else {
		c.readScale(f)
	}
	c.Ask.Wrong = append(f.Errors, c.Ask.Wrong...)
	change := &build.PourMix{}
	if len(c.Ask.Wrong) == 0 {
		change.Pour = c.poured(r, f)
		c.Ask.Wrong = f.Errors
	}
	if len(c.Ask.Wrong) > 0 {
		return r.Invalid(web.Sheet{Place: "paint", Shown: "mix card, " + product.Name, Scripts: mixScripts}, mixPage(c))
	}
	return p.desk.Keep(r, entry, change.Say(s.Build), s.Base+"/paint/pour/"+string(change.Pour.ID), change)
}

// readScale reads the running totals and compares them with the sheet's mix.
// What is off is kept only when the person says so.
func (c *mixCard) readScale(f *web.Form) {
	var grams []float64
	before := 0.0
	for i, l := range c.Pour.Lines {
		name := scaleField(i)
		c.Scale, c.Tins = append(c.Scale, f.Raw(name)), append(c.Tins, f.Raw(tinField(i)))
		now := float64(f.Decimal(name, 1, 0, 10*mostGrams)) / 10
		if f.Errors.Of(name) == "" && now <= before {
			f.Fail(name, "is not more than before it: give what the scale shows after "+l.Name+", cup set to 0, not taken off in between")
		}
		grams, before = append(grams, now-before), now
	}
	if f.Err() != nil || !c.Pour.Weighed {
		return
	}
	off, add, err := stage.Amiss(c.Ask.Product, grams)
	if err != nil {
		f.Fail(scaleField(0), "cannot be: "+err.Error())
		return
	}
	for i, o := range off {
		if o.Flagged {
			c.Off = append(c.Off, o.Words)
			if !f.Has("anyway") {
				f.Fail(scaleField(i), "is off; "+mend(c.Pour.Lines, add)+", or say below that it is kept as it is")
			}
		}
	}
}

// scaleField and tinField name the fields of a line, from 1.
func scaleField(i int) string { return fmt.Sprintf("scale-%d", i+1) }

func tinField(i int) string { return fmt.Sprintf("tin-%d", i+1) }

// mend says what to add so that a mix is right again.
func mend(lines []stage.Line, add []float64) string {
	var words []string
	for i, g := range add {
		if g >= 1 {
			words = append(words, whole(g)+" g of "+lines[i].Name)
		}
	}
	return "add " + strings.Join(words, " and ") + " to be right again"
}

// poured is the mix as it was made, drawn from its tins.
func (c *mixCard) poured(r *web.Request, f *web.Form) build.Pour {
	pour := build.Pour{ID: build.PourID(next("M", c.Build.Pours, func(p build.Pour) string { return string(p.ID) })), Product: c.Ask.Product.ID,
		Panels: c.Ask.Panels, Zones: c.Pour.Zones, Coats: c.Ask.Coats, Grade: c.Pour.Grade.Name,
		Metal: c.Ask.Metal, Air: c.Ask.Air, RH: c.Ask.RH, At: c.Now, By: desk.By(r, c.Build)}
	before := 0.0
	for i, l := range c.Pour.Lines {
		now, _ := strconv.ParseFloat(pointed(strings.TrimSpace(c.Scale[i])), 64) // read once already
		q := build.Poured{Part: l.Part, Tin: build.TinID(c.Tins[i])}
		if c.Pour.Weighed {
			q.Mass = unit.Mass(math.Round((now - before) / 1000 * float64(unit.Kilogram)))
			q.Volume = litres((now - before) / l.Grams * l.Ml / 1000)
		} else {
			q.Volume = litres((now - before) / 1000)
		}
		before = now
		if tin := c.Build.Tin(q.Tin); l.Graded && tin != nil && tin.Grade != "" {
			pour.Grade = tin.Grade
		}
		drawn, err := stage.Draw(c.Build, c.Ask.Product, q)
		if err != nil {
			f.Fail(tinField(i), "does not hold it: "+err.Error()+hint(err))
		}
		pour.Parts = append(pour.Parts, drawn...)
	}
	return pour
}

func hint(err error) string {
	if text := fault.HintOf(err); text != "" {
		return "; " + text
	}
	return ""
}

// tinsOf are the tins a line can be poured from; its own is picked.
func (c mixCard) tinsOf(i int) []field.Option {
	l := c.Pour.Lines[i]
	chosen, _, ok := c.left(l)
	if i < len(c.Tins) {
		chosen.ID = build.TinID(c.Tins[i])
	}
	var list []field.Option
	for _, t := range stage.TinsFor(c.Build, c.Ask.Product, l.Part) {
		list = append(list, field.Option{Value: string(t.ID), Label: string(t.ID) + tinWords(t) + ", " + t.Left.String() + " left", Picked: ok && t.ID == chosen.ID})
	}
	return append(list, field.Option{Value: "", Label: "a tin that is not on record", Picked: !ok || chosen.ID == ""})
}

// reads is what the scale, or the cup's lines, should show after a line.
func (c mixCard) reads(i int) string {
	switch {
	case i < len(c.Scale):
		return c.Scale[i]
	case c.Pour.Weighed:
		return whole(c.Pour.Lines[i].Scale)
	}
	return whole(c.Pour.Lines[i].Line)
}

// made is a mix that was made.
type made struct {
	sheet
	Pour    build.Pour
	Product build.Product
	Density float64 // kg/l as poured, 0 where it was not weighed
	Pot     unit.Moment
	NoPot   string
	Learnt  figure.Figure
	Left    string // typed
	Wrong   field.Errors
}

func (p place) made(r *web.Request) (made, error) {
	s, err := p.load(r)
	if err != nil {
		return made{}, err
	}
	pour := s.Build.Pour(build.PourID(r.Path("pour")))
	if pour == nil {
		return made{}, fault.New(fault.NotFound, "there is no mix %q", r.Path("pour")).WithHint("the place Paint lists the mixes of the build")
	}
	m := made{sheet: s, Pour: *pour, Product: *s.Build.Product(pour.Product)}
	var mass unit.Mass
	for _, q := range pour.Parts {
		mass += q.Mass
	}
	if mass > 0 {
		m.Density = mass.Kg() / pour.Mixed().L()
	}
	pot, why := stage.PotOf(m.Product, pour.Air)
	if m.NoPot = why; pot > 0 {
		m.Pot = pour.At + unit.Moment(math.Round(pot))
	}
	m.Learnt = s.learnt(m.Product)
	return m, nil
}

// learnt is the part that stays on the panel, with the mixes it was learnt from.
func (s sheet) learnt(p build.Product) figure.Figure {
	value, in := s.Rates.Transfer(p)
	return figure.Figure{Name: "stays on the panel", Text: fmt.Sprintf("%.0f %%", 100*value), Formula: "area × dry film ÷ (litres sprayed × solids), of mixes weighed back; the sheet's counts as ten of them",
		Inputs: []figure.Input{in}}
}

func (p place) showPour(r *web.Request) error {
	m, err := p.made(r)
	if err != nil {
		return err
	}
	if r.As() == "json" {
		return r.JSON(m.Pour)
	}
	return p.desk.Page(r, web.Sheet{Place: "paint", Shown: "mix " + string(m.Pour.ID), Scripts: mixScripts}, madePage(m))
}

// weighBack keeps what was left of a mix after spraying, in grams, or in ml
// where it was not weighed.
func (p place) weighBack(r *web.Request) error {
	m, err := p.made(r)
	if err != nil {
		return err
	}
	f, err := r.Form()
	if err != nil {
		return err
	}
	entry, err := f.EntryID()
	if err != nil {
		return err
	}
	m.Left = f.Raw("left")
	left := float64(f.Decimal("left", 1, 0, 10*mostGrams)) / 10
	change := &build.WeighBack{Pour: m.Pour.ID, At: m.Now, Left: litres(left / 1000)}
	if m.Density > 0 {
		change.Left, change.Mass = litres(left/1000/m.Density), unit.Mass(math.Round(left/1000*float64(unit.Kilogram)))
	}
	switch {
	case f.Err() != nil:
	case m.Pour.Weighed != 0:
		f.Fail("left", "was weighed back already at "+m.Pour.Weighed.Clock())
	case change.Left > m.Pour.Mixed():
		f.Fail("left", fmt.Sprintf("is more than was mixed, %s: take the cup's own weight off", m.Pour.Mixed()))
	}
	if m.Wrong = f.Errors; len(m.Wrong) > 0 {
		return r.Invalid(web.Sheet{Place: "paint", Shown: "mix " + string(m.Pour.ID), Scripts: mixScripts}, madePage(m))
	}
	return p.desk.Keep(r, entry, change.Say(m.Build), m.Base+"/paint/pour/"+string(m.Pour.ID), change)
}
