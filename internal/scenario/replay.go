package scenario

import (
	"errors"
	"fmt"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/unit"
)

// Replay returns the build as it stood when the shop opened on a day; no day
// (0) is after the last. It leaves f as it was. The fault of a change that
// does not apply names its day and the change.
func Replay(f File, until unit.Date) (build.Build, error) {
	var b build.Build
	if err := (&build.Start{Build: f.Build}).Apply(&b); err != nil {
		return build.Build{}, at(err, "build")
	}
	last := opening(f)
	for i, d := range Until(f, until) {
		if err := replayDay(d, last, &b); err != nil {
			return build.Build{}, at(err, fmt.Sprintf("day %d at %s", i+1, d.At))
		}
		last = d.At
	}
	return b, nil
}

func replayDay(d Day, last unit.Moment, b *build.Build) error {
	if err := checkDay(d, last, b); err != nil {
		return err
	}
	for i, change := range d.Changes {
		if err := change.Apply(b); err != nil {
			return at(err, fmt.Sprintf("change %d, %s", i+1, change.Kind()))
		}
	}
	return nil
}

// opening is the moment of the facts: the first minute of the day the vehicle
// came in.
func opening(f File) unit.Moment { return f.Build.Promise.In.At(0, 0) }

func checkDay(d Day, last unit.Moment, b *build.Build) error {
	switch {
	case d.At == 0:
		return fault.New(fault.Invalid, "the time is missing").At("at")
	case d.At < last:
		return fault.New(fault.Invalid, "lies before %s, which it follows", last).At("at").
			WithHint("days stand in order of time, none before the vehicle came in")
	case strings.TrimSpace(string(d.Person)) == "":
		return fault.New(fault.Invalid, "does not say who").At("person")
	}
	return nil
}

// at puts a place before that of a fault.
func at(err error, where string) error {
	if f, ok := errors.AsType[*fault.Fault](err); ok {
		return f.At(where)
	}
	return fault.Wrap(fault.Internal, err, where)
}
