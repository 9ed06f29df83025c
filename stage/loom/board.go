package loom

import (
	"context"

	"fettle/build"
	"fettle/engine/loom"
	"fettle/engine/loom/board"
)

// Board is the loom laid flat at true size, for the table it is made on.
type Board struct {
	board.Result
	Wide  float64        `json:"asked_width_mm"` // the owner's board, 0: whichever of whole sheets is the smallest
	High  float64        `json:"asked_height_mm"`
	Tried []board.Status `json:"tried,omitempty"` // how it lies on board.Sizes, as far as they were tried
}

// BoardOf lays the routed loom flat on the board that the settings name, or on
// the smallest of whole sheets; false without a route.
func BoardOf(ctx context.Context, b *build.Build, s Sheet) (Board, bool, error) {
	if s.Route == nil {
		return Board{}, false, nil
	}
	set := b.Loom.Settings
	out := Board{Wide: set.BoardWidth.Mm(), High: set.BoardHeight.Mm()}
	p := boardProblem(b, s)
	var err error
	if out.Wide == 0 && out.High == 0 {
		out.Result, out.Tried, err = board.Smallest(ctx, p)
	} else {
		p.Rules = board.Rules{Width: out.Wide, Height: out.High}
		out.Result, err = board.Solve(ctx, p)
	}
	return out, err == nil, err
}

// BoardSizes tells how the routed loom lies on each board of whole sheets.
func BoardSizes(ctx context.Context, b *build.Build, s Sheet) ([]BoardSize, error) {
	if s.Route == nil {
		return nil, nil
	}
	p := boardProblem(b, s)
	var list []BoardSize
	for _, x := range board.Sizes() {
		p.Rules = board.Rules{Width: x.Width, Height: x.Height}
		r, err := board.Solve(ctx, p)
		if err != nil {
			return nil, err
		}
		list = append(list, BoardSize{x, r.Status, r.Angle, r.Gap})
	}
	return list, nil
}

// WholeSheets are the boards that BoardSizes tries.
func WholeSheets() []board.Size { return board.Sizes() }

// BoardSize is a board of whole sheets, and how the loom lies on it.
type BoardSize struct {
	board.Size
	Status board.Status `json:"status"`
	Angle  float64      `json:"least_angle_deg"`
	Gap    float64      `json:"least_gap_mm"`
}

// Fits tells whether the loom lies on it at all.
func (s BoardSize) Fits() bool { return s.Status == board.Laid || s.Status == board.Narrowed }

// boardProblem is the routed loom with the names of its places.
func boardProblem(b *build.Build, s Sheet) board.Problem {
	p := board.Problem{Loom: *s.Ways, Routed: *s.Route, Names: map[string]string{}}
	for _, w := range b.Loom.Waypoints {
		p.Names[string(w.ID)] = w.Name
	}
	return p
}

// Hues names the colours of a wire, the base first; none where they cannot be read.
func Hues(letters string) []string {
	hues, err := loom.ReadColour(letters)
	if letters == "" || err != nil {
		return nil
	}
	names := make([]string, len(hues))
	for i, h := range hues {
		names[i] = h.Name
	}
	return names
}

// BoardWord is a word of the drawing, at the place that it is of.
type BoardWord = board.Text

// SpreadWords puts words on a board so that none lies over another, the loom or
// a connector.
func SpreadWords(words []BoardWord, b Board) ([]BoardWord, []board.Line) {
	var lines []board.Line
	for _, l := range b.Lines {
		if l.Layer == board.LayerBoard || l.Layer == board.LayerLoom || l.Layer == board.LayerFaces && l.Closed {
			lines = append(lines, l)
		}
	}
	return board.Spread(words, lines)
}

// Words are the colours of a wire in words.
func Words(letters string) string { return words(letters) }
