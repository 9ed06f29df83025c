package journal

import (
	"fmt"
	"time"

	"fettle/fault"
)

// Ledger is what [Settle] must see of one build while no one else can write.
type Ledger interface {
	// Last is the sequence of the build's last entry, 0 for none.
	Last() (int64, error)
	// ByID finds an entry of any build.
	ByID(id string) (Sealed, bool, error)
	// Since lists what was kept after a sequence, in order.
	Since(seq int64) ([]Step, error)
}

// Settled is what an Append comes to.
type Settled struct {
	Answer []Entry  // one for each entry of the batch, with Seq and Kept
	Fresh  []Sealed // those the store has still to keep, in order
}

// Settle decides what appending a prepared batch to a build comes to. It is
// the one place of the rules on doubles and expected sequences, for every
// store. Conflict when an ID stands for other content or, if anything is left
// to keep, when others have kept entries after expect.
func Settle(l Ledger, build string, expect int64, batch []Sealed, now time.Time) (Settled, error) {
	last, err := l.Last()
	if err != nil {
		return Settled{}, err
	}
	now = now.UTC().Truncate(time.Millisecond)
	var out Settled
	known := make(map[string]Sealed, len(batch))
	for i, s := range batch {
		k, ok, err := recall(l, known, s.ID)
		if err != nil {
			return Settled{}, err
		}
		if ok && k.Digest != s.Digest {
			return Settled{}, atEntry(i, reused(k, k.Build == build && k.Seq > last))
		}
		if !ok {
			k = s
			k.Seq, k.Kept = last+1+int64(len(out.Fresh)), now
			out.Fresh = append(out.Fresh, k)
		}
		known[s.ID] = k
		out.Answer = append(out.Answer, k.Entry)
	}
	if len(out.Fresh) == 0 || expect == AnySeq {
		return out, nil
	}
	return out, expected(l, build, expect, last, known)
}

func recall(l Ledger, known map[string]Sealed, id string) (Sealed, bool, error) {
	if k, ok := known[id]; ok {
		return k, true, nil
	}
	return l.ByID(id)
}

// expected compares the sequence the caller last saw with what is there; what
// the batch itself brought earlier does not count.
func expected(l Ledger, build string, expect, last int64, own map[string]Sealed) error {
	switch {
	case expect < AnySeq:
		return fault.New(fault.Invalid, "%d is not a sequence", expect).At("expect")
	case expect > last:
		m := &Moved{Build: build, Expect: expect, Now: last}
		return m.fault().WithHint("the store may come from a backup; load the build again")
	}
	steps, err := l.Since(expect)
	if err != nil {
		return err
	}
	m := &Moved{Build: build, Expect: expect, Now: last}
	for _, s := range steps {
		if _, ok := own[s.ID]; !ok {
			m.Since = append(m.Since, s)
		}
	}
	if len(m.Since) == 0 {
		return nil
	}
	return m.fault().WithHint("look at what was changed, then try again")
}

func reused(k Sealed, sameBatch bool) error {
	where := fmt.Sprintf("%s %d by %s (%s)", k.Build, k.Seq, k.Person, k.Kind)
	if sameBatch {
		where = "another entry of the same batch"
	}
	return fault.New(fault.Conflict, "%s stands for another change: %s", k.ID, where).At("id").
		WithHint("the same ID may be sent again only with the same content")
}
