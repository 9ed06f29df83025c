// Package knockon shows what the changes on a person's slip would do, keeps
// them or puts them back, and takes kept entries back.
package knockon

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/desk"
	"fettle/internal/journal"
	"fettle/internal/live"
	"fettle/internal/web"
	"fettle/internal/web/ui/slip"
)

// Place returns the place with its routes.
func Place(d desk.Desk) web.Place {
	p := place{d}
	return web.Place{Key: "slip", Path: "/b/{build}/slip", Routes: []web.Route{
		{Pattern: "GET /b/{build}/slip", Who: web.Crew, Handle: p.show},
		{Pattern: "GET /b/{build}/slip/headline", Who: web.Crew, Handle: p.headline},
		{Pattern: "POST /b/{build}/slip/keep", Who: web.Crew, Handle: p.keep},
		{Pattern: "POST /b/{build}/slip/back", Who: web.Crew, Handle: p.putBack},
		{Pattern: "POST /b/{build}/slip/drop", Who: web.Crew, Handle: p.drop},
		{Pattern: "POST /b/{build}/undo", Who: web.Crew, Handle: p.undo},
	}}
}

type place struct{ desk desk.Desk }

// sheet is what the page needs to know.
type sheet struct {
	Build string
	Acts  []act
	Slip  slip.Slip
	Trial live.Trial
	Stale string // why the slip no longer applies; empty when it does
}

// drawn tells whether the slip is drawn, with its own heading.
func (s sheet) drawn() bool { return len(s.Acts) > 0 && s.Stale == "" }

// act is one change on the slip, in words.
type act struct {
	Number int
	Says   string
}

func (p place) load(r *web.Request) (sheet, live.Slip, error) {
	view, err := p.desk.View(r)
	if err != nil {
		return sheet{}, live.Slip{}, err
	}
	own, err := p.desk.Shop.Slip(r.Context(), r.Build(), r.Person().Code)
	if err != nil {
		return sheet{}, own, err
	}
	s := sheet{Build: r.Build(), Acts: acted(view.Build, own.Changes)}
	if len(own.Changes) == 0 {
		return s, own, nil
	}
	s.Trial, err = p.desk.Shop.Try(r.Context(), r.Build(), own.Changes)
	if f := fault.KindOf(err); err != nil && f == fault.Invalid {
		s.Stale = err.Error()
		return s, own, nil
	}
	if err != nil {
		return s, own, err
	}
	s.Slip = lines(s, r.Build())
	return s, own, nil
}

// acted puts changes into words, each on top of those before it, so that what
// one adds the next can name.
func acted(b build.Build, changes []build.Change) []act {
	list := make([]act, len(changes))
	b = b.Clone()
	for i, c := range changes {
		list[i] = act{i + 1, c.Say(&b)}
		_ = c.Apply(&b) // a fault leaves b as it was, and is told by the trial
	}
	return list
}

func (p place) show(r *web.Request) error {
	s, own, err := p.load(r)
	if err != nil {
		return err
	}
	if r.As() == "json" {
		return r.JSON(s.Trial.KnockOn)
	}
	shown := fmt.Sprintf("what %d changes would do", len(own.Changes))
	if len(own.Changes) == 1 {
		shown = "what one change would do"
	}
	return r.Page(web.Sheet{Place: "Knock-on", Shown: shown}, page(s))
}

func (p place) headline(r *web.Request) error {
	s, _, err := p.load(r)
	if err != nil {
		return err
	}
	return r.Fragment(headline(s))
}

func (p place) keep(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	entry, err := f.EntryID()
	if err != nil {
		return err
	}
	own, err := p.desk.Shop.Slip(r.Context(), r.Build(), r.Person().Code)
	if err != nil {
		return err
	}
	if len(own.Changes) == 0 {
		return r.SeeOther("/b/" + r.Build() + "/slip")
	}
	text := fmt.Sprintf("%d changes", len(own.Changes))
	if view, err := p.desk.View(r); err == nil && len(own.Changes) == 1 {
		text = own.Changes[0].Say(&view.Build)
	}
	if err := p.desk.Record(r, entry, text, own.Changes...); err != nil {
		return err
	}
	return p.putBack(r)
}

// putBack clears the slip.
func (p place) putBack(r *web.Request) error {
	if err := p.desk.Shop.SaveSlip(r.Context(), r.Build(), r.Person().Code, live.Slip{}); err != nil {
		return err
	}
	return r.SeeOther("/b/" + r.Build() + "/van")
}

func (p place) drop(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	own, err := p.desk.Shop.Slip(r.Context(), r.Build(), r.Person().Code)
	if err != nil {
		return err
	}
	n := int(f.Int("number", 1, int64(max(len(own.Changes), 1))))
	if f.Err() != nil {
		return f.Err()
	}
	if n <= len(own.Changes) {
		own.Changes = slices.Delete(own.Changes, n-1, n)
	}
	if err := p.desk.Shop.SaveSlip(r.Context(), r.Build(), r.Person().Code, own); err != nil {
		return err
	}
	return r.SeeOther("/b/" + r.Build() + "/slip")
}

func (p place) undo(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	all, err := p.desk.Shop.Entries(r.Context(), r.Build())
	if err != nil {
		return err
	}
	ids, err := live.Named(all, f.Raw("undoes"))
	if err != nil {
		return err
	}
	kept, err := p.desk.Shop.Undo(r.Context(), r.Build(), desk.Who(r), ids...)
	if err != nil {
		return err
	}
	r.Kept("put back: "+told(all, ids), fmt.Sprintf("%d-%d", kept[0].Seq, kept[len(kept)-1].Seq), "")
	base := "/b/" + r.Build() + "/"
	if back := f.Raw("back"); strings.HasPrefix(back, base) {
		return r.SeeOther(back)
	}
	return r.SeeOther(desk.Back(r, base+"journal"))
}

func told(all []journal.Entry, ids []string) string {
	for _, e := range all {
		if len(ids) == 1 && e.ID == ids[0] {
			return fmt.Sprintf("entry %d, %s", e.Seq, e.Kind)
		}
	}
	return fmt.Sprintf("%d entries", len(ids))
}

// sampling says how far the chances of both plans may be off.
func sampling(t live.Trial) string {
	worst := math.Ceil(100 * max(t.KnockOn.Before.StdErr, t.KnockOn.After.StdErr))
	return fmt.Sprintf("Chances from %d played builds each, the same luck before and after; give or take %.0f points.", t.After.Odds.Runs, worst)
}
