package build

import "fettle/unit"

// Pattern is one revision of the pattern of a piece. All revisions are kept;
// the last counts. The sewn line is the finished one and runs anticlockwise;
// what is cut beyond it is what pleats take up and the allowance.
type Pattern struct {
	Piece    PieceID       `json:"piece"`
	Revision int           `json:"revision"` // from 1
	Sewn     Ring          `json:"sewn"`
	Edges    []PatternEdge `json:"edges"`
	Marks    []PatternMark `json:"marks,omitempty"`
	Lines    []PatternLine `json:"lines,omitempty"`
	Holes    []PatternHole `json:"clip_holes,omitempty"`
	Label    string        `json:"label,omitempty"`         // further words on the paper
	Loss     unit.Length   `json:"pleat_loss_mm,omitempty"` // that each pleat line takes up, on top of the sewn line
	Cut      Shape         `json:"cut"`                     // cut size, as worked out from all of the above when it was kept
	Source   PatternSource `json:"source"`
	Why      string        `json:"why,omitempty"` // this revision
	Day      unit.Date     `json:"day,omitzero"`
	By       PersonID      `json:"by,omitempty"`
}

// PatternEdge is a stretch of the sewn line: from its first point to that of
// the next edge, of the last edge to that of the first.
type PatternEdge struct {
	Name      string      `json:"name"`
	First     int         `json:"first"` // place in the sewn line, from 0
	Seam      SeamKind    `json:"seam"`
	Allowance unit.Length `json:"allowance_mm,omitempty"` // none is the habit of its kind
}

// PatternMark is a marked point.
type PatternMark struct {
	Name string `json:"name,omitempty"`
	Kind string `json:"kind"`
	At   Spot   `json:"at_mm"`
}

// PatternLine is a line on the piece, from point to point.
type PatternLine struct {
	Name   string      `json:"name,omitempty"`
	Kind   string      `json:"kind"`
	Points Ring        `json:"points"`
	Closed bool        `json:"closed,omitempty"`   // the last point is joined to the first
	Pitch  unit.Length `json:"pitch_mm,omitempty"` // of its stitches; none is the habit of the trade
	Thread ThreadID    `json:"thread,omitempty"`
	Reads  bool        `json:"reads,omitempty"` // lettering: the twin has it in the mirrored place, not mirrored
}

// PatternHole is a round hole for a clip.
type PatternHole struct {
	At       Spot        `json:"at_mm"`
	Diameter unit.Length `json:"diameter_mm"`
}

// SourceKind is where a pattern came from.
type SourceKind string

// Where patterns come from.
const (
	FromSurface SourceKind = "surface"
	FromPhoto   SourceKind = "photo"
	FromFile    SourceKind = "file"
	ByHand      SourceKind = "by hand"
)

// PatternSource is what a pattern was made from.
type PatternSource struct {
	Kind    SourceKind `json:"kind"`
	Surface SurfaceID  `json:"surface,omitempty"`
	Scan    ScanHash   `json:"scan,omitempty"` // of the surface, when it was laid flat
	Job     string     `json:"job,omitempty"`  // the key of what laid it flat
	Part    int        `json:"part,omitempty"` // of the flat parts, from 0
	Photo   PhotoHash  `json:"photo,omitempty"`
	File    string     `json:"file,omitempty"`
}

// MarkPointKinds lists what marked points are called.
func MarkPointKinds() []string { return []string{"notch", "double notch", "point"} }

// LineKinds lists what lines on a pattern are called.
func LineKinds() []string { return []string{"pleat", "stitch", "motif", "cut"} }

// SourceKinds lists where patterns come from.
func SourceKinds() []SourceKind { return []SourceKind{FromSurface, FromPhoto, FromFile, ByHand} }

// Pattern returns the pattern of a piece that counts, its last revision, or nil.
func (b *Build) Pattern(piece PieceID) *Pattern {
	var last *Pattern
	for i := range b.Patterns {
		if p := &b.Patterns[i]; p.Piece == piece && (last == nil || p.Revision > last.Revision) {
			last = p
		}
	}
	return last
}

// Edge returns the edge of that name and its place among the edges, or nil.
func (p *Pattern) Edge(name string) (*PatternEdge, int) {
	for i := range p.Edges {
		if p.Edges[i].Name == name {
			return &p.Edges[i], i
		}
	}
	return nil, -1
}

// Line returns the points of an edge along the sewn line, both ends included.
func (p *Pattern) Line(edge int) Ring {
	first, n := p.Edges[edge].First, len(p.Sewn)
	last := p.Edges[(edge+1)%len(p.Edges)].First
	if last <= first {
		last += n
	}
	line := make(Ring, 0, last-first+1)
	for i := first; i <= last; i++ {
		line = append(line, p.Sewn[i%n])
	}
	return line
}
