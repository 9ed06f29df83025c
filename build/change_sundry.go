package build

import (
	"fmt"
	"slices"
)

// SetFoam enters a block of foam, or enters it anew.
type SetFoam struct {
	Foam Foam `json:"foam"`
}

// Kind names the act.
func (c *SetFoam) Kind() string { return "set-foam" }

// Say tells what the change does.
func (c *SetFoam) Say(*Build) string {
	f := c.Foam
	return fmt.Sprintf("Foam %s: %d × %s, %s, %.0f × %.0f × %.0f mm", f.ID, f.Quantity, f.Name, f.Kind, f.Width.Mm(), f.Height.Mm(), f.Thickness.Mm())
}

// Apply adds the foam or takes the place of the one of its ID.
func (c *SetFoam) Apply(b *Build) error {
	return b.trySewn(func(next *Build) { next.Foams = put(b.Foams, c.Foam, (*Foam).key) })
}

// SetBoard enters a board, or enters it anew.
type SetBoard struct {
	Board Board `json:"board"`
}

// Kind names the act.
func (c *SetBoard) Kind() string { return "set-board" }

// Say tells what the change does.
func (c *SetBoard) Say(*Build) string {
	d := c.Board
	return fmt.Sprintf("Board %s: %d × %s, %.0f × %.0f mm of %s", d.ID, d.Quantity, d.Name, d.Width.Mm(), d.Height.Mm(), d.Material)
}

// Apply adds the board or takes the place of the one of its ID.
func (c *SetBoard) Apply(b *Build) error {
	return b.trySewn(func(next *Build) { next.Boards = put(b.Boards, c.Board, (*Board).key) })
}

// SetDeadener enters sound deadening, or enters it anew.
type SetDeadener struct {
	Deadener Deadener `json:"deadener"`
}

// Kind names the act.
func (c *SetDeadener) Kind() string { return "set-deadener" }

// Say tells what the change does.
func (c *SetDeadener) Say(*Build) string {
	d := c.Deadener
	return fmt.Sprintf("Sound deadening %s: %s, %s of %g kg/m²", d.ID, d.Name, d.Area, d.Mass)
}

// Apply adds it or takes the place of that of its ID.
func (c *SetDeadener) Apply(b *Build) error {
	return b.trySewn(func(next *Build) { next.Deadening = put(b.Deadening, c.Deadener, (*Deadener).key) })
}

// SetGlue enters a glued joint, or enters it anew.
type SetGlue struct {
	Glue Glue `json:"glue"`
}

// Kind names the act.
func (c *SetGlue) Kind() string { return "set-glue" }

// Say tells what the change does.
func (c *SetGlue) Say(*Build) string {
	return fmt.Sprintf("Glued joint %s: %s, %s on %d faces", c.Glue.ID, c.Glue.Name, c.Glue.Area, c.Glue.Faces)
}

// Apply adds the joint or takes the place of the one of its ID.
func (c *SetGlue) Apply(b *Build) error {
	return b.trySewn(func(next *Build) { next.Glues = put(b.Glues, c.Glue, (*Glue).key) })
}

// DropSewn takes a surface, a seam or what belongs to the sewing off the list.
type DropSewn struct {
	What string `json:"what"`
	ID   string `json:"id"`
}

// Kind names the act.
func (c *DropSewn) Kind() string { return "drop-sewn" }

// Say tells what the change does.
func (c *DropSewn) Say(*Build) string { return fmt.Sprintf("%s %s is off the list", c.What, c.ID) }

// SewnKinds lists what DropSewn takes off.
func SewnKinds() []string {
	return []string{"surface", "seam", "thread", "cord", "cover", "foam", "board", "deadener", "glue"}
}

// Apply takes it off. What others name stays.
func (c *DropSewn) Apply(b *Build) error {
	if err := oneOf(c.What, SewnKinds(), "what"); err != nil {
		return err
	}
	gone := false
	if err := b.trySewn(func(next *Build) { gone = next.dropSewn(c.What, c.ID) }); err != nil {
		return at(err, c.What+" "+c.ID+" is still named")
	}
	if !gone {
		return missing(c.What, c.ID)
	}
	return nil
}

func (b *Build) dropSewn(what, id string) bool {
	switch what {
	case "surface":
		return drop(&b.Surfaces, SurfaceID(id), (*Surface).key)
	case "seam":
		return drop(&b.Seams, SeamID(id), (*Seam).key)
	case "thread":
		return drop(&b.Threads, ThreadID(id), (*Thread).key)
	case "cord":
		return drop(&b.Cords, CordID(id), (*Cord).key)
	case "cover":
		return drop(&b.Covers, CoverID(id), (*Cover).key)
	case "foam":
		return drop(&b.Foams, FoamID(id), (*Foam).key)
	case "board":
		return drop(&b.Boards, BoardID(id), (*Board).key)
	case "deadener":
		return drop(&b.Deadening, DeadenerID(id), (*Deadener).key)
	}
	return drop(&b.Glues, GlueID(id), (*Glue).key)
}

// drop takes the item of that ID off a copy of the list and tells whether it
// was there.
func drop[T any, ID comparable](list *[]T, id ID, of func(*T) ID) bool {
	if find(*list, id, of) == nil {
		return false
	}
	*list = slices.DeleteFunc(slices.Clone(*list), func(x T) bool { return of(&x) == id })
	return true
}
