package mesh

import (
	"bytes"
	"compress/flate"
	"encoding/binary"
	"io"
	"math"

	"fettle/fault"
)

// packed begins every packed mesh; its last byte is the version.
const packed = "fettlem1"

// Pack writes a mesh in few bytes, for a vault or a wire: eight bytes of name,
// the numbers of points and faces as 32-bit little-endian words, then, deflated,
// x, y, z of each point as 32-bit floats and three 32-bit indices a face. Places
// are rounded to 24 bits: 0.06 µm at a metre in millimetres.
func Pack(m Mesh) []byte {
	var out bytes.Buffer
	head := []byte(packed)
	head = binary.LittleEndian.AppendUint32(head, uint32(len(m.Points)))
	head = binary.LittleEndian.AppendUint32(head, uint32(len(m.Faces)))
	out.Write(head)
	body := make([]byte, 0, 12*(len(m.Points)+len(m.Faces)))
	for _, p := range m.Points {
		for _, x := range [3]float64{p.X, p.Y, p.Z} {
			body = binary.LittleEndian.AppendUint32(body, math.Float32bits(float32(x)))
		}
	}
	for _, f := range m.Faces {
		for _, v := range f {
			body = binary.LittleEndian.AppendUint32(body, uint32(v))
		}
	}
	w, err := flate.NewWriter(&out, flate.DefaultCompression)
	if err != nil {
		panic(err) // the level is a constant
	}
	w.Write(body) // a buffer takes everything
	w.Close()
	return out.Bytes()
}

// Unpack reads what Pack wrote. Errors are faults of kind Invalid or TooLarge.
func Unpack(data []byte) (Mesh, error) {
	if len(data) < len(packed)+8 || string(data[:len(packed)]) != packed {
		return Mesh{}, fault.New(fault.Invalid, "this is not a packed mesh")
	}
	counts := data[len(packed):]
	points, faces := binary.LittleEndian.Uint32(counts), binary.LittleEndian.Uint32(counts[4:])
	var b Builder
	if err := b.Expect(int(points), int(faces)); err != nil {
		return Mesh{}, err
	}
	size := 12 * (int64(points) + int64(faces))
	body, err := io.ReadAll(io.LimitReader(flate.NewReader(bytes.NewReader(counts[8:])), size+1))
	if err != nil || int64(len(body)) != size {
		return Mesh{}, fault.New(fault.Invalid, "the packed mesh is cut short or broken")
	}
	word := func() uint32 {
		x := binary.LittleEndian.Uint32(body)
		body = body[4:]
		return x
	}
	float := func() float64 { return float64(math.Float32frombits(word())) }
	for range points {
		if err := b.Point(Vec{float(), float(), float()}); err != nil {
			return Mesh{}, err
		}
	}
	for range faces {
		if err := b.Face([3]int64{int64(word()), int64(word()), int64(word())}, nil); err != nil {
			return Mesh{}, err
		}
	}
	return b.Model().Mesh, nil
}
