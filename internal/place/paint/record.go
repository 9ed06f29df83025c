package paint

import (
	"fmt"
	"strconv"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/desk"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/table"
	stage "fettle/stage/paint"
	"fettle/unit"
)

func (p place) recordRoutes() []web.Route {
	at := "/b/{build}/paint/"
	return []web.Route{
		{Pattern: "GET " + at + "records", Who: web.Guest, Handle: p.records},
		{Pattern: "GET " + at + "panel/{id}", Who: web.Guest, Handle: p.panelRecord},
		{Pattern: "POST " + at + "coat", Who: web.Crew, Handle: p.layCoat},
		{Pattern: "POST " + at + "ticks", Who: web.Crew, Handle: p.ticks},
		{Pattern: "POST " + at + "film", Who: web.Crew, Handle: p.measureFilm},
		{Pattern: "POST " + at + "warm-up", Who: web.Crew, Handle: p.warmUp},
		{Pattern: "POST " + at + "clearance", Who: web.Crew, Handle: p.clearance},
		{Pattern: "POST " + at + "bare", Who: web.Crew, Handle: p.barePanels},
	}
}

// recordPage holds the forms of what was done, and what was.
type recordPage struct {
	sheet
	Form  *web.Form // as typed, where something is wrong
	Of    string    // which form that is
	Entry string
	Panel *build.Panel // the panel the page is about; nil for all
	List  table.Table
	Films []filmRow
	Stand []stage.Running
}

// value shows again what was typed in a form, else the other value.
func (p recordPage) value(form, name, other string) string {
	if p.Of == form && p.Form != nil {
		return p.Form.Raw(name)
	}
	return other
}

func (p recordPage) wrong(form, name string) string {
	if p.Of == form && p.Form != nil {
		return p.Form.Errors.Of(name)
	}
	return ""
}

// idOf is a field's own where its form is the wrong one, so that the summary
// leads to it; two forms of a page may have fields of one name.
func (p recordPage) idOf(form, name string) string {
	if p.Of == form {
		return name
	}
	return form + "-" + name
}

func (p recordPage) errors() field.Errors {
	if p.Form == nil {
		return nil
	}
	return p.Form.Errors
}

func (p place) records(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	page := s.recordPage(nil)
	switch r.As() {
	case "csv":
		return r.CSV("coats.csv", page.List.Records())
	case "json":
		return r.JSON(s.coatsJSON(nil))
	}
	return p.desk.Page(r, web.Sheet{Place: "paint", Shown: counted(len(s.Build.Coats), "coat") + " on record"}, showRecords(page))
}

// panelRecord is everything that was ever put on one panel.
func (p place) panelRecord(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	panel := s.Build.Panel(build.PanelID(r.Path("id")))
	if panel == nil {
		return fault.New(fault.NotFound, "there is no panel %q", r.Path("id"))
	}
	page := s.recordPage(panel)
	switch r.As() {
	case "csv":
		return r.CSV("paint-"+string(panel.ID)+".csv", page.List.Records())
	case "json":
		return r.JSON(s.coatsJSON(panel))
	}
	return p.desk.Page(r, web.Sheet{Place: "paint", Shown: "paint on " + string(panel.ID) + " " + panel.FullName()}, showPanel(page))
}

func (s sheet) recordPage(panel *build.Panel) recordPage {
	p := recordPage{sheet: s, Entry: field.NewEntry(), Panel: panel, Form: nil}
	p.List = s.coatTable(panel)
	p.Films = s.filmRows(panel)
	if panel != nil {
		for _, r := range stage.Clocks(s.Build) {
			if r.Panel == panel.ID {
				p.Stand = append(p.Stand, r)
			}
		}
	}
	return p
}

// again shows the page with what was typed and what is wrong with it.
func (p place) again(r *web.Request, s sheet, of string, f *web.Form) error {
	panel := s.Build.Panel(build.PanelID(f.Raw("on")))
	page := s.recordPage(panel)
	page.Form, page.Of = f, of
	sh := web.Sheet{Place: "paint", Shown: "paint records"}
	if panel != nil {
		return r.Invalid(sh, showPanel(page))
	}
	return r.Invalid(sh, showRecords(page))
}

// back is the page a form leads to: that of the panel it was sent from.
func (s sheet) back(f *web.Form) string {
	if panel := s.Build.Panel(build.PanelID(f.Raw("on"))); panel != nil {
		return s.Base + "/paint/panel/" + string(panel.ID)
	}
	return s.Base + "/paint/records"
}

// act reads a form, and keeps what it says or shows it again.
func (p place) act(r *web.Request, of string, read func(sheet, *web.Form) []build.Change) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	f, err := r.Form()
	if err != nil {
		return err
	}
	changes := read(s, f)
	entry, err := f.EntryID()
	if err != nil {
		return err
	}
	if f.Err() != nil {
		return p.again(r, s, of, f)
	}
	says := changes[0].Say(s.Build)
	if len(changes) > 1 {
		says = counted(len(changes), "coat") + " are on"
	}
	err = p.desk.Keep(r, entry, says, s.back(f), changes...)
	if err != nil && fault.KindOf(err) == fault.Invalid {
		blame(f, err, map[string]string{"": mainField[of]})
		return p.again(r, s, of, f)
	}
	return err
}

// mainField is where a form shows what belongs to no field of it.
var mainField = map[string]string{"coat": "panels", "film": "um", "warm-up": "bay", "clearance": "bay", "bare": "bared", "ticks": "ticks"}

// past reads when something was done: now where nothing is typed, never to
// come, never before the wreck came in.
func (s sheet) past(f *web.Form, name string) unit.Moment {
	m := momentField(f, name, s.Now)
	switch {
	case m == 0:
		return s.Now
	case m > s.Now:
		f.Fail(name, "is still to come: it is "+s.Now.Clock()+" on "+s.Today.Short())
	case m.Date() < s.Build.Promise.In:
		f.Fail(name, "is before the wreck came in on "+s.Build.Promise.In.Short())
	}
	return m
}

// air reads metal, air and humidity, and refuses what cannot be.
func airOf(f *web.Form) (metal, air, rh float64) {
	for _, name := range []string{"metal", "air", "rh"} {
		if strings.TrimSpace(f.Raw(name)) == "" {
			f.Fail(name, "is empty: please read it and give a number")
		}
	}
	metal, air, rh = degrees(f, "metal"), degrees(f, "air"), degrees(f, "rh")
	if len(f.Errors) == 0 {
		if err := stage.CheckAir(metal, air, rh); err != nil {
			blame(f, err, airFields)
		}
	}
	return metal, air, rh
}

func (p place) layCoat(r *web.Request) error {
	return p.act(r, "coat", func(s sheet, f *web.Form) []build.Change {
		c := build.Coat{Product: build.ProductID(f.Raw("product")), Number: int(f.Int("number", 1, mostCoats)), Panels: s.panelsField(f, "panels"), At: s.past(f, "at"),
			Pour: build.PourID(f.Raw("pour")), By: desk.By(r, s.Build), ID: build.CoatID(next("K", s.Build.Coats, func(c build.Coat) string { return string(c.ID) }))}
		for _, z := range f.All("zone") {
			c.Zones = append(c.Zones, build.ZoneID(z))
		}
		c.Metal, c.Air, c.RH = airOf(f)
		s.known(f, c.Product)
		if len(c.Panels) == 0 && len(c.Zones) > 0 {
			for _, z := range c.Zones {
				c.Panels = append(c.Panels, s.Build.PanelsIn(z)...)
			}
		}
		if len(c.Panels) == 0 && len(c.Zones) == 0 {
			f.Fail("panels", "is empty: which panels, such as P11 P12, or which surface?")
		}
		return []build.Change{&build.LayCoat{Coat: c}}
	})
}

func (s sheet) known(f *web.Form, id build.ProductID) {
	if s.Build.Product(id) == nil {
		f.Fail("product", "is not chosen")
	}
}

// ticks takes the codes of a printed spray-day sheet back, one a line, each
// with its clock time: "base-white @roof 2x 18C 10:05".
func (p place) ticks(r *web.Request) error {
	return p.act(r, "ticks", func(s sheet, f *web.Form) []build.Change {
		day := f.Date("day")
		if day == 0 {
			day = s.Today
		}
		metal, air, rh := airOf(f)
		var changes []build.Change
		coats := append([]build.Coat(nil), s.Build.Coats...)
		for i, line := range strings.Split(strings.TrimSpace(f.Raw("ticks")), "\n") {
			c, err := s.tick(strings.TrimSpace(line), day)
			if err != nil {
				f.Fail("ticks", fmt.Sprintf("line %d %s", i+1, err))
				return nil
			}
			c.ID = build.CoatID(next("K", coats, func(c build.Coat) string { return string(c.ID) }))
			if c.Air, c.RH, c.By = air, rh, desk.By(r, s.Build); c.Metal == 0 {
				c.Metal = metal
			}
			coats = append(coats, c)
			changes = append(changes, &build.LayCoat{Coat: c})
		}
		return changes
	})
}

// tick reads one line of a sheet typed back.
func (s sheet) tick(line string, day unit.Date) (build.Coat, error) {
	i := strings.LastIndex(line, " ")
	if i < 0 {
		return build.Coat{}, fmt.Errorf("is no code with a clock time: %q", line)
	}
	minutes, err := build.ParseClock(line[i+1:])
	if err != nil {
		return build.Coat{}, fmt.Errorf("does not end with a clock time such as 10:05: %q", line[i+1:])
	}
	id, v, wrong := decode(s.Build, line[:i])
	if wrong != "" {
		return build.Coat{}, fmt.Errorf("%s", wrong)
	}
	c := build.Coat{Product: id, Number: 1, At: day.At(0, minutes)}
	if n, err := strconv.Atoi(v.Get("coats")); err == nil {
		c.Number = n
	}
	if metal, err := strconv.ParseFloat(pointed(v.Get("metal")), 64); err == nil {
		c.Metal = metal
	}
	for _, z := range v["zone"] {
		c.Zones = append(c.Zones, build.ZoneID(z))
	}
	for _, panel := range v["panel"] {
		c.Panels = append(c.Panels, build.PanelID(panel))
	}
	if len(c.Panels) == 0 {
		for _, z := range c.Zones {
			c.Panels = append(c.Panels, s.Build.PanelsIn(z)...)
		}
	}
	switch {
	case c.At > s.Now:
		return c, fmt.Errorf("is still to come: %s on %s", c.At.Clock(), day.Short())
	case len(c.Panels)+len(c.Zones) == 0:
		return c, fmt.Errorf("names no panel and no surface")
	}
	return c, nil
}

func (p place) warmUp(r *web.Request) error {
	return p.act(r, "warm-up", func(s sheet, f *web.Form) []build.Change {
		w := build.WarmUp{ID: build.WarmUpID(next("U", s.Build.WarmUps, func(w build.WarmUp) string { return string(w.ID) })), Bay: f.Raw("bay"), At: s.past(f, "began"),
			From: decimal(f, "from"), To: decimal(f, "to"), Air: decimal(f, "warm-air"), Minutes: int(f.Int("minutes", 1, 10_000)), Note: f.Text("note", 0, 120)}
		if len(f.Errors) == 0 && w.To <= w.From {
			f.Fail("to", "is no warmer than it was at first")
		}
		return []build.Change{&build.RecordWarmUp{WarmUp: w}}
	})
}

// decimal reads a temperature that must be given.
func decimal(f *web.Form, name string) float64 {
	return float64(f.Decimal(name, 1, 10*coldest, 10*hottest)) / 10
}

func (p place) clearance(r *web.Request) error {
	return p.act(r, "clearance", func(_ sheet, f *web.Form) []build.Change {
		return []build.Change{&build.PostClearance{Bay: f.Raw("bay"), Minutes: int(f.Int("clear", 1, 24*60))}}
	})
}

func (p place) barePanels(r *web.Request) error {
	return p.act(r, "bare", func(s sheet, f *web.Form) []build.Change {
		panels := s.panelsField(f, "bared")
		if len(panels) == 0 && f.Errors.Of("bared") == "" {
			f.Fail("bared", "is empty: which panels, such as P11 P12?")
		}
		return []build.Change{&build.BarePanels{Panels: panels, At: s.past(f, "since")}}
	})
}
