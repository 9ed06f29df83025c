// Package longflat is laying a surface flat, and looking for cuts, as long
// work: a pure function of its order, with how far it is told on the way. Work
// that was cut off begins anew.
package longflat

import (
	"bytes"
	"compress/flate"
	"context"
	"encoding/json"
	"io"

	"fettle/engine/flatten"
	"fettle/engine/flatten/pieces"
	"fettle/fault"
	"fettle/geom/mesh"
)

// Kind and Version name the work to a queue of jobs.
const (
	Kind    = "flat"
	Version = 3
)

// Order is all that a flat pattern follows from.
type Order struct {
	Surface  []byte            `json:"surface"` // as mesh.Pack writes it, mm
	Cuts     [][]int32         `json:"cuts,omitempty"`
	Material *flatten.Material `json:"material,omitempty"`
	Grain    flatten.Grain     `json:"grain"`
	Propose  bool              `json:"propose,omitempty"` // look for cuts too
	Seed     uint64            `json:"seed"`
	Steps    int               `json:"steps,omitempty"` // of each pass; 0 is enough for any surface of the trade
}

// Answer is how far the work is, and what came of it.
type Answer struct {
	Stage     string               `json:"stage,omitempty"`
	Step, Of  int                  `json:",omitempty"`
	Estimate  *flatten.Estimate    `json:"estimate,omitempty"`
	Result    *flatten.Result      `json:"result,omitempty"`
	Proposals [][]flatten.Proposal `json:"proposals,omitempty"` // by round, the best first
}

// Problem reads the surface of an order.
func (o Order) Problem() (flatten.Problem, error) {
	m, err := mesh.Unpack(o.Surface)
	if err != nil {
		return flatten.Problem{}, err
	}
	return flatten.Problem{Surface: m, Cuts: o.Cuts, Material: o.Material, Grain: o.Grain}, nil
}

// Lay does what an order says.
func Lay(ctx context.Context, input, _ []byte, report func(best []byte)) ([]byte, error) {
	var o Order
	if err := json.Unmarshal(input, &o); err != nil {
		return nil, fault.Wrap(fault.Invalid, err, "read the order")
	}
	answer, err := o.Answer(ctx, report)
	if err != nil {
		return nil, err
	}
	return pack(answer), nil
}

// Answer does what an order says; report is told of each stage, nil where
// nobody asks.
func (o Order) Answer(ctx context.Context, report func(best []byte)) (Answer, error) {
	p, err := o.Problem()
	if err != nil {
		return Answer{}, err
	}
	last := ""
	opts := flatten.Options{Seed: o.Seed, Steps: o.Steps, Progress: func(s flatten.Progress) {
		if s.Stage != last && report != nil {
			last = s.Stage
			report(pack(Answer{Stage: s.Stage, Step: s.Step, Of: s.Of}))
		}
	}}
	if !o.Propose {
		l, err := pieces.Lay(ctx, p, opts)
		return Answer{Estimate: &l.Estimate, Result: &l.Result}, err
	}
	rounds, err := pieces.Propose(ctx, p, opts)
	return Answer{Proposals: rounds}, err
}

// Tell says what the work is at.
func Tell(best []byte) (done, of int, figure string) {
	a, err := Read(best)
	if err != nil {
		return 0, 0, ""
	}
	return a.Step, a.Of, a.Stage
}

// Read reads what Lay answered or reported.
func Read(best []byte) (Answer, error) {
	text, err := io.ReadAll(io.LimitReader(flate.NewReader(bytes.NewReader(best)), 1<<30))
	if err != nil {
		return Answer{}, fault.Wrap(fault.Invalid, err, "read a flat pattern")
	}
	var a Answer
	if err := json.Unmarshal(text, &a); err != nil {
		return Answer{}, fault.Wrap(fault.Invalid, err, "read a flat pattern")
	}
	return a, nil
}

// pack writes an answer; into memory it cannot fail.
func pack(a Answer) []byte {
	text, _ := json.Marshal(a)
	var b bytes.Buffer
	w, _ := flate.NewWriter(&b, flate.BestSpeed)
	_, _ = w.Write(text)
	_ = w.Close()
	return b.Bytes()
}
