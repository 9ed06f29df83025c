package trim

import (
	"net/url"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/desk"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/unit"
)

func (p place) rollRoutes() []web.Route {
	return []web.Route{
		{Pattern: "GET /b/{build}/trim/roll", Who: web.Crew, Handle: p.blankRoll},
		{Pattern: "GET /b/{build}/trim/roll/{roll}", Who: web.Guest, Handle: p.roll},
		{Pattern: "POST /b/{build}/trim/roll", Who: web.Crew, Handle: p.setRoll},
	}
}

func (s sheet) rollPath(id build.RollID) string {
	return s.At() + "/roll/" + url.PathEscape(string(id))
}

// rollPage is the form of a material by the metre.
type rollPage struct {
	sheet
	acts
	Roll build.Roll
	New  bool
}

// Habits of the trade that a new roll begins with: selvedges are no cloth, and
// shears want a little between two lines.
const (
	rollEdge = 10 * unit.Millimetre
	rollGap  = 2 * unit.Millimetre
)

func (p place) blankRoll(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	page := rollPage{sheet: s, New: true, Roll: build.Roll{ID: s.nextRoll(), Edge: rollEdge, Gap: rollGap}}
	return p.desk.Page(r, web.Sheet{Place: "trim", Shown: "a material by the metre"}, showRoll(page))
}

func (s sheet) nextRoll() build.RollID {
	return build.RollID(desk.NextID("R%d", len(s.Build.Rolls), func(id string) bool { return s.Build.Roll(build.RollID(id)) != nil }))
}

func (p place) roll(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	one := s.Build.Roll(build.RollID(r.Path("roll")))
	if one == nil {
		return fault.New(fault.NotFound, "there is no roll %q", r.Path("roll"))
	}
	if r.As() == "json" {
		return r.JSON(one)
	}
	return p.desk.Page(r, web.Sheet{Place: "trim", Shown: "roll " + string(one.ID)}, showRoll(rollPage{sheet: s, Roll: *one}))
}

// setRoll lays a roll on the slip.
func (p place) setRoll(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	s, err := p.load(r)
	if err != nil {
		return err
	}
	c := &build.SetRoll{Roll: s.typedRoll(f)}
	desk.Holds(f, s.Build, "id", c)
	if f.Err() != nil {
		page := rollPage{sheet: s, acts: acts{Open: "roll", Wrong: f.Errors, typed: f.Raw}, Roll: c.Roll, New: s.Build.Roll(c.Roll.ID) == nil}
		return r.Invalid(web.Sheet{Place: "trim", Shown: "a material by the metre"}, showRoll(page))
	}
	return p.desk.Propose(r, s.Base+"/slip", c)
}

// typedRoll reads the form of a roll.
func (s sheet) typedRoll(f *web.Form) build.Roll {
	r := build.Roll{ID: build.RollID(strings.ToUpper(f.Text("id", 1, 12))), Material: f.Text("material", 1, 80), Width: length(f, "width", 1, 20_000),
		Nap: f.Has("nap"), Lot: f.Text("lot", 0, 40), Price: unit.Money(f.Decimal("price", 2, 0, 1_000_000_00)), Part: build.PartID(strings.ToUpper(f.Text("part", 0, 12)))}
	for _, one := range []struct {
		name string
		to   *unit.Length
	}{{"edge", &r.Edge}, {"gap", &r.Gap}, {"repeat", &r.Repeat}, {"across", &r.Across}, {"begins-x", &r.Begins[0]}, {"begins-y", &r.Begins[1]}} {
		if strings.TrimSpace(f.Raw(one.name)) != "" {
			*one.to = length(f, one.name, 0, 20_000)
		}
	}
	return r
}

func napOption(r build.Roll) []field.Option {
	return []field.Option{{Value: "yes", Label: "it has a nap, or a picture with a top: every piece lies one way", Picked: r.Nap}}
}

// matchOptions are how a piece keeps to the pattern of its roll.
func matchOptions(m build.Match) []field.Option {
	return []field.Option{{Value: "along", Label: "along the roll", Picked: m.Along}, {Value: "across", Label: "across it", Picked: m.Across}}
}

// typedMatch reads how a piece keeps to the pattern.
func typedMatch(f *web.Form) (m build.Match) {
	for _, axis := range f.All("match") {
		m.Along, m.Across = m.Along || axis == "along", m.Across || axis == "across"
	}
	for i, name := range []string{"match-x", "match-y"} {
		if strings.TrimSpace(f.Raw(name)) != "" {
			m.At[i] = unit.Length(f.Decimal(name, 1, -200_000, 200_000)) * unit.Millimetre / 10
		}
	}
	return m
}
