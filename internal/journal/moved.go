package journal

import (
	"fmt"
	"strings"
	"time"

	"fettle/fault"
)

// Step says who kept what, without the change itself.
type Step struct {
	Seq    int64     `json:"seq"`
	ID     string    `json:"id"`
	At     time.Time `json:"at"`
	Person string    `json:"person"`
	Kind   string    `json:"kind"`
}

// Moved is the cause of a Conflict fault of Append: the build has moved on
// from the sequence the caller last saw, or never got there (Now < Expect).
type Moved struct {
	Build  string
	Expect int64  // what the caller last saw
	Now    int64  // the build's last sequence
	Since  []Step // what others kept after Expect, in order
}

// shownSteps is how many steps a message spells out; a sentence, not a list.
const shownSteps = 3

// Error tells who changed what since.
func (m *Moved) Error() string {
	if m.Now < m.Expect {
		return fmt.Sprintf("%s is at %d, not yet at %d", m.Build, m.Now, m.Expect)
	}
	shown := m.Since[:min(shownSteps, len(m.Since))]
	parts := make([]string, len(shown))
	for i, s := range shown {
		parts[i] = fmt.Sprintf("%d by %s (%s)", s.Seq, s.Person, s.Kind)
	}
	text := fmt.Sprintf("%s has moved on from %d to %d: %s", m.Build, m.Expect, m.Now, strings.Join(parts, ", "))
	if more := len(m.Since) - len(shown); more > 0 {
		text += fmt.Sprintf(" and %d more", more)
	}
	return text
}

func (m *Moved) fault() *fault.Fault {
	return &fault.Fault{Kind: fault.Conflict, Msg: m.Error(), Cause: m}
}
