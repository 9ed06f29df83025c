package plan

import (
	"context"
	"slices"
	"strings"
	"testing"

	"fettle/build"
	"fettle/rates"
	"fettle/unit"
)

// tight is the small build with three weeks of metal and every lever: Mo can
// come on Saturdays, Wyn can lend 12 h, and a shop offers to take 20 h.
func tight() *build.Build {
	b := small()
	b.Promise.Ready = monday + 17
	b.Task("T1").Findings, b.Task("T1").Legs[0].Hours, b.Task("T1").Risk = true, 120*h, "metal"
	b.Risk.Ranges = []build.RiskRange{{Kind: "metal", Factor: build.Span{Low: 0.9, Mode: 1, High: 1.2}}}
	b.People[0].Saturday, b.People[1].Help = 6*h, 12*h
	b.Offers = []build.Sublet{{Task: "T1", What: "doors", Legs: []build.Leg{{Trade: "MW", Hours: 20 * h}}, Price: 400_00, Days: 5}}
	return b
}

func waysOf(t *testing.T, b *build.Build) []Way {
	t.Helper()
	o := Options{Now: monday.At(8, 0), Runs: 400, Seed: 1}
	p, err := Make(context.Background(), b, rates.Default(), o)
	if err != nil {
		t.Fatal(err)
	}
	ways, err := WaysOut(context.Background(), b, rates.Default(), p, o)
	if err != nil {
		t.Fatal(err)
	}
	return ways
}

// single returns the ways with one lever, by the key of the lever.
func single(ways []Way) map[string]Way {
	list := map[string]Way{}
	for _, w := range ways {
		if len(w.Levers) == 1 {
			list[w.Levers[0]] = w
		}
	}
	return list
}

func keys(ways []Way) string {
	var list []string
	for k := range single(ways) {
		list = append(list, k)
	}
	slices.Sort(list)
	return strings.Join(list, " ")
}

// TestWaysOut_Levers reads each lever out of the facts: Mo's premium is half
// of £30 for 12 h, on the two Saturdays inside 15 days of metal.
func TestWaysOut_Levers(t *testing.T) {
	ways := waysOf(t, tight())
	for key, want := range map[string]struct {
		name  string
		price unit.Money
	}{
		"saturdays/mo": {"2 Saturdays of 6 h, Mo", 12 * 15_00},
		"sublet/1":     {"sublet 20 h of doors", 400_00},
		"lend/wyn":     {"Wyn takes 12 h of metal", 0},
	} {
		got, ok := single(ways)[key]
		if !ok || got.Name != want.name || got.Price != want.price {
			t.Errorf("%s = %q at %d, want %q at %d", key, got.Name, got.Price, want.name, want.price)
		}
	}
	if len(ways) != 6 {
		t.Errorf("%d ways, want 3 alone and 3 in pairs", len(ways))
	}
}

func TestWaysOut_RankedAndPairsAdd(t *testing.T) {
	b := tight()
	ways := waysOf(t, b)
	base := made(t, b, monday.At(8, 0))
	for i, w := range ways {
		if i > 0 && (w.Ready > ways[i-1].Ready || w.Ready == ways[i-1].Ready && w.Price < ways[i-1].Price) {
			t.Errorf("%q at %.2f for %d comes after %q at %.2f for %d", w.Name, w.Ready, w.Price, ways[i-1].Name, ways[i-1].Ready, ways[i-1].Price)
		}
		var price unit.Money
		best := 0.0
		for _, key := range w.Levers {
			price, best = price+single(ways)[key].Price, max(best, single(ways)[key].Ready)
		}
		if w.Price != price || w.Ready < best {
			t.Errorf("%q: price %d, ready %.3f, want %d and at least %.3f", w.Name, w.Price, w.Ready, price, best)
		}
		after, err := build.ApplyAll(*b, w.Changes)
		if err != nil {
			t.Fatal(err)
		}
		if got := made(t, &after, monday.At(8, 0)).Money.Cash - base.Money.Cash; got != w.Cash {
			t.Errorf("%q costs %d, want %d", w.Name, w.Cash, got)
		}
	}
}

// TestWaysOut_WhatTheFactsDoNotOffer takes one lever away at a time.
func TestWaysOut_WhatTheFactsDoNotOffer(t *testing.T) {
	kept := func(key string) func(*build.Build) {
		return func(b *build.Build) {
			after, err := build.ApplyAll(*b, single(waysOf(t, b))[key].Changes)
			if err != nil {
				t.Fatal(err)
			}
			*b = after
		}
	}
	tests := []struct {
		what string
		do   func(*build.Build)
		want string
	}{
		{"all of them", func(*build.Build) {}, "lend/wyn saturdays/mo sublet/1"},
		{"no Saturdays", func(b *build.Build) { b.People[0].Saturday = 0 }, "lend/wyn sublet/1"},
		{"away on all Saturdays", func(b *build.Build) {
			for i := range unit.Date(8) {
				b.Absences = append(b.Absences, build.Absence{Person: "mo", First: monday + 5 + 7*i, Last: monday + 5 + 7*i})
			}
		}, "lend/wyn sublet/1"},
		{"shut on all Saturdays", func(b *build.Build) {
			for i := range unit.Date(8) {
				b.Closures = append(b.Closures, build.Closure{First: monday + 5 + 7*i, Last: monday + 5 + 7*i})
			}
		}, "lend/wyn sublet/1"},
		{"no offers", func(b *build.Build) { b.Offers = nil }, "lend/wyn saturdays/mo"},
		{"nothing to lend", func(b *build.Build) { b.People[1].Help = 0 }, "saturdays/mo sublet/1"},
		{"knows no other trade", func(b *build.Build) { b.People[1].Trades = b.People[1].Trades[:1] }, "saturdays/mo sublet/1"},
		{"the Saturdays are kept", kept("saturdays/mo"), "lend/wyn sublet/1"},
		{"the offer is taken", kept("sublet/1"), "lend/wyn saturdays/mo"},
		{"the hours are lent", kept("lend/wyn"), "saturdays/mo sublet/1"},
		{"the metal is finished", func(b *build.Build) {
			b.Tasks[0].State, b.Tasks[0].Began, b.Tasks[0].Ended = build.Finished, monday-9, monday-3
		}, ""},
	}
	for _, tt := range tests {
		b := tight()
		tt.do(b)
		if got := keys(waysOf(t, b)); got != tt.want {
			t.Errorf("%s: levers %q, want %q", tt.what, got, tt.want)
		}
	}
}

// TestWaysOut_KeptIsNotOfferedTwice keeps each lever of both demo builds.
func TestWaysOut_KeptIsNotOfferedTwice(t *testing.T) {
	for _, s := range stories(t) {
		p := made(t, &s.b, s.now)
		for _, l := range leversOf(&s.b, p) {
			after, err := build.ApplyAll(s.b, l.changes)
			if err != nil {
				t.Fatalf("%s: %s: %v", s.name, l.key, err)
			}
			for _, again := range leversOf(&after, made(t, &after, s.now)) {
				if again.key == l.key {
					t.Errorf("%s: %q is kept, and %q is offered", s.name, l.name, again.name)
				}
			}
		}
	}
}

func TestWaysOut_GivenHoursHaveNoPremium(t *testing.T) {
	b := tight()
	b.People[0].GivenAll = true
	if w := single(waysOf(t, b))["saturdays/mo"]; w.Price != 0 || w.Cash != 0 {
		t.Errorf("given Saturdays cost %d, and %d in cash, want nothing", w.Price, w.Cash)
	}
}
