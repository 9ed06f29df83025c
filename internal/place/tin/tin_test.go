package tin

import (
	"encoding/csv"
	"encoding/json"
	"net/http"
	"slices"
	"strings"
	"testing"
	"time"

	"fettle/build"
	"fettle/internal/account"
	"fettle/internal/desk"
	"fettle/internal/placetest"
	"fettle/internal/web"
	"fettle/unit"
)

var (
	blast = unit.Day(2026, time.October, 6)
	given = unit.Day(2027, time.March, 13)
)

func open(t *testing.T, morning unit.Date) *placetest.Shop {
	return placetest.Open(t, morning, func(d desk.Desk) []web.Place { return []web.Place{Place(d)} })
}

func TestAccount_IsExactOnTheDay(t *testing.T) {
	s := open(t, given)
	var a accountSheet
	if err := json.Unmarshal([]byte(s.Get("tin/account?as=json").Body), &a); err != nil {
		t.Fatal(err)
	}
	const pound = unit.Money(100)
	for _, c := range []struct {
		what      string
		got, want unit.Money
	}{
		{"gifts", a.Given, 38_650 * pound}, {"sale", a.Sale, 58_000 * pound}, {"fee", a.Fee, 2_320 * pound}, {"cash", a.Cash, 52_570 * pound},
		{"to the cause", a.Net, 41_760 * pound}, {"gifts + sale − fee − cash", a.Given + a.Sale - a.Fee - a.Cash, a.Net}, {"gifts in kind", a.InKind, 19_301 * pound},
	} {
		if c.got != c.want {
			t.Errorf("%s = %d, want %d", c.what, c.got/pound, c.want/pound)
		}
	}
	if a.Hours != 362*unit.Hour || !a.Sold {
		t.Errorf("hours given = %v, sold %v; want 362 h, sold", a.Hours, a.Sold)
	}
	whom := func(from string) bool {
		return slices.ContainsFunc(a.Thanks, func(t thanks) bool { return t.From == from })
	}
	if !whom("Show days") || whom("Patron, first half") {
		t.Errorf("to thank: %v; want the show days and not the patron", a.Thanks)
	}
}

func TestAccount_PageSaysItAndOpensReceipts(t *testing.T) {
	s := open(t, given)
	body := s.Get("tin/account").Body
	for _, want := range []string{
		"The Larkmere Pedlar was sold by sealed bids for £58,000; with £38,650 given in money, and after the fee of £2,320 and costs of £52,570, £41,760 goes to Marram Sands Rescue Boat.",
		"never added", "kept out of the income", "/b/pedlar/payment/Y060", "£38,650 + £58,000 − £2,320 − £52,570 = £41,760", "19,301", "362",
	} {
		if !strings.Contains(body, want) {
			t.Errorf("the account does not show %q", want)
		}
	}
	if strings.Count(body, "popovertarget=") < 2*len(s.Build(t).Costs) {
		t.Error("not every figure opens its working")
	}
	for _, y := range s.Build(t).Spent {
		if got := s.Get("payment/" + y.ID); got.Status != http.StatusOK {
			t.Errorf("payment %s: status %d", y.ID, got.Status)
		}
	}
	if paper := s.Get("tin/account?as=paper"); strings.Contains(paper.Body, "tin/thank") || !strings.Contains(paper.Body, "Still to thank") {
		t.Error("the account on paper carries forms, or not whom to thank")
	}
}

func TestAccount_BeforeTheSaleIsWhatIsExpected(t *testing.T) {
	s := open(t, blast)
	if body := s.Get("tin/account").Body; !strings.Contains(body, "is to be sold by sealed bids and is expected to bring £58,000") || !strings.Contains(body, "would go to") {
		t.Error("before the sale the account speaks of it as done")
	}
}

func TestAccount_HidesPrices(t *testing.T) {
	s := open(t, given)
	for _, as := range []string{"", "&as=json", "&as=csv", "&as=paper"} {
		body := s.Get("tin/account?prices=hide" + as).Body
		for _, amount := range []string{"52,570", "52570", "38,650", "38650", "32,712", "19,301", "17,000", "6,192"} {
			if strings.Contains(body, amount) {
				t.Errorf("prices=hide%s shows %s", as, amount)
			}
		}
	}
	if body := s.Get("tin/account?prices=hide").Body; !strings.Contains(body, "£41,760") || !strings.Contains(body, "362") {
		t.Error("hidden prices hide what reaches the cause, or the hours to thank for")
	}
	if body := s.Get("tin?prices=hide").Body; strings.Contains(body, "52,570") || strings.Contains(body, "name=\"amount\"") {
		t.Error("the tin with hidden prices shows cash, or takes payments")
	}
	if got := s.Get("payment/Y060?prices=hide").Status; got != http.StatusForbidden {
		t.Errorf("a receipt with hidden prices: status %d, want 403", got)
	}
}

func TestTin_LinesAddUp(t *testing.T) {
	s := open(t, blast)
	rows, err := csv.NewReader(strings.NewReader(s.Get("tin?as=csv").Body)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	money := func(text string) int64 {
		n, err := unit.ParseDecimal(text, 2)
		if err != nil {
			t.Fatalf("%q is no amount", text)
		}
		return n
	}
	var all, spent int64
	for _, r := range rows[1:] {
		all, spent = all+money(r[1]), spent+money(r[2])
		if money(r[1])-money(r[2]) != money(r[3]) {
			t.Errorf("%s: %s less %s is not %s", r[0], r[1], r[2], r[3])
		}
	}
	p, _ := s.Plan(t)
	if all != int64(p.Money.Cash) || spent != int64(p.Money.Spent) {
		t.Errorf("lines add up to %d and %d, want %d and %d", all, spent, p.Money.Cash, p.Money.Spent)
	}
}

func TestTin_SaysWhenASignedChangeIsDue(t *testing.T) {
	s := open(t, blast)
	if body := s.Get("tin").Body; !strings.Contains(body, "£1,640 under") || strings.Contains(body, "signed change") {
		t.Error("before the blast the tin is not £1,640 under, or asks for a signature")
	}
	s.Post("tin/pay", "for", "other/", "what", "a second booth week", "amount", "2000")
	if body := s.Get("tin").Body; !strings.Contains(body, "£360 over") || !strings.Contains(body, "A signed change is due") {
		t.Error("over the budget the tin does not say that a signed change is due")
	}
}

func TestTin_KeepsPaymentsAndGifts(t *testing.T) {
	s := open(t, blast)
	for _, c := range []struct {
		path string
		form []string
	}{
		{"tin/pay", []string{"for", "parts/Q02", "amount", "142"}},
		{"tin/gift", []string{"gift", "small-1", "amount", "1500,50"}},
		{"tin/kind", []string{"what", "Tea for all", "from", "the bakery", "value", "60", "basis", "shop price"}},
		{"tin/thank", []string{"whom", "kind/van"}},
	} {
		if got := s.Post(c.path, c.form...); got.Status != http.StatusSeeOther {
			t.Errorf("%s: status %d", c.path, got.Status)
		}
	}
	b := s.Build(t)
	last := b.Spent[len(b.Spent)-1]
	if last.Ref != "Q02" || last.Amount != 142_00 || last.Day != blast || !strings.Contains(last.What, "cab door skin") {
		t.Errorf("payment = %+v", last)
	}
	for _, g := range b.Gifts {
		if g.ID == "small-1" && (!g.Received || g.Amount != 1500_50 || g.From != "Small gifts and coin boats, autumn") {
			t.Errorf("gift = %+v, want it received, 1500.50, from whom it was promised", g)
		}
	}
	if k := b.Kind[len(b.Kind)-1]; k.What != "Tea for all" || k.Value != 60_00 {
		t.Errorf("gift in kind = %+v", k)
	}
	for _, k := range b.Kind {
		if k.ID == "van" && !k.Thanked {
			t.Error("the van's giver was not thanked")
		}
	}
}

func TestTin_BudgetAndSaleGoOnTheSlip(t *testing.T) {
	s := open(t, blast)
	s.Post("tin/budget", "agreed", "53000", "contingency", "430", "with", "the trustees")
	s.Post("tin/sale", "how", "sealed bids", "low", "40000", "expected", "50000", "high", "60000", "fee", "4")
	slip := s.Slip(t)
	if len(slip) != 2 || slip[0].(*build.AgreeBudget).Budget.Agreed != 53_000_00 || slip[1].(*build.SetSale).Sale.FeePercent != 400 {
		t.Fatalf("slip = %v", slip)
	}
	for _, c := range []struct{ path, name, value, want string }{
		{"tin/budget", "agreed", "", "please give a number"},
		{"tin/pay", "amount", "lots", "is not a number"},
		{"tin/pay", "for", "", "please fill it in"},
		{"tin/sale", "low", "90000", "please"},
		{"tin/kind", "basis", "", "please fill it in"},
	} {
		if got := s.Post(c.path, c.name, c.value); got.Status != http.StatusUnprocessableEntity || !strings.Contains(got.Body, c.want) {
			t.Errorf("%s with %s %q: status %d, want 422 with %q", c.path, c.name, c.value, got.Status, c.want)
		}
	}
}

func TestTin_GuestsReadAndDoNotWrite(t *testing.T) {
	s := open(t, given)
	s.Person.Role = account.Guest
	for _, path := range []string{"tin", "tin/account", "payment/Y060"} {
		if got := s.Get(path); got.Status != http.StatusOK || strings.Contains(got.Body, "tin/thank") {
			t.Errorf("a guest reads %s: status %d, with forms: %v", path, got.Status, strings.Contains(got.Body, "tin/thank"))
		}
	}
	for _, act := range []string{"pay", "gift", "kind", "thank", "budget", "sale"} {
		if got := s.Post("tin/"+act, "amount", "1").Status; got != http.StatusForbidden {
			t.Errorf("a guest posts to %s: status %d, want 403", act, got)
		}
	}
}

func TestTin_EveryDayDraws(t *testing.T) {
	for _, day := range []unit.Date{unit.Day(2026, 9, 15), blast, unit.Day(2026, 12, 21), unit.Day(2027, 2, 22), given} {
		s := open(t, day)
		for _, path := range []string{"tin", "tin?as=paper", "tin?as=json", "tin/account?as=paper"} {
			if got := s.Get(path); got.Status != http.StatusOK {
				t.Errorf("%s on %v: status %d", path, day, got.Status)
			}
		}
	}
}
