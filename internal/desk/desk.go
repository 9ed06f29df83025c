// Package desk is what all places share when they ask the live build: the plan
// on a page, a person's slip of changes not kept yet, keeping and taking back.
package desk

import (
	"fmt"
	"hash/fnv"
	"net/url"
	"strings"

	"github.com/a-h/templ"

	"fettle/build"
	"fettle/internal/job"
	"fettle/internal/journal"
	"fettle/internal/live"
	"fettle/internal/vault"
	"fettle/internal/web"
	slipui "fettle/internal/web/ui/slip"
	"fettle/plan"
)

// Desk is given to every place.
type Desk struct {
	Shop  *live.Shop
	Vault vault.Vault // photos; nil where none are kept
	Jobs  job.Queue   // long work; nil where none is done
}

// Who says who asks, for the journal.
func Who(r *web.Request) live.Who {
	return live.Who{Person: r.Person().Code, Device: r.Device()}
}

// By is the person of the build who asks, or nobody.
func By(r *web.Request, b *build.Build) build.PersonID {
	if p := b.Person(build.PersonID(r.Person().Code)); p != nil {
		return p.ID
	}
	return ""
}

// Plan returns the plan and the build that the request names.
func (d Desk) Plan(r *web.Request) (*plan.Plan, live.View, error) {
	return d.Shop.Plan(r.Context(), r.Build())
}

// View returns the build that the request names, without its plan.
func (d Desk) View(r *web.Request) (live.View, error) { return d.Shop.View(r.Context(), r.Build()) }

// Page answers with a sheet, and with the bar of the person's slip at its foot
// when there is something on it.
func (d Desk) Page(r *web.Request, sh web.Sheet, body ...templ.Component) error {
	slip, err := d.Shop.Slip(r.Context(), r.Build(), r.Person().Code)
	if err == nil && len(slip.Changes) > 0 {
		body = append(body, slipui.Bar(r.Build(), len(slip.Changes)))
	}
	return r.Page(sh, body...)
}

// Propose lays changes on the person's slip and goes on to the next page. They
// are tried against the build and what is on the slip already, so that a slip
// always applies.
func (d Desk) Propose(r *web.Request, next string, changes ...build.Change) error {
	view, err := d.View(r)
	if err != nil {
		return err
	}
	slip, err := d.Shop.Slip(r.Context(), r.Build(), r.Person().Code)
	if err != nil {
		return err
	}
	slip.Changes = append(slip.Changes, changes...)
	if _, err := build.ApplyAll(view.Build, slip.Changes); err != nil {
		return err
	}
	if err := d.Shop.SaveSlip(r.Context(), r.Build(), r.Person().Code, slip); err != nil {
		return err
	}
	return r.SeeOther(next)
}

// Drafted returns the build as it would be with the person's slip kept, so
// that a place can show it drawn in already, and the slip itself.
func (d Desk) Drafted(r *web.Request) (build.Build, live.Slip, error) {
	view, err := d.View(r)
	if err != nil {
		return build.Build{}, live.Slip{}, err
	}
	slip, err := d.Shop.Slip(r.Context(), r.Build(), r.Person().Code)
	if err != nil {
		return view.Build, slip, err
	}
	b, err := build.ApplyAll(view.Build, slip.Changes)
	if err != nil {
		return view.Build, slip, nil // the facts moved on: the slip's own page says which change no longer applies
	}
	return b, slip, nil
}

// Mark names what a person sees of a build: its journal number and what lies
// on their slip. Equal marks of one build mean equal facts.
func Mark(v live.View, slip live.Slip) string {
	h := fnv.New64a()
	for _, c := range slip.Changes {
		body, err := build.EncodeNamed(c)
		if err != nil {
			continue // it was read from such a form
		}
		h.Write(body)
	}
	return fmt.Sprintf("%s/%d/%d/%x", v.Build.Name, v.Seq, v.Now.Date(), h.Sum64())
}

// Holds tries changes on a copy of a build, where the form is right so far. What
// the model refuses is told at the field of that name.
func Holds(f *web.Form, b *build.Build, name string, changes ...build.Change) {
	if f.Err() != nil {
		return
	}
	tried := b.Clone()
	for _, c := range changes {
		if err := c.Apply(&tried); err != nil {
			f.Fail(name, "does not hold: "+err.Error())
			return
		}
	}
}

// NextID is the number that a new thing gets where there are so many: the first
// behind them that is free. The form writes it, such as T%02d.
func NextID(form string, there int, taken func(id string) bool) string {
	for n := there + 1; ; n++ {
		if id := fmt.Sprintf(form, n); !taken(id) {
			return id
		}
	}
}

// Keep keeps changes at once, for acts that need no second look, such as
// clocking, and goes on to the next page. entry is the ID made on the tablet
// for the first of them.
func (d Desk) Keep(r *web.Request, entry, text, next string, changes ...build.Change) error {
	if err := d.record(r, entry, text, Back(r, ""), changes); err != nil {
		return err
	}
	return r.SeeOther(next)
}

// Record keeps changes and lets the next page offer to put them back.
func (d Desk) Record(r *web.Request, entry, text string, changes ...build.Change) error {
	return d.record(r, entry, text, "", changes)
}

// record keeps changes; once put back, the page back is shown.
func (d Desk) record(r *web.Request, entry, text, back string, changes []build.Change) error {
	drafts := make([]live.Draft, len(changes))
	for i, c := range changes {
		drafts[i].Change = c
	}
	if len(drafts) > 0 {
		drafts[0].ID = entry
	}
	kept, err := d.Shop.Record(r.Context(), r.Build(), journal.AnySeq, Who(r), drafts)
	if err != nil {
		return err
	}
	r.Kept(text, span(kept), back)
	return nil
}

// Back returns the path of the page that a form was sent from, or other where
// the browser does not say or names a page elsewhere. A path of two slashes
// would lead to another host.
func Back(r *web.Request, other string) string {
	u, err := url.Parse(r.HTTP().Referer())
	if err != nil || u.Path == "" || u.Host != r.HTTP().Host || strings.HasPrefix(u.Path, "//") {
		return other
	}
	return u.RequestURI()
}

// span names kept entries by their journal numbers, as undo takes them.
func span(kept []journal.Entry) string {
	return fmt.Sprintf("%d-%d", kept[0].Seq, kept[len(kept)-1].Seq)
}
