package paint

import (
	"fmt"
	"net/url"
	"strconv"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/desk"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	stage "fettle/stage/paint"
	"fettle/unit"
)

func (p place) redoRoutes() []web.Route {
	at := "/b/{build}/paint/redo"
	return []web.Route{
		{Pattern: "GET " + at, Who: web.Crew, Handle: p.blankRedo},
		{Pattern: "POST " + at, Who: web.Crew, Handle: p.redo},
	}
}

// redoRows is how many products can be named on the form.
const redoRows = 4

// redoPage is the form of paint that goes on again.
type redoPage struct {
	sheet
	Entry string
	Form  *web.Form
}

// redoAddress is the form filled with what a missed window costs.
func redoAddress(s sheet, l stage.Lost, task build.TaskID, why string) string {
	q := url.Values{"panels": {joined(l.Panels)}, "why": {why}, "hours": {hours(l.Hours)}, "task": {string(s.openTask(task))}}
	for _, z := range l.Zones {
		q.Add("zone", string(z))
	}
	for i, c := range l.Coats[:min(len(l.Coats), redoRows)] {
		q.Set("product-"+strconv.Itoa(i+1), string(c.Product))
		q.Set("coats-"+strconv.Itoa(i+1), strconv.Itoa(c.Coats))
	}
	return s.Base + "/paint/redo?" + q.Encode()
}

func hours(e unit.Effort) string {
	return plainNumber(float64(int(10*e.H()+0.5)) / 10)
}

// openTask is the task given, or the first of the paint that is not finished
// where it is.
func (s sheet) openTask(id build.TaskID) build.TaskID {
	if t := s.Build.Task(id); t != nil && t.State != build.Finished {
		return id
	}
	for _, t := range s.redoTasks() {
		return t.ID
	}
	return id
}

// redoTasks are those that paint done again can be part of.
func (s sheet) redoTasks() []build.Task {
	var list []build.Task
	for _, t := range s.Build.Tasks {
		if (t.Stage == "paint" || t.Stage == "body") && t.State != build.Finished {
			list = append(list, t)
		}
	}
	return list
}

func (p place) blankRedo(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	return p.desk.Page(r, redoSheet, showRedo(redoPage{sheet: s, Entry: field.NewEntry(), Form: r.Asked()}))
}

var redoSheet = web.Sheet{Place: "paint", Shown: "paint done again"}

// redo lays paint that goes on again on the slip, where its knock-on is seen
// before it is kept.
func (p place) redo(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	drafted, _, err := p.desk.Drafted(r)
	if err != nil {
		return err
	}
	f, err := r.Form()
	if err != nil {
		return err
	}
	redo := s.typedRedo(f)
	redo.ID = build.RedoID(next("R", drafted.Redos, func(o build.Redo) string { return string(o.ID) }))
	redo.By = desk.By(r, s.Build)
	if f.Err() == nil {
		if err = p.desk.Propose(r, s.Base+"/slip", &build.RedoPaint{Redo: redo}); fault.KindOf(err) != fault.Invalid || err == nil {
			return err
		}
		blame(f, err, map[string]string{"redo " + string(redo.ID): "task"})
	}
	return r.Invalid(redoSheet, showRedo(redoPage{sheet: s, Entry: field.NewEntry(), Form: f}))
}

func (s sheet) typedRedo(f *web.Form) build.Redo {
	redo := build.Redo{Why: f.Text("why", 2, 200), Panels: s.panelsField(f, "panels"), Task: build.TaskID(f.Raw("task")), At: s.Now,
		Days: int(f.Int("days", 0, 60))}
	for _, z := range f.All("zone") {
		redo.Zones = append(redo.Zones, build.ZoneID(z))
	}
	for i := 1; i <= redoRows; i++ {
		n := strconv.Itoa(i)
		if id := f.Raw("product-" + n); id != "" {
			redo.Coats = append(redo.Coats, build.RedoCoats{Product: build.ProductID(id), Coats: int(f.Int("coats-"+n, 1, 20))})
		}
	}
	if len(redo.Coats) == 0 {
		f.Fail("product-1", "is empty: which paint goes on again?")
	}
	if len(redo.Panels) == 0 && len(redo.Zones) == 0 {
		f.Fail("panels", "is empty: which panels, such as P11 P12?")
	}
	if h := f.Decimal("hours", 1, 1, 10_000); h > 0 {
		trade := build.TradeID(f.Raw("trade"))
		if s.Build.Trade(trade) == nil {
			f.Fail("trade", "is not chosen: whose hours are they?")
		}
		redo.Work = []build.Leg{{Trade: trade, Hours: unit.Hours(float64(h) / 10)}}
	}
	return redo
}

// panelsField reads panels such as "P11 P12".
func (s sheet) panelsField(f *web.Form, name string) []build.PanelID {
	var list []build.PanelID
	for _, word := range strings.FieldsFunc(strings.ToUpper(f.Raw(name)), func(c rune) bool { return strings.ContainsRune(" ,;\r\n\t", c) }) {
		if s.Build.Panel(build.PanelID(word)) == nil {
			f.Fail(name, fmt.Sprintf("names no panel of this build: %q", word))
			return nil
		}
		list = append(list, build.PanelID(word))
	}
	return list
}

func (s sheet) zoneOptions(f *web.Form) []field.Option {
	var list []field.Option
	picked := ticked(f, "zone")
	for _, z := range s.Build.Zones {
		list = append(list, field.Option{Value: string(z.ID), Label: z.Name, Picked: picked[string(z.ID)]})
	}
	return list
}

func (s sheet) tradeOptions(picked string) []field.Option {
	if picked == "" {
		for _, p := range s.Build.People {
			if p.Booth && len(p.Trades) > 0 {
				picked = string(p.Trades[0])
			}
		}
	}
	var list []field.Option
	for _, t := range s.Build.Trades {
		list = append(list, field.Option{Value: string(t.ID), Label: t.Name, Picked: string(t.ID) == picked})
	}
	return list
}

func (s sheet) taskOptions(picked string) []field.Option {
	var list []field.Option
	for _, t := range s.redoTasks() {
		list = append(list, field.Option{Value: string(t.ID), Label: string(t.ID) + " " + t.Name, Picked: string(t.ID) == picked})
	}
	return list
}
