package web

import (
	"slices"
	"sync"
)

// Event says that a build has moved on.
type Event struct {
	Seq    int64    `json:"seq"`    // the new journal number
	Places []string `json:"places"` // keys of the places that changed; none means all
	Text   string   `json:"text"`   // what was kept, for a person
}

// keepEvents is how many events a build remembers for a tablet that was away
// for a moment; one that was away longer is told that everything changed.
const keepEvents = 256

// Hub tells every listening tablet of changes. The zero Hub is not ready; use
// NewHub. It is safe for use by many at once.
type Hub struct {
	mu     sync.Mutex
	builds map[string]*channel
	done   chan struct{}
	end    sync.Once
}

type channel struct {
	past      []Event
	listeners map[*listener]struct{}
}

// listener is one tablet. Its wake channel holds at most one token: what it
// missed is read from the past, so a slow tablet costs nothing.
type listener struct {
	wake  chan struct{}
	stirs []string // places that changed without a journal number
}

// NewHub makes a hub without listeners.
func NewHub() *Hub { return &Hub{builds: map[string]*channel{}, done: make(chan struct{})} }

// Close ends every stream, so that a server can shut down. Tablets come back
// by themselves when it runs again. Give it to http.Server.RegisterOnShutdown.
func (h *Hub) Close() { h.end.Do(func() { close(h.done) }) }

// Publish tells all tablets that look at the build.
func (h *Hub) Publish(build string, ev Event) {
	h.mu.Lock()
	defer h.mu.Unlock()
	c := h.channel(build)
	c.past = append(c.past, ev)
	if len(c.past) > 2*keepEvents {
		c.past = slices.Clone(c.past[len(c.past)-keepEvents:])
	}
	for l := range c.listeners { // order does not show: each only gets a token
		select {
		case l.wake <- struct{}{}:
		default:
		}
	}
}

// Stir tells all tablets that look at the build, or at any where it is empty,
// that places show something new which no journal entry brought, such as work
// in the background. Only parts of a page that name such a place follow.
func (h *Hub) Stir(build string, places ...string) {
	h.mu.Lock()
	defer h.mu.Unlock()
	for name, c := range h.builds { // order does not show
		if build != "" && name != build {
			continue
		}
		for l := range c.listeners {
			l.stir(places)
		}
	}
}

func (l *listener) stir(places []string) {
	for _, p := range places {
		if !slices.Contains(l.stirs, p) {
			l.stirs = append(l.stirs, p)
		}
	}
	select {
	case l.wake <- struct{}{}:
	default:
	}
}

// stirred returns the places that were stirred since it was last asked.
func (h *Hub) stirred(l *listener) []string {
	h.mu.Lock()
	defer h.mu.Unlock()
	places := l.stirs
	l.stirs = nil
	return places
}

func (h *Hub) channel(build string) *channel {
	c := h.builds[build]
	if c == nil {
		c = &channel{listeners: map[*listener]struct{}{}}
		h.builds[build] = c
	}
	return c
}

func (h *Hub) listen(build string) *listener {
	h.mu.Lock()
	defer h.mu.Unlock()
	l := &listener{wake: make(chan struct{}, 1)}
	h.channel(build).listeners[l] = struct{}{}
	return l
}

func (h *Hub) leave(build string, l *listener) {
	h.mu.Lock()
	defer h.mu.Unlock()
	c := h.channel(build)
	delete(c.listeners, l)
	if len(c.listeners) == 0 && len(c.past) == 0 {
		delete(h.builds, build)
	}
}

// since returns the events after a journal number. When some of them are
// forgotten it returns one event that says everything changed.
func (h *Hub) since(build string, after int64) []Event {
	h.mu.Lock()
	defer h.mu.Unlock()
	past := h.channel(build).past
	if len(past) == 0 || past[len(past)-1].Seq <= after {
		return nil
	}
	if past[0].Seq > after+1 {
		return []Event{{Seq: past[len(past)-1].Seq}}
	}
	i := slices.IndexFunc(past, func(e Event) bool { return e.Seq > after })
	return slices.Clone(past[i:])
}
