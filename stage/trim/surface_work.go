package trim

import (
	"context"

	"fettle/engine/flatten/longflat"
	"fettle/fault"
	"fettle/geom/mesh"
)

// FlatKind and FlatVersion name laying flat and the search for darts to a queue of
// jobs.
const (
	FlatKind    = longflat.Kind
	FlatVersion = longflat.Version
)

// FlatOrder is a surface to be laid flat, or darts and seams of it to be looked
// for, as a job takes it.
func FlatOrder(m mesh.Mesh, a FlatAsk, propose bool) (longflat.Order, error) {
	p, err := FlatProblem(m, a)
	if err != nil {
		return longflat.Order{}, err
	}
	return longflat.Order{Surface: mesh.Pack(m), Cuts: p.Cuts, Material: p.Material, Grain: p.Grain, Propose: propose, Seed: 1}, nil
}

// LaidFlat is what a job has laid flat: its order and its answer.
func LaidFlat(o longflat.Order, answer longflat.Answer) (Flattened, error) {
	p, err := o.Problem()
	if err != nil {
		return Flattened{}, err
	}
	if answer.Result == nil || answer.Estimate == nil || len(answer.Result.Faces) != len(p.Surface.Faces) {
		return Flattened{}, fault.New(fault.Internal, "the work has laid another surface flat")
	}
	return Flattened{Problem: p, Estimate: *answer.Estimate, Result: *answer.Result, Areas: p.Surface.FaceAreas()}, nil
}

// LookFlat is the work of the job, TellFlat how far it is, ReadFlat its answer.
func LookFlat(ctx context.Context, input, from []byte, report func(best []byte)) ([]byte, error) {
	return longflat.Lay(ctx, input, from, report)
}

// TellFlat says what the search is at.
func TellFlat(best []byte) (done, of int, figure string) { return longflat.Tell(best) }

// ReadFlat reads what the search found.
func ReadFlat(best []byte) (longflat.Answer, error) { return longflat.Read(best) }
