package build

import "fettle/unit"

// Budget is what was agreed with whoever answers for the money.
type Budget struct {
	Agreed      unit.Money `json:"agreed"`
	Contingency unit.Money `json:"contingency"`
	Day         unit.Date  `json:"day"`
	With        string     `json:"with"`
}

// CostLine is a cost that is neither hours, parts nor outwork.
type CostLine struct {
	ID     string     `json:"id"`
	Name   string     `json:"name"`
	Amount unit.Money `json:"amount"` // in all
	Day    unit.Date  `json:"day,omitzero"`
	Weeks  int        `json:"weeks,omitempty"` // spread evenly over so many weeks from Day
	Task   TaskID     `json:"task,omitempty"`  // or paid when the task begins
}

// Gift is money given for the build.
type Gift struct {
	ID       string     `json:"id"`
	From     string     `json:"from"`
	Amount   unit.Money `json:"amount"`
	Day      unit.Date  `json:"day,omitzero"`
	Received bool       `json:"received"`
	Thanked  bool       `json:"thanked,omitempty"`
}

// GivenKind is something given that is not money. It is shown apart and
// never added to the net.
type GivenKind struct {
	ID      string      `json:"id"`
	What    string      `json:"what"`
	From    string      `json:"from,omitempty"`
	Value   unit.Money  `json:"value"`
	Basis   string      `json:"basis"`
	Hours   unit.Effort `json:"hours_h,omitempty"`
	Thanked bool        `json:"thanked,omitempty"`
}

// Sale is how the finished vehicle turns into money for the cause.
type Sale struct {
	How        string     `json:"how"`
	Low        unit.Money `json:"low"`
	Expected   unit.Money `json:"expected"`
	High       unit.Money `json:"high"`
	FeePercent int64      `json:"fee_hundredths_percent"` // 400 is 4 %
	Opens      unit.Date  `json:"opens,omitzero"`
	Closes     unit.Date  `json:"closes,omitzero"`
	Sold       unit.Money `json:"sold,omitempty"`
}

// Payment is money that left the tin, with what it was for.
type Payment struct {
	ID     string     `json:"id"`
	Day    unit.Date  `json:"day"`
	For    string     `json:"for"`           // parts, outwork, line or other
	Ref    string     `json:"ref,omitempty"` // the part, the load or the cost line
	What   string     `json:"what"`
	Amount unit.Money `json:"amount"`
	Photo  PhotoHash  `json:"receipt,omitempty"`
}
