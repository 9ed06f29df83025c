package readin

import (
	"slices"
	"sync"

	"fettle/fault"
	"fettle/internal/desk"
	lists "fettle/internal/readin"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
)

// place holds the lists that lie on the table between their reading and their
// taking: the newest of each person, and no more than a few in all.
type place struct {
	desk     desk.Desk
	examples []Example

	mu    sync.Mutex
	table map[string]held // by owner
	order []string        // owners, the longest unused first
}

// held is a list on the table.
type held struct {
	id   string
	list lists.Sheet
}

// mostHeld is how many lists lie on the table at most.
const mostHeld = 12

// owner names who laid a list down, and for which build.
func owner(r *web.Request) string { return r.Build() + "/" + r.Person().Code + "/" + r.Device() }

// lay puts a list on the table in place of the owner's last one.
func (p *place) lay(owner string, list lists.Sheet) string {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.order = append(slices.DeleteFunc(p.order, func(o string) bool { return o == owner }), owner)
	for len(p.order) > mostHeld {
		delete(p.table, p.order[0])
		p.order = p.order[1:]
	}
	h := held{field.NewEntry(), list}
	p.table[owner] = h
	return h.id
}

// onTable returns a list that lies on the table.
func (p *place) onTable(owner, id string) (lists.Sheet, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	h, ok := p.table[owner]
	if !ok || h.id != id {
		return lists.Sheet{}, fault.New(fault.NotFound, "that list is no longer on the table").
			WithHint("Read it in again: lists wait only until the next one, or until the server stops. Nothing was kept.")
	}
	return h.list, nil
}
