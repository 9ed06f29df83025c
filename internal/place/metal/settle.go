package metal

import (
	"strings"

	"fettle/build"
	"fettle/internal/web"
)

// moveFinding keeps how far a finding is.
func (p place) moveFinding(r *web.Request) error {
	s, f, err := p.formOf(r)
	if err != nil {
		return err
	}
	found, err := s.found(r)
	if err != nil {
		return err
	}
	entry, err := f.EntryID()
	if err != nil {
		return err
	}
	change := &build.MoveFinding{Finding: found.ID, State: build.FindingState(f.Raw("state"))}
	next := s.At() + "/finding/" + string(found.ID)
	if s.draft(found.ID) {
		return p.desk.Propose(r, next, change)
	}
	return p.desk.Keep(r, entry, change.Say(s.Build), next, change)
}

// decideRemedy lays a new remedy on the slip.
func (p place) decideRemedy(r *web.Request) error {
	s, f, err := p.formOf(r)
	if err != nil {
		return err
	}
	found, err := s.found(r)
	if err != nil {
		return err
	}
	view, err := p.desk.View(r)
	if err != nil {
		return err
	}
	e, old := typed(s.Build, f), again(found)
	e.Panels, e.Width, e.Height, e.Count, e.Round = old.Panels, old.Width, old.Height, old.Count, old.Round
	change := &build.DecideRemedy{Finding: found.ID, How: strings.TrimSpace(e.How)}
	change.Remedy, change.Work = e.remedy(s.Build, f, p.desk.Shop.Rates(view), found.Task, found.Size)
	if change.Remedy == "" && f.Err() == nil {
		f.Fail("remedy", "is not chosen")
	}
	change.Decision, change.Parts = e.decision(f, change.Remedy), e.parts(f, found.ID, found.Task)
	if len(f.Errors) > 0 || refused(s.Build, []build.Change{change}, f) {
		e.Wrong = f.Errors
		return p.showFindingPage(r, s, found, e)
	}
	return p.desk.Propose(r, s.At()+"/finding/"+string(found.ID), change)
}

// withdraw lays on the slip that a finding turned out to be none.
func (p place) withdraw(r *web.Request) error {
	s, f, err := p.formOf(r)
	if err != nil {
		return err
	}
	found, err := s.found(r)
	if err != nil {
		return err
	}
	why := f.Text("why", 2, 200)
	if f.Err() != nil {
		e := again(found)
		e.Wrong = f.Errors
		return p.showFindingPage(r, s, found, e)
	}
	return p.desk.Propose(r, s.At(), &build.WithdrawFinding{Finding: found.ID, Why: why})
}

func (p place) formOf(r *web.Request) (scene, *web.Form, error) {
	s, err := p.scene(r)
	if err != nil {
		return s, nil, err
	}
	f, err := r.Form()
	return s, f, err
}
