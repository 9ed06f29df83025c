package mesh

import (
	"math"

	"fettle/fault"
	"fettle/geom"
)

// Limits hold a reader back; a zero means the standard one.
type Limits struct {
	Bytes         int // of the file, unpacked
	Points, Faces int
}

// The standard limits.
const (
	MaxBytes  = 256 << 20
	MaxPoints = 3_000_000
	MaxFaces  = 5_000_000

	farthest = 1e9 // from the origin along any axis, whatever the unit
)

// Standard fills in the standard limits.
func (l Limits) Standard() Limits {
	if l.Bytes <= 0 {
		l.Bytes = MaxBytes
	}
	if l.Points <= 0 {
		l.Points = MaxPoints
	}
	if l.Faces <= 0 {
		l.Faces = MaxFaces
	}
	return l
}

// Size refuses a file of too many bytes.
func (l Limits) Size(bytes int) error {
	if most := l.Standard().Bytes; bytes > most {
		return tooLarge("the file is larger than %d bytes", most)
	}
	return nil
}

// Count refuses more points or faces than the limits allow.
func (l Limits) Count(points, faces int) error {
	l = l.Standard()
	if points > l.Points {
		return tooLarge("the mesh has more than %d points", l.Points)
	}
	if faces > l.Faces {
		return tooLarge("the mesh has more than %d faces", l.Faces)
	}
	return nil
}

// Builder puts a model together and sees that it stays within limits and that
// every face names points that are there.
type Builder struct {
	Limits Limits // set before the first point

	model  Model
	bare   bool    // a face has no flat places
	shared []int32 // table of points by place, a power of two long
	tests  int     // of corners against ears
}

// Points counts the points so far.
func (b *Builder) Points() int { return len(b.model.Mesh.Points) }

// Model returns what was put together. It has flat places only if all faces do.
func (b *Builder) Model() Model {
	m := b.model
	if b.bare && m.UV != nil {
		m.UV = nil
		m.Left = append(m.Left, Left{"flat places, which only some faces have", 1})
	}
	return m
}

// Expect refuses counts beyond the limits before anything is read, and makes
// room for up to a million of each.
func (b *Builder) Expect(points, faces int) error {
	m := &b.model.Mesh
	if points < 0 || faces < 0 {
		return fault.New(fault.Invalid, "%d points, %d faces: fewer than none", points, faces)
	}
	if err := b.Limits.Count(len(m.Points)+points, len(m.Faces)+faces); err != nil {
		return err
	}
	if m.Points == nil {
		m.Points = make([]Vec, 0, min(points, 1<<20))
	}
	if m.Faces == nil {
		m.Faces = make([]Face, 0, min(faces, 1<<20))
	}
	return nil
}

// Point adds a point. Errors are faults without a place.
func (b *Builder) Point(p Vec) error {
	if err := b.Limits.Count(b.Points()+1, 0); err != nil {
		return err
	}
	for _, x := range [3]float64{p.X, p.Y, p.Z} {
		if math.IsNaN(x) || math.Abs(x) > farthest {
			return fault.New(fault.Invalid, "a coordinate is %g: not a place, or too far away", x)
		}
	}
	b.model.Mesh.Points = append(b.model.Mesh.Points, p)
	return nil
}

// Face adds a face by the indices of its points, from 0, with the flat places of
// its corners or nil. Errors are faults without a place.
func (b *Builder) Face(corners [3]int64, uv *[3]geom.Point) error {
	if err := b.Limits.Count(0, len(b.model.Mesh.Faces)+1); err != nil {
		return err
	}
	var face Face
	for k, v := range corners {
		if v < 0 || v >= int64(b.Points()) {
			return fault.New(fault.Invalid, "a face names point %d, counted from 0, of %d", v, b.Points())
		}
		face[k] = int32(v)
	}
	b.model.Mesh.Faces = append(b.model.Mesh.Faces, face)
	if uv == nil {
		b.bare = true
	} else {
		b.model.UV = append(b.model.UV, uv[:]...)
	}
	return nil
}

// Leave counts something that is left out.
func (b *Builder) Leave(what string) {
	for i := range b.model.Left {
		if b.model.Left[i].What == what {
			b.model.Left[i].Count++
			return
		}
	}
	b.model.Left = append(b.model.Left, Left{what, 1})
}

func tooLarge(format string, most int) error {
	return fault.New(fault.TooLarge, format, most).
		WithHint("Thin the mesh out, or cut away what is not to be worked on.")
}
