package enclosure

import (
	"math"
	"math/cmplx"
	"math/rand/v2"
	"testing"

	"bootfloor/internal/air"
	"bootfloor/internal/job"
	"bootfloor/internal/network"
)

// randomBox draws a box of any type within what the document allows.
func randomBox(r *rand.Rand) (job.Box, job.Place) {
	span := func(lo, hi float64) float64 { return lo * math.Pow(hi/lo, r.Float64()) }
	maybe := func(lo, hi float64) float64 {
		if r.IntN(2) == 0 {
			return 0
		}
		return span(lo, hi)
	}
	port := func() *job.Port {
		p := &job.Port{Shape: []string{"round", "slot"}[r.IntN(2)], Count: 1 + r.IntN(8), DiameterMM: span(10, 600),
			WidthMM: span(5, 2000), HeightMM: span(5, 2000), LengthMM: maybe(3, 5000), TuningHz: span(5, 300), QP: maybe(1, 1000),
			Ends: []string{"flanged_free", "flanged_flanged", "free_free", "wall"}[r.IntN(4)]}
		return p
	}
	kinds := Kinds()
	b := job.Box{Type: kinds[r.IntN(len(kinds))].Key, NetL: span(0.5, 2000), FrontL: span(0.5, 2000), Lining: r.Float64(),
		QL: maybe(1, 1000), QA: maybe(1, 1000), Port: port(), Front: port(), Isobaric: r.IntN(3) == 0, PanelMM: span(3, 60),
		WidthMM: maybe(50, 3000), HeightMM: maybe(50, 3000), DepthMM: maybe(50, 3000),
		Passive: &job.Passive{Count: 1 + r.IntN(8), SdCM2: span(5, 5000), MassG: span(1, 5000), AddedG: maybe(1, 10000), FreeHz: span(1, 300), Qmp: span(0.3, 100)},
		Vent:    &job.Aperiodic{AreaCM2: span(0.5, 5000), Resistance: span(1, 1e6)}, TapMM: maybe(1, 10000)}
	for range 1 + r.IntN(24) {
		b.Line = append(b.Line, job.Segment{LengthMM: span(5, 10000), StartCM2: span(1, 20000), EndCM2: span(1, 20000), Stuffing: maybe(0.1, 60)})
	}
	at := job.Place{GapMM: maybe(5, 3000), Fires: []string{"up", "down", "front", "rear", "left", "right"}[r.IntN(6)]}
	return b, at
}

// Any box that the document allows either is refused with a sentence or gives
// finite answers, a load on the amplifier with a positive real part, and no
// more power than it is given.
func FuzzAssemble(f *testing.F) {
	for seed := range uint64(150) {
		f.Add(seed)
	}
	omega := grid(5, 600, 12)
	f.Fuzz(func(t *testing.T, seed uint64) {
		r := rand.New(rand.NewPCG(seed, 7))
		b, at := randomBox(r)
		var n network.Network
		a := air.MustStandard()
		u := testUnit(1+r.IntN(3), 1+r.IntN(3))
		p, err := Assemble(Setting{Net: &n, Air: a, World: newOpenWorld(&n), At: at}, u, b)
		if err != nil {
			if len(err.Error()) < 30 {
				t.Errorf("%s: %q says too little", b.Type, err)
			}
			return
		}
		if !(p.SystemHz > 0) || math.IsInf(p.SystemHz, 0) || len(p.Radiating) == 0 || len(p.Cones) == 0 || !(p.ConeArea > 0) {
			t.Fatalf("%s: parts %+v", b.Type, p)
		}
		for _, v := range p.Vents {
			if !(v.TuningHz > 0) || !(v.Area > 0) || !(v.LengthM > 0) || v.Name == "" {
				t.Fatalf("%s: vent %+v", b.Type, v)
			}
		}
		s := n.Solve(omega)
		for k := range omega {
			z := 1 / s.Current[0][p.Mesh][k]
			if !(real(z) > 0) || cmplx.IsInf(z) {
				t.Fatalf("%s: load %v at %.3g Hz", b.Type, z, omega[k]/(2*math.Pi))
			}
			if v := radiated(p, s, k); cmplx.IsNaN(v) || cmplx.IsInf(v) {
				t.Fatalf("%s: radiates %v", b.Type, v)
			}
		}
		energy(t, u, b, at, omega)
		for _, front := range []bool{false, true} {
			if o, err := PortFor(b, front, a); err == nil && !(o.LengthMM > 0 && o.TuningHz > 0) {
				t.Fatalf("port %+v", o)
			}
		}
		if g, err := PassiveAdded(b, a, 30); err == nil && !(g >= 0) {
			t.Fatalf("mass to add %g", g)
		}
	})
}

// energy puts a box into an open half space: what it radiates and what its
// coils turn into heat never exceed what the amplifier delivers.
func energy(t *testing.T, u Unit, b job.Box, at job.Place, omega []float64) {
	t.Helper()
	a := air.MustStandard()
	var n network.Network
	space := network.HalfSpace{Air: a}
	p, err := Assemble(Setting{Net: &n, Air: a, World: openWorld{n.AddChamber(space)}, At: at}, u, b)
	if err != nil {
		t.Fatal(err)
	}
	square := func(v complex128) float64 { return real(v)*real(v) + imag(v)*imag(v) }
	s := n.Solve(omega)
	for k, w := range omega {
		flow := radiated(p, s, k)
		if b.Type == "infinite_baffle" {
			flow = 0 // its back feeds the same space
		}
		var z [1]complex128
		space.Impedance(k, w, z[:])
		i := s.Current[0][p.Mesh][k]
		drawn := real(i)
		spent := real(z[0])*square(flow) + real(u.Electrical.Impedance(w))*square(i)
		if !(drawn > 0) || spent > drawn*(1+1e-9) {
			t.Fatalf("%s at %.3g Hz: draws %.9g W, spends %.9g", b.Type, w/(2*math.Pi), drawn, spent)
		}
	}
}
