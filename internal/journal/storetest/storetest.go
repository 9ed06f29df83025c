// Package storetest is the one suite that every journal store passes. It
// states the contract of package journal as a specification; a store's own
// tests add only what is particular to it.
package storetest

import (
	"encoding/json"
	"fmt"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"fettle/fault"
	"fettle/internal/journal"
)

// Run runs the suite; open returns an empty store each time.
func Run(t *testing.T, open func(t *testing.T) journal.Store) {
	for _, c := range []struct {
		name string
		test func(*testing.T, journal.Store)
	}{
		{"Append/answers in order with Seq and Kept", appendAnswers},
		{"Append/keeps every field", appendKeepsFields},
		{"Append/counts each build by itself", appendCountsBuilds},
		{"Append/nothing is nothing", appendNothing},
		{"Append/all or none", appendAllOrNone},
		{"Append/ended context keeps nothing", appendEnded},
		{"Append/many at once leave no gap", appendAtOnce},
		{"Double/same entry counts once", doubleOnce},
		{"Double/inside one batch", doubleInBatch},
		{"Double/batch partly kept", doublePartly},
		{"Double/after a round trip through JSON", doubleRoundTrip},
		{"Double/other content is refused", doubleOther},
		{"Double/sent by many at once", doubleAtOnce},
		{"Expect/right sequence", expectRight},
		{"Expect/moved on", expectMoved},
		{"Expect/own earlier entries do not count", expectOwn},
		{"Expect/beyond the end", expectBeyond},
		{"Form/broken rules", formBroken},
		{"Form/limits hold exactly", formLimits},
		{"Entries/by sequence", entriesRange},
		{"Entries/unknown build", entriesUnknown},
		{"Entries/answers are copies", entriesCopies},
		{"Builds/by ID", buildsByID},
		{"Snapshot/newest that fits", snapshotNewest},
		{"Snapshot/refusals", snapshotRefused},
		{"Slip/kept and cleared", slipKept},
		{"Slip/refusals", slipRefused},
	} {
		t.Run(c.name, func(t *testing.T) { c.test(t, open(t)) })
	}
}

// noon is the time of every made-up entry: a fixed point in the past.
var noon = time.Date(2026, 3, 2, 12, 0, 0, 7_000_000, time.UTC)

// entry makes a sound entry whose ID and change come from n.
func entry(n int) journal.Entry {
	return journal.Entry{
		ID: fmt.Sprintf("00000000-0000-7000-8000-%012x", n), At: noon, Person: "Inka", Device: "bench tablet",
		Kind: "record-finding", Version: 1, Change: json.RawMessage(fmt.Sprintf(`{"n":%d}`, n)),
	}
}

func run(from, to int) []journal.Entry {
	var list []journal.Entry
	for n := from; n <= to; n++ {
		list = append(list, entry(n))
	}
	return list
}

func must(t *testing.T, s journal.Store, build string, expect int64, entries ...journal.Entry) []journal.Entry {
	t.Helper()
	kept, err := s.Append(t.Context(), build, expect, entries)
	if err != nil {
		t.Fatalf("Append(%s, expect %d, %d entries): %v", build, expect, len(entries), err)
	}
	return kept
}

func all(t *testing.T, s journal.Store, build string) []journal.Entry {
	t.Helper()
	list, err := s.Entries(t.Context(), build, 0, 0)
	if err != nil {
		t.Fatalf("Entries(%s): %v", build, err)
	}
	return list
}

func wantKind(t *testing.T, what string, err error, want fault.Kind) {
	t.Helper()
	if err == nil {
		t.Errorf("%s: got no error, want %v", what, want)
		return
	}
	if got := fault.KindOf(err); got != want {
		t.Errorf("%s: got %v (%v), want %v", what, got, err, want)
	}
}

func wantSeqs(t *testing.T, list []journal.Entry, want ...int64) {
	t.Helper()
	var got []int64
	for _, e := range list {
		got = append(got, e.Seq)
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("sequences (-want +got):\n%s", d)
	}
}
