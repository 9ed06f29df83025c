package metal

import (
	"fmt"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/desk"
	"fettle/internal/job"
	"fettle/internal/web"
	"fettle/internal/web/ui/progress"
	stage "fettle/stage/metal"
	"fettle/unit"
)

// momentBlanks is how many blanks are laid quickly while the page waits: a
// second or two on one slow core. More, or a longer look, is a job.
const momentBlanks = 30

// laySheets works a cut plan out and lays it on the slip, or leads to its
// progress where it takes more than a moment.
func (p place) laySheets(r *web.Request) error {
	s, f, err := p.formOf(r)
	if err != nil {
		return err
	}
	gauge, err := s.gauge(f.Raw("gauge"))
	if err != nil {
		return err
	}
	steps := int64(desk.QuickSteps)
	if f.Raw("steps") != "" {
		steps = f.Int("steps", 1, desk.MostSteps)
	}
	if err := f.Err(); err != nil {
		return err
	}
	o, err := stage.OrderOf(s.Build, gauge, 1, int(steps))
	if err != nil {
		return err
	}
	if steps <= desk.QuickSteps && o.Copies() <= momentBlanks {
		laid, err := o.Lay(r.Context(), nil, func(stage.Laid) {})
		if err != nil {
			return err
		}
		return p.desk.Propose(r, s.At()+"/sheets", &build.KeepSheetPlan{Plan: laid.Plan})
	}
	if p.desk.Jobs == nil {
		return fault.New(fault.Invalid, "nothing that takes long is worked out here").WithHint("Choose the quick look.")
	}
	work, err := p.desk.Jobs.Ask(r.Context(), job.Request{Kind: stage.LayKind, Build: r.Build(), By: r.Person().Code,
		What: fmt.Sprintf("cut plan of %s sheet in %d steps", gaugeOf(gauge), steps), Page: s.At() + "/sheets/work", Input: o.Bytes()})
	if err != nil {
		return err
	}
	return r.SeeOther(s.At() + "/sheets/work/" + work.Key)
}

// gauge returns the gauge of blanks that is written so.
func (s scene) gauge(text string) (unit.Length, error) {
	for _, g := range s.Build.Gauges() {
		if gaugeOf(g) == text {
			return g, nil
		}
	}
	return 0, fault.New(fault.NotFound, "no blank is of %q", text)
}

// sheetWork is a cut plan under way, or one that is found and not kept.
type sheetWork struct {
	scene
	Job    job.Job
	Bar    progress.Params
	Laid   stage.Laid
	Cuts   []cutSheet
	Faults []string // on the blanks and sheets as they are now
}

func (p place) sheetWorkOf(r *web.Request) (sheetWork, error) {
	s, err := p.scene(r)
	if err != nil {
		return sheetWork{}, err
	}
	w := sheetWork{scene: s}
	if w.Job, w.Bar, err = p.desk.Job(r, stage.LayKind); err != nil || w.Job.Best == nil {
		return w, err
	}
	if w.Laid, err = stage.Read(w.Job.Best); err != nil {
		return w, err
	}
	w.Laid.Plan.Job = w.Job.Key
	tried := s.Build.Clone()
	if err := (&build.KeepSheetPlan{Plan: w.Laid.Plan}).Apply(&tried); err != nil {
		w.Faults = []string{err.Error()}
		return w, nil
	}
	verdict, err := stage.Judge(&tried, w.Laid.Plan)
	if err != nil {
		return w, err
	}
	w.Faults = verdict.Faults
	w.Cuts, err = cutSheets(&tried, w.Laid.Plan)
	return w, err
}

// headline says how the cut plan stands.
func (w sheetWork) headline() string {
	n, missing := len(w.Laid.Plan.Placed), len(w.Laid.Missing)
	switch {
	case w.Job.State == job.Failed:
		return "It could not be laid out: " + w.Job.Fault
	case n+missing == 0 || n == 0 && w.Job.State.Open():
		return "Nothing is found yet."
	case len(w.Faults) > 0:
		return "It cannot be cut so on the sheets as they are now: lay it out anew."
	case missing > 0 && w.Job.State.Open():
		return fmt.Sprintf("%s laid, %d without a place so far.", blanksWord(n), missing)
	case w.Laid.Plan.Note != "":
		return w.Laid.Plan.Note
	case missing > 0:
		return fmt.Sprintf("%s laid, %d without a place.", blanksWord(n), missing)
	}
	return fmt.Sprintf("All %s lie on what is on the rack.", blanksWord(n))
}

// told says with how much work it was found and what the exact checker measured.
func (w sheetWork) told() string {
	text := fmt.Sprintf("%d of %d steps, seed %d", w.Laid.Steps, w.Laid.Budget, w.Laid.Seed)
	if w.Laid.Done && len(w.Faults) == 0 && w.Laid.Gap > 0 {
		text += fmt.Sprintf("; checked on the true shapes, smallest gap %.1f mm", w.Laid.Gap)
	}
	text += "."
	for _, at := range w.Laid.Resumed {
		text += fmt.Sprintf(" Cut off at %d steps, it went on from the best it had.", at)
	}
	return text
}

// keepable tells whether the plan can go on the slip.
func (w sheetWork) keepable() bool {
	return !w.Job.State.Open() && len(w.Laid.Plan.Placed) > 0 && len(w.Faults) == 0
}

func (p place) sheetWork(r *web.Request) error {
	w, err := p.sheetWorkOf(r)
	if err != nil {
		return err
	}
	if r.As() == "json" {
		return r.JSON(map[string]any{"state": w.Job.State, "laid": w.Laid, "faults": w.Faults})
	}
	return p.desk.Page(r, web.Sheet{Place: "metal", Shown: w.Job.What}, showSheetWork(w))
}

// keepSheetWork lays the plan on the slip, unless the exact checker refuses it
// on the sheets as they are now.
func (p place) keepSheetWork(r *web.Request) error {
	w, err := p.sheetWorkOf(r)
	if err != nil {
		return err
	}
	if !w.keepable() {
		return fault.New(fault.Invalid, "%s", w.headline())
	}
	return p.desk.Propose(r, w.Base+"/slip", &build.KeepSheetPlan{Plan: w.Laid.Plan})
}
