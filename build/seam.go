package build

import "fettle/unit"

// SeamID names a seam.
type SeamID string

// SeamKind is how an edge is sewn or finished.
type SeamKind string

// The kinds of seam. A hem, a wrap and a raw edge have one side.
const (
	Plain       SeamKind = "plain"
	TopStitched SeamKind = "top-stitched"
	French      SeamKind = "French"
	Piped       SeamKind = "piped"
	Lapped      SeamKind = "lapped"
	Butt        SeamKind = "butt"
	Hem         SeamKind = "hem"
	Wrap        SeamKind = "wrap" // round the edge of a board, glued
	Raw         SeamKind = "raw"
)

// SeamKinds lists the kinds of seam.
func SeamKinds() []SeamKind {
	return []SeamKind{Plain, TopStitched, French, Piped, Lapped, Butt, Hem, Wrap, Raw}
}

// Sides is how many edges meet in a seam of the kind.
func (k SeamKind) Sides() int {
	if k == Hem || k == Wrap || k == Raw {
		return 1
	}
	return 2
}

// Seam is one line of sewing, made so many times.
type Seam struct {
	ID     SeamID        `json:"id"`
	Name   string        `json:"name"`
	Kind   SeamKind      `json:"kind"`
	Sides  []SeamSide    `json:"sides"`
	Times  int           `json:"times"`               // how often it is sewn on this vehicle
	Length unit.Length   `json:"length_mm,omitempty"` // where no pattern gives it
	Pitch  unit.Length   `json:"pitch_mm,omitempty"`  // of the stitches; none is not sewn
	Thread ThreadID      `json:"thread,omitempty"`
	Stack  unit.Length   `json:"stack_mm,omitempty"` // of what is sewn through; none is worked out from the materials
	Top    []unit.Length `json:"top_mm,omitempty"`   // rows of top-stitching, by how far each is from the seam
	Ease   float64       `json:"ease_percent,omitempty"`
	Cord   CordID        `json:"cord,omitempty"`   // of a piped seam
	Piping PieceID       `json:"piping,omitempty"` // the strip about the cord
	After  []SeamID      `json:"after,omitempty"`  // seams that are sewn before
	Why    string        `json:"why_after,omitempty"`
	Seen   bool          `json:"seen,omitempty"`
	Note   string        `json:"note,omitempty"`
}

// SeamSide is the edge of a piece that goes into a seam. Ease of a seam is how
// much longer its second side is.
type SeamSide struct {
	Piece PieceID `json:"piece"`
	Edge  string  `json:"edge"`
}

// ThreadID names a thread.
type ThreadID string

// Thread is a sewing thread.
type Thread struct {
	ID     ThreadID    `json:"id"`
	Name   string      `json:"name"`
	Tex    int         `json:"tex"` // grams to 1,000 m
	Bobbin unit.Length `json:"bobbin_mm,omitempty"`
	Spool  unit.Length `json:"spool_mm,omitempty"`
	Part   PartID      `json:"part,omitempty"`
}

// CordID names a piping cord.
type CordID string

// Cord is what piping is filled with.
type Cord struct {
	ID       CordID      `json:"id"`
	Name     string      `json:"name"`
	Diameter unit.Length `json:"diameter_mm"`
	Part     PartID      `json:"part,omitempty"`
}

// Seam returns the seam of that ID, or nil.
func (b *Build) Seam(id SeamID) *Seam {
	return find(b.Seams, id, (*Seam).key)
}

// Thread returns the thread of that ID, or nil.
func (b *Build) Thread(id ThreadID) *Thread {
	return find(b.Threads, id, (*Thread).key)
}

// Cord returns the piping cord of that ID, or nil.
func (b *Build) Cord(id CordID) *Cord {
	return find(b.Cords, id, (*Cord).key)
}

func (s *Seam) key() SeamID { return s.ID }

func (t *Thread) key() ThreadID { return t.ID }

func (c *Cord) key() CordID { return c.ID }
