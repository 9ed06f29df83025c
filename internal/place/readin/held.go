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
// taking, no more than a few in all.
type place struct {
	desk     desk.Desk
	examples []Example

	mu    sync.Mutex
	table []held // the oldest first
}

// held is a list on the table.
type held struct {
	id, owner string
	list      lists.Sheet
}

// mostHeld is how many lists lie on the table at most.
const mostHeld = 6

// owner names who laid a list down, and for which build.
func owner(r *web.Request) string { return r.Build() + "/" + r.Person().Code }

// lay puts a list on the table; where it is full, the oldest goes.
func (p *place) lay(owner string, list lists.Sheet) string {
	p.mu.Lock()
	defer p.mu.Unlock()
	h := held{field.NewEntry(), owner, list}
	p.table = append(p.table, h)
	if len(p.table) > mostHeld {
		p.table = slices.Delete(p.table, 0, 1)
	}
	return h.id
}

// onTable returns a list that lies on the table.
func (p *place) onTable(owner, id string) (lists.Sheet, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	for _, h := range p.table {
		if h.id == id && h.owner == owner {
			return h.list, nil
		}
	}
	return lists.Sheet{}, fault.New(fault.NotFound, "that list is no longer on the table").
		WithHint("Read it in again: only the last few lists wait, and only until the server stops. Nothing was kept.")
}
