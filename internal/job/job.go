// Package job is the contract of long work: what is asked for is worked out in
// the background, one piece at a time, tells the best it has so far, can be
// stopped, and outlives a power cut.
//
// A piece of work is named by its Key, a hash of its kind, the version of what
// does it, and its input. Whoever asks for the same again gets what is there:
// the result, or the work under way. A queue knows no engine: a Kind is a name
// and a function, and inputs and results are bytes.
//
// To add a kind: write a Work that is a pure function of its input (seed and
// budget belong in it), write a Tell that reads how far it is out of what it
// reports, bump Version when it would answer differently, and put the Kind in
// the list that internal/cli opens the queue with. A page asks by Queue.Ask and
// shows what comes by ui/job; a fact that is taken from a result names its Key,
// and the result is then kept as long as the fact.
package job

import (
	"context"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"time"
)

// Kind is one sort of work.
type Kind struct {
	Name    string // such as layout
	Version int    // of what does the work
	Work    Work
	Tell    Tell // nil: nothing can be told
}

// Work works an input out. from is the best that an earlier run of the same
// work reported before it was cut off, nil where there was none: work that
// cannot begin from there begins anew. report says what is best so far, may be
// called as often as it likes, also by several at once, and takes the bytes
// over: they stand in place of what was reported before, by an earlier run too,
// so that work that begins anew keeps silent until it is as far. The result
// stands for good. When ctx ends the work returns within a
// second, with the best it has if there is one: that is no error. A panic fails
// the work, but for those of goroutines that it starts itself.
type Work func(ctx context.Context, input, from []byte, report func(best []byte)) ([]byte, error)

// Tell reads out of what work reported how many steps of its budget are done
// (of is 0 where it is not known) and a figure of the best so far, such as: 31
// laid, 4 without a place.
type Tell func(best []byte) (done, of int, figure string)

// Progress is what Tell told.
type Progress struct {
	Done, Of int
	Figure   string
}

// State is how far a piece of work is.
type State string

// The states of work.
const (
	Waiting State = "waiting"
	Working State = "working"
	Done    State = "done"
	Stopped State = "stopped" // by a person; the best so far stands
	Failed  State = "failed"
)

// Open tells whether more is to come.
func (s State) Open() bool { return s == Waiting || s == Working }

// Request asks for work.
type Request struct {
	Kind  string
	Build string // the build it is for
	By    string // who asks
	What  string // in words, such as: layout of tan leather
	Page  string // the page that shows it, which takes the key as the last part of its path
	Input []byte
}

// Job is a piece of work as it stands.
type Job struct {
	Key      string
	Kind     string
	Version  int
	Build    string
	By       string
	What     string
	Page     string // with the key; empty where no page shows it
	Input    []byte
	State    State
	Best     []byte // the best reported so far, or the result
	Progress Progress
	Fault    string    // why it failed, for a person
	Asked    time.Time // last
	Begun    time.Time // the last run
	Ended    time.Time
	Ahead    int // how many are worked out before it
}

// Queue takes work and tells how far it is. Errors are faults: NotFound for an
// unknown key, Invalid for an unknown kind, Conflict where too much waits.
type Queue interface {
	// Ask returns the work of that input, which it begins unless it is there.
	// Work that was stopped or has failed begins again, from its best.
	Ask(ctx context.Context, r Request) (Job, error)
	// Again asks once more for what was stopped or has failed, by its key. The
	// key is another one where a newer version does such work by now.
	Again(ctx context.Context, key, by string) (Job, error)
	Get(ctx context.Context, key string) (Job, error)
	// List returns the work of a build, or of all for none, what is open first,
	// then the newest. It leaves inputs and bests out.
	List(ctx context.Context, build string) ([]Job, error)
	// Stop ends work within a second and keeps the best so far.
	Stop(ctx context.Context, key string) error
	// Watch calls f for every change of any work, also by other processes, and
	// now and then for what is under way, until the returned function is called.
	// f must neither wait nor call the queue.
	Watch(f func(build, key string)) (stop func())
}

// KeyOf names work: the SHA-256 of kind, version and input in hex.
func KeyOf(kind string, version int, input []byte) string {
	h := sha256.New()
	var n [16]byte
	binary.BigEndian.PutUint64(n[:8], uint64(len(kind)))
	binary.BigEndian.PutUint64(n[8:], uint64(version))
	h.Write(n[:])
	h.Write([]byte(kind))
	h.Write(input)
	return hex.EncodeToString(h.Sum(nil))
}
