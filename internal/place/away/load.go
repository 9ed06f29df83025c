package away

import (
	"fmt"

	"fettle/fault"
	"fettle/internal/web"
)

func (p place) showLoad(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	c, err := s.named(r.Path("load"))
	if err != nil {
		return err
	}
	if r.As() == "json" {
		return r.JSON(c)
	}
	return p.desk.Page(r, web.Sheet{Place: "away", Shown: string(c.ID) + " " + c.What}, loadPage(s, c, nil))
}

// note is the dispatch note that goes with a load, with room for signatures
// and the pair of photos.
func (p place) note(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	c, err := s.named(r.Path("load"))
	if err != nil {
		return err
	}
	return p.desk.Page(r, web.Sheet{Place: "away", Shown: "dispatch note " + string(c.ID)}, noteSheet(s, c))
}

// claim is the note about what did not come back.
func (p place) claim(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	c, err := s.named(r.Path("load"))
	if err != nil {
		return err
	}
	if c.Short == "" {
		return fault.New(fault.NotFound, "nothing of load %s was missing", c.ID).WithHint("count it back first")
	}
	return p.desk.Page(r, web.Sheet{Place: "away", Shown: "claim " + string(c.ID)}, claimSheet(s, c))
}

// waiting says which tasks wait for a missing piece and which do not.
func (s sheet) waiting(c card) string {
	if len(c.Wanted) == 0 {
		return ""
	}
	t := s.Build.Task(c.Wanted[0].Task)
	rest := 0
	for _, w := range c.Waits {
		if w.ID != t.ID {
			rest++
		}
	}
	text := fmt.Sprintf("Only %s %s waits for it.", t.ID, t.Name)
	if rest > 0 {
		text += fmt.Sprintf(" The %d other tasks that waited for this load may begin.", rest)
	}
	return text
}
