package live

import (
	"fmt"
	"strings"

	"fettle/fault"
	"fettle/internal/journal"
)

// Named finds the entries that a text names: one entry's ID, a journal
// number, or a run of journal numbers such as 101-114.
func Named(all []journal.Entry, text string) ([]string, error) {
	var first, last int64
	if n, _ := fmt.Sscanf(text, "%d-%d", &first, &last); n < 2 || strings.Count(text, "-") > 1 {
		first, last = 0, 0
	}
	if n, _ := fmt.Sscanf(text, "%d", &first); n == 1 && !strings.Contains(text, "-") {
		last = first
	}
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
