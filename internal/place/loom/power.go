package loom

import (
	"fmt"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"fettle/build"
	"fettle/internal/desk"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/table"
	"fettle/internal/web/ui/working"
	"fettle/takeoff"
)

func (p place) powerRoutes() []web.Route {
	at := "/b/{build}/loom"
	return []web.Route{
		{Pattern: "GET " + at + "/continuity", Who: web.Guest, Handle: p.continuity},
		{Pattern: "GET " + at + "/power", Who: web.Guest, Handle: p.power},
		{Pattern: "POST " + at + "/reading", Who: web.Crew, Handle: p.read},
	}
}

// meterPage is a plan of readings: what a meter must show, and what it showed.
type meterPage struct {
	sheet
	Here, Title, Text string
	Kinds             []string
	Cautions          []string
	Last              string // what comes after all steps
	Circuit           string // a reading is to be noted of
	Table             table.Table
	Wrong             field.Errors
	raw               func(string) string
}

var powerCautions = []string{
	"Fire: no live battery near open fuel; extinguisher at hand, battery earth within reach, nobody works on the wiring while it is live.",
	"Battery: earth off first and on last, no ring or watch, eyes covered, charge where the air moves.",
	"First through a supply limited to 5 A, or a 21 W lamp in series: a bright lamp is a short circuit. Only when every step reads as here, the battery itself.",
	"A wire that is warm, a smell, a lamp that glows where it should be dark: off first, then look for a bad earth.",
	"What the road asks of lamps, horn and wipers is the country's own law, and its inspection decides. Where the law asks for a licensed electrician, one does this. This sheet advises and certifies nothing.",
}

var meterCautions = []string{
	"Battery off, both poles; lamps, coils and electronics unplugged: they read as a short, and a megger kills electronics.",
	"Touch the leads together first and take that off each reading.",
}

func (p place) power(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	page := s.powerPage()
	page.Circuit = r.Query("circuit")
	return p.meters(r, page, "first-power", s.Loom.FirstPower)
}

func (s sheet) powerPage() meterPage {
	page := meterPage{sheet: s, Here: "/power", Title: "First power", Kinds: []string{"amps", "volts"}, Cautions: powerCautions,
		Text: "One step after the other, each with what the meters must show at the far end. Do not go on while one reads otherwise, and switch each load off again before the next. Work with the limited supply or with the lamp in series, and keep to the one from the first step to the last."}
	t := table.Table{ID: "power", Caption: "First power, step by step", Self: s.At() + "/power", Empty: "There is nothing to power yet.", Columns: []table.Column{
		{Head: "Step", Number: true}, {Head: "Do", Wide: true}, {Head: "On the battery", Unit: "A"}, {Head: "Far end", Unit: "V", Number: true},
		{Head: "5 A supply", Unit: "A / V"}, {Head: "21 W lamp", Unit: "A / V on lamp"}, {Head: "Read", Wide: true}}}
	for _, x := range s.Loom.FirstPower {
		t.Rows = append(t.Rows, table.Row{ID: "step-" + strconv.Itoa(x.Number), Cells: []table.Cell{table.Text(strconv.Itoa(x.Number)), table.Text(x.Do),
			table.Show(fmt.Sprintf("%.2f", x.Amps), working.Figure("step-working-"+strconv.Itoa(x.Number), working.Inline, retext(x.Working, fmt.Sprintf("%.2f", x.Amps)))),
			table.Text(fmt.Sprintf("%.1f", x.Volts)), table.Text(fmt.Sprintf("%.2f / %.1f", x.SupplyA, x.SupplyV)), table.Text(fmt.Sprintf("%.2f / %.1f", x.LampA, x.LampV)), s.readCell(page.Here, x.Circuit, x.Read, "A", "V")}})
	}
	page.Table = t
	if len(s.Loom.FirstPower) > 0 {
		page.Last = fmt.Sprintf("When every step has read as here: all switches off, the supply away, isolator off. Battery in, plus first, earth last; isolator on. With everything off the ammeter shows %.0f mA, and no spark as the earth goes on. Only then the starter, clear of the fan, in neutral.", 1000*s.Loom.FirstPower[0].Amps)
	}
	return page
}

func (p place) continuity(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	page := s.continuityPage()
	page.Circuit = r.Query("circuit")
	return p.meters(r, page, "continuity", s.Loom.Continuity)
}

func (s sheet) continuityPage() meterPage {
	page := meterPage{sheet: s, Here: "/continuity", Title: "Continuity", Kinds: []string{"continuity", "isolation"}, Cautions: meterCautions,
		Text: fmt.Sprintf("Before any power: each wire end to end, then against all others tied together. %s, not one for each pair.", plural(2*len(s.Loom.Continuity), "reading"))}
	t := table.Table{ID: "continuity", Caption: "Continuity, wire by wire", Self: s.At() + "/continuity", Empty: "There is no wire to meter yet.", Columns: []table.Column{
		{Head: "Wire"}, {Head: "From", Wide: true}, {Head: "To", Wide: true}, {Head: "End to end, at most", Unit: "Ω", Number: true}, {Head: "To all others, at least", Unit: "MΩ", Number: true}, {Head: "Read", Wide: true}}}
	for _, x := range s.Loom.Continuity {
		ohms := fmt.Sprintf("%.2f", x.OhmsMax)
		t.Rows = append(t.Rows, table.Row{ID: "wire-" + x.ID, Cells: []table.Cell{table.Text(x.ID), table.Text(x.From), table.Text(x.To),
			table.Show(ohms, working.Figure("ohms-"+x.ID, working.Inline, retext(x.Working, ohms))), table.Text(number(x.MegMin)), s.readCell(page.Here, circuitOf(x.ID), x.Read, "Ω", "MΩ")}})
	}
	page.Table = t
	return page
}

var meterUnits = map[string]string{"continuity": "Ω", "isolation": "MΩ", "volts": "V", "amps": "A"}

// readCell is what was read, with a mark where it is off, or lines to write it on
// in these units and a way to note it.
func (s sheet) readCell(here, circuit string, list []build.Metered, units ...string) table.Cell {
	if len(list) == 0 {
		note := ""
		if s.Crew && circuit != "" {
			note = s.At() + here + "?circuit=" + url.QueryEscape(circuit) + "#reading"
		}
		return table.Show("", toRead(units, note, circuit))
	}
	words := make([]string, len(list))
	off := false
	for i, m := range list {
		words[i] = fmt.Sprintf("%s %s (%s)", number(m.Value), meterUnits[m.Kind], m.By)
		off = off || s.isOff(m.ID)
	}
	return table.Show(strings.Join(words, ", "), wasRead(words, off))
}

// isOff tells whether a reading is not what was worked out.
func (s sheet) isOff(reading string) bool {
	return slices.ContainsFunc(s.Loom.Checks, func(c takeoff.Check) bool { return c.ID == "loom/reading/"+reading })
}

// circuitOf is the circuit of a wire that may be a branch of it.
func circuitOf(wire string) string {
	circuit, _, _ := strings.Cut(wire, ".")
	return circuit
}

func (p place) meters(r *web.Request, page meterPage, name string, doc any) error {
	switch r.As() {
	case "csv":
		return r.CSV(r.Build()+"-"+name+".csv", page.Table.Records())
	case "json":
		return r.JSON(map[string]any{"cautions": page.Cautions, "steps": doc})
	}
	return p.desk.Page(r, page.web(), showMeters(page))
}

func (page meterPage) web() web.Sheet {
	return web.Sheet{Place: "loom", Shown: plural(len(page.Table.Rows), "row") + " of " + page.Title}
}

// mostReading is the largest number on a meter.
const mostReading = 1_000_000

// read keeps a reading at once: it is what a meter showed.
func (p place) read(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	s, err := p.load(r)
	if err != nil {
		return err
	}
	page := s.powerPage()
	if kind := f.Raw("kind"); kind == "continuity" || kind == "isolation" {
		page = s.continuityPage()
	}
	view, err := p.desk.View(r)
	if err != nil {
		return err
	}
	m := build.Metered{ID: s.nextReading(), Circuit: strings.ToUpper(f.Text("circuit", 1, 20)), Kind: f.Choice("kind", build.MeterKinds()...), Value: float64(f.Decimal("value", 3, 0, mostReading*1000)) / 1000,
		At: view.Now, By: build.PersonID(r.Person().Code), Note: f.Text("note", 0, 200)}
	act := &build.MeterCircuit{Metered: m}
	desk.Holds(f, s.Kept, "circuit", act)
	if f.Err() != nil {
		page.Wrong, page.raw = f.Errors, f.Raw
		return r.Invalid(page.web(), showMeters(page))
	}
	return p.desk.Keep(r, f.Raw("entry"), act.Say(s.Kept), s.At()+page.Here, act)
}

func (s sheet) nextReading() string {
	taken := map[string]bool{}
	for _, m := range s.Kept.Loom.Metered {
		taken[m.ID] = true
	}
	for n := len(taken) + 1; ; n++ {
		if id := fmt.Sprintf("M%d", n); !taken[id] {
			return id
		}
	}
}

func (page meterPage) field(name, label string, more field.Params) field.Params {
	more.Name, more.Label, more.Error = name, label, page.Wrong.Of(name)
	if name == "circuit" {
		more.Value = page.Circuit
	}
	if page.raw != nil {
		more.Value = page.raw(name)
	}
	return more
}

func (page meterPage) kinds() []field.Option {
	list := make([]field.Option, len(page.Kinds))
	for i, k := range page.Kinds {
		list[i] = field.Option{Value: k, Label: k + ", " + meterUnits[k], Picked: i == 0}
		if page.raw != nil {
			list[i].Picked = page.raw("kind") == k
		}
	}
	return list
}
