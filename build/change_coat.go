package build

import (
	"fmt"
	"slices"

	"fettle/unit"
)

// LayCoat says that a coat is on.
type LayCoat struct {
	Coat Coat `json:"coat"`
}

// Kind names the act.
func (c *LayCoat) Kind() string { return "lay-coat" }

// Say tells what the change does.
func (c *LayCoat) Say(b *Build) string {
	return fmt.Sprintf("Coat %d of %s on %s at %s", c.Coat.Number, b.productName(c.Coat.Product),
		b.surfaceName(c.Coat.Panels, c.Coat.Zones), c.Coat.At.Clock())
}

// Apply adds the coat and moves the panels whose face it covers, but for those
// that are fitted.
func (c *LayCoat) Apply(b *Build) error {
	if c.Coat.ID == "" || b.Coat(c.Coat.ID) != nil {
		return rule(ruleID, "the number is missing or taken").At("coat " + string(c.Coat.ID))
	}
	if err := b.checkCoat(c.Coat); err != nil {
		return err
	}
	coat, product := c.Coat, b.Product(c.Coat.Product)
	if len(coat.Zones) == 0 {
		coat.Zones = b.zonesOn(*product, coat.Panels)
	}
	b.Coats = append(b.Coats, coat)
	state := product.Use.state()
	for _, id := range coat.Panels {
		p := b.Panel(id)
		if state != "" && p.State != Fitted && coat.Covers(*p, p.Face()) {
			p.State = state
		}
	}
	return nil
}

// MeasureFilm notes readings of a film gauge.
type MeasureFilm struct {
	Film Film `json:"film"`
}

// Kind names the act.
func (c *MeasureFilm) Kind() string { return "measure-film" }

// Say tells what the change does.
func (c *MeasureFilm) Say(b *Build) string {
	text := fmt.Sprintf("Film on %s after %s", b.surfaceName([]PanelID{c.Film.Panel}, nil), b.productName(c.Film.Product))
	if len(c.Film.Dry) > 0 {
		text += fmt.Sprintf(": %.0f to %.0f µm", slices.Min(c.Film.Dry), slices.Max(c.Film.Dry))
	}
	return text
}

// Apply adds the readings.
func (c *MeasureFilm) Apply(b *Build) error {
	same := func(f Film) bool { return f.ID == c.Film.ID }
	if c.Film.ID == "" || slices.ContainsFunc(b.Films, same) {
		return rule(ruleID, "the number is missing or taken").At("film readings " + string(c.Film.ID))
	}
	if err := b.checkFilm(c.Film); err != nil {
		return err
	}
	b.Films = append(b.Films, c.Film)
	return nil
}

// BarePanels says since when panels are bare metal.
type BarePanels struct {
	Panels []PanelID   `json:"panels"`
	At     unit.Moment `json:"at"`
}

// Kind names the act.
func (c *BarePanels) Kind() string { return "bare-panels" }

// Say tells what the change does.
func (c *BarePanels) Say(b *Build) string {
	return fmt.Sprintf("%s bare since %s", b.surfaceName(c.Panels, nil), c.At.Clock())
}

// Apply starts the panels' bare-metal clock.
func (c *BarePanels) Apply(b *Build) error {
	if c.At == 0 {
		return rule(ruleDates, "the time is missing").At("bare-panels, at")
	}
	if err := b.checkSurface(c.Panels, nil, "bare-panels"); err != nil {
		return err
	}
	for _, id := range c.Panels {
		b.Panel(id).Bare = c.At
	}
	return nil
}
