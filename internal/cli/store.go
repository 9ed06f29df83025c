package cli

import (
	"context"
	"log/slog"
	"os"
	"path/filepath"
	"time"

	"fettle/fault"
	"fettle/internal/job"
	queue "fettle/internal/job/sqlite"
	"fettle/internal/journal/sqlite"
	"fettle/internal/live"
	"fettle/internal/vault"
	"fettle/internal/vault/folder"
	"fettle/stage/metal"
	"fettle/stage/trim"
	"fettle/unit"
)

// storeFlags are common to every verb that opens a store.
type storeFlags struct {
	Data string `help:"Folder of the shop's data." default:"fettle-data" env:"FETTLE_DATA" type:"path"`
	Now  string `help:"The day taken as today, such as 2026-10-06." placeholder:"DATE"`
	Seed uint64 `help:"Seed of the odds: same facts, same seed, same plan." default:"1"`
	Runs int    `help:"How many builds are played for the odds." default:"2000"`
}

// mostRuns bounds the memory that the odds take.
const mostRuns = 1_000_000

// shop is an open store with all that goes with it.
type shop struct {
	*live.Shop
	store *sqlite.Store
	vault vault.Vault
	jobs  *queue.Queue // nil until work is begun
	dir   string
}

// Close ends the work under way and closes the store.
func (s *shop) Close() error {
	var err error
	if s.jobs != nil {
		err = s.jobs.Close()
	}
	if e := s.store.Close(); e != nil {
		err = e
	}
	return err
}

// work begins to do long work, one piece at a time on this machine.
func (s *shop) work(ctx context.Context, log *slog.Logger) error {
	var err error
	s.jobs, err = queue.Open(ctx, s.store.Write(), s.store.Read(), queue.Config{
		Kinds: kinds(), Log: log, Kept: s.needed,
		Alone: func(ctx context.Context) (func(), bool, error) { return s.store.Claim(ctx, "work") },
	})
	return err
}

// kinds lists the long work that the shop does.
func kinds() []job.Kind {
	return []job.Kind{
		{Name: trim.LayKind, Version: trim.LayVersion, Work: trim.Lay, Tell: trim.Tell},
		{Name: trim.FlatKind, Version: trim.FlatVersion, Work: trim.LookFlat, Tell: trim.TellFlat},
		{Name: metal.LayKind, Version: metal.LayVersion, Work: metal.Lay, Tell: metal.Tell},
	}
}

// needed names the builds there are and the work that their facts come from.
func (s *shop) needed(ctx context.Context) (queue.Kept, error) {
	all, err := s.Builds(ctx)
	if err != nil {
		return queue.Kept{}, err
	}
	var k queue.Kept
	for _, b := range all {
		v, err := s.View(ctx, b.ID)
		if err != nil {
			return k, err
		}
		k.Builds = append(k.Builds, b.ID)
		for _, l := range v.Build.Layouts {
			k.Keys = append(k.Keys, l.Job)
		}
		for _, p := range v.Build.SheetPlans {
			k.Keys = append(k.Keys, p.Job)
		}
		for _, p := range v.Build.Patterns {
			k.Keys = append(k.Keys, p.Source.Job)
		}
	}
	return k, nil
}

// open opens the data folder; fresh says whether a new one may be made.
func (f storeFlags) open(ctx context.Context, fresh bool) (*shop, error) {
	path := filepath.Join(f.Data, "fettle.db")
	if _, err := os.Stat(path); err != nil && !fresh {
		return nil, fault.New(fault.NotFound, "there is no build in %s", f.Data).
			WithHint("name the data folder with --data, or make a build with: fettle new NAME --from scenario.json")
	}
	now, err := f.clock()
	if err != nil {
		return nil, err
	}
	if f.Runs < 1 || f.Runs > mostRuns {
		return nil, fault.New(fault.Invalid, "%d builds cannot be played", f.Runs).At("--runs").WithHint("name a number from 1 to 1,000,000")
	}
	if err := os.MkdirAll(f.Data, 0o700); err != nil {
		return nil, fault.Wrap(fault.Denied, err, "make the data folder")
	}
	photos, err := folder.Open(filepath.Join(f.Data, "photos"))
	if err != nil {
		return nil, err
	}
	store, err := sqlite.Open(ctx, path)
	if err != nil {
		return nil, err
	}
	return &shop{Shop: live.Open(store, live.Options{Now: now, Runs: f.Runs, Seed: f.Seed}), store: store, vault: photos, dir: f.Data}, nil
}

// clock is the machine's, or stands at opening time on the day that --now names.
func (f storeFlags) clock() (func() time.Time, error) {
	if f.Now == "" {
		return time.Now, nil
	}
	day, err := unit.ParseDate(f.Now)
	if err != nil {
		return nil, fault.New(fault.Invalid, "%v", err).At("--now")
	}
	opening := day.Time().Add(8 * time.Hour)
	return func() time.Time { return opening }, nil
}
