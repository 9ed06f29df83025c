package browser

import "testing"

func TestLook(t *testing.T) {
	s := demo(t)
	p := tablet(t, s.url)
	for _, path := range []string{"/b/pedlar/van", "/b/pedlar/metal", "/b/pedlar/metal/new?panel=P04&x=2000&z=1800", "/b/pedlar/read-in", "/b/pedlar/slip", "/b/pedlar/metal/findings", "/b/pedlar/wall", "/b/pedlar/stores", "/b/pedlar/away"} {
		p.open(path)
		p.shoot("x" + path[len("/b/pedlar/"):len("/b/pedlar/")+3])
		t.Log(path, p.saw.weight())
		p.saw.clear()
	}
	p.quiet()
}
