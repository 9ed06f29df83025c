package takeoff

import (
	"fettle/build"
	"fettle/unit"
)

// Record is what a finished task took beside what it was planned to take. Only
// tasks that were planned hours and have hours booked teach anything.
type Record struct {
	Task    build.TaskID `json:"task"`
	Kind    string       `json:"kind"` // of work: the task's range in build.Risk
	Planned unit.Effort  `json:"planned_h"`
	Booked  unit.Effort  `json:"booked_h"`
}

// Records returns the finished tasks of a build, in the order of its list. The
// plan is that of the end: hours of what was found on the way count as planned.
func Records(b *build.Build) []Record {
	var list []Record
	for _, t := range b.Tasks {
		r := Record{Task: t.ID, Kind: t.Risk, Planned: Planned(b, t), Booked: build.Total(bookedLegs(b, t.ID))}
		if t.State == build.Finished && r.Planned > 0 && r.Booked > 0 {
			list = append(list, r)
		}
	}
	return list
}

// Planned returns the hours a task needs in all, as the facts stand.
func Planned(b *build.Build, t build.Task) unit.Effort { return build.Total(plannedLegs(b, t)) }
