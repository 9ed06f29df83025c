package paint

import (
	"cmp"
	"fmt"
	"math"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/figure"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	stage "fettle/stage/paint"
	"fettle/unit"
)

func (p place) goRoutes() []web.Route {
	return []web.Route{{Pattern: "GET /b/{build}/paint/may-spray", Who: web.Guest, Handle: p.maySpray}}
}

// goPage is the question "may I spray?" with its answer. The readings stand in
// the page's address, so that it can be kept, sent and asked again.
type goPage struct {
	sheet
	Ask     *web.Form
	Product build.Product
	At      unit.Moment
	Laid    unit.Moment // when what lies under went on, where it is only supposed
	Asked   bool
	Answer  stage.Answer
	Windows []window
	Lost    *stage.Lost
	Redo    string // address of the form of paint again
}

// window is what must be on by when.
type window struct {
	Word, Says string
	Late       bool // closes before the metal is warm
}

// answered is what a script gets.
type answered struct {
	Product  build.ProductID `json:"product"`
	At       unit.Moment     `json:"at"`
	Go       bool            `json:"go"`
	Reasons  []reason        `json:"reasons"`
	WarmTo   float64         `json:"warm_to_c,omitempty"`
	WarmMin  float64         `json:"warm_min,omitempty"`
	Ready    unit.Moment     `json:"ready,omitzero"`
	Windows  []string        `json:"windows,omitempty"`
	Missed   string          `json:"missed,omitempty"`
	Cautions []string        `json:"cautions"`
}

type reason struct {
	Name   string        `json:"name"`
	OK     bool          `json:"ok"`
	Figure figure.Figure `json:"figure"`
	Fix    string        `json:"fix,omitempty"`
}

func (p place) maySpray(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	g := goPage{sheet: s, Ask: r.Asked(), At: s.Now}
	g.ask(r)
	if len(g.Ask.Errors) > 0 {
		if r.As() == "json" {
			return g.Ask.Err()
		}
		return r.Invalid(web.Sheet{Place: "paint", Shown: "may it be sprayed"}, showGo(g))
	}
	if r.As() == "json" {
		return r.JSON(g.plain())
	}
	return p.desk.Page(r, web.Sheet{Place: "paint", Shown: "may it be sprayed", Scripts: []string{clockScript}}, showGo(g))
}

// ask reads the readings and weighs them; what cannot be right stands beside
// its field.
func (g *goPage) ask(r *web.Request) {
	f := g.Ask
	if id := f.Raw("product"); id != "" {
		p := g.Build.Product(build.ProductID(id))
		if p == nil {
			f.Fail("product", "is none of the paints here")
			return
		}
		g.Product = *p
	} else {
		g.Product = g.nextProduct()
	}
	if at := momentField(f, "at", g.Now); at != 0 {
		g.At = at
	}
	g.Laid = momentField(f, "laid", g.At)
	g.Asked = f.Raw("air") != "" || f.Raw("rh") != "" || f.Raw("metal") != ""
	if !g.Asked || g.Product.ID == "" {
		return
	}
	q := stage.Readings{Metal: degrees(f, "metal"), Air: degrees(f, "air"), RH: degrees(f, "rh"), Heat: optional(f, "heat"),
		Steady: f.Raw("steady"), Filters: f.Raw("filters"), Breathing: f.Raw("breathing")}
	if len(f.Errors) > 0 {
		return
	}
	answer, err := stage.MaySpray(g.Build, g.Product, q, g.At)
	if err != nil {
		blame(f, err, airFields)
		return
	}
	g.Answer = answer
	g.await(q.Metal)
}

// await adds the windows that wait for the product, and what missing them costs.
func (g *goPage) await(metal float64) {
	b := g.Build
	if g.Laid != 0 {
		b = stage.Suppose(b, g.Product, g.Laid, orTwenty(metal))
	}
	list := stage.Awaiting(b, g.Product.ID, g.At)
	for _, w := range list {
		g.Windows = append(g.Windows, window{Word: w.State.String(), Says: w.Say(b, g.At), Late: g.Answer.Ready > w.Closes})
	}
	if len(list) == 0 {
		return
	}
	lost := stage.MissedOn(b, list)
	if len(lost.Coats) == 0 {
		return
	}
	g.Lost = &lost
	g.Redo = redoAddress(g.sheet, lost, g.Product.Task, fmt.Sprintf("%s not on in time", g.Product.Name))
}

func orTwenty(metal float64) float64 {
	if math.IsNaN(metal) {
		return 20
	}
	return metal
}

// nextProduct is the first paint that something waits for, else the first.
func (s sheet) nextProduct() build.Product {
	for _, w := range stage.Windows(s.Build, s.Now) {
		if p := s.Build.Product(w.Next[0]); p != nil && w.State.String() != stage.Closed {
			return *p
		}
	}
	if len(s.Build.Products) == 0 {
		return build.Product{}
	}
	return s.Build.Products[0]
}

// airFields are the names of fields by the engine's names of readings.
var airFields = map[string]string{"humidity": "rh", "air": "air", "metal": "metal", "aim": "metal"}

// blame puts a fault beside the field that it names; what names none stands
// beside that of the empty name, else the metal.
func blame(f *web.Form, err error, fields map[string]string) {
	where, msg := "", err.Error()
	if one, ok := err.(*fault.Fault); ok {
		where, msg = one.Where, one.Msg
		if one.Hint != "" {
			msg += ". " + strings.ToUpper(one.Hint[:1]) + one.Hint[1:]
		}
	}
	name, rest, _ := strings.Cut(where, ", ")
	if rest != "" {
		msg = rest + ": " + msg
	}
	at, ok := fields[name]
	if !ok {
		at, msg = cmp.Or(fields[""], "metal"), strings.TrimPrefix(name+": "+msg, ": ")
	}
	f.Fail(at, "cannot be: "+msg)
}

// degrees reads a decimal that the engine bounds; nothing is NaN, not read.
func degrees(f *web.Form, name string) float64 { return reading(f, name, -9_999, 99_999) }

// optional is the same where nothing means none.
func optional(f *web.Form, name string) float64 {
	if v := degrees(f, name); !math.IsNaN(v) {
		return v
	}
	return 0
}

// momentField reads a minute as the browser writes it, or only a clock time on
// the day of another moment; an empty field is no moment.
func momentField(f *web.Form, name string, on unit.Moment) unit.Moment {
	text := strings.TrimSpace(f.Raw(name))
	if clock, err := build.ParseClock(text); text != "" && err == nil {
		return on.Date().At(0, clock)
	}
	m, err := unit.ParseMoment(text)
	if err != nil {
		f.Fail(name, "is not a time such as 2027-01-06T15:30")
	}
	return m
}

func (g goPage) plain() answered {
	a := answered{Product: g.Product.ID, At: g.At, Go: g.Answer.Go, WarmTo: g.Answer.Aim, WarmMin: math.Round(g.Answer.Warm.Minutes), Ready: g.Answer.Ready, Cautions: g.Answer.Cautions}
	for _, r := range g.Answer.Reasons {
		a.Reasons = append(a.Reasons, reason{r.Name, r.OK, r.Figure, r.Fix})
	}
	for _, w := range g.Windows {
		a.Windows = append(a.Windows, w.Says)
	}
	if g.Lost != nil {
		a.Missed = g.Lost.Figure.Text
	}
	return a
}

// options lists the paints to choose from.
func (s sheet) options(picked build.ProductID, none string) []field.Option {
	var list []field.Option
	if none != "" {
		list = append(list, field.Option{Label: none, Picked: picked == ""})
	}
	for _, p := range s.Build.Products {
		list = append(list, field.Option{Value: string(p.ID), Label: p.Name, Picked: p.ID == picked})
	}
	return list
}

// looks are the answers to what somebody looked at.
func looks(picked string) []field.Option {
	return []field.Option{{Value: "yes", Label: "yes", Picked: picked == "yes"}, {Value: "no", Label: "no", Picked: picked == "no"},
		{Value: "", Label: "not looked", Picked: picked == ""}}
}
