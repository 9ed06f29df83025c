package loom

import (
	"fmt"
	"math"
	"strings"

	"fettle/figure"
	"fettle/internal/web"
	"fettle/internal/web/ui/mark"
	"fettle/internal/web/ui/table"
	stage "fettle/stage/loom"
)

func (p place) chargeRoutes() []web.Route {
	return []web.Route{
		{Pattern: "GET /b/{build}/loom/charging", Who: web.Guest, Handle: p.charging},
		{Pattern: "GET /b/{build}/loom/charging/change", Who: web.Guest, Handle: p.change},
	}
}

// chargePage is what is drawn against what is made and stored.
type chargePage struct {
	sheet
	Table table.Table
	Tells []told
	Lacks []chargeLack
}

// told is a figure with its verdict, and what helps where it falls short.
type told struct {
	Figure figure.Figure
	Mark   mark.Meaning
	Word   string
	Remedy string
	More   []figure.Figure // numbers of the remedy
}

// chargeLack is what nobody has said, and where it is entered.
type chargeLack struct{ Says, Act, Href string }

func (p place) charging(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	page := chargePage{sheet: s, Table: s.drawnTable(), Lacks: s.lacks()}
	page.Tells = append(page.Tells, s.balance()...)
	page.Tells = append(page.Tells, s.night()...)
	for _, f := range s.Loom.Reserve {
		page.Tells = append(page.Tells, s.reserve(f))
	}
	switch r.As() {
	case "csv":
		return r.CSV(r.Build()+"-charging.csv", page.Table.Records())
	case "json":
		return r.JSON(map[string]any{"charge": s.Loom.Charge, "night": s.Loom.Night, "reserve": s.Loom.Reserve})
	}
	return p.desk.Page(r, web.Sheet{Place: "loom", Shown: "charging"}, showCharging(page))
}

// lacks names what must be entered before charging can be told.
func (s sheet) lacks() []chargeLack {
	var list []chargeLack
	at := s.At() + "/parts/"
	if len(s.Build.Loom.Alternators) == 0 {
		list = append(list, chargeLack{"No alternator or dynamo is entered: whether it keeps up is not known.", "Enter what charges", at + "alternator/new"})
	}
	if len(s.Build.Loom.Batteries) == 0 {
		list = append(list, chargeLack{"No battery is entered: how long it lasts is not known.", "Enter a battery", at + "battery/new"})
	}
	for _, x := range s.Build.Loom.Batteries {
		if x.Drain == 0 {
			list = append(list, chargeLack{"What " + x.Name + " loses with everything off is not metered: a meter in the earth lead, doors shut, after half an hour.", "Enter the drain", at + "battery/" + x.Name})
		}
	}
	for _, x := range s.Build.Loom.Alternators {
		if x.Idle == 0 {
			list = append(list, chargeLack{"What " + x.Name + " gives at idle is taken as 0.7 of its rating: its own sheet is better, and a dynamo gives next to nothing.", "Enter its output at idle", at + "alternator/" + x.Name})
		}
	}
	return list
}

// chargeLoad is one load of the balance.
type chargeLoad struct {
	ID, Name, On      string
	Amps, Share, Mean float64
	Night             float64
}

// charged are all that the balance counts, circuits of the list first.
func (s sheet) charged() []chargeLoad {
	var list []chargeLoad
	for _, x := range s.Loom.Loads() {
		list = append(list, newLoad(x.ID, x.Name, x.Amps, x.Share, x.Night))
	}
	return list
}

func newLoad(id, name string, amps, share float64, night bool) chargeLoad {
	d := chargeLoad{ID: id, Name: name, Amps: amps, Share: share, Mean: amps * share, On: "now and then"}
	switch share {
	case 0:
		d.On = "seconds"
	case 1:
		d.On = "for long"
	}
	if night {
		d.Night = amps
	}
	return d
}

// drawnTable lists them, for long, now and then, and for seconds.
func (s sheet) drawnTable() table.Table {
	t := table.Table{ID: "drawn", Caption: "What is drawn", Self: s.At() + "/charging", Empty: "No circuit is on the list yet.", Columns: []table.Column{
		{Head: "Circuit"}, {Head: "What", Wide: true}, {Head: "Takes", Unit: "A", Number: true}, {Head: "On", Unit: "% of the time", Number: true}, {Head: "On the mean", Unit: "A", Number: true}, {Head: "Wet night at idle", Unit: "A", Number: true}}}
	all := s.charged()
	for _, on := range []string{"for long", "now and then", "seconds"} {
		for _, d := range all {
			if d.On == on {
				t.Rows = append(t.Rows, table.Row{Group: "On " + on, Cells: plainCells(d.ID, d.Name, amps(d.Amps), fmt.Sprintf("%.0f", 100*d.Share), amps(d.Mean), nightText(d.Night))})
			}
		}
	}
	if c := s.Loom.Charge; c != nil && len(t.Rows) > 0 {
		t.Foot = plainCells("", "Together, of what is never on together the most", "", "", amps(c.LoadA), "")
	}
	return t
}

func nightText(v float64) string {
	if v == 0 {
		return ""
	}
	return amps(v)
}

// balance is whether what charges keeps up with what is on.
func (s sheet) balance() []told {
	c := s.Loom.Charge
	if c == nil {
		return nil
	}
	if c.Enough {
		return []told{{Figure: c.Working, Mark: mark.Safe, Word: "it keeps up"}}
	}
	share := s.Loom.Rules.ChargeShare
	least := math.Ceil(c.LoadA / share)
	return []told{{Figure: c.Working, Mark: mark.Slipping, Word: fmt.Sprintf("%.1f A short", c.LoadA-c.MayA),
		Remedy: "Take a larger one, whose bracket, belt and feed wire bear it, or take load off: lamps of less watts, heaters by turns.",
		More: []figure.Figure{{Name: "smallest rating that does", Text: fmt.Sprintf("%.0f A", least), Formula: "mean load ÷ the share of its rating that it gives for long", With: fmt.Sprintf("%.1f A ÷ %g = %.1f A", c.LoadA, share, c.LoadA/share),
			Inputs: []figure.Input{{Name: "share", Value: fmt.Sprint(share), Source: figure.TradeDefault}}, Caution: "The feed from it to the battery and its fuse must bear the larger current."}}}}
}

// night is the wet night at idle.
func (s sheet) night() []told {
	n := s.Loom.Night
	if n == nil {
		return nil
	}
	if strings.Contains(n.Text, "keeps") {
		return []told{{Figure: *n, Mark: mark.Safe, Word: "no load need go"}}
	}
	return []told{{Figure: *n, Mark: mark.Tight, Word: "it drains while it stands",
		Remedy: "It recovers on the road. Where the vehicle stands much in traffic: lamps of less watts, blower a step down, a smaller pulley within the speed its maker allows, or one that gives more at idle."}}
}

// reserve is a figure of the battery with what it means.
func (s sheet) reserve(f figure.Figure) told {
	t := told{Figure: f, Mark: mark.Safe}
	name, parked := strings.CutPrefix(f.Name, "parked on ")
	if !parked {
		return t
	}
	switch {
	case strings.Contains(f.Formula, "suspect"):
		t.Mark, t.Word = mark.Slipping, "something stays on"
		t.Remedy = "Meter in the earth lead of " + name + ", everything off: pull fuses one by one until it falls, then look along that circuit. Never crank or switch on a load through the meter."
	case strings.Contains(f.Formula, "more than"):
		t.Mark, t.Word = mark.Tight, "more than a classic should draw"
		t.Remedy = "Clock and memory of a radio on an isolator, or a maintainer of the battery's own kind in the garage."
	default:
		t.Word = "as it should be"
	}
	return t
}

// changePage is what another voltage or earth asks of each part.
type changePage struct {
	sheet
	Six            bool // it is a 6 V loom, or is read as one
	Volts, Earthed table.Table
}

// change lists what 12 V, and the other earth, ask for, item by item.
func (p place) change(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	list := s.Loom.ToTwelve(s.Build, r.Asked().Raw("from") == "6")
	page := changePage{sheet: s, Six: list != nil, Volts: s.voltsTable(list), Earthed: s.earthTable()}
	switch r.As() {
	case "csv":
		return r.CSV(r.Build()+"-12-volts.csv", page.Volts.Records())
	case "json":
		return r.JSON(map[string]any{"to_12_v": page.Volts.Records(), "other_earth": page.Earthed.Records()})
	}
	return p.desk.Page(r, web.Sheet{Place: "loom", Shown: "12 V and the other earth"}, showChange(page))
}

// verdicts in words, with the mark of each.
var verdicts = map[string]struct {
	Mark mark.Meaning
	Word string
}{"stays": {mark.Safe, "stays"}, "change": {mark.Slipping, "change"}, "resistor": {mark.Tight, "resistor"}, "look": {mark.Tight, "look"}}

func (s sheet) voltsTable(list []stage.Advice) table.Table {
	self := s.At() + "/charging/change"
	t := table.Table{ID: "volts", Caption: "From 6 V to 12 V, item by item", Self: self, Empty: "It is not a 6 V loom.", Columns: []table.Column{{Head: "Part", Wide: true}, {Head: "So"}, {Head: "Why", Wide: true}}}
	for _, a := range list {
		v := verdicts[a.Verdict]
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Text(a.Part), table.Show(v.Word, mark.Show(v.Mark, v.Word)), table.Text(a.Says)}})
	}
	return t
}

// earthTable lists what minds which side of the battery is earthed.
func (s sheet) earthTable() table.Table {
	t := table.Table{ID: "earthed", Caption: "What minds which side is earthed", Columns: []table.Column{{Head: "Part", Wide: true}, {Head: "So", Wide: true}}, Empty: "Nothing that minds is entered; look at ammeter, coil, radio, clock and tachometer all the same."}
	add := func(name, says string) { t.Rows = append(t.Rows, table.Row{Cells: plainCells(name, says)}) }
	l := &s.Build.Loom
	for _, x := range l.Batteries {
		add(x.Name, "its leads change places; posts differ in size, so lugs or battery change")
	}
	for _, x := range l.Alternators {
		add(x.Name, "an alternator has one polarity, that of its diodes: change it; a dynamo is flashed anew with its regulator off")
	}
	for _, x := range l.Consumers {
		switch {
		case x.Polarised:
			add(x.Name, "it minds: turn its two wires, its case insulated from the body where it is one of them")
		case x.Behaviour == "power":
			add(x.Name, "LEDs and electronics mind: turn its wires, or take one made for this earth")
		}
	}
	for _, x := range l.Relays {
		if x.Diode {
			add(x.Name, "a diode lies across its coil: plus stays at 86, or the diode burns and takes the switch with it")
		}
	}
	return t
}
