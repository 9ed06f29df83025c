package journal

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"

	"fettle/fault"
	"fettle/internal/live"
	"fettle/internal/web"
	"fettle/internal/web/ui/table"
	"fettle/unit"
)

// reason is a share of the move in words.
type reason struct {
	live.Share
	Days int    `json:"days"`
	Who  string `json:"who,omitempty"`
	Says string `json:"says"`
	Href string `json:"-"`
}

// story is why the date moved since a day.
type story struct {
	Since   unit.Date `json:"since"`
	Before  unit.Date `json:"before"`
	After   unit.Date `json:"after"`
	Days    int       `json:"days"`
	Reasons []reason  `json:"reasons"` // what moved it, the largest first
	Still   int       `json:"others"`  // changes that moved nothing
	Flow    int       `json:"flow"`    // hours worked against the days that went by
}

func (p place) since(r *web.Request) (unit.Date, error) {
	day, err := unit.ParseDate(r.Query("since"))
	if err != nil {
		return 0, fault.New(fault.Invalid, "%v", err).At("since")
	}
	if day == 0 {
		day = p.desk.Shop.Now().Date()
	}
	return day, nil
}

// why answers at once; its table is worked out when the page asks for it.
func (p place) why(r *web.Request) error {
	since, err := p.since(r)
	if err != nil {
		return err
	}
	s, err := p.load(r)
	if err != nil {
		return err
	}
	shown := "why the date has moved since " + since.Short()
	if r.As() == "page" && r.Query("now") == "" {
		return p.desk.Page(r, web.Sheet{Place: "journal", Shown: shown}, whyPage(s, since, nil))
	}
	told, err := p.tell(r, s, since)
	if err != nil {
		return err
	}
	switch r.As() {
	case "json":
		return r.JSON(told)
	case "csv":
		return r.CSV("why.csv", told.list(s).Records())
	}
	return p.desk.Page(r, web.Sheet{Place: "journal", Shown: shown}, whyPage(s, since, &told))
}

func (p place) whyTable(r *web.Request) error {
	since, err := p.since(r)
	if err != nil {
		return err
	}
	s, err := p.load(r)
	if err != nil {
		return err
	}
	told, err := p.tell(r, s, since)
	if err != nil {
		return err
	}
	return r.Fragment(whyFound(s, told))
}

func (p place) tell(r *web.Request, s sheet, since unit.Date) (story, error) {
	shares, err := p.desk.Shop.Shares(r.Context(), r.Build(), since)
	if err != nil {
		return story{}, err
	}
	told := story{Since: since}
	for i, one := range shares {
		if i == 0 {
			told.Before = one.Before
		}
		told.After = one.After
		switch {
		case one.Cause != live.ByChange:
			told.Flow += one.Days()
		case one.Days() == 0:
			told.Still += len(one.Seqs)
		default:
			told.Reasons = append(told.Reasons, s.reason(one))
		}
	}
	if len(shares) == 0 {
		pl, _, err := p.desk.Plan(r)
		if err != nil {
			return told, err
		}
		told.Before, told.After = pl.Dates.P50, pl.Dates.P50
	}
	told.Days = int(told.After - told.Before)
	slices.SortStableFunc(told.Reasons, func(a, b reason) int { return cmp.Compare(size(b.Days), size(a.Days)) })
	return told, nil
}

func size(n int) int { return max(n, -n) }

// reason puts a share into words: the first of its entries and how many more.
func (s sheet) reason(one live.Share) reason {
	out := reason{Share: one, Days: one.Days(), Who: s.name(one.Person), Href: s.Base + "/journal?day=" + one.First.String() + "&person=" + one.Person}
	said := 0
	for _, r := range slices.Backward(s.Rows) {
		if !slices.Contains(one.Seqs, r.Seq) {
			continue
		}
		if said++; said <= 2 {
			if out.Says != "" {
				out.Says += "; "
			}
			out.Says += r.Says
		}
	}
	if said > 2 {
		out.Says += fmt.Sprintf("; and %d more", said-2)
	}
	return out
}

func (s sheet) name(code string) string {
	if n := s.Names[code]; n != "" {
		return n
	}
	return code
}

// list is the story as a table that adds up.
func (t story) list(s sheet) table.Table {
	self := s.Base + "/journal/why?since=" + t.Since.String()
	list := table.Table{ID: "why", Caption: "What moved it, the largest first", Self: self, Columns: []table.Column{
		{Head: "When"}, {Head: "Who"}, {Head: "What", Wide: true}, {Head: "Moved by", Unit: "days", Number: true}, {Head: "From"}, {Head: "To"}}}
	for _, one := range t.Reasons {
		list.Rows = append(list.Rows, table.Row{Cells: []table.Cell{table.Text(one.First.Short()), table.Text(one.Who), table.Link(one.Says, one.Href),
			table.Text(signed(one.Days)), table.Text(one.Before.Short()), table.Text(one.After.Short())}})
	}
	blank := table.Text("")
	list.Rows = append(list.Rows, table.Row{Cells: []table.Cell{blank, blank, table.Text("hours worked, against the days that went by"), table.Text(signed(t.Flow)), blank, blank}})
	if t.Still > 0 {
		list.Rows = append(list.Rows, table.Row{Quiet: true, Cells: []table.Cell{blank, blank, table.Text(strconv.Itoa(t.Still) + " other entries"), table.Text("0"), blank, blank}})
	}
	list.Foot = []table.Cell{blank, blank, table.Text("In all"), table.Text(signed(t.Days)), table.Text(t.Before.Short()), table.Text(t.After.Short())}
	return list
}

func signed(n int) string {
	switch {
	case n > 0:
		return "+" + strconv.Itoa(n)
	case n < 0:
		return "−" + strconv.Itoa(-n)
	}
	return "0"
}

// says is the whole move in a sentence.
func (t story) says() string {
	switch {
	case t.Days > 0:
		return fmt.Sprintf("%d days later", t.Days)
	case t.Days < 0:
		return fmt.Sprintf("%d days earlier", -t.Days)
	}
	return "not moved"
}
