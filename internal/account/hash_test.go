package account

import (
	"context"
	"strings"
	"testing"

	"golang.org/x/crypto/argon2"
)

func TestHasher(t *testing.T) {
	h := NewHasher()
	one, err := h.Hash(t.Context(), "4071")
	if err != nil {
		t.Fatal(err)
	}
	two, _ := h.Hash(t.Context(), "4071")
	if one == two {
		t.Error("two hashes of one PIN are the same: no salt")
	}
	cases := []struct {
		name, hash, secret string
		want               bool
	}{
		{"right", one, "4071", true}, {"wrong", one, "4072", false}, {"longer", one, "40710", false},
		{"nobody", "", "4071", false}, {"nobody, nothing", "", "", false},
	}
	for _, c := range cases {
		if got, err := h.Match(t.Context(), c.hash, c.secret); got != c.want || err != nil {
			t.Errorf("%s: got %v, %v, want %v", c.name, got, err, c.want)
		}
	}
	if _, err := h.Match(t.Context(), strings.Replace(one, "t=2", "t=1", 1), "4071"); err == nil {
		t.Error("a hash of a lower cost was taken")
	}
}

// TestHasher_Form compares with the library called by hand on the stated cost.
func TestHasher_Form(t *testing.T) {
	hash, _ := NewHasher().Hash(t.Context(), "words that rust")
	salt, key, err := parse(hash)
	if err != nil {
		t.Fatal(err)
	}
	if want := argon2.IDKey([]byte("words that rust"), salt, 2, 19*1024, 1, 32); string(key) != string(want) {
		t.Error("not argon2id with t=2, m=19 MiB, p=1")
	}
	if !strings.HasPrefix(hash, "$argon2id$v=19$m=19456,t=2,p=1$") {
		t.Errorf("got %q", hash)
	}
}

// TestHasher_TwoAtOnce holds a third caller until its context ends.
func TestHasher_TwoAtOnce(t *testing.T) {
	h := NewHasher()
	h.slots <- struct{}{}
	h.slots <- struct{}{}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := h.Hash(ctx, "4071"); err == nil {
		t.Error("a third hash was under way beside two others")
	}
}

func TestCheckPIN(t *testing.T) {
	for pin, want := range map[string]bool{
		"4071": true, "40718823": true, "1357": true, "407": false, "407188231": false, "40a1": false, "": false,
		"1111": false, "1234": false, "8765": false, "٤٠٧١": false,
	} {
		if err := CheckPIN(pin); (err == nil) != want {
			t.Errorf("%q: %v, want taken %v", pin, err, want)
		}
	}
}

func TestPerson_Validate(t *testing.T) {
	good := Person{ID: "1", Code: "MW", Name: "M. Wrenn", Role: Crew}
	cases := []struct {
		name string
		edit func(*Person)
		want bool
	}{
		{"good", func(*Person) {}, true},
		{"no ID", func(p *Person) { p.ID = "" }, false},
		{"no name", func(p *Person) { p.Name = "" }, false},
		{"line in name", func(p *Person) { p.Name = "a\nb" }, false},
		{"no code", func(p *Person) { p.Code = "" }, false},
		{"space in code", func(p *Person) { p.Code = "M W" }, false},
		{"no role", func(p *Person) { p.Role = Anyone }, false},
		{"a role beyond", func(p *Person) { p.Role = Owner + 1 }, false},
	}
	for _, c := range cases {
		p := good
		c.edit(&p)
		if err := p.Validate(); (err == nil) != c.want {
			t.Errorf("%s: %v, want good %v", c.name, err, c.want)
		}
	}
}

func TestParseRole(t *testing.T) {
	for word, want := range map[string]Role{"guest": Guest, "crew": Crew, "owner": Owner} {
		if got, err := ParseRole(word); got != want || err != nil {
			t.Errorf("%s: got %v, %v", word, got, err)
		}
	}
	for _, word := range []string{"anyone", "", "boss"} {
		if _, err := ParseRole(word); err == nil {
			t.Errorf("%q was taken for a role", word)
		}
	}
}
