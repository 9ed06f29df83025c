package scenario

import (
	"io"
	"unicode/utf8"

	"fettle/fault"
	"fettle/unit"
)

// Read reads a scenario of at most limit bytes and checks all of it. Faults:
// TooLarge beyond the limit; Invalid, with the place in the file and the byte,
// for what is not JSON, a name or a kind of change that is unknown, a name said
// twice or a value that does not fit; Invalid, with the place in the build or
// the day and the change, for facts or changes that break a rule.
func Read(r io.Reader, limit int64) (File, error) {
	data, err := io.ReadAll(io.LimitReader(r, limit+1))
	if err != nil {
		return File{}, fault.Wrap(fault.KindOf(err), err, "read the scenario")
	}
	if int64(len(data)) > limit {
		return File{}, fault.New(fault.TooLarge, "the scenario has more than %d bytes", limit).
			WithHint("a build of a large vehicle takes about 500,000; is this the right file?")
	}
	if bad := firstBadByte(data); bad >= 0 {
		return File{}, fault.New(fault.Invalid, "is not text in UTF-8").At(byteAt(int64(bad)))
	}
	var f File
	if err := decode(data, &f); err != nil {
		return File{}, err
	}
	if f.Form < 1 || f.Form > Form {
		return File{}, fault.New(fault.Invalid, "the scenario has form %d; this program knows forms 1 to %d", f.Form, Form).
			At("form").WithHint("use a newer fettle to read it")
	}
	if _, err := Replay(f, 0); err != nil {
		return File{}, err
	}
	return f, nil
}

// firstBadByte returns the place of the first byte that is not UTF-8, or -1.
func firstBadByte(data []byte) int {
	for i := 0; i < len(data); {
		r, size := utf8.DecodeRune(data[i:])
		if r == utf8.RuneError && size == 1 {
			return i
		}
		i += size
	}
	return -1
}

// Until returns the days that had passed when the shop opened on a day: those
// of earlier dates. No day (0) returns all.
func Until(f File, day unit.Date) []Day {
	if day == 0 {
		return f.Days
	}
	for i, d := range f.Days {
		if d.At.Date() >= day {
			return f.Days[:i]
		}
	}
	return f.Days
}
