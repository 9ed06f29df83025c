package nestfile

import (
	"encoding/json"
	"fmt"
	"io"

	"fettle/fault"
	"fettle/fault/strictjson"
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
		Form  json.RawMessage `json:"form"`
		Strip json.RawMessage `json:"strip_height"`
		Types json.RawMessage `json:"bin_types"`
		Bins  json.RawMessage `json:"bins"`
		Hides json.RawMessage `json:"Objects"`
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
	form := strictjson.Form{What: "the layout problem"}
	if strict {
		form.Names = "docs/engine/nest-file.md"
	}
	return form.Decode(data, in)
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
