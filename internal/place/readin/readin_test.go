package readin_test

import (
	"net/url"
	"strings"
	"testing"

	"fettle/internal/account"
	"fettle/internal/demo"
	"fettle/internal/desk"
	"fettle/internal/place/readin"
	"fettle/internal/placetest"
	"fettle/internal/web"
	"fettle/unit"
)

const at = "/b/pedlar/read-in"

func bench(t *testing.T) *placetest.Bench {
	return placetest.New(t, func(d desk.Desk) []web.Place {
		return []web.Place{readin.Place(d, readin.Example{Build: "pedlar", Name: "blast-sheet.csv", Says: "fourteen findings", Data: demo.BlastList()})}
	})
}

// query is what a preview's address holds.
func query(t *testing.T, see string) string {
	t.Helper()
	_, q, ok := strings.Cut(see, "?")
	if !ok {
		t.Fatalf("got %q, want a preview", see)
	}
	return q
}

func TestTheExampleIsReadInAsAFile(t *testing.T) {
	b := bench(t)
	example := b.Get(at + "/example.csv")
	if example.Status != 200 || !strings.Contains(b.Get(at).Body, "blast-sheet.csv") {
		t.Fatalf("got %d, or the example is not offered", example.Status)
	}
	got := b.Send(at, url.Values{"kind": {"findings"}}, "file", "blast-sheet.csv", []byte(example.Body))
	page := b.Get(got.See)
	if page.Status != 200 || !strings.Contains(page.Body, "Put 14 good rows on my slip") {
		t.Fatalf("got %d, want fourteen good rows", page.Status)
	}
	if n := len(b.Slip(t)); n != 0 {
		t.Fatalf("%d changes on the slip before anybody asked", n)
	}
	if taken := b.Post(at+"/take", url.Values{"query": {query(t, got.See)}}); taken.Status != 303 || taken.See != "/b/pedlar/metal" {
		t.Fatalf("got %d to %q", taken.Status, taken.See)
	}
	kept := b.KeepSlip(t)
	var sum unit.Effort
	for _, f := range kept.Findings {
		sum += f.Hours()
	}
	if len(kept.Findings) != 45 || sum != 310*unit.Hour {
		t.Errorf("got %d findings with %s, want 45 with 310 h", len(kept.Findings), sum)
	}
}

const mixed = "Where,Trouble,Wide,High\nP02,perforated,80,40\nP99,lace,80,40\nP04,lace,wide,40\nP05,pinholes,30,\n"

func TestBadRowsSayWhyAndHoldBackOnlyWhenAsked(t *testing.T) {
	b := bench(t)
	got := b.Post(at, url.Values{"kind": {"findings"}, "text": {mixed}})
	q := query(t, got.See)
	first := b.Get(got.See).Body
	if strings.Contains(first, "Put 4 good") || !strings.Contains(first, `name="map-what"`) {
		t.Error("the preview does not offer another column")
	}
	q += "&chosen=yes&map-panel=1&map-what=2&map-width=3&map-height=4"
	page := b.Get(at + "/preview?" + q)
	for _, want := range []string{"Put 2 good rows on my slip", "P99", "2 good, 2 bad"} {
		if !strings.Contains(page.Body, want) {
			t.Errorf("the preview lacks %q", want)
		}
	}
	all := b.Get(at + "/preview?" + q + "&all=yes")
	if strings.Contains(all.Body, "on my slip</button>") || !strings.Contains(all.Body, "2 bad rows hold the others back") {
		t.Error("all or nothing still offers the good rows")
	}
	b.Post(at+"/take", url.Values{"query": {q + "&all=yes"}})
	if n := len(b.Slip(t)); n != 0 {
		t.Errorf("got %d changes, want 0", n)
	}
	b.Post(at+"/take", url.Values{"query": {q}})
	if n := len(b.Slip(t)); n != 2 {
		t.Errorf("got %d changes, want 2", n)
	}
}

func TestWhatIsNoListIsRefusedBesideItsField(t *testing.T) {
	b := bench(t)
	for _, c := range []struct {
		name string
		form url.Values
		file string
		says string
	}{
		{"nothing", url.Values{"kind": {"findings"}}, "", "there is no list yet"},
		{"a picture", url.Values{"kind": {"findings"}}, "\xff\xd8\xff\xe0 photo", "file"},
		{"no kind", url.Values{"text": {"a,b\n1,2\n"}}, "", "must be one of"},
	} {
		got := b.Post(at, c.form)
		if c.file != "" {
			got = b.Send(at, c.form, "file", "list.csv", []byte(c.file))
		}
		if got.Status != 422 || !strings.Contains(got.Body, c.says) {
			t.Errorf("%s: got %d without %q", c.name, got.Status, c.says)
		}
	}
	if got := b.Get(at + "/preview?kind=findings&list=gone"); got.Status != 404 || !strings.Contains(got.Body, "no longer on the table") {
		t.Errorf("a list that is gone: got %d", got.Status)
	}
	b.As(account.Guest)
	if got := b.Post(at, url.Values{"kind": {"findings"}, "text": {mixed}}); got.Status != 403 {
		t.Errorf("a guest: got %d, want 403", got.Status)
	}
}

func TestTheOtherKindsGoThroughToo(t *testing.T) {
	for _, c := range []struct{ kind, list, next string }{
		{"parts", "Part,Qty,Price,Lead days,Task\nroof bow,2,31.50,8,T09\n", "/b/pedlar/slip"},
		{"hours", "Person,Task,Date,Hours\nMW,T07,2026-10-05,2.5\n", "/b/pedlar/slip"},
		{"panels", "No,Name,Side,Gauge mm\nP63,roof bow,C,1.0\n", "/b/pedlar/metal/panels"},
	} {
		b := bench(t)
		got := b.Post(at, url.Values{"kind": {c.kind}, "text": {c.list}})
		taken := b.Post(at+"/take", url.Values{"query": {query(t, got.See)}})
		if taken.See != c.next || len(b.Slip(t)) != 1 {
			t.Errorf("%s: got %d to %q with %d on the slip", c.kind, taken.Status, taken.See, len(b.Slip(t)))
		}
	}
}
