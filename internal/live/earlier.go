package live

import (
	"cmp"
	"context"
	"hash/fnv"
	"slices"
	"strconv"
	"sync"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/journal"
	"fettle/plan"
	"fettle/rates"
	"fettle/unit"
)

// mostEarlier is how many builds of a store are asked what they teach: those
// that were written to last.
const mostEarlier = 40

// earlier remembers what other builds of the store teach.
type earlier struct {
	mu    sync.Mutex
	known map[string]lesson
}

// lesson is what a build that is over teaches; over is 0 while it is not.
type lesson struct {
	id    string
	seq   int64
	over  unit.Date
	build build.Build
	past  rates.Past
}

// lessons returns what the builds of the store teach that were over before a
// day, by ID, the build itself left out. One that cannot be read teaches
// nothing: its own pages say what is wrong with it.
func (s *Shop) lessons(ctx context.Context, id string, day unit.Date) ([]lesson, error) {
	list, err := s.store.Builds(ctx)
	if err != nil {
		return nil, err
	}
	slices.SortStableFunc(list, func(a, b journal.Build) int { return b.Last.Compare(a.Last) })
	list = slices.DeleteFunc(list, func(b journal.Build) bool { return b.ID == id })
	list = list[:min(mostEarlier, len(list))]
	slices.SortFunc(list, func(a, b journal.Build) int { return cmp.Compare(a.ID, b.ID) })
	var all []lesson
	for _, b := range list {
		l, err := s.lesson(ctx, b)
		switch {
		case fault.KindOf(err) == fault.Interrupted:
			return nil, err
		case err == nil && l.over != 0 && l.over < day:
			all = append(all, l)
		}
	}
	return all, nil
}

func (s *Shop) lesson(ctx context.Context, of journal.Build) (lesson, error) {
	s.past.mu.Lock()
	l, known := s.past.known[of.ID]
	s.past.mu.Unlock()
	if known && l.seq == of.Seq {
		return l, nil
	}
	k, err := s.load(ctx, of.ID)
	if err != nil {
		return lesson{}, err
	}
	b, seq := k.build, k.seq
	k.mu.Unlock()
	l = lesson{id: of.ID, seq: seq, over: plan.Over(&b)}
	if l.over != 0 {
		l.build, l.past = b, plan.PastOf(&b)
	}
	s.past.mu.Lock()
	defer s.past.mu.Unlock()
	s.past.known[of.ID] = l
	return l, nil
}

// learn returns the rates that a build goes by: its own past and that of
// builds that were over before.
func learn(b build.Build, lessons []lesson) rates.Rates {
	builds := []build.Build{b}
	for _, l := range lessons {
		builds = append(builds, l.build)
	}
	r := rates.Learn(builds...)
	for _, l := range lessons {
		r.Past = append(r.Past, l.past)
	}
	return r
}

// mark names lessons, so that a plan is made anew when they change.
func mark(lessons []lesson) uint64 {
	h := fnv.New64a()
	for _, l := range lessons {
		h.Write([]byte(l.id + " " + strconv.FormatInt(l.seq, 10) + "\n"))
	}
	return h.Sum64()
}
