package trim

import (
	"context"
	"fmt"
	"math"

	"fettle/engine/flatten"
	"fettle/engine/flatten/pieces"
	"fettle/fault"
	"fettle/geom/mesh"
)

// LaidAs are the materials that a surface can be laid flat for.
func LaidAs() []string { return []string{"leather", "vinyl", "cloth", "stiff"} }

// FlatAsk is what is asked of a surface. Cuts are places that each cut goes
// through, by vertex, along the shortest edges between them.
type FlatAsk struct {
	Material string
	Pull     [2]float64 // most, along and across; 0 keeps the habit
	Squeeze  [2]float64
	Cuts     [][]int32
	Grain    [2]int32 // from, to; the same where the best direction is looked for
}

// Flattened is a surface laid flat for a material.
type Flattened struct {
	Problem  flatten.Problem
	Estimate flatten.Estimate
	Result   flatten.Result
	Areas    []float64 // of each face, mm²
}

// habitOf is what a material bears, nil for one that gives nowhere.
func habitOf(name string) (*flatten.Material, error) {
	switch name {
	case "leather":
		m := flatten.Leather()
		return &m, nil
	case "vinyl":
		m := flatten.Vinyl()
		return &m, nil
	case "cloth":
		m := flatten.Cloth()
		return &m, nil
	case "stiff", "":
		return nil, nil
	}
	return nil, fault.New(fault.Invalid, "%q is no material to lay a surface flat for", name).At("material")
}

// FlatProblem is what is asked, as the engine takes it.
func FlatProblem(m mesh.Mesh, a FlatAsk) (flatten.Problem, error) {
	p := flatten.Problem{Surface: m}
	material, err := habitOf(a.Material)
	if err != nil {
		return p, err
	}
	if material != nil {
		for i := range 2 {
			if a.Pull[i] > 0 {
				material.Tension[i] = a.Pull[i]
			}
			if a.Squeeze[i] > 0 {
				material.Squeeze[i] = a.Squeeze[i]
			}
		}
	}
	p.Material = material
	n := int32(len(m.Points))
	for i, v := range a.Grain {
		if v < 0 || v >= n {
			return p, fault.New(fault.Invalid, "there is no vertex %d", v).At([2]string{"grain-from", "grain-to"}[i])
		}
	}
	p.Grain = flatten.Grain{From: a.Grain[0], To: a.Grain[1]}
	near := m.Adjacency()
	for i, cut := range a.Cuts {
		path, err := m.Through(near, cut)
		if err != nil {
			return p, fault.Within(err, fmt.Sprintf("seam %d", i+1))
		}
		p.Cuts = append(p.Cuts, path)
	}
	return p, nil
}

// Flatten lays a surface flat; where its seams part it, each piece by itself. It
// takes at most so many steps a pass, 0 for as many as it needs: Settled tells
// whether they were enough. Bad input is a fault that names the field.
func Flatten(ctx context.Context, m mesh.Mesh, a FlatAsk, steps int) (Flattened, error) {
	p, err := FlatProblem(m, a)
	if err != nil {
		return Flattened{}, err
	}
	l, err := pieces.Lay(ctx, p, flatten.Options{Seed: 1, Steps: steps})
	return Flattened{Problem: p, Estimate: l.Estimate, Result: l.Result, Areas: p.Surface.FaceAreas()}, err
}

// Limits are what the material bears, along and across.
func (f Flattened) Limits() (pull, squeeze [2]float64) {
	if m := f.Problem.Material; m != nil {
		return m.Tension, m.Squeeze
	}
	return [2]float64{0.01, 0.01}, [2]float64{0.01, 0.01} // nothing gives: a hundredth is the eye's
}

// Use is how much of what the material bears a face takes: pulled and pushed,
// 1 at the limit.
func (f Flattened) Use(face int) (pulled, pushed float64) {
	pull, squeeze := f.Limits()
	s := f.Result.Faces[face]
	for i, e := range [2]float64{s.Along, s.Across} {
		pulled = math.Max(pulled, shareOf(e, pull[i]))
		pushed = math.Max(pushed, shareOf(-e, squeeze[i]))
	}
	if m := f.Problem.Material; m != nil && m.Lock > 0 {
		pulled = math.Max(pulled, shareOf(math.Abs(s.Shear), m.Lock))
	}
	return pulled, pushed
}

// Shear says how far woven threads are sheared, and where they lock; nothing of
// what does not shear freely.
func (f Flattened) Shear() string {
	m := f.Problem.Material
	if m == nil || m.Lock == 0 {
		return ""
	}
	var most float64
	for _, s := range f.Result.Faces {
		most = math.Max(most, math.Abs(s.Shear))
	}
	return fmt.Sprintf("Its threads shear by up to %.0f°; they lock at %.0f°, and shear counts as pull in the hatching.", most*180/math.Pi, m.Lock*180/math.Pi)
}

// shareOf is how much of a limit a strain takes; a hair over, which the engine
// counts as at the limit, is 1.
func shareOf(strain, limit float64) float64 {
	limit = math.Max(limit, 1e-4)
	if strain > limit && strain < limit+hairOver {
		return 1
	}
	return strain / limit
}

const hairOver = 0.001
