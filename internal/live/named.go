package live

import (
	"strconv"
	"strings"

	"fettle/fault"
	"fettle/internal/journal"
)

// Named finds the entries that a text names, the latest first: one entry's ID,
// a journal number, or a run of journal numbers such as 101-114.
func Named(all []journal.Entry, text string) ([]string, error) {
	first, last := run(text)
	var ids []string
	for i := len(all) - 1; i >= 0; i-- {
		if e := all[i]; e.ID == text || first <= e.Seq && e.Seq <= last {
			ids = append(ids, e.ID)
		}
	}
	if len(ids) == 0 {
		return nil, fault.New(fault.NotFound, "the journal has no entry %q", text)
	}
	return ids, nil
}

// run reads a journal number or a run of them; 0 and 0 is neither.
func run(text string) (first, last int64) {
	from, to, ok := strings.Cut(text, "-")
	if !ok {
		to = from
	}
	first, err := strconv.ParseInt(from, 10, 64)
	last, wrong := strconv.ParseInt(to, 10, 64)
	if err != nil || wrong != nil {
		return 0, 0
	}
	return first, last
}
