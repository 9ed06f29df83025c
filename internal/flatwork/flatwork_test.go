package flatwork_test

import (
	"fmt"
	"strings"
	"testing"

	"fettle/engine/flatten"
	"fettle/engine/flatten/longflat"
	"fettle/geom/mesh"
	"fettle/internal/account"
	"fettle/internal/desk"
	"fettle/internal/flatwork"
	"fettle/internal/placetest"
	"fettle/internal/web"
	"fettle/unit"
)

// square is a flat sheet of two faces, 100 mm wide.
var square = mesh.Mesh{Points: []mesh.Vec{{}, {X: 100}, {X: 100, Y: 100}, {Y: 100}}, Faces: []mesh.Face{{0, 1, 2}, {0, 2, 3}}}

func orderOf(cuts ...[]int32) longflat.Order {
	return longflat.Order{Surface: mesh.Pack(square), Cuts: cuts, Seed: 1}
}

// searched is a search that has found two rounds of cuts.
func searched() flatwork.Work {
	cut := func(path ...int32) []flatten.Proposal {
		return []flatten.Proposal{{Path: path, Length: 40, Outside: 0.25}, {Path: []int32{9, 8}, Opening: 1}, {Path: []int32{7, 6}}}
	}
	return flatwork.Work{Key: "k", Order: orderOf(), Answer: &longflat.Answer{Proposals: [][]flatten.Proposal{cut(10, 31, 52), cut(430, 409)}}}
}

func TestWork_For(t *testing.T) {
	first, second := []int32{10, 31, 52}, []int32{430, 409}
	vinyl, other := orderOf(), orderOf()
	material := flatten.Vinyl()
	vinyl.Material, other.Surface = &material, []byte("another scan")
	for _, c := range []struct {
		what string
		now  longflat.Order
		left int
		fits bool
	}{
		{"none taken", orderOf(), 2, true},
		{"the first", orderOf(first), 1, true},
		{"both", orderOf(first, second), 0, true},
		{"the second alone", orderOf(second), 2, false},
		{"another", orderOf(first[:2]), 2, false},
		{"one more than were found", orderOf(first, second, first), 2, false},
		{"another material", vinyl, 2, false},
		{"another scan", other, 2, false},
	} {
		got := searched().For(c.now)
		if n := len(got.Answer.Proposals); n != c.left || got.Fits != c.fits {
			t.Errorf("%s: %d rounds left, fits %v", c.what, n, got.Fits)
		}
	}
	w := searched()
	w.Order = orderOf(second)
	if !w.For(orderOf(second, first)).Fits || w.For(orderOf()).Fits {
		t.Error("a search of a surface that was cut already does not keep to its cuts")
	}
}

func TestWork_Offered(t *testing.T) {
	words := flatwork.Words{Says: "take", Stale: "stale", Kinds: [4]string{"dart", "slit", "cut", "hole"}, Gains: func(outside, _ float64) string { return fmt.Sprint(outside) }}
	link := func(path string) string { return "/x?" + path }
	o := searched().For(orderOf()).Offered(words, link)
	if !o.Looked || o.Stale || o.Says != "take" || len(o.List) != 4 {
		t.Fatalf("%+v", o)
	}
	if got := o.List[0]; got.Path != "10 31 52" || got.Link != "/x?10 31 52" || got.Says != "dart, 40 mm: 0.25" {
		t.Errorf("the first is %+v", got)
	}
	if got := o.List[1].Says; !strings.HasPrefix(got, "or a slit, ") {
		t.Errorf("the other of its round is %q", got)
	}
	if o := searched().Offered(words, link); !o.Stale || o.Says != "stale" {
		t.Errorf("one that does not fit: %+v", o)
	}
	if o := (flatwork.Work{}).Offered(words, link); o.Looked || len(o.List) > 0 {
		t.Errorf("nothing looked for: %+v", o)
	}
}

// asked runs an act as a person of the shop on a page of the build.
func asked(t *testing.T, role account.Role, act func(d desk.Desk, r *web.Request) error) {
	t.Helper()
	ran := false
	shop := placetest.Open(t, unit.Day(2026, 10, 6), func(d desk.Desk) []web.Place {
		return []web.Place{{Key: "m", Label: "M", Path: "/b/{build}/m", Routes: []web.Route{{Pattern: "GET /b/{build}/m", Who: web.Guest, Handle: func(r *web.Request) error {
			ran = true
			return act(d, r)
		}}}}}
	})
	shop.Person.Role = role
	if shop.Get("m"); !ran {
		t.Fatal("the page was not asked")
	}
}

func TestLaid_AtOnceOrAsWork(t *testing.T) {
	asked(t, account.Crew, func(d desk.Desk, r *web.Request) error {
		answer, work, err := flatwork.Laid(d, r, orderOf(), 4, "a square")
		if err != nil || work.Asked() || answer == nil || answer.Result == nil || len(answer.Result.Flat.Points) != 4 {
			t.Errorf("at once: %+v, %+v, %v", answer, work, err)
		}
		_, work, err = flatwork.Laid(d, r, orderOf(), 8_001, "a square")
		if err != nil || !work.Asked() || work.Bar.What != "a square" {
			t.Errorf("as work: %+v, %v", work, err)
		}
		if again, err := flatwork.Get(d, r, work.Key); err != nil || again.Key != work.Key {
			t.Errorf("asked for by its key: %+v, %v", again, err)
		}
		d.Jobs = nil
		if _, err := flatwork.Ask(d, r, orderOf(), "a square"); err == nil {
			t.Error("a shop without a queue takes work")
		}
		return nil
	})
	asked(t, account.Guest, func(d desk.Desk, r *web.Request) error {
		if answer, work, err := flatwork.Laid(d, r, orderOf(), 8_001, "a square"); err != nil || answer != nil || work.Asked() {
			t.Errorf("a guest's look begins work: %+v, %+v, %v", answer, work, err)
		}
		if work, err := flatwork.Get(d, r, "0000"); err != nil || work.Asked() {
			t.Errorf("a key that is tidied away: %+v, %v", work, err)
		}
		return nil
	})
}
