package schedule

// Remedy puts a missed maximum lag right: scuff and recoat. Its activity is
// done only when Link is missed, and then before the link's end, which has no
// window to keep any more. Otherwise it is skipped and imposes nothing.
type Remedy struct {
	Link     int // index into Problem.Links, a maximum lag
	Activity int // index into Problem.Activities
}

// Clash keeps dust from clean air. No dirty activity runs while a clean one
// does, and a clean one starts only when Settle has passed on Calendar since
// the last dirty one was over. Settle of two minutes on a calendar of working
// evenings means: no sanding on a spray day, nor on its eve.
type Clash struct {
	Dirty, Clean []int // indices into Problem.Activities
	Settle       Minute
	Calendar     int // index into Problem.Calendars; -1 is the wall clock
}

// Overtime is a stretch of hours outside a person's calendar that may be
// bought, whole, for a price: a Saturday.
type Overtime struct {
	Person int // index into Problem.People
	Window Window
	Price  int64 // in the caller's money, whole units of any size
}

// Risk strikes in a part of the odds runs. Its activities are done only then;
// an activity of several risks when all of them strike, so a fault that comes
// back is one risk for the first time and another for the second. The plain
// plan skips them: they impose nothing.
type Risk struct {
	ID         string
	Chance     float64 // 0 to 1
	Activities []int   // indices into Problem.Activities
}

// Slot is a published start and the people who were told.
type Slot struct {
	Start  Minute // Never where nothing was published
	People []int
}

// Weights weigh the goals up against each other. A plan costs the sum of
// weight × measure; without weights the first measure decides, then the
// second, and so on.
type Weights struct {
	Late     float64 // a minute after the goal
	Remedial float64 // a minute of remedial work, of missed maximum lag or of missed pin
	Moved    float64 // a published near start that moves to another day or to other people
	Overtime float64 // a unit of money
	Length   float64 // a minute of the plan's length
}
