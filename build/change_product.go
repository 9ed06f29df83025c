package build

import (
	"fmt"
	"slices"
)

// SetProduct enters a product's sheet, or enters it anew.
type SetProduct struct {
	Product Product `json:"product"`
}

// Kind names the act.
func (c *SetProduct) Kind() string { return "set-product" }

// Say tells what the change does.
func (c *SetProduct) Say(b *Build) string {
	text := fmt.Sprintf("Sheet of %s", c.Product.Name)
	if b.Product(c.Product.ID) == nil {
		text = fmt.Sprintf("Paint %s added: %s", c.Product.ID, c.Product.Name)
	}
	if c.Product.Sheet != "" {
		text += ", from " + c.Product.Sheet
	}
	return text
}

// Apply adds the product or takes the place of the one of its ID. Tins, mixes
// and looks that name it must still fit.
func (c *SetProduct) Apply(b *Build) error {
	p := c.Product
	where := "paint product " + string(p.ID)
	if p.ID == "" {
		return rule(ruleID, "the ID is missing").At(where)
	}
	if err := first(needText(p.Name, where+", name"), checkMix(p.Mix, where+", mix"), b.checkProduct(p)); err != nil {
		return err
	}
	next := *b
	next.Products = slices.Clone(b.Products)
	if old := next.Product(p.ID); old != nil {
		*old = p
	} else {
		next.Products = append(next.Products, p)
	}
	if err := next.checkPaint(); err != nil {
		return err
	}
	b.Products = next.Products
	return nil
}

// checkMix applies rule 3 to the parts of a mix: none below zero, and some paint.
func checkMix(mix []float64, where string) error {
	for i, n := range mix {
		if err := within(n, 0, 1000, "the part", where); err != nil {
			return err
		}
		if i == 0 && n == 0 {
			return rule(ruleRange, "the first part, the paint, is none").At(where)
		}
	}
	return nil
}
