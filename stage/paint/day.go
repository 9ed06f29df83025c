package paint

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fettle/build"
	"fettle/engine/coat"
	"fettle/fault"
	"fettle/unit"
)

// Habits of a spray day where nobody says otherwise (trade defaults).
const (
	GunRate    = 1.0  // m² a minute that a gun covers, one coat
	MixMinutes = 10.0 // to mix a batch on the scale and fill the gun
	GunClean   = 10.0 // min to wash the gun between two products
)

// Go is one product of a spray day over sets of panels, in their order. A set
// is a zone by its ID, or panels by theirs; without any, the product's zones.
type Go struct {
	Product build.ProductID
	Sets    []string
	Turn    float64 // min of masking, unmasking, turning before it
}

// DayAsk is a spray day as the painter means to work it.
type DayAsk struct {
	Opens, Closes unit.Moment
	Metal         float64 // °C while spraying and drying
	Cold          float64 // °C of the metal when the booth is opened
	Heat          float64 // °C of the air while it warms; 0 takes the record's
	Warm          float64 // min of warming up, where Timed
	Timed         bool
	Clean         float64 // min of cleaning, wiping and tacking off
	Stands        int     // wet panels that can stand at once; 0 for no limit
	Goes          []Go
}

// Sprayed is a set of the day with what lies in it.
type Sprayed struct {
	Name   string
	Zone   build.ZoneID
	Panels []build.PanelID
	Area   unit.Area
}

// SprayDay is a day minute by minute, with what it was made from.
type SprayDay struct {
	Sheet coat.DaySheet
	Booth build.Bay
	Sets  []Sprayed
	Warm  float64 // min
	By    string  // where Warm comes from
	Done  unit.Moment
}

// PlanDay lays out a spray day. Faults: NotFound for an unknown product, zone
// or panel; Invalid for what cannot be, such as metal too cold for the sheet.
func PlanDay(b *build.Build, a DayAsk) (SprayDay, error) {
	d := dayMaker{b: b, ask: a}
	if len(a.Goes) == 0 {
		return SprayDay{}, fault.New(fault.Invalid, "nothing is to be sprayed").At("product").WithHint("pick at least one product")
	}
	for _, g := range a.Goes {
		if err := d.add(g); err != nil {
			return SprayDay{}, err
		}
	}
	d.out.Booth = Booth(b, *b.Product(a.Goes[0].Product))
	if err := d.warm(); err != nil {
		return SprayDay{}, err
	}
	d.day.Opens, d.day.Closes, d.day.Metal, d.day.Clean, d.day.Stands = a.Opens, a.Closes, a.Metal, a.Clean, a.Stands
	d.day.Warm, d.day.Clearance = d.out.Warm, float64(d.out.Booth.Clearance)
	d.tape()
	var err error
	d.out.Sheet, err = d.day.Sheet()
	d.out.Done = d.out.Sheet.Finish
	return d.out, err
}

// dayMaker turns a build's facts into the engine's day.
type dayMaker struct {
	b   *build.Build
	ask DayAsk
	day coat.Day
	out SprayDay
}

// add puts a product on the day, and the sets that are new.
func (d *dayMaker) add(g Go) error {
	p := d.b.Product(g.Product)
	if p == nil {
		return fault.New(fault.NotFound, "there is no paint %q", g.Product).At("product")
	}
	run := coat.Run{Product: sheetOf(*p), Turn: g.Turn}
	if len(d.day.Runs) > 0 {
		run.Turn += GunClean
	}
	words := g.Sets
	if len(words) == 0 {
		for _, z := range p.Zones {
			words = append(words, string(z))
		}
	}
	for _, word := range words {
		sets, err := d.sets(*p, word)
		if err != nil {
			return err
		}
		for _, s := range sets {
			d.know(*p, s)
			run.Sets = append(run.Sets, s.Name)
		}
	}
	if len(run.Sets) == 0 {
		return fault.New(fault.Invalid, "%s: no panel has a zone of it", p.Name).At("sets").WithHint("name a zone of the product, or panels that have one")
	}
	d.day.Runs = append(d.day.Runs, run)
	return nil
}

// sets reads one set: a zone, or panels, one set for each zone of theirs that
// the product covers.
func (d *dayMaker) sets(p build.Product, word string) ([]Sprayed, error) {
	if zone := d.b.Zone(build.ZoneID(word)); zone != nil {
		if !slices.Contains(p.Zones, zone.ID) {
			return nil, fault.New(fault.Invalid, "%s does not go on %s", p.Name, zone.Name).At("sets").WithHint("name a zone of the product")
		}
		if s := d.set(zone.Name, *zone, d.b.PanelsIn(zone.ID)); s.Area > 0 {
			return []Sprayed{s}, nil
		}
		return nil, nil
	}
	panels, err := panelsNamed(d.b, word)
	if err != nil {
		return nil, err
	}
	var list []Sprayed
	for _, id := range p.Zones {
		var has []build.PanelID
		for _, panel := range panels {
			if d.b.Panel(panel).Has(id) {
				has = append(has, panel)
			}
		}
		if len(has) > 0 {
			zone := d.b.Zone(id)
			list = append(list, d.set(fmt.Sprintf("%s of %s", zone.Name, idList(panels)), *zone, has))
		}
	}
	return list, nil
}

func (d *dayMaker) set(name string, zone build.Zone, panels []build.PanelID) Sprayed {
	s := Sprayed{Name: name, Zone: zone.ID, Panels: panels}
	if len(panels) == 0 {
		s.Area = zone.Extra
	}
	for _, id := range panels {
		for _, a := range d.b.Panel(id).Areas {
			if a.Zone == zone.ID {
				s.Area += a.Area
			}
		}
	}
	return s
}

// know adds a set to the day where it is new, with the window that the first
// product on it must keep.
func (d *dayMaker) know(p build.Product, s Sprayed) {
	if slices.ContainsFunc(d.out.Sets, func(o Sprayed) bool { return o.Name == s.Name }) {
		return
	}
	set := coat.Set{Name: s.Name, Area: s.Area.M2()}
	for _, id := range s.Panels {
		if d.b.Panel(id).Face() == s.Zone {
			set.Panels++
		}
	}
	for _, r := range Clocks(d.b) {
		if r.Zone != s.Zone || r.Next.Name == "" || !slices.Contains(s.Panels, r.Panel) || !r.waitsFor(d.b, p.ID) {
			continue
		}
		if r.Next.To != 0 && (set.Under.To == 0 || r.Next.To < set.Under.To) {
			set.Under.Name, set.Under.To, set.Missed = r.Next.Name, r.Next.To, r.Missed
		}
		if r.Next.From > set.Under.From {
			set.Under.Name, set.Under.From = r.Next.Name, r.Next.From
		}
	}
	d.day.Sets, d.out.Sets = append(d.day.Sets, set), append(d.out.Sets, s)
}

// tape marks the sets that the mask of a later product touches: those sprayed
// before it on the same day and not in its own run.
func (d *dayMaker) tape() {
	var before []string
	for i := range d.day.Runs {
		r := &d.day.Runs[i]
		if d.ask.Goes[i].Turn > 0 {
			for _, name := range before {
				if !slices.Contains(r.Sets, name) {
					r.Taped = append(r.Taped, name)
				}
			}
		}
		for _, name := range r.Sets {
			if !slices.Contains(before, name) {
				before = append(before, name)
			}
		}
	}
}

// warm takes the minutes of warming up from the booth's own record, or as said.
func (d *dayMaker) warm() error {
	d.out.Warm, d.out.By = d.ask.Warm, "as typed"
	if d.ask.Timed {
		return nil
	}
	w, err := Warming(d.b, d.out.Booth.ID)
	if err != nil {
		return err
	}
	air := d.ask.Heat
	if air == 0 {
		air = lastAir(d.b, d.out.Booth.ID)
	}
	reach, err := w.Reach(d.ask.Cold, d.ask.Metal, max(air, d.ask.Cold))
	if err != nil {
		return err
	}
	if !reach.Known {
		return fault.New(fault.Invalid, "%s", reach.Words).At("warm").WithHint("type the minutes it takes to warm the metal")
	}
	d.out.Warm, d.out.By = math.Ceil(reach.Minutes), reach.Words
	return nil
}

// sheetOf turns a product's sheet into what the engine needs for a day.
func sheetOf(p build.Product) coat.Product {
	dry := Drying(p)
	dry.Tape = math.Max(dry.DustFree, float64(p.Times.RecoatFrom)) // no sheet here says when it bears tape
	return coat.Product{
		Name: p.Name, TwoPack: TwoPack(p), Coats: p.Coats, Flash: float64(flashOf(p)), Rate: GunRate, Mix: MixMinutes,
		Stand: float64(p.Times.Induction), Pot: float64(p.PotLife), Missed: p.Missed.Words, Drying: dry,
		Next: Recoat(p),
	}
}

// flashOf is the minutes between coats: the sheet's flash, else its recoat.
func flashOf(p build.Product) int {
	if p.Flash == 0 {
		return p.Times.RecoatFrom
	}
	return p.Flash
}

// panelsNamed reads panels such as "P11 P12".
func panelsNamed(b *build.Build, text string) ([]build.PanelID, error) {
	var list []build.PanelID
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == ',' || r == ';' || r == '\n' || r == '\r' }) {
		id := build.PanelID(strings.ToUpper(word))
		if b.Panel(id) == nil {
			return nil, fault.New(fault.NotFound, "there is no panel and no zone %q", word).At("sets").WithHint(fmt.Sprintf("name a zone such as %s, or panels such as %s", exampleZone(b), examplePanel(b)))
		}
		if !slices.Contains(list, id) {
			list = append(list, id)
		}
	}
	return list, nil
}

func exampleZone(b *build.Build) string {
	if len(b.Zones) == 0 {
		return "body"
	}
	return string(b.Zones[0].ID)
}

func examplePanel(b *build.Build) string {
	if len(b.Panels) == 0 {
		return "P01"
	}
	return string(b.Panels[0].ID)
}

func idList(panels []build.PanelID) string {
	var words []string
	for _, id := range panels {
		words = append(words, string(id))
	}
	return strings.Join(words, " ")
}
