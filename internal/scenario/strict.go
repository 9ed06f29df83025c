package scenario

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"reflect"
	"strings"

	"fettle/build"
	"fettle/fault"
)

// strict decodes JSON into values whose every name must be known and said
// once, and tells of each fault the path and the byte. The decoder of the
// standard library tells neither for an unknown name, nor for a value that a
// type's own reader refuses.
type strict struct {
	dec   *json.Decoder
	base  int64 // of the decoder's first byte within the file
	names map[reflect.Type]map[string]int
}

var (
	readsJSON  = reflect.TypeFor[json.Unmarshaler]()
	readsText  = reflect.TypeFor[interface{ UnmarshalText([]byte) error }]()
	isChange   = reflect.TypeFor[build.Change]()
	hasChanges = reflect.TypeFor[Changes]()
)

// decode reads the whole of data into f.
func decode(data []byte, f *File) error {
	s := &strict{dec: json.NewDecoder(bytes.NewReader(data)), names: map[reflect.Type]map[string]int{}}
	if err := s.value(reflect.ValueOf(f).Elem(), ""); err != nil {
		return err
	}
	if _, err := s.dec.Token(); !errors.Is(err, io.EOF) {
		return s.fault("", "something follows the end of the scenario")
	}
	return nil
}

// value reads the next value into v.
func (s *strict) value(v reflect.Value, path string) error {
	t := v.Type()
	own := reflect.PointerTo(t).Implements(readsJSON) || reflect.PointerTo(t).Implements(readsText)
	switch {
	case t == isChange:
		return s.change(v, path)
	case own && t != hasChanges:
		return s.leaf(v, path)
	case t.Kind() == reflect.Struct:
		return s.object(v, path)
	case t.Kind() == reflect.Slice:
		return s.list(v, path)
	}
	return s.leaf(v, path)
}

// leaf reads a value that has no named parts.
func (s *strict) leaf(v reflect.Value, path string) error {
	raw, err := s.raw(path)
	if err != nil {
		return err
	}
	if err := json.Unmarshal(raw, v.Addr().Interface()); err != nil {
		return s.faultAt(s.start(raw), path, wrongValue(err, raw))
	}
	return nil
}

// wrongValue says what is wrong with a value in words for a person.
func wrongValue(err error, raw []byte) string {
	shown := string(raw)
	if len(shown) > 40 {
		shown = strings.ToValidUTF8(shown[:40], "") + "…"
	}
	if typed, ok := errors.AsType[*json.UnmarshalTypeError](err); ok {
		return fmt.Sprintf("%s does not fit here; a %s is wanted", shown, kindWord(typed.Type))
	}
	return fmt.Sprintf("%s cannot be read: %v", shown, err)
}

func kindWord(t reflect.Type) string {
	switch t.Kind() {
	case reflect.String:
		return "text"
	case reflect.Bool:
		return "true or false"
	case reflect.Array, reflect.Slice:
		return "list"
	}
	return "number"
}

// raw reads the next value as it stands in the file.
func (s *strict) raw(path string) (json.RawMessage, error) {
	var raw json.RawMessage
	if err := s.dec.Decode(&raw); err != nil {
		return nil, s.syntax(err, path)
	}
	return raw, nil
}

// list reads a list, or null as an empty one.
func (s *strict) list(v reflect.Value, path string) error {
	token, err := s.dec.Token()
	if err != nil {
		return s.syntax(err, path)
	}
	if token == nil {
		return nil
	}
	if token != json.Delim('[') {
		return s.fault(path, "must be a list")
	}
	out := reflect.MakeSlice(v.Type(), 0, 0)
	for n := 1; s.dec.More(); n++ {
		item := reflect.New(v.Type().Elem()).Elem()
		if err := s.value(item, join(path, fmt.Sprintf("entry %d", n))); err != nil {
			return err
		}
		out = reflect.Append(out, item)
	}
	v.Set(out)
	return s.closing(path)
}

// object reads an object into a struct. Names in also may stand there as well.
func (s *strict) object(v reflect.Value, path string, also ...string) error {
	token, err := s.dec.Token()
	if err != nil {
		return s.syntax(err, path)
	}
	if token != json.Delim('{') {
		return s.fault(path, "must be an object in braces")
	}
	fields := s.fields(v.Type())
	said := map[string]bool{}
	for s.dec.More() {
		token, err := s.dec.Token()
		if err != nil {
			return s.syntax(err, path)
		}
		name, _ := token.(string)
		if said[name] {
			return s.fault(path, "%q is said twice", name)
		}
		said[name] = true
		if err := s.field(v, fields, name, path, also); err != nil {
			return err
		}
	}
	return s.closing(path)
}

// field reads the value that belongs to a name.
func (s *strict) field(v reflect.Value, fields map[string]int, name, path string, also []string) error {
	i, known := fields[name]
	if known {
		return s.value(v.Field(i), join(path, name))
	}
	for _, other := range also {
		if other == name {
			_, err := s.raw(path)
			return err
		}
	}
	return s.fault(path, "there is nothing called %q here", name).
		WithHint("docs/scenario.md lists the names of the form; names are written exactly so")
}

// fields maps the names of a struct's JSON form to its fields.
func (s *strict) fields(t reflect.Type) map[string]int {
	if known, ok := s.names[t]; ok {
		return known
	}
	names := make(map[string]int, t.NumField())
	for i := range t.NumField() {
		name, _, _ := strings.Cut(t.Field(i).Tag.Get("json"), ",")
		names[name] = i
	}
	s.names[t] = names
	return names
}

// change reads one change, whose kind says what else may stand in it.
func (s *strict) change(v reflect.Value, path string) error {
	raw, err := s.raw(path)
	if err != nil {
		return err
	}
	start := s.start(raw)
	var named struct {
		Kind string `json:"kind"`
	}
	if err := json.Unmarshal(raw, &named); err != nil || named.Kind == "" {
		return s.faultAt(start, path, `must be an object with a "kind"`)
	}
	kind, ok := build.KindOf(named.Kind)
	if !ok {
		return s.faultAt(start, path, fmt.Sprintf("there is no kind of change called %q", named.Kind)).
			WithHint("docs/changes.md lists the kinds")
	}
	change := kind.New()
	inner := &strict{dec: json.NewDecoder(bytes.NewReader(raw)), base: start, names: s.names}
	if err := inner.object(reflect.ValueOf(change).Elem(), join(path, named.Kind), "kind"); err != nil {
		return err
	}
	v.Set(reflect.ValueOf(change))
	return nil
}

// closing reads the bracket that More has seen.
func (s *strict) closing(path string) error {
	if _, err := s.dec.Token(); err != nil {
		return s.syntax(err, path)
	}
	return nil
}

// start is the byte of the file at which a raw value, just read, began.
func (s *strict) start(raw []byte) int64 {
	return s.base + s.dec.InputOffset() - int64(len(raw))
}

func (s *strict) fault(path, format string, args ...any) *fault.Fault {
	return s.faultAt(s.base+s.dec.InputOffset(), path, fmt.Sprintf(format, args...))
}

func (s *strict) faultAt(offset int64, path, message string) *fault.Fault {
	return fault.New(fault.Invalid, "%s", message).At(join(path, byteAt(offset)))
}

// syntax is the fault of text that is not JSON.
func (s *strict) syntax(err error, path string) error {
	if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
		return s.fault(path, "the file ends too early")
	}
	offset := s.base + s.dec.InputOffset()
	if bad, ok := errors.AsType[*json.SyntaxError](err); ok {
		offset = s.base + bad.Offset
	}
	return s.faultAt(offset, path, fmt.Sprintf("is not JSON: %v", err))
}

func join(path, more string) string {
	if path == "" {
		return more
	}
	return path + ", " + more
}

func byteAt(offset int64) string { return fmt.Sprintf("byte %d", offset) }
