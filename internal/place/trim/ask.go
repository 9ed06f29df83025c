package trim

import (
	"fmt"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/desk"
	"fettle/internal/job"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/progress"
	stage "fettle/stage/trim"
)

func (p place) askRoutes() []web.Route {
	at := "/b/{build}/trim/lay/{material}"
	return []web.Route{
		{Pattern: "POST " + at + "/ask", Who: web.Crew, Handle: p.ask},
		{Pattern: "GET " + at + "/work/{key}", Who: web.Guest, Handle: p.work},
		{Pattern: "POST " + at + "/work/{key}/keep", Who: web.Crew, Handle: p.keepWork},
	}
}

func budgets() []field.Option { return desk.Budgets("keeps more in one piece") }

// ask has the pieces of a material laid out and leads to its progress.
func (p place) ask(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	s, err := p.load(r)
	if err != nil {
		return err
	}
	asked := stage.Asked{Material: r.Path("material"), Lots: f.All("lot"), Mixed: f.Has("mixed"), Keep: f.Has("keep"), Rest: f.Has("rest")}
	for _, id := range f.All("without") {
		asked.Without = append(asked.Without, build.HideID(id))
	}
	steps, seed := int(f.Int("steps", 1, desk.MostSteps)), int64(1)
	if f.Raw("seed") != "" {
		seed = f.Int("seed", 0, 1_000_000)
	}
	if err := f.Err(); err != nil {
		return err
	}
	set, err := stage.SetOf(s.Build, asked)
	if err != nil {
		return err
	}
	order, err := set.Order(uint64(seed), steps)
	if err != nil {
		return err
	}
	jobs, err := p.jobs()
	if err != nil {
		return err
	}
	work, err := jobs.Ask(r.Context(), job.Request{Kind: stage.LayKind, Build: r.Build(), By: r.Person().Code, What: fmt.Sprintf("layout of %s in %d steps", asked.Material, steps), Page: s.layPath(asked.Material) + "/work", Input: order})
	if err != nil {
		return err
	}
	return r.SeeOther(s.workPath(asked.Material, work.Key))
}

// jobs is the queue, where this shop has one.
func (p place) jobs() (job.Queue, error) {
	if p.desk.Jobs == nil {
		return nil, fault.New(fault.Invalid, "no layouts are worked out here").WithHint("Lay the pieces by hand.")
	}
	return p.desk.Jobs, nil
}

func (s sheet) workPath(material, key string) string { return s.layPath(material) + "/work/" + key }

// workPage is a layout under way, or one that is found and not kept.
type workPage struct {
	sheet
	Job      job.Job
	Bar      progress.Params
	Material string
	Laid     stage.Laid
	Verdict  stage.Verdict // on the hides as they are now
	Cards    []sheetCard
	Mixed    []string // faces of several dye lots, by name
}

func (p place) workPage(r *web.Request) (workPage, error) {
	s, err := p.load(r)
	if err != nil {
		return workPage{}, err
	}
	page := workPage{sheet: s, Material: r.Path("material")}
	if page.Job, page.Bar, err = p.desk.Job(r, stage.LayKind); err != nil || page.Job.Best == nil {
		return page, err
	}
	if page.Laid, err = stage.Read(page.Job.Best); err != nil {
		return page, err
	}
	page.judge()
	return page, nil
}

// judge draws the layout and asks the exact checker on the hides as they are.
func (page *workPage) judge() {
	with := page.Build.Clone()
	layout := page.layout()
	with.Layouts = []build.Layout{layout}
	page.Verdict, page.Mixed = stage.VerdictOf(&with, page.Material), mixedWords(&with, page.Material)
	page.Cards = page.cards(page.Material, &layout, page.Verdict, false)
	if page.Laid.Done {
		leave(page.Cards, page.remnants(layout))
	}
}

// layout is what would be kept.
func (page workPage) layout() build.Layout {
	l := build.Layout{ID: build.LayoutID(page.Material), Material: page.Material, Placed: page.Laid.Placed, Mixed: page.Laid.Mixed, Job: page.Job.Key,
		Note: fmt.Sprintf("%s, worked out in %d steps from seed %d", piecesWord(len(page.Laid.Placed)), page.Laid.Steps, page.Laid.Seed)}
	if r := stage.RollOf(page.Build, page.Material); r != nil {
		l.Roll = r.ID
		l.Note += fmt.Sprintf(", %.3f m", page.Laid.Length/1000)
	}
	if old := page.Build.LayoutOf(page.Material); old != nil {
		l.ID = old.ID
	}
	return l
}

// on is what the layout takes.
func (page workPage) on() string {
	if r := stage.RollOf(page.Build, page.Material); r != nil {
		return fmt.Sprintf("%.3f m of roll %s", page.Laid.Length/1000, r.ID)
	}
	return hidesWord(len(page.Cards))
}

// headline says how the layout stands.
func (page workPage) headline() string {
	on := page.on()
	switch {
	case page.Job.State == job.Failed:
		return "It could not be laid out: " + page.Job.Fault
	case page.Job.Best == nil || len(page.Laid.Placed) == 0 && page.Job.State.Open():
		return "Nothing is found yet."
	case len(page.Verdict.Faults) > 0:
		return fmt.Sprintf("%s cannot be cut so on what is there now: lay it anew.", piecesWord(len(page.Verdict.Faults)))
	case page.Laid.Missing > 0 && page.Job.State.Open():
		return fmt.Sprintf("%s without a place so far on %s.", piecesWord(page.Laid.Missing), on)
	case page.Laid.Missing > 0:
		return fmt.Sprintf("Not enough: %s found no place on %s in %d steps.", piecesWord(page.Laid.Missing), on, page.Laid.Steps)
	}
	return fmt.Sprintf("All %d pieces lie on %s.", len(page.Laid.Placed), on)
}

// told says with how much work it was found and what the exact checker measured.
func (page workPage) told() string {
	text := fmt.Sprintf("%d of %d steps, seed %d", page.Laid.Steps, page.Laid.Budget, page.Laid.Seed)
	if page.Verdict.Gap > 0 && len(page.Verdict.Faults) == 0 {
		text += fmt.Sprintf("; checked on the true shapes, smallest gap %.1f mm", page.Verdict.Gap)
	}
	text += "."
	for _, at := range page.Laid.Resumed {
		text += fmt.Sprintf(" Cut off at %d steps, it went on from the best it had.", at)
	}
	return text
}

func (p place) work(r *web.Request) error {
	page, err := p.workPage(r)
	if err != nil {
		return err
	}
	if r.As() == "json" {
		return r.JSON(map[string]any{"state": page.Job.State, "laid": page.Laid, "verdict": page.Verdict})
	}
	return p.desk.Page(r, web.Sheet{Place: "trim", Shown: "a layout of " + page.Material}, showWork(page))
}

// keepWork lays the layout on the slip. What the exact checker refuses on the
// hides as they are now is not kept.
func (p place) keepWork(r *web.Request) error {
	page, err := p.workPage(r)
	if err != nil {
		return err
	}
	if len(page.Laid.Placed) == 0 || len(page.Verdict.Faults) > 0 {
		return fault.New(fault.Invalid, "%s", page.headline())
	}
	changes := []build.Change{&build.KeepLayout{Layout: page.layout()}}
	with := page.Build.Clone()
	if err := changes[0].Apply(&with); err != nil {
		return err
	}
	return p.desk.Propose(r, page.Base+"/slip", append(changes, wantMetres(&with, page.Material)...)...)
}

// wantMetres is the change that has the line of a roll in Stores say what its
// pieces take, more or less than it says; none where it is ordered already.
func wantMetres(b *build.Build, material string) []build.Change {
	r, n := stage.RollOf(b, material), stage.NeedOf(b, material)
	if r == nil || n.Metres == n.Have {
		return nil
	}
	if line := b.Part(r.Part); line == nil || line.State != build.Wanted {
		return nil
	}
	return []build.Change{&build.WantPart{Part: r.Part, Quantity: n.Metres}}
}
