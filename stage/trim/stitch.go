package trim

import (
	"math"

	"fettle/build"
	"fettle/engine/pattern"
)

// StitchRow is one line of the stitch sheet at the machine: what is sewn in a
// step, how and with what.
type StitchRow struct {
	Number   int               `json:"number"` // of the step, from 1
	Act      pattern.Act       `json:"act"`
	Of       string            `json:"of"` // seam or piece
	Name     string            `json:"name"`
	Kind     build.SeamKind    `json:"kind,omitempty"`
	Times    int               `json:"times"`
	Length   float64           `json:"length_mm"` // of one row; 0 where nobody knows
	Pitch    float64           `json:"pitch_mm,omitempty"`
	Stitches int               `json:"stitches,omitempty"` // of one row
	Rows     int               `json:"rows,omitempty"`
	Top      float64           `json:"top_at_mm,omitempty"`
	Thread   string            `json:"thread,omitempty"`
	Needle   string            `json:"needle,omitempty"`
	Stack    float64           `json:"stack_mm,omitempty"`
	Takes    *pattern.Thread   `json:"takes,omitempty"` // thread of the whole step: all rows, on all copies
	Seen     bool              `json:"seen,omitempty"`
	After    []pattern.Because `json:"after,omitempty"` // steps from 0
	Note     string            `json:"note,omitempty"`
}

// StitchSheet is the steps of a sew order, one row each.
func StitchSheet(b *build.Build, o pattern.Order) []StitchRow {
	var list []StitchRow
	for i, s := range o.Steps {
		r := StitchRow{Number: i + 1, Act: s.Act, Of: s.Of, Name: s.Name, Times: 1, After: s.After}
		switch m := b.Seam(build.SeamID(s.Of)); {
		case s.Act == pattern.SewPleats || s.Act == pattern.SewMotif:
			r.lines(b, s)
		case m != nil:
			r.seam(b, *m)
		}
		list = append(list, r)
	}
	return list
}

// seam fills in a step on a seam.
func (r *StitchRow) seam(b *build.Build, m build.Seam) {
	r.Kind, r.Times, r.Seen, r.Note = m.Kind, m.Times, m.Seen, m.Note
	if long, ok := lengthOfSeam(b, m); ok {
		r.Length = long.Value
	}
	if m.Pitch == 0 {
		return
	}
	r.Rows = 1
	if r.Act == pattern.SewTop {
		r.Top, r.Rows = pattern.Seam{Kind: pattern.Kind(m.Kind), TopAt: m.Top.Mm()}.TopDistance()
	}
	r.with(b, m.Thread, m.Pitch.Mm())
	if row, ok := RowOf(b, m); ok {
		r.Stack = row.Stack.Value
		row.Rows = pattern.Given{Value: float64(r.Rows * r.Times)}
		r.takes(row)
	}
}

// lines fills in pleats or a motif on a piece.
func (r *StitchRow) lines(b *build.Build, s pattern.Step) {
	for _, piece := range b.Pieces {
		p := b.Pattern(piece.ID)
		if p == nil || s.Of != sewnID(b, build.EdgeOf{Piece: piece.ID}) && s.Of != mirrorID(b, piece.ID) {
			continue
		}
		r.Times, r.Seen = piece.Quantity, true
		var all pattern.Row
		var long, known float64
		for _, l := range p.Lines {
			if (l.Kind == "pleat") != (s.Act == pattern.SewPleats) || l.Kind == "cut" {
				continue
			}
			r.Rows++
			r.Length = max(r.Length, lineOf(l.Points).Length())
			r.with(b, l.Thread, l.Pitch.Mm())
			if row, ok := lineRow(b, *p, l); ok {
				r.Stack, all = row.Stack.Value, row
				long, known = long+row.Length.Value, known+1
			}
		}
		if known > 0 {
			all.Length.Value, all.Rows.Value = long/known, known*float64(r.Times)
			r.takes(all)
		}
	}
}

func (r *StitchRow) with(b *build.Build, id build.ThreadID, pitch float64) {
	r.Pitch = pitch
	if pitch > 0 {
		r.Stitches = int(math.Ceil(r.Length/pitch - 1e-9))
	}
	if t := b.Thread(id); t != nil {
		r.Thread, r.Needle = t.Name, needleOf(*t)
	}
}

func (r *StitchRow) takes(row pattern.Row) {
	if t, err := row.Thread(); err == nil {
		r.Takes = &t
	}
}
