package loom

import (
	"context"

	"fettle/build"
	"fettle/engine/loom/board"
)

// Board is the loom laid flat at true size, for the table it is made on.
type Board struct {
	board.Result
	Wide float64 // of the owner's board, 0: as wide as it must be
	High float64
}

// BoardOf lays the routed loom flat on the board that the settings name; false
// without a route.
func BoardOf(ctx context.Context, b *build.Build, s Sheet) (Board, bool, error) {
	if s.Route == nil {
		return Board{}, false, nil
	}
	set := b.Loom.Settings
	out := Board{Wide: set.BoardWidth.Mm(), High: set.BoardHeight.Mm()}
	var err error
	out.Result, err = board.Solve(ctx, board.Problem{Loom: *s.Ways, Routed: *s.Route, Rules: board.Rules{Width: out.Wide, Height: out.High}})
	return out, err == nil, err
}
