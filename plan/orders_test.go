package plan

import (
	"slices"
	"testing"

	"fettle/build"
	"fettle/unit"
)

// TestOrders: T2 needs its parts on Wednesday 4 March, its end on the same
// day. Today is Monday 2 March, the margin one working day.
func TestOrders(t *testing.T) {
	tests := []struct {
		what            string
		do              func(*build.Part)
		needBy, orderBy unit.Date
		there           unit.Date
		when            string
	}{
		{"no lead", func(*build.Part) {}, monday + 2, monday + 2, monday, "later"},
		{"due at the margin", func(p *build.Part) { p.Lead = 1 }, monday + 2, monday + 1, monday + 1, "due"},
		{"due today", func(p *build.Part) { p.Lead = 2 }, monday + 2, monday, monday + 2, "due"},
		{"late by a day, so the task waits and it is just due", func(p *build.Part) { p.Lead = 3 }, monday + 3, monday, monday + 3, "due"},
		{"late for the end of a task", func(p *build.Part) { p.Lead, p.AtEnd = 1, true }, monday + 2, monday + 1, monday + 1, "due"},
		{"for a finding: late for the day the task begins", func(p *build.Part) { p.Lead, p.Because = 3, []build.FindingID{"F1"} }, monday + 2, monday - 3, monday + 3, "late"},
		{"on order", func(p *build.Part) { p.State, p.Ordered, p.Lead = build.Ordered, monday-3, 2 }, monday + 2, monday, monday + 1, "on order"},
		{"promised", func(p *build.Part) { p.State, p.Ordered, p.Promised = build.Promised, monday-3, monday+1 }, monday + 2, monday + 2, monday + 1, "on order"},
		{"late, as the supplier says", func(p *build.Part) { p.State, p.Ordered, p.Promised = build.Late, monday-3, monday+2 }, monday + 2, monday + 2, monday + 2, "on order"},
		{"sent back", func(p *build.Part) { p.State, p.Lead = build.SentBack, 1 }, monday + 2, monday + 1, monday + 1, "due"},
		{"in", func(p *build.Part) { p.State, p.Arrived = build.In, monday-1 }, monday + 2, monday + 2, monday - 1, "here"},
		{"given", func(p *build.Part) { p.State, p.Arrived = build.Given, monday-1 }, monday + 2, monday + 2, monday - 1, "here"},
	}
	for _, tt := range tests {
		b := small()
		b.Shop.OrderMargin = 1
		b.Parts = []build.Part{{ID: "Q1", Name: "hinge", Quantity: 1, Price: 5_00, Task: "T2", State: build.Wanted}}
		tt.do(&b.Parts[0])
		p := made(t, b, monday.At(8, 0))
		o := p.Orders[0]
		if o.NeedBy != tt.needBy || o.OrderBy != tt.orderBy || o.There != tt.there || o.When != tt.when {
			t.Errorf("%s: need by %s, order by %s, there %s, %q, want %s, %s, %s, %q", tt.what,
				o.NeedBy, o.OrderBy, o.There, o.When, tt.needBy, tt.orderBy, tt.there, tt.when)
		}
		if due := tt.when == "due" || tt.when == "late"; slices.Contains(p.Today, "Q1") != due {
			t.Errorf("%s: order today %v, want %v", tt.what, p.Today, due)
		}
	}
}

// TestOrders_LateFirst: by how they stand, then by the last order day, then by
// number.
func TestOrders_LateFirst(t *testing.T) {
	b := small()
	b.Shop.OrderMargin = 1
	part := func(id build.PartID, lead int, f func(*build.Part)) {
		p := build.Part{ID: id, Name: string(id), Quantity: 1, Lead: lead, Task: "T2", AtEnd: true, State: build.Wanted}
		f(&p)
		b.Parts = append(b.Parts, p)
	}
	same := func(*build.Part) {}
	part("Q1", 0, func(p *build.Part) { p.State = build.In })
	part("Q2", 1, func(p *build.Part) { p.State, p.Ordered = build.Ordered, monday })
	part("Q3", 0, same)
	part("Q5", 2, same)
	part("Q4", 2, same)
	part("Q6", 3, func(p *build.Part) { p.AtEnd, p.Because = false, []build.FindingID{"F1"} })
	p := made(t, b, monday.At(8, 0))
	var got []build.PartID
	for _, o := range p.Orders {
		got = append(got, o.Part)
	}
	if want := []build.PartID{"Q6", "Q4", "Q5", "Q3", "Q2", "Q1"}; !slices.Equal(got, want) {
		t.Errorf("orders %v, want %v", got, want)
	}
	if want := []build.PartID{"Q6", "Q4", "Q5"}; !slices.Equal(p.Today, want) {
		t.Errorf("order today %v, want %v", p.Today, want)
	}
}

// TestLoads: a load goes out when its task begins, or when what is packed with
// it is done; its float is the room before the date of all moves.
func TestLoads(t *testing.T) {
	tests := []struct {
		what      string
		do        func(*build.Build)
		out, back unit.Date
		float     int
		needBy    unit.Date
	}{
		{"sent at once, needed at once", func(*build.Build) {}, monday, monday + 2, 0, monday + 2},
		{"needed later", func(b *build.Build) { b.Task("T2").NoEarly = monday + 8 }, monday, monday + 2, 3, monday + 7},
		{"hours to pack first", func(b *build.Build) { b.Task("O1").Legs = []build.Leg{{Trade: "WA", Hours: 12 * h}} }, monday + 1, monday + 4, 0, monday + 4},
		{"away since Friday", func(b *build.Build) {
			o, x := b.Load("O1"), b.Task("O1")
			o.State, o.Sent, x.State, x.Began = build.Away, monday-3, build.Begun, monday-3
		}, monday - 3, monday + 1, 0, monday + 1},
		{"nothing waits for it", func(b *build.Build) { b.Task("T2").After = nil }, monday, monday + 2, 0, monday + 2},
	}
	for _, tt := range tests {
		b := small()
		b.Tasks[0] = build.Task{ID: "O1", Name: "plating", Stage: "away", Outwork: "O1", Wait: 3, State: build.NotBegun}
		b.Task("T2").After = []build.TaskID{"O1"}
		b.Outwork = []build.Outwork{{ID: "O1", What: "bright work", Task: "O1", Pieces: 3, State: build.ToPack, Cost: 60_00}}
		tt.do(b)
		l := made(t, b, monday.At(8, 0)).Loads[0]
		if l.Out != tt.out || l.Back != tt.back || l.NeedBy != tt.needBy || l.Float != tt.float {
			t.Errorf("%s: out %s, back %s, needed %s, float %d, want %s, %s, %s, %d", tt.what, l.Out, l.Back, l.NeedBy, l.Float, tt.out, tt.back, tt.needBy, tt.float)
		}
	}
}
