// Package live is the one door to a shop's builds: it replays the journal,
// works out plans, tries changes, keeps them and takes them back, and tells
// whoever watches that something changed. The command line and the pages go
// through it alike.
package live

import (
	"context"
	"crypto/sha256"
	"sync"
	"time"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/journal"
	"fettle/plan"
	"fettle/rates"
	"fettle/unit"
)

// Options steer a shop.
type Options struct {
	Now  func() time.Time // the shop's clock; nil is the machine's
	Runs int              // odds runs of a plan; 0 means 2,000
	Seed uint64
}

// Shop is an open store with its builds.
type Shop struct {
	store   journal.Store
	options Options
	mu      sync.Mutex
	builds  map[string]*kept
	keeping sync.Mutex // one change is kept at a time: the others would only be offered again
	watch   watchers
	past    earlier
}

// kept is what is remembered of a build between calls.
type kept struct {
	mu    sync.Mutex
	seq   int64
	build build.Build
	plans map[planKey]*plan.Plan
}

// planKey names a plan: the facts, the moment, and the changes tried on top.
type planKey struct {
	seq   int64
	now   unit.Moment
	past  uint64            // what other builds taught
	tried [sha256.Size]byte // of the changes tried; zero for none
}

// mostPlans is how many plans of one build are remembered.
const mostPlans = 16

// View is a build at one journal number, at one moment. Its Build must not be
// altered; changes go to a Clone.
type View struct {
	Build build.Build
	Seq   int64
	Now   unit.Moment
	past  []lesson // of other builds
}

// Open returns the shop of a store.
func Open(store journal.Store, o Options) *Shop {
	if o.Now == nil {
		o.Now = time.Now
	}
	return &Shop{store: store, options: o, builds: map[string]*kept{}, past: earlier{known: map[string]lesson{}}}
}

// Now returns the shop's clock reading.
func (s *Shop) Now() unit.Moment { return unit.MomentOf(s.options.Now()) }

// planNow is the moment plans are made for: the quarter hour that has begun,
// so that a plan holds for a while.
func (s *Shop) planNow() unit.Moment { return s.Now() / 15 * 15 }

// Builds lists the builds of the store.
func (s *Shop) Builds(ctx context.Context) ([]journal.Build, error) { return s.store.Builds(ctx) }

// View returns a build as it stands.
func (s *Shop) View(ctx context.Context, id string) (View, error) {
	k, v, err := s.open(ctx, id)
	if err != nil {
		return View{}, err
	}
	k.mu.Unlock()
	return v, nil
}

// open returns what is remembered of a build, locked, with the view of it. What
// other builds teach is gathered first, so that no two are locked at once.
func (s *Shop) open(ctx context.Context, id string) (*kept, View, error) {
	now := s.planNow()
	past, err := s.lessons(ctx, id, now.Date())
	if err != nil {
		return nil, View{}, err
	}
	k, err := s.load(ctx, id)
	if err != nil {
		return nil, View{}, err
	}
	return k, View{Build: k.build, Seq: k.seq, Now: now, past: past}, nil
}

// load returns what is remembered of a build, locked and up to date.
func (s *Shop) load(ctx context.Context, id string) (*kept, error) {
	s.mu.Lock()
	k := s.builds[id]
	if k == nil {
		k = &kept{plans: map[planKey]*plan.Plan{}}
		s.builds[id] = k
	}
	s.mu.Unlock()
	k.mu.Lock()
	if err := s.catchUp(ctx, id, k); err != nil {
		if k.seq == 0 {
			s.forget(id)
		}
		k.mu.Unlock()
		return nil, err
	}
	return k, nil
}

// forget drops a build that could not be read at all, so that asking for names
// that no build has costs no memory.
func (s *Shop) forget(id string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	delete(s.builds, id)
}

// snapshotEvery is how many entries are replayed before a snapshot is worth
// its space.
const snapshotEvery = 200

// catchUp replays what was kept since the last look, by this process or
// another. An undo makes it start again from the first entry.
func (s *Shop) catchUp(ctx context.Context, id string, k *kept) error {
	if k.seq == 0 {
		if snap, ok, err := s.store.Snapshot(ctx, id, snapshotForm, 0); err == nil && ok {
			if b, err := decodeState(snap.State); err == nil {
				k.build, k.seq = b, snap.Seq
			}
		}
	}
	fresh, err := s.store.Entries(ctx, id, k.seq, 0)
	if err != nil {
		return err
	}
	if len(fresh) == 0 {
		return nil
	}
	b, err := s.extend(ctx, id, k, fresh)
	if err != nil {
		return err
	}
	k.build, k.seq = b, fresh[len(fresh)-1].Seq
	clear(k.plans)
	if len(fresh) >= snapshotEvery {
		if state, err := encodeState(b); err == nil {
			return s.store.SaveSnapshot(ctx, journal.Snapshot{Build: id, Seq: k.seq, Form: snapshotForm, State: state})
		}
	}
	return nil
}

func (s *Shop) extend(ctx context.Context, id string, k *kept, fresh []journal.Entry) (build.Build, error) {
	b := k.build.Clone()
	for _, e := range fresh {
		if e.Kind == journal.KindUndo {
			all, err := s.store.Entries(ctx, id, 0, 0)
			if err != nil {
				return b, err
			}
			return Replay(all)
		}
		if err := apply(&b, e); err != nil {
			return b, err
		}
	}
	return b, nil
}

// Plan returns the plan of a build as it stands. A plan once made for a
// journal number and a quarter hour is kept for a while.
func (s *Shop) Plan(ctx context.Context, id string) (*plan.Plan, View, error) {
	k, v, err := s.open(ctx, id)
	if err != nil {
		return nil, View{}, err
	}
	defer k.mu.Unlock()
	p, err := s.planned(ctx, k, v, nil)
	return p, v, err
}

// planned returns the plan of what is remembered with changes on top, from
// memory where it was made before. k must be locked.
func (s *Shop) planned(ctx context.Context, k *kept, v View, changes []build.Change) (*plan.Plan, error) {
	key := planKey{seq: v.Seq, now: v.Now, past: mark(v.past)}
	b := v.Build
	if len(changes) > 0 {
		var err error
		if b, err = build.ApplyAll(b, changes); err != nil {
			return nil, err
		}
		key.tried = digest(changes)
	}
	if p := k.plans[key]; p != nil {
		return p, nil
	}
	p, err := plan.Make(ctx, &b, learn(b, v.past), s.planOptions())
	if err != nil {
		return nil, err
	}
	if len(k.plans) >= mostPlans {
		clear(k.plans)
	}
	k.plans[key] = p
	return p, nil
}

// digest names a list of changes by their content.
func digest(changes []build.Change) (sum [sha256.Size]byte) {
	h := sha256.New()
	for _, c := range changes {
		body, err := build.EncodeNamed(c)
		if err != nil {
			continue
		}
		h.Write(body)
	}
	h.Sum(sum[:0])
	return sum
}

func (s *Shop) planOptions() plan.Options {
	return plan.Options{Now: s.planNow(), Runs: s.options.Runs, Seed: s.options.Seed}
}

// Trial is a change that was tried and not kept.
type Trial struct {
	View    View         `json:"-"`
	Before  *plan.Plan   `json:"-"`
	After   *plan.Plan   `json:"-"`
	KnockOn plan.KnockOn `json:"knock_on"`
}

// Try works out what changes would do. Nothing is kept.
func (s *Shop) Try(ctx context.Context, id string, changes []build.Change) (Trial, error) {
	k, v, err := s.open(ctx, id)
	if err != nil {
		return Trial{}, err
	}
	defer k.mu.Unlock()
	before, err := s.planned(ctx, k, v, nil)
	if err != nil {
		return Trial{}, err
	}
	after, err := s.planned(ctx, k, v, changes)
	if err != nil {
		return Trial{}, err
	}
	return Trial{View: v, Before: before, After: after, KnockOn: plan.Compare(&v.Build, before, after)}, nil
}

// WaysOut returns the ranked ways to win the date back.
func (s *Shop) WaysOut(ctx context.Context, id string) ([]plan.Way, error) {
	base, v, err := s.Plan(ctx, id)
	if err != nil {
		return nil, err
	}
	return plan.WaysOut(ctx, &v.Build, s.Rates(v), base, s.planOptions())
}

// Gains says which open tasks would move the date most, and what each would win
// back if it went well.
func (s *Shop) Gains(ctx context.Context, id string) ([]plan.Gain, View, error) {
	v, err := s.View(ctx, id)
	if err != nil {
		return nil, View{}, err
	}
	list, err := plan.Gains(ctx, &v.Build, s.Rates(v), s.planOptions())
	return list, v, err
}

// Better looks for a better order of the shop's list; 0 schedules are the
// budget that a page spends.
func (s *Shop) Better(ctx context.Context, id string, schedules int) (*plan.BetterOrder, View, error) {
	base, v, err := s.Plan(ctx, id)
	if err != nil {
		return nil, View{}, err
	}
	better, err := plan.Better(ctx, &v.Build, s.Rates(v), base, s.planOptions(), schedules)
	return better, v, err
}

// Room tells how late a task can begin before the plain date moves, and by when
// what takes lead working days to come is ordered for it.
func (s *Shop) Room(ctx context.Context, id string, task build.TaskID, lead int) (plan.Room, error) {
	v, err := s.View(ctx, id)
	if err != nil {
		return plan.Room{}, err
	}
	return plan.RoomOf(ctx, &v.Build, s.Rates(v), s.planOptions(), task, lead)
}

// Rates returns the rates that a build goes by: its own past, and that of builds
// of the store that are over.
func (s *Shop) Rates(v View) rates.Rates { return learn(v.Build, v.past) }

// Past returns a build as it was when a day began.
func (s *Shop) Past(ctx context.Context, id string, day unit.Date) (build.Build, error) {
	entries, err := s.store.Entries(ctx, id, 0, 0)
	if err != nil {
		return build.Build{}, err
	}
	early := Until(entries, day)
	if len(early) == 0 {
		return build.Build{}, fault.New(fault.NotFound, "the build had not begun on %s", day.Long())
	}
	return Replay(early)
}
