package cli

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/live"
	"fettle/internal/readin"
)

// importCmd reads a list that a shop keeps.
type importCmd struct {
	storeFlags
	Build  string            `arg:"" help:"Short name of the build."`
	File   string            `arg:"" help:"CSV or workbook; docs/import.md says what is read." type:"path"`
	Kind   string            `required:"" enum:"panels,findings,parts,hours" help:"What the list holds: panels, findings, parts or hours."`
	Tab    string            `help:"Sheet of a workbook; the one with the best known headings by default."`
	Map    map[string]string `help:"Read a field from a heading, such as --map panel=Where." placeholder:"FIELD=HEADING"`
	Keep   bool              `help:"Keep the good rows; without it the list is only looked at."`
	All    bool              `name:"all-or-nothing" help:"One bad row holds back every row."`
	Unit   string            `help:"Unit of sizes without one." enum:"mm,cm,m,in,ft" default:"mm"`
	Month  bool              `name:"month-first" help:"6/10/2026 is 10 June."`
	Found  string            `help:"When findings were found, where no column says so, such as strip."`
	Trade  string            `help:"Trade of the hours of findings that name none."`
	Task   string            `help:"Task, where no column or panel names it."`
	Person string            `help:"Who keeps them." default:"owner"`
	JSON   bool              `name:"json" help:"Print one JSON document."`
}

// listLimit is the most a list may hold.
const listLimit = 32 << 20

// imported is what import prints as JSON.
type imported struct {
	Rows    []readin.Row    `json:"rows"`
	Good    int             `json:"good"`
	Bad     int             `json:"bad"`
	Skipped int             `json:"skipped"`
	Missing []string        `json:"missing_fields,omitempty"`
	Unused  []string        `json:"unused_headings,omitempty"`
	Notes   []readin.Note   `json:"notes,omitempty"`
	Kept    []string        `json:"kept,omitempty"`
	Changes json.RawMessage `json:"changes"`
}

// Run previews the list, or keeps its good rows.
func (c *importCmd) Run(ctx context.Context, s streams) error {
	f, err := os.Open(c.File)
	if err != nil {
		return fault.New(fault.NotFound, "%s cannot be opened: %v", c.File, err)
	}
	defer f.Close()
	sheet, err := readin.OpenTab(c.File, c.Tab, f, listLimit)
	if err != nil {
		return err
	}
	shop, err := c.open(ctx, false)
	if err != nil {
		return err
	}
	defer shop.Close()
	view, err := shop.View(ctx, c.Build)
	if err != nil {
		return err
	}
	mapping, err := readin.Match(readin.Kind(c.Kind), sheet.Heads).Choose(c.Map)
	if err != nil {
		return err
	}
	result := readin.Plan(view.Build, readin.Kind(c.Kind), sheet, mapping,
		readin.Options{MonthFirst: c.Month, AllOrNothing: c.All, Unit: c.Unit, Found: c.Found,
			Trade: build.TradeID(c.Trade), Task: build.TaskID(c.Task)})
	out := imported{Rows: result.Rows, Good: result.Good, Bad: result.Bad, Skipped: result.Skipped,
		Missing: result.Mapping.Missing, Unused: result.Mapping.Unused, Notes: result.Notes}
	if out.Changes, err = encodeList(result.Changes); err != nil {
		return err
	}
	if c.Keep && len(result.Changes) > 0 {
		if out.Kept, err = c.keep(ctx, shop, result.Changes); err != nil {
			return err
		}
	}
	if err := c.print(s, out); err != nil {
		return err
	}
	if len(out.Rows) == 0 {
		return fault.New(fault.Invalid, "there is no row under the headings").At(c.File).WithHint("docs/import.md says what is read")
	}
	if out.Bad > 0 {
		return fault.New(fault.Invalid, "%d of %d rows could not be read", out.Bad, len(out.Rows)).At(c.File).
			WithHint("mend these rows and read the list again; rows kept before are passed over as doubles")
	}
	return nil
}

func (c *importCmd) keep(ctx context.Context, shop *shop, changes []build.Change) ([]string, error) {
	drafts := make([]live.Draft, len(changes))
	for i := range changes {
		drafts[i] = live.Draft{Change: changes[i], Note: "read in from " + c.File}
	}
	kept, err := shop.Record(ctx, c.Build, -1, live.Who{Person: c.Person, Device: "command line"}, drafts)
	var ids []string
	for _, e := range kept {
		ids = append(ids, e.ID)
	}
	return ids, err
}

func (c *importCmd) print(s streams, out imported) error {
	if c.JSON {
		return printJSON(s, out)
	}
	for _, n := range out.Notes {
		if n.Line > 0 {
			n.Text = fmt.Sprintf("line %d: %s", n.Line, n.Text)
		}
		fmt.Fprintln(s.err, "fettle:", n.Text)
	}
	for _, r := range out.Rows {
		switch r.Status {
		case readin.Bad:
			fmt.Fprintf(s.out, "line %d\tbad\t%s: %s\n", r.Line, r.Field, strings.TrimSuffix(r.Reason+"; "+r.Hint, "; "))
		case readin.Skipped:
			fmt.Fprintf(s.out, "line %d\tskipped\t%s\n", r.Line, r.Reason)
		default:
			fmt.Fprintf(s.out, "line %d\tgood\t%s\n", r.Line, r.Says)
		}
	}
	word := "would be kept; add --keep"
	if c.Keep {
		word = "kept"
	}
	fmt.Fprintf(s.out, "%d good, %d bad, %d skipped; %d %s\n", out.Good, out.Bad, out.Skipped, out.Good, word)
	return nil
}

func encodeList(changes []build.Change) (json.RawMessage, error) {
	list := make([]json.RawMessage, 0, len(changes))
	for _, c := range changes {
		body, err := build.EncodeNamed(c)
		if err != nil {
			return nil, err
		}
		list = append(list, body)
	}
	return json.Marshal(list)
}
