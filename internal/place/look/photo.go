package look

import (
	"strings"

	"fettle/internal/web"
	"fettle/takeoff/sprayout"
)

// photo estimates a colour from the patches of a photograph and fills it into
// the form of the card.
func (p place) photo(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	s, err := p.scene(r)
	if err != nil {
		return err
	}
	page, err := s.cardPage(f.Raw("product"))
	if err != nil {
		return err
	}
	for _, name := range []string{"photo-card", "photo-grey", "photo-patch", "grey-lab", "patch-lab", "photo-spread", "photo-to"} {
		page.Sent[name] = f.Raw(name)
	}
	e := typedEstimate(f)
	to := f.Choice("photo-to", readings()...)
	if page.Wrong = f.Errors; len(page.Wrong) > 0 {
		return r.Invalid(p.sheet("enter a card"), showCard(page))
	}
	page.Photo = &e
	page.Sent[to] = e.Field()
	page.Sent["note"] = e.Words()
	return p.desk.Page(r, p.sheet("enter a card"), showCard(page))
}

// typedEstimate reads the means of the patches; troubles stand beside their
// fields.
func typedEstimate(f *web.Form) sprayout.Estimate {
	spread := float64(f.Decimal("photo-spread", 1, 0, 1000)) / 10
	spot := func(name string) sprayout.Spot {
		text := strings.TrimSpace(f.Raw(name))
		one, err := reading(text)
		if err != nil || one.RGB == "" {
			f.Fail(name, "is no colour like #1F4A55")
		}
		return sprayout.Spot{RGB: text, Spread: spread}
	}
	return photographed(f, spot("photo-card"), spot("photo-grey"), spot("photo-patch"), "photo-patch")
}

// photographed estimates the card out of its patches and the two known colours,
// where nothing is wrong yet; what the picture is unfit for stands beside a field.
func photographed(f *web.Form, card, grey, patch sprayout.Spot, beside string) sprayout.Estimate {
	known := func(name string) [3]float64 {
		one, err := reading(f.Raw(name))
		if err != nil || len(one.Lab) != 3 {
			f.Fail(name, "is no Lab such as 53.6 0 0")
			return [3]float64{}
		}
		return [3]float64(one.Lab)
	}
	greyLab, patchLab := known("grey-lab"), known("patch-lab")
	if f.Err() != nil {
		return sprayout.Estimate{}
	}
	e, err := sprayout.Photographed(card, grey, patch, greyLab, patchLab)
	if err != nil {
		f.Fail(beside, "cannot be used: "+err.Error())
	}
	return e
}
