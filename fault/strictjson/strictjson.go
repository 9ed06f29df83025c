// Package strictjson reads one JSON document into a value and says of what does
// not fit where it stands, in words for whoever typed it.
package strictjson

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strings"

	"fettle/fault"
)

// Form says how a document is read.
type Form struct {
	What  string // "the film file": what the document is, in faults
	Names string // where the names of the form are listed; empty passes names over that the value does not have
}

// Decode reads the whole of data into v. A fault is of kind Invalid and names
// the line: of text that is no JSON, of a value of another kind, of a name that
// v does not have, of whatever follows the document.
func (f Form) Decode(data []byte, v any) error {
	d := json.NewDecoder(bytes.NewReader(data))
	if f.Names != "" {
		d.DisallowUnknownFields()
	}
	err := d.Decode(v)
	if err == nil {
		if _, more := d.Token(); errors.Is(more, io.EOF) {
			return nil
		}
		return wrong(line(data, d.InputOffset()), "something follows the end of %s", f.What)
	}
	if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
		return wrong(line(data, int64(len(data))), "%s is cut short", f.What).WithHint("is the file whole?")
	}
	if kind, ok := errors.AsType[*json.UnmarshalTypeError](err); ok {
		f := fault.New(fault.Invalid, "a %s does not fit here", kind.Value)
		if kind.Field != "" {
			f = f.At(kind.Field)
		}
		return f.At(line(data, kind.Offset))
	}
	if bad, ok := errors.AsType[*json.SyntaxError](err); ok {
		return wrong(line(data, bad.Offset), "this is not JSON: %v", bad).WithHint("look for a comma, a bracket or a quotation mark that is missing or too many")
	}
	return f.other(data, d.InputOffset(), err)
}

// other is the fault of a name that is not known, of which the decoder says
// which it is but not where, or of a value that its own reader refuses.
func (f Form) other(data []byte, at int64, err error) error {
	if name, ok := strings.CutPrefix(err.Error(), "json: unknown field "); ok {
		if place := regexp.MustCompile(regexp.QuoteMeta(name) + `\s*:`).FindIndex(data); place != nil {
			at = int64(place[0])
		}
		err = fmt.Errorf("there is nothing called %s here", name)
	}
	bad := wrong(line(data, at), "%v", err)
	if f.Names != "" {
		bad = bad.WithHint("the names of the form stand in " + f.Names)
	}
	return bad
}

// line names the line of a byte.
func line(data []byte, offset int64) string {
	return fmt.Sprintf("line %d", 1+bytes.Count(data[:min(max(offset, 0), int64(len(data)))], []byte("\n")))
}

func wrong(where, format string, args ...any) *fault.Fault {
	return fault.New(fault.Invalid, format, args...).At(where)
}
