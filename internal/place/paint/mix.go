package paint

import (
	"fmt"
	"math"
	"net/url"
	"slices"
	"strconv"

	"fettle/build"
	"fettle/figure"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	stage "fettle/stage/paint"
	"fettle/takeoff"
	"fettle/unit"
)

func (p place) mixRoutes() []web.Route {
	return []web.Route{
		{Pattern: "GET /b/{build}/paint/mix/{product}", Who: web.Guest, Handle: p.showMix},
		{Pattern: "POST /b/{build}/paint/mix/{product}", Who: web.Crew, Handle: p.pour},
		{Pattern: "GET /b/{build}/paint/pour/{pour}", Who: web.Guest, Handle: p.showPour},
		{Pattern: "POST /b/{build}/paint/pour/{pour}", Who: web.Crew, Handle: p.weighBack},
	}
}

// mixScripts help a mix card: the large less and more, and the running pot life.
var mixScripts = []string{"touch.js", "countdown.js"}

// mixCard is what is poured now, and what a person chose it for.
type mixCard struct {
	sheet
	Ask   ask
	Pour  *stage.Pouring // nil before anything is chosen
	Scale []string       // what was typed of the pour, line by line
	Tins  []string
	Off   []string // what is off in what was poured
	Cup   cupReading
	View  string          // the side of the drawn vehicle to touch panels on; empty while nobody asked for it
	Warns []takeoff.Check // what would be wrong with the paint once this is poured
}

// showMix answers with the mix card as a page, JSON or paper.
func (p place) showMix(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	product, err := s.product(r.Path("product"))
	if err != nil {
		return err
	}
	f := r.Asked()
	c := mixCard{sheet: s, Ask: s.ask(product, f), View: f.Raw("view")}
	if c.Cup = readCup(f); len(f.Errors) > len(c.Ask.Wrong) {
		c.Ask.Wrong = f.Errors
	}
	if err := c.work(); err != nil {
		return err
	}
	shown := web.Sheet{Place: "paint", Shown: "mix card, " + product.Name, Scripts: mixScripts}
	switch {
	case len(c.Ask.Wrong) > 0:
		return r.Invalid(shown, mixPage(c))
	case r.As() == "json" && c.Pour != nil:
		return r.JSON(c.document())
	case r.As() == "paper" && c.Pour != nil:
		return r.Page(shown, mixPaper(c))
	}
	return p.desk.Page(r, shown, mixPage(c))
}

// work reckons the mix where something is chosen and nothing is wrong.
func (c *mixCard) work() error {
	if !c.Ask.some() || len(c.Ask.Wrong) > 0 {
		return nil
	}
	m, err := stage.Session(c.Build, c.Ask.Product.ID, c.Ask.Panels, c.Ask.Zones, c.Ask.Coats, c.Rates)
	if err != nil {
		c.Ask.Wrong = field.Errors{{Field: "panel", Msg: err.Error()}}
		return nil
	}
	pour, err := stage.Pour(c.Build, m, c.Ask.Metal, c.Ask.cup())
	if err != nil {
		c.Ask.Wrong = field.Errors{{Field: "panel", Msg: "cannot be mixed for: " + err.Error() + "; put the sheet right"}}
		return nil
	}
	c.Pour = &pour
	c.warn()
	return nil
}

// warn plays the mix through: what the facts would say against it.
func (c *mixCard) warn() {
	mix := build.Pour{ID: "this mix", Product: c.Ask.Product.ID, Panels: c.Ask.Panels, Zones: c.Pour.Zones, Coats: c.Ask.Coats, At: max(c.Now, 1), RH: 50}
	for _, l := range c.Pour.Lines {
		q := build.Poured{Part: l.Part, Volume: litres(l.Ml / 1000)}
		if tin, after, ok := c.left(l); ok && after >= 0 {
			q.Tin = tin.ID
		}
		mix.Parts = append(mix.Parts, q)
	}
	next, err := build.ApplyAll(*c.Build, []build.Change{&build.PourMix{Pour: mix}})
	if err != nil {
		return // what does not apply is said where it is kept
	}
	before := stage.Stage{}.TakeOff(c.Build, c.Rates).Checks
	for _, check := range (stage.Stage{}).TakeOff(&next, c.Rates).Checks {
		if !slices.ContainsFunc(before, func(old takeoff.Check) bool { return old.ID == check.ID && old.Says == check.Says }) {
			c.Warns = append(c.Warns, check)
		}
	}
}

// mayPath is the question whether it may be sprayed, with what is read already.
func (c mixCard) mayPath() string {
	v := url.Values{"product": {string(c.Ask.Product.ID)}}
	for name, text := range map[string]string{"metal": typed(c.Ask.Metal), "air": typed(c.Ask.Air), "rh": typed(c.Ask.RH)} {
		if text != "" {
			v.Set(name, text)
		}
	}
	return c.Base + "/paint/may-spray?" + v.Encode()
}

// onMetal is the litres that go through the gun, with the working of them all.
func (c mixCard) onMetal() figure.Figure {
	f := c.Pour.Figure
	f.Name, f.Text = "through the gun", c.Pour.Sprayed.String()
	return f
}

// ready is all that is mixed.
func (c mixCard) ready() figure.Figure {
	f := c.Pour.Figure
	f.Name = "ready to spray"
	return f
}

// lost is what stays in cup and hose.
func (c mixCard) lost() figure.Figure {
	text, note := c.Pour.Purge.String(), "for each mix"
	if c.Ask.Product.FillPurge == 0 {
		note = "as for the whole job: none is entered for a single mix"
	}
	return figure.Figure{Name: "cup and hose", Text: text, Formula: "stays in cup and hose when some is mixed", With: text,
		Inputs: []figure.Input{{Name: "cup and hose", Value: text, Source: figure.TradeDefault, Link: "paint/product/" + string(c.Ask.Product.ID), Note: note}}}
}

// area is the surface with its panels.
func (c mixCard) area() figure.Figure {
	f := figure.Figure{Name: "surface", Text: c.Pour.Area.String(), Formula: "sum of the panels' surfaces in the zones of the product"}
	for _, id := range c.Ask.Panels {
		a := c.Build.SurfaceOf(c.Ask.Product, []build.PanelID{id}, c.Pour.Zones)
		f.Inputs = append(f.Inputs, figure.Input{Name: string(id) + " " + c.Build.Panel(id).FullName(), Value: a.String(), Source: figure.Measured})
	}
	return f
}

// job says what the whole job takes of the paint as it comes in the tin, less
// this mix and those before it.
func (c mixCard) job() figure.Figure {
	own, done := c.Pour.Parts[0].Volume, c.Pour.After-c.Pour.Still
	return figure.Figure{Name: "still needed after this", Text: c.Pour.Still.String(), Formula: "paint for the whole job − this mix − mixes before it",
		With: fmt.Sprintf("%s − %s − %s = %s", c.Pour.Job, own, done, c.Pour.Still), Caution: takeoff.Spraying}
}

// left is what a line's tin holds, and once the mix is poured from it.
func (c mixCard) left(l stage.Line) (tin build.Tin, after unit.Volume, ok bool) {
	tins := stage.TinsFor(c.Build, c.Ask.Product, l.Part)
	if len(tins) == 0 {
		return build.Tin{}, 0, false
	}
	tin = tins[0]
	for _, t := range tins {
		if t.ID == c.Ask.Tin {
			tin = t
		}
	}
	return tin, tin.Left - litres(l.Ml/1000), true
}

func litres(l float64) unit.Volume { return unit.Volume(math.Round(l * float64(unit.Litre))) }

// cold says why the metal is no ground for this paint, or nothing.
func (c mixCard) cold() string {
	if low := c.Ask.Product.LowMetal; low > 0 && c.Ask.Metal < low {
		return fmt.Sprintf("metal of %s °C is under the sheet's %s °C: warm it first, do not mix", typed(c.Ask.Metal), typed(low))
	}
	return ""
}

// ends is when the pot life of a mix made now is over.
func (c mixCard) ends() unit.Moment { return c.Now + unit.Moment(math.Round(c.Pour.Pot)) }

// temperatures are those to touch where nobody has read the metal yet.
func temperatures() []float64 { return []float64{14, 16, 17, 18, 19, 20, 21, 22, 24, 26} }

// document is the card as JSON.
func (c mixCard) document() any {
	type line struct {
		Name  string      `json:"name"`
		Grade string      `json:"grade,omitempty"`
		Tin   build.TinID `json:"tin,omitempty"`
		Ml    float64     `json:"ml"`
		Grams float64     `json:"g,omitempty"`
		Scale float64     `json:"scale_g,omitempty"`
		Line  float64     `json:"cup_ml"`
	}
	var lines []line
	for _, l := range c.Pour.Lines {
		out := line{Name: l.Name, Ml: math.Round(l.Ml), Grams: math.Round(l.Grams), Scale: math.Round(l.Scale), Line: math.Round(l.Line)}
		if l.Graded {
			out.Grade = c.Pour.Grade.Name
		}
		if t, _, ok := c.left(l); ok {
			out.Tin = t.ID
		}
		lines = append(lines, out)
	}
	return map[string]any{"code": c.Ask.code(), "aim": c.Ask.Product.Viscosity, "need": c.Pour.Need, "pour": lines, "job_l": c.Pour.Job, "still_l": c.Pour.Still,
		"pot_min": math.Round(c.Pour.Pot), "cautions": stage.Cautions(c.Ask.Product)}
}

// panels are the panels that the product covers, to touch.
func (c mixCard) panels() []field.Option {
	picked := map[build.PanelID]bool{}
	for _, id := range c.Ask.Panels {
		picked[id] = true
	}
	var list []field.Option
	for _, panel := range c.Build.Panels {
		zones := c.zones(panel)
		if len(zones) > 0 {
			area := c.Build.SurfaceOf(c.Ask.Product, []build.PanelID{panel.ID}, zones)
			list = append(list, field.Option{Value: string(panel.ID), Label: string(panel.ID) + " " + panel.FullName(), Hint: area.String(), Picked: picked[panel.ID]})
		}
	}
	return list
}

// zones are those of a panel that are painted: as chosen, or the product's own.
func (c mixCard) zones(panel build.Panel) []build.ZoneID {
	var list []build.ZoneID
	for _, a := range panel.Areas {
		if slices.Contains(c.Ask.Product.Zones, a.Zone) && (len(c.Ask.Zones) == 0 || slices.Contains(c.Ask.Zones, a.Zone)) {
			list = append(list, a.Zone)
		}
	}
	return list
}

// whole writes a number as a scale shows it.
func whole(v float64) string { return strconv.FormatFloat(math.Round(v), 'f', 0, 64) }
