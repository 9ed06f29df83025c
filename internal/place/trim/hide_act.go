package trim

import (
	"fmt"
	"strings"

	"fettle/build"
	"fettle/internal/desk"
	"fettle/internal/shapein"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	stage "fettle/stage/trim"
	"fettle/unit"
)

// acts are the forms of a hide: what was typed, what is wrong with it, and
// which of them is open.
type acts struct {
	Open  string
	Wrong field.Errors
	typed func(name string) string
	all   func(name string) []string // of a field that stands more than once
}

// of is the trouble of a field of one form.
func (a acts) of(form, name string) string {
	if a.Open != form {
		return ""
	}
	return a.Wrong.Of(name)
}

// value is a field as it was typed, or else what it begins with.
func (a acts) value(form, name, first string) string {
	if a.Open == form && a.typed != nil {
		return a.typed(name)
	}
	return first
}

// linked are the troubles of the open form, each named as the field it leads to.
func (a acts) linked() field.Errors {
	var list field.Errors
	for _, e := range a.Wrong {
		list = append(list, field.Error{Field: a.Open + "-" + e.Field, Msg: e.Msg})
	}
	return list
}

// act takes one form of a hide and lays its change on the slip.
func (p place) act(open string, read func(f *web.Form, s sheet, h *build.Hide) build.Change) func(r *web.Request) error {
	return func(r *web.Request) error {
		f, err := r.Form()
		if err != nil {
			return err
		}
		s, err := p.load(r)
		if err != nil {
			return err
		}
		h, err := s.hide(r)
		if err != nil {
			return err
		}
		c := read(f, s, h)
		desk.Holds(f, s.Build, open, c)
		if f.Err() != nil {
			page := s.hidePage(*h)
			page.acts = acts{Open: open, Wrong: f.Errors, typed: f.Raw}
			return r.Invalid(web.Sheet{Place: "trim", Shown: "hide " + string(h.ID)}, showHide(page))
		}
		return p.desk.Propose(r, s.Base+"/slip", c)
	}
}

func (p place) actRoutes() []web.Route {
	at := "POST /b/{build}/trim/hide/{hide}"
	return []web.Route{
		{Pattern: at + "/mark", Who: web.Crew, Handle: p.act("mark", func(f *web.Form, _ sheet, h *build.Hide) build.Change {
			return &build.MarkHide{Hide: h.ID, Mark: typedMark(f, h)}
		})},
		{Pattern: at + "/clear", Who: web.Crew, Handle: p.act("clear", func(f *web.Form, _ sheet, h *build.Hide) build.Change {
			return &build.ClearMark{Hide: h.ID, Mark: f.Text("clear", 1, 20)}
		})},
		{Pattern: at + "/draw", Who: web.Crew, MaxBody: shapein.FileLimit, Handle: p.act("draw", func(f *web.Form, _ sheet, h *build.Hide) build.Change { return typedDrawing(f, h) })},
		{Pattern: at + "/refuse", Who: web.Crew, Handle: p.act("refuse", func(f *web.Form, _ sheet, h *build.Hide) build.Change {
			return &build.RefuseHide{Hide: h.ID, Why: f.Text("why", 1, 200)}
		})},
		{Pattern: at + "/order", Who: web.Crew, Handle: p.act("order", func(f *web.Form, s sheet, h *build.Hide) build.Change { return s.typedOrder(f, h) })},
		{Pattern: "GET /b/{build}/trim/hide", Who: web.Crew, Handle: p.blankHide},
		{Pattern: "POST /b/{build}/trim/hide", Who: web.Crew, Handle: p.takeIn},
	}
}

// leadDays is how long a tannery takes for another hide of a lot, as judged
// until somebody has asked.
const leadDays = 10

// typedOrder is another hide of the same lot as a part for Stores.
func (s sheet) typedOrder(f *web.Form, h *build.Hide) *build.AddPart {
	count := f.Int("count", 1, 99)
	return &build.AddPart{Part: build.Part{
		ID: s.Build.NextPart(), Name: fmt.Sprintf("%s hide, lot %s, as hide %s", h.Material, h.Lot, h.ID), Quantity: int(count), Price: unit.Money(f.Decimal("price", 2, 0, 1_000_000_00)),
		Lead: int(f.Int("lead", 0, 500)), Task: build.TaskID(f.Choice("task", field.Values(s.cutters(""))...)), Supplier: f.Text("supplier", 0, 80)}}
}

// cutters are the open tasks of the trim shop that a hide can be needed for,
// the longest picked where none is said.
func (s sheet) cutters(picked string) []field.Option {
	var list []field.Option
	longest := unit.Effort(-1)
	for _, t := range s.Build.Tasks {
		if t.Stage == "trim" && t.State != build.Finished {
			if hours := build.Total(t.Legs); picked == "" && hours > longest {
				longest = hours
				for i := range list {
					list[i].Picked = false
				}
				list = append(list, field.Option{Value: string(t.ID), Label: string(t.ID) + " " + t.Name, Picked: true})
				continue
			}
			list = append(list, field.Option{Value: string(t.ID), Label: string(t.ID) + " " + t.Name, Picked: string(t.ID) == picked})
		}
	}
	return list
}

// newHide is the form of a hide that came in.
type newHide struct {
	sheet
	acts
	Like build.Hide // what its fields begin with
}

func (p place) blankHide(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	return p.desk.Page(r, web.Sheet{Place: "trim", Shown: "a hide came in"}, showNewHide(newHide{sheet: s, Like: s.lastHide()}))
}

// lastHide is what a new hide is most like.
func (s sheet) lastHide() build.Hide {
	for _, n := range stage.Needs(s.Build) {
		for _, id := range n.Hides {
			return *s.Build.Hide(id)
		}
	}
	return build.Hide{Area: 4_700_000, Usable: 0.7}
}

// takeIn notes a hide. Nothing follows from it before it is drawn, so it is
// kept at once, and its own page comes next.
func (p place) takeIn(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	s, err := p.load(r)
	if err != nil {
		return err
	}
	h := build.Hide{ID: build.HideID(strings.ToUpper(f.Text("id", 1, 12))), Material: f.Text("material", 1, 80), Lot: f.Text("lot", 0, 40),
		Area: unit.Area(f.Decimal("area", 2, 1, 9900)) * 10_000, Usable: float64(f.Int("usable", 1, 100)) / 100,
		Price: unit.Money(f.Decimal("price", 2, 0, 1_000_000_00)), Half: f.Has("half")}
	c := &build.TakeInHide{Hide: h}
	desk.Holds(f, s.Kept, "id", c)
	if f.Err() != nil {
		page := newHide{sheet: s, acts: acts{Open: "new", Wrong: f.Errors, typed: f.Raw}, Like: s.lastHide()}
		return r.Invalid(web.Sheet{Place: "trim", Shown: "a hide came in"}, showNewHide(page))
	}
	return p.desk.Keep(r, f.Raw("entry"), c.Say(s.Kept), s.hidePath(h.ID), c)
}

// nextHide is the number that a new hide gets.
func (s sheet) nextHide() string {
	return desk.NextID("H%d", len(s.Build.Hides), func(id string) bool { return s.Build.Hide(build.HideID(id)) != nil })
}
