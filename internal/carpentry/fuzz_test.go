package carpentry

import (
	"math"
	"testing"
)

// Whatever the sides, a box that passes Check has a shell that adds up, fits
// its own hull, and Size keeps its promise or says why not.
func FuzzBox(f *testing.F) {
	f.Add(.6, .35, .4, 20.0, .018, .03, true)
	f.Add(.04, 1e-3, 1e9, 59.0, 1e-6, 1e-9, true)
	f.Add(math.NaN(), .3, .3, 0.0, .018, math.Inf(1), false)
	f.Fuzz(func(t *testing.T, w, h, d, slope, panel, net float64, wedge bool) {
		b := Box{Form: Cuboid, Width: w, Height: h, Depth: d, Panel: panel}
		if wedge {
			b.Form, b.SlopeDeg = Wedge, slope
		}
		if math.Max(w, math.Max(h, d)) > 10 || panel < 1e-3 {
			return // beyond what the job document lets in
		}
		if b.Check() == nil {
			out, in := b.Outside().Volume(), b.Inside().Volume()
			wood := 0.0
			for _, p := range b.Panels() {
				wood += p.Volume() * float64(p.Count)
			}
			if !(in > 0 && in < out) || math.Abs(wood-(out-in)) > 1e-9*out {
				t.Errorf("%+v: outside %g, inside %g, wood %g", b, out, in, wood)
			}
			if p := b.Pass(w+h+d, w+h+d, 0); !p.Passes {
				t.Errorf("%+v does not pass a hole wider than itself: %+v", b, p)
			}
		}
		b.Depth = 0
		if got, err := Size(b, Box{Width: 1, Height: 1, Depth: 1}, net, Displacement{}, Limits{Most: Sides{Depth: 3}}); err == nil {
			if v := got.GrossM3(); math.Abs(v-net) > 2e-6*net {
				t.Errorf("%+v holds %g, not %g", got, v, net)
			}
		}
	})
}
