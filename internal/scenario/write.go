package scenario

import (
	"bytes"
	"encoding/json"
	"io"
	"strings"

	"fettle/fault"
)

// Write writes a scenario so that a person can read it and a comparison of two
// shows what differs: a record to a line. The same file gives the same bytes.
func Write(w io.Writer, f File) error {
	var plain bytes.Buffer
	enc := json.NewEncoder(&plain)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(f); err != nil {
		return fault.Wrap(fault.Internal, err, "write the scenario")
	}
	var out bytes.Buffer
	if err := layOut(&out, bytes.TrimSpace(plain.Bytes()), 0); err != nil {
		return fault.Wrap(fault.Internal, err, "lay out the scenario")
	}
	out.WriteByte('\n')
	_, err := w.Write(out.Bytes())
	return fault.Wrap(fault.Internal, err, "write the scenario")
}

// Values no longer than this stay on their line at any depth.
const shortLine = 100

// opensAt reports whether a value is spread over lines of its own: the file,
// the build, its lists and the days; below that only a long list.
func opensAt(raw []byte, depth int) bool {
	if len(raw) <= shortLine {
		return false
	}
	return raw[0] == '{' && depth < 3 || raw[0] == '[' && depth <= 3
}

// layOut copies one JSON value, already compact, with line breaks.
func layOut(out *bytes.Buffer, raw []byte, depth int) error {
	if !opensAt(raw, depth) {
		out.Write(raw)
		return nil
	}
	dec := json.NewDecoder(bytes.NewReader(raw))
	if _, err := dec.Token(); err != nil {
		return err
	}
	out.WriteByte(raw[0])
	for n := 0; dec.More(); n++ {
		if n > 0 {
			out.WriteByte(',')
		}
		out.WriteString("\n" + strings.Repeat("  ", depth+1))
		if err := layOutPart(out, dec, raw[0] == '{', depth+1); err != nil {
			return err
		}
	}
	out.WriteString("\n" + strings.Repeat("  ", depth))
	out.WriteByte(raw[len(raw)-1])
	return nil
}

// layOutPart copies the next member of an object, or entry of a list.
func layOutPart(out *bytes.Buffer, dec *json.Decoder, named bool, depth int) error {
	var part json.RawMessage
	if named {
		name, err := dec.Token()
		if err != nil {
			return err
		}
		quoted, err := json.Marshal(name)
		if err != nil {
			return err
		}
		out.Write(append(quoted, ": "...))
	}
	if err := dec.Decode(&part); err != nil {
		return err
	}
	return layOut(out, part, depth)
}
