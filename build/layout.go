package build

import "slices"

// LayoutID names a kept layout.
type LayoutID string

// Layout is a cut plan that was kept: which piece lies where.
type Layout struct {
	ID       LayoutID `json:"id"`
	Material string   `json:"material"`
	Roll     RollID   `json:"roll,omitempty"` // of the material by the metre; none is hides
	Placed   []Placed `json:"placed"`
	Job      string   `json:"job,omitempty"`             // the key of what worked it out; none is by hand
	Mixed    bool     `json:"lots_may_differ,omitempty"` // pieces of one face may come from several dye lots: the lead has said so
	Note     string   `json:"note,omitempty"`
}

// Placed is where one copy of a piece lies: its shape is turned about the
// origin of its own drawing and then moved.
type Placed struct {
	Piece    PieceID `json:"piece"`
	Copy     int     `json:"copy"`           // from 0
	Hide     HideID  `json:"hide,omitempty"` // none on a roll
	X        float64 `json:"x_mm"`
	Y        float64 `json:"y_mm"`
	Rotation float64 `json:"rotation_deg"` // anticlockwise
	Locked   bool    `json:"locked,omitempty"`
}

// Layout returns the layout of that ID, or nil.
func (b *Build) Layout(id LayoutID) *Layout {
	return find(b.Layouts, id, func(l *Layout) LayoutID { return l.ID })
}

// LayoutOf returns the kept layout of a material, or nil.
func (b *Build) LayoutOf(material string) *Layout {
	return find(b.Layouts, material, func(l *Layout) string { return l.Material })
}

// Where returns where a copy of a piece lies, or nil.
func (l *Layout) Where(piece PieceID, copy int) *Placed {
	i := slices.IndexFunc(l.Placed, func(p Placed) bool { return p.Piece == piece && p.Copy == copy })
	if i < 0 {
		return nil
	}
	return &l.Placed[i]
}
