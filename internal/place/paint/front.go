package paint

import (
	"fmt"
	"net/url"
	"slices"
	"strings"

	"fettle/build"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/table"
	stage "fettle/stage/paint"
	"fettle/takeoff"
	"fettle/unit"
)

func (p place) frontRoutes() []web.Route {
	return []web.Route{
		{Pattern: "GET /b/{build}/paint", Who: web.Guest, Handle: p.show},
		{Pattern: "GET /b/{build}/paint/find", Who: web.Guest, Handle: p.find},
	}
}

// front is what is painted next and with what.
type front struct {
	sheet
	Next   []coming
	Tins   []takeoff.Tins
	Checks []takeoff.Check
	Code   string
	Wrong  field.Errors
}

// coming is a product that goes on next, and when the plan lays it.
type coming struct {
	stage.Due
	Start unit.Moment // of what is left of its task, 0 where nothing is
}

func (p place) front(r *web.Request) (front, error) {
	s, err := p.load(r)
	if err != nil {
		return front{}, err
	}
	list := stage.Stage{}.TakeOff(s.Build, s.Rates)
	f := front{sheet: s, Tins: list.Tins, Checks: append(list.Checks, stage.ClosedChecks(s.Build, s.Now)...)}
	for _, d := range stage.Queue(s.Build) {
		f.Next = append(f.Next, coming{Due: d, Start: s.starts(d.Product.Task)})
	}
	slices.SortStableFunc(f.Next, func(x, y coming) int { return int(x.Start - y.Start) })
	return f, nil
}

// starts is when the plan goes on with the task that lays a paint, or with the
// first of the paint that is not finished where its own is; 0 where none is left.
func (s sheet) starts(id build.TaskID) unit.Moment {
	id = s.openTask(id)
	var first unit.Moment
	for _, t := range s.Plan.Tasks {
		if t.ID != id {
			continue
		}
		for _, l := range t.Legs {
			if l.Left > 0 && (first == 0 || l.Start < first) {
				first = l.Start
			}
		}
	}
	return first
}

// show answers with what is to be painted and with what, as a page, a file, JSON
// or paper.
func (p place) show(r *web.Request) error {
	f, err := p.front(r)
	if err != nil {
		return err
	}
	shown := web.Sheet{Place: "paint", Shown: fmt.Sprintf("%d paints, %d tins", len(f.Build.Products), len(f.Build.Tins))}
	switch r.As() {
	case "csv":
		list := f.list(r.Query("list"))
		return r.CSV("paint-"+list.ID+".csv", list.Records())
	case "json":
		return r.JSON(f.document())
	case "paper":
		return r.Page(shown, frontPaper(f))
	}
	return p.desk.Page(r, shown, frontPage(f))
}

// list is one list of the page, by its ID; the products where it is none.
func (f front) list(id string) table.Table {
	switch id {
	case "to-buy":
		return f.toBuy()
	case "zones":
		return f.zones()
	case "mixes":
		return f.pours()
	}
	return f.litres()
}

// document is the place as JSON.
func (f front) document() any {
	type due struct {
		Product build.ProductID `json:"product"`
		Panels  []build.PanelID `json:"panels,omitempty"`
		Zones   []build.ZoneID  `json:"zones"`
		Coats   int             `json:"coats"`
		Area    unit.Area       `json:"area_m2"`
		Start   unit.Moment     `json:"planned,omitzero"`
	}
	var list []due
	for _, n := range f.Next {
		list = append(list, due{n.Product.ID, n.Panels, n.Zones, n.Coats, n.Area, n.Start})
	}
	return map[string]any{"next": list, "litres": f.Plan.Litres, "to_buy": f.Tins, "tins": f.Build.Tins,
		"zones": f.Build.Zones, "mixes": f.Build.Pours, "checks": f.Checks}
}

// find leads from a tin's number, a mix's number or the code of a printed card
// to its page.
func (p place) find(r *web.Request) error {
	f, err := p.front(r)
	if err != nil {
		return err
	}
	f.Code = strings.TrimSpace(r.Query("code"))
	number := strings.ToUpper(f.Code)
	switch {
	case f.Build.Tin(build.TinID(number)) != nil:
		return r.SeeOther(f.Base + "/paint/tin/" + url.PathEscape(number))
	case f.Build.Pour(build.PourID(number)) != nil:
		return r.SeeOther(f.Base + "/paint/pour/" + url.PathEscape(number))
	}
	product, values, wrong := decode(f.Build, f.Code)
	if wrong != "" {
		f.Wrong = field.Errors{{Field: "code", Msg: wrong}}
		return r.Invalid(web.Sheet{Place: "paint", Shown: "code"}, frontPage(f))
	}
	return r.SeeOther(f.Base + "/paint/mix/" + url.PathEscape(string(product)) + "?" + values.Encode())
}

// inCup are the mixes of today that were not weighed back.
func (f front) inCup() []build.Pour {
	var list []build.Pour
	for _, m := range f.Build.Pours {
		if m.Weighed == 0 && m.At.Date() == f.Today {
			list = append(list, m)
		}
	}
	return list
}

// lasts says how much of its pot life a mix has left.
func (f front) lasts(m build.Pour) string {
	pot, _ := stage.PotOf(*f.Build.Product(m.Product), m.Air)
	left := int(m.At) + int(pot+0.5) - int(f.Now)
	switch {
	case pot == 0:
		return "since " + m.At.Clock()
	case left <= 0:
		return "its pot life is over: throw it away"
	}
	return span(left) + " left"
}

// mixOf is the mix card of what goes on next: all of its panels.
func (f front) mixOf(n coming) string {
	return f.mixPath(ask{Product: n.Product, Panels: n.Panels, Zones: n.Zones, Coats: n.Coats, Metal: nan, Air: nan, RH: nan})
}

//
