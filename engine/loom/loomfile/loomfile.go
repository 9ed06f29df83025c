// Package loomfile reads a loom from a text file that a person can type, see
// docs/engine/loom-file.md.
package loomfile

import (
	"io"

	"fettle/engine/loom"
	"fettle/fault"
	"fettle/fault/strictjson"
)

// form is the first name of a file.
const form = "fettle loom"

// mostBytes is the largest file.
const mostBytes = 16 << 20

// file is what stands in a file: its form, and a problem.
type file struct {
	Form string `json:"form"`
	loom.Problem
}

// Read reads and checks a loom. A fault of kind Invalid names the line or the
// part.
func Read(r io.Reader) (loom.Problem, error) {
	data, err := io.ReadAll(io.LimitReader(r, mostBytes+1))
	if err != nil {
		return loom.Problem{}, fault.Wrap(fault.Invalid, err, "read the loom")
	}
	if len(data) > mostBytes {
		return loom.Problem{}, fault.New(fault.TooLarge, "a loom of more than %d MB", mostBytes>>20)
	}
	var f file
	if err := (strictjson.Form{What: "the loom", Names: "docs/engine/loom-file.md"}).Decode(data, &f); err != nil {
		return loom.Problem{}, err
	}
	if f.Form != form {
		return loom.Problem{}, fault.New(fault.Invalid, "this is no loom: its form is %q", f.Form).At("form").WithHint(`begin with "form": "` + form + `"`)
	}
	return f.Problem, f.Validate()
}
