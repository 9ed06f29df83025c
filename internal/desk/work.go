package desk

import (
	"time"

	"fettle/fault"
	"fettle/internal/account"
	"fettle/internal/job"
	"fettle/internal/web"
	"fettle/internal/web/ui/progress"
)

// Work is a piece of long work as its box shows it on the page asked for. It
// offers no way to that page itself.
func Work(r *web.Request, j job.Job) progress.Params {
	p := progress.Params{ID: "work-" + j.Key, What: j.What, State: progress.State(j.State), Ahead: j.Ahead, By: j.By, Asked: moment(j.Asked, r.Now()),
		Done: j.Progress.Done, Of: j.Progress.Of, Best: j.Progress.Figure, Fault: j.Fault, Show: j.Page, All: "/b/" + j.Build + "/jobs"}
	if j.State == job.Working {
		p.State = progress.Working
	}
	p.Spent = Spent(j, r.Now())
	if r.Person().Role >= account.Crew {
		p.Stop, p.Again = p.All+"/"+j.Key+"/stop", p.All+"/"+j.Key+"/again"
	}
	at := r.HTTP().URL.EscapedPath()
	if p.Show == at || j.Best == nil && j.Progress.Figure == "" {
		p.Show = ""
	}
	if p.All == at {
		p.All = ""
	}
	return p
}

// Job returns the work of a kind whose key is in the address, and its box on a
// page that follows it itself. Work of another build or kind is not found.
func (d Desk) Job(r *web.Request, kind string) (job.Job, progress.Params, error) {
	if d.Jobs == nil {
		return job.Job{}, progress.Params{}, fault.New(fault.NotFound, "nothing that takes long is worked out here")
	}
	j, err := d.Jobs.Get(r.Context(), r.Path("key"))
	if err != nil {
		return j, progress.Params{}, err
	}
	if j.Build != r.Build() || j.Kind != kind {
		return j, progress.Params{}, fault.New(fault.NotFound, "this work is none of this page: it is another build's, or of another kind")
	}
	bar := Work(r, j)
	bar.ID = ""
	return j, bar, nil
}

// Spent is how long the last run of work has taken, or took.
func Spent(j job.Job, now time.Time) time.Duration {
	switch {
	case j.Begun.IsZero():
		return 0
	case j.State.Open():
		return max(now.Sub(j.Begun), 0)
	}
	return j.Ended.Sub(j.Begun)
}

// moment writes a time of the clock, with its day unless that is today.
func moment(t, now time.Time) string {
	if t.Format(time.DateOnly) == now.In(t.Location()).Format(time.DateOnly) {
		return t.Format("15:04")
	}
	return t.Format("2 Jan 15:04")
}
