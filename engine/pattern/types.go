package pattern

import (
	"encoding/json"

	"fettle/geom"
)

// Line is a row of points in millimetres, written [[x,y], …]. As the outline of
// a piece it closes by itself: the first point is not said twice.
type Line []geom.Point

// MarshalJSON writes pairs of numbers.
func (l Line) MarshalJSON() ([]byte, error) {
	pairs := make([][2]float64, len(l))
	for i, p := range l {
		pairs[i] = [2]float64{p.X, p.Y}
	}
	return json.Marshal(pairs)
}

// UnmarshalJSON reads pairs of numbers.
func (l *Line) UnmarshalJSON(data []byte) error {
	var pairs [][2]float64
	if err := json.Unmarshal(data, &pairs); err != nil {
		return err
	}
	*l = make(Line, len(pairs))
	for i, p := range pairs {
		(*l)[i] = geom.Point{X: p[0], Y: p[1]}
	}
	return nil
}

// Kind is how an edge is finished or sewn.
type Kind string

// The kinds.
const (
	Raw       Kind = "raw"          // not sewn: cut on the line
	Butt      Kind = "butt"         // edge against edge, laced or whipped: cut on the line
	Plain     Kind = "plain"        // face to face, one row
	TopStitch Kind = "top-stitched" // plain, both allowances laid to one side, a second row through them
	French    Kind = "french"       // plain, allowances opened over tape, a row on both sides
	Piped     Kind = "piped"        // plain with a covered cord between
	Hem       Kind = "hem"          // folded back and sewn down
	Wrapped   Kind = "wrapped"      // folded over a board and glued or stapled
	Sleeve    Kind = "sleeve"       // folded back to a sleeve for wire, bow or cord
)

// Edge is a part of a piece's outline, from one corner to the next: from point
// From of the line to that where the next edge starts.
type Edge struct {
	Name      string  `json:"name"`
	From      int     `json:"from"` // index into the line; edges stand in rising order
	Kind      Kind    `json:"kind"`
	Allowance float64 `json:"allowance_mm,omitempty"` // outwards; 0 for the kind's own default
}

// Arrow is the direction that a material has on a piece.
type Arrow struct {
	Kind  string  `json:"kind"`      // grain, nap, stretch; empty for none
	Angle float64 `json:"angle_deg"` // in the piece's own drawing
}

// Pleats are parallel lines sewn across a piece, padded channels between them.
type Pleats struct {
	Angle float64   `json:"angle_deg"` // of the lines
	At    []float64 `json:"at_mm"`     // of each line: how far left of the one through the origin, on the finished piece
	Loss  float64   `json:"loss_mm"`   // width that one sewn line takes up, from a test piece
}

// Motif is a drawing on a piece.
type Motif struct {
	Name      string     `json:"name"`
	Cuts      bool       `json:"cuts,omitempty"`  // a line to cut; else to stitch
	Drawn     Layer      `json:"drawn,omitempty"` // the layer of what is only drawn or punched, such as hole; it is not stitched
	Strokes   []Line     `json:"strokes"`         // in the motif's own millimetres
	Closed    bool       `json:"closed,omitempty"`
	At        [2]float64 `json:"at_mm"` // where the origin of the motif comes on the finished piece
	Turn      float64    `json:"turn_deg,omitempty"`
	Scale     float64    `json:"scale,omitempty"`   // 0 for 1
	Reads     bool       `json:"reads,omitempty"`   // lettering: the twin has it in the mirrored place, not mirrored
	Clearance float64    `json:"clearance_mm"`      // least distance to the sewn line
	Pitch     float64    `json:"pitch_mm,omitzero"` // of its stitches; 0 for the default
}

// Clips are holes for clips along edges of a board or door card.
type Clips struct {
	Edges    []string `json:"edges"`
	Inset    float64  `json:"inset_mm"`             // of the hole's centre from the sewn line
	Pitch    float64  `json:"pitch_mm,omitzero"`    // the most; 0 for 150
	Off      float64  `json:"off_mm,omitzero"`      // least distance to a corner of the outline; 0 for 40
	Diameter float64  `json:"diameter_mm,omitzero"` // 0 for 8
}

// Piece is one pattern: the sewn outline and what is drawn on it.
type Piece struct {
	ID       string  `json:"id"`
	Name     string  `json:"name"`
	Material string  `json:"material,omitempty"`
	Revision string  `json:"revision,omitempty"` // as it is to stand on the pattern
	Quantity int     `json:"quantity,omitempty"` // 0 for 1
	Hand     string  `json:"hand,omitempty"`     // L, R or empty
	Line     Line    `json:"line"`               // the finished, sewn outline
	Edges    []Edge  `json:"edges"`
	Arrow    Arrow   `json:"arrow,omitzero"`
	Pleats   *Pleats `json:"pleats,omitempty"`
	Motifs   []Motif `json:"motifs,omitempty"`
	Clips    *Clips  `json:"clips,omitempty"`
	Label    string  `json:"label,omitempty"` // further words on the pattern
}

// Ref names an edge of a piece.
type Ref struct {
	Piece string `json:"piece"`
	Edge  string `json:"edge"`
}

// Match says that a place of side A meets a place of side B; shares of the
// lengths of the sides, from the start of A.
type Match struct {
	A float64 `json:"a"`
	B float64 `json:"b"`
}

// Sewing is how a row of stitches is sewn.
type Sewing struct {
	Pitch  float64 `json:"pitch_mm"` // between two stitches
	Thread string  `json:"thread"`   // size of the thread, as on its spool
	Needle string  `json:"needle"`
	Stack  float64 `json:"stack_mm"` // thickness of all that is sewn through
	Chain  bool    `json:"chain,omitempty"`
}

// Seam joins side A to side B. A is a chain of edges, each beginning where the
// one before ended, along the outlines; B is a chain too and is written in the
// order in which it meets A: its edges run backwards, as they do on two pieces
// that lie side by side face up.
type Seam struct {
	ID       string   `json:"id"`
	Name     string   `json:"name"`
	A        []Ref    `json:"a"`
	B        []Ref    `json:"b"`
	Kind     Kind     `json:"kind"`
	Ease     float64  `json:"ease,omitempty"`   // designed: length of B over that of A, less 1
	Match    []Match  `json:"match,omitempty"`  // places that must meet; else shares are equal
	RearAtA0 bool     `json:"rear,omitempty"`   // A starts at the rear of the vehicle; else at the front
	Closes   bool     `json:"closes,omitempty"` // its pieces are a tube or a bag after it
	Inside   []string `json:"inside,omitempty"` // seams that can no longer be reached after it
	After    []string `json:"after,omitempty"`  // seams that come first because somebody says so
	Sewing   Sewing   `json:"sewing,omitzero"`
	Top      Sewing   `json:"top,omitzero"`    // the rows on top
	TopAt    float64  `json:"top_at_mm"`       // of a row on top from the seam; 0 for the kind's own default
	Piping   string   `json:"piping,omitzero"` // which piping lies in it
}

// Set is the patterns of one cover and how they are joined.
type Set struct {
	Name   string  `json:"name"`
	Pieces []Piece `json:"pieces"`
	Seams  []Seam  `json:"seams"`
	Mitre  float64 `json:"mitre,omitempty"` // how far a corner's tip may lie from the sewn corner, in allowances; 0 for 2
}

// Layer says what a drawn line is.
type Layer string

// The layers of a drawn piece.
const (
	CutLayer    Layer = "cut"
	SewLayer    Layer = "sew"
	NotchLayer  Layer = "notch" // slits into the allowance
	StitchLayer Layer = "stitch"
	HoleLayer   Layer = "hole"
	SnipLayer   Layer = "snip" // slits that let an allowance open at inner corners
	PleatLayer  Layer = "pleat"
	ArrowLayer  Layer = "arrow"
	LabelLayer  Layer = "label"
)

// Stroke is one line of a drawn piece.
type Stroke struct {
	Layer  Layer `json:"layer"`
	Closed bool  `json:"closed,omitempty"`
	Points Line  `json:"points"`
}

// Words is a short text with its middle at a place.
type Words struct {
	Text   string     `json:"text"`
	At     [2]float64 `json:"at_mm"`
	Height float64    `json:"height_mm"`
}

// Drawn is a piece ready to be put on paper, one to one.
type Drawn struct {
	Piece   string   `json:"piece"`
	Strokes []Stroke `json:"strokes"` // the first is the cut line
	Words   []Words  `json:"words"`
	Area    float64  `json:"area_m2"` // inside the cut line
	Sewn    float64  `json:"sewn_m2"` // inside the sewn line
	Remarks []string `json:"remarks,omitempty"`
}
