package plan

import (
	"fmt"

	"fettle/build"
	"fettle/engine/schedule"
	"fettle/figure"
)

// MayHappen is something that may happen to a task yet, and what it does.
type MayHappen struct {
	Event   build.EventID `json:"event"`
	What    string        `json:"what"`
	Task    build.TaskID  `json:"task"`
	Chance  float64       `json:"chance"`        // after the records of earlier builds, 0 to 1; 0 is not judged yet
	With    float64       `json:"ready_with"`    // part of the played builds in time in which it happens
	Without float64       `json:"ready_without"` // and of those in which it does not
	Later   float64       `json:"later_days"`    // days by which builds end later in which it happens, on the mean
	Figure  figure.Figure `json:"working"`
}

// mayHappenOf lists what may happen, in the order of the facts.
func mayHappenOf(n *net, odds schedule.Outlook) []MayHappen {
	list := []MayHappen{}
	for _, e := range n.build.Risk.Events {
		for _, x := range n.events {
			if x.ID == e.ID {
				list = append(list, n.mayHappenRow(x, odds))
			}
		}
	}
	return list
}

func (n *net) mayHappenRow(x event, odds schedule.Outlook) MayHappen {
	m := MayHappen{Event: x.ID, What: x.What, Task: x.Task, Chance: round4(x.chance)}
	guess := figure.Input{Name: "judged", Value: inHundred(x.Chance), Source: figure.Decided, Note: judgedBy(x.Source)}
	m.Figure = figure.Figure{Name: "chance that it happens", Text: inHundred(x.chance), Inputs: []figure.Input{guess},
		Formula: "(10 × what was judged + times it happened) ÷ (10 + earlier builds on which that was settled)",
		With:    fmt.Sprintf("(10 × %.3f + %d) ÷ (10 + %d) = %.3f", x.Chance, x.happened, x.n, x.chance),
		Caution: "What nobody has thought of is in no figure."}
	if x.chance == 0 {
		m.Figure.Formula, m.Figure.With = "counts for nothing until somebody says how likely it is", "no chance given"
		m.Figure.Inputs[0].Note = notJudged
		return m
	}
	m.Figure.Inputs = append(m.Figure.Inputs, figure.Input{Name: "on earlier builds", Source: figure.OwnPast,
		Value: fmt.Sprintf("%d of n = %d", x.happened, x.n), Note: "events that are called the same"})
	if s, ok := x.strike(odds); ok {
		m.With, m.Without, m.Later = round4(s.With), round4(s.Without), round4(float64(s.Later)/1440)
		m.Figure.Inputs = append(m.Figure.Inputs, figure.Input{Name: "ready in time where it happens", Source: figure.Worked, Value: fmt.Sprintf("%.0f %%", 100*s.With),
			Note: fmt.Sprintf("else %.0f %%; %s later on the mean; it happens in %.0f of the %d played builds", 100*s.Without, daysLater(s.Later), s.Part*float64(len(odds.Finishes)), len(odds.Finishes))})
	}
	return m
}

// inHundred writes a chance.
func inHundred(chance float64) string {
	if chance == 0 {
		return notJudged
	}
	return fmt.Sprintf("%.0f in 100", 100*chance)
}
