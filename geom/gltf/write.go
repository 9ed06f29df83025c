package gltf

import (
	"encoding/binary"
	"encoding/json"
	"io"
	"math"

	"fettle/geom"
	"fettle/geom/mesh"
)

// Write writes a binary file (GLB) with one surface: places in metres as 32-bit
// floats, normals, flat places if there are any, and indices. Points are
// repeated where their flat places differ. A unit of 0 is the millimetre. The
// error is what w says.
func Write(w io.Writer, m mesh.Model) error {
	unit := m.Unit
	if unit == 0 {
		unit = 1
	}
	c := collect(m)
	var o out
	normals := m.Mesh.VertexNormals()
	place, normal := make([]mesh.Vec, len(c.point)), make([]mesh.Vec, len(c.point))
	for i, v := range c.point {
		place[i], normal[i] = m.Mesh.Points[v].Scale(unit/metre), normals[v]
	}
	o.doc.Asset.Version, o.doc.Asset.Generator = "2.0", "fettle"
	first := 0
	o.doc.Scene, o.doc.Scenes = &first, []scene{{Nodes: []int{0}}}
	if len(c.index) == 0 {
		o.doc.Nodes = []node{{}}
		return o.write(w)
	}
	p := primitive{Attributes: map[string]int{"POSITION": o.vecs(place, true), "NORMAL": o.vecs(normal, false)}}
	if c.flat != nil {
		p.Attributes["TEXCOORD_0"] = o.flat(c.flat)
	}
	at := o.indices(c.index)
	p.Indices = &at
	o.doc.Nodes, o.doc.Meshes = []node{{Mesh: &first}}, []meshes{{[]primitive{p}}}
	return o.write(w)
}

// vertices are points with one flat place each.
type vertices struct {
	point []int32
	flat  []geom.Point
	index []uint32
}

func collect(m mesh.Model) vertices {
	type key struct {
		v  int32
		at geom.Point
	}
	var c vertices
	flat := len(m.UV) == 3*len(m.Mesh.Faces) && len(m.UV) > 0
	known := map[key]uint32{}
	for f, face := range m.Mesh.Faces {
		for k, v := range face {
			at := key{v: v}
			if flat {
				at.at = m.UV[3*f+k]
			}
			i, old := known[at]
			if !old {
				i = uint32(len(c.point))
				known[at], c.point = i, append(c.point, v)
				if flat {
					c.flat = append(c.flat, at.at)
				}
			}
			c.index = append(c.index, i)
		}
	}
	return c
}

// out is a file under way.
type out struct {
	doc document
	bin []byte
}

const (
	vertexData = 34962
	indexData  = 34963
)

// add makes an accessor of all bytes since from.
func (o *out) add(from, target int, a accessor) int {
	view := len(o.doc.BufferViews)
	o.doc.BufferViews = append(o.doc.BufferViews, bufferView{ByteOffset: from, ByteLength: len(o.bin) - from, Target: target})
	a.BufferView = &view
	o.doc.Accessors = append(o.doc.Accessors, a)
	return len(o.doc.Accessors) - 1
}

func (o *out) float(x float64) float64 {
	o.bin = binary.LittleEndian.AppendUint32(o.bin, math.Float32bits(float32(x)))
	return float64(float32(x))
}

func (o *out) vecs(list []mesh.Vec, bounds bool) int {
	from, a := len(o.bin), accessor{ComponentType: float32s, Count: len(list), Type: "VEC3"}
	for i, v := range list {
		x := []float64{o.float(v.X), o.float(v.Y), o.float(v.Z)}
		if !bounds {
			continue
		}
		if i == 0 {
			a.Min, a.Max = append(a.Min, x...), append(a.Max, x...)
		}
		for k := range x {
			a.Min[k], a.Max[k] = min(a.Min[k], x[k]), max(a.Max[k], x[k])
		}
	}
	return o.add(from, vertexData, a)
}

func (o *out) flat(list []geom.Point) int {
	from := len(o.bin)
	for _, p := range list {
		o.float(p.X)
		o.float(p.Y)
	}
	return o.add(from, vertexData, accessor{ComponentType: float32s, Count: len(list), Type: "VEC2"})
}

func (o *out) indices(list []uint32) int {
	from := len(o.bin)
	for _, i := range list {
		o.bin = binary.LittleEndian.AppendUint32(o.bin, i)
	}
	return o.add(from, indexData, accessor{ComponentType: uint32s, Count: len(list), Type: "SCALAR"})
}

// write writes the header and the chunks, filled up to four bytes.
func (o *out) write(w io.Writer) error {
	if len(o.bin) > 0 {
		o.doc.Buffers = []buffer{{ByteLength: len(o.bin)}}
	}
	text, err := json.Marshal(o.doc)
	if err != nil {
		return err
	}
	for len(text)%4 > 0 {
		text = append(text, ' ')
	}
	size := 12 + 8 + len(text)
	if len(o.bin) > 0 {
		size += 8 + len(o.bin)
	}
	head := binary.LittleEndian.AppendUint32([]byte(magic), 2)
	head = binary.LittleEndian.AppendUint32(head, uint32(size))
	file := append(chunk(head, chunkJSON, len(text)), text...)
	if len(o.bin) > 0 {
		file = append(chunk(file, chunkBin, len(o.bin)), o.bin...)
	}
	_, err = w.Write(file)
	return err
}

func chunk(to []byte, kind uint32, n int) []byte {
	return binary.LittleEndian.AppendUint32(binary.LittleEndian.AppendUint32(to, uint32(n)), kind)
}
