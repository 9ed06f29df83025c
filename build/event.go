package build

// EventID names something that may happen, such as E1.
type EventID string

// EventState is what is known of an event.
type EventState string

// The states of an event.
const (
	MayHappen EventState = "may happen"
	Happened  EventState = "happened"
	Passed    EventState = "passed" // its time is over and it did not happen
)

// Event is something that may happen to a task or not: rust found under a seam,
// a fault in the paint that sends it back. What it costs comes behind the task,
// before all that waits for it, up to Times times, each time with the chance
// that it happens once more. Chance 0 is not judged yet and counts for nothing.
type Event struct {
	ID     EventID    `json:"id"`
	What   string     `json:"what"`
	Task   TaskID     `json:"task"`
	Chance float64    `json:"chance"`           // 0 to 1
	Work   []Leg      `json:"hours,omitempty"`  // that it costs; without hours and days the task's own, and its wait, once more
	Days   int        `json:"days,omitempty"`   // working days of waiting behind its hours
	Times  int        `json:"times,omitempty"`  // 0 is once
	Source string     `json:"source,omitempty"` // whose judgement the chance is
	State  EventState `json:"state,omitempty"`  // empty may happen
}

// Open reports whether the event may still happen.
func (e Event) Open() bool { return e.State == "" || e.State == MayHappen }

// Again reports whether the event sends its whole task back.
func (e Event) Again() bool { return len(e.Work) == 0 && e.Days == 0 }

// Judged is a range with whose judgement it is. The zero value is not judged
// yet and counts for nothing.
type Judged struct {
	Range  Span   `json:"range"`
	Source string `json:"source,omitempty"`
}

// Given reports whether somebody has judged it.
func (j Judged) Given() bool { return j.Range != Span{} }

// Event returns the event of that ID, or nil.
func (b *Build) Event(id EventID) *Event {
	return find(b.Risk.Events, id, func(e *Event) EventID { return e.ID })
}
