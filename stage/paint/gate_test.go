package paint_test

import (
	"math"
	"strings"
	"testing"

	"fettle/stage/paint"
)

// TestMaySpray_ColdBooth: 17 °C, 72 %, roof metal at 13.5 °C.
func TestMaySpray_ColdBooth(t *testing.T) {
	b, now := asOf(t, "2027-01-06T15:30")
	r := paint.Readings{Metal: 13.5, Air: 17, RH: 72, Steady: "yes", Filters: "yes", Breathing: "yes"}
	a, err := paint.MaySpray(b, *b.Product("clear"), r, now)
	if err != nil {
		t.Fatal(err)
	}
	against := a.Against()
	if a.Go || len(against) != 3 {
		t.Fatalf("go %v, %d against: %+v", a.Go, len(against), against)
	}
	if f := against[0].Figure; f.Text != "1.6 °C" || !strings.Contains(f.With, "13.5 − 11.9 = 1.6") {
		t.Errorf("margin %s, %s", f.Text, f.With)
	}
	if !strings.Contains(against[0].Fix, "warm the metal to 16 °C: the margin is then 4.1 °C") {
		t.Errorf("would help: %s", against[0].Fix)
	}
	if !strings.Contains(against[1].Figure.With, "13.5 °C, at least 16") || !strings.Contains(against[2].Figure.With, "72 %, at most 70") {
		t.Errorf("against: %+v", against[1:])
	}
	// Two warm-ups on record, in air of 22 °C: tau = 124 min, × ln(8.5 ÷ 6) = 43 min.
	if a.Aim != 16 || math.Abs(a.Warm.Minutes-43) > 1 || a.Ready < now+43 || a.Ready > now+44 {
		t.Errorf("warm to %g in %.1f min, ready %s", a.Aim, a.Warm.Minutes, a.Ready)
	}
	if a.Booth.ID != "booth" || a.Enter.From != now+20 {
		t.Errorf("booth %s, enter %s", a.Booth.ID, a.Enter.From)
	}
	r.Metal, r.RH = 18, 45
	if a, err = paint.MaySpray(b, *b.Product("clear"), r, now); err != nil || !a.Go || a.Aim != 0 {
		t.Errorf("warm and dry: go %v, aim %g, %v", a.Go, a.Aim, err)
	}
	r.Breathing = ""
	if a, _ = paint.MaySpray(b, *b.Product("clear"), r, now); a.Go {
		t.Error("goes without air-fed breathing looked at")
	}
	r.RH = 4500
	if _, err = paint.MaySpray(b, *b.Product("clear"), r, now); err == nil || !strings.Contains(err.Error(), "4500") {
		t.Errorf("4500 %%: %v", err)
	}
	b.Bays[1].Clearance = 0
	r.RH, r.Breathing = 45, "yes"
	if a, err = paint.MaySpray(b, *b.Product("clear"), r, now); err != nil || a.Go || a.EnterBy == "" {
		t.Errorf("no clearance time posted: go %v, %v, %q", a.Go, err, a.EnterBy)
	}
}

// TestSuppose_BaseOfYesterday: clear missed over both bases, jambs and wheels
// included, is 6.4 l and about 9 h.
func TestSuppose_BaseOfYesterday(t *testing.T) {
	b, now := asOf(t, "2027-01-06T15:30")
	supposed := paint.Suppose(b, *b.Product("clear"), at(t, "2027-01-05T16:10"), 17)
	windows := paint.Awaiting(supposed, "clear", now)
	if len(windows) != 2 || !strings.Contains(windows[0].Say(supposed, now), "closing, 40 min left (by 16:10)") {
		t.Fatalf("%d windows: %+v", len(windows), windows)
	}
	lost := paint.MissedOn(supposed, windows)
	near(t, "base anew", lost.Litres.L(), 6.4, 0.05)
	near(t, "scuff and recoat", lost.Hours.H(), 9, 0.25)
	if len(b.Coats) == len(supposed.Coats) {
		t.Error("nothing was supposed")
	}
}
