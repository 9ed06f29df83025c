package paint

import (
	"fmt"
	"math"
	"net/url"
	"strconv"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/turn"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/table"
	stage "fettle/stage/paint"
	"fettle/unit"
)

func (p place) dayRoutes() []web.Route {
	return []web.Route{{Pattern: "GET /b/{build}/paint/day", Who: web.Guest, Handle: p.day}}
}

// dayRows is how many products a day's form has room for.
const dayRows = 6

// dayPage is a spray day as its address asks for it.
type dayPage struct {
	sheet
	Form  *web.Form
	Day   unit.Date
	Ask   stage.DayAsk
	Made  *stage.SprayDay
	Lines []dayLine
	List  table.Table
	Clash []string
	Here  string // this page's own address
}

// dayLine is a line of the sheet as it is printed.
type dayLine struct {
	From, To string
	Minutes  int
	Act      string
	What     string
	Note     string
	Spray    bool
	Code     string // what is typed back once it is done
}

func (p place) day(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	d := dayPage{sheet: s, Form: r.Asked(), Here: s.Base + "/paint/day?" + r.HTTP().URL.RawQuery}
	if r.Query("fill") != "" {
		return r.SeeOther(s.Base + "/paint/day?" + s.filled(r.Query("fill")).Encode())
	}
	d.read()
	asked := len(d.Ask.Goes) > 0
	if asked && len(d.Form.Errors) == 0 {
		if err := d.make(); err != nil {
			blame(d.Form, err, dayFields)
		}
	}
	shown := web.Sheet{Place: "paint", Shown: "spray day " + d.Day.Long()}
	switch {
	case len(d.Form.Errors) > 0 && r.As() == "json":
		return d.Form.Err()
	case len(d.Form.Errors) > 0:
		return r.Invalid(shown, showDay(d))
	case asked && r.As() == "csv":
		return r.CSV("spray-day-"+d.Day.String()+".csv", d.List.Records())
	case asked && r.As() == "json":
		return r.JSON(d.plain())
	case asked && r.As() == "paper":
		return r.Page(shown, dayPaper(d))
	}
	return p.desk.Page(r, shown, showDay(d))
}

// dayFields are the same of a day; what belongs to none is said of its paint.
var dayFields = map[string]string{"metal": "metal", "aim": "metal", "air": "heat", "warm-up": "warm", "warm": "warm", "cleaning": "clean", "sets": "sets-1",
	"day": "closes", "": "product-1"}

// filled is the address of a whole stack over the faces, in the order it goes
// on: from a use to the clear.
func (s sheet) filled(from string) url.Values {
	v := url.Values{}
	uses, on, row := build.Uses(), false, 1
	for _, use := range uses {
		if on = on || string(use) == from; !on {
			continue
		}
		for n, p := range s.ofUse(use) {
			if row > dayRows {
				return v
			}
			k := strconv.Itoa(row)
			v.Set("product-"+k, string(p.ID))
			v.Set("sets-"+k, strings.Join(s.faceZones(p), " / "))
			if n > 0 || row > 1 {
				v.Set("turn-"+k, "20")
			}
			row++
		}
	}
	return v
}

// ofUse lists the paints of a use that go on faces.
func (s sheet) ofUse(use build.Use) []build.Product {
	var list []build.Product
	for _, p := range s.Build.Products {
		if p.Use == use && len(s.faceZones(p)) > 0 {
			list = append(list, p)
		}
	}
	return list
}

// faceZones are the zones of a paint that are the face of some panel and get
// clear, but for those that have it already.
func (s sheet) faceZones(p build.Product) []string {
	var list []string
	for _, id := range p.Zones {
		clear, open := false, false
		for _, q := range stage.Stack(s.Build, id) {
			clear = clear || q.Use == build.Clear
		}
		for _, panel := range s.Build.Panels {
			open = open || panel.Face() == id && !s.cleared(panel.ID, id)
		}
		if clear && open {
			list = append(list, string(id))
		}
	}
	return list
}

// cleared tells whether a zone of a panel has its clear.
func (s sheet) cleared(panel build.PanelID, zone build.ZoneID) bool {
	coats := s.Build.CoatsOn(panel, zone)
	if len(coats) == 0 {
		return false
	}
	p := s.Build.Product(coats[len(coats)-1].Product)
	return p != nil && p.Use == build.Clear
}

// read turns the address into what is asked; fields left empty are the habit.
func (d *dayPage) read() {
	f := d.Form
	d.Day = d.Today + 1
	if day := f.Date("date"); day != 0 {
		if d.Day = day; day < d.Build.Promise.In {
			f.Fail("date", "is before the wreck came in")
		}
	}
	d.Ask = stage.DayAsk{Opens: clockField(f, "opens", d.Day, 8*60), Closes: clockField(f, "closes", d.Day, 17*60), Metal: or(degrees(f, "metal"), 18),
		Cold: or(degrees(f, "cold"), or(degrees(f, "metal"), 18)), Heat: optional(f, "heat"), Clean: or(degrees(f, "clean"), 45)}
	if warm := degrees(f, "warm"); !math.IsNaN(warm) {
		d.Ask.Warm, d.Ask.Timed = warm, true
	}
	if f.Raw("stands") != "" {
		d.Ask.Stands = int(f.Int("stands", 0, 500))
	}
	for i := 1; i <= dayRows; i++ {
		n := strconv.Itoa(i)
		id := f.Raw("product-" + n)
		if id == "" {
			continue
		}
		g := stage.Go{Product: build.ProductID(id), Turn: optional(f, "turn-"+n)}
		for _, set := range strings.Split(f.Raw("sets-"+n), "/") {
			if set = strings.TrimSpace(set); set != "" {
				g.Sets = append(g.Sets, set)
			}
		}
		d.Ask.Goes = append(d.Ask.Goes, g)
	}
}

func or(v, other float64) float64 {
	if math.IsNaN(v) {
		return other
	}
	return v
}

// clockField reads a clock time on a day.
func clockField(f *web.Form, name string, day unit.Date, minutes int) unit.Moment {
	text := strings.TrimSpace(f.Raw(name))
	if text == "" {
		return day.At(0, minutes)
	}
	m, err := build.ParseClock(text)
	if err != nil {
		f.Fail(name, "is not a clock time such as 07:30")
	}
	return day.At(0, m)
}

// make lays the day out and turns it into lines.
func (d *dayPage) make() error {
	made, err := stage.PlanDay(d.Build, d.Ask)
	if err != nil {
		if fault.KindOf(err) == fault.NotFound {
			err = fault.New(fault.Invalid, "%s", err.Error()).WithHint(fault.HintOf(err)).At("sets")
		}
		return err
	}
	d.Made = &made
	for _, l := range made.Sheet.Lines {
		line := dayLine{From: l.From.Clock(), To: l.To.Clock(), Minutes: int(l.To - l.From), Act: l.Act.String(), Note: l.Why}
		if line.Act == "mask and turn" && len(d.Ask.Goes) > 0 && l.Product != d.Build.Product(d.Ask.Goes[0].Product).Name {
			line.Act = "wash the gun, mask and turn"
		}
		line.What = strings.Trim(l.Set+", "+l.Product, ", ")
		if l.Coat > 0 {
			line.Spray, line.Code = true, d.code(l.Set, l.Product, l.Coat)
			line.What = fmt.Sprintf("%s, coat %d on %s", l.Product, l.Coat, l.Set)
		}
		if l.Within.To != 0 {
			line.Note = l.Within.Say(l.From)
		}
		for _, c := range l.Starts {
			if c.To != 0 && !line.Spray {
				line.Note = c.Name + ": " + when(l.To, c.To)
			}
		}
		d.Lines = append(d.Lines, line)
	}
	d.List = d.table()
	d.Clash = d.clashes()
	return nil
}

// code is what is typed back for a coat, as the mix card's code is read.
func (d *dayPage) code(set, product string, number int) string {
	for _, s := range d.Made.Sets {
		if s.Name != set {
			continue
		}
		for _, g := range d.Ask.Goes {
			if p := d.Build.Product(g.Product); p.Name == product {
				a := ask{Product: *p, Zones: []build.ZoneID{s.Zone}, Coats: number, Metal: d.Ask.Metal}
				if len(s.Panels) < len(d.Build.PanelsIn(s.Zone)) {
					a.Panels = s.Panels
				}
				return a.code()
			}
		}
	}
	return ""
}

func (d *dayPage) table() table.Table {
	t := table.Table{ID: "paint-day", Caption: "Minute by minute", Self: d.Here, Paper: d.Here + "&as=paper",
		Columns: []table.Column{{Head: "From"}, {Head: "To"}, {Head: "Takes", Unit: "min", Number: true}, {Head: "What"}, {Head: "Of", Wide: true}, {Head: "Because", Wide: true}}}
	for _, l := range d.Lines {
		t.Rows = append(t.Rows, table.Row{Quiet: l.Act == "wait", Cells: []table.Cell{table.Text(l.From), table.Text(l.To), table.Text(strconv.Itoa(l.Minutes)),
			table.Text(l.Act), table.Text(l.What), table.Text(l.Note)}})
	}
	return t
}

// clashes says what else the calendar holds on the day: hands, the booth, dust.
func (d *dayPage) clashes() []string {
	var list []string
	if why := turn.Shut(d.Build, d.Day); why != "" {
		list = append(list, fmt.Sprintf("the shop is shut on %s: %s", d.Day.Short(), why))
	}
	hands := 0
	for _, who := range d.Build.People {
		if !who.Booth {
			continue
		}
		hands++
		from, to := turn.Hours(d.Build, who.ID, d.Day)
		switch {
		case from == to:
			list = append(list, fmt.Sprintf("%s does not work on %s", who.Name, d.Day.Short()))
		case from > d.Ask.Opens || to < d.Made.Done:
			list = append(list, fmt.Sprintf("%s works %s to %s: the rest is beyond those hours", who.Name, from.Clock(), to.Clock()))
		}
	}
	if hands == 0 {
		list = append(list, "nobody is approved for the booth")
	}
	return append(list, d.crossing()...)
}

// crossing names tasks of the plan that hold the booth, or raise dust, that day
// or on its eve.
func (d *dayPage) crossing() []string {
	var list []string
	own := map[build.TaskID]bool{}
	for _, g := range d.Ask.Goes {
		own[d.Build.Product(g.Product).Task] = true
	}
	for _, t := range d.Plan.Tasks {
		task := d.Build.Task(t.ID)
		if task == nil || task.State == build.Finished || own[t.ID] {
			continue
		}
		for _, l := range t.Legs {
			first, last := l.Start.Date(), (l.Finish - 1).Date()
			switch {
			case l.Left <= 0 || last < d.Day-1 || first > d.Day:
				continue
			case task.Bay == d.Made.Booth.ID && last >= d.Day:
				list = append(list, fmt.Sprintf("%s %s has the booth", t.ID, t.Name))
			case task.Stage == "body":
				list = append(list, fmt.Sprintf("%s %s raises dust on the day or its eve", t.ID, t.Name))
			default:
				continue
			}
			break
		}
	}
	return list
}

// plainDay is the day as a script gets it.
type plainDay struct {
	Day      unit.Date `json:"day"`
	Fits     bool      `json:"fits"`
	Spare    int       `json:"spare_min"`
	Finish   string    `json:"finish"`
	StartBy  string    `json:"start_by"`
	Troubles []string  `json:"troubles"`
	Clash    []string  `json:"clashes"`
	Lines    []dayLine `json:"lines"`
	Cautions []string  `json:"cautions"`
}

func (d *dayPage) plain() plainDay {
	s := d.Made.Sheet
	out := plainDay{Day: d.Day, Fits: s.Fits(), Spare: s.Spare, Finish: when(d.Day.At(12, 0), s.Finish), StartBy: when(d.Day.At(12, 0), s.StartBy),
		Troubles: []string{}, Clash: d.Clash, Lines: d.Lines, Cautions: s.Cautions}
	for _, t := range s.Troubles {
		out.Troubles = append(out.Troubles, t.Words)
	}
	return out
}

// setHints names the zones a product goes on.
func (s sheet) setHints() string {
	var words []string
	for _, z := range s.Build.Zones {
		words = append(words, string(z.ID))
	}
	return "zones: " + strings.Join(words, ", ") + "; or panels such as P11 P12; a stroke parts two sets"
}

func (d dayPage) productOptions(row int) []field.Option {
	return d.options(build.ProductID(d.Form.Raw("product-"+strconv.Itoa(row))), "none")
}
