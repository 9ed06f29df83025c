package schedule

// Options steer Solve. The zero value asks for the plain plan: parallel
// generation in the order of Activities.
type Options struct {
	Seed      uint64
	Schedules int                    // budget of generated schedules; 0 is the starting list only
	Workers   int                    // islands that share the budget; 0 is 1. The result depends on it
	Order     []int                  // the list to start from: every activity once; nil is the order of Activities
	Serial    bool                   // the starting list is generated serially: Result.Serial of the plan before
	Bought    []int                  // overtime bought so far, indices into Problem.Overtime: Result.Bought
	Holds     []Hold                 // what is kept back so far: Result.Holds
	Prefer    []Preference           // who is waited for so far: Result.Prefer
	Bound     Minute                 // a lower bound known already, such as Result.LowerBound before; 0 works it out
	Foreman   bool                   // only plans that the zero Options give again from Result.Order: what a foreman does
	Progress  func(done, budget int) // called now and then while improving; may be nil
}

// Status says how far a result can be trusted to be the best.
type Status uint8

// The states of a result.
const (
	BestFound   Status = iota // the best the budget found
	ProvedBest                // no plan of this network can finish earlier
	Interrupted               // the context ended first; the best so far
	OutOfHours                // some work does not fit before the calendars end: its dates are Never
)

// Cause says what set the start of an activity.
type Cause uint8

// The causes of a start.
const (
	ByNow      Cause = iota // it starts now; nothing holds it
	ByLink                  // it waited for another activity and the lag after it
	ByPerson                // it waited for a person to finish another activity
	ByPlace                 // it waited for room in a place
	ByCalendar              // what it waited for came while its people were off
	ByRelease               // it waited for its release, such as a part
	ByHold                  // kept back for a pinned start or a recoat window
	ByFact                  // it has started or is done
	ByWindow                // remedial work: the window of Link closed, which Activity had opened
	ByRemedy                // it waited for the remedial work that a missed window called for
	ByAir                   // it waited for dust to be over and settled, or for clean work to end
)

// Binding is the constraint that set a start. Indices are -1 where they do not apply.
type Binding struct {
	Cause    Cause
	Activity int    // the activity waited for; -1 also for a start that is a fact
	Link     int    // index into Problem.Links
	Person   int    // index into Problem.People
	Place    int    // index into Problem.Places
	At       Minute // when the constraint let go; the start, or earlier by closed hours
}

// Timing is when one activity runs, and with whom.
type Timing struct {
	Start, Finish Minute
	Resume        Minute // when the work still to do begins: Start, but for a started activity
	People        []int  // indices into Problem.People
	Skipped       bool   // not needed: a remedy of a window that was kept, a risk; no dates count
	Binding       Binding
}

// Overrun is a maximum lag that could not be kept.
type Overrun struct {
	Link int    // index into Problem.Links
	By   Minute // wall-clock minutes too late
}

// Hold keeps an activity back, for the sake of a recoat window or of a
// published start.
type Hold struct {
	Activity int
	Until    Minute
}

// Preference lets an activity wait for one person, where it else goes to the
// first of Who who can begin it.
type Preference struct {
	Activity int
	Person   int
}

// Stats count the work that was done.
type Stats struct {
	Schedules int // generated schedules, forward and backward, counted as in [KolischHartmann2006]
	Improved  int // times a better plan was found
	Repeats   int // plans thrown away because there was one like it
	Restarts  int // populations drawn anew
}

// Result is a plan that Check has passed.
type Result struct {
	Status     Status
	Times      []Timing // one per activity
	Makespan   Minute   // the last finish
	Lateness   Minute   // minutes after Goal; 0 when in time or without a goal
	LowerBound Minute   // no plan can finish before it, whatever overtime is bought; see Gap
	Overruns   []Overrun
	Remedies   []int        // indices into Problem.Remedies: work that had to be put in
	Moved      []int        // indices into Problem.Activities: published near starts that did not stand
	Bought     []int        // indices into Problem.Overtime
	Price      int64        // of what was bought
	Order      []int        // the priority list used; give it to Odds
	Serial     bool         // the list was generated serially
	Holds      []Hold       // what is kept back beside the list
	Prefer     []Preference // who is waited for; give it to Odds with the list
	Score      Score        // what it was judged by
	Stats      Stats
}
