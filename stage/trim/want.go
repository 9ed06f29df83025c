package trim

import (
	"fmt"

	"fettle/build"
)

// supplyLead is how many working days a trim supplier takes: a habit of the
// trade, to be put right with the order.
const supplyLead = 5

// Want returns the changes that put on the list of Stores what no part covers
// of a supply, for a task: a part, and that what it is for names it. The price
// is not known yet and stands at nothing.
func (s Supply) Want(b *build.Build, task build.TaskID) []build.Change {
	if len(s.Bare) == 0 {
		return nil
	}
	part := build.Part{ID: b.NextPart(), Name: fmt.Sprintf("%s, %s", s.Kind, s.Name), Quantity: max(s.Buy, 1), Lead: supplyLead, Task: task}
	list := []build.Change{&build.AddPart{Part: part}}
	for _, id := range s.Bare {
		if c := s.names(b, id, part.ID); c != nil {
			list = append(list, c)
		}
	}
	return list
}

// names is the change by which a thing of the supply names its part.
func (s Supply) names(b *build.Build, id string, part build.PartID) build.Change {
	switch s.Kind {
	case ThreadSupply:
		x := *b.Thread(build.ThreadID(id))
		x.Part = part
		return &build.SetThread{Thread: x}
	case CordSupply:
		x := *b.Cord(build.CordID(id))
		x.Part = part
		return &build.SetCord{Cord: x}
	case FoamSupply:
		x := *b.Foam(build.FoamID(id))
		x.Part = part
		return &build.SetFoam{Foam: x}
	case BoardSupply:
		x := *b.Board(build.BoardID(id))
		x.Part = part
		return &build.SetBoard{Board: x}
	case ClipSupply:
		x := *b.Board(build.BoardID(id))
		x.ClipPart = part
		return &build.SetBoard{Board: x}
	case DeadenerSupply:
		x := *b.Deadener(build.DeadenerID(id))
		x.Part = part
		return &build.SetDeadener{Deadener: x}
	case GlueSupply:
		x := *b.Glue(build.GlueID(id))
		x.Part = part
		return &build.SetGlue{Glue: x}
	}
	return nil
}
