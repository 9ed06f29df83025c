package look

import (
	"fmt"
	"slices"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
)

// colourPage is the form of a colour.
type colourPage struct {
	scene
	Colour build.Colour
	Wrong  field.Errors
	Entry  string
}

// Known is the colour as it is; nil for a new one.
func (c colourPage) Known() *build.Colour { return c.Build.Colour(c.Colour.ID) }

// title heads the form.
func (c colourPage) title() string {
	if known := c.Known(); known != nil {
		return "The colour " + known.Name
	}
	return "Add a colour"
}

// blankColour shows the form of a new colour, or of the one asked for.
func (p place) blankColour(r *web.Request) error {
	s, err := p.scene(r)
	if err != nil {
		return err
	}
	page := colourPage{scene: s, Entry: field.NewEntry()}
	if asked := r.Query("colour"); asked != "" {
		known := s.Build.Colour(build.ColourID(asked))
		if known == nil {
			return fault.New(fault.NotFound, "there is no colour %q", asked)
		}
		page.Colour = *known
	}
	return p.desk.Page(r, p.sheet(page.title()), showColour(page))
}

// setColour lays a colour on the slip.
func (p place) setColour(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	s, err := p.scene(r)
	if err != nil {
		return err
	}
	page := colourPage{scene: s, Colour: s.typedColour(f), Entry: field.NewEntry()}
	if page.Wrong = f.Errors; len(page.Wrong) > 0 {
		return r.Invalid(p.sheet(page.title()), showColour(page))
	}
	c := page.Colour
	if c.ID == "" {
		c.ID = build.ColourID(slug(c.Name, "colour", func(id string) bool { return s.Build.Colour(build.ColourID(id)) != nil }))
	}
	return p.desk.Propose(r, s.Base+"/slip", &build.SetColour{Colour: c})
}

// typedColour reads the form of a colour; one without an ID is new.
func (s scene) typedColour(f *web.Form) build.Colour {
	c := build.Colour{ID: build.ColourID(f.Raw("colour")), Name: f.Text("name", 1, 60), Note: f.Text("note", 0, 200), Face: typedHex(f, "face"), Flop: typedHex(f, "flop")}
	if c.ID != "" && s.Build.Colour(c.ID) == nil {
		f.Fail("name", "belongs to no colour of this build")
		c.ID = ""
	}
	if c.Face == "" {
		f.Fail("face", "is empty: give a colour like #1F4A55")
	}
	for _, other := range s.Build.Colours {
		if other.ID != c.ID && c.Name != "" && strings.EqualFold(other.Name, c.Name) {
			f.Fail("name", "is the name of another colour, "+other.Face)
		}
	}
	return c
}

// typedHex reads a screen colour, with or without its #; it comes back as typed
// where it is none.
func typedHex(f *web.Form, name string) string {
	text := strings.TrimSpace(f.Raw(name))
	if text != "" && !strings.HasPrefix(text, "#") {
		text = "#" + text
	}
	one, err := reading(text)
	if err != nil {
		f.Fail(name, err.Error())
		return f.Raw(name)
	}
	return strings.ToUpper(one.RGB)
}

// shown is a hex that can be drawn, or nothing.
func shown(hex string) string {
	if one, err := reading(hex); err == nil {
		return one.RGB
	}
	return ""
}

// used tells where a colour is: zones, paint, looks.
func (s scene) used(id build.ColourID) []string {
	var list, paints, looks []string
	for _, z := range s.Build.Zones {
		if z.Colour == id {
			list = append(list, z.Name)
		}
	}
	for _, p := range s.Build.Products {
		if p.Colour == id {
			paints = append(paints, p.Name)
		}
	}
	for _, l := range s.Build.Looks {
		if slices.ContainsFunc(l.Zones, func(z build.LookZone) bool { return z.Colour == id }) {
			looks = append(looks, l.Name)
		}
	}
	if len(paints) > 0 {
		list = append(list, "paint: "+strings.Join(paints, ", "))
	}
	if len(looks) > 0 {
		list = append(list, "looks: "+strings.Join(looks, ", "))
	}
	return list
}

// painted tells whether there is paint of a colour.
func (s scene) painted(id build.ColourID) bool {
	return slices.ContainsFunc(s.Build.Products, func(p build.Product) bool { return p.Colour == id })
}

// slug makes a short name out of a name, one that is not taken.
func slug(name, other string, taken func(string) bool) string {
	id := strings.Trim(plainLetters.ReplaceAllString(strings.ToLower(name), "-"), "-")
	if id == "" {
		id = other
	}
	if !taken(id) {
		return id
	}
	for n := 2; ; n++ {
		if next := fmt.Sprintf("%s-%d", id, n); !taken(next) {
			return next
		}
	}
}
