package away

import (
	"fmt"
	"strings"

	"fettle/build"
	"fettle/internal/web"
	"fettle/plan"
	"fettle/unit"
)

// begin reads the load that a form is about.
func (p place) begin(r *web.Request) (sheet, card, *web.Form, error) {
	s, err := p.load(r)
	if err != nil {
		return s, card{}, nil, err
	}
	c, err := s.named(r.Path("load"))
	if err != nil {
		return s, c, nil, err
	}
	f, err := r.Form()
	return s, c, f, err
}

func (p place) again(r *web.Request, s sheet, c card, f *web.Form) error {
	return r.Invalid(web.Sheet{Place: "away", Shown: string(c.ID) + " " + c.What}, loadPage(s, c, f.Errors))
}

// send keeps that a load has left. Pieces that another load must work on first
// are held back unless the person says otherwise.
func (p place) send(r *web.Request) error {
	s, c, f, err := p.begin(r)
	if err != nil {
		return err
	}
	change := &build.SendAway{Load: c.ID, Day: dayOr(f, "day", s.Today), Pieces: int(f.Int("pieces", 1, 100_000))}
	if first := s.loadsBefore(c); len(first) > 0 && !f.Has("anyway") {
		f.Fail("pieces", fmt.Sprintf("wait: %s must be back first. Send it first, or tick that none of its pieces are in this load", strings.Join(first, " and ")))
	}
	changes := append([]build.Change{change}, s.bagMoves(f, "bags", build.BagOut)...)
	entry, err := f.EntryID()
	if err != nil {
		return err
	}
	changes = append(changes, p.photo(r, s, c, f, "as sent")...)
	if f.Err() != nil {
		return p.again(r, s, c, f)
	}
	return p.desk.Keep(r, entry, change.Say(s.Build), s.Base+"/load/"+string(c.ID), changes...)
}

// loadsBefore names the loads that must be back before a load can go.
func (s sheet) loadsBefore(c card) []string {
	var names []string
	for _, t := range c.Before {
		if t.Outwork != "" {
			names = append(names, string(t.Outwork)+" "+s.Build.Load(t.Outwork).What)
		}
	}
	return names
}

// bagMoves reads a list of bags such as "G04-05, G04-11".
func (s sheet) bagMoves(f *web.Form, name string, to build.BagState) []build.Change {
	ids := strings.FieldsFunc(f.Text(name, 0, 2000), func(c rune) bool { return c == ',' || c == ' ' || c == ';' || c == '\n' })
	if len(ids) == 0 {
		return nil
	}
	move := &build.MoveBags{State: to}
	for _, id := range ids {
		if s.Build.Bag(build.BagID(id)) == nil {
			f.Fail(name, "names a bag that does not exist: "+id)
			continue
		}
		move.Bags = append(move.Bags, build.BagID(id))
	}
	return []build.Change{move}
}

// photo keeps the photo of a form in the vault and returns the change that
// ties it to the load.
func (p place) photo(r *web.Request, s sheet, c card, f *web.Form, what string) []build.Change {
	file, head := f.File("photo")
	if file == nil {
		return nil
	}
	defer file.Close()
	if p.desk.Vault == nil {
		f.Fail("photo", "cannot be kept: this server keeps no photos")
		return nil
	}
	kept, err := p.desk.Vault.Put(r.Context(), file, photoLimit)
	if err != nil {
		f.Fail("photo", fmt.Sprintf("%s was not kept: %s", head.Filename, err))
		return nil
	}
	return []build.Change{&build.AddPhoto{Photo: build.Photo{Hash: build.PhotoHash(kept.Hash), Of: "load/" + string(c.ID),
		What: what, Taken: s.Now, By: build.PersonID(r.Person().Code)}}}
}

// chase lays on the slip what the outside shop now says: a number of working
// days from sending, or a day.
func (p place) chase(r *web.Request) error {
	s, c, f, err := p.begin(r)
	if err != nil {
		return err
	}
	change := &build.ChaseAway{Load: c.ID, Said: f.Text("said", 0, 300)}
	day := f.Date("back")
	switch {
	case strings.TrimSpace(f.Raw("likely")) != "":
		change.Likely = int(f.Int("likely", 1, 1000))
	case day > c.Facts.Sent:
		change.Likely = plan.DaysBetween(s.Build, c.Facts.Sent, day)
	default:
		f.Fail("likely", "is empty: how many working days from sending, or which day?")
	}
	if f.Err() != nil {
		return p.again(r, s, c, f)
	}
	return p.desk.Propose(r, s.Base+"/slip", change)
}

// receive keeps that a load came back and how many pieces. Where fewer came
// than went, the piece becomes a wanted part of the task that needs it, so that
// this task waits and no other.
func (p place) receive(r *web.Request) error {
	s, c, f, err := p.begin(r)
	if err != nil {
		return err
	}
	change := &build.ReceiveAway{Load: c.ID, Day: dayOr(f, "day", s.Today), Counted: int(f.Int("counted", 0, int64(c.Pieces))), Short: f.Text("short", 0, 300)}
	changes := []build.Change{change}
	next := s.Base + "/away"
	fewer := f.Err() == nil && change.Counted < c.Pieces
	switch {
	case fewer && change.Short == "":
		f.Fail("short", fmt.Sprintf("is empty: %d of %d came back, please say what is missing", change.Counted, c.Pieces))
	case fewer:
		changes = append(changes, s.shortfall(f, c, change.Short)...)
		next = s.Base + "/load/" + string(c.ID)
	}
	changes = append(changes, s.bagMoves(f, "bags", build.OnShelf)...)
	entry, err := f.EntryID()
	if err != nil {
		return err
	}
	changes = append(changes, p.photo(r, s, c, f, "as returned")...)
	if f.Err() != nil {
		return p.again(r, s, c, f)
	}
	return p.desk.Keep(r, entry, change.Say(s.Build), next, changes...)
}

// shortfall is what follows from a missing piece: its bag is short, and the
// task that needs it waits for another. Until a way to get one is chosen it is
// reckoned with the outside shop's quoted turn-round.
func (s sheet) shortfall(f *web.Form, c card, what string) []build.Change {
	var changes []build.Change
	if bag := build.BagID(f.Text("bag", 0, 20)); bag != "" {
		if s.Build.Bag(bag) == nil {
			f.Fail("bag", "does not exist")
		}
		changes = append(changes, &build.MoveBags{Bags: []build.BagID{bag}, State: build.BagShort})
	}
	task := build.TaskID(f.Text("task", 0, 40))
	if task == "" && len(c.Waits) > 0 {
		task = c.Waits[0].ID
	}
	if s.Build.Task(task) == nil {
		f.Fail("task", "is not chosen: which task needs the missing piece?")
		return changes
	}
	part := build.Part{ID: s.Build.NextPart(), Name: missingMark(c.ID) + what, Quantity: max(c.Pieces-int(f.Int("counted", 0, int64(c.Pieces))), 1),
		Lead: c.Facts.Quoted, Task: task, State: build.Wanted}
	return append(changes, &build.AddPart{Part: part})
}

// way lays on the slip how the missing piece will be got: what stood for it is
// taken off the list and the way chosen put in its place.
func (p place) way(r *web.Request) error {
	s, c, f, err := p.begin(r)
	if err != nil {
		return err
	}
	if len(c.Wanted) == 0 {
		f.Fail("how", "nothing of this load is missing any more")
		return p.again(r, s, c, f)
	}
	old := c.Wanted[0]
	how := f.Text("how", 2, 120)
	part := build.Part{ID: s.Build.NextPart(), Name: missingMark(c.ID) + how, Quantity: old.Quantity, Task: old.Task, State: build.Wanted,
		Price: unit.Money(f.Decimal("price", 2, 0, 10_000_000)), Lead: int(f.Int("lead", 0, 400)), Supplier: f.Text("from", 0, 80)}
	if f.Err() != nil {
		return p.again(r, s, c, f)
	}
	return p.desk.Propose(r, s.Base+"/slip", &build.CancelPart{Part: old.ID, Why: how}, &build.AddPart{Part: part})
}

// dayOr reads a day; an empty field is the other day.
func dayOr(f *web.Form, name string, other unit.Date) unit.Date {
	if d := f.Date(name); d != 0 {
		return d
	}
	return other
}
