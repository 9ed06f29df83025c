package metal

import (
	"fmt"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/drawn"
	"fettle/internal/web"
	"fettle/internal/web/ui/vehicle"
	"fettle/unit"
)

// newPage is the form of a new finding.
type newPage struct {
	scene
	Number build.FindingID
	Panel  *build.Panel // nil before one is chosen
	View   vehicle.View
	Entry  entry
	Choose chooser
}

// chooser is the remedies side by side.
type chooser struct {
	scene
	Entry  entry
	Task   build.TaskID
	Ways   []way
	Trades []build.Trade
	Sized  bool
	Words  string // the break-even
	Quoted string // what the list of parts knows
}

func (p place) blank(r *web.Request) error {
	s, err := p.scene(r)
	if err != nil {
		return err
	}
	return p.form(r, s, first(s.Build, r))
}

// form shows the form of a finding, with what is wrong in it.
func (p place) form(r *web.Request, s scene, e entry) error {
	page := newPage{scene: s, Number: s.Build.NextFinding(), Panel: e.panel(s.Build), Entry: e}
	choose, err := p.choose(r, s, e)
	if err != nil {
		return err
	}
	page.Choose = choose
	if page.Panel != nil {
		views := drawn.Views(s.Build, drawn.Options{Base: s.At(), Kept: s.Kept, Touch: true, Panel: page.Panel.ID})
		page.View, _ = drawn.View(views, drawn.Shows(s.Build, page.Panel))
	}
	sheet := web.Sheet{Place: "metal", Shown: fmt.Sprintf("new finding %s", page.Number), Scripts: []string{script}}
	if len(e.Wrong) > 0 {
		return r.Invalid(sheet, showNew(page))
	}
	return r.Page(sheet, showNew(page))
}

// choose works out the remedies for what is typed so far.
func (p place) choose(r *web.Request, s scene, e entry) (chooser, error) {
	view, err := p.desk.View(r)
	if err != nil {
		return chooser{}, err
	}
	c := chooser{scene: s, Entry: e}
	panel := e.panel(s.Build)
	price, lead := e.price(), 0
	if panel != nil {
		c.Task = panel.Task
		if part, own := quoted(s.Build, panel); part != nil {
			c.Quoted = onList(s.Build, part, own)
			if price == 0 {
				price, lead = part.Price, part.Lead
			}
		}
	}
	size := e.loose()
	c.Sized = size.Width > 0
	c.Ways = waysOf(s.Build, p.desk.Shop.Rates(view), c.Task, size, price)
	c.Trades = tradesOf(s.Build, c.Task)
	c.Words = breakEven(s.Build, c.Ways, price, lead)
	return c, nil
}

func onList(b *build.Build, part *build.Part, own bool) string {
	what := "for the other side"
	if own {
		what = "on the list already"
	}
	return fmt.Sprintf("%s %s is %s: %s, %d working days.", part.ID, part.Name, what, b.Currency.Format(part.Price), part.Lead)
}

// tradesOf are the trades of a task, then those of all metal work.
func tradesOf(b *build.Build, task build.TaskID) []build.Trade {
	does := map[build.TradeID]bool{}
	for _, t := range b.Tasks {
		if t.ID == task || t.Findings {
			for _, l := range t.Legs {
				does[l.Trade] = true
			}
		}
	}
	var out []build.Trade
	for _, t := range b.Trades {
		if does[t.ID] {
			out = append(out, t)
		}
	}
	return out
}

// guess answers a script that asks what the remedies would take.
func (p place) guess(r *web.Request) error {
	s, err := p.scene(r)
	if err != nil {
		return err
	}
	f, err := r.Form()
	if err != nil {
		return err
	}
	c, err := p.choose(r, s, typed(s.Build, f))
	if err != nil {
		return err
	}
	return r.Fragment(showChooser(c))
}

// record lays a new finding on the slip.
func (p place) record(r *web.Request) error {
	s, err := p.scene(r)
	if err != nil {
		return err
	}
	f, err := r.Form()
	if err != nil {
		return err
	}
	e := typed(s.Build, f)
	view, err := p.desk.View(r)
	if err != nil {
		return err
	}
	found := e.finding(s.Build, f)
	e.Photos = p.keepPhotos(r, f, e.Photos)
	change := &build.RecordFinding{}
	found.Remedy, found.Work = e.remedy(s.Build, f, p.desk.Shop.Rates(view), found.Task, found.Size)
	found.How = strings.TrimSpace(e.How)
	change.Decision = e.decision(f, found.Remedy)
	change.Parts = e.parts(f, found.ID, found.Task)
	change.Finding = found
	if e.Wrong = f.Errors; len(e.Wrong) > 0 {
		return p.form(r, s, e)
	}
	changes := append([]build.Change{change}, photosOf("finding/"+string(found.ID), found.What, e.Photos, r, view.Now)...)
	if wrong := refused(s.Build, changes, f); wrong {
		e.Wrong = f.Errors
		return p.form(r, s, e)
	}
	next := s.At()
	if v := f.Raw("view"); v != "" {
		next += "?view=" + v
	}
	return p.desk.Propose(r, next, changes...)
}

// refused notes in the form why the changes do not apply.
func refused(b *build.Build, changes []build.Change, f *web.Form) bool {
	_, err := build.ApplyAll(*b, changes)
	if err == nil {
		return false
	}
	name := "words"
	for _, try := range []struct{ in, field string }{{"part", "part-id"}, {"width", "width"}, {"height", "height"}, {"x_mm", "x"}, {"z_mm", "z"},
		{"panels", "panel"}, {"work", "remedy"}, {"task", "panel"}} {
		if strings.Contains(err.Error(), try.in) {
			name = try.field
			break
		}
	}
	text := err.Error()
	if hint := fault.HintOf(err); hint != "" {
		text += ": " + hint
	}
	f.Fail(name, text)
	return true
}

// mm writes a length as it is typed.
func mm(l unit.Length) string { return unit.FormatDecimal(int64(l), 3, 0) }
