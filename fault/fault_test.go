package fault_test

import (
	"context"
	"errors"
	"fmt"
	"io"
	"testing"

	"fettle/fault"
)

func TestKind_StatusExitAndName(t *testing.T) {
	tests := []struct {
		kind         fault.Kind
		status, exit int
		name         string
	}{
		{fault.Internal, 500, 1, "internal"},
		{fault.Invalid, 422, 2, "invalid"},
		{fault.NotFound, 404, 10, "not found"},
		{fault.Conflict, 409, 11, "conflict"},
		{fault.Denied, 403, 12, "denied"},
		{fault.TooLarge, 413, 13, "too large"},
		{fault.Interrupted, 503, 130, "interrupted"},
	}
	for _, tt := range tests {
		if tt.kind.Status() != tt.status || tt.kind.Exit() != tt.exit || tt.kind.String() != tt.name {
			t.Errorf("%v: status %d, exit %d, want %s, %d, %d", tt.kind, tt.kind.Status(), tt.kind.Exit(), tt.name, tt.status, tt.exit)
		}
	}
}

func TestFault_SaysWhereThenWhat(t *testing.T) {
	plain := fault.New(fault.Invalid, "%d is below %d", -3, 0)
	inner := plain.At("hours")
	outer := inner.At("row 12").WithHint("write 0 or more")
	for _, tt := range []struct {
		f    *fault.Fault
		want string
	}{
		{plain, "-3 is below 0"},
		{inner, "hours: -3 is below 0"},
		{outer, "row 12, hours: -3 is below 0"},
	} {
		if got := tt.f.Error(); got != tt.want {
			t.Errorf("message = %q, want %q", got, tt.want)
		}
	}
	if plain.Where != "" || inner.Hint != "" {
		t.Error("At and WithHint altered the fault they were asked of, want a copy")
	}
	if outer.Kind != fault.Invalid || outer.Hint != "write 0 or more" {
		t.Errorf("outer = %v with hint %q, want invalid with the hint", outer.Kind, outer.Hint)
	}
}

func TestWrap(t *testing.T) {
	if got := fault.Wrap(fault.Internal, nil, "open the store"); got != nil {
		t.Errorf("wrapping no error = %v, want nil", got)
	}
	err := fault.Wrap(fault.NotFound, io.EOF, "open the store")
	if err.Error() != "open the store: EOF" || fault.KindOf(err) != fault.NotFound || !errors.Is(err, io.EOF) {
		t.Errorf("wrapped = %v, %v, want not found with its cause", err, fault.KindOf(err))
	}
}

func TestWrap_KeepsKindPlaceAndHint(t *testing.T) {
	cause := fault.New(fault.Conflict, "somebody was quicker").At("entry 7").WithHint("look again")
	err := fault.Wrap(fault.Internal, fmt.Errorf("on the way: %w", cause), "keep the change")
	if got, want := err.Error(), "entry 7: keep the change: somebody was quicker"; got != want {
		t.Errorf("message = %q, want %q", got, want)
	}
	if fault.KindOf(err) != fault.Conflict || fault.HintOf(err) != "look again" || !errors.Is(err, cause) {
		t.Errorf("kind %v, hint %q, want conflict with its hint and cause", fault.KindOf(err), fault.HintOf(err))
	}
	if cause.Msg != "somebody was quicker" {
		t.Errorf("the cause now says %q", cause.Msg)
	}
}

func TestWithin(t *testing.T) {
	err := fault.Within(fmt.Errorf("on the way: %w", fault.New(fault.Invalid, "too large").At("hours")), "row 12")
	if got, want := err.Error(), "row 12, hours: too large"; got != want {
		t.Errorf("message = %q, want %q", got, want)
	}
	if fault.Within(nil, "row 12") != nil || fault.Within(io.EOF, "row 12") != io.EOF {
		t.Error("an error that is no fault has changed")
	}
}

func TestKindOf(t *testing.T) {
	ended, cancel := context.WithCancel(t.Context())
	cancel()
	tests := []struct {
		err  error
		want fault.Kind
	}{
		{io.EOF, fault.Internal},
		{ended.Err(), fault.Interrupted},
		{context.DeadlineExceeded, fault.Interrupted},
		{fmt.Errorf("plan: %w", context.Canceled), fault.Interrupted},
		{fault.New(fault.Denied, "not yours"), fault.Denied},
		{fmt.Errorf("page: %w", fault.New(fault.Denied, "not yours")), fault.Denied},
		{errors.Join(io.EOF, fault.New(fault.TooLarge, "200 MB")), fault.TooLarge},
	}
	for _, tt := range tests {
		if got := fault.KindOf(tt.err); got != tt.want {
			t.Errorf("kind of %v = %v, want %v", tt.err, got, tt.want)
		}
	}
	if got := fault.HintOf(io.EOF); got != "" {
		t.Errorf("hint of a plain error = %q, want none", got)
	}
}
