package paint

import (
	"fmt"
	"slices"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	stage "fettle/stage/paint"
	"fettle/takeoff"
	"fettle/unit"
)

func (p place) tinRoutes() []web.Route {
	return []web.Route{
		{Pattern: "GET /b/{build}/paint/tins", Who: web.Guest, Handle: p.showTins},
		{Pattern: "GET /b/{build}/paint/tins/labels", Who: web.Guest, Handle: p.showLabels},
		{Pattern: "POST /b/{build}/paint/tins", Who: web.Crew, Handle: p.takeIn},
		{Pattern: "POST /b/{build}/paint/tins/box", Who: web.Crew, Handle: p.box},
		{Pattern: "GET /b/{build}/paint/tin/{tin}", Who: web.Guest, Handle: p.showTin},
		{Pattern: "POST /b/{build}/paint/tin/{tin}", Who: web.Crew, Handle: p.adjust},
	}
}

// mostTin is the largest tin, in millilitres.
const mostTin = 1_000_000

// tinsPage is the tins on hand with what was typed into its forms.
type tinsPage struct {
	sheet
	Typed tinForm
	Wrong field.Errors
}

// tinForm is a tin as it is typed.
type tinForm struct{ ID, Holds, Batch, Grade, Size, Left, Given string }

func (p place) showTins(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	switch r.As() {
	case "csv":
		return r.CSV("tins.csv", s.tins().Records())
	case "json":
		return r.JSON(s.Build.Tins)
	}
	return p.desk.Page(r, web.Sheet{Place: "paint", Shown: fmt.Sprintf("%d tins", len(s.Build.Tins))}, tinsSheet(tinsPage{sheet: s, Typed: tinForm{ID: s.nextTin()}}))
}

func (s sheet) nextTin() string {
	return next("N", s.Build.Tins, func(t build.Tin) string { return string(t.ID) })
}

// takeIn keeps a tin that came in.
func (p place) takeIn(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	f, err := r.Form()
	if err != nil {
		return err
	}
	entry, err := f.EntryID()
	if err != nil {
		return err
	}
	page := tinsPage{sheet: s, Typed: tinForm{f.Raw("id"), f.Raw("holds"), f.Raw("batch"), f.Raw("grade"), f.Raw("size"), f.Raw("left"), f.Raw("given")}}
	tin := build.Tin{ID: build.TinID(strings.ToUpper(f.Text("id", 1, 20))), Batch: f.Text("batch", 0, 40), Grade: f.Text("grade", 0, 40),
		Size: unit.Volume(f.Decimal("size", 3, 1, mostTin)) * 1000, Given: f.Has("given"), Arrived: s.Today}
	tin.Product, tin.Part = s.holds(f)
	if strings.TrimSpace(page.Typed.Left) != "" {
		tin.Left = unit.Volume(f.Decimal("left", 3, 1, mostTin)) * 1000
	}
	switch {
	case f.Err() != nil:
	case s.Build.Tin(tin.ID) != nil:
		f.Fail("id", "is taken: write the next free number on the lid, "+s.nextTin())
	case tin.Left > tin.Size:
		f.Fail("left", "is more than the tin holds")
	}
	change := &build.TakeInTin{Tin: tin}
	if f.Err() == nil {
		if _, err := build.ApplyAll(*s.Build, []build.Change{change}); err != nil {
			f.Fail("id", err.Error())
		}
	}
	if page.Wrong = f.Errors; len(page.Wrong) > 0 {
		return r.Invalid(web.Sheet{Place: "paint", Shown: "tins"}, tinsSheet(page))
	}
	return p.desk.Keep(r, entry, change.Say(s.Build), s.Base+"/paint/tins", change)
}

// holds reads which part of which product a tin holds, written "product 0".
func (s sheet) holds(f *web.Form) (build.ProductID, int) {
	for _, p := range s.Build.Products {
		for i := range max(len(p.Mix), 1) {
			if f.Raw("holds") == fmt.Sprintf("%s %d", p.ID, i) {
				return p.ID, i
			}
		}
	}
	f.Fail("holds", "is not chosen: what is in the tin?")
	return "", 0
}

// parts lists every part of every product that a tin can hold, each name once.
func (s sheet) parts(picked string) []field.Option {
	list := []field.Option{{Value: "", Label: "choose", Picked: picked == ""}}
	seen := map[string]bool{}
	for _, p := range s.Build.Products {
		for i := range max(len(p.Mix), 1) {
			name := takeoff.PartName(p, i)
			if seen[name] || i < len(p.Mix) && p.Mix[i] <= 0 {
				continue
			}
			seen[name] = true
			value := fmt.Sprintf("%s %d", p.ID, i)
			list = append(list, field.Option{Value: value, Label: name, Picked: picked == value})
		}
	}
	return list
}

// box keeps that tins were blended into one colour.
func (p place) box(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	f, err := r.Form()
	if err != nil {
		return err
	}
	entry, err := f.EntryID()
	if err != nil {
		return err
	}
	change := &build.BoxTins{}
	for _, id := range f.All("tins") {
		change.Tins = append(change.Tins, build.TinID(id))
	}
	if _, err := build.ApplyAll(*s.Build, []build.Change{change}); err != nil {
		page := tinsPage{sheet: s, Typed: tinForm{ID: s.nextTin()}, Wrong: field.Errors{{Field: "tins", Msg: "cannot be boxed: " + err.Error()}}}
		return r.Invalid(web.Sheet{Place: "paint", Shown: "tins"}, tinsSheet(page))
	}
	return p.desk.Keep(r, entry, change.Say(s.Build), s.Base+"/paint/tins", change)
}

// boxable are groups of tins of one paint that are in more than one batch and
// not boxed yet.
func (s sheet) boxable() [][]build.Tin {
	var groups [][]build.Tin
	for _, p := range s.Build.Products {
		var open []build.Tin
		for _, t := range stage.TinsFor(s.Build, p, 0) {
			if t.Product == p.ID {
				open = append(open, t)
			}
		}
		apart := func(t build.Tin) bool {
			return t.Batch != open[0].Batch && (t.Boxed == "" || t.Boxed != open[0].Boxed)
		}
		if len(open) > 1 && slices.ContainsFunc(open, apart) {
			groups = append(groups, open)
		}
	}
	return groups
}

// tinPage is one tin, as a scan of its number opens it.
type tinPage struct {
	sheet
	Tin   build.Tin
	Part  string
	Next  []coming // what goes on next and has it in its mix
	Pours []build.Pour
	Left  string
	Why   string
	Wrong field.Errors
}

func (p place) tin(r *web.Request) (tinPage, error) {
	f, err := p.front(r)
	if err != nil {
		return tinPage{}, err
	}
	tin := f.Build.Tin(build.TinID(strings.ToUpper(r.Path("tin"))))
	if tin == nil {
		return tinPage{}, fault.New(fault.NotFound, "there is no tin %q", r.Path("tin")).WithHint("the sheet Tins lists every tin with its number")
	}
	t := tinPage{sheet: f.sheet, Tin: *tin, Part: takeoff.PartName(*f.Build.Product(tin.Product), tin.Part), Left: litre(tin.Left)}
	has := func(x build.Tin) bool { return x.ID == tin.ID }
	for _, n := range f.Next {
		for i := range max(len(n.Product.Mix), 1) {
			if slices.ContainsFunc(stage.TinsFor(f.Build, n.Product, i), has) {
				t.Next = append(t.Next, n)
				break
			}
		}
	}
	for _, m := range f.Build.Pours {
		if slices.ContainsFunc(m.Parts, func(q build.Poured) bool { return q.Tin == tin.ID }) {
			t.Pours = append(t.Pours, m)
		}
	}
	return t, nil
}

// mixOf is the mix card of what goes on next, poured out of this tin.
func (t tinPage) mixOf(n coming) string {
	return front{sheet: t.sheet}.mixOf(n) + "&tin=" + string(t.Tin.ID)
}

// emptyMix is the mix card of the tin's own product, nothing chosen yet.
func (t tinPage) emptyMix() string {
	return t.Base + "/paint/mix/" + string(t.Tin.Product) + "?tin=" + string(t.Tin.ID)
}

func (p place) showTin(r *web.Request) error {
	t, err := p.tin(r)
	if err != nil {
		return err
	}
	if r.As() == "json" {
		return r.JSON(t.Tin)
	}
	return p.desk.Page(r, web.Sheet{Place: "paint", Shown: "tin " + string(t.Tin.ID)}, tinSheet(t))
}

// adjust keeps how much is really in a tin.
func (p place) adjust(r *web.Request) error {
	t, err := p.tin(r)
	if err != nil {
		return err
	}
	f, err := r.Form()
	if err != nil {
		return err
	}
	entry, err := f.EntryID()
	if err != nil {
		return err
	}
	t.Left, t.Why = f.Raw("left"), f.Raw("why")
	change := &build.AdjustTin{Tin: t.Tin.ID, Left: unit.Volume(f.Decimal("left", 3, 0, mostTin)) * 1000, Why: f.Text("why", 2, 200)}
	if f.Err() == nil && change.Left > t.Tin.Size {
		f.Fail("left", "is more than the tin holds, "+t.Tin.Size.String())
	}
	if t.Wrong = f.Errors; len(t.Wrong) > 0 {
		return r.Invalid(web.Sheet{Place: "paint", Shown: "tin " + string(t.Tin.ID)}, tinSheet(t))
	}
	return p.desk.Keep(r, entry, change.Say(t.Build), t.tinPath(t.Tin.ID), change)
}
