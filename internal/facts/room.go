package facts

import (
	"github.com/a-h/templ"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/desk"
	"fettle/internal/web"
)

// Room is where a place has its facts entered.
type Room[S any] struct {
	Desk  desk.Desk
	Place string // key of the place
	Tail  string // behind the address of the build, such as /trim/sewn
	Label string // of the ways between the kinds
	Kinds func() []Kind[S]
	Load  func(r *web.Request) (S, error)
	Of    func(s S) Base
	Frame func(s S) templ.Component        // the ways of the place
	Help  func(key string) templ.Component // beneath the form of a kind; may be nil
	Drop  func(key, id string) build.Change
}

// Base is what the pages need of what the place works out.
type Base struct {
	Build *build.Build // with the person's slip drawn in
	Path  string       // /b/pedlar
	Crew  bool         // may record
	Entry string       // for the form
}

// Routes are the pages of all kinds.
func (m Room[S]) Routes() []web.Route {
	at := "/b/{build}" + m.Tail + "/{what}"
	return []web.Route{
		{Pattern: "GET " + at, Who: web.Guest, Handle: m.list},
		{Pattern: "GET " + at + "/new", Who: web.Crew, Handle: m.one},
		{Pattern: "GET " + at + "/{id}", Who: web.Guest, Handle: m.one},
		{Pattern: "POST " + at, Who: web.Crew, Handle: m.set},
		{Pattern: "POST " + at + "/{id}/drop", Who: web.Crew, Handle: m.drop},
	}
}

// kind finds a kind by its key.
func (m Room[S]) kind(key string) (Kind[S], error) {
	for _, k := range m.Kinds() {
		if k.Key == key {
			return k, nil
		}
	}
	return Kind[S]{}, fault.New(fault.NotFound, "nothing here is called %q", key)
}
