package shopfile

import (
	"bytes"
	"encoding/json"
	"io"
	"reflect"
)

// lay writes the form with one entry a line.
func lay(w io.Writer, f form) error {
	var b bytes.Buffer
	v := reflect.ValueOf(f)
	b.WriteString("{")
	comma := "\n  "
	for i := range v.NumField() {
		x := v.Field(i)
		if x.IsZero() {
			continue
		}
		b.WriteString(comma)
		comma = ",\n  "
		b.WriteString(`"` + nameOf(v.Type().Field(i)) + `": `)
		if x.Kind() != reflect.Slice {
			if err := line(&b, x.Interface()); err != nil {
				return err
			}
			continue
		}
		sep := "[\n    "
		for k := range x.Len() {
			b.WriteString(sep)
			sep = ",\n    "
			if err := line(&b, x.Index(k).Interface()); err != nil {
				return err
			}
		}
		b.WriteString("\n  ]")
	}
	b.WriteString("\n}\n")
	_, err := w.Write(b.Bytes())
	return err
}

// line writes a value on one line, with a blank after commas and colons.
func line(b *bytes.Buffer, v any) error {
	var raw bytes.Buffer
	e := json.NewEncoder(&raw)
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil {
		return wrong("", "a number cannot be written: %v", err)
	}
	text, quoted := bytes.TrimSpace(raw.Bytes()), false
	for i, c := range text {
		b.WriteByte(c)
		if c == '"' && !escaped(text[:i]) {
			quoted = !quoted
		}
		if !quoted && (c == ',' || c == ':') {
			b.WriteByte(' ')
		}
	}
	return nil
}

// escaped says that what follows text stands behind an odd number of backslashes.
func escaped(text []byte) bool {
	return (len(text)-len(bytes.TrimRight(text, `\`)))%2 == 1
}
