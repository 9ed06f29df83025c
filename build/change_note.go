package build

import (
	"regexp"

	"fettle/unit"
)

// AddPhoto ties a photo in the vault to the thing it was taken of.
type AddPhoto struct {
	Photo Photo `json:"photo"`
}

// Kind names the act.
func (c *AddPhoto) Kind() string { return "add-photo" }

// Say tells what the change does.
func (c *AddPhoto) Say(*Build) string { return "Photo of " + c.Photo.Of }

var hexHash = regexp.MustCompile(`^[0-9a-f]{64}$`)

// Apply adds the photo.
func (c *AddPhoto) Apply(b *Build) error {
	if err := checkPhoto(c.Photo); err != nil {
		return err
	}
	b.Photos = append(b.Photos, c.Photo)
	return nil
}

func checkPhoto(p Photo) error {
	return first(p.Hash.check("photo, hash"), needText(p.Of, "photo, of"))
}

func (h PhotoHash) check(where string) error {
	if !hexHash.MatchString(string(h)) {
		return rule(ruleID, "a photo is named by the 64 hex digits of its SHA-256").At(where)
	}
	return nil
}

// RaiseSnag puts something to be put right on the list.
type RaiseSnag struct {
	Snag Snag `json:"snag"`
}

// Kind names the act.
func (c *RaiseSnag) Kind() string { return "raise-snag" }

// Say tells what the change does.
func (c *RaiseSnag) Say(*Build) string { return "Snag: " + c.Snag.What }

// Apply adds the snag.
func (c *RaiseSnag) Apply(b *Build) error {
	if c.Snag.ID == "" || b.snag(c.Snag.ID) != nil {
		return rule(ruleID, "the ID is missing or taken").At("snag " + c.Snag.ID)
	}
	if err := b.checkSnag(c.Snag); err != nil {
		return err
	}
	b.Snags = append(b.Snags, c.Snag)
	return nil
}

func (b *Build) checkSnag(s Snag) error {
	where := "snag " + s.ID
	if s.Owner != "" && b.Person(s.Owner) == nil {
		return at(missing("person", s.Owner), where+", owner")
	}
	return needText(s.What, where+", what")
}

// CloseSnag says that a snag is put right.
type CloseSnag struct {
	Snag string      `json:"snag"`
	At   unit.Moment `json:"at"`
}

// Kind names the act.
func (c *CloseSnag) Kind() string { return "close-snag" }

// Say tells what the change does.
func (c *CloseSnag) Say(*Build) string { return "Snag " + c.Snag + " put right" }

// Apply closes the snag.
func (c *CloseSnag) Apply(b *Build) error {
	s := b.snag(c.Snag)
	switch {
	case s == nil:
		return missing("snag", c.Snag)
	case s.Done != 0:
		return rule(ruleOrder, "it is put right already").At("snag " + c.Snag)
	case c.At == 0 || c.At < s.Begun:
		return rule(ruleDates, "the time is missing or lies before it was raised").At("snag " + c.Snag + ", at")
	}
	s.Done = c.At
	return nil
}

func (b *Build) snag(id string) *Snag {
	return find(b.Snags, id, func(s *Snag) string { return s.ID })
}

// WriteNote keeps a word with the build.
type WriteNote struct {
	Note Note `json:"note"`
}

// Kind names the act.
func (c *WriteNote) Kind() string { return "write-note" }

// Say tells what the change does.
func (c *WriteNote) Say(*Build) string { return c.Note.Text }

// Apply adds the note.
func (c *WriteNote) Apply(b *Build) error {
	if err := needText(c.Note.Text, "note, text"); err != nil {
		return err
	}
	b.Notes = append(b.Notes, c.Note)
	return nil
}
