package ply

import (
	"encoding/binary"
	"fmt"
	"math"
	"strconv"

	"fettle/fault"
	"fettle/geom/lines"
)

// body gives the numbers of the tables one after the other.
type body interface {
	number(kind) (float64, error) // faults have no place
	room() int                    // at most so many numbers are left
	within(error) error           // puts the place before a fault
}

// textBody is one of words; rows may break anywhere.
type textBody struct {
	*lines.Lines
	at int // next of Words
}

func (t *textBody) number(kind) (float64, error) {
	if t.at >= len(t.Words) {
		if !t.Next() {
			return 0, short()
		}
		t.at = 0
	}
	word := t.Words[t.at]
	t.at++
	x, err := strconv.ParseFloat(word, 64)
	if err != nil {
		return 0, fault.New(fault.Invalid, "%.40q is not a number", word)
	}
	return x, nil
}

func (t *textBody) room() int              { return len(t.Words) - t.at + (len(t.Rest)+1)/2 }
func (t *textBody) within(err error) error { return t.Within(err) }

// binaryBody is one of bytes.
type binaryBody struct {
	order binary.ByteOrder
	data  []byte // what is left
	size  int    // of the file
}

func (b *binaryBody) number(k kind) (float64, error) {
	if len(b.data) < size[k] {
		return 0, short()
	}
	var x float64
	switch k {
	case int8s:
		x = float64(int8(b.data[0]))
	case uint8s:
		x = float64(b.data[0])
	case int16s:
		x = float64(int16(b.order.Uint16(b.data)))
	case uint16s:
		x = float64(b.order.Uint16(b.data))
	case int32s:
		x = float64(int32(b.order.Uint32(b.data)))
	case uint32s:
		x = float64(b.order.Uint32(b.data))
	case float32s:
		x = float64(math.Float32frombits(b.order.Uint32(b.data)))
	case float64s:
		x = math.Float64frombits(b.order.Uint64(b.data))
	}
	b.data = b.data[size[k]:]
	return x, nil
}

func (b *binaryBody) room() int { return len(b.data) }

func (b *binaryBody) within(err error) error {
	return fault.Within(err, fmt.Sprintf("byte %d", b.size-len(b.data)))
}

func short() error {
	return fault.New(fault.Invalid, "the file ends before its last row").WithHint("Was it copied to its end?")
}
