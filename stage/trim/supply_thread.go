package trim

import (
	"fmt"
	"math"

	"fettle/build"
	"fettle/engine/pattern"
	"fettle/figure"
)

// RowOf is the stitching of a seam as the thread is reckoned from: all its
// rows, on all copies. It is unknown where the seam is not sewn, or its length
// or what it is sewn through is.
func RowOf(b *build.Build, m build.Seam) (pattern.Row, bool) {
	long, ok := lengthOfSeam(b, m)
	stack, thick := StackOf(b, m)
	rows, _ := rowsOf(m)
	if !ok || !thick || rows == 0 {
		return pattern.Row{}, false
	}
	long.Link = "seam/" + string(m.ID)
	note := fmt.Sprintf("%d on each of %d", rows, m.Times)
	return pattern.Row{Length: long, Rows: pattern.Given{Value: float64(rows * m.Times), Source: figure.Decided, Note: note},
		Pitch: pattern.Given{Value: m.Pitch.Mm(), Source: figure.Decided}, Stack: stack, Bobbin: bobbinOf(b, m.Thread), Seen: m.Seen}, true
}

func bobbinOf(b *build.Build, id build.ThreadID) pattern.Given {
	t := b.Thread(id)
	if t == nil || t.Bobbin == 0 {
		return pattern.Given{}
	}
	return pattern.Given{Value: t.Bobbin.Mm() / 1000, Source: figure.Measured, Note: "thread " + string(id)}
}

// lineRow is the stitching of a line on a pattern, on all copies of its piece.
func lineRow(b *build.Build, p build.Pattern, l build.PatternLine) (pattern.Row, bool) {
	piece := b.Piece(p.Piece)
	if l.Kind == "cut" || l.Thread == "" || piece == nil || thickest(b, piece.Material) == 0 {
		return pattern.Row{}, false
	}
	line := lineOf(l.Points)
	if l.Closed {
		line = append(line, line[0])
	}
	return pattern.Row{Length: pattern.Given{Value: line.Length(), Source: figure.Worked, Note: "as drawn on the pattern", Link: "piece/" + string(p.Piece)},
		Rows: pattern.Given{Value: float64(piece.Quantity), Source: figure.Decided}, Pitch: pattern.Given{Value: l.Pitch.Mm()},
		Stack: pattern.Given{Value: thickest(b, piece.Material), Source: figure.Measured, Note: piece.Material}, Bobbin: bobbinOf(b, l.Thread), Seen: true}, true
}

// threads is the thread of each kind, by seam and by line.
func threads(b *build.Build) []Supply {
	var list []Supply
	for _, t := range b.Threads {
		var rows []pattern.Amount
		put := func(name string, row pattern.Row) {
			if got, err := row.Thread(); err == nil {
				rows = append(rows, named(got.Total, name))
			}
		}
		for _, m := range b.Seams {
			if row, ok := RowOf(b, m); ok && m.Thread == t.ID {
				put(string(m.ID)+" "+m.Name, row)
			}
		}
		for _, piece := range b.Pieces {
			if p := b.Pattern(piece.ID); p != nil {
				for i, l := range p.Lines {
					if row, ok := lineRow(b, *p, l); ok && l.Thread == t.ID {
						put(fmt.Sprintf("%s %s, %s %d", piece.ID, piece.Name, l.Kind, i+1), row)
					}
				}
			}
		}
		if len(rows) == 0 {
			continue
		}
		s := Supply{Kind: ThreadSupply, Name: t.Name, Amount: total("thread "+string(t.ID)+" "+t.Name, rows, "m", 0), Unit: "reels", Buy: 1, Note: fmt.Sprintf("Tex %d, needle %s", t.Tex, needleOf(t))}
		if t.Spool > 0 {
			s.Buy = int(math.Ceil(s.Amount.Value*1000/t.Spool.Mm() - 1e-9))
			s.Amount.Working.With += fmt.Sprintf("; ÷ %.0f m a reel → %d", t.Spool.Mm()/1000, s.Buy)
		}
		s.covers(t.Part, string(t.ID))
		list = append(list, s)
	}
	return list
}

// cords is the piping cord of each kind.
func cords(b *build.Build) []Supply {
	var list []Supply
	for _, c := range b.Cords {
		var runs []pattern.Amount
		for _, m := range b.Seams {
			if m.Cord != c.ID {
				continue
			}
			if a, ok := pipingOf(b, m); ok {
				runs = append(runs, named(a, string(m.ID)+" "+m.Name))
			}
		}
		if len(runs) == 0 {
			continue
		}
		s := Supply{Kind: CordSupply, Name: fmt.Sprintf("%s %.1f mm", c.Name, c.Diameter.Mm()), Amount: total("piping cord "+string(c.ID), runs, "m", 1), Unit: "m"}
		s.Buy = int(math.Ceil(s.Amount.Value - 1e-9))
		s.covers(c.Part, string(c.ID))
		list = append(list, s)
	}
	return list
}

// pipingOf is the cord of a seam, on all copies, in metres.
func pipingOf(b *build.Build, m build.Seam) (pattern.Amount, bool) {
	long, ok := lengthOfSeam(b, m)
	if !ok {
		return pattern.Amount{}, false
	}
	long.Value *= float64(m.Times)
	long.Link = "seam/" + string(m.ID)
	a, err := pattern.PipingCord(long, pattern.Given{Value: float64(m.Corners * m.Times), Source: figure.Measured}, pattern.Given{})
	return a, err == nil
}

// strips is how many strips of each piping piece the piped seams take, beside
// how many are on the list of pieces.
func strips(b *build.Build) []Supply {
	var list []Supply
	for _, piece := range b.Pieces {
		var cord build.CordID
		long, corners := 0.0, 0
		for _, m := range b.Seams {
			if m.Piping != piece.ID {
				continue
			}
			if one, ok := lengthOfSeam(b, m); ok {
				long, corners, cord = long+one.Value*float64(m.Times), corners+m.Corners*m.Times, m.Cord
			}
		}
		if long == 0 {
			continue
		}
		p := pattern.Piping{Length: pattern.Given{Value: long, Source: figure.Worked, Note: "all piped seams"}, Corners: pattern.Given{Value: float64(corners), Source: figure.Measured},
			Thickness: pattern.Given{Value: thickest(b, piece.Material), Source: figure.Measured, Note: piece.Material},
			Piece:     pattern.Given{Value: max(piece.Width, piece.Height).Mm(), Source: figure.Decided, Note: "as on the list of pieces", Link: "piece/" + string(piece.ID)}}
		if c := b.Cord(cord); c != nil {
			p.Cord = pattern.Given{Value: c.Diameter.Mm(), Source: figure.Measured, Note: c.Name}
		}
		got, err := p.Strips()
		if err != nil {
			continue
		}
		s := Supply{Kind: StripSupply, Name: string(piece.ID) + " " + piece.Name, Amount: got.Count, Unit: "strips", Buy: int(got.Count.Value), Have: piece.Quantity}
		s.Note = fmt.Sprintf("cut %.1f mm wide for this cord (%s); the piece is %.0f mm", got.Width.Value, got.Width.Working.With, min(piece.Width, piece.Height).Mm())
		list = append(list, s)
	}
	return list
}
