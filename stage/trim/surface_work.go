package trim

import (
	"context"

	"fettle/engine/flatten/longflat"
	"fettle/geom/mesh"
)

// FlatKind and FlatVersion name the search for darts and seams to a queue of
// jobs.
const (
	FlatKind    = longflat.Kind
	FlatVersion = longflat.Version
)

// FlatOrder is the search for darts and seams of a surface, as a job takes it.
func FlatOrder(m mesh.Mesh, a FlatAsk) (longflat.Order, error) {
	p, err := FlatProblem(m, a)
	if err != nil {
		return longflat.Order{}, err
	}
	return longflat.Order{Surface: mesh.Pack(m), Cuts: p.Cuts, Material: p.Material, Grain: p.Grain, Propose: true, Seed: 1}, nil
}

// LookFlat is the work of the job, TellFlat how far it is, ReadFlat its answer.
func LookFlat(ctx context.Context, input, from []byte, report func(best []byte)) ([]byte, error) {
	return longflat.Lay(ctx, input, from, report)
}

// TellFlat says what the search is at.
func TellFlat(best []byte) (done, of int, figure string) { return longflat.Tell(best) }

// ReadFlat reads what the search found.
func ReadFlat(best []byte) (longflat.Answer, error) { return longflat.Read(best) }
