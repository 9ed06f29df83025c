// Package working draws numbers that show how they came about. A figure
// stands large with a dotted underline; touched, it opens its bench card: the
// formula in words, the formula with numbers, where each number came from, and
// the caution. It works without script and by keyboard.
package working

import (
	"context"
	"strings"
	"unicode"

	"fettle/figure"
)

type rootKey struct{}

// WithRoot lets the links of cards, such as finding/F43, lead below a path
// such as /b/pedlar.
func WithRoot(ctx context.Context, root string) context.Context {
	return context.WithValue(ctx, rootKey{}, root)
}

// lead is where a link of an input leads: links that begin with a slash as
// they are, others below the root.
func lead(ctx context.Context, link string) string {
	if root, ok := ctx.Value(rootKey{}).(string); ok && !strings.HasPrefix(link, "/") {
		return root + "/" + link
	}
	return link
}

// Size is how large a figure is set.
type Size string

// The sizes: 56, 34, 22 and 17 px on a tablet.
const (
	Huge   Size = "huge"
	Large  Size = "large"
	Medium Size = "medium"
	Inline Size = "inline"
)

// joins takes out what joins two numbers of one unit.
var joins = strings.NewReplacer(" of ", " ", " to ", " ")

// cut parts the shown number from its unit, so that the unit can stand
// smaller: "310.5 h" gives "310.5" and " h". A leading £ stays with the number.
// A text with words or several units, such as "37.6 A of 44.0 A", stays whole.
func cut(text string) (number, unit string) {
	i := strings.LastIndexAny(text, "0123456789")
	if i < 0 || len(text)-i > 8 || strings.ContainsFunc(joins.Replace(text[:i]), unicode.IsLetter) {
		return text, ""
	}
	return text[:i+1], text[i+1:]
}

func mono(f figure.Figure) bool { return f.With != "" }
