package lags

// Lag is a least span from start to start: To starts at least Min after From.
// A negative Min is a most: From starts at most -Min after To.
type Lag struct{ From, To, Min int }

// Problem is work with durations, demands on renewable resources and lags.
// Moments and spans are whole slots of any length; every start is at least 0.
type Problem struct {
	Duration []int   // slots, one per activity; 0 is a milestone
	Demand   [][]int // units held while it runs: a row per activity, a column per resource
	Capacity []int   // units there are, one per resource
	Lags     []Lag
}

// Options steer Solve.
type Options struct {
	Seed     uint64
	Steps    int            // budget in steps: one decision or one conflict each; 0 only runs the preparation
	Starts   []int          // an earlier schedule: the best to begin with if it passes Check, else its order is tried first; may be nil
	Progress func(Progress) // called on every better schedule and every thousand conflicts; may be nil
}

// Progress is how far a search is.
type Progress struct {
	Steps      int
	Makespan   int // of the best schedule so far; -1 while there is none
	LowerBound int
}

// Status says what is known when Solve ends.
type Status uint8

// The states of a result.
const (
	Unknown    Status = iota // no schedule found and none ruled out within the budget
	Feasible                 // Starts is the best found; a better one is not ruled out
	ProvedBest               // Starts is a schedule of least makespan
	Infeasible               // there is no schedule at all; Why says how it is known
)

// Proof says how it is known that there is no schedule.
type Proof uint8

// The proofs, from the plainest to the least plain.
const (
	NoProof   Proof = iota
	Overload        // activity Pair[0] alone asks for more of resource Pair[1] than there is
	Cycle           // the lags of Why.Cycle go round and add up to more than nothing
	Clash           // the activities of Pair cannot overlap, and lags bar either order
	Exhausted       // the search has ruled everything out
)

// Why is the proof that there is no schedule, in indices of the problem.
type Why struct {
	Proof Proof
	Cycle []int // indices into Problem.Lags, in the order of the way round
	Pair  [2]int
}

// Stats count the work that was done.
type Stats struct {
	Steps     int // decisions and conflicts
	Conflicts int // dead ends, each a rule learned
	Restarts  int
	Improved  int // schedules found, each better than the one before
}

// Result is what Solve knows. Starts has passed Check.
type Result struct {
	Status      Status
	Starts      []int // one per activity; nil while no schedule is known
	Makespan    int   // the latest finish; 0 without Starts
	LowerBound  int   // no schedule finishes earlier
	Why         Why   // for Infeasible
	Interrupted bool  // the context ended before the budget did
	Stats       Stats
}
