package nestfile

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

// The largest file, and the most pieces, copies and materials.
const (
	mostBytes  = 64 << 20
	mostPieces = 10_000
	mostCopies = 100_000
)

// Read reads a problem of any of the forms.
func Read(r io.Reader) (File, error) {
	data, err := io.ReadAll(io.LimitReader(r, mostBytes+1))
	if err != nil {
		return File{}, fault.Wrap(fault.Invalid, err, "read the layout problem")
	}
	if len(data) > mostBytes {
		return File{}, fault.New(fault.TooLarge, "a layout problem of more than %d MB", mostBytes>>20)
	}
	var names struct {
		Form  any `json:"form"`
		Strip any `json:"strip_height"`
		Types any `json:"bin_types"`
		Bins  any `json:"bins"`
		Hides any `json:"Objects"`
	}
	if err := decode(data, &names, false); err != nil {
		return File{}, err
	}
	var f File
	switch {
	case names.Form != nil:
		f, err = readOwn(data)
	case names.Strip != nil:
		f, err = readStrip(data)
	case names.Types != nil:
		f, err = readTypes(data)
	case names.Bins != nil || names.Hides != nil:
		f, err = readHides(data)
	default:
		return File{}, fault.New(fault.Invalid, "this is no layout problem of a form that is known").WithHint(`begin with "form": "fettle nest"; see docs/engine/nest-file.md`)
	}
	if err != nil {
		return File{}, err
	}
	return f, f.check()
}

// decode reads one JSON value; strict refuses names that are not known.
func decode(data []byte, in any, strict bool) error {
	d := json.NewDecoder(bytes.NewReader(data))
	if strict {
		d.DisallowUnknownFields()
	}
	err := d.Decode(in)
	if err == nil {
		if _, more := d.Token(); errors.Is(more, io.EOF) {
			return nil
		}
		return wrong(line(data, d.InputOffset()), "something follows the end of the problem")
	}
	if kind, ok := errors.AsType[*json.UnmarshalTypeError](err); ok {
		return wrong(line(data, kind.Offset)+", "+kind.Field, "a %s does not fit here", kind.Value)
	}
	if bad, ok := errors.AsType[*json.SyntaxError](err); ok {
		return wrong(line(data, bad.Offset), "this is not JSON: %v", bad).WithHint("look for a comma, a bracket or a quotation mark that is missing or too many")
	}
	at := d.InputOffset()
	if name, ok := strings.CutPrefix(err.Error(), "json: unknown field "); ok { // the decoder says which, but not where
		if place := regexp.MustCompile(regexp.QuoteMeta(name) + `\s*:`).FindIndex(data); place != nil {
			at = int64(place[0])
		}
		err = fmt.Errorf("there is nothing called %s here", name)
	}
	return wrong(line(data, at), "%v", err).WithHint("the names of the form stand in docs/engine/nest-file.md")
}

// line names the line of a byte.
func line(data []byte, offset int64) string {
	return fmt.Sprintf("line %d", 1+bytes.Count(data[:min(max(offset, 0), int64(len(data)))], []byte("\n")))
}

func wrong(where, format string, args ...any) *fault.Fault {
	return fault.New(fault.Invalid, format, args...).At(where)
}

// UnmarshalJSON wants two numbers.
func (p *xy) UnmarshalJSON(data []byte) error {
	var list []*float64
	if err := json.Unmarshal(data, &list); err != nil || len(list) != 2 || list[0] == nil || list[1] == nil {
		return fmt.Errorf("%.40s is no point: two numbers in brackets are wanted", data)
	}
	*p = xy{*list[0], *list[1]}
	return nil
}
