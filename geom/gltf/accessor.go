package gltf

import (
	"encoding/binary"
	"fmt"
	"math"

	"fettle/fault"
)

// column is one accessor: rows of numbers of one kind, some bytes apart.
type column struct {
	data       []byte
	count      int
	stride     int
	kind       int
	normalized bool
}

// column finds an accessor whose rows have the width asked for.
func (r *reader) column(i int, width string) (column, error) {
	where := fmt.Sprintf("accessor %d", i)
	if i < 0 || i >= len(r.doc.Accessors) {
		return column{}, fault.New(fault.Invalid, "it does not stand in the file").At(where)
	}
	a := r.doc.Accessors[i]
	n := map[string]int{"SCALAR": 1, "VEC2": 2, "VEC3": 3}[width]
	one := size[a.ComponentType]
	switch {
	case a.Type != width || one == 0:
		return column{}, fault.New(fault.Invalid, "it is of type %.20q %d where %s is due", a.Type, a.ComponentType, width).At(where)
	case a.Sparse != nil:
		return column{}, fault.New(fault.Invalid, "it is sparse, which cannot be read").At(where).WithHint("Save with all numbers written out.")
	case a.BufferView == nil || *a.BufferView < 0 || *a.BufferView >= len(r.doc.BufferViews):
		return column{}, fault.New(fault.Invalid, "its bytes do not stand in the file").At(where)
	case a.Count < 0 || a.ByteOffset < 0:
		return column{}, fault.New(fault.Invalid, "its size is negative").At(where)
	}
	v := r.doc.BufferViews[*a.BufferView]
	if v.Buffer < 0 || v.Buffer >= len(r.buffers) || v.ByteOffset < 0 || v.ByteLength < 0 || v.ByteStride < 0 ||
		v.ByteLength > len(r.buffers[v.Buffer])-v.ByteOffset {
		return column{}, fault.New(fault.Invalid, "the buffer view lies outside its buffer").At(fmt.Sprintf("buffer view %d", *a.BufferView))
	}
	c := column{r.buffers[v.Buffer][v.ByteOffset : v.ByteOffset+v.ByteLength], a.Count, v.ByteStride, a.ComponentType, a.Normalized}
	if c.stride == 0 {
		c.stride = n * one
	}
	if a.Count > 0 && (a.ByteOffset > len(c.data)-n*one || a.Count-1 > (len(c.data)-a.ByteOffset-n*one)/c.stride) {
		return column{}, fault.New(fault.Invalid, "it needs more bytes than its buffer view has").At(where)
	}
	c.data = c.data[min(a.ByteOffset, len(c.data)):]
	return c, nil
}

// row reads numbers of one row.
func (c column) row(i int, into []float64) {
	data := c.data[i*c.stride:]
	for k := range into {
		into[k] = c.number(data[k*size[c.kind]:])
	}
}

// number reads one number; normalized whole ones are parts of 1.
func (c column) number(data []byte) float64 {
	whole := func(x, most float64) float64 {
		if c.normalized {
			return max(x/most, -1)
		}
		return x
	}
	switch c.kind {
	case int8s:
		return whole(float64(int8(data[0])), math.MaxInt8)
	case uint8s:
		return whole(float64(data[0]), math.MaxUint8)
	case int16s:
		return whole(float64(int16(binary.LittleEndian.Uint16(data))), math.MaxInt16)
	case uint16s:
		return whole(float64(binary.LittleEndian.Uint16(data)), math.MaxUint16)
	case uint32s:
		return float64(binary.LittleEndian.Uint32(data))
	}
	return float64(math.Float32frombits(binary.LittleEndian.Uint32(data)))
}
