package cli

import (
	"bytes"
	"context"
	"fmt"
	"slices"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/journal"
	"fettle/internal/live"
	"fettle/internal/scenario"
	"fettle/internal/vault"
)

// checkCmd verifies the whole store.
type checkCmd struct {
	storeFlags
	JSON bool `name:"json" help:"Print one JSON document."`
}

// verdict is what check found.
type verdict struct {
	Builds   int               `json:"builds"`
	Entries  int               `json:"entries"`
	Photos   int               `json:"photos"`
	Problems []journal.Problem `json:"problems"`
}

// Run checks the file, every digest, that every entry replays, and every photo.
func (c *checkCmd) Run(ctx context.Context, s streams) error {
	shop, err := c.open(ctx, false)
	if err != nil {
		return err
	}
	defer shop.Close()
	v, err := shop.verify(ctx)
	if err != nil {
		return err
	}
	if c.JSON {
		if err := printJSON(s, v); err != nil {
			return err
		}
	} else {
		for _, p := range v.Problems {
			fmt.Fprintf(s.out, "%s: %s\n", p.Where, p.What)
		}
		fmt.Fprintf(s.out, "%d builds, %d entries, %d photos: %d problems\n", v.Builds, v.Entries, v.Photos, len(v.Problems))
	}
	if len(v.Problems) > 0 {
		return fault.New(fault.Conflict, "the store has %d problems", len(v.Problems)).WithHint("restore the last good backup: fettle restore FILE --data NEWDIR")
	}
	return nil
}

func (s *shop) verify(ctx context.Context) (verdict, error) {
	v := verdict{Problems: []journal.Problem{}}
	found, err := s.store.Check(ctx)
	if err != nil {
		return v, err
	}
	v.Problems = append(v.Problems, found...)
	builds, err := s.store.Builds(ctx)
	if err != nil {
		return v, err
	}
	for _, b := range builds {
		entries, err := s.store.Entries(ctx, b.ID, 0, 0)
		if err != nil {
			return v, err
		}
		v.Builds, v.Entries = v.Builds+1, v.Entries+len(entries)
		replayed, err := live.Replay(entries)
		if err != nil {
			v.Problems = append(v.Problems, journal.Problem{Where: "build " + b.ID, What: err.Error()})
			continue
		}
		for _, u := range replayed.Surfaces {
			if ok, err := s.vault.Has(ctx, string(u.Scan)); err == nil && !ok && !cameWithout(entries, u.Scan) {
				v.Problems = append(v.Problems, journal.Problem{Where: "build " + b.ID + ", surface " + string(u.ID), What: "the scan is missing"})
			}
		}
		for _, p := range replayed.Photos {
			if ok, err := s.vault.Has(ctx, string(p.Hash)); err == nil && !ok {
				v.Problems = append(v.Problems, journal.Problem{Where: "build " + b.ID + ", photo of " + p.Of, What: "the photo is missing"})
			}
		}
	}
	err = s.vault.Walk(ctx, func(p vault.Photo, problem error) error {
		v.Photos++
		if problem != nil {
			v.Problems = append(v.Problems, journal.Problem{Where: "photo " + p.Hash, What: problem.Error()})
		}
		return ctx.Err()
	})
	return v, err
}

// cameWithout tells whether a scan was named by a scenario file, which carries
// facts and no scans: it was never here to be lost.
func cameWithout(entries []journal.Entry, scan build.ScanHash) bool {
	return slices.ContainsFunc(entries, func(e journal.Entry) bool {
		return e.Device == scenario.Device && bytes.Contains(e.Change, []byte(scan))
	})
}
