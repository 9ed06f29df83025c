package look

import (
	"bytes"
	"fmt"
	"io"
	"regexp"
	"strings"

	"fettle/build"
	"fettle/internal/desk"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/takeoff/sprayout"
)

// mostSteps is how many steps the form has room for.
const mostSteps = 4

// cardPage is the form of a card.
type cardPage struct {
	scene
	Product *build.Product
	Sent    map[string]string
	Wrong   field.Errors
	Notes   []string // what a file was taken for
	Entry   string
	Photo   *sprayout.Estimate
}

// sent returns a field as it was typed, or what is known.
func (c cardPage) sent(name, known string) string {
	if v, ok := c.Sent[name]; ok {
		return v
	}
	return known
}

// readings names the fields that take a reading, in the order of the form.
func readings() []string {
	list := []string{"ground-black", "ground-white"}
	for step := 1; step <= mostSteps; step++ {
		for _, of := range []string{"black", "white", "face", "flop"} {
			list = append(list, fmt.Sprintf("%s-%d", of, step))
		}
	}
	return list
}

func (p place) blankCard(r *web.Request) error {
	s, err := p.scene(r)
	if err != nil {
		return err
	}
	page, err := s.cardPage(r.Query("product"))
	if err != nil {
		return err
	}
	return p.desk.Page(r, p.sheet("enter a card"), showCard(page))
}

func (s scene) cardPage(product string) (cardPage, error) {
	page := cardPage{scene: s, Entry: field.NewEntry(), Sent: map[string]string{}}
	var err error
	page.Sent["day"] = s.Today.String()
	if product == "" && len(s.Build.Products) > 0 {
		product = string(s.Build.Products[0].ID)
	}
	page.Product, err = s.product(product)
	return page, err
}

// remember keeps all that was typed.
func (c *cardPage) remember(f *web.Form) {
	for _, name := range append(readings(), "id", "day", "gun", "gloss", "cleared", "over", "note", "photo") {
		c.Sent[name] = f.Raw(name)
	}
	for step := 1; step <= mostSteps; step++ {
		for _, of := range []string{"coats", "film"} {
			name := fmt.Sprintf("%s-%d", of, step)
			c.Sent[name] = f.Raw(name)
		}
	}
}

// card lays a card on the slip and leads to the paint, where the prediction has
// moved. A file only fills in the form, to be looked at first.
func (p place) card(r *web.Request) error {
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
	page.remember(f)
	file, _ := f.File("file")
	if file != nil {
		defer file.Close()
	}
	if file != nil && page.fill(f, file) {
		return p.desk.Page(r, p.sheet("enter a card"), showCard(page))
	}
	card := s.typedCard(f, page.Product)
	if f.Err() == nil {
		if err := sprayout.CheckCard(s.Build, card); err != nil {
			f.Fail(suspect(card), "does not hold: "+err.Error())
		}
	}
	if page.Wrong = f.Errors; len(page.Wrong) > 0 {
		return r.Invalid(p.sheet("enter a card"), showCard(page))
	}
	changes := append([]build.Change{&build.RecordCard{Card: card}}, p.photoOf(r, s, card, f.Raw("photo"))...)
	return p.desk.Propose(r, s.At()+"/paint/"+string(page.Product.ID), changes...)
}

// suspect is the field that a fault of a whole card stands beside.
func suspect(c build.Card) string {
	if len(c.Grounds) > 0 {
		return "black-1"
	}
	return "face-1"
}

// typedCard reads the form of a card.
func (s scene) typedCard(f *web.Form, p *build.Product) build.Card {
	c := build.Card{ID: build.CardID(f.Text("id", 1, 12)), Product: p.ID, Day: f.Date("day"), Gun: f.Text("gun", 0, 40), Note: f.Text("note", 0, 200),
		Gloss: f.Choice("gloss", "included", "excluded") == "included", Cleared: f.Has("cleared")}
	if c.Day == 0 && f.Err() == nil {
		f.Fail("day", "is empty: give a day")
	}
	if s.Build.Card(c.ID) != nil && s.Kept.Card(c.ID) != nil {
		f.Fail("id", "is taken: a card is read anew under a number of its own")
	}
	if over := build.ProductID(f.Raw("over")); over != "" {
		if s.Build.Product(over) == nil {
			f.Fail("over", "is no paint of this build")
		}
		c.Over = over
	}
	for _, ground := range []string{"black", "white"} {
		if one, ok := typedReading(f, "ground-"+ground); ok {
			one.Ground = ground
			c.Grounds = append(c.Grounds, one)
		}
	}
	for step := 1; step <= mostSteps; step++ {
		if one, ok := typedStep(f, step); ok {
			c.Steps = append(c.Steps, one)
		}
	}
	if len(c.Steps) == 0 && f.Err() == nil {
		f.Fail("coats-1", "is empty: a card has one step at least, with a reading")
	}
	return c
}

// typedStep reads one step; false where nothing of it was filled in.
func typedStep(f *web.Form, step int) (build.Step, bool) {
	n := fmt.Sprintf("-%d", step)
	var s build.Step
	for _, of := range []string{"black", "white", "face", "flop"} {
		one, ok := typedReading(f, of+n)
		if !ok {
			continue
		}
		switch of {
		case "black", "white":
			one.Ground = of
		default:
			one.Angle = of
		}
		s.Readings = append(s.Readings, one)
	}
	darker(f, s, n)
	if len(s.Readings) == 0 {
		if strings.TrimSpace(f.Raw("coats"+n)) != "" && f.Err() == nil {
			f.Fail("face"+n, "is empty: the step needs a reading")
		}
		return s, false
	}
	s.Coats = int(f.Int("coats"+n, 1, 60))
	s.Film = float64(f.Decimal("film"+n, 1, 5, 10_000)) / 10
	return s, true
}

// darker refuses a film that reads lighter over black than over white.
func darker(f *web.Form, s build.Step, n string) {
	var over [2]float64
	var has [2]bool
	for _, r := range s.Readings {
		switch r.Ground {
		case "black":
			over[0], has[0] = bright(r)
		case "white":
			over[1], has[1] = bright(r)
		}
	}
	if has[0] && has[1] && over[0] > over[1]+0.02 {
		f.Fail("black"+n, fmt.Sprintf("reads lighter (%.2f) than over white (%.2f): the two are swapped, or the card was read wet", over[0], over[1]))
	}
}

// typedReading reads one field; false where it is empty or wrong.
func typedReading(f *web.Form, name string) (build.Reading, bool) {
	one, err := reading(f.Raw(name))
	if err != nil {
		f.Fail(name, err.Error())
		return one, false
	}
	return one, len(one.Spectrum)+len(one.Lab) > 0 || one.RGB != ""
}

var stepNumber = regexp.MustCompile(`[1-9]`)

// fill puts the samples of a file into the fields that their names say: "black"
// and "white" are the bare grounds, "2 over white" the second step over white,
// "1 flop" an angle. False where the file cannot be read.
func (c *cardPage) fill(f *web.Form, file io.Reader) bool {
	data, err := io.ReadAll(io.LimitReader(file, fileLimit))
	if err == nil && len(data) == 0 {
		return false
	}
	samples, err := sprayout.Samples(bytes.NewReader(data))
	if err != nil {
		f.Fail("file", "cannot be taken: "+err.Error())
		return false
	}
	for _, one := range samples {
		name := fieldOf(one.Name)
		if name == "" {
			c.Notes = append(c.Notes, fmt.Sprintf("%q is left out: its name says neither black, white, face nor flop", one.Name))
			continue
		}
		c.Sent[name] = typedAgain(one.Reading)
		c.Notes = append(c.Notes, fmt.Sprintf("%q is taken for %s", one.Name, strings.ReplaceAll(name, "-", " ")))
		c.Notes = append(c.Notes, one.Notes...)
	}
	return true
}

// fieldOf returns the field that a sample's name says, or nothing.
func fieldOf(name string) string {
	lower := strings.ToLower(name)
	step := stepNumber.FindString(lower)
	if step > fmt.Sprint(mostSteps) {
		return ""
	}
	for _, of := range []string{"flop", "face", "black", "white"} {
		if !strings.Contains(lower, of) {
			continue
		}
		switch {
		case step != "":
			return of + "-" + step
		case of == "black" || of == "white":
			return "ground-" + of
		}
		return of + "-1"
	}
	return ""
}

// nextCard is a number that is free.
func (s scene) nextCard() string {
	return desk.NextID("C%02d", len(s.Build.Cards), func(id string) bool { return s.Build.Card(build.CardID(id)) != nil })
}

// opened tells whether a step of the form is unfolded: the first, and those in
// which something stands.
func (c cardPage) opened(step int) bool {
	for _, of := range []string{"coats", "film", "black", "white", "face", "flop"} {
		if name := fmt.Sprintf("%s-%d", of, step); c.Sent[name] != "" || c.Wrong.Of(name) != "" {
			return true
		}
	}
	return step == 1
}

// fields are the readings to choose from.
func fields() []field.Option {
	var list []field.Option
	for _, name := range readings() {
		list = append(list, field.Option{Value: name, Label: strings.ReplaceAll(name, "-", " ")})
	}
	return list
}

// unders are what a card can be sprayed over.
func (s scene) unders() []field.Option {
	list := []field.Option{{Label: "a black and white chart"}}
	for _, p := range s.Build.Products {
		if !p.Use.ShowsColour() && p.Use != build.Clear && p.Use != build.MidCoat {
			list = append(list, field.Option{Value: string(p.ID), Label: p.Name})
		}
	}
	return list
}
