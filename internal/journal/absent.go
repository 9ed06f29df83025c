package journal

import (
	"time"

	"fettle/fault"
)

// NoBuild is the fault of every store for a build without entries.
func NoBuild(name string) error {
	return fault.New(fault.NotFound, "there is no build called %q", clip(name)).
		WithHint("see the list of builds; fettle new makes one")
}

// NoPhoto is the fault of every store for a photo it has no record of.
func NoPhoto(hash string) error {
	return fault.New(fault.NotFound, "there is no record of the photo %q", clip(hash))
}

// WithinBuild refuses a snapshot beyond the last entry of its build: it would
// hide the entries that are still to come.
func WithinBuild(s Snapshot, last int64) error {
	if s.Seq <= last {
		return nil
	}
	return fault.New(fault.Invalid, "a snapshot at %d is beyond the last entry, %d", s.Seq, last).At("seq")
}

// KeptAt fills in when the photo was kept, unless it is known already.
func (p Photo) KeptAt(now time.Time) Photo {
	if p.Kept.IsZero() {
		p.Kept = now
	}
	p.Kept = p.Kept.UTC().Truncate(time.Millisecond)
	return p
}
