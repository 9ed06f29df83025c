// Package flatwork has surfaces laid flat, and cuts looked for, as long work of
// a build, and says how that stands.
package flatwork

import (
	"encoding/json"

	"fettle/engine/flatten/longflat"
	"fettle/fault"
	"fettle/internal/desk"
	"fettle/internal/job"
	"fettle/internal/web"
	"fettle/internal/web/ui/progress"
	"fettle/internal/web/ui/surface"
)

// Ask asks for the work of an order and returns its key. What is the work in
// words.
func Ask(d desk.Desk, r *web.Request, order longflat.Order, what string) (key string, err error) {
	if d.Jobs == nil {
		return "", fault.New(fault.Invalid, "nothing that takes long is worked out here")
	}
	input, err := json.Marshal(order)
	if err != nil {
		return "", fault.Wrap(fault.Internal, err, "write the order")
	}
	work, err := d.Jobs.Ask(r.Context(), job.Request{Kind: longflat.Kind, Build: r.Build(), By: r.Person().Code, What: what, Input: input})
	return work.Key, err
}

// Work is how a piece of work stands. Without a key it was not asked for, or is
// tidied away.
type Work struct {
	Key    string
	Bar    progress.Params
	Answer *longflat.Answer // once it is done
	Order  longflat.Order   // what was asked, once it is done
	Fits   bool             // what a search found fits what is asked now, as For has it
}

// Asked tells whether there is work to show.
func (w Work) Asked() bool { return w.Key != "" }

// Open tells whether it goes on.
func (w Work) Open() bool {
	return w.Asked() && (w.Bar.State == progress.Working || w.Bar.State == progress.Waiting)
}

// Get returns how the work of a key stands, as the address of a page has it.
func Get(d desk.Desk, r *web.Request, key string) (Work, error) {
	if key == "" || d.Jobs == nil {
		return Work{}, nil
	}
	j, err := d.Jobs.Get(r.Context(), key)
	if err != nil || j.Build != r.Build() || j.Kind != longflat.Kind {
		return Work{}, nil // tidied away: it can be asked for again
	}
	w := Work{Key: key, Bar: desk.Work(r, j)}
	if j.State != job.Done {
		return w, nil
	}
	answer, err := longflat.Read(j.Best)
	w.Answer = &answer
	if err == nil {
		err = json.Unmarshal(j.Input, &w.Order)
	}
	return w, err
}

// Laid lays a surface flat as an order says: at once where it has few vertices,
// else as work, which a crew member's look at the page begins. The answer is
// nil as long as there is none; the work says how it stands.
func Laid(d desk.Desk, r *web.Request, order longflat.Order, vertices int, what string) (*longflat.Answer, Work, error) {
	if vertices <= surface.AtOnce {
		answer, err := order.Answer(r.Context(), nil)
		return &answer, Work{}, err
	}
	input, err := json.Marshal(order)
	if err != nil {
		return nil, Work{}, fault.Wrap(fault.Internal, err, "write the order")
	}
	w, err := Get(d, r, job.KeyOf(longflat.Kind, longflat.Version, input))
	if err != nil || w.Asked() || r.Person().Role < web.Crew {
		return w.Answer, w, err
	}
	key, err := Ask(d, r, order, what)
	if err != nil {
		return nil, Work{}, err
	}
	w, err = Get(d, r, key)
	return w.Answer, w, err
}
