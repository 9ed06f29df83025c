package scenario

import (
	"fettle/build"
	"fettle/fault"
	"fettle/internal/journal"
	"fettle/unit"
)

// FromEntries turns the journal of a build back into a scenario file: the
// facts it was opened with and everything kept since. Entries that were taken
// back, and the acts of taking back, are left out; undone names them. The
// journal's order rules: an entry that a tablet made earlier and brought in
// late stands at the time of the one before it.
func FromEntries(entries []journal.Entry, undone map[string]bool) (File, error) {
	f := File{Form: Form, Days: []Day{}}
	var last unit.Moment
	for _, e := range entries {
		if e.Kind == journal.KindUndo || undone[e.ID] {
			continue
		}
		c, err := build.Decode(e.Kind, e.Version, e.Change)
		if err != nil {
			return f, err
		}
		if start, ok := c.(*build.Start); ok {
			f.Build = start.Build
			last = opening(f)
			continue
		}
		last = max(last, unit.MomentOf(e.At.UTC()))
		f.Days = append(f.Days, Day{At: last, Person: build.PersonID(e.Person), Note: e.Note, Changes: Changes{c}})
	}
	if f.Build.Name == "" {
		return f, fault.New(fault.NotFound, "the journal has no entry that opens the build")
	}
	return f, nil
}
