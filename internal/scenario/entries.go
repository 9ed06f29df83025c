package scenario

import (
	"crypto/sha256"
	"encoding/binary"
	"encoding/json"
	"fmt"
	"time"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/journal"
	"fettle/unit"
)

// Device is the device that entries from a scenario name.
const Device = "scenario"

// Entries returns a scenario as journal entries, those of the days before a
// day (0: all): the start, then one for each change. The shop's clock is
// written as UTC. IDs depend only on the build's name, the moment and the
// place in the file, so that loading a scenario twice counts once.
func Entries(f File, until unit.Date) ([]journal.Entry, error) {
	if len(f.Build.People) == 0 {
		return nil, fault.New(fault.Invalid, "nobody works on the build").At("build, people")
	}
	opener := Day{At: opening(f), Person: f.Build.People[0].ID, Changes: Changes{&build.Start{Build: f.Build}}}
	var list []journal.Entry
	for _, d := range append([]Day{opener}, Until(f, until)...) {
		for _, change := range d.Changes {
			e, err := entry(f.Build.Name, len(list), d, change)
			if err != nil {
				return nil, err
			}
			list = append(list, e)
		}
	}
	return list, nil
}

func entry(name string, index int, d Day, change build.Change) (journal.Entry, error) {
	body, err := json.Marshal(change)
	if err != nil {
		return journal.Entry{}, fault.Wrap(fault.Internal, err, "write "+change.Kind())
	}
	kind, ok := build.KindOf(change.Kind())
	if !ok {
		return journal.Entry{}, fault.New(fault.Internal, "the kind %q is not listed", change.Kind())
	}
	return journal.Entry{
		ID: entryID(name, d.At, index), Build: name, At: time.Unix(int64(d.At)*60, 0).UTC(),
		Person: string(d.Person), Device: Device, Kind: kind.Name, Version: kind.Version,
		Change: body, Note: d.Note,
	}, nil
}

// entryID makes an ID in the form of a UUID of version 7 (RFC 9562, section
// 5.7): the moment in milliseconds, then a digest where others have chance.
func entryID(name string, when unit.Moment, index int) string {
	sum := sha256.Sum256(fmt.Appendf(nil, "scenario 1 %s %d %d", name, when, index))
	var u [16]byte
	copy(u[:], sum[:16])
	var ms [8]byte
	binary.BigEndian.PutUint64(ms[:], uint64(when)*60_000)
	copy(u[:6], ms[2:])
	u[6] = u[6]&0x0f | 0x70
	u[8] = u[8]&0x3f | 0x80
	return fmt.Sprintf("%x-%x-%x-%x-%x", u[:4], u[4:6], u[6:8], u[8:10], u[10:])
}
