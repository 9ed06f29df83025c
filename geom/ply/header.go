package ply

import (
	"strings"

	"fettle/fault"
	"fettle/geom/lines"
)

// head says what stands in the body of a file, and how.
type head struct {
	form     string // ascii, binary_little_endian, binary_big_endian
	elements []element
}

// element is a table of the body.
type element struct {
	name       string
	count      int
	properties []property
}

// property is a column. A list has its length first.
type property struct {
	name   string
	kind   kind
	list   bool
	length kind
}

// kind is how a number is stored.
type kind uint8

const (
	int8s kind = iota + 1
	uint8s
	int16s
	uint16s
	int32s
	uint32s
	float32s
	float64s
)

var kinds = map[string]kind{
	"char": int8s, "uchar": uint8s, "short": int16s, "ushort": uint16s, "int": int32s, "uint": uint32s, "float": float32s, "double": float64s,
	"int8": int8s, "uint8": uint8s, "int16": int16s, "uint16": uint16s, "int32": int32s, "uint32": uint32s, "float32": float32s, "float64": float64s,
}

// size is in bytes.
var size = [...]int{int8s: 1, uint8s: 1, int16s: 2, uint16s: 2, int32s: 4, uint32s: 4, float32s: 4, float64s: 8}

const (
	mostElements   = 100
	mostProperties = 1000 // of all elements
)

// readHead reads up to the line end_header, which it leaves as the last.
func readHead(l *lines.Lines) (head, error) {
	var h head
	if !l.Next() || l.Words[0] != "ply" {
		return h, fault.New(fault.Invalid, "the file does not begin with the word ply")
	}
	properties := 0
	for l.Next() {
		switch w := l.Words; w[0] {
		case "format":
			if len(w) != 3 || w[1] != "ascii" && w[1] != "binary_little_endian" && w[1] != "binary_big_endian" {
				return h, fault.New(fault.Invalid, "the format %.40q is not known", strings.Join(w[1:], " "))
			}
			h.form = w[1]
		case "comment", "obj_info":
		case "element":
			n, err := l.Int(2)
			if err != nil {
				return h, err
			}
			if n < 0 || n > 1<<31 || len(h.elements) == mostElements {
				return h, fault.New(fault.TooLarge, "%d rows of %.40q, or more than %d elements, are too many", n, w[1], mostElements)
			}
			h.elements = append(h.elements, element{name: w[1], count: int(n)})
		case "property":
			p, ok := parseProperty(w)
			if properties++; !ok || len(h.elements) == 0 || properties > mostProperties {
				return h, fault.New(fault.Invalid, "the property %.40q is not known, or there are too many", strings.Join(w[1:], " "))
			}
			e := &h.elements[len(h.elements)-1]
			e.properties = append(e.properties, p)
		case "end_header":
			if h.form == "" {
				return h, fault.New(fault.Invalid, "the header does not say a format")
			}
			return h, nil
		default:
			return h, fault.New(fault.Invalid, "the header says %.40q, which is not known", w[0])
		}
	}
	return h, fault.New(fault.Invalid, "the file ends within its header")
}

func parseProperty(w []string) (property, bool) {
	switch {
	case len(w) == 3:
		return property{name: w[2], kind: kinds[w[1]]}, kinds[w[1]] > 0
	case len(w) == 5 && w[1] == "list":
		length, kind := kinds[w[2]], kinds[w[3]]
		return property{w[4], kind, true, length}, kind > 0 && length > 0 && length < float32s
	}
	return property{}, false
}
