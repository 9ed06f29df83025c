package build

import (
	"slices"

	"fettle/unit"
)

// Form is the version of the JSON form of a Build.
const Form = 1

// Build is every fact about one rebuild. Lists keep the order people gave
// them: the task list is also the order in which work is preferred.
type Build struct {
	Name     string        `json:"name"` // short name: a-z, 0-9 and hyphens
	Title    string        `json:"title"`
	Shop     Shop          `json:"shop"`
	Vehicle  Vehicle       `json:"vehicle"`
	Cause    Cause         `json:"cause"`
	Promise  Promise       `json:"promise"`
	Currency unit.Currency `json:"currency"`
	Risk     Risk          `json:"risk"`

	Trades   []Trade    `json:"trades"`
	People   []Person   `json:"people"`
	Closures []Closure  `json:"closures"`
	Absences []Absence  `json:"absences"`
	Overtime []Overtime `json:"overtime"`
	Bays     []Bay      `json:"bays"`

	Views    []View    `json:"views"`
	Panels   []Panel   `json:"panels"`
	Findings []Finding `json:"findings"`
	Tasks    []Task    `json:"tasks"`
	Moves    []Move    `json:"moves"`
	Sublets  []Sublet  `json:"sublets"`
	Offers   []Sublet  `json:"offers"` // what outside shops have offered to take, not accepted yet

	Groups     []Group        `json:"bag_groups"`
	Bags       []Bag          `json:"bags"`
	Routes     []Route        `json:"routes"`
	Missing    []MissingPiece `json:"missing"`
	Parts      []Part         `json:"parts"`
	Outwork    []Outwork      `json:"outwork"`
	Colours    []Colour       `json:"colours"`
	Zones      []Zone         `json:"zones"`
	Products   []Product      `json:"paint_products"`
	Tins       []Tin          `json:"tins,omitempty"`
	Pours      []Pour         `json:"pours,omitempty"`
	Coats      []Coat         `json:"coats,omitempty"`
	Films      []Film         `json:"film_readings,omitempty"`
	WarmUps    []WarmUp       `json:"warm_ups,omitempty"`
	Cards      []Card         `json:"spray_outs,omitempty"`
	Solvent    SolventLimits  `json:"solvent_limits,omitzero"`
	Redos      []Redo         `json:"redone_paint,omitempty"`
	Looks      []Look         `json:"looks,omitempty"`
	Circuits   []Circuit      `json:"circuits"`
	Loom       Loom           `json:"loom,omitzero"`
	Pieces     []Piece        `json:"trim_pieces"`
	Rolls      []Roll         `json:"rolls,omitempty"`
	Hides      []Hide         `json:"hides"`
	Layouts    []Layout       `json:"layouts,omitempty"`
	Surfaces   []Surface      `json:"surfaces,omitempty"`
	Patterns   []Pattern      `json:"patterns,omitempty"` // every revision
	Seams      []Seam         `json:"seams,omitempty"`
	Threads    []Thread       `json:"threads,omitempty"`
	Cords      []Cord         `json:"cords,omitempty"`
	Covers     []Cover        `json:"covers,omitempty"`
	Foams      []Foam         `json:"foams,omitempty"`
	Boards     []Board        `json:"boards,omitempty"`
	Deadening  []Deadener     `json:"deadening,omitempty"`
	Glues      []Glue         `json:"glued,omitempty"`
	Blanks     []Blank        `json:"blanks,omitempty"`
	Sheets     []Sheet        `json:"sheets,omitempty"`
	SheetPlans []SheetPlan    `json:"sheet_plans,omitempty"`
	Strips     []Strip        `json:"test_strips,omitempty"`
	Brake      Brake          `json:"brake,omitzero"`
	Motif      Motif          `json:"motif"`

	Budget Budget      `json:"budget"`
	Costs  []CostLine  `json:"cost_lines"`
	Gifts  []Gift      `json:"gifts"`
	Kind   []GivenKind `json:"gifts_in_kind"`
	Sale   Sale        `json:"sale"`
	Spent  []Payment   `json:"payments"`

	Hours  []Hours `json:"hours"`
	Photos []Photo `json:"photos"`
	Snags  []Snag  `json:"snags"`
	Notes  []Note  `json:"notes"`
}

// Clone returns a copy that changes may be applied to without touching b.
func (b Build) Clone() Build {
	c := b
	c.Trades, c.People = slices.Clone(b.Trades), slices.Clone(b.People)
	c.Closures, c.Absences = slices.Clone(b.Closures), slices.Clone(b.Absences)
	c.Overtime, c.Bays = slices.Clone(b.Overtime), slices.Clone(b.Bays)
	c.Views, c.Panels = slices.Clone(b.Views), slices.Clone(b.Panels)
	c.Findings, c.Tasks = slices.Clone(b.Findings), slices.Clone(b.Tasks)
	c.Moves, c.Sublets, c.Offers = slices.Clone(b.Moves), slices.Clone(b.Sublets), slices.Clone(b.Offers)
	c.Groups, c.Bags = slices.Clone(b.Groups), slices.Clone(b.Bags)
	c.Routes, c.Missing = slices.Clone(b.Routes), slices.Clone(b.Missing)
	c.Parts, c.Outwork = slices.Clone(b.Parts), slices.Clone(b.Outwork)
	c.Colours, c.Zones = slices.Clone(b.Colours), slices.Clone(b.Zones)
	c.Products, c.Circuits = slices.Clone(b.Products), slices.Clone(b.Circuits)
	c.Loom = b.Loom.clone()
	c.Tins, c.Pours, c.Coats = slices.Clone(b.Tins), slices.Clone(b.Pours), slices.Clone(b.Coats)
	c.Films, c.WarmUps, c.Cards = slices.Clone(b.Films), slices.Clone(b.WarmUps), slices.Clone(b.Cards)
	c.Solvent.Classes = slices.Clone(b.Solvent.Classes)
	c.Redos, c.Looks = slices.Clone(b.Redos), slices.Clone(b.Looks)
	c.Pieces, c.Rolls = slices.Clone(b.Pieces), slices.Clone(b.Rolls)
	c.Hides, c.Layouts = slices.Clone(b.Hides), slices.Clone(b.Layouts)
	c.Surfaces, c.Patterns, c.Seams = slices.Clone(b.Surfaces), slices.Clone(b.Patterns), slices.Clone(b.Seams)
	c.Threads, c.Cords, c.Covers = slices.Clone(b.Threads), slices.Clone(b.Cords), slices.Clone(b.Covers)
	c.Foams, c.Boards = slices.Clone(b.Foams), slices.Clone(b.Boards)
	c.Deadening, c.Glues = slices.Clone(b.Deadening), slices.Clone(b.Glues)
	c.Blanks, c.Sheets, c.SheetPlans = slices.Clone(b.Blanks), slices.Clone(b.Sheets), slices.Clone(b.SheetPlans)
	c.Strips = slices.Clone(b.Strips)
	c.Motif.Places = slices.Clone(b.Motif.Places)
	c.Costs, c.Gifts = slices.Clone(b.Costs), slices.Clone(b.Gifts)
	c.Kind, c.Spent = slices.Clone(b.Kind), slices.Clone(b.Spent)
	c.Hours, c.Photos = slices.Clone(b.Hours), slices.Clone(b.Photos)
	c.Snags, c.Notes = slices.Clone(b.Snags), slices.Clone(b.Notes)
	return c
}

// find returns the element that answers to id, or nil.
func find[T any, ID comparable](list []T, id ID, of func(*T) ID) *T {
	for i := range list {
		if of(&list[i]) == id {
			return &list[i]
		}
	}
	return nil
}
