package metal

import (
	"fmt"

	"github.com/a-h/templ"

	"fettle/build"
	"fettle/internal/drawn"
	"fettle/internal/web"
	"fettle/internal/web/ui/hatch"
	"fettle/internal/web/ui/vehicle"
	"fettle/unit"
)

// bodyPage is the drawn body to touch.
type bodyPage struct {
	scene
	Drawn  templ.Component // the view asked for, to touch
	Tabs   templ.Component // the way to the others
	View   vehicle.View
	States []string // that any panel is in
	Hours  string
	Tasks  []*build.Task // metal work not finished, for its cautions
}

func (p place) body(r *web.Request) error {
	s, err := p.scene(r)
	if err != nil {
		return err
	}
	if r.As() == "json" {
		return r.JSON(s.Build.Findings)
	}
	page := bodyPage{scene: s, Hours: hoursOf(s.Build.Findings), Tasks: openTasks(s.Build)}
	views := drawn.Views(s.Build, drawn.Options{Base: s.At(), Kept: s.Kept, Touch: s.Crew})
	page.View, _ = drawn.View(views, r.Query("view"))
	page.Drawn = p.press.Print(s.Mark+page.View.ID, vehicle.Draw(page.View))
	page.Tabs = p.press.Print(s.Mark+page.View.ID+"/tabs", vehicle.Tabs(views, page.View.ID, s.At()+"?view="))
	for _, state := range hatch.States() {
		if hasState(s.Build, state) {
			page.States = append(page.States, state)
		}
	}
	sheet := web.Sheet{Place: "metal", Shown: fmt.Sprintf("%d findings, %s", len(s.Build.Findings), page.Hours), Scripts: []string{script}}
	return p.desk.Page(r, sheet, showBody(page))
}

func hasState(b *build.Build, state string) bool {
	for _, p := range b.Panels {
		if string(p.State) == state {
			return true
		}
	}
	return false
}

// openTasks are the tasks that findings belong to and that are not finished.
func openTasks(b *build.Build) []*build.Task {
	var out []*build.Task
	for i := range b.Tasks {
		t := &b.Tasks[i]
		if t.Findings && t.State != build.Finished {
			out = append(out, t)
		}
	}
	return out
}

func hoursOf(findings []build.Finding) string {
	var sum unit.Effort
	for _, f := range findings {
		sum += f.Hours()
	}
	return sum.String()
}
