package build_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"fettle/build"
	"fettle/fault"
	"fettle/unit"
)

const (
	h  = unit.Hour
	mm = unit.Millimetre
)

// monday is the day the small build came in.
var monday = unit.Day(2026, time.March, 2)

// cart is a small build with one or two of every noun. MW welds, WA builds
// and can weld, LE helps; nobody does the trade XX.
func cart() build.Build {
	b := build.Build{
		Name: "cart", Title: "The Cart", Vehicle: build.Vehicle{Name: "Hand cart", Label: "The Cart", Length: 2 * unit.Metre},
		Promise: build.Promise{In: monday, Ready: monday + 60, Day: monday + 62, Account: monday + 90}, Currency: unit.Currency{Code: "GBP", Symbol: "£"},
		Risk: build.Risk{Absence: 0.02, Ranges: []build.RiskRange{{Kind: "metal", Factor: build.Span{Low: 0.9, Mode: 1, High: 1.3}}},
			Reserve: []build.Reserve{{Task: "T1", Trade: "MW", Hours: build.Span{Mode: 2, High: 9}}},
			Events:  []build.Event{{ID: "E1", What: "rot in the sill", Task: "T1", Chance: 0.2, Work: []build.Leg{{Trade: "MW", Hours: 9 * h}}}},
			Late:    build.Judged{Range: build.Span{High: 5}}, People: build.Judged{Range: build.Span{Low: 0.9, Mode: 1, High: 1.1}}},
		Trades: []build.Trade{{ID: "MW", Name: "metal"}, {ID: "WA", Name: "assembly"}, {ID: "XX", Name: "gilding"}},
		People: []build.Person{
			{ID: "MW", Name: "Mo", Trades: []build.TradeID{"MW"}, Starts: "08:00", Week: week(8), Rate: 34_00},
			{ID: "WA", Name: "Wyn", Trades: []build.TradeID{"WA", "MW"}, Starts: "08:00", Week: week(7), Rate: 30_00},
			{ID: "LE", Name: "Lee", Starts: "08:00", Helps: true},
		},
		Closures: []build.Closure{{First: monday + 20, Last: monday + 21, Why: "fair"}},
		Absences: []build.Absence{{Person: "WA", First: monday + 3, Last: monday + 3, Why: "dentist"}},
		Overtime: []build.Overtime{{Person: "MW", Day: monday + 5, Hours: 4 * h}},
		Bays:     []build.Bay{{ID: "bay", Name: "Bay", Units: 1, Clearance: 20}},
		Views:    []build.View{{ID: "left", Label: "Left", Plane: "xz"}},
		Colours:  []build.Colour{{ID: "grey", Name: "Grey"}, {ID: "blue", Name: "Blue"}},
		Zones:    []build.Zone{{ID: "outside", Name: "outside", Colour: "grey", Extra: unit.SquareMetre}, {ID: "inside", Name: "inside"}},
		Panels: []build.Panel{
			{ID: "P1", Name: "Side", Side: "L", Gauge: mm, Areas: []build.ZoneArea{{Zone: "outside", Area: 2 * unit.SquareMetre}}, Decision: build.Keep, State: build.Keep, Task: "T1", Outlines: []build.Outline{{View: "left"}}},
			{ID: "P2", Name: "Side", Side: "R", Gauge: mm, Decision: build.Repair, State: build.InEpoxy, Task: "T1"},
		},
		Findings: []build.Finding{{ID: "F01", Panels: []build.PanelID{"P2"}, Found: "arrival", What: "lace", Size: build.Size{Width: 100 * mm, Height: 50 * mm},
			Remedy: build.Repair, Work: []build.Leg{{Trade: "MW", Hours: 6 * h}}, Task: "T1", State: build.Settled}},
		Tasks: []build.Task{
			{ID: "T1", Name: "sides", Stage: "metal", Findings: true, Legs: []build.Leg{{Trade: "MW", Hours: 4 * h}}, Bay: "bay", Risk: "metal", State: build.NotBegun},
			{ID: "O1", Name: "plating", Stage: "away", Outwork: "O1", Wait: 5, After: []build.TaskID{"T1"}, State: build.NotBegun},
			{ID: "T2", Name: "fit", Stage: "assembly", Legs: []build.Leg{{Trade: "WA", Hours: 10 * h}}, After: []build.TaskID{"O1"}, Guess: "T1", State: build.NotBegun},
		},
		Moves:   []build.Move{{Task: "T1", From: "MW", To: "WA", Hours: h}},
		Sublets: []build.Sublet{{Task: "T1", What: "bending", Legs: []build.Leg{{Trade: "MW", Hours: h}}, Price: 40_00, Days: 2}},
		Offers:  []build.Sublet{{Task: "T2", What: "wheels", Legs: []build.Leg{{Trade: "WA", Hours: 2 * h}}, Price: 90_00, Days: 3}},
		Groups:  []build.Group{{ID: "G1", Name: "fittings", Bags: 1, Pieces: 4}},
		Bags:    []build.Bag{{ID: "G1-1", Group: "G1", Pieces: 4, State: build.OnShelf}},
		Missing: []build.MissingPiece{{What: "hinge pin", Bag: "G1-1", Part: "Q1"}},
		Parts: []build.Part{
			{ID: "Q1", Name: "hinge", Quantity: 2, Price: 5_50, Lead: 4, Task: "T2", State: build.Wanted, Supplier: "smithy", Because: []build.FindingID{"F01"}},
			{ID: "Q2", Name: "tyre", Quantity: 1, Price: 30_00, Lead: 9, Task: "T2", State: build.Ordered, Ordered: monday},
			{ID: "Q3", Name: "lamp", Quantity: 1, Price: 12_00, Task: "T2", Donated: true, State: build.Wanted},
		},
		Outwork:    []build.Outwork{{ID: "O1", What: "bright work", Pieces: 4, Task: "O1", Quoted: 5, P90: 8, Cost: 60_00, State: build.ToPack}},
		Blanks:     []build.Blank{{ID: "B0", Name: "patch", Gauge: mm, Width: 90 * mm, Height: 60 * mm, Quantity: 2}},
		Strips:     []build.Strip{{ID: "K0", Gauge: mm, Bend: build.Bend{Angle: 90, Radius: mm}, Flat: 100 * mm, First: 51 * mm, Second: 51 * mm}},
		Sheets:     []build.Sheet{{ID: "M1", Name: "plain", Gauge: mm, Width: 500 * mm, Height: 250 * mm, Quantity: 2, Part: "Q1"}},
		SheetPlans: []build.SheetPlan{{Gauge: mm, Placed: []build.BlankPlaced{{Blank: "B0", Sheet: "M1", X: 5, Y: 5}}}},
		Products:   cartPaint(),
		Tins: []build.Tin{
			{ID: "N1", Product: "top", Batch: "B1", Size: unit.Litre, Left: unit.Litre},
			{ID: "N2", Product: "top", Part: 1, Size: unit.Litre, Left: unit.Litre / 2, Grade: "fast"},
			{ID: "N3", Product: "top", Batch: "B2", Size: unit.Litre, Left: unit.Litre},
		},
		Pours: []build.Pour{{ID: "X1", Product: "top", Panels: []build.PanelID{"P1"}, Zones: []build.ZoneID{"outside"}, Coats: 2, At: monday.At(9, 0), By: "MW", Metal: 18, Air: 19, RH: 50,
			Parts: []build.Poured{{Tin: "N1", Volume: unit.Litre / 4}, {Part: 1, Volume: unit.Litre / 8}}}},
		Coats:   []build.Coat{{ID: "K1", Product: "top", Panels: []build.PanelID{"P1"}, Zones: []build.ZoneID{"outside"}, Number: 1, At: monday.At(10, 0), Metal: 18, Air: 19, RH: 50, Pour: "X1", By: "MW"}},
		Films:   []build.Film{{ID: "D1", Panel: "P1", Zone: "outside", Product: "top", Dry: []float64{48, 55}, Under: 25, At: monday.At(15, 0)}},
		Solvent: build.SolventLimits{Title: "house rule", Note: "the owner's own, since March", Classes: []build.SolventClass{{ID: "top", Name: "topcoat", Most: 420, Staged: true}}},
		WarmUps: []build.WarmUp{{ID: "U1", Bay: "bay", At: monday.At(7, 0), From: 12, To: 18, Minutes: 80, Air: 22}},
		Cards:   []build.Card{cartCard()},
		Redos:   []build.Redo{{ID: "R1", Panels: []build.PanelID{"P1"}, Why: "runs", Coats: []build.RedoCoats{{Product: "top", Coats: 1}}, Work: []build.Leg{{Trade: "WA", Hours: h}}, Days: 1, Task: "T2"}},
		Looks: []build.Look{
			{ID: "plain", Name: "Plain", Zones: []build.LookZone{{Zone: "outside", Colour: "grey", Base: "top", Undercoat: "under"}}, Break: build.Break{Z: 400 * mm, Upper: "outside", Lower: "inside"}, Chosen: true},
			{ID: "split", Name: "Split", Zones: []build.LookZone{{Zone: "outside", Colour: "blue", Base: "blue"}}, Panels: []build.LookPanel{{Panel: "P1", Areas: []build.ZoneArea{
				{Zone: "outside", Area: unit.SquareMetre}, {Zone: "inside", Area: unit.SquareMetre}}}}},
		},
		Circuits: []build.Circuit{{ID: "C1", Name: "lamp", Length: unit.Metre, Load: 2, DropLimit: 3}},
		Pieces: []build.Piece{{ID: "S1", Name: "seat", Width: 400 * mm, Height: 300 * mm, Quantity: 1, Material: "hide", Grade: "A"},
			{ID: "S2", Name: "wing L", Width: 90 * mm, Height: 60 * mm, Quantity: 2, Material: "hide", Grade: "B", Shape: build.Shape{Outer: build.Ring{{0, 0}, {90 * mm, 0}, {0, 60 * mm}}}, Axis: build.Axis{Angle: 90, Tolerance: 15}, Pair: "S3"},
			{ID: "S3", Name: "wing R", Width: 90 * mm, Height: 60 * mm, Quantity: 2, Material: "hide", Grade: "B", Pair: "S2"},
			{ID: "S4", Name: "mat", Width: 900 * mm, Height: 600 * mm, Quantity: 1, Material: "felt", Grade: "C"}},
		Rolls: []build.Roll{{ID: "R1", Material: "felt", Width: 1400 * mm, Nap: true, Price: 9_00, Part: "Q1"}},
		Hides: []build.Hide{
			{ID: "H1", Material: "hide", Lot: "L1", Area: 4 * unit.SquareMetre, Usable: 0.7, Price: 200_00, Outline: build.Box(2000*mm, 2000*mm), OutlineError: 4 * mm,
				Zones: []build.HideZone{{Shape: build.Box(300*mm, 2000*mm), Grade: "B", Part: "belly"}}, Headings: []build.Heading{{At: build.Spot{1000 * mm, 1000 * mm}, Angle: 90}},
				Marks: []build.Mark{{ID: "K1", Kind: "scar", Shape: build.Box(20*mm, 90*mm), Grade: "C"}}, KeepOuts: []build.Shape{build.Box(9*mm, 9*mm)}},
			{ID: "H2", Material: "hide", Lot: "L2", Area: 2 * unit.SquareMetre, Usable: 0.7}},
		Layouts: []build.Layout{{ID: "hide", Material: "hide", Placed: []build.Placed{{Piece: "S1", Hide: "H1", X: 500, Y: 500, Rotation: 12.5}, {Piece: "S2", Copy: 1, Hide: "H1", X: 1200, Y: 90, Locked: true}}}},
		Motif:   build.Motif{Places: []build.MotifPlace{{ID: "M1", Where: "tailboard", Needs: []build.TaskID{"T2"}}}},
		Budget:  build.Budget{Agreed: 900_00, Contingency: 50_00},
		Costs:   []build.CostLine{{ID: "C1", Name: "paint", Amount: 80_00, Task: "T2"}},
		Gifts:   []build.Gift{{ID: "A1", From: "the fair", Amount: 300_00, Day: monday}},
		Kind:    []build.GivenKind{{ID: "K1", What: "wood", Value: 50_00, Basis: "new price"}},
		Sale:    build.Sale{How: "raffle", Low: 500_00, Expected: 700_00, High: 900_00, FeePercent: 400, Opens: monday + 62, Closes: monday + 70},
		Spent:   []build.Payment{{ID: "B1", Day: monday, For: "line", Ref: "C1", What: "thinner", Amount: 9_00}},
		Hours:   []build.Hours{{ID: "W1", Person: "MW", Task: "T1", Finding: "F01", Start: monday.At(8, 0), Stop: monday.At(10, 0), Worked: 2 * h}},
		Photos:  []build.Photo{{Hash: build.PhotoHash(strings.Repeat("ab", 32)), Of: "panel/P1"}},
		Snags:   []build.Snag{{ID: "S1", What: "squeak", Owner: "WA", Begun: monday.At(9, 0)}},
	}
	sewn(&b)
	wired(&b)
	return b
}

// cartPaint is a sealer and two top coats, one in use.
func cartPaint() []build.Product {
	return []build.Product{
		{ID: "top", Name: "Top coat", Mix: []float64{2, 1}, Solids: 40, Coats: 2, Film: 25, Transfer: 0.6, Purge: 300_000, Zones: []build.ZoneID{"outside"}, Task: "T2",
			Use: build.SingleStage, Colour: "grey", Over: []build.ProductID{"under"}, Parts: []build.MixPart{{Name: "top", Density: 1.2, TinSize: unit.Litre}, {Name: "thin", Graded: true}},
			Grades: []build.Grade{{Name: "fast", From: 10, To: 19}}, Times: build.Times{RecoatFrom: 30, RecoatTo: 600}, LowMetal: 10, HighRH: 80, Viscosity: build.Viscosity{Cup: "Ford 4", Seconds: 18}, Solvent: "top"},
		{ID: "under", Name: "Sealer", Solids: 38, Coats: 1, Film: 25, Transfer: 0.6, Zones: []build.ZoneID{"outside"}, Use: build.Sealer},
		{ID: "blue", Name: "Blue", Mix: []float64{1, 1}, Solids: 40, Coats: 2, Film: 25, Transfer: 0.6, Use: build.SingleStage, Colour: "blue",
			Parts: []build.MixPart{{Name: "blue"}, {Name: "thin"}}},
	}
}

// cartCard is a let-down card read two ways.
func cartCard() build.Card {
	black, white := build.Reading{Ground: "black", Lab: []float64{10, 0, 0}}, build.Reading{Ground: "white", RGB: "#F0F0F0"}
	step := func(coats int) build.Step {
		return build.Step{Coats: coats, Film: 25 * float64(coats), Readings: []build.Reading{{Ground: "black", Spectrum: make([]float64, build.Bands)}, {Ground: "white", Lab: []float64{60, 1, -2}, Angle: "flop"}}}
	}
	return build.Card{ID: "C1", Product: "top", Over: "under", Grounds: []build.Reading{black, white}, Day: monday, By: "MW", Gun: "1.3", Steps: []build.Step{step(1), step(2)}}
}

func week(hours unit.Effort) (w [7]unit.Effort) {
	for i := range 5 {
		w[i] = hours * h
	}
	return w
}

// copyOf returns a copy that shares nothing with b.
func copyOf(t testing.TB, b build.Build) build.Build {
	t.Helper()
	data, err := json.Marshal(b)
	if err != nil {
		t.Fatal(err)
	}
	var c build.Build
	if err := json.Unmarshal(data, &c); err != nil {
		t.Fatal(err)
	}
	return c
}

// wantRule fails unless err is an Invalid fault of a rule at a place. Where a
// thing named does not exist, the message names it.
func wantRule(t testing.TB, what string, err error, number int, where string) {
	t.Helper()
	f, ok := errors.AsType[*fault.Fault](err)
	switch {
	case !ok || f.Kind != fault.Invalid:
		t.Errorf("%s: %v, want a fault of the kind invalid", what, err)
	case !strings.HasSuffix(f.Msg, fmt.Sprintf("(rule %d)", number)):
		t.Errorf("%s: %q, want rule %d", what, f, number)
	case !strings.Contains(f.Error(), where):
		t.Errorf("%s: %q, want it to name %q", what, f, where)
	}
}

func TestCart_IsWhole(t *testing.T) {
	b := cart()
	if err := b.Validate(); err != nil {
		t.Fatal(err)
	}
}
