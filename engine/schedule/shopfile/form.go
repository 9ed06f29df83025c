package shopfile

import (
	"fettle/engine/schedule"
	"fettle/unit"
)

// File is a problem with the day that its minutes count from.
type File struct {
	Origin  unit.Date
	Problem schedule.Problem
}

// form is the file as it stands; its names are those of the JSON.
type form struct {
	Form       string         `json:"form"`
	Origin     string         `json:"origin"`
	Until      string         `json:"until,omitempty"`
	Now        string         `json:"now,omitempty"`
	Goal       string         `json:"goal,omitempty"`
	Near       string         `json:"near,omitempty"`
	Absence    float64        `json:"absence,omitempty"`
	Weights    *weightsForm   `json:"weights,omitempty"`
	Calendars  []calendarForm `json:"calendars,omitempty"`
	People     []personForm   `json:"people,omitempty"`
	Places     []placeForm    `json:"places,omitempty"`
	Factors    []factorForm   `json:"factors,omitempty"`
	Activities []activityForm `json:"activities,omitempty"`
	Links      []linkForm     `json:"links,omitempty"`
	Clashes    []clashForm    `json:"clashes,omitempty"`
	Overtime   []overtimeForm `json:"overtime,omitempty"`
	Risks      []riskForm     `json:"risks,omitempty"`
}

type weightsForm struct {
	Late     float64 `json:"late,omitempty"`
	Remedial float64 `json:"remedial,omitempty"`
	Moved    float64 `json:"moved,omitempty"`
	Overtime float64 `json:"overtime,omitempty"`
	Length   float64 `json:"length,omitempty"`
}

// calendarForm is a week or a list of windows.
type calendarForm struct {
	ID      string   `json:"id"`
	Week    string   `json:"week,omitempty"`
	From    string   `json:"from,omitempty"`
	Until   string   `json:"until,omitempty"`
	Closed  []string `json:"closed,omitempty"`
	Also    []string `json:"also,omitempty"`
	Windows []string `json:"windows,omitzero"`
}

type personForm struct {
	ID       string    `json:"id"`
	Calendar string    `json:"calendar"`
	Range    []float64 `json:"range,omitempty"`
	Learned  *logForm  `json:"learned,omitempty"`
}

type placeForm struct {
	ID    string `json:"id"`
	Units int    `json:"units"`
}

type factorForm struct {
	ID      string    `json:"id"`
	Range   []float64 `json:"range,omitempty"`
	Learned *logForm  `json:"learned,omitempty"`
	Seen    []float64 `json:"seen,omitempty"`
}

// logForm is mean and standard deviation of a logarithm.
type logForm struct {
	Mu    float64 `json:"mu"`
	Sigma float64 `json:"sigma"`
}

type activityForm struct {
	ID        string         `json:"id"`
	Task      string         `json:"task,omitempty"`
	Kind      string         `json:"kind"`
	Takes     string         `json:"takes,omitempty"`
	Whole     string         `json:"whole,omitempty"`
	Spent     string         `json:"spent,omitempty"`
	Calendar  string         `json:"calendar,omitempty"`
	Who       []string       `json:"who,omitempty"`
	Heads     int            `json:"heads,omitempty"`
	Crew      string         `json:"crew,omitempty"`
	Uses      []useForm      `json:"uses,omitempty"`
	NotBefore string         `json:"not_before,omitempty"`
	Pinned    bool           `json:"pinned,omitempty"`
	State     string         `json:"state,omitempty"`
	Started   string         `json:"started,omitempty"`
	Finished  string         `json:"finished,omitempty"`
	Published *publishedForm `json:"published,omitempty"`
	Range     []float64      `json:"range,omitempty"`
	Learned   *logForm       `json:"learned,omitempty"`
	Factors   []string       `json:"factors,omitempty"`
	Extra     []string       `json:"extra,omitempty"`
	Late      []string       `json:"late,omitempty"`
}

type useForm struct {
	Place string `json:"place"`
	Units int    `json:"units"`
}

type publishedForm struct {
	Start string   `json:"start"`
	Who   []string `json:"who,omitempty"`
}

// linkForm is a least lag, or with at_most a maximum lag.
type linkForm struct {
	Activity  string   `json:"activity"`
	After     string   `json:"after"`
	FromStart bool     `json:"from_start,omitempty"`
	Lag       string   `json:"lag,omitempty"`
	AtMost    string   `json:"at_most,omitempty"`
	Calendar  string   `json:"calendar,omitempty"`
	Remedy    []string `json:"remedy,omitempty"`
}

type clashForm struct {
	Dirty    []string `json:"dirty"`
	Clean    []string `json:"clean"`
	Settle   string   `json:"settle,omitempty"`
	Calendar string   `json:"calendar,omitempty"`
}

type overtimeForm struct {
	Person string `json:"person"`
	Window string `json:"window"`
	Price  int64  `json:"price"`
}

type riskForm struct {
	ID         string   `json:"id"`
	Chance     float64  `json:"chance"`
	Activities []string `json:"activities"`
}
