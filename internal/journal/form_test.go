package journal_test

import (
	"encoding/json"
	"fmt"
	"regexp"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"

	"fettle/fault"
	"fettle/internal/journal"
	"fettle/internal/journal/memory"
)

const someID = "01890a5d-ac96-774b-bcce-b302099a8057"

// FuzzEntry feeds the door of the journal. What it lets in must obey the rules
// by a second reading of them, come back as it went in, and be the same entry
// after a round trip through JSON; what it keeps out must be Invalid and say
// where.
func FuzzEntry(f *testing.F) {
	f.Add(someID, int64(1_772_452_800_007), "Inka", "tablet", "record-finding", 1, []byte(`{"n":1}`), "note", "")
	f.Add(someID, int64(0), "Žofia", "", "undo", 2, []byte(`null`), "", "01890a5d-ac96-774b-bcce-b302099a8058")
	f.Add(someID, int64(-1), "a\nb", "\xff", "Kind", 0, []byte("{\"a\" : \"<\u2028>\"}"), "\x00", someID)
	f.Add("", int64(1)<<62, "", "", "", -1, []byte(`[[`), "", "x")
	f.Fuzz(func(t *testing.T, id string, at int64, person, device, kind string, version int, change []byte, note, undoes string) {
		e := journal.Entry{ID: id, At: time.UnixMilli(at), Person: person, Device: device, Kind: kind,
			Version: version, Change: change, Note: note, Undoes: undoes}
		s := memory.New()
		kept, err := s.Append(t.Context(), "pedlar", 0, []journal.Entry{e})
		if err != nil {
			if f, ok := err.(*fault.Fault); !ok || f.Kind != fault.Invalid || f.Where == "" {
				t.Fatalf("refused with %v, want Invalid and a place", err)
			}
			return
		}
		wantRules(t, kept[0])
		list, err := s.Entries(t.Context(), "pedlar", 0, 0)
		if err != nil || cmp.Diff(kept, list) != "" {
			t.Fatalf("read back: %v %s", err, cmp.Diff(kept, list))
		}
		wantSameAfterJSON(t, s, kept[0])
	})
}

// wantRules reads the rules a second time, by other means.
func wantRules(t *testing.T, e journal.Entry) {
	t.Helper()
	uuid := regexp.MustCompile(`\A[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}\z`)
	var v any
	for _, r := range []struct {
		on    string
		holds bool
	}{
		{"id", uuid.MatchString(e.ID)},
		{"at", e.At.Year() >= 1900 && e.At.Year() <= 9999},
		{"person", e.Person != "" && len(e.Person) <= 100 && utf8.ValidString(e.Person)},
		{"device", len(e.Device) <= 100 && utf8.ValidString(e.Device)},
		{"version", e.Version > 0},
		{"change", json.Unmarshal(e.Change, &v) == nil},
		{"note", len(e.Note) <= 10_000 && utf8.ValidString(e.Note)},
		{"undoes", (e.Kind == "undo") == uuid.MatchString(e.Undoes) && e.Undoes != e.ID},
	} {
		if !r.holds {
			t.Errorf("kept an entry that breaks the rule on %s: %+v", r.on, e)
		}
	}
}

func wantSameAfterJSON(t *testing.T, s journal.Store, e journal.Entry) {
	t.Helper()
	text, err := json.Marshal(e)
	if err != nil {
		t.Fatalf("an entry was kept that JSON cannot write: %v", err)
	}
	var back journal.Entry
	if err := json.Unmarshal(text, &back); err != nil {
		t.Fatal(err)
	}
	if again, err := s.Append(t.Context(), "pedlar", 0, []journal.Entry{back}); err != nil || again[0].Seq != 1 {
		t.Errorf("sent again after a round trip through JSON: %v, %v; want it known", again, err)
	}
}

// TestSeal holds the digest to a value worked out by hand from the order its
// comment states (see testdata/digest.py), so that no journal loses its checks.
func TestSeal(t *testing.T) {
	e := journal.Entry{ID: someID, Build: "pedlar", At: time.UnixMilli(1_772_452_800_007), Person: "Inka", Device: "tablet",
		Kind: "undo", Version: 2, Change: json.RawMessage(`{ "a": "<" }`), Note: "späť", Undoes: "01890a5d-ac96-774b-bcce-b302099a8058"}
	const want = "ab562a85b02c76652686d7e67b081acbd2d58c079d270dd84d9bba09fadc0849"
	s := journal.Seal(e)
	if got := fmt.Sprintf("%x", s.Digest); got != want {
		t.Errorf("digest %s, want %s", got, want)
	}
	e.Seq, e.Kept = 7, time.Now()
	if got := fmt.Sprintf("%x", journal.Seal(e).Digest); got != want {
		t.Errorf("digest with Seq and Kept %s, want %s", got, want)
	}
}

// TestNewID reads the ID by the layout of RFC 9562, section 5.7.
func TestNewID(t *testing.T) {
	at := time.UnixMilli(0x017F22E279B0) // the time of the RFC's own example, appendix A.6
	layout := regexp.MustCompile(`^017f22e2-79b0-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$`)
	seen := map[string]bool{}
	for range 1000 {
		id := journal.NewID(at)
		if !layout.MatchString(id) || seen[id] {
			t.Fatalf("%s: want a new one like %v", id, layout)
		}
		seen[id] = true
	}
}
