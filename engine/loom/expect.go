package loom

import (
	"context"

	"fettle/fault"
)

// Setup is one state of a net that is asked for.
type Setup struct {
	Switches string            // such as "ignition=on, lamps=head"; the rest at rest
	Engine   Engine            // EngineOff unless said
	Sections map[string]string // section by wire where the problem names none, such as from Result
	Celsius  float64           // of all wires; 20 unless said
}

// Reading is what a meter would show.
type Reading struct {
	State
	Volts map[string]float64 `json:"volts"` // by terminal, against the body
}

// Operate solves the net in one state: what a first power-up expects. Without a
// section for a wire it is an error.
func Operate(ctx context.Context, p Problem, u Setup) (Reading, error) {
	n, o, at, err := prepare(&p, u)
	if err != nil {
		return Reading{}, err
	}
	if err := ctx.Err(); err != nil {
		return Reading{}, err
	}
	done, err := o.operate(at, u.Engine)
	if err != nil {
		return Reading{}, err
	}
	r := Reading{State: n.state(at, &done), Volts: make(map[string]float64, len(n.nodes))}
	for pin, node := range n.nodes {
		r.Volts[pin.String()] = done.volts[node]
	}
	return r, nil
}

// prepare compiles a problem with sections for all its wires.
func prepare(p *Problem, u Setup) (*net, *operator, setting, error) {
	_, cable, err := p.rules()
	if err != nil {
		return nil, nil, nil, err
	}
	if err := p.validate(cable); err != nil {
		return nil, nil, nil, err
	}
	n := netOf(p)
	at, err := n.parse(u.Switches)
	if err != nil {
		return nil, nil, nil, err
	}
	o, err := newOperator(n)
	if err != nil {
		return nil, nil, nil, err
	}
	sizes := p.sizes(cable)
	for i, b := range n.wires {
		w := &p.Wires[i]
		name := w.Section
		if name == "" {
			name = u.Sections[w.ID]
		}
		c, ok := sizes[name]
		if !ok {
			return nil, nil, nil, fault.New(fault.Invalid, "no section is known").At("wire " + w.ID).WithHint("solve the loom first, or name the section")
		}
		ohms := c.Ohms(w.LengthM, or(u.Celsius, 20))
		n.branches[b].ohms, o.fixed[b] = ohms, 1/ohms
	}
	return n, o, at, nil
}
