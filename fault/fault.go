// Package fault is the small public language of errors: a kind that decides
// the HTTP status and the exit code, where the trouble is, one sentence for a
// person, and what to do about it.
package fault

import (
	"context"
	"errors"
	"fmt"
	"net/http"
)

// Kind sorts faults by what a caller can do about them.
type Kind uint8

// The kinds, with their HTTP status and exit code.
const (
	Internal    Kind = iota // 500, exit 1: our mistake or a broken machine
	Invalid                 // 422, exit 2: the input breaks a rule
	NotFound                // 404, exit 10
	Conflict                // 409, exit 11: the facts have moved on
	Denied                  // 403, exit 12
	TooLarge                // 413, exit 13
	Interrupted             // 503, exit 130: stopped before it was done
)

// Fault is an error with its kind, place, message and way out.
type Fault struct {
	Kind  Kind
	Where string // the place in the input, such as "row 12, hours"
	Msg   string // one sentence for a person
	Hint  string // what to do, may be empty
	Cause error  // may be nil
}

// Error joins place and message.
func (f *Fault) Error() string {
	if f.Where == "" {
		return f.Msg
	}
	return f.Where + ": " + f.Msg
}

// Unwrap returns the cause.
func (f *Fault) Unwrap() error { return f.Cause }

// New makes a fault of a kind with a formatted message.
func New(kind Kind, format string, args ...any) *Fault {
	return &Fault{Kind: kind, Msg: fmt.Sprintf(format, args...)}
}

// At returns a copy of the fault that says where the trouble is.
// A place already known is put behind it.
func (f *Fault) At(where string) *Fault {
	c := *f
	if c.Where != "" {
		where += ", " + c.Where
	}
	c.Where = where
	return &c
}

// WithHint returns a copy of the fault that says what to do.
func (f *Fault) WithHint(hint string) *Fault {
	c := *f
	c.Hint = hint
	return &c
}

// Wrap gives a plain error a kind and says what was attempted. A fault keeps
// its kind, place, message and hint.
func Wrap(kind Kind, err error, attempted string) error {
	if err == nil {
		return nil
	}
	if f, ok := errors.AsType[*Fault](err); ok {
		c := *f
		c.Msg, c.Cause = attempted+": "+f.Msg, err
		return &c
	}
	return &Fault{Kind: kind, Msg: attempted + ": " + err.Error(), Cause: err}
}

// Within puts a place before that of a fault; another error stays as it is.
func Within(err error, where string) error {
	if f, ok := errors.AsType[*Fault](err); ok {
		return f.At(where)
	}
	return err
}

// KindOf returns the kind of any error: that of the first fault in its
// chain, Interrupted for a cancelled context, else Internal.
func KindOf(err error) Kind {
	if f, ok := errors.AsType[*Fault](err); ok {
		return f.Kind
	}
	if errors.Is(err, context.Canceled) || errors.Is(err, context.DeadlineExceeded) {
		return Interrupted
	}
	return Internal
}

// HintOf returns the hint of the first fault in the chain, or nothing.
func HintOf(err error) string {
	if f, ok := errors.AsType[*Fault](err); ok {
		return f.Hint
	}
	return ""
}

var statuses = [...]int{
	Internal: http.StatusInternalServerError, Invalid: http.StatusUnprocessableEntity,
	NotFound: http.StatusNotFound, Conflict: http.StatusConflict, Denied: http.StatusForbidden,
	TooLarge: http.StatusRequestEntityTooLarge, Interrupted: http.StatusServiceUnavailable,
}

var exits = [...]int{Internal: 1, Invalid: 2, NotFound: 10, Conflict: 11, Denied: 12, TooLarge: 13, Interrupted: 130}

// Status returns the HTTP status of a kind.
func (k Kind) Status() int { return statuses[k] }

// Exit returns the process exit code of a kind.
func (k Kind) Exit() int { return exits[k] }

var names = [...]string{
	Internal: "internal", Invalid: "invalid", NotFound: "not found", Conflict: "conflict",
	Denied: "denied", TooLarge: "too large", Interrupted: "interrupted",
}

// String names the kind.
func (k Kind) String() string { return names[k] }
