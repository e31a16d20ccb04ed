package cavity

import (
	"bufio"
	"encoding/json"
	"fmt"
	"math"
	"math/cmplx"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// A saloon: two cuboids joined by a hole in the wall between them. The curves
// in saloon.json come from FreeFEM (Debian package freefem++) with
// testdata/cavity/reference/saloon.edp, which meshes both rooms and the hole
// as one space.
type saloonCase struct {
	Produced  string        `json:"produced"`
	C         float64       `json:"c_m_s"`
	Rho       float64       `json:"rho_kg_m3"`
	Cabin     [3]float64    `json:"cabin_length_width_height_m"`
	Boot      [3]float64    `json:"boot_length_width_height_m"`
	BootFloor float64       `json:"boot_floor_m"`
	Hole      [4]float64    `json:"hole_width_height_depth_bottom_m"`
	Beta      []float64     `json:"admittance"`
	Source    [4]float64    `json:"source_x_y_z_spread"` // on the rear wall of the boot
	Receivers [][3]float64  `json:"receivers_x_y_z"`     // the last in the boot
	Hz        []float64     `json:"hz"`
	Re        [][][]float64 `json:"re"` // by admittance, receiver, frequency
	Im        [][][]float64 `json:"im"`
}

const saloonFile = referenceDir + "/saloon.json"

func loadSaloon(t *testing.T) *saloonCase {
	c := new(saloonCase)
	b, err := os.ReadFile(saloonFile)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(b, c); err != nil {
		t.Fatal(err)
	}
	return c
}

// lattice returns the lines through the edges, none further apart than h, and
// closer beside those of the hole.
func lattice(edges, fine []float64, h float64) []float64 {
	var out []float64
	for i := 1; i < len(edges); i++ {
		a, b := edges[i-1], edges[i]
		cuts := []float64{a, b}
		for _, d := range []float64{0.02, 0.07} {
			if d < 0.45*(b-a) {
				if slices.Contains(fine, a) {
					cuts = append(cuts, a+d)
				}
				if slices.Contains(fine, b) {
					cuts = append(cuts, b-d)
				}
			}
		}
		slices.Sort(cuts)
		for k := 1; k < len(cuts); k++ {
			n := math.Ceil((cuts[k]-cuts[k-1])/h - 1e-9)
			for j := range int(n) {
				out = append(out, cuts[k-1]+(cuts[k]-cuts[k-1])*float64(j)/n)
			}
		}
	}
	return append(out, edges[len(edges)-1])
}

func (c *saloonCase) freefem(t *testing.T, beta, h float64) [][]complex128 {
	exe, err := exec.LookPath("FreeFem++-nw")
	if err != nil {
		t.Skip("FreeFem++-nw is not installed (Debian package freefem++): the finite-element comparison is skipped")
	}
	dir := t.TempDir()
	in, out := filepath.Join(dir, "case.txt"), filepath.Join(dir, "result.txt")
	l, d := c.Cabin[0], c.Hole[2]
	end := l + d + c.Boot[0]
	bottom, top := c.Hole[3], c.Hole[3]+c.Hole[1]
	var b strings.Builder
	fmt.Fprintln(&b, c.C, c.Rho, beta, 3)
	fmt.Fprintln(&b, 0, l, c.Cabin[1]/2, 0, c.Cabin[2])
	fmt.Fprintln(&b, l-1e-5, l+d+1e-5, c.Hole[0]/2, bottom, top)
	fmt.Fprintln(&b, l+d, end, c.Boot[1]/2, c.BootFloor, c.BootFloor+c.Boot[2])
	for _, g := range [][]float64{
		lattice([]float64{0, l, l + d, end}, []float64{l, l + d}, h),
		lattice([]float64{0, c.Hole[0] / 2, c.Boot[1] / 2, c.Cabin[1] / 2}, []float64{c.Hole[0] / 2}, h),
		lattice([]float64{0, c.BootFloor, bottom, top, c.BootFloor + c.Boot[2], c.Cabin[2]}, []float64{bottom, top}, h),
	} {
		fmt.Fprintln(&b, len(g))
		for _, v := range g {
			fmt.Fprintln(&b, v)
		}
	}
	fmt.Fprintln(&b, 1)
	fmt.Fprintln(&b, c.Source[0], c.Source[1], c.Source[2], c.Source[3])
	fmt.Fprintln(&b, len(c.Receivers))
	for _, r := range c.Receivers {
		fmt.Fprintln(&b, r[0], r[1], r[2])
	}
	fmt.Fprintln(&b, len(c.Hz))
	for _, f := range c.Hz {
		fmt.Fprintln(&b, f)
	}
	if err := os.WriteFile(in, []byte(b.String()), 0o600); err != nil {
		t.Fatal(err)
	}
	script, _ := filepath.Abs(filepath.Join(referenceDir, "reference", "saloon.edp"))
	cmd := exec.Command(exe, "-v", "0", script, in, out)
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), "FF_LOADPATH=/usr/lib/freefem++", "OPENBLAS_NUM_THREADS=1")
	log, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("FreeFEM: %v\n%s", err, log)
	}
	t.Logf("%s", strings.TrimSpace(string(log)))
	f, err := os.Open(out)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	z := make([][]complex128, len(c.Receivers))
	for sc := bufio.NewScanner(f); sc.Scan(); {
		var hz, re, im float64
		var s, r int
		if _, err := fmt.Sscanf(sc.Text(), "transfer %g %d %d %g %g", &hz, &s, &r, &re, &im); err == nil {
			z[r] = append(z[r], complex(re, im))
		}
	}
	return z
}

// ours joins a cabin and a boot through the doors of the hole.
func (c *saloonCase) ours(t *testing.T, beta float64, whole bool) [][]complex128 {
	cabin, err := Solve(Cuboid(c.Cabin[0], c.Cabin[1], c.Cabin[2]), Options{})
	if err != nil {
		t.Fatal(err)
	}
	boot, err := Solve(Cuboid(c.Boot[0], c.Boot[1], c.Boot[2]), Options{})
	if err != nil {
		t.Fatal(err)
	}
	a := idealAir
	a.Density, a.SpeedOfSound = c.Rho, c.C
	height := c.Hole[3] + c.Hole[1]/2
	neck := Neck{
		Here: Point{c.Cabin[0], 0, height}, There: Point{0, 0, height - c.BootFloor},
		Width: c.Hole[0], Height: c.Hole[1], Depth: c.Hole[2],
	}
	joints := neck.Joints(a)
	if whole {
		joints = neck.parts(1, func(area float64) Link {
			return Link{Inertance: a.Density*c.Hole[2]/area + 2*nearField(a.Density, area)}
		})
	}
	toBoot := func(x, y, z float64) Point { return Point{x - c.Cabin[0] - c.Hole[2], y, z - c.BootFloor} }
	var front, rear []Patch
	for _, j := range joints {
		front, rear = append(front, j.Here), append(rear, j.There)
	}
	n := len(joints)
	last := len(c.Receivers) - 1
	for _, r := range c.Receivers[:last] {
		front = append(front, Patch{Centre: Point{r[0], r[1], r[2]}})
	}
	rear = append(rear, Patch{Centre: toBoot(c.Source[0], c.Source[1], c.Source[2]), Area: math.Pi * 4 * c.Source[3] * c.Source[3]},
		Patch{Centre: toBoot(c.Receivers[last][0], c.Receivers[last][1], c.Receivers[last][2])})
	fc, err := cabin.Field(a, Uniform(beta), front)
	if err != nil {
		t.Fatal(err)
	}
	fb, err := boot.Field(a, Uniform(beta), rear)
	if err != nil {
		t.Fatal(err)
	}
	w := hertz(c.Hz...)
	zc, zb := fc.Transfer(w), fb.Transfer(w)
	out := make([][]complex128, len(c.Receivers))
	for f := range w {
		// (Zcabin + Zboot + link) U = Zboot(source), U from boot to cabin.
		m := make([]complex128, n*n)
		u := make([]complex128, n)
		for i := range n {
			u[i] = zb.At(f, i, n)
			for j := range n {
				m[i*n+j] = zc.At(f, i, j) + zb.At(f, i, j)
			}
			m[i*n+i] += joints[i].Impedance(w[f])
		}
		if n == 2 {
			det := m[0]*m[3] - m[1]*m[2]
			u[0], u[1] = (m[3]*u[0]-m[1]*u[1])/det, (m[0]*u[1]-m[2]*u[0])/det
		} else {
			u[0] /= m[0]
		}
		for r := range last {
			var p complex128
			for i := range n {
				p += zc.At(f, n+r, i) * u[i]
			}
			out[r] = append(out[r], p)
		}
		p := zb.At(f, n+1, n)
		for i := range n {
			p -= zb.At(f, n+1, i) * u[i]
		}
		out[last] = append(out[last], p)
	}
	return out
}

func TestSaloon(t *testing.T) {
	c := loadSaloon(t)
	if *update {
		c.Re, c.Im = nil, nil
		for _, beta := range c.Beta {
			var re, im [][]float64
			for _, z := range c.freefem(t, beta, 0.2) {
				var a, b []float64
				for _, v := range z {
					a, b = append(a, round(real(v), 6)), append(b, round(imag(v), 6))
				}
				re, im = append(re, a), append(im, b)
			}
			c.Re, c.Im = append(c.Re, re), append(c.Im, im)
		}
		c.Produced = "FreeFEM 4.11 (Debian package freefem++), P2 tetrahedra, reference/saloon.edp; go test -run Saloon -update"
		b, err := json.MarshalIndent(c, "", " ")
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(saloonFile, append(b, '\n'), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	for k, beta := range c.Beta {
		z, plain := c.ours(t, beta, false), c.ours(t, beta, true)
		for r := range c.Receivers {
			ref := make([]complex128, len(c.Hz))
			for f := range ref {
				ref[f] = complex(c.Re[k][r][f], c.Im[k][r][f])
			}
			rms, top := rmsLevel(c.Hz, z[r], ref)
			one, _ := rmsLevel(c.Hz, plain[r], ref)
			t.Logf("beta %g receiver %d: %.3f dB rms, %.2f dB at most; plane mode alone %.3f dB rms", beta, r, rms, top, one)
			if rms > 0.5 {
				t.Errorf("beta %g receiver %d: %.2f dB rms from the reference", beta, r, rms)
			}
		}
	}
}

// Two volumes and a neck resonate at (c/2 pi) sqrt(S/l (1/V1 + 1/V2)), far
// below the first mode of either; the text-book neck here includes its end
// corrections.
func TestHelmholtzOfTwoVolumes(t *testing.T) {
	const v1, v2, area = 1.0 * 0.8 * 0.7, 0.5 * 0.8 * 0.6, 0.05 * 0.05
	n := Neck{Here: Point{1, 0, 0.35}, There: Point{0, 0, 0.3}, Width: 0.05, Height: 0.05, Depth: 0.10}
	a := math.Sqrt(area / math.Pi)
	// 0.8217 a for each flanged end of a deep hole (Nomura et al., 1960).
	want := 343.2 / (2 * math.Pi) * math.Sqrt(area/(0.10+2*0.8217*a)*(1/v1+1/v2))
	j := n.Joints(idealAir)
	if len(j) != 1 {
		t.Fatalf("%d joints for a narrow neck", len(j))
	}
	front := fieldOf(t, Cuboid(1, 0.8, 0.7), Options{}, Absorption{}, j[0].Here)
	rear := fieldOf(t, Cuboid(0.5, 0.8, 0.6), Options{}, Absorption{}, j[0].There)
	best, at := math.Inf(1), 0.0
	for f := 0.8 * want; f < 1.2*want; f += want / 2000 {
		w := hertz(f)
		z := front.Transfer(w).At(0, 0, 0) + rear.Transfer(w).At(0, 0, 0) + j[0].Impedance(w[0])
		if m := cmplx.Abs(z); m < best {
			best, at = m, f
		}
	}
	// The rooms' own modes and images load the neck by a little more.
	if d := at/want - 1; math.Abs(d) > 0.02 {
		t.Errorf("resonance at %.3f Hz, closed form %.3f Hz", at, want)
	}
}

// A leak corner: 3 m3, 20 cm2 through 10 mm with two flanged ends of 0.8488 a,
// 6.136 Hz; plain arithmetic.
func TestLeakResonance(t *testing.T) {
	p := idealAir
	patch, link := Leak(Point{1.0, 0.625, 0.6}, 20e-4, Slit{Gap: 0.01, Depth: 0.01 / 1.2}, p)
	if patch.Area != 20e-4 {
		t.Errorf("area %g", patch.Area)
	}
	f := 343.2 / (2 * math.Pi) * math.Sqrt(p.Density/(link.Inertance*3.0))
	if math.Abs(f-6.136) > 1e-3 {
		t.Errorf("leak and 3 m3 resonate at %.4f Hz, want 6.136", f)
	}
	// And in the cabin itself, whose own field adds little to it.
	fd := fieldOf(t, Cuboid(2.0, 1.25, 1.2), Options{}, Absorption{}, patch)
	best, at := math.Inf(1), 0.0
	for v := 5.0; v < 7; v += 0.005 {
		w := hertz(v)
		if m := cmplx.Abs(fd.Transfer(w).At(0, 0, 0) + link.Impedance(w[0])); m < best {
			best, at = m, v
		}
	}
	if math.Abs(at-6.136) > 0.1 {
		t.Errorf("in the cabin at %.3f Hz, want near 6.136", at)
	}
}

func TestLinksArePassive(t *testing.T) {
	_, open := Opening(Point{1, 0.6, 0.9}, Point{0.6, 0, 0.1}, 0.06, 0.01, testAir)
	_, leak := Leak(Point{2, 0.5, 0.2}, 30e-4, BodyGaps, testAir)
	n := Neck{Width: 0.9, Height: 0.4, Depth: 0.05}
	links := []Link{open, leak}
	for _, j := range append(n.Joints(testAir), n.Panel(9, 200, testAir)...) {
		links = append(links, j.Link)
	}
	if len(links) != 6 {
		t.Fatalf("%d links", len(links))
	}
	for _, w := range benchOmega(20) {
		for i, l := range links {
			if z := l.Impedance(w); real(z) < 0 || imag(z) <= 0 {
				t.Errorf("link %d at %.1f Hz: %v", i, w/(2*math.Pi), z)
			}
		}
		if r := real(open.Impedance(w)); r > testAir.Impedance()/0.06 {
			t.Errorf("radiation resistance %g beyond rho c/S", r)
		}
	}
	// A rigid limp panel, 9 kg/m2 over 0.36 m2: at least m/S^2.
	if m := links[4].Inertance; m < 9/0.18 {
		t.Errorf("panel half weighs %g kg/m4", m)
	}
}
