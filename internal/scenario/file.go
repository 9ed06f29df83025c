package scenario

import (
	"bytes"
	"encoding/json"

	"fettle/build"
	"fettle/unit"
)

// Form is the version of the form of a scenario file that Write writes. Read
// takes it and every older one.
const Form = 1

// File is a scenario: the facts a build begins with and the days that follow.
type File struct {
	Form  int         `json:"form"`
	Build build.Build `json:"build"`
	Days  []Day       `json:"days"` // in order of time
}

// Day is what one person kept at one moment.
type Day struct {
	At      unit.Moment    `json:"at"`
	Person  build.PersonID `json:"person"`
	Note    string         `json:"note,omitempty"`
	Changes Changes        `json:"changes"`
}

// Changes is a list of changes. In JSON each names its kind under "kind".
type Changes []build.Change

// MarshalJSON writes each change with its kind inside.
func (c Changes) MarshalJSON() ([]byte, error) {
	var out bytes.Buffer
	out.WriteByte('[')
	for i, change := range c {
		if i > 0 {
			out.WriteByte(',')
		}
		data, err := build.EncodeNamed(change)
		if err != nil {
			return nil, err
		}
		out.Write(data)
	}
	out.WriteByte(']')
	return out.Bytes(), nil
}

// UnmarshalJSON reads what MarshalJSON writes.
func (c *Changes) UnmarshalJSON(data []byte) error {
	list, err := build.DecodeList(json.RawMessage(data))
	if err == nil {
		*c = list
	}
	return err
}
