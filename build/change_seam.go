package build

import (
	"fmt"
	"slices"
	"strings"
)

// SetSeam enters a seam, or enters it anew.
type SetSeam struct {
	Seam Seam `json:"seam"`
}

// Kind names the act.
func (c *SetSeam) Kind() string { return "set-seam" }

// Say tells what the change does.
func (c *SetSeam) Say(*Build) string {
	s := c.Seam
	text := fmt.Sprintf("Seam %s, %s: %s, %s", s.ID, s.Name, s.Kind, sideWords(s.A))
	if len(s.B) > 0 {
		text += " to " + sideWords(s.B)
	}
	if s.Pitch > 0 {
		text += fmt.Sprintf(", a stitch every %.1f mm", s.Pitch.Mm())
	}
	return text
}

func sideWords(list []EdgeOf) string {
	var words []string
	for _, e := range list {
		words = append(words, string(e.Piece)+" "+e.Edge)
	}
	return strings.Join(words, ", ")
}

// Apply adds the seam or takes the place of the one of its ID.
func (c *SetSeam) Apply(b *Build) error {
	return b.trySewn(func(next *Build) { next.Seams = put(b.Seams, c.Seam, (*Seam).key) })
}

// SetThread enters a sewing thread, or enters it anew.
type SetThread struct {
	Thread Thread `json:"thread"`
}

// Kind names the act.
func (c *SetThread) Kind() string { return "set-thread" }

// Say tells what the change does.
func (c *SetThread) Say(*Build) string {
	return fmt.Sprintf("Thread %s: %s, Tex %d", c.Thread.ID, c.Thread.Name, c.Thread.Tex)
}

// Apply adds the thread or takes the place of the one of its ID.
func (c *SetThread) Apply(b *Build) error {
	return b.trySewn(func(next *Build) { next.Threads = put(b.Threads, c.Thread, (*Thread).key) })
}

// SetCord enters a piping cord, or enters it anew.
type SetCord struct {
	Cord Cord `json:"cord"`
}

// Kind names the act.
func (c *SetCord) Kind() string { return "set-cord" }

// Say tells what the change does.
func (c *SetCord) Say(*Build) string {
	return fmt.Sprintf("Piping cord %s: %s, %.1f mm", c.Cord.ID, c.Cord.Name, c.Cord.Diameter.Mm())
}

// Apply adds the cord or takes the place of the one of its ID.
func (c *SetCord) Apply(b *Build) error {
	return b.trySewn(func(next *Build) { next.Cords = put(b.Cords, c.Cord, (*Cord).key) })
}

// SetCover enters what was measured of a covering material, or enters it anew.
type SetCover struct {
	Cover Cover `json:"cover"`
}

// Kind names the act.
func (c *SetCover) Kind() string { return "set-cover" }

// Say tells what the change does.
func (c *SetCover) Say(*Build) string {
	v := c.Cover
	text := v.Material
	if v.Lot != "" {
		text += ", lot " + v.Lot
	}
	text += fmt.Sprintf(": %.1f mm thick", v.Thickness.Mm())
	if v.Along > 0 || v.Across > 0 {
		text += fmt.Sprintf(", stretches %g %% along and %g %% across", v.Along, v.Across)
	}
	if v.Loss > 0 {
		text += fmt.Sprintf(", a pleat takes up %.1f mm", v.Loss.Mm())
	}
	return text
}

// Apply adds it or takes the place of that of its ID.
func (c *SetCover) Apply(b *Build) error {
	return b.trySewn(func(next *Build) { next.Covers = put(b.Covers, c.Cover, (*Cover).key) })
}

// RenameEdges are the changes by which seams follow when edges of a piece get
// other names.
func (b *Build) RenameEdges(piece PieceID, names map[string]string) []Change {
	var list []Change
	for _, s := range b.Seams {
		moved := false
		follow := func(side []EdgeOf) []EdgeOf {
			out := slices.Clone(side)
			for i, e := range out {
				if to, ok := names[e.Edge]; ok && e.Piece == piece {
					out[i].Edge, moved = to, true
				}
			}
			return out
		}
		if s.A, s.B = follow(s.A), follow(s.B); moved {
			list = append(list, &SetSeam{Seam: s})
		}
	}
	return list
}
