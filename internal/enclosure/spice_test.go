package enclosure

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"bootfloor/internal/air"
)

// deck writes one circuit at one frequency for a general-purpose circuit
// simulator: voltage is pressure (Pa) or volts, current is volume velocity
// (m3/s) or amperes, node 0 is still air or earth. Element values come from
// what a reader would measure on the box, not from the code under test.
// Elements that vary with frequency have their value at that one.
type deck struct {
	strings.Builder
	f     float64
	air   air.Properties
	parts int
	heard []string // names of the sources that sense what is radiated
}

func (d *deck) w() float64 { return 2 * math.Pi * d.f }

func (d *deck) put(kind, a, b string, value float64) {
	d.parts++
	fmt.Fprintf(d, "%s%d %s %s %.15g\n", kind, d.parts, a, b, value)
}

func (d *deck) node() string {
	d.parts++
	return fmt.Sprintf("n%d", d.parts)
}

func (d *deck) resistor(a, b string, v float64) {
	if v == 0 {
		fmt.Fprintf(d, "vz%d %s %s 0\n", d.parts, a, b)
		d.parts++
		return
	}
	d.put("r", a, b, v)
}

// impedance puts a complex impedance, at the deck's frequency, between nodes.
func (d *deck) impedance(a, b string, z complex128) {
	m := d.node()
	d.resistor(a, m, real(z))
	if x := imag(z); x >= 0 {
		d.put("l", m, b, x/d.w())
	} else {
		d.put("c", m, b, -1/(x*d.w()))
	}
}

// chamber puts the compliance of litres of air at a node, raised by lining,
// with QA at f0 in series.
func (d *deck) chamber(node string, litres, lining, qa, f0 float64) (cab float64) {
	cab = litres * 1e-3 * (1 + (d.air.Gamma-1)*lining) / (d.air.Density * d.air.SpeedOfSound * d.air.SpeedOfSound)
	m := node
	if qa > 0 {
		m = d.node()
		d.put("r", node, m, 1/(2*math.Pi*f0*cab*qa))
	}
	d.put("c", m, "0", cab)
	d.put("r", node, "0", 1e13) // a path for direct current, far above all else
	return cab
}

// sensed returns a node behind a source that senses the flow out of a. heard
// marks what is radiated.
func (d *deck) sensed(a string, heard bool) (string, string) {
	d.parts++
	name, b := fmt.Sprintf("vs%d", d.parts), fmt.Sprintf("s%d", d.parts)
	fmt.Fprintf(d, "%s %s %s 0\n", name, a, b)
	if heard {
		d.heard = append(d.heard, name)
	}
	return name, b
}

// leak lets a chamber out through QL at f0.
func (d *deck) leak(node, to string, ql, f0, cab float64, heard bool) {
	if ql > 0 {
		_, b := d.sensed(node, heard)
		d.put("r", b, to, ql/(2*math.Pi*f0*cab))
	}
}

// layer returns the thickness of the viscous and the thermal boundary layer.
func (d *deck) layer() (viscous, thermal float64) {
	viscous = math.Sqrt(2 * d.air.Viscosity / (d.air.Density * d.w()))
	return viscous, viscous / math.Sqrt(d.air.Prandtl)
}

// slice puts one short piece of duct between nodes: half its series part, its
// shunt part, the other half. density and compressibility are those of the air
// in it over free air.
func (d *deck) slice(a, b string, dx, area, perimeter float64, density, compressibility complex128) {
	viscous, thermal := d.layer()
	r := 2 * area / perimeter
	h := (d.air.Gamma - 1) * thermal / r
	density += complex(viscous/r, -viscous/r)
	compressibility += complex(h, -h)
	z := complex(0, d.w()*d.air.Density/area*dx) * density
	k := d.air.Density * d.air.SpeedOfSound * d.air.SpeedOfSound
	y := complex(0, d.w()*area/k*dx) * compressibility
	m := d.node()
	d.impedance(a, m, z/2)
	d.put("c", m, "0", imag(y)/d.w())
	d.put("r", m, "0", 1/real(y))
	d.impedance(m, b, z/2)
}

// port puts a port of n slices from a chamber to a node, with an end correction
// (m) at either side and a loss; its outer mouth may be heard.
func (d *deck) port(from, to string, length, area, perimeter, in, out, rp float64, heard bool) {
	rho := d.air.Density
	a := d.node()
	d.put("l", from, a, rho*in/area)
	const n = 150
	for range n {
		b := d.node()
		d.slice(a, b, length/n, area, perimeter, 1, 1)
		a = b
	}
	_, b := d.sensed(a, heard)
	m := d.node()
	d.put("l", b, m, rho*out/area)
	d.resistor(m, to, rp)
}

// cone puts the moving parts of a driver between two nodes, driven by the
// current that the named source senses, and returns the source that senses its
// flow.
func (d *deck) cone(rear, front string, mass, compliance, resistance, area, bl float64, current string, heard bool) string {
	flow, a := d.sensed(rear, heard)
	b, c, e := d.node(), d.node(), d.node()
	d.parts++
	fmt.Fprintf(d, "h%d %s %s %s %.15g\n", d.parts, b, a, current, bl/area)
	d.put("r", b, c, resistance/(area*area))
	d.put("l", c, e, mass/(area*area))
	d.put("c", e, front, compliance*area*area)
	d.put("r", e, front, 1e13)
	return flow
}

func number(v float64) string { return strconv.FormatFloat(v, 'g', 15, 64) }

// spiced is what the simulator found at one frequency.
type spiced struct{ radiated, cone, current complex128 }

// simulate runs the circuits, one for each frequency, through ngspice.
// names gives the sources to read for the cone and for the amplifier.
func simulate(t *testing.T, decks []*deck, cone, current string) []spiced {
	t.Helper()
	program, err := exec.LookPath("ngspice")
	if err != nil {
		t.Skip("ngspice is not installed: the circuits are not checked against it")
	}
	dir, err := os.MkdirTemp("", "circuits") // its name has no comma, as t.TempDir's may
	if err != nil {
		t.Fatal(err)
	}
	defer os.RemoveAll(dir)
	var run bytes.Buffer
	fmt.Fprintf(&run, "all\n.control\nset numdgt=14\n")
	for i, d := range decks {
		file := filepath.Join(dir, fmt.Sprintf("c%d.cir", i))
		if err := os.WriteFile(file, []byte("circuit\n"+d.String()+".end\n"), 0o600); err != nil {
			t.Fatal(err)
		}
		fmt.Fprintf(&run, "source %s\nac lin 1 %.15g %.15g\necho point %d\n", file, d.f, d.f, i)
		for _, v := range append([]string{cone, current}, d.heard...) {
			fmt.Fprintf(&run, "print i(%s)\n", v)
		}
		fmt.Fprintf(&run, "remcirc\ndestroy all\n")
	}
	fmt.Fprintf(&run, "quit 0\n.endc\n.end\n")
	file := filepath.Join(dir, "run.sp")
	if err := os.WriteFile(file, run.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	// It keeps scratch files in ~/tmp, and shows its progress on stderr.
	if err := os.Mkdir(filepath.Join(dir, "tmp"), 0o700); err != nil {
		t.Fatal(err)
	}
	command := exec.Command(program, "-b", file)
	command.Env = append(os.Environ(), "HOME="+dir)
	var talk bytes.Buffer
	command.Stderr = &talk
	out, err := command.Output()
	if err != nil {
		t.Fatalf("ngspice: %v\n%s\n%s", err, out, talk.Bytes())
	}
	found := make([]spiced, len(decks))
	at, nth := -1, 0
	for line := range strings.Lines(string(out)) {
		line = strings.TrimSpace(line)
		if _, err := fmt.Sscanf(line, "point %d", &at); err == nil {
			nth = 0
			continue
		}
		if at < 0 || !strings.HasPrefix(line, "i(") {
			continue
		}
		_, value, _ := strings.Cut(line, "=")
		re, im, ok := strings.Cut(strings.TrimSpace(value), ",")
		x, e1 := strconv.ParseFloat(strings.TrimSpace(re), 64)
		y, e2 := strconv.ParseFloat(strings.TrimSpace(im), 64)
		if !ok || e1 != nil || e2 != nil {
			t.Fatalf("ngspice answered %q", line)
		}
		switch v := complex(x, y); nth {
		case 0:
			found[at].cone = v
		case 1:
			found[at].current = v
		default:
			found[at].radiated += v
		}
		nth++
	}
	if at != len(decks)-1 || nth < 3 {
		t.Fatalf("ngspice solved %d of %d circuits:\n%s", at+1, len(decks), out)
	}
	return found
}
