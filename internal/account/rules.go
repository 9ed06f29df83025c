package account

import (
	"strings"
	"unicode/utf8"

	"fettle/fault"
)

// The bounds of what a person may choose.
const (
	MinPIN, MaxPIN           = 4, 8
	MinPassword, MaxPassword = 10, 200
	maxName, maxCode         = 60, 12
)

// CheckPIN refuses a PIN that is not 4 to 8 digits, that repeats one digit or
// that only counts up or down.
func CheckPIN(pin string) error {
	if len(pin) < MinPIN || len(pin) > MaxPIN || strings.Trim(pin, "0123456789") != "" {
		return fault.New(fault.Invalid, "must be %d to %d digits", MinPIN, MaxPIN).At("pin")
	}
	step := int(pin[1]) - int(pin[0])
	for i := 1; i < len(pin); i++ {
		if int(pin[i])-int(pin[i-1]) != step {
			return nil
		}
	}
	if step >= -1 && step <= 1 {
		return fault.New(fault.Invalid, "is too easy to guess").At("pin").WithHint("Do not repeat one digit or count up or down.")
	}
	return nil
}

// CheckPassword refuses a password that is too short or too long.
func CheckPassword(password string) error {
	n := utf8.RuneCountInString(password)
	if n < MinPassword || n > MaxPassword {
		return fault.New(fault.Invalid, "must have %d to %d letters", MinPassword, MaxPassword).At("password").
			WithHint("Three or four words that do not belong together make a good one.")
	}
	return nil
}

// Validate refuses a person without an ID, a name, a code of letters and
// digits, or a role. Rules: 1 ID, 2 name, 3 code, 4 role.
func (p Person) Validate() error {
	switch {
	case p.ID == "":
		return fault.New(fault.Invalid, "the person has no number").At("id")
	case p.Name == "" || len(p.Name) > maxName || strings.ContainsFunc(p.Name, control):
		return fault.New(fault.Invalid, "must have 1 to %d letters", maxName).At("name")
	case p.Code == "" || len(p.Code) > maxCode || strings.ContainsFunc(p.Code, notCode):
		return fault.New(fault.Invalid, "must be 1 to %d letters or digits, such as MW", maxCode).At("code")
	case p.Role < Guest || p.Role > Owner:
		return fault.New(fault.Invalid, "must be guest, crew or owner").At("role")
	}
	return nil
}

func control(r rune) bool { return r < ' ' || r == 0x7f }

func notCode(r rune) bool {
	return (r < 'A' || r > 'Z') && (r < 'a' || r > 'z') && (r < '0' || r > '9') && r != '-'
}
