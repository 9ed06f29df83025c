package paint_test

import (
	"strings"
	"testing"

	"fettle/build"
	"fettle/internal/demo"
	"fettle/stage/paint"
	"fettle/unit"
)

// asOf is the demo build with what its story says up to a moment.
func asOf(t testing.TB, moment string) (*build.Build, unit.Moment) {
	t.Helper()
	now := at(t, moment)
	f, err := demo.Pedlar()
	if err != nil {
		t.Fatal(err)
	}
	b := f.Build
	for _, d := range f.Days {
		if d.At > now {
			break
		}
		for _, c := range d.Changes {
			if err := c.Apply(&b); err != nil {
				t.Fatalf("%s: %v", d.At, err)
			}
		}
	}
	return &b, now
}

func at(t testing.TB, text string) unit.Moment {
	t.Helper()
	m, err := unit.ParseMoment(text)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// of returns where a zone of a panel stands.
func of(t *testing.T, b *build.Build, panel build.PanelID, zone build.ZoneID) paint.Running {
	t.Helper()
	for _, r := range paint.Clocks(b) {
		if r.Panel == panel && r.Zone == zone {
			return r
		}
	}
	t.Fatalf("%s %s has no clock", panel, zone)
	return paint.Running{}
}

// TestClocks_BaseOfYesterday: at 20 °C and colder, clear is due a day after the
// base, however cold it is.
func TestClocks_BaseOfYesterday(t *testing.T) {
	b, _ := asOf(t, "2027-01-06T15:30")
	lay(t, b, "base-limewash", 3, "2027-01-05T16:10", 18, "P37", "P38")
	r := of(t, b, "P37", "limewash")
	if r.Next.Name != "Clear over Limewash base" || r.Next.To != at(t, "2027-01-06T16:10") || r.More {
		t.Errorf("next %+v", r.Next)
	}
	// 25 min × 2^(2/12) = 28.06 min.
	if want := at(t, "2027-01-05T16:39"); r.Next.From != want {
		t.Errorf("opens %s, want %s", r.Next.From, want)
	}
	for _, c := range []struct{ at, state, says string }{
		{"2027-01-05T16:20", paint.Curing, "not yet, opens in 19 min"},
		{"2027-01-06T09:00", paint.Open, "open, 7 h 10 min left"},
		{"2027-01-06T15:30", paint.Closing, "closing, 40 min left (by 16:10)"},
		{"2027-01-06T17:10", paint.Closed, "closed 1 h ago (16:10); scuff and lay the base again"},
	} {
		now := at(t, c.at)
		if got := r.State(now); got != c.state || !strings.Contains(r.Say(now), c.says) {
			t.Errorf("%s: %s, %s; want %s, %s", c.at, got, r.Say(now), c.state, c.says)
		}
	}
	if n, until := r.Wait(at(t, "2027-01-06T15:30")); n != 40 || until != "closes" {
		t.Errorf("countdown %d min, %s", n, until)
	}
	if n, _ := r.Wait(at(t, "2027-01-06T17:10")); n != -60 {
		t.Errorf("countdown after %d min", n)
	}
}

func TestClocks_OtherStates(t *testing.T) {
	b, _ := asOf(t, "2027-01-06T15:30")
	lay(t, b, "base-limewash", 1, "2027-01-06T10:00", 20, "P38")
	if r := of(t, b, "P38", "limewash"); !r.More || r.Next.Name != "coat 2 of Limewash base" || r.Next.From != at(t, "2027-01-06T10:12") || len(r.Dry) != 0 {
		t.Errorf("between coats: %+v", r)
	}
	lay(t, b, "base-limewash", 3, "2027-01-06T11:00", 13.5, "P39")
	cold := of(t, b, "P39", "limewash")
	if cold.Trouble == "" || cold.State(at(t, "2027-01-06T20:00")) != paint.Curing || cold.State(at(t, "2027-01-07T11:01")) != paint.Closed {
		t.Errorf("too cold to know is never open: %+v", cold)
	}
	lay(t, b, "clear", 3, "2027-01-06T12:00", 20, "P40")
	clear := of(t, b, "P40", "limewash")
	if clear.Next.Name != "" || len(clear.Dry) != 3 || clear.State(at(t, "2027-01-06T12:10")) != paint.Curing || clear.State(at(t, "2027-01-10T00:00")) != "" {
		t.Errorf("clear: %+v", clear)
	}
	if n, until := clear.Wait(at(t, "2027-01-06T12:10")); n != 30 || until != "dust free" {
		t.Errorf("clear waits %d min for %s", n, until)
	}
	b.Panel("P40").State = build.CutPolished
	if r := of(t, b, "P40", "limewash"); r.State(at(t, "2027-01-06T12:10")) != "" {
		t.Error("a polished panel waits for something")
	}
}

func TestBadges_OneAPanelMostUrgentFirst(t *testing.T) {
	b, now := asOf(t, "2027-01-06T15:30")
	lay(t, b, "base-limewash", 3, "2027-01-05T16:10", 18, "P58")
	lay(t, b, "base-slackwater", 3, "2027-01-06T15:20", 18, "P58")
	badge := paint.Badges(b, now)["P58"]
	if badge.Word != paint.Closing || !strings.Contains(badge.Says, "40 min left") {
		t.Errorf("P58: %+v", badge)
	}
	for id, g := range paint.Badges(b, now) {
		if g.Word == "" || g.Says == "" {
			t.Errorf("%s: %+v", id, g)
		}
	}
}

func TestBareMetals(t *testing.T) {
	b, now := asOf(t, "2026-10-05T18:00")
	list, err := paint.BareMetals(b, now, nil)
	if err != nil || len(list) != 38 || list[0].Known || !strings.Contains(list[0].Say(now), "bare for 2.0 h") {
		t.Fatalf("%d bare, %v", len(list), err)
	}
	list, err = paint.BareMetals(b, now, &paint.Readings{Metal: 18, Air: 18, RH: 60})
	if err != nil || list[0].Clock.By != at(t, "2026-10-05T20:00") {
		t.Errorf("at 60 %% it is over at %s, want 20:00; %v", list[0].Clock.By, err)
	}
	if _, err = paint.BareMetals(b, now, &paint.Readings{Metal: 18, Air: 18, RH: 4500}); err == nil || !strings.Contains(err.Error(), "4500") {
		t.Errorf("4500 %%: %v", err)
	}
	b, now = asOf(t, "2026-10-08T08:00")
	if list, _ = paint.BareMetals(b, now, nil); len(list) != 0 {
		t.Errorf("%d bare under their epoxy", len(list))
	}
}

// lay puts a coat on the face of panels.
func lay(t *testing.T, b *build.Build, product build.ProductID, number int, when string, metal float64, panels ...build.PanelID) {
	t.Helper()
	c := build.LayCoat{Coat: build.Coat{ID: build.CoatID(product) + build.CoatID(when) + build.CoatID(panels[0]), Product: product, Panels: panels, Number: number,
		At: at(t, when), Metal: metal, Air: metal + 1, RH: 45}}
	if err := c.Apply(b); err != nil {
		t.Fatal(err)
	}
}
