package build

import "fettle/unit"

// TaskID names a task of the network, such as T08, or a turn-round, such as O2.
type TaskID string

// TaskState is how far a task is.
type TaskState string

// The states of a task.
const (
	NotBegun TaskState = "not begun"
	Begun    TaskState = "begun"
	Finished TaskState = "finished"
)

// Stages lists the parts of the job that tasks belong to, in the order in which
// a build passes them.
func Stages() []string {
	return []string{"strip", "look", "metal", "body", "paint", "loom", "trim", "assembly", "away", "book"}
}

// Task is a piece of work of one or more trades in parallel, and the wait
// that follows it.
type Task struct {
	ID       TaskID    `json:"id"`
	Name     string    `json:"name"`
	Stage    string    `json:"stage"` // one of Stages
	Legs     []Leg     `json:"legs,omitempty"`
	After    []TaskID  `json:"after,omitempty"`
	Wait     int       `json:"wait_days"`                   // working days after the hours; for outwork the whole turn-round
	Outwork  OutworkID `json:"outwork,omitempty"`           // the load whose turn-round the wait is
	Bay      string    `json:"bay,omitempty"`               // the place it needs
	Risk     string    `json:"risk"`                        // which range of Risk applies
	Guess    TaskID    `json:"guess_until,omitempty"`       // its hours are those of the findings given to it; until that task is finished Legs is the least that is reckoned with
	Findings bool      `json:"hours_of_findings,omitempty"` // its hours are those of the findings given to it
	State    TaskState `json:"state"`
	Began    unit.Date `json:"began,omitzero"`
	Ended    unit.Date `json:"ended,omitzero"`      // of the hours and the wait
	Left     []Leg     `json:"left,omitempty"`      // hours still to do as somebody judged them
	LeftSaid bool      `json:"left_said,omitempty"` // Left was said and rules
	NoEarly  unit.Date `json:"not_before,omitzero"` // may not begin earlier
	Circuits int       `json:"circuits,omitempty"`  // of the loom: that were listed when it was finished
	Caution  []string  `json:"cautions,omitempty"`
}

// Task returns the task of that ID, or nil.
func (b *Build) Task(id TaskID) *Task {
	return find(b.Tasks, id, func(t *Task) TaskID { return t.ID })
}

// Move shifts hours of a task from one trade to another.
type Move struct {
	Task  TaskID      `json:"task"`
	From  TradeID     `json:"from"`
	To    TradeID     `json:"to"`
	Hours unit.Effort `json:"hours_h"`
}

// Sublet sends hours of a task to an outside shop for a price.
type Sublet struct {
	Task  TaskID     `json:"task"`
	What  string     `json:"what"`
	Legs  []Leg      `json:"legs"`
	Price unit.Money `json:"price"`
	Days  int        `json:"days"` // working days from the start of the task to the pieces' return
}

// Span is a three-point range.
type Span struct {
	Low  float64 `json:"low"`
	Mode float64 `json:"mode"`
	High float64 `json:"high"`
}

// Risk is how far the work may run from the plan. Factors multiply, the
// reserves are hours of the first trade named in Trade.
type Risk struct {
	Ranges  []RiskRange `json:"ranges"`
	Absence float64     `json:"absence_per_day"` // chance that a person is away on a day
	Reserve []Reserve   `json:"reserves"`
	Events  []Event     `json:"events,omitempty"`
	Late    Judged      `json:"late_parts,omitzero"` // working days by which parts come after the day promised
	People  Judged      `json:"people,omitzero"`     // how people differ in what work takes them: 1 is as planned
}

// RiskRange is the range of one kind of work: an own draw for each piece of
// work, and a common one that moves all work of the kind on this vehicle
// together: worse under the paint than it looked.
type RiskRange struct {
	Kind   string `json:"kind"`
	Factor Span   `json:"factor"`
	Common Span   `json:"common,omitzero"` // zero is none
	Source string `json:"source"`
}

// Reserve is hours kept for what is not seen yet. The first of a task is in
// force from the start; a later one takes its place as findings of the kind
// Since turn up, hour by hour.
type Reserve struct {
	Task  TaskID  `json:"task"`
	Trade TradeID `json:"trade"`
	Hours Span    `json:"hours"`
	Since string  `json:"since,omitempty"` // the kind of finding that draws the first reserve down to this one; empty is from the start
}
