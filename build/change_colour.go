package build

import "slices"

// SetColour adds a colour of the look, or draws one anew. Paint of it need not
// be there yet.
type SetColour struct {
	Colour Colour `json:"colour"`
}

// Kind names the act.
func (c *SetColour) Kind() string { return "set-colour" }

// Say tells what the change does.
func (c *SetColour) Say(b *Build) string {
	drawn := c.Colour.Name + ", drawn as " + c.Colour.Face
	if c.Colour.Flop != "" {
		drawn += ", flop " + c.Colour.Flop
	}
	old := b.Colour(c.Colour.ID)
	switch {
	case old == nil:
		return "Colour added: " + drawn
	case old.Name != c.Colour.Name:
		return "Colour " + old.Name + " is now " + drawn
	}
	return "Colour " + drawn
}

// Apply adds the colour or takes the place of the one of its ID.
func (c *SetColour) Apply(b *Build) error {
	if err := checkColour(c.Colour); err != nil {
		return err
	}
	b.Colours = slices.Clone(b.Colours)
	if old := b.Colour(c.Colour.ID); old != nil {
		*old = c.Colour
		return nil
	}
	b.Colours = append(b.Colours, c.Colour)
	return nil
}
