package enclosure

import (
	"math"
	"math/cmplx"
	"testing"

	"bootfloor/internal/air"
	"bootfloor/internal/job"
	"bootfloor/internal/network"
)

// The driver of all circuits, and what stands between it and the amplifier.
const (
	tRe, tLe, tSource    = 3.3, 1.4e-3, 0.12
	tMms, tCms, tRms     = 0.125, 2.3e-4, 3.1
	tSd, tBl             = 0.0485, 13.5
	tDiameter            = 102.0 // mm, of round ports
	tLength              = 290.0 // mm
	tGammaEnd, tFreeEnd  = 8 / (3 * math.Pi), 0.6127
	tArea                = math.Pi * 0.051 * 0.051
	tPerimeter           = 2 * math.Pi * 0.051
	tFlanged, tUnflanged = tGammaEnd * 0.051, tFreeEnd * 0.051
)

// openWorld is still air everywhere.
type openWorld struct{ still network.Door }

func (w openWorld) Mouth(job.Place, float64) network.Door  { return w.still }
func (w openWorld) Behind(job.Place, float64) network.Door { return w.still }

func newOpenWorld(n *network.Network) openWorld { return openWorld{n.AddChamber(network.Still{})} }

// coilBranch is Re ratio + source and Le ratio.
func coilBranch(source, ratio float64) network.Branch {
	return network.BranchFunc(func(w float64) complex128 { return complex(source+tRe*ratio, w*tLe*ratio) })
}

// testUnit is series x parallel of the test driver.
func testUnit(series, parallel int) Unit {
	n, ratio := float64(series*parallel), float64(series)/float64(parallel)
	return Unit{Mass: n * tMms, Compliance: tCms / n, Resistance: n * tRms, Area: n * tSd, Bl: float64(series) * tBl,
		Electrical: coilBranch(tSource, ratio), Coils: coilBranch(0, ratio), Series: series, Parallel: parallel}
}

func testPort() *job.Port {
	return &job.Port{Shape: "round", Count: 1, DiameterMM: tDiameter, LengthMM: tLength, Ends: "flanged_free", QP: 60}
}

// circuit is one box told twice.
type circuit struct {
	name             string
	box              job.Box
	place            job.Place
	series, parallel int
	// build writes the box at the deck's frequency; p tells the frequencies
	// that the losses refer to. It returns the sources that sense the (outer)
	// cone and the amplifier's current.
	build func(d *deck, p Parts) (cone, current string)
}

// amplifier puts the source and the resistance that all drivers share, and
// returns the node after them and the source that senses their current.
func (d *deck) amplifier() (node, current string) {
	d.WriteString("vamp amp 0 dc 0 ac 1\n")
	current, a := d.sensed("amp", false)
	b := d.node()
	d.put("r", a, b, tSource)
	return b, current
}

// single puts one test driver between nodes.
func (d *deck) single(rear, front string, heard bool) (cone, current string) {
	from, current := d.amplifier()
	b, c := d.node(), d.node()
	d.put("r", from, b, tRe)
	d.put("l", b, c, tLe)
	cone = d.cone(rear, front, tMms, tCms, tRms, tSd, tBl, current, heard)
	d.parts++
	d.WriteString("hemf " + c + " 0 " + cone + " " + number(tBl/tSd) + "\n")
	return cone, current
}

func rp(p Vent, cab float64) float64 { return 1 / (2 * math.Pi * p.TuningHz * cab * 60) }

var closedFc = func(litres, lining, area, mass, compliance float64, a air.Properties) float64 {
	cab := litres * 1e-3 * (1 + (a.Gamma-1)*lining) / a.BulkModulus()
	return math.Sqrt(1+compliance*area*area/cab) / (2 * math.Pi * math.Sqrt(mass*compliance))
}

func circuits() []circuit {
	return []circuit{
		{name: "sealed", box: job.Box{Type: "sealed", NetL: 32, Lining: 0.3, QL: 9, QA: 20},
			build: func(d *deck, p Parts) (string, string) {
				cab := d.chamber("box", 32, 0.3, 20, p.SystemHz)
				d.leak("box", "0", 9, p.SystemHz, cab, true)
				return d.single("box", "0", true)
			}},
		{name: "infinite baffle", box: job.Box{Type: "infinite_baffle"},
			build: func(d *deck, p Parts) (string, string) { return d.single("0", "0", true) }},
		{name: "vented", box: job.Box{Type: "vented", NetL: 55, QL: 7, QA: 40, Port: testPort()},
			build: func(d *deck, p Parts) (string, string) {
				fb := p.Vents[0].TuningHz
				cab := d.chamber("box", 55, 0, 40, fb)
				d.leak("box", "0", 7, fb, cab, true)
				d.port("box", "0", tLength*1e-3, tArea, tPerimeter, tUnflanged, tFlanged, rp(p.Vents[0], cab), true)
				return d.single("box", "0", true)
			}},
		{name: "two slots, lossless box", box: job.Box{Type: "vented", NetL: 70, Port: &job.Port{
			Shape: "slot", Count: 2, WidthMM: 160, HeightMM: 35, LengthMM: 340, Ends: "flanged_flanged"}},
			build: func(d *deck, p Parts) (string, string) {
				d.chamber("box", 70, 0, 0, 1)
				end := network.RectangularEnd(0.160, 0.035)
				d.port("box", "0", 0.340, 2*0.160*0.035, 2*2*(0.160+0.035), end, end, 0, true)
				return d.single("box", "0", true)
			}},
		{name: "passive radiators", box: job.Box{Type: "passive_radiator", NetL: 45, QL: 12, Passive: &job.Passive{
			Count: 2, SdCM2: 520, MassG: 150, AddedG: 90, FreeHz: 18, Qmp: 6, XmaxMM: 20}},
			build: func(d *deck, p Parts) (string, string) {
				cab := d.chamber("box", 45, 0, 0, 1)
				d.leak("box", "0", 12, p.SystemHz, cab, true)
				for range 2 { // each on its own
					_, a := d.sensed("box", true)
					b, c := d.node(), d.node()
					w := 2 * math.Pi * 18.0
					s := 0.052 * 0.052
					d.put("r", a, b, w*0.150/6/s)
					d.put("l", b, c, 0.240/s)
					d.put("c", c, "0", s/(w*w*0.150))
					d.put("r", c, "0", 1e13)
				}
				return d.single("box", "0", true)
			}},
		{name: "aperiodic", box: job.Box{Type: "aperiodic", NetL: 28, QL: 15, Vent: &job.Aperiodic{AreaCM2: 60, Resistance: 250}},
			build: func(d *deck, p Parts) (string, string) {
				fc := closedFc(28, 0, tSd, tMms, tCms, d.air)
				cab := d.chamber("box", 28, 0, 0, 1)
				d.leak("box", "0", 15, fc, cab, true)
				_, a := d.sensed("box", true)
				b := d.node()
				d.put("r", a, b, 250/60e-4)
				d.put("l", b, "0", d.air.Density*2*8/(3*math.Pi)*math.Sqrt(60e-4/math.Pi)/60e-4)
				return d.single("box", "0", true)
			}},
		{name: "band-pass, fourth order", box: job.Box{Type: "bandpass4", NetL: 24, FrontL: 38, Lining: 0.2, QL: 10, QA: 30, Front: testPort()},
			build: func(d *deck, p Parts) (string, string) {
				fc := closedFc(24, 0.2, tSd, tMms, tCms, d.air)
				cab := d.chamber("rear", 24, 0.2, 30, fc)
				d.leak("rear", "0", 10, fc, cab, true)
				fb := p.Vents[0].TuningHz
				cab = d.chamber("front", 38, 0, 30, fb)
				d.leak("front", "0", 10, fb, cab, true)
				d.port("front", "0", tLength*1e-3, tArea, tPerimeter, tUnflanged, tFlanged, rp(p.Vents[0], cab), true)
				return d.single("rear", "front", false)
			}},
		{name: "band-pass, sixth order, parallel", box: job.Box{Type: "bandpass6_parallel", NetL: 70, FrontL: 25, QL: 10, Port: testPort(),
			Front: &job.Port{Shape: "round", Count: 2, DiameterMM: 80, LengthMM: 120, Ends: "flanged_free"}},
			build: func(d *deck, p Parts) (string, string) {
				cab := d.chamber("rear", 70, 0, 0, 1)
				d.leak("rear", "0", 10, p.Vents[1].TuningHz, cab, true)
				d.port("rear", "0", tLength*1e-3, tArea, tPerimeter, tUnflanged, tFlanged, rp(p.Vents[1], cab), true)
				cab = d.chamber("front", 25, 0, 0, 1)
				d.leak("front", "0", 10, p.Vents[0].TuningHz, cab, true)
				const a = 0.040
				d.port("front", "0", 0.120, 2*math.Pi*a*a, 4*math.Pi*a, tFreeEnd*a, tGammaEnd*a, 0, true)
				return d.single("rear", "front", false)
			}},
		{name: "band-pass, sixth order, series", box: job.Box{Type: "bandpass6_series", NetL: 60, FrontL: 40, QL: 10, Port: testPort(),
			Front: &job.Port{Shape: "round", Count: 1, DiameterMM: 120, LengthMM: 150, Ends: "flanged_free"}},
			build: func(d *deck, p Parts) (string, string) {
				cab := d.chamber("rear", 60, 0, 0, 1)
				d.leak("rear", "0", 10, p.Vents[1].TuningHz, cab, true)
				d.port("rear", "front", tLength*1e-3, tArea, tPerimeter, tUnflanged, tFlanged, rp(p.Vents[1], cab), false)
				cab = d.chamber("front", 40, 0, 0, 1)
				d.leak("front", "0", 10, p.Vents[0].TuningHz, cab, true)
				const a = 0.060
				d.port("front", "0", 0.150, math.Pi*a*a, 2*math.Pi*a, tFreeEnd*a, tGammaEnd*a, 0, true)
				return d.single("rear", "front", false)
			}},
		{name: "flared, stuffed line", box: job.Box{Type: "line", TapMM: 700, Line: []job.Segment{
			{LengthMM: 1100, StartCM2: 300, EndCM2: 420, Stuffing: 6}, {LengthMM: 900, StartCM2: 420, EndCM2: 420, Stuffing: 3},
			{LengthMM: 500, StartCM2: 420, EndCM2: 900}}},
			build: buildLine},
		{name: "isobaric pair in series", box: job.Box{Type: "sealed", NetL: 20, Isobaric: true, BetweenL: 7}, series: 2,
			build: func(d *deck, p Parts) (string, string) {
				d.chamber("box", 20, 0, 0, 1)
				d.chamber("mid", 7, 0, 0, 1)
				from, current := d.amplifier()
				b, c := d.node(), d.node()
				d.put("r", from, b, 2*tRe)
				d.put("l", b, c, 2*tLe)
				inner := d.cone("box", "mid", tMms, tCms, tRms, tSd, tBl, current, false)
				outer := d.cone("mid", "0", tMms, tCms, tRms, tSd, tBl, current, true)
				d.WriteString("he1 " + c + " e1 " + inner + " " + number(tBl/tSd) + "\nhe2 e1 0 " + outer + " " + number(tBl/tSd) + "\n")
				return outer, current
			}},
		{name: "isobaric pair in parallel, vented", box: job.Box{Type: "vented", NetL: 40, Isobaric: true, Port: testPort()}, parallel: 2,
			build: func(d *deck, p Parts) (string, string) {
				cab := d.chamber("box", 40, 0, 0, 1)
				d.port("box", "0", tLength*1e-3, tArea, tPerimeter, tUnflanged, tFlanged, rp(p.Vents[0], cab), true)
				d.between()
				from, current := d.amplifier()
				var cones []string
				for i, ends := range [][2]string{{"box", "mid"}, {"mid", "0"}} {
					own, a := d.sensed(from, false)
					b, c := d.node(), d.node()
					d.put("r", a, b, tRe)
					d.put("l", b, c, tLe)
					cone := d.cone(ends[0], ends[1], tMms, tCms, tRms, tSd, tBl, own, i == 1)
					d.parts++
					d.WriteString("hq" + string(rune('a'+i)) + " " + c + " 0 " + cone + " " + number(tBl/tSd) + "\n")
					cones = append(cones, cone)
				}
				return cones[1], current
			}},
		{name: "firing down", box: job.Box{Type: "vented", NetL: 55, Port: testPort(), WidthMM: 700, DepthMM: 400, HeightMM: 320},
			place: job.Place{Fires: "down", GapMM: 45},
			build: func(d *deck, p Parts) (string, string) {
				cab := d.chamber("box", 55, 0, 0, 1)
				d.port("box", "gap", tLength*1e-3, tArea, tPerimeter, tUnflanged, tFlanged, rp(p.Vents[0], cab), false)
				d.chamber("gap", tSd*45, 0, 0, 1)
				// A flat ring from the cone's edge to a disc as large as the
				// face, and the air under the cone; the layer on both plates.
				const h = 0.045
				r := math.Sqrt(0.7 * 0.4 / tSd)
				m := d.air.Density / (2 * math.Pi * h) * (math.Log(r) + 0.25)
				viscous, _ := d.layer()
				_, a := d.sensed("gap", true)
				d.impedance(a, "0", complex(0, d.w()*m)/(1-complex(2*viscous/h, 0)/complex(1, 1)))
				return d.single("box", "gap", false)
			}},
	}
}

// between puts the air between two cones, as assumed where it is not stated.
func (d *deck) between() {
	d.chamber("mid", 1000*tSd*BetweenDepth*math.Sqrt(tSd/math.Pi), 0, 0, 1)
}

// buildLine writes the line of circuits: 2.5 m in slices of 4 mm, of square
// section, its root growing evenly in each piece.
func buildLine(d *deck, p Parts) (string, string) {
	pieces := []struct{ length, start, end, wool float64 }{{1.1, 0.03, 0.042, 6}, {0.9, 0.042, 0.042, 3}, {0.5, 0.042, 0.09, 0}}
	const dx = 4e-3
	at, a := 0.0, "closed"
	d.put("r", a, "0", 1e13)
	tap := ""
	for _, s := range pieces {
		n := int(math.Round(s.length / dx))
		density, compressibility := network.Polyester(s.wool).In(d.air, d.w())
		for i := range n {
			if math.Abs(at-0.7) < dx/2 {
				tap = a
			}
			side := math.Sqrt(s.start) + (math.Sqrt(s.end)-math.Sqrt(s.start))*(float64(i)+0.5)/float64(n)
			b := d.node()
			d.slice(a, b, dx, side*side, 4*side, density, compressibility)
			a, at = b, at+dx
		}
	}
	_, b := d.sensed(a, true)
	// A square in a wide wall: 0.473201 sides.
	d.put("l", b, "0", d.air.Density*0.473201*0.3/0.09)
	return d.single(tap, "0", true)
}

// Every type of box, solved twice: by package network through the type's
// branches, and by ngspice from element values, over 10 to 500 Hz.
func TestAgainstCircuitSimulator(t *testing.T) {
	a := air.MustStandard()
	var omega []float64
	const points = 16
	for i := range points {
		omega = append(omega, 2*math.Pi*10*math.Pow(50, float64(i)/(points-1)))
	}
	for _, c := range circuits() {
		t.Run(c.name, func(t *testing.T) {
			var n network.Network
			u := testUnit(max(c.series, 1), max(c.parallel, 1))
			p, err := Assemble(Setting{Net: &n, Air: a, World: newOpenWorld(&n), At: c.place}, u, c.box)
			if err != nil {
				t.Fatal(err)
			}
			s := n.Solve(omega)
			var decks []*deck
			var cone, current string
			for _, w := range omega {
				d := &deck{f: w / (2 * math.Pi), air: a}
				cone, current = c.build(d, p)
				decks = append(decks, d)
			}
			worstDB, worstDeg := 0.0, 0.0
			for k, want := range simulate(t, decks, cone, current) {
				var u complex128
				for _, l := range p.Radiating {
					u += s.Flow[0][l][k]
				}
				for what, pair := range map[string][2]complex128{
					"radiated flow": {u, want.radiated},
					"cone":          {s.Flow[0][p.Cone][k], want.cone},
					"current":       {s.Current[0][p.Mesh][k], want.current},
				} {
					q := pair[0] / pair[1]
					db, deg := 20*math.Log10(cmplx.Abs(q)), cmplx.Phase(q)*180/math.Pi
					worstDB, worstDeg = math.Max(worstDB, math.Abs(db)), math.Max(worstDeg, math.Abs(deg))
					if !(math.Abs(db) < 0.02 && math.Abs(deg) < 0.2) {
						t.Errorf("%.4g Hz: %s differs by %.4f dB, %.3f degrees", decks[k].f, what, db, deg)
					}
				}
			}
			t.Logf("worst %.5f dB, %.4f degrees", worstDB, worstDeg)
		})
	}
}
