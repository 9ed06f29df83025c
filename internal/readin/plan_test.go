package readin

import (
	"strings"
	"testing"

	"fettle/build"
	"fettle/unit"
)

func TestPlan_BlastSheetNeedsNoMapping(t *testing.T) {
	for _, sample := range samples() {
		s := openFile(t, sample.file)
		m := Match(Findings, s.Heads)
		if len(m.Missing)+len(m.Unused) > 0 {
			t.Fatalf("%s: missing %q, unused %q", sample.file, m.Missing, m.Unused)
		}
		after := wantGood(t, Plan(shop(), Findings, s, m, Options{}), 7)
		if got := after.Finding("F44").Panels; len(got) != 2 || got[0] != "P56" || got[1] != "P57" {
			t.Errorf("F44 lies on %v, want P56 and P57", got)
		}
		f := after.Finding("F32")
		if f.Hours() != 10*unit.Hour || f.Remedy != build.Repair || f.How != "replace section" || f.State != build.Settled {
			t.Errorf("F32 is %+v", f)
		}
		if got := after.Finding("F45").Size; got != (build.Size{Width: 380 * unit.Millimetre, Round: true}) {
			t.Errorf("F45 is %s, want 380 dia", got)
		}
		p := after.Part("Q11")
		if p == nil || p.Name != "gutter repair strip pair" || p.Price != 7400 || p.Lead != 9 || len(p.Because) != 1 {
			t.Errorf("Q11 is %+v", p)
		}
	}
}

func TestPlan_FoundIsTakenFromTheName(t *testing.T) {
	const list = "panel,what,size\nP02,hole,70\n"
	for _, c := range []struct{ name, head, option, want string }{
		{"blast-sheet.csv", "", "", "blast"},
		{"list.csv", "Seen after strip,,\n", "", "strip"},
		{"list.csv", "", "trial build", "trial build"},
		{"list.csv", "", "", ""},
	} {
		s, err := Open(c.name, strings.NewReader(c.head+list), 0)
		if err != nil {
			t.Fatal(err)
		}
		after := wantGood(t, Plan(shop(), Findings, s, Match(Findings, s.Heads), Options{Found: c.option}), 1)
		if got := after.Finding("F32").Found; got != c.want {
			t.Errorf("%s, %q: found %q, want %q", c.name, c.head, got, c.want)
		}
	}
}

// The bad list has one fault on most rows; each must be told by line, field
// and reason, and the good rows must come through.
func TestPlan_BadRows(t *testing.T) {
	s := openFile(t, "bad-rows.csv")
	res := Plan(shop(), Findings, s, Match(Findings, s.Heads), Options{})
	want := []struct {
		line                int
		status              Status
		field, reason, hint string
	}{
		{5, Bad, "panel", `there is no panel "rood skin front"`, "did you mean P01 roof skin front?"},
		{6, Bad, "size", `the unit "furlongs" is not known`, "mm, cm, m, in and ft"},
		{7, Bad, "size", "width is below", ""},
		{8, Good, "", "", ""},
		{9, Bad, "number", "finding F35 is on line 8 already", "leave the number empty"},
		{10, Bad, "panel", `"gutter" can be P04 gutter, left or P05 gutter, right`, "say which side"},
		{11, Bad, "remedy", `"reqair" is none of: keep, repair, replace, make`, "did you mean repair?"},
		{12, Bad, "hours", `there is no trade "XX"`, "MW, LD, PT"},
		{13, Bad, "hours", `no hours stand with "MW lots"`, "MW 5, LD 2"},
		{14, Bad, "hours", "5 h of which trade?", "MW 5, LD 2"},
		{15, Bad, "price", "the amount is in KR, the build's money is GBP", "GBP"},
		{16, Bad, "what", "what is empty", ""},
		{18, Good, "", "", ""},
		{19, Skipped, "", "a sum", ""},
		{20, Skipped, "", "the headings once more", ""},
		{21, Bad, "number", "finding F31 is in the build already", ""},
	}
	if len(res.Rows) != len(want) {
		t.Fatalf("got %d rows, want %d", len(res.Rows), len(want))
	}
	for i, w := range want {
		r := res.Rows[i]
		if r.Line != w.line || r.Status != w.status || r.Field != w.field || !strings.Contains(r.Reason, w.reason) || !strings.Contains(r.Hint, w.hint) {
			t.Errorf("got line %d %s, %s: %s (%s)\nwant line %d %s, %s: %s (%s)",
				r.Line, r.Status, r.Field, r.Reason, r.Hint, w.line, w.status, w.field, w.reason, w.hint)
		}
	}
	if res.Good != 2 || res.Bad != 12 || res.Skipped != 2 || len(res.Changes) != 2 || res.Held {
		t.Errorf("got %d good, %d bad, %d skipped, %d changes", res.Good, res.Bad, res.Skipped, len(res.Changes))
	}
	held := Plan(shop(), Findings, s, Match(Findings, s.Heads), Options{AllOrNothing: true})
	if !held.Held || len(held.Changes) != 0 || held.Good != 2 {
		t.Errorf("all or nothing: held %t with %d changes and %d good rows", held.Held, len(held.Changes), held.Good)
	}
}

func TestPlan_RemedyWords(t *testing.T) {
	for _, c := range []struct {
		in        string
		want      build.PanelState
		how, hint string
	}{
		{"repair", build.Repair, "", ""}, {"Replace", build.Replace, "", ""}, {"fabricate", build.Make, "fabricate", ""},
		{"weld and stop", build.Repair, "weld and stop", ""}, {"replace section", build.Repair, "replace section", ""},
		{"reskin", build.Replace, "reskin", ""}, {"new", build.Replace, "new", ""}, {"leave", build.Keep, "leave", ""},
		{"", "", "", ""}, {"?", "", "", ""}, {"repalce", "", "", "did you mean replace?"},
	} {
		res := planString(t, Findings, "panel,what,size,remedy\nP02,rust,70,"+c.in+"\n", Options{})
		if c.hint != "" {
			if r := res.Rows[0]; r.Status != Bad || r.Hint != c.hint {
				t.Errorf("%q is %s with hint %q, want bad with %q", c.in, r.Status, r.Hint, c.hint)
			}
			continue
		}
		if f := wantGood(t, res, 1).Finding("F32"); f.Remedy != c.want || f.How != c.how {
			t.Errorf("%q is %q, %q; want %q, %q", c.in, f.Remedy, f.How, c.want, c.how)
		}
	}
}

func TestPlan_LeavesTheBuildAlone(t *testing.T) {
	b := shop()
	s := openFile(t, "blast-sheet.csv")
	Plan(b, Findings, s, Match(Findings, s.Heads), Options{})
	if len(b.Findings) != 1 || len(b.Parts) != 1 || b.Panel("P02").Decision != build.Keep {
		t.Errorf("the build was altered: %d findings, %d parts", len(b.Findings), len(b.Parts))
	}
}

func TestPlan_MissingColumnIsOnEveryRow(t *testing.T) {
	res := planString(t, Findings, "panel,size\nP02,70\nP04,80\n", Options{})
	for _, r := range res.Rows {
		if r.Status != Bad || r.Field != "what" || r.Reason != "the list has no column for what" {
			t.Errorf("line %d is %s: %s: %s", r.Line, r.Status, r.Field, r.Reason)
		}
	}
}

func TestPlan_FindingWays(t *testing.T) {
	for _, c := range []struct {
		name, list string
		options    Options
		want       string // panels, size, hours
	}{
		{"side in its own column", "panel,side,what,size\nfront wing,LH,rust,260x180", Options{}, "[P17] 260 × 180 mm []"},
		{"words of the other shore", "panel,what,size\nleft front fender,rust,10 x 4 in", Options{}, "[P17] 254 × 101.6 mm []"},
		{"hood and rocker", "panel,what,size\nhood skin + left outer rocker panel,rust,70", Options{}, "[P15 P31] 70 mm []"},
		{"number and name", "panel,what,size\nP02 roof skin rear,rust,70", Options{}, "[P02] 70 mm []"},
		{"short number", "panel,what,size\np2,rust,70", Options{}, "[P02] 70 mm []"},
		{"trade columns", "panel,what,size,MW,LD (h)\nP02,rust,70,\"7,5\",1:30", Options{}, "[P02] 70 mm [{MW 7.5 h} {LD 1.5 h}]"},
		{"trade by name", "panel,what,size,hours\nP02,rust,70,metalworker 2 + 30 min LD", Options{}, "[P02] 70 mm []"},
		{"trade column beside hours", "panel,what,size,hours,trade\nP02,rust,70,3,ld", Options{}, "[P02] 70 mm [{LD 3 h}]"},
		{"trade for all", "panel,what,size,hours\nP02,rust,70,3", Options{Trade: "PT"}, "[P02] 70 mm [{PT 3 h}]"},
		{"unit of the heading", "panel,what,width (cm),height (cm)\nP02,rust,26,18", Options{}, "[P02] 260 × 180 mm []"},
		{"unit for all", "panel,what,size\nP02,rust,10x4", Options{Unit: "in"}, "[P02] 254 × 101.6 mm []"},
		{"diameter and count", "panel,what,dia,count\nP02,holes,30,6", Options{}, "[P02] 6 of 30 dia mm []"},
		{"round in its own column", "panel,what,width,round\nP02,dent,380,yes", Options{}, "[P02] 380 dia mm []"},
		{"dia in the height", "panel,what,width,height\nP02,dent,380,dia", Options{}, "[P02] 380 dia mm []"},
	} {
		t.Run(c.name, func(t *testing.T) {
			res := planString(t, Findings, c.list, c.options)
			if c.name == "trade by name" {
				if res.Bad != 1 {
					t.Errorf("mixed order of names and hours must not be guessed, got %+v", res.Rows)
				}
				return
			}
			f := wantGood(t, res, 1).Finding("F32")
			if f == nil {
				t.FailNow()
			}
			if got := strings.Join([]string{sprint(f.Panels), f.Size.String(), sprint(f.Work)}, " "); got != c.want {
				t.Errorf("got %s, want %s", got, c.want)
			}
		})
	}
}

func TestPlan_DoublesWithoutNumbers(t *testing.T) {
	for _, c := range []struct {
		kind Kind
		list string
		says string
	}{
		{Findings, "panel,what,size\nP02,rust,70\nP02,rust,70\n", "finding F32 is on line 2 already, and says the same"},
		{Parts, "name,for\nwing,T08\nWing,T08\n", "part Q11 is on line 2 already, and says the same"},
		{Panels, "name,side\ndoor,L\nDoor,L\n", "panel P58 is on line 2 already, and says the same"},
		{Panels, "no,name\np01,other roof\n", "panel P01 is in the build already"},
		{Parts, "name,for\nsteel sheet,T08\n", "part Q10 is in the build already, and says the same"},
		{Hours, "who,date,task,hours\nMW,2026-10-06,T08,4\nMW,2026-10-06,T08,4\n", "line 2 says the same"},
	} {
		res := planString(t, c.kind, c.list, Options{})
		if last := res.Rows[len(res.Rows)-1]; last.Status != Bad || last.Reason != c.says {
			t.Errorf("%q: got %s, %q; want bad, %q", c.list, last.Status, last.Reason, c.says)
		}
	}
}

func TestPlan_NumbersAreNeverGivenTwice(t *testing.T) {
	res := planString(t, Findings, "no,panel,what,size,part\n,P02,a,70,strip\nF32,P02,b,70,Q11 sheet\n33,P02,c,70,\n,P02,d,70,\n", Options{})
	after := wantGood(t, res, 4)
	var got []string
	for _, f := range after.Findings[1:] {
		got = append(got, string(f.ID))
	}
	if want := "F34 F32 F33 F35"; strings.Join(got, " ") != want {
		t.Errorf("got %v, want %s", got, want)
	}
	if after.Part("Q11").Name != "sheet" || after.Part("Q12").Name != "strip" {
		t.Errorf("got parts %+v", after.Parts[1:])
	}
}

// What a bad row says is not there: the next row may say it.
func TestPlan_BadRowsLeaveNothingBehind(t *testing.T) {
	res := planString(t, Findings, "panel,what,size,part,quantity\nP04,holes,-70,Q11 strip pair,1\nP04,holes,70,Q11 strip pair,0\nP04,holes,70,Q11 strip pair,1\n", Options{})
	if res.Good != 1 || res.Rows[2].Status != Good || res.Rows[1].Field != "quantity" {
		t.Fatalf("got %+v", res.Rows)
	}
	after, err := build.ApplyAll(shop(), res.Changes)
	if err != nil || after.Part("Q11") == nil {
		t.Errorf("the part of the good row is missing: %v", err)
	}
}

func TestPlan_PartOfTwoFindings(t *testing.T) {
	const list = "panel,what,size,part\nP04,holes,70,Q11 strip pair\nP05,holes,80,Q11\nP05,dent,90,Q11 other thing\n"
	res := planString(t, Findings, list, Options{})
	if res.Good != 2 || len(res.Rows[1].Notes) == 0 || !strings.Contains(strings.Join(res.Rows[1].Notes, " "), "not added again") {
		t.Errorf("got %+v", res.Rows)
	}
	if last := res.Rows[2]; last.Status != Bad || last.Reason != "part Q11 is strip pair already" {
		t.Errorf("got %s: %s", last.Status, last.Reason)
	}
}

func TestPlan_Panels(t *testing.T) {
	const list = "No;Name;Side;Gauge mm;Decision;Task;Limewash m²\n60;rear valance;C;0,9;fabricate;T08;1,95\n;front door left;;1;;;\n;tray;;;;;0\n"
	after := wantGood(t, planString(t, Panels, list, Options{}), 3)
	p := after.Panel("P60")
	if p.Gauge != 900 || p.Decision != build.Make || p.State != build.Make || p.Task != "T08" || p.Area() != 1_950_000 {
		t.Errorf("P60 is %+v", p)
	}
	if p = after.Panel("P61"); p == nil || p.Name != "front door" || p.Side != "L" || p.Decision != build.Keep {
		t.Errorf("P61 is %+v", p)
	}
}

func TestPlan_Parts(t *testing.T) {
	const list = "Ref\tItem\tQty\tEach\tLead\tNeeded for\tB/D\tBecause\n" +
		"Q20\tscrew set\t2 off\t£1,150.00\t3 weeks\tassembly\tD\tF31\n\tcable\t\t62.50\t9 d\tT08\tB\t\n" +
		"\tbolt\t1.5\t1\t1\tT08\t\t\n\tnut\t1\t1\t2 moons\tT08\t\t\n\trod\t1\t1\t2\tT80\t\t\n\tpin\t1\t-4\t2\tT08\t\t\n"
	res := planString(t, Parts, list, Options{})
	for i, c := range []struct{ field, says string }{{}, {}, {"quantity", "not a whole number"}, {"lead", `"moons" is not known`},
		{"task", `there is no task "T80"`}, {"price", "price is below"}} {
		r := res.Rows[i]
		if r.Field != c.field || !strings.Contains(r.Reason, c.says) || (c.field == "") != (r.Status == Good) {
			t.Errorf("line %d is %s: %s: %s; want %s: %s", r.Line, r.Status, r.Field, r.Reason, c.field, c.says)
		}
	}
	after, err := build.ApplyAll(shop(), res.Changes)
	if err != nil {
		t.Fatal(err)
	}
	p := after.Part("Q20")
	if p.Quantity != 2 || p.Price != 115000 || p.Lead != 15 || p.Task != "T29" || !p.Donated || len(p.Because) != 1 {
		t.Errorf("Q20 is %+v", p)
	}
	if p = after.Part("Q21"); p.Name != "cable" || p.Quantity != 1 || p.Price != 6250 || p.Lead != 9 {
		t.Errorf("Q21 is %+v", p)
	}
}

func TestPlan_Hours(t *testing.T) {
	const list = "Who,Date,Task,From,To,Hours,Note\n" +
		"MW,6/10/2026,T08,8:00,16:30,8,\n" + // a break of half an hour
		"Mair,6 Oct 2026,metal A floors sills frame,,,7h30,left sill\n" +
		"LD,2026-10-06,T08,08:00,07:30,,\n" +
		"LD,2026-10-06,T08,8:00,10:00,3,\n" +
		"LD,2026-10-06,T08,,,,\n" +
		"ZZ,2026-10-06,T08,,,3,\n" +
		"LD,2062-10-06,T08,,,3,\n" +
		"LD,2026-10-06,T08,,,30,\n" +
		"LD,2026-10-06,,,,3,\n" +
		"PT,7/10/2026,T08,2026-10-07 09:00,2026-10-07 12:15,,\n" +
		"PT,2026-10-07,T08,,,-2,\n"
	res := planString(t, Hours, list, Options{})
	for i, c := range []struct{ field, says string }{{}, {}, {"stop", "the stop lies before the start"}, {"hours", "do not fit between"},
		{"hours", "neither hours nor"}, {"person", `there is no person "ZZ"`}, {"date", "far from the day"}, {"hours", "hours is above 24 h"},
		{"task", "the task is empty"}, {}, {"hours", "hours is below"}} {
		r := res.Rows[i]
		if r.Field != c.field || !strings.Contains(r.Reason, c.says) || (c.field == "") != (r.Status == Good) {
			t.Errorf("line %d is %s: %s: %s; want %s: %s", r.Line, r.Status, r.Field, r.Reason, c.field, c.says)
		}
	}
	after, err := build.ApplyAll(shop(), res.Changes)
	if err != nil {
		t.Fatal(err)
	}
	day := unit.Day(2026, 10, 6)
	h := after.Hours
	if h[0].Start != day.At(8, 0) || h[0].Stop != day.At(16, 30) || h[0].Worked != 8*unit.Hour {
		t.Errorf("the first line is %+v", h[0])
	}
	if h[1].Start != day.At(16, 0) || h[1].Worked != 450 || h[1].Note != "left sill" {
		t.Errorf("the second line begins %s, want where the first ended: %+v", h[1].Start, h[1])
	}
	if h[2].Worked != 195 || len(res.Rows[9].Notes) != 1 {
		t.Errorf("the last line is %+v with notes %v", h[2], res.Rows[9].Notes)
	}
	again := Plan(after, Hours, openString(t, list), Match(Hours, openString(t, list).Heads), Options{})
	if again.Good != 0 || again.Rows[0].Reason != "these hours are in the build already" {
		t.Errorf("the same list read again gives %d good rows and says %q", again.Good, again.Rows[0].Reason)
	}
}

func TestPlan_HoursByPerson(t *testing.T) {
	res := planString(t, Hours, "Date,Task,MW,LD,REF\n6/10/2026,T08,7.5,2,a\n7/10/2026,T08,,4,b\n", Options{MonthFirst: true})
	after := wantGood(t, res, 2)
	if len(after.Hours) != 3 || after.Hours[0].Person != "MW" || after.Hours[0].Start.Date() != unit.Day(2026, 6, 10) {
		t.Errorf("got %+v", after.Hours)
	}
	if len(res.Mapping.Unused) != 1 || res.Mapping.Unused[0] != "REF" {
		t.Errorf("unused %q, want REF, which is nobody's initials", res.Mapping.Unused)
	}
	both := wantGood(t, planString(t, Hours, "day,task,hours\n2026-10-06,T08,\"MW 5, LD 2\"\n", Options{}), 1)
	if len(both.Hours) != 2 || both.Hours[1].Worked != 2*unit.Hour {
		t.Errorf("got %+v", both.Hours)
	}
}
