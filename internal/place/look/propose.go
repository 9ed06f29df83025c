package look

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"fettle/build"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	shade "fettle/stage/look"
	"fettle/unit"
)

// lookPage is the form of a look.
type lookPage struct {
	scene
	Look  build.Look
	Wrong field.Errors
	Stops []string // what the undercoats stop, with the figures
	Entry string
}

func (p place) blank(r *web.Request) error {
	s, err := p.scene(r)
	if err != nil {
		return err
	}
	page := lookPage{scene: s, Entry: field.NewEntry()}
	if from := s.Build.Look(build.LookID(r.Query("from"))); from != nil {
		page.Look = *from
		page.Look.Name = from.Name + ", changed"
	} else {
		page.Look = asItIs(s.Build)
	}
	return p.desk.Page(r, p.sheet("propose a look"), showLook(page))
}

// asItIs is a look of the colours and paint that the zones have now.
func asItIs(b *build.Build) build.Look {
	var l build.Look
	for _, old := range b.Looks {
		if old.Chosen {
			l.Break = old.Break
		}
	}
	for _, z := range b.Zones {
		one := build.LookZone{Zone: z.ID, Colour: z.Colour, Undercoat: shade.Under(b, z.ID)}
		if u := b.Product(one.Undercoat); u == nil || u.Use != build.Sealer {
			one.Undercoat = ""
		}
		for _, p := range b.Products {
			if p.Use.ShowsColour() && slices.Contains(p.Zones, z.ID) {
				one.Base = p.ID
			}
		}
		if one.Colour != "" {
			l.Zones = append(l.Zones, one)
		}
	}
	return l
}

var plainLetters = regexp.MustCompile(`[^a-z0-9]+`)

// propose lays a look on the slip.
func (p place) propose(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	s, err := p.scene(r)
	if err != nil {
		return err
	}
	l := s.typed(f)
	page := lookPage{scene: s, Look: l, Entry: field.NewEntry()}
	if f.Err() == nil {
		l = shade.Divide(s.Build, l)
		m, err := s.apply(&l)
		switch {
		case err != nil:
			f.Fail("name", "does not hold: "+err.Error())
		case len(m.Stops) > 0 && f.Raw("anyway") == "":
			page.stop(f, m)
		}
	}
	if page.Wrong = f.Errors; len(page.Wrong) > 0 {
		return r.Invalid(p.sheet("propose a look"), showLook(page))
	}
	return p.desk.Propose(r, s.Base+"/slip", &build.AddLook{Look: l})
}

// stop puts the figures of wrong undercoats beside their fields.
func (page *lookPage) stop(f *web.Form, m measured) {
	for _, stop := range m.Stops {
		page.Stops = append(page.Stops, stop.Do(m.Build))
		for _, z := range stop.Zones {
			f.Fail("under-"+string(z), "stops: "+stop.Says(m.Build)+". "+stop.Do(m.Build))
		}
	}
}

// typed reads the form of a look.
func (s scene) typed(f *web.Form) build.Look {
	l := build.Look{Name: f.Text("name", 1, 60), Note: f.Text("note", 0, 200)}
	l.ID = free(s.Build, l.Name)
	colours, bases, sealers := s.choices()
	for _, z := range s.Build.Zones {
		if !f.Has("colour-" + string(z.ID)) {
			continue
		}
		l.Zones = append(l.Zones, build.LookZone{Zone: z.ID,
			Colour:    build.ColourID(f.Choice("colour-"+string(z.ID), field.Values(colours)...)),
			Base:      build.ProductID(f.Choice("base-"+string(z.ID), field.Values(bases)...)),
			Undercoat: build.ProductID(f.Choice("under-"+string(z.ID), field.Values(sealers)...))})
		s.match(f, l.Zones[len(l.Zones)-1])
	}
	l.Break = build.Break{Words: f.Text("break-words", 0, 120), Upper: build.ZoneID(f.Raw("break-upper")), Lower: build.ZoneID(f.Raw("break-lower"))}
	if strings.TrimSpace(f.Raw("break-z")) != "" {
		l.Break.Z = unit.Length(f.Int("break-z", 0, 10_000)) * unit.Millimetre
	}
	if l.Break.Upper != "" && l.Break.Upper == l.Break.Lower {
		f.Fail("break-lower", "is the zone above the line already")
	}
	return l
}

// match refuses a base that is of another colour than the zone is to get.
func (s scene) match(f *web.Form, z build.LookZone) {
	p := s.Build.Product(z.Base)
	if p != nil && p.Colour != "" && z.Colour != "" && p.Colour != z.Colour {
		f.Fail("base-"+string(z.Zone), fmt.Sprintf("is %s, and the zone gets %s: take its own, or none yet", s.colour(p.Colour), s.colour(z.Colour)))
	}
}

// choices are the colours, bases and sealers that a zone can get.
func (s scene) choices() (colours, bases, sealers []field.Option) {
	colours, bases, sealers = []field.Option{{Label: "as it is"}}, []field.Option{{Label: "none yet"}}, []field.Option{{Label: "none"}}
	for _, c := range s.Build.Colours {
		colours = append(colours, field.Option{Value: string(c.ID), Label: c.Name})
	}
	for _, p := range s.Build.Products {
		one := field.Option{Value: string(p.ID), Label: p.Name}
		switch {
		case p.Use.ShowsColour():
			bases = append(bases, one)
		case p.Use == build.Sealer:
			sealers = append(sealers, one)
		}
	}
	return colours, bases, sealers
}

func (s scene) zones() []field.Option {
	list := []field.Option{{Label: "none"}}
	for _, z := range s.Build.Zones {
		if z.Colour != "" {
			list = append(list, field.Option{Value: string(z.ID), Label: z.Name})
		}
	}
	return list
}

// picked marks the option that a field has.
func picked(options []field.Option, value string) []field.Option {
	list := make([]field.Option, len(options))
	for i, o := range options {
		o.Picked = o.Value == value
		list[i] = o
	}
	return list
}

// height is the break line as its field has it.
func height(l build.Look) string {
	if l.Break.Z == 0 {
		return ""
	}
	return fmt.Sprintf("%.0f", l.Break.Z.Mm())
}
