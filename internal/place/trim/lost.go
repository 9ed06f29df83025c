package trim

import (
	"fmt"

	"fettle/build"
	"fettle/figure"
	"fettle/internal/web"
	"fettle/plan"
	stage "fettle/stage/trim"
	"fettle/unit"
)

func (p place) lostRoutes() []web.Route {
	return []web.Route{{Pattern: "GET /b/{build}/trim/hide/{hide}/lost", Who: web.Guest, Handle: p.lost}}
}

// lostPage is what follows when a hide is lost.
type lostPage struct {
	sheet
	sheetCard
	Loss   stage.Loss
	Before stage.Need // of the material, as it is
	After  stage.Need // without the hide
	Task   *build.Task
	Room   plan.Room // of the task that it is cut for, and by when another hide is ordered
}

func (p place) lost(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	h, err := s.hide(r)
	if err != nil {
		return err
	}
	page := lostPage{sheet: s, sheetCard: s.card(*h), Loss: stage.LossOf(s.Build, h.ID), Before: stage.NeedOf(s.Build, h.Material)}
	page.Drawing.Named = true
	without := s.Build.Clone()
	if !h.Refused {
		if err := (&build.RefuseHide{Hide: h.ID, Why: "lost"}).Apply(&without); err != nil {
			return err
		}
	}
	page.After = stage.NeedOf(&without, h.Material)
	if err := p.reorder(r, &page); err != nil {
		return err
	}
	if r.As() == "json" {
		return r.JSON(page.document())
	}
	return p.desk.Page(r, web.Sheet{Place: "trim", Shown: "if hide " + string(h.ID) + " is lost"}, showLost(page))
}

// reorder reckons by when another hide of the lot is ordered: for the cutting as
// it is planned, and for the last day on which it can begin.
func (p place) reorder(r *web.Request, page *lostPage) error {
	for _, o := range page.cutters("") {
		if o.Picked {
			page.Task = page.Kept.Task(build.TaskID(o.Value))
		}
	}
	if page.Task == nil {
		return nil
	}
	var err error
	page.Room, err = p.desk.Shop.Room(r.Context(), r.Build(), page.Task.ID, leadDays)
	return err
}

// proof says in a sentence what the area alone tells of the rest.
func (page lostPage) proof() string {
	n := page.After
	switch {
	case n.Have == 0:
		return "No other hide of " + page.Hide.Material + " is there."
	case n.Used > 1:
		return fmt.Sprintf("Not enough: %s are needed and %s give %s by the rule.", n.Net, hidesWord(n.Have), n.Usable)
	case n.Used > stage.Snug:
		return fmt.Sprintf("No margin: %s are needed and %s give %s by the rule, %.0f %% used. Only a layout on them tells whether every piece finds a place.", n.Net, hidesWord(n.Have), n.Usable, 100*n.Used)
	}
	return fmt.Sprintf("Enough by the rule: %s are needed and %s give %s, %.0f %% used.", n.Net, hidesWord(n.Have), n.Usable, 100*n.Used)
}

// used is what the rest would be used to, with its working.
func (page lostPage) used() figure.Figure {
	f := page.After.Figure
	f.Name = "use of the other hides"
	f.Text = fmt.Sprintf("%.0f %%", 100*page.After.Used)
	f.Formula = "net area of all pieces ÷ (area of the hides left × usable part)"
	f.With = fmt.Sprintf("%s ÷ %s = %.1f %%", page.After.Net, page.After.Usable, 100*page.After.Used)
	return f
}

// by is the last order day as the date allows.
func (page lostPage) by() figure.Figure {
	room := page.Room
	return figure.Figure{Name: "order another of lot " + page.Hide.Lot + " by", Text: room.Late.Short(),
		Formula: "last day to begin the cutting before the date moves, less the tannery's working days",
		With:    fmt.Sprintf("%s − %d working days = %s", room.Latest.Short(), room.Lead, room.Late.Short()),
		Inputs: []figure.Input{{Name: "last day to begin " + page.Task.Name, Value: room.Latest.Short(), Source: figure.Worked, Note: room.Figure.With},
			{Name: "from the tannery", Value: fmt.Sprintf("%d working days", room.Lead), Source: figure.TradeDefault, Note: "ask before you count on it"}},
		Caution: room.Figure.Caution}
}

// document is the page as JSON.
func (page lostPage) document() any {
	return struct {
		Hide   build.HideID  `json:"hide"`
		Moves  []stage.Left  `json:"moves"`
		Used   float64       `json:"used"`
		Net    unit.Area     `json:"net_m2"`
		Usable unit.Area     `json:"usable_m2"`
		Says   string        `json:"says"`
		Room   plan.Room     `json:"room"`
		Faults []stage.Fault `json:"faults"`
	}{page.Hide.ID, page.Loss.Moves, page.After.Used, page.After.Net, page.After.Usable, page.proof(), page.Room, page.Faults}
}
