package build

import "fettle/unit"

// Shop is where the work is done.
type Shop struct {
	Name        string `json:"name"`
	Place       string `json:"place"`
	NextMorning bool   `json:"hand_over_next_morning"` // what one task hands on is taken up the morning after
	OrderMargin int    `json:"order_margin_days"`      // working days before the last order day at which an order is due
}

// Vehicle is the wreck and what it will be.
type Vehicle struct {
	Name      string      `json:"name"`
	Label     string      `json:"label"` // what the front page is called, such as "The Van"
	Kind      string      `json:"kind"`
	Year      int         `json:"year"`
	Chassis   string      `json:"chassis_number"`
	RightHand bool        `json:"right_hand_drive"`
	Engine    string      `json:"engine"`
	Length    unit.Length `json:"length_mm"`
	Width     unit.Length `json:"width_mm"`
	Height    unit.Length `json:"height_mm"`
	Wheelbase unit.Length `json:"wheelbase_mm"`
	Story     string      `json:"story"`
}

// Cause is what the build is for.
type Cause struct {
	Name string     `json:"name"`
	Need string     `json:"need"`
	Aim  unit.Money `json:"aim"`
}

// Promise is the day the vehicle was promised for. It is a goal, never a wall.
type Promise struct {
	In       unit.Date `json:"in"`    // the day the wreck came in
	Ready    unit.Date `json:"ready"` // last working day at whose end it must be ready
	Day      unit.Date `json:"day"`   // the day itself
	Occasion string    `json:"occasion"`
	Account  unit.Date `json:"account"` // the day the account is given
}

// View is one side of the drawn vehicle: a plane of the vehicle's own
// co-ordinates and the line work that belongs to no panel.
//
// Co-ordinates are in millimetres: x rearward of the front axle, y to the left
// of the centre line, z above the floor.
type View struct {
	ID      string     `json:"id"` // left, right, front, rear, top, inside
	Label   string     `json:"label"`
	Plane   string     `json:"plane"` // "xz", "yz" or "xy"
	Flip    bool       `json:"flip"`  // draw with the first axis reversed
	Box     [4]float64 `json:"box_mm"`
	Details []Line     `json:"details,omitempty"`
}

// Line is a piece of line work as path data: absolute M, L, C, Q, Z.
type Line struct {
	Path   string `json:"d"`
	Weight string `json:"weight"` // silhouette, panel or detail
	Fill   string `json:"fill,omitempty"`
}

// Outline is the closed outline of a panel in one view, as path data.
type Outline struct {
	View string `json:"view"`
	Path string `json:"d"`
}
