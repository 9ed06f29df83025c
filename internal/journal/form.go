package journal

import (
	"encoding/json"
	"fmt"
	"regexp"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"fettle/fault"
)

// MaxChange is the largest change of one entry, and the largest slip, in bytes.
const MaxChange = 8 << 20

// The other limits of form.
const (
	maxName    = 100    // bytes of a person's or device's name
	maxNote    = 10_000 // bytes of a note
	oldestYear = 1900   // no shop clock is older; an entry before it has a broken date
	newestYear = 9999   // the last year RFC 3339 can write
)

var (
	buildForm = regexp.MustCompile(`^[a-z0-9-]{1,40}$`)
	idForm    = regexp.MustCompile(`^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$`)
	kindForm  = regexp.MustCompile(`^[A-Za-z][A-Za-z0-9._-]{0,59}$`)
)

// Validate checks one entry against the rules of form and returns an Invalid
// fault that names the field:
//
//  1. build is a short name, [a-z0-9-]{1,40}
//  2. id is a UUID in lower case with its hyphens
//  3. at is not zero and lies in the years 1900 to 9999
//  4. person is 1 to 100 bytes of text on one line
//  5. device is at most 100 bytes of text on one line
//  6. kind is a word of letters, digits, full stops, hyphens and underscores,
//     begins with a letter and has at most 60 bytes
//  7. version is 1 or more
//  8. change is valid JSON in UTF-8 of at most [MaxChange] bytes
//  9. note is at most 10,000 bytes of text, lines allowed
//  10. undoes is the ID of another entry when kind is [KindUndo], else empty
//
// Whether the entry it takes back exists, and what that does, is for replay to say.
func (e Entry) Validate() error {
	if err := ValidateBuild(e.Build); err != nil {
		return err
	}
	for _, r := range [...]struct{ field, broken string }{
		{"id", brokenID(e.ID)},
		{"at", brokenTime(e.At)},
		{"person", brokenPerson(e.Person)},
		{"device", brokenLine(e.Device)},
		{"kind", brokenKind(e.Kind)},
		{"version", brokenVersion(e.Version)},
		{"change", brokenChange(e.Change)},
		{"note", brokenNote(e.Note)},
		{"undoes", brokenUndo(e)},
	} {
		if r.broken != "" {
			return fault.New(fault.Invalid, "%s", r.broken).At(r.field)
		}
	}
	return nil
}

// ValidateBuild checks the short name of a build (rule 1).
func ValidateBuild(name string) error {
	if buildForm.MatchString(name) {
		return nil
	}
	return fault.New(fault.Invalid, "%q is not a build's short name", clip(name)).At("build").
		WithHint("use 1 to 40 of a-z, 0-9 and hyphen, such as pedlar")
}

// ValidateSlip checks build, person and size of a slip: Invalid, or TooLarge
// over [MaxChange].
func ValidateSlip(build, person string, slip []byte) error {
	if err := ValidateBuild(build); err != nil {
		return err
	}
	if m := brokenPerson(person); m != "" {
		return fault.New(fault.Invalid, "%s", m).At("person")
	}
	if len(slip) > MaxChange {
		return fault.New(fault.TooLarge, "the slip has %d bytes; %d is the most", len(slip), MaxChange).At("slip")
	}
	return nil
}

// Validate checks a snapshot's build, sequence and form.
func (s Snapshot) Validate() error {
	if err := ValidateBuild(s.Build); err != nil {
		return err
	}
	if s.Seq < 1 {
		return fault.New(fault.Invalid, "a snapshot at %d is before the first entry", s.Seq).At("seq")
	}
	if s.Form == "" {
		return fault.New(fault.Invalid, "a snapshot must say which code made it").At("form")
	}
	return nil
}

func brokenID(id string) string {
	if idForm.MatchString(id) {
		return ""
	}
	return fmt.Sprintf("%q is not a UUID in lower case", clip(id))
}

func brokenTime(t time.Time) string {
	switch y := t.UTC().Year(); {
	case t.IsZero():
		return "the time is missing"
	case y < oldestYear || y > newestYear:
		return fmt.Sprintf("the year %d is outside %d to %d", y, oldestYear, newestYear)
	}
	return ""
}

func brokenPerson(name string) string {
	if name == "" {
		return "the name is missing"
	}
	return brokenLine(name)
}

func brokenLine(s string) string {
	if len(s) > maxName {
		return fmt.Sprintf("the name has %d bytes; %d is the most", len(s), maxName)
	}
	if !utf8.ValidString(s) || strings.ContainsFunc(s, unicode.IsControl) {
		return fmt.Sprintf("%q is not text on one line", clip(s))
	}
	return ""
}

func brokenKind(kind string) string {
	if kindForm.MatchString(kind) {
		return ""
	}
	return fmt.Sprintf("%q is not a kind of change", clip(kind))
}

func brokenVersion(v int) string {
	if v >= 1 {
		return ""
	}
	return fmt.Sprintf("version %d is less than 1", v)
}

func brokenChange(c json.RawMessage) string {
	switch {
	case len(c) == 0:
		return "the change is missing"
	case len(c) > MaxChange:
		return fmt.Sprintf("the change has %d bytes; %d is the most", len(c), MaxChange)
	case !utf8.Valid(c) || !json.Valid(c):
		return "the change is not valid JSON in UTF-8"
	}
	return ""
}

func brokenNote(note string) string {
	if len(note) > maxNote {
		return fmt.Sprintf("the note has %d bytes; %d is the most", len(note), maxNote)
	}
	odd := func(r rune) bool { return unicode.IsControl(r) && r != '\n' && r != '\r' && r != '\t' }
	if !utf8.ValidString(note) || strings.ContainsFunc(note, odd) {
		return "the note is not plain text"
	}
	return ""
}

func brokenUndo(e Entry) string {
	switch {
	case e.Kind != KindUndo && e.Undoes != "":
		return fmt.Sprintf("only an entry of kind %s takes another back", KindUndo)
	case e.Kind == KindUndo && e.Undoes == e.ID:
		return "an entry cannot take itself back"
	case e.Kind == KindUndo:
		return brokenID(e.Undoes)
	}
	return ""
}

// clip keeps a message readable when the input is not.
func clip(s string) string {
	const most = 60
	if len(s) <= most {
		return s
	}
	return strings.ToValidUTF8(s[:most], "") + "…"
}
