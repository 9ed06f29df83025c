package web

import (
	"encoding/json"
	"errors"
	"io"
	"mime"
	"mime/multipart"
	"net/http"
	"strconv"
	"strings"

	"fettle/fault"
	"fettle/internal/web/ui/field"
	"fettle/unit"
)

// memoryLimit is how much of an upload is held in memory; the rest goes to a
// temporary file.
const memoryLimit = 4 << 20

// Form is what a person sent. Each reader takes one field, checks its form
// and, when it breaks a rule, adds to Errors and returns the zero value.
type Form struct {
	Errors field.Errors
	r      *http.Request
}

// Form reads the body as a form, within the route's limit.
func (r *Request) Form() (*Form, error) {
	kind, _, _ := mime.ParseMediaType(r.r.Header.Get("Content-Type"))
	var err error
	if kind == "multipart/form-data" {
		err = r.r.ParseMultipartForm(memoryLimit)
	} else {
		err = r.r.ParseForm()
	}
	if err != nil {
		return nil, r.bodyFault(err, "read the form")
	}
	return &Form{r: r.r}, nil
}

// Asked reads what stands after the question mark of the address as a form.
func (r *Request) Asked() *Form {
	return &Form{r: &http.Request{PostForm: r.r.URL.Query()}}
}

// Decode reads the body as one JSON document into v and refuses fields that v
// does not have.
func (r *Request) Decode(v any) error {
	d := json.NewDecoder(r.r.Body)
	d.DisallowUnknownFields()
	if err := d.Decode(v); err != nil {
		return r.bodyFault(err, "read the JSON")
	}
	if _, err := d.Token(); !errors.Is(err, io.EOF) {
		return fault.New(fault.Invalid, "there is more after the JSON document")
	}
	return nil
}

func (r *Request) bodyFault(err error, attempted string) error {
	if _, ok := errors.AsType[*http.MaxBytesError](err); ok {
		return tooLarge(r.limit)
	}
	return fault.Wrap(fault.Invalid, err, attempted)
}

func tooLarge(limit int64) error {
	return fault.New(fault.TooLarge, "that is more than %d MB, the most this page takes", limit>>20).
		WithHint("Send it in smaller pieces, or make the picture smaller first. Nothing was kept.")
}

// Err is an Invalid fault that names the first trouble, or nil.
func (f *Form) Err() error {
	if len(f.Errors) == 0 {
		return nil
	}
	e := f.Errors[0]
	return fault.New(fault.Invalid, "%s", e.Msg).At(e.Field)
}

// Fail adds a trouble with a field that only the caller can know.
func (f *Form) Fail(name, msg string) {
	f.Errors = append(f.Errors, field.Error{Field: name, Msg: msg})
}

// Raw returns a field as it was typed, to show it again.
func (f *Form) Raw(name string) string { return f.r.PostFormValue(name) }

// All returns every value of a field that can stand more than once.
func (f *Form) All(name string) []string { return f.r.PostForm[name] }

// Has tells whether the field was sent at all, as a ticked box is.
func (f *Form) Has(name string) bool { return f.r.PostForm.Has(name) }

// Text returns a trimmed text of min to max bytes.
func (f *Form) Text(name string, min, max int) string {
	text := strings.TrimSpace(f.Raw(name))
	switch {
	case len(text) < min && text == "":
		f.Fail(name, "is empty: please fill it in")
	case len(text) < min:
		f.Fail(name, "is too short: at least "+strconv.Itoa(min)+" letters")
	case len(text) > max:
		f.Fail(name, "is too long: at most "+strconv.Itoa(max)+" letters")
	default:
		return text
	}
	return ""
}

// Choice returns one of the allowed values.
func (f *Form) Choice(name string, allowed ...string) string {
	text := f.Raw(name)
	for _, a := range allowed {
		if a == text {
			return text
		}
	}
	f.Fail(name, "must be one of: "+strings.Join(allowed, ", "))
	return ""
}

// Int returns a whole number from min to max.
func (f *Form) Int(name string, min, max int64) int64 {
	return f.Decimal(name, 0, min, max)
}

// Decimal returns a decimal number in steps of 10^-places, from min to max in
// the same steps. A comma is taken for the decimal point.
func (f *Form) Decimal(name string, places int, min, max int64) int64 {
	text := strings.Replace(strings.TrimSpace(f.Raw(name)), ",", ".", 1)
	n, err := unit.ParseDecimal(text, places)
	switch {
	case text == "":
		f.Fail(name, "is empty: please give a number")
	case err != nil:
		f.Fail(name, "is not a number such as "+unit.FormatDecimal(125, 1, 0))
	case n < min || n > max:
		f.Fail(name, "must be from "+unit.FormatDecimal(min, places, 0)+" to "+unit.FormatDecimal(max, places, 0))
	default:
		return n
	}
	return 0
}

// Date returns a day such as 2026-10-06; an empty field is no date.
func (f *Form) Date(name string) unit.Date {
	d, err := unit.ParseDate(strings.TrimSpace(f.Raw(name)))
	if err != nil {
		f.Fail(name, "is not a day such as 2026-10-06")
	}
	return d
}

// File returns an uploaded file, or nil when none was chosen. The caller closes it.
func (f *Form) File(name string) (multipart.File, *multipart.FileHeader) {
	if f.r.MultipartForm == nil {
		return nil, nil
	}
	file, head, err := f.r.FormFile(name)
	if err != nil {
		return nil, nil
	}
	return file, head
}
