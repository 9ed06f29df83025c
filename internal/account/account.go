// Package account is the contract of the people who may sign in: who they are,
// what they may do, how a PIN or password is kept, and the store that keeps
// them. Nothing here knows a database or a page; the folder sqlite holds the
// store.
package account

import (
	"context"
	"fmt"
	"time"

	"fettle/fault"
)

// Role says how much a person may do. A higher role may do all that a lower
// one may.
type Role uint8

// The roles, least first.
const (
	Anyone Role = iota // not signed in: sign-in, first run, trust page, static files
	Guest              // may look: a patron, a trustee, a visitor
	Crew               // may record and plan: the people of the shop
	Owner              // may also add people and edit the rules of the house
)

var roleNames = [...]string{Anyone: "anyone", Guest: "guest", Crew: "crew", Owner: "owner"}

// String names the role in lower case.
func (r Role) String() string {
	if int(r) < len(roleNames) {
		return roleNames[r]
	}
	return fmt.Sprintf("role(%d)", uint8(r))
}

// ParseRole reads guest, crew or owner. Another word is an Invalid fault.
func ParseRole(word string) (Role, error) {
	for r := Guest; r <= Owner; r++ {
		if roleNames[r] == word {
			return r, nil
		}
	}
	return Anyone, fault.New(fault.Invalid, "%q is not a role", word).WithHint("Choose guest, crew or owner.")
}

// Person is one who may sign in.
type Person struct {
	ID   string // never reused
	Code string // the initials by which builds know the person, such as MW
	Name string // as written on the name plate
	Role Role
	PIN  bool // signs in with digits on a keypad; else with a password
}

// Account is a person with the hash of their PIN or password.
type Account struct {
	Person
	Hash    string    // as Hasher.Hash writes it
	Changed time.Time // when the hash was last set, millisecond UTC; ends older sessions
}

// Store keeps accounts. Every error is a fault: NotFound for an unknown
// person, Conflict for a code that is taken, Invalid as Person.Validate says.
type Store interface {
	// People lists everybody who may sign in, by name.
	People(ctx context.Context) ([]Person, error)
	// Account returns one person with the hash to compare against.
	Account(ctx context.Context, id string) (Account, error)
	// First keeps the owner's account only while there is no account at all;
	// otherwise it is a Conflict.
	First(ctx context.Context, a Account) error
	// Add keeps a new account.
	Add(ctx context.Context, a Account) error
	// SetHash replaces the hash of a person's PIN or password at a time.
	SetHash(ctx context.Context, id, hash string, pin bool, at time.Time) error
	// Remove ends a person's account. The last owner cannot be removed: Conflict.
	Remove(ctx context.Context, id string) error
}
