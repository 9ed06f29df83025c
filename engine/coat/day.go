package coat

import (
	"fmt"

	"fettle/fault"
	"fettle/unit"
)

// Product is what a spray day needs to know of a product: minutes at 20 °C by
// the maker's sheet.
type Product struct {
	Name     string
	TwoPack  bool
	Coats    int
	Flash    float64 // min between coats
	Wet      float64 // µm laid wet a coat, beside WetSheet; both 0 where only temperature counts
	WetSheet float64 // µm wet that the sheet's flash means
	Rate     float64 // m² a minute, one coat
	Mix      float64 // min to mix a batch and fill the gun
	Stand    float64 // min a batch must stand after mixing, 0 where the sheet asks for none
	Pot      float64 // min from mixing, 0 where a mix keeps
	Next     Recoat  // when another product may go on; its Doubling holds for flash too
	Missed   string  // what a missed window costs, such as "scuff and a new base coat"
	Drying   Drying
}

// Set is panels that are sprayed in one go.
type Set struct {
	Name   string
	Panels int     // wet panels that must stand or hang
	Area   float64 // m²
	Under  Clock   // the window of what was laid on it before; zero where nothing waits
	Missed string  // what missing that window costs
}

// Run is a product over sets, coat by coat in turn, so that one set flashes
// while another is sprayed.
type Run struct {
	Product Product
	Sets    []string
	Turn    float64  // min of masking, unmasking, turning or hanging before it
	Taped   []string // sets that the tape touches: their film must bear it
}

// Day is a day in the booth as the painter means to work it.
type Day struct {
	Opens, Closes unit.Moment // booth and painter at hand
	Metal         float64     // °C while spraying and drying
	Warm          float64     // min until the metal is warm, before anything else
	Clean         float64     // min of cleaning, wiping and tacking off after it
	Clearance     float64     // min after the last spraying until the booth may be entered
	Stands        int         // wet panels that can stand at once; 0 for no limit
	Sets          []Set
	Runs          []Run
}

// Act is what a minute of the day is for.
type Act uint8

// The acts.
const (
	WarmsUp Act = iota
	Cleans
	Turns
	Mixes
	Sprays
	Waits
	Clears
	Dries
)

// String names the act.
func (a Act) String() string {
	return [...]string{"warm up", "clean", "mask and turn", "mix", "spray", "wait", "clear the booth", "shut until dust free"}[a&7]
}

// Line is a line of the spray-day sheet.
type Line struct {
	Act      Act
	Set      string
	Product  string
	Coat     int // from 1, of sprays
	From, To unit.Moment
	Why      string  // what is waited for
	Within   Clock   // the window that a first coat must keep, zero without one
	Starts   []Clock // what begins to run when it ends
}

// Trouble is something that cannot be kept as the day stands.
type Trouble struct {
	Set, Product string
	Minutes      int // by how much; 0 where it is no matter of time
	Words        string
}

// DaySheet is the day minute by minute.
type DaySheet struct {
	Lines    []Line
	Clocks   []Clock // what still runs or stands open when the day is over
	Troubles []Trouble
	Finish   unit.Moment // booth cleared and the last film dust free
	Spare    int         // minutes left of the day, negative where it does not fit
	StartBy  unit.Moment // the latest it may begin and lose nothing; before it opens where the day is too short
	Cautions []string
}

// Fits reports whether the day holds all of it and nothing is in trouble.
func (s DaySheet) Fits() bool { return s.Spare >= 0 && len(s.Troubles) == 0 }

// Say tells in a sentence how the day goes.
func (s DaySheet) Say() string {
	text := fmt.Sprintf("done %s, %s to spare", s.Finish.Clock(), span(s.Spare))
	if s.Spare < 0 {
		text = fmt.Sprintf("done %s, %s too long for the day", s.Finish.Clock(), span(-s.Spare))
	}
	for _, t := range s.Troubles {
		text += "; " + t.Words
	}
	return text
}

// Sheet lays the day out forwards in the order given: warm up, clean, then run
// by run; whatever must wait waits, and what a wait leaves free is used for
// mixing. It does not look for a better order: give another and compare. What
// breaks a window, a pot life or the room for wet panels is a Trouble beside the
// whole list. CheckDay has passed every sheet returned.
func (d Day) Sheet() (DaySheet, error) {
	if err := d.validate(); err != nil {
		return DaySheet{}, err
	}
	p := newPainter(d)
	p.line(Line{Act: WarmsUp, Why: fmt.Sprintf("metal to %g °C", d.Metal)}, d.Warm)
	p.line(Line{Act: Cleans}, d.Clean)
	for _, r := range d.Runs {
		if err := p.run(r); err != nil {
			return DaySheet{}, fault.Wrap(fault.Invalid, err, r.Product.Name)
		}
	}
	s := p.close()
	if err := CheckDay(d, s); err != nil {
		return DaySheet{}, fault.Wrap(fault.Internal, err, "check the spray-day sheet")
	}
	return s, nil
}

func (d Day) validate() error {
	for _, err := range []error{
		within("metal", d.Metal, ScaleFrom, ScaleTo, "°C", "times are known from 16 to 30 °C and two-pack needs 16: warm the metal first and give what it will be"),
		within("warm-up", d.Warm, 0, 24*60, "min", "take it from the booth's own record"),
		within("cleaning", d.Clean, 0, 24*60, "min", "give the minutes"),
		above("clearance time", d.Clearance, 24*60, "min", "measure it with smoke and post it: nobody enters before"),
	} {
		if err != nil {
			return err
		}
	}
	if d.Closes <= d.Opens {
		return fault.New(fault.Invalid, "it closes at %s, no later than it opens", d.Closes).At("day").WithHint("give the hours the booth is yours")
	}
	if d.Stands < 0 || len(d.Runs) == 0 {
		return fault.New(fault.Invalid, "%d runs, %d stands", len(d.Runs), d.Stands).At("day").WithHint("give at least one product to spray; 0 stands is no limit")
	}
	known := map[string]bool{}
	for _, s := range d.Sets {
		if s.Name == "" || known[s.Name] || s.Panels < 0 {
			return fault.New(fault.Invalid, "a set without a name of its own, or fewer panels than none").At("set " + s.Name).WithHint("name each set once")
		}
		known[s.Name] = true
		if err := above("set "+s.Name+", area", s.Area, mostArea, "m²", "give the area of its panels"); err != nil {
			return err
		}
	}
	for i, r := range d.Runs {
		if err := r.validate(known); err != nil {
			return fault.Wrap(fault.Invalid, err, fmt.Sprintf("run %d, %s", i+1, r.Product.Name))
		}
	}
	return nil
}

func (r Run) validate(known map[string]bool) error {
	p := r.Product
	for _, err := range []error{
		within("turn", r.Turn, 0, 24*60, "min", "give the minutes of masking and turning"),
		above("coats", float64(p.Coats), 20, "coats", "give the coats of the sheet"),
		within("rate", p.Rate, 0.01, 20, "m²/min", "a gun covers about 0.5 to 1.5 m² a minute"),
		within("mixing", p.Mix, 0, 24*60, "min", "give the minutes"),
		within("standing", p.Stand, 0, 24*60, "min", "give the minutes the mix must stand, 0 for none"),
		within("pot life", p.Pot, 0, mostTime, "min", "take it from the sheet at 20 °C, 0 where a mix keeps"),
	} {
		if err != nil {
			return err
		}
	}
	if len(r.Sets) == 0 {
		return fault.New(fault.Invalid, "nothing to spray").At("sets").WithHint("name the sets it goes on")
	}
	seen := map[string]bool{}
	for _, name := range r.Sets {
		if !known[name] || seen[name] {
			return fault.New(fault.Invalid, "%q is no set of the day, or is named twice", name).At("sets").WithHint("name sets of the day, each once")
		}
		seen[name] = true
	}
	for _, name := range r.Taped {
		if !known[name] || seen[name] {
			return fault.New(fault.Invalid, "%q is no set of the day, or is sprayed in this run", name).At("taped").WithHint("name the sets that tape goes on")
		}
	}
	return nil
}
