package threemf

import (
	"fmt"

	"fettle/fault"
	"fettle/geom/mesh"
)

const (
	deepest     = 32
	mostUses    = 100_000 // of objects
	mostObjects = 100_000
)

// Read reads all that is to be built as one surface. Errors are faults of kind
// Invalid or TooLarge that name the entry of the archive or the line of the
// model.
func Read(data []byte, limits mesh.Limits) (mesh.Model, error) {
	if err := limits.Size(len(data)); err != nil {
		return mesh.Model{}, err
	}
	text, err := model(data, limits.Standard().Bytes)
	if err != nil {
		return mesh.Model{}, err
	}
	r := reader{build: mesh.Builder{Limits: limits}}
	if r.doc, err = parse(text, limits); err != nil {
		return mesh.Model{}, err
	}
	for _, u := range r.doc.items {
		if err := r.use(u, mesh.Identity, 1); err != nil {
			return mesh.Model{}, err
		}
	}
	if len(r.doc.items) == 0 {
		r.build.Leave("the whole model, of which nothing is to be built")
	}
	m := r.build.Model()
	m.Unit = r.doc.unit
	return m, nil
}

// reader puts objects where they are built.
type reader struct {
	doc   document
	build mesh.Builder
	uses  int
}

func (r *reader) use(u use, above mesh.Affine, depth int) error {
	where := fmt.Sprintf("model, line %d", u.line)
	o := r.doc.objects[u.id]
	if o == nil {
		return fault.New(fault.Invalid, "there is no object %.40q", u.id).At(where)
	}
	if r.uses++; depth > deepest || r.uses > mostUses {
		return fault.New(fault.Invalid, "objects are made of each other more than %d deep, in a ring, or too often", deepest).At(where)
	}
	if o.other {
		r.build.Leave("supports and the like")
		return nil
	}
	move, first := above.After(u.move), int64(r.build.Points())
	for i, p := range o.points {
		if err := r.build.Point(move.Apply(p)); err != nil {
			return fault.Within(err, fmt.Sprintf("%s, point %d", where, i))
		}
	}
	for _, f := range o.faces {
		if move.Mirrors() {
			f[1], f[2] = f[2], f[1]
		}
		if err := r.build.Face([3]int64{first + f[0], first + f[1], first + f[2]}, nil); err != nil {
			return fault.Within(err, where)
		}
	}
	for _, part := range o.parts {
		if err := r.use(part, move, depth+1); err != nil {
			return err
		}
	}
	return nil
}
