package schedule

// Minute is a moment on the wall clock, in minutes from the problem's origin
// (midnight of a day the caller chooses), or a span of such minutes.
type Minute = int32

// Never is the moment of what does not happen before the calendars end.
const Never Minute = 1 << 30

// Window is a stretch of open time, From inclusive, To exclusive.
type Window struct{ From, To Minute }

// Calendar is open time: windows in order, apart, none empty. Labour counts
// only inside its person's calendar; a lag counts only inside its own.
type Calendar []Window

// Person is one pair of hands.
type Person struct {
	ID       string
	Calendar int       // index into Problem.Calendars
	Range    Spread    // common factor on all of this person's work in odds runs
	Learned  Lognormal // what records say instead of Range; the zero value is no records
}

// Place is a booth, a bay or anything else that holds a few at a time.
type Place struct {
	ID    string
	Units int
}

// Kind says how an activity takes time.
type Kind uint8

// The kinds of activity.
const (
	Labour    Kind = iota // pausable work in its person's own hours; may span nights
	Session               // work that must run unbroken inside one open window
	Passive               // time that passes on a calendar with nobody: cure, outwork
	Milestone             // no time at all
)

// Use is a call on a place while an activity runs.
type Use struct{ Place, Units int }

// Spread is a three-point range. As a factor it multiplies a duration (1 is
// "as planned"); the zero Spread means no uncertainty.
type Spread struct{ Low, Mode, High float64 }

// State says how far an activity is.
type State uint8

// The states of an activity.
const (
	Open    State = iota // not started
	Started              // started at Start; Work is what is left from Problem.Now on
	Done                 // ran from Start to Finish; takes no more time
)

// Activity is one piece of work by one trade, or one wait.
type Activity struct {
	ID            string
	Group         string // the task it belongs to; shown, and the unit of criticality
	Kind          Kind
	State         State
	Start, Finish Minute // facts, for Started and Done

	Work     Minute // minutes in the hours of each head, or on Calendar for Passive; what is left, if Started
	Who      []int  // people who may do it, best first
	Heads    int    // how many of Who at once; 0 means 1 for Labour and Session
	Alike    bool   // those in Who are as good as each other; their order only breaks ties
	Crew     string // activities of one crew are done by the same people; "" is free
	Calendar int    // for Passive: index into Problem.Calendars; -1 is the wall clock
	Uses     []Use
	Release  Minute // may not start earlier, such as a part's arrival
	Pinned   bool   // start exactly at Release, or as soon after as is possible

	Range   Spread    // own factor on Work in odds runs: lognormal with its mean and standard deviation
	Learned Lognormal // what records say instead of Range; the zero value is no records
	Factors []int     // common factors that also multiply it: indices into Problem.Factors
	Extra   Spread    // minutes added in odds runs only: a reserve for what is not seen yet
	Late    Spread    // minutes (wall clock) added to Release in odds runs: a late part
	Begun   Begun     // work under way: what odds runs draw is the whole of it
}

// Begun is how far work under way is, in minutes of its own hours or calendar.
// With Spent above zero, odds runs draw the whole, factors × Planned, among
// those wholes that exceed Spent, and what is over and above Spent is left
// instead of factors × Work: work that is spent and not over takes longer yet.
type Begun struct{ Planned, Spent Minute }

// Link makes To wait for From. Lag counts on Calendar from the finish of From
// (or its start, where FromStart is set) to the start of To.
type Link struct {
	From, To  int // indices into Problem.Activities
	Lag       Minute
	Calendar  int // index into Problem.Calendars; -1 is the wall clock
	FromStart bool
	Max       bool // To must start no later than Lag after From: a recoat window
}

// Factor is one uncertainty that many activities share: all metal work on this
// vehicle, all outwork.
type Factor struct {
	ID      string
	Range   Spread    // lognormal with its mean and standard deviation
	Learned Lognormal // what records of other vehicles say instead of Range; the zero value is no records
	Seen    []float64 // what finished work that shares it came to: actual ÷ planned
}

// Problem is everything the engine needs to know. The order of Activities is
// the shop's own list: earlier wins a shared person.
type Problem struct {
	Calendars  []Calendar
	People     []Person
	Places     []Place
	Activities []Activity
	Links      []Link
	Factors    []Factor
	Remedies   []Remedy   // work that a missed maximum lag calls for
	Clashes    []Clash    // dust and clean air
	Overtime   []Overtime // hours that may be bought
	Risks      []Risk     // what may happen, in odds runs only
	Published  []Slot     // by activity, what the shop was told; nil is nothing
	Near       Minute     // published starts before it should stand
	Weights    *Weights   // how goals are weighed up; nil is one after the other
	Now        Minute     // nothing open may start earlier
	Goal       Minute     // the promised finish; 0 is none. A goal, never a wall
	Absence    float64    // chance that a person is away on any one of their days
}
