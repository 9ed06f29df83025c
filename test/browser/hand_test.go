package browser

import (
	"context"
	"fmt"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// point is a place on the screen in CSS pixels.
type point struct{ X, Y float64 }

// finger touches the middle of an element, after bringing it into view and
// waiting until nothing on the page moves.
func (p *tab) finger(css string) chromedp.Action[chromedp.Void] {
	return chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		at, err := ask[*point](p, fmt.Sprintf(`(async () => {
			const e = document.querySelector(%q);
			if (!e) return null;
			await Promise.allSettled(document.getAnimations().map((a) => a.finished));
			e.scrollIntoView({ block: "center", inline: "center", behavior: "instant" });
			const r = [...e.getClientRects()].find((r) => r.width && r.height);
			return r ? { X: r.x + r.width / 2, Y: r.y + r.height / 2 } : null;
		})()`, css))
		if err != nil {
			return err
		}
		if at == nil {
			return fmt.Errorf("nothing to touch at %s", css)
		}
		_, err = chromedp.TapXY(at.X, at.Y)(ctx, t)
		return err
	})
}

// tap touches an element that stays on the page.
func (p *tab) tap(css string) {
	p.Helper()
	p.must("touch "+css, p.try(p.finger(css)))
}

// follow touches an element that leads to another page.
func (p *tab) follow(css string) {
	p.Helper()
	p.leads("touch "+css, p.finger(css))
}

// labelled is a selector by what a link or button says; it marks the element.
func (p *tab) labelled(kind, says string) string {
	p.Helper()
	p.until(kind+" "+says, fmt.Sprintf(`(() => {
		document.querySelectorAll("[data-labelled]").forEach((e) => e.removeAttribute("data-labelled"));
		const e = [...document.querySelectorAll(%q)].find((e) => (e.getAttribute("aria-label") ?? e.innerText ?? "").trim().startsWith(%q) && e.getClientRects().length);
		e?.setAttribute("data-labelled", "");
		return e;
	})()`, kind, says))
	return "[data-labelled]"
}

// write types into a field after emptying it.
func (p *tab) write(css, text string) {
	p.Helper()
	p.tap(css)
	p.do(chromedp.Evaluate[chromedp.Void]("document.activeElement.select?.()"), chromedp.KeyEvent(text))
}

// press presses keys.
func (p *tab) press(keys ...string) {
	p.Helper()
	for _, k := range keys {
		p.must("key", p.try(chromedp.KeyEvent(k)))
	}
}

// paste puts a text into the focused field in one act.
func (p *tab) paste(text string) {
	p.Helper()
	_, err := chromedp.Call(p.ctx, input.InsertText, input.InsertTextParams{Text: text})
	p.must("paste", err)
}

// tabTo presses Tab until the element is focused, and checks that the eye can
// see where the focus is.
func (p *tab) tabTo(css string) {
	p.Helper()
	for range 200 {
		p.press(kb.Tab)
		if eval[bool](p, fmt.Sprintf("document.activeElement?.matches(%q) ?? false", css)) {
			p.seen(css)
			return
		}
	}
	p.must("keyboard", fmt.Errorf("200 times Tab did not reach %s", css))
}

// seen checks that the focused element, or what stands for it, looks different
// from when it is not focused.
func (p *tab) seen(css string) {
	p.Helper()
	if !eval[bool](p, `(() => {
		const e = document.activeElement;
		const all = [e, e.parentElement, e.closest("label"), ...e.querySelectorAll("*")].filter(Boolean);
		const look = () => all.map((x) => {
			const s = getComputedStyle(x);
			return [s.outlineStyle === "none" ? "" : s.outlineWidth + s.outlineColor, s.boxShadow, s.stroke, s.strokeWidth].join();
		}).join(";");
		const focused = look();
		e.blur();
		const not = look();
		e.focus({ preventScroll: true });
		return focused !== not;
	})()`) {
		p.shoot("no-focus")
		p.Errorf("%s: the focus on %s cannot be seen", p.where(), css)
	}
}
