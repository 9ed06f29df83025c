package shopfile

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"reflect"
	"strings"

	"fettle/fault"
)

// decode reads the whole of data into v. Every name must be known and said
// once; faults say where in words of the file.
func decode(data []byte, v any) error {
	d := json.NewDecoder(bytes.NewReader(data))
	if err := value(d, reflect.ValueOf(v).Elem(), ""); err != nil {
		return err
	}
	if _, err := d.Token(); !errors.Is(err, io.EOF) {
		return wrong("", "something follows the end of the problem")
	}
	return nil
}

func value(d *json.Decoder, v reflect.Value, path string) error {
	switch {
	case v.Kind() == reflect.Struct:
		return object(d, v, path)
	case v.Kind() == reflect.Slice:
		return list(d, v, path)
	case v.Kind() == reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		return value(d, v.Elem(), path)
	}
	var raw json.RawMessage
	if err := d.Decode(&raw); err != nil {
		return syntax(d, err, path)
	}
	if string(raw) == "null" || json.Unmarshal(raw, v.Addr().Interface()) != nil {
		return wrong(path, "%.40s does not fit here", raw).WithHint("a " + kindWord(v.Kind()) + " is wanted")
	}
	return nil
}

func kindWord(k reflect.Kind) string {
	switch k {
	case reflect.String:
		return "text in quotation marks"
	case reflect.Bool:
		return "true or false"
	case reflect.Float64:
		return "number"
	}
	return "whole number"
}

func object(d *json.Decoder, v reflect.Value, path string) error {
	if err := open(d, '{', path, "an object in braces"); err != nil {
		return err
	}
	said := map[string]bool{}
	for d.More() {
		token, err := d.Token()
		if err != nil {
			return syntax(d, err, path)
		}
		name := token.(string) // between braces the decoder gives nothing else
		i := fieldOf(v.Type(), name)
		switch {
		case i < 0:
			return wrong(path, "there is nothing called %q here", name).WithHint("use one of " + namesOf(v.Type()))
		case said[name]:
			return wrong(path, "%q is said twice", name).WithHint("leave one of them out")
		}
		said[name] = true
		if err := value(d, v.Field(i), join(path, name)); err != nil {
			return err
		}
		if name == "id" { // from here on the entry goes by its name
			path += " " + v.Field(i).String()
		}
	}
	return closing(d, path)
}

func list(d *json.Decoder, v reflect.Value, path string) error {
	if err := open(d, '[', path, "a list in brackets"); err != nil {
		return err
	}
	out := reflect.MakeSlice(v.Type(), 0, 0)
	for n := 0; d.More(); n++ {
		item := reflect.New(v.Type().Elem()).Elem()
		if err := value(d, item, fmt.Sprintf("%s[%d]", path, n)); err != nil {
			return err
		}
		out = reflect.Append(out, item)
	}
	v.Set(out)
	return closing(d, path)
}

func open(d *json.Decoder, bracket json.Delim, path, what string) error {
	token, err := d.Token()
	if err != nil {
		return syntax(d, err, path)
	}
	if token != bracket {
		return wrong(path, "%v does not fit here", token).WithHint(what + " is wanted")
	}
	return nil
}

func closing(d *json.Decoder, path string) error {
	if _, err := d.Token(); err != nil {
		return syntax(d, err, path)
	}
	return nil
}

func fieldOf(t reflect.Type, name string) int {
	for i := range t.NumField() {
		if nameOf(t.Field(i)) == name {
			return i
		}
	}
	return -1
}

func namesOf(t reflect.Type) string {
	var names []string
	for i := range t.NumField() {
		names = append(names, nameOf(t.Field(i)))
	}
	return strings.Join(names, ", ")
}

func nameOf(f reflect.StructField) string {
	name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
	return name
}

// syntax is the fault of text that is not JSON.
func syntax(d *json.Decoder, err error, path string) error {
	at := d.InputOffset()
	if bad, ok := errors.AsType[*json.SyntaxError](err); ok {
		at = bad.Offset
	}
	return wrong(join(path, fmt.Sprintf("byte %d", at)), "this is not JSON: %v", err).
		WithHint("look for a comma, a bracket or a quotation mark that is missing or too many")
}

func wrong(path, format string, args ...any) *fault.Fault {
	f := fault.New(fault.Invalid, format, args...)
	f.Where = path
	return f
}

func join(path, more string) string {
	if path == "" {
		return more
	}
	return path + ", " + more
}
