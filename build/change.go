package build

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"strings"

	"fettle/fault"
)

// Change is one typed act on a build.
type Change interface {
	// Kind names the act in the journal, such as record-finding.
	Kind() string
	// Apply makes the change, or returns a fault and leaves b as it was.
	Apply(b *Build) error
	// Say tells in one line what the change does; b is the build it applies to.
	Say(b *Build) string
}

// Kind describes one kind of change.
type Kind struct {
	Name    string
	Version int           // of its JSON form
	New     func() Change // an empty change to decode into
}

// Kinds lists every kind of change. Adding one is a type and a line here, or in
// the list of the loom.
func Kinds() []Kind {
	return append([]Kind{
		{"start", 1, func() Change { return &Start{} }},
		{"record-finding", 1, func() Change { return &RecordFinding{} }},
		{"decide-remedy", 1, func() Change { return &DecideRemedy{} }},
		{"move-finding", 1, func() Change { return &MoveFinding{} }},
		{"withdraw-finding", 1, func() Change { return &WithdrawFinding{} }},
		{"add-panel", 1, func() Change { return &AddPanel{} }},
		{"decide-panel", 1, func() Change { return &DecidePanel{} }},
		{"move-panels", 1, func() Change { return &MovePanels{} }},
		{"begin-task", 1, func() Change { return &BeginTask{} }},
		{"end-task", 1, func() Change { return &EndTask{} }},
		{"say-left", 1, func() Change { return &SayLeft{} }},
		{"hold-task", 1, func() Change { return &HoldTask{} }},
		{"add-task", 1, func() Change { return &AddTask{} }},
		{"arrange-tasks", 1, func() Change { return &ArrangeTasks{} }},
		{"add-person", 1, func() Change { return &AddPerson{} }},
		{"add-absence", 1, func() Change { return &AddAbsence{} }},
		{"add-closure", 1, func() Change { return &AddClosure{} }},
		{"add-overtime", 1, func() Change { return &AddOvertime{} }},
		{"move-work", 1, func() Change { return &MoveWork{} }},
		{"sublet-work", 1, func() Change { return &SubletWork{} }},
		{"clock-on", 1, func() Change { return &ClockOn{} }},
		{"clock-off", 1, func() Change { return &ClockOff{} }},
		{"record-hours", 1, func() Change { return &RecordHours{} }},
		{"add-part", 1, func() Change { return &AddPart{} }},
		{"order-part", 1, func() Change { return &OrderPart{} }},
		{"promise-part", 1, func() Change { return &PromisePart{} }},
		{"receive-part", 1, func() Change { return &ReceivePart{} }},
		{"want-part", 1, func() Change { return &WantPart{} }},
		{"cancel-part", 1, func() Change { return &CancelPart{} }},
		{"set-product", 1, func() Change { return &SetProduct{} }},
		{"take-in-tin", 1, func() Change { return &TakeInTin{} }},
		{"adjust-tin", 1, func() Change { return &AdjustTin{} }},
		{"box-tins", 1, func() Change { return &BoxTins{} }},
		{"pour-mix", 1, func() Change { return &PourMix{} }},
		{"weigh-back", 1, func() Change { return &WeighBack{} }},
		{"bare-panels", 1, func() Change { return &BarePanels{} }},
		{"lay-coat", 1, func() Change { return &LayCoat{} }},
		{"measure-film", 1, func() Change { return &MeasureFilm{} }},
		{"set-solvent-limits", 1, func() Change { return &SetSolventLimits{} }},
		{"record-warm-up", 1, func() Change { return &RecordWarmUp{} }},
		{"post-clearance", 1, func() Change { return &PostClearance{} }},
		{"record-card", 1, func() Change { return &RecordCard{} }},
		{"choose-step", 1, func() Change { return &ChooseStep{} }},
		{"redo-paint", 1, func() Change { return &RedoPaint{} }},
		{"set-colour", 1, func() Change { return &SetColour{} }},
		{"add-look", 1, func() Change { return &AddLook{} }},
		{"choose-look", 1, func() Change { return &ChooseLook{} }},
		{"set-piece", 1, func() Change { return &SetPiece{} }},
		{"set-roll", 1, func() Change { return &SetRoll{} }},
		{"take-in-hide", 1, func() Change { return &TakeInHide{} }},
		{"draw-hide", 1, func() Change { return &DrawHide{} }},
		{"mark-hide", 1, func() Change { return &MarkHide{} }},
		{"clear-mark", 1, func() Change { return &ClearMark{} }},
		{"keep-out", 1, func() Change { return &KeepOut{} }},
		{"refuse-hide", 1, func() Change { return &RefuseHide{} }},
		{"keep-layout", 1, func() Change { return &KeepLayout{} }},
		{"lock-pieces", 1, func() Change { return &LockPieces{} }},
		{"set-surface", 1, func() Change { return &SetSurface{} }},
		{"set-pattern", 1, func() Change { return &SetPattern{} }},
		{"drop-pattern", 1, func() Change { return &DropPattern{} }},
		{"set-seam", 1, func() Change { return &SetSeam{} }},
		{"set-thread", 1, func() Change { return &SetThread{} }},
		{"set-cord", 1, func() Change { return &SetCord{} }},
		{"set-cover", 1, func() Change { return &SetCover{} }},
		{"set-foam", 1, func() Change { return &SetFoam{} }},
		{"set-board", 1, func() Change { return &SetBoard{} }},
		{"set-deadener", 1, func() Change { return &SetDeadener{} }},
		{"set-glue", 1, func() Change { return &SetGlue{} }},
		{"drop-sewn", 1, func() Change { return &DropSewn{} }},
		{"set-blanks", 1, func() Change { return &SetBlanks{} }},
		{"drop-blank", 1, func() Change { return &DropBlank{} }},
		{"set-sheet", 1, func() Change { return &SetSheet{} }},
		{"keep-sheet-plan", 1, func() Change { return &KeepSheetPlan{} }},
		{"cut-sheet", 1, func() Change { return &CutSheet{} }},
		{"fold-strip", 1, func() Change { return &FoldStrip{} }},
		{"drop-strip", 1, func() Change { return &DropStrip{} }},
		{"set-brake", 1, func() Change { return &SetBrake{} }},
		{"send-away", 1, func() Change { return &SendAway{} }},
		{"chase-away", 1, func() Change { return &ChaseAway{} }},
		{"receive-away", 1, func() Change { return &ReceiveAway{} }},
		{"move-bags", 1, func() Change { return &MoveBags{} }},
		{"record-gift", 1, func() Change { return &RecordGift{} }},
		{"record-gift-in-kind", 1, func() Change { return &RecordGiftInKind{} }},
		{"pay", 1, func() Change { return &Pay{} }},
		{"agree-budget", 1, func() Change { return &AgreeBudget{} }},
		{"set-sale", 1, func() Change { return &SetSale{} }},
		{"set-promise", 1, func() Change { return &SetPromise{} }},
		{"add-photo", 1, func() Change { return &AddPhoto{} }},
		{"raise-snag", 1, func() Change { return &RaiseSnag{} }},
		{"close-snag", 1, func() Change { return &CloseSnag{} }},
		{"judge-event", 1, func() Change { return &JudgeEvent{} }},
		{"settle-event", 1, func() Change { return &SettleEvent{} }},
		{"judge-range", 1, func() Change { return &JudgeRange{} }},
		{"write-note", 1, func() Change { return &WriteNote{} }},
	}, loomKinds()...)
}

// KindOf returns the description of a kind of change.
func KindOf(name string) (Kind, bool) {
	for _, k := range Kinds() {
		if k.Name == name {
			return k, true
		}
	}
	return Kind{}, false
}

// Decode reads a change of a kind from its JSON form. Unknown fields are
// refused, so that a misspelt one is not lost, and so are forms newer than the
// present version.
func Decode(kind string, version int, data []byte) (Change, error) {
	k, ok := KindOf(kind)
	if !ok {
		return nil, fault.New(fault.Invalid, "there is no kind of change called %q", kind).
			WithHint("docs/changes.md lists the kinds")
	}
	if version < 1 {
		return nil, fault.New(fault.Invalid, "there is no form %d of %s: the first is 1", version, kind)
	}
	if version > k.Version {
		return nil, fault.New(fault.Invalid, "form %d of %s is newer than this program knows", version, kind).
			WithHint("use a newer fettle to open this build")
	}
	c := k.New()
	decoder := json.NewDecoder(bytes.NewReader(data))
	decoder.DisallowUnknownFields()
	if err := decoder.Decode(c); err != nil {
		return nil, badJSON(err, kind)
	}
	if decoder.More() {
		return nil, fault.New(fault.Invalid, "something follows the change").At(fmt.Sprintf("%s, byte %d", kind, decoder.InputOffset()))
	}
	return c, nil
}

// DecodeList reads a list of changes, each an object whose "kind" names it.
func DecodeList(data []byte) ([]Change, error) {
	var raw []json.RawMessage
	if err := json.Unmarshal(data, &raw); err != nil {
		return nil, badJSON(err, "list of changes")
	}
	changes := make([]Change, 0, len(raw))
	for i, r := range raw {
		c, err := decodeNamed(r)
		if err != nil {
			return nil, at(err, fmt.Sprintf("change %d", i+1))
		}
		changes = append(changes, c)
	}
	return changes, nil
}

// decodeNamed reads one change that carries its own kind.
func decodeNamed(data []byte) (Change, error) {
	var fields map[string]json.RawMessage
	if err := json.Unmarshal(data, &fields); err != nil {
		return nil, badJSON(err, "change")
	}
	var kind string
	if err := json.Unmarshal(fields["kind"], &kind); err != nil {
		return nil, fault.New(fault.Invalid, "a change needs a \"kind\"").At("kind")
	}
	delete(fields, "kind")
	body, err := json.Marshal(fields)
	if err != nil {
		return nil, badJSON(err, kind)
	}
	return Decode(kind, 1, body)
}

// EncodeNamed writes a change with its kind inside, as DecodeList reads it.
func EncodeNamed(c Change) ([]byte, error) {
	body, err := json.Marshal(c)
	if err != nil {
		return nil, fault.Wrap(fault.Internal, err, "write "+c.Kind())
	}
	head := fmt.Sprintf("{%q:%q", "kind", c.Kind())
	if string(body) == "{}" {
		return []byte(head + "}"), nil
	}
	return append([]byte(head+","), body[1:]...), nil
}

// ApplyAll applies changes in order to a copy of b and returns it. The fault
// says which change failed.
func ApplyAll(b Build, changes []Change) (Build, error) {
	c := b.Clone()
	for i, change := range changes {
		if err := change.Apply(&c); err != nil {
			return b, at(err, fmt.Sprintf("change %d, %s", i+1, change.Kind()))
		}
	}
	return c, nil
}

// badJSON turns a decoder's error into a fault that says where.
func badJSON(err error, what string) error {
	where, why := what, "cannot be read: "+strings.TrimPrefix(err.Error(), "json: ")
	if syntax, ok := errors.AsType[*json.SyntaxError](err); ok {
		where = fmt.Sprintf("%s, byte %d", what, syntax.Offset)
	}
	if typed, ok := errors.AsType[*json.UnmarshalTypeError](err); ok {
		why = "a value of the kind " + typed.Value + " does not fit here"
		if typed.Field != "" {
			where = what + ", " + typed.Field
		}
	}
	f := fault.New(fault.Invalid, "%s", why).At(where)
	f.Cause = err
	return f
}

// at adds a place to a fault.
func at(err error, where string) error {
	if f, ok := errors.AsType[*fault.Fault](err); ok {
		return f.At(where)
	}
	return fault.Wrap(fault.Internal, err, where)
}

// rule makes the fault of a numbered rule.
func rule(number int, format string, args ...any) *fault.Fault {
	return fault.New(fault.Invalid, "%s (rule %d)", fmt.Sprintf(format, args...), number)
}
