package build

import "fettle/unit"

// SeamID names a seam.
type SeamID string

// SeamKind is how an edge is sewn or finished.
type SeamKind string

// The kinds. A raw edge, a hem, a wrapped edge and a sleeve have one side.
const (
	Raw        SeamKind = "raw"          // not sewn
	Butt       SeamKind = "butt"         // edge against edge, laced or whipped
	Plain      SeamKind = "plain"        // face to face
	TopStitch  SeamKind = "top-stitched" // both allowances to one side, a row on top
	FrenchSeam SeamKind = "french"       // allowances opened over tape, a row on both sides
	Piped      SeamKind = "piped"        // a covered cord between
	Hem        SeamKind = "hem"          // folded back and sewn down
	Wrapped    SeamKind = "wrapped"      // over a board, glued or stapled
	Sleeve     SeamKind = "sleeve"       // folded back for wire, bow or cord
)

// SeamKinds lists the kinds of seam.
func SeamKinds() []SeamKind {
	return []SeamKind{Raw, Butt, Plain, TopStitch, FrenchSeam, Piped, Hem, Wrapped, Sleeve}
}

// Joins tells whether a seam of the kind joins two sides.
func (k SeamKind) Joins() bool {
	return k == Butt || k == Plain || k == TopStitch || k == FrenchSeam || k == Piped
}

// Seam is one line of sewing, made so many times. Its sides are chains of
// edges: those of A run along the outlines of their pieces, those of B against
// them, as they meet A.
type Seam struct {
	ID      SeamID      `json:"id"`
	Name    string      `json:"name"`
	Kind    SeamKind    `json:"kind"`
	A       []EdgeOf    `json:"a"`
	B       []EdgeOf    `json:"b,omitempty"`
	Times   int         `json:"times"`               // how often it is sewn on this vehicle
	Length  unit.Length `json:"length_mm,omitempty"` // where no pattern gives it
	Ease    float64     `json:"ease_percent,omitempty"`
	Match   []Meeting   `json:"match,omitempty"`
	Pitch   unit.Length `json:"pitch_mm,omitempty"` // of the stitches; none is not sewn
	Thread  ThreadID    `json:"thread,omitempty"`
	Stack   unit.Length `json:"stack_mm,omitempty"`  // of what is sewn through; none is worked out from the materials
	Top     unit.Length `json:"top_mm,omitempty"`    // of a row on top from the seam; none is the habit of its kind
	Corners int         `json:"corners,omitempty"`   // that piping goes round
	Cord    CordID      `json:"cord,omitempty"`      // of a piped seam
	Piping  PieceID     `json:"piping,omitempty"`    // the strip about the cord
	Rear    bool        `json:"from_rear,omitempty"` // A begins at the rear of the vehicle
	Closes  bool        `json:"closes,omitempty"`    // its pieces are a tube or a bag after it
	Inside  []SeamID    `json:"inside,omitempty"`    // seams that cannot be reached after it
	After   []SeamID    `json:"after,omitempty"`     // seams that are sewn before, as somebody says
	Seen    bool        `json:"seen,omitempty"`
	Note    string      `json:"note,omitempty"`
}

// EdgeOf is an edge of a piece, or of its mirror image for the other side.
type EdgeOf struct {
	Piece    PieceID `json:"piece"`
	Edge     string  `json:"edge"`
	Mirrored bool    `json:"mirrored,omitempty"`
}

// Meeting says that a place of side A meets a place of side B; shares of their
// lengths from the start of A.
type Meeting struct {
	A float64 `json:"a"`
	B float64 `json:"b"`
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
