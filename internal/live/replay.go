package live

import (
	"encoding/json"
	"fmt"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/journal"
	"fettle/unit"
)

// Replay applies entries from the first on, leaving out those taken back, and
// returns the build. The fault of an entry that no longer holds names it.
func Replay(entries []journal.Entry) (build.Build, error) {
	var b build.Build
	undone := Undone(entries)
	for _, e := range entries {
		if e.Kind == journal.KindUndo || undone[e.ID] {
			continue
		}
		if err := apply(&b, e); err != nil {
			return b, err
		}
	}
	return b, nil
}

// Undone returns the IDs of the entries that are taken back. An undo that is
// itself taken back counts for nothing.
func Undone(entries []journal.Entry) map[string]bool {
	undone := map[string]bool{}
	for i := len(entries) - 1; i >= 0; i-- {
		if e := entries[i]; e.Kind == journal.KindUndo && !undone[e.ID] {
			undone[e.Undoes] = true
		}
	}
	return undone
}

func apply(b *build.Build, e journal.Entry) error {
	c, err := build.Decode(e.Kind, e.Version, e.Change)
	if err == nil {
		err = c.Apply(b)
	}
	if err == nil {
		return nil
	}
	return fault.Wrap(fault.Conflict, err, fmt.Sprintf("entry %d (%s, %s)", e.Seq, e.Kind, e.At.Format("2 Jan 2006")))
}

// Until returns the entries made before a day begins, by the clock of the shop
// that wrote them. It serves to look at an earlier day.
func Until(entries []journal.Entry, day unit.Date) []journal.Entry {
	var early []journal.Entry
	for _, e := range entries {
		if unit.DateOf(e.At) < day {
			early = append(early, e)
		}
	}
	return early
}

// snapshotForm names the code that made a snapshot; another form is ignored.
const snapshotForm = "build-1"

func encodeState(b build.Build) ([]byte, error) { return json.Marshal(b) }

func decodeState(data []byte) (build.Build, error) {
	var b build.Build
	err := json.Unmarshal(data, &b)
	return b, err
}
