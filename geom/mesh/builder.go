package mesh

import (
	"math"

	"fettle/fault"
)

// Limits hold a reader back; a zero means the standard one.
type Limits struct {
	Bytes         int64 // of the file, unpacked
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

// Builder puts a mesh together and sees that it stays within limits and that
// every face names points that are there.
type Builder struct {
	Limits Limits
	Mesh   Mesh
}

// Expect refuses counts beyond the limits before anything is read, and makes
// room for up to a million of each.
func (b *Builder) Expect(points, faces int) error {
	b.Limits = b.Limits.Standard()
	if points < 0 || len(b.Mesh.Points)+points > b.Limits.Points {
		return b.tooLarge("points", b.Limits.Points)
	}
	if faces < 0 || len(b.Mesh.Faces)+faces > b.Limits.Faces {
		return b.tooLarge("faces", b.Limits.Faces)
	}
	if b.Mesh.Points == nil {
		b.Mesh.Points = make([]Vec, 0, min(points, 1<<20))
	}
	if b.Mesh.Faces == nil {
		b.Mesh.Faces = make([]Face, 0, min(faces, 1<<20))
	}
	return nil
}

// Point adds a point. Errors are faults without a place.
func (b *Builder) Point(p Vec) error {
	if len(b.Mesh.Points) >= b.Limits.Standard().Points {
		return b.tooLarge("points", b.Limits.Standard().Points)
	}
	for _, x := range [3]float64{p.X, p.Y, p.Z} {
		if math.IsNaN(x) || math.Abs(x) > farthest {
			return fault.New(fault.Invalid, "a coordinate is %g: not a place, or too far away", x)
		}
	}
	b.Mesh.Points = append(b.Mesh.Points, p)
	return nil
}

// Face adds a face by the indices of its points, from 0. Errors are faults
// without a place.
func (b *Builder) Face(i, j, k int64) error {
	if len(b.Mesh.Faces) >= b.Limits.Standard().Faces {
		return b.tooLarge("faces", b.Limits.Standard().Faces)
	}
	for _, v := range [3]int64{i, j, k} {
		if v < 0 || v >= int64(len(b.Mesh.Points)) {
			return fault.New(fault.Invalid, "a face names point %d, counted from 0, of %d", v, len(b.Mesh.Points))
		}
	}
	b.Mesh.Faces = append(b.Mesh.Faces, Face{int32(i), int32(j), int32(k)})
	return nil
}

func (b *Builder) tooLarge(of string, most int) error {
	return fault.New(fault.TooLarge, "the mesh has more than %d %s", most, of).
		WithHint("Thin it out in the scanner's own program, or cut away what is not to be covered.")
}
