package enclosure

import (
	"encoding/csv"
	"math"
	"math/cmplx"
	"os"
	"strconv"
	"strings"
	"testing"

	"bootfloor/internal/air"
	"bootfloor/internal/job"
	"bootfloor/internal/network"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %.9g, want %.9g within %.1g", what, got, want, tol)
	}
}

func roundPort(mm, hz float64, ends string) *job.Port {
	return &job.Port{Shape: "round", Count: 1, DiameterMM: mm, TuningHz: hz, Ends: ends}
}

func TestPublishedPortLengths(t *testing.T) {
	f, err := os.Open("../../testdata/enclosure/port_length.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil || len(rows) != 3 {
		t.Fatal(len(rows), err)
	}
	// Air of the table's speed of sound without viscosity.
	a := air.MustStandard()
	a.SpeedOfSound, a.Viscosity = 343.2, 0
	for _, row := range rows {
		var v [5]float64
		for i, s := range row {
			if v[i], err = strconv.ParseFloat(s, 64); err != nil {
				t.Fatal(err)
			}
		}
		hz, volume, mm := v[0], v[1]*1e-3, v[2]
		for i, ends := range []string{"flanged_free", "flanged_flanged"} {
			p, err := portSection(*roundPort(mm, hz, ends), "port")
			if err != nil {
				t.Fatal(err)
			}
			lumped := 1e3 * HelmholtzLength(343.2, volume, p.area, hz, p.innerEnd+p.outerEnd)
			near(t, "lumped length", lumped, v[3+i], 0.01)
			// A duct's own compliance asks for less length: by the tangent, in
			// proportion (k L)^2/3 at most.
			port, err := PortFor(job.Box{Type: "vented", NetL: v[1], Port: roundPort(mm, hz, ends)}, false, a)
			if err != nil {
				t.Fatal(err)
			}
			kl := 2 * math.Pi * hz / 343.2 * (lumped*1e-3 + p.innerEnd + p.outerEnd)
			if short := (lumped - port.LengthMM) / lumped; short < 0 || short > kl*kl/3*1.2 {
				t.Errorf("the duct is %.2f mm, the lumped port %.2f", port.LengthMM, lumped)
			}
		}
	}
}

// Length from tuning and tuning from length are each other's inverse.
func TestPortRoundTrip(t *testing.T) {
	a := air.MustStandard()
	for _, hz := range []float64{18, 30, 55} {
		for _, j := range []*job.Port{roundPort(70, hz, "flanged_free"), roundPort(110, hz, "free_free"),
			{Shape: "slot", Count: 2, WidthMM: 200, HeightMM: 20, TuningHz: hz, Ends: "wall"}} {
			b := job.Box{Type: "vented", NetL: 28, Port: j}
			one, err := PortFor(b, false, a)
			if err != nil {
				t.Fatal(err)
			}
			back := *j
			back.TuningHz, back.LengthMM = 0, one.LengthMM
			b.Port = &back
			two, err := PortFor(b, false, a)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "tuning", two.TuningHz, hz, 1e-6)
		}
	}
}

// Without losses the tuning is where the closed form of a pipe with a mass at
// either end, Zc (Zm + Zc tan kL)/(Zc - Zm tan kL) and so on, meets the chamber
// (Kinsler and Frey, Fundamentals of Acoustics).
func TestTuningClosedForm(t *testing.T) {
	a := air.MustStandard()
	a.Viscosity = 0
	for _, j := range []*job.Port{roundPort(60, 0, "flanged_free"), roundPort(150, 0, "flanged_flanged")} {
		for _, mm := range []float64{20, 200, 900} {
			j.LengthMM = mm
			p, err := PortFor(job.Box{Type: "vented", NetL: 45, Port: j}, false, a)
			if err != nil {
				t.Fatal(err)
			}
			s, _ := portSection(*j, "port")
			w := 2 * math.Pi * p.TuningHz
			zc := a.Impedance() / s.area
			tan := math.Tan(w / a.SpeedOfSound * mm * 1e-3)
			zm := w * a.Density * s.outerEnd / s.area
			x := w*a.Density*s.innerEnd/s.area + zc*(zm+zc*tan)/(zc-zm*tan)
			near(t, "reactances", x*w*0.045/a.BulkModulus(), 1, 1e-8)
		}
	}
}

// In the assembled box the cone moves least within a hair of the tuning.
func TestTuningIsWhereTheConeRests(t *testing.T) {
	var omega []float64
	for f := 28.0; f < 38; f += 0.02 {
		omega = append(omega, 2*math.Pi*f)
	}
	for _, place := range []job.Place{{}, {Fires: "down", GapMM: 40}} {
		var n network.Network
		p, err := Assemble(Setting{Net: &n, Air: air.MustStandard(), World: newOpenWorld(&n), At: place}, testUnit(1, 1),
			job.Box{Type: "vented", NetL: 60, Port: roundPort(100, 33, "flanged_free"), WidthMM: 600, DepthMM: 400, HeightMM: 350})
		if err != nil {
			t.Fatal(err)
		}
		s := n.Solve(omega)
		best := 0
		travel := func(k int) float64 { return cmplx.Abs(s.Flow[0][p.Cone][k]) / omega[k] }
		for k := range omega {
			if travel(k) < travel(best) {
				best = k
			}
		}
		near(t, "quietest cone", omega[best]/(2*math.Pi), 33, 0.15)
	}
}

// End corrections, of which only the two round ones are published; a slot's
// are those of a rectangle (see package network), and a wall along it mirrors
// it.
func TestPortEnds(t *testing.T) {
	const r = 0.05
	for ends, want := range map[string][2]float64{
		"flanged_free":    {0.6127 * r, 0.848826 * r},
		"flanged_flanged": {0.848826 * r, 0.848826 * r},
		"free_free":       {0.6127 * r, 0.6127 * r},
	} {
		p, err := portSection(*roundPort(100, 30, ends), "port")
		if err != nil {
			t.Fatal(err)
		}
		near(t, ends+" inside", p.innerEnd, want[0], 1e-7)
		near(t, ends+" outside", p.outerEnd, want[1], 1e-7)
	}
	slot := func(w, h float64, ends string) portSize {
		p, err := portSection(job.Port{Shape: "slot", WidthMM: w, HeightMM: h, Ends: ends}, "port")
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	thin := slot(300, 30, "flanged_flanged")
	near(t, "10:1", thin.outerEnd/math.Sqrt(thin.area), 0.355188, 1e-6)
	near(t, "mirrored", slot(300, 30, "wall").innerEnd, slot(300, 60, "flanged_flanged").innerEnd, 1e-12)
	// Several ports are one of their areas and perimeters together.
	j := roundPort(100, 30, "flanged_free")
	j.Count = 3
	three, _ := portSection(*j, "port")
	near(t, "area of three", three.area, 3*math.Pi*r*r, 1e-12)
	near(t, "perimeter of three", three.perimeter, 3*2*math.Pi*r, 1e-12)
	near(t, "end of each", three.outerEnd, 0.848826*r, 1e-7)
}

func TestPortErrorsSayWhatWouldDo(t *testing.T) {
	a := air.MustStandard()
	for _, c := range []struct {
		port *job.Port
		want []string
	}{
		{nil, []string{"port is missing", "size and tuning"}},
		{roundPort(0, 30, ""), []string{"no area", "diameter"}},
		{&job.Port{Shape: "triangle", TuningHz: 30}, []string{"neither round nor a slot"}},
		{roundPort(100, 0, ""), []string{"needs a tuning frequency or a length"}},
		{roundPort(30, 150, ""), []string{"cannot be short enough", "wider"}},
		{roundPort(300, 20, ""), []string{"fifth of a wave", "narrower"}},
	} {
		_, err := PortFor(job.Box{Type: "vented", NetL: 40, Port: c.port}, false, a)
		if err == nil {
			t.Errorf("%+v: no error", c.port)
			continue
		}
		for _, w := range c.want {
			if !strings.Contains(err.Error(), w) {
				t.Errorf("%q does not say %q", err, w)
			}
		}
	}
}

func TestPortFits(t *testing.T) {
	a := air.MustStandard()
	box := job.Box{Type: "vented", NetL: 45, PanelMM: 18, WidthMM: 600, HeightMM: 350, DepthMM: 330}
	for _, c := range []struct {
		port *job.Port
		bend bool
		want []string
	}{
		{roundPort(75, 36, "flanged_free"), false, nil},
		{roundPort(110, 30, "flanged_free"), true, []string{"Bend it once", "centre line", "% of its area"}},
		{roundPort(150, 28, "flanged_free"), false, []string{"even with one bend", "passive radiator", "make the box larger"}},
		{&job.Port{Shape: "round", DiameterMM: 320, LengthMM: 200}, false, []string{"the box only 294 mm inside"}},
	} {
		box.Port = c.port
		p, err := PortFor(box, false, a)
		if err != nil {
			t.Fatal(err)
		}
		if p.MustBend != c.bend || (c.want == nil) != (p.Say == "") {
			t.Errorf("%g mm at %g Hz: bend %v, %q", c.port.DiameterMM, c.port.TuningHz, p.MustBend, p.Say)
		}
		for _, w := range c.want {
			if !strings.Contains(p.Say, w) {
				t.Errorf("%q does not say %q", p.Say, w)
			}
		}
	}
	// A box not yet drawn cannot say.
	if p, err := PortFor(job.Box{Type: "vented", NetL: 45, Port: roundPort(110, 30, "flanged_free")}, false, a); err != nil || p.Say != "" {
		t.Errorf("undrawn box: %q, %v", p.Say, err)
	}
	// A port that would fill its chamber.
	b := job.Box{Type: "bandpass4", NetL: 30, FrontL: 12, Front: roundPort(150, 40, "flanged_free")}
	if p, err := PortFor(b, true, a); err != nil || !strings.Contains(p.Say, "front port takes") {
		t.Errorf("port larger than its chamber: %q, %v", p.Say, err)
	}
}
