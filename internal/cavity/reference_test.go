package cavity

import (
	"bufio"
	"encoding/json"
	"flag"
	"fmt"
	"math"
	"math/cmplx"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"sort"
	"strings"
	"testing"

	"bootfloor/internal/air"
)

// The reference curves under testdata/cavity were computed by FreeFEM (Debian
// package freefem++) with testdata/cavity/reference/cavity.edp: quadratic
// tetrahedra and the same impedance boundary condition, nothing else in common
// with this package. go test -run Reference -update computes them afresh.
var update = flag.Bool("update", false, "recompute the finite-element reference curves")

const referenceDir = "../../testdata/cavity"

// referenceCase is one shape with its sources, receivers and walls, and what
// FreeFEM found for it.
type referenceCase struct {
	Produced  string       `json:"produced"`
	Name      string       `json:"name"`
	C         float64      `json:"c_m_s"`
	Rho       float64      `json:"rho_kg_m3"`
	Stations  [][4]float64 `json:"stations_m"` // x, floor, roof, width
	Plan      bool         `json:"triangles_in_plan"`
	Mesh      [3]float64   `json:"mesh_h_hmin_grading"`
	Walls     [][5]float64 `json:"admittance_floor_roof_sides_front_rear"`
	Sources   [][5]float64 `json:"sources_x_y_z_region_spread"`
	Receivers [][3]float64 `json:"receivers_x_y_z"`
	Hz        []float64    `json:"hz"`
	ModesHz   []float64    `json:"modes_hz"`
	// Re and Im of p/U by wall, source, receiver, frequency.
	Re [][][][]float64 `json:"re"`
	Im [][][][]float64 `json:"im"`
}

func (c *referenceCase) shape() Shape {
	var s Shape
	for _, v := range c.Stations {
		s.Stations = append(s.Stations, Station{v[0], v[1], v[2], v[3]})
	}
	return s
}

func loadReference() []*referenceCase {
	files, err := filepath.Glob(filepath.Join(referenceDir, "*.json"))
	if err != nil || len(files) == 0 {
		panic(fmt.Sprintf("no reference curves in %s: %v", referenceDir, err))
	}
	sort.Strings(files)
	var out []*referenceCase
	for _, f := range files {
		if f == filepath.Clean(saloonFile) {
			continue // two cavities: see TestSaloon
		}
		b, err := os.ReadFile(f)
		if err != nil {
			panic(err)
		}
		c := new(referenceCase)
		if err := json.Unmarshal(b, c); err != nil {
			panic(fmt.Sprintf("%s: %v", f, err))
		}
		out = append(out, c)
	}
	return out
}

// freefem runs the reference script on a case.
func freefem(t testing.TB, c *referenceCase, wall int, mesh [3]float64, hz []float64) (modes []float64, z map[[2]int][]complex128) {
	exe, err := exec.LookPath("FreeFem++-nw")
	if err != nil {
		t.Skip("FreeFem++-nw is not installed (Debian package freefem++): the finite-element comparison is skipped")
	}
	dir := t.TempDir()
	in, out := filepath.Join(dir, "case.txt"), filepath.Join(dir, "result.txt")
	var b strings.Builder
	plan := 0
	if c.Plan {
		plan = 1
	}
	fmt.Fprintln(&b, c.C, c.Rho, mesh[0], mesh[1], mesh[2], 14, plan)
	fmt.Fprintln(&b, len(c.Stations))
	for _, s := range c.Stations {
		fmt.Fprintln(&b, s[0], s[1], s[2], s[3])
	}
	for _, v := range c.Walls[wall] {
		fmt.Fprintln(&b, v)
	}
	fmt.Fprintln(&b, len(c.Sources))
	for _, s := range c.Sources {
		fmt.Fprintln(&b, s[0], s[1], s[2], int(s[3]), s[4])
	}
	fmt.Fprintln(&b, len(c.Receivers))
	for _, r := range c.Receivers {
		fmt.Fprintln(&b, r[0], r[1], r[2])
	}
	fmt.Fprintln(&b, len(hz))
	for _, f := range hz {
		fmt.Fprintln(&b, f)
	}
	if err := os.WriteFile(in, []byte(b.String()), 0o600); err != nil {
		t.Fatal(err)
	}
	script, _ := filepath.Abs(filepath.Join(referenceDir, "reference", "cavity.edp"))
	cmd := exec.Command(exe, "-v", "0", script, in, out)
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), "FF_LOADPATH=/usr/lib/freefem++", "OPENBLAS_NUM_THREADS=1")
	if log, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("FreeFEM: %v\n%s", err, log)
	} else {
		t.Logf("%s", strings.TrimSpace(string(log)))
	}
	f, err := os.Open(out)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	z = map[[2]int][]complex128{}
	for sc := bufio.NewScanner(f); sc.Scan(); {
		var hz, re, im float64
		var par, s, r int
		if _, err := fmt.Sscanf(sc.Text(), "mode %d %g", &par, &hz); err == nil {
			if hz > 1 {
				modes = append(modes, hz)
			}
		} else if _, err := fmt.Sscanf(sc.Text(), "transfer %g %d %d %g %g", &hz, &s, &r, &re, &im); err == nil {
			z[[2]int{s, r}] = append(z[[2]int{s, r}], complex(re, im))
		}
	}
	sort.Float64s(modes)
	return modes, z
}

// ours computes the transfer of a case with this package.
func (c *referenceCase) ours(t testing.TB, wall int, hz []float64, o Options) (*Modes, *Transfer) {
	m, err := Solve(c.shape(), o)
	if err != nil {
		t.Fatal(err)
	}
	var a Absorption
	for r, v := range c.Walls[wall] {
		a.Region[r].At100 = v
	}
	var doors []Patch
	for _, s := range c.Sources {
		// A disc of the same second moment as the source's weighting.
		doors = append(doors, Patch{Centre: Point{s[0], s[1], s[2]}, Area: math.Pi * 4 * s[4] * s[4]})
	}
	for _, r := range c.Receivers {
		doors = append(doors, Patch{Centre: Point{r[0], r[1], r[2]}})
	}
	f, err := m.Field(air.Properties{Density: c.Rho, SpeedOfSound: c.C}, a, doors)
	if err != nil {
		t.Fatal(err)
	}
	omega := make([]float64, len(hz))
	for i, v := range hz {
		omega[i] = 2 * math.Pi * v
	}
	return m, f.Transfer(omega)
}

// rmsLevel compares two curves in dB, leaving out points that the reference
// has more than 10 dB below its mean level over the third octave about them.
func rmsLevel(hz []float64, ours, ref []complex128) (rms, worst float64) {
	var sum float64
	n := 0
	for i := range hz {
		var power float64
		k := 0
		for j := range hz {
			if math.Abs(math.Log2(hz[j]/hz[i])) <= 1.0/6 {
				power += real(ref[j])*real(ref[j]) + imag(ref[j])*imag(ref[j])
				k++
			}
		}
		if 20*math.Log10(cmplx.Abs(ref[i]))-10*math.Log10(power/float64(k)) < -10 {
			continue
		}
		d := 20 * math.Log10(cmplx.Abs(ours[i])/cmplx.Abs(ref[i]))
		sum += d * d
		worst = max(worst, math.Abs(d))
		n++
	}
	return math.Sqrt(sum / float64(n)), worst
}

func column(t *Transfer, i, j int) []complex128 {
	out := make([]complex128, len(t.Omega))
	for f := range out {
		out[f] = t.At(f, i, j)
	}
	return out
}

// TestReference compares modes and damped responses with the frozen curves.
func TestReference(t *testing.T) {
	for _, c := range loadReference() {
		t.Run(c.Name, func(t *testing.T) {
			if *update {
				c.recompute(t)
			}
			m, _ := c.ours(t, 0, c.Hz[:1], Options{})
			var worst float64
			for n := 1; n <= 10 && n < m.Len(); n++ {
				d := m.Wavenumber(n)*c.C/(2*math.Pi)/c.ModesHz[n-1] - 1
				if math.Abs(d) > math.Abs(worst) {
					worst = d
				}
				if math.Abs(d) > 2e-3 {
					t.Errorf("mode %d at %.3f Hz, reference %.3f Hz: %+.2f %%", n, m.Wavenumber(n)*c.C/(2*math.Pi), c.ModesHz[n-1], 100*d)
				}
			}
			t.Logf("first ten modes within %.3f %%", 100*math.Abs(worst))
			for w := range c.Walls {
				_, z := c.ours(t, w, c.Hz, Options{})
				for s := range c.Sources {
					for r := range c.Receivers {
						ref := make([]complex128, len(c.Hz))
						for f := range ref {
							ref[f] = complex(c.Re[w][s][r][f], c.Im[w][s][r][f])
						}
						rms, top := rmsLevel(c.Hz, column(z, len(c.Sources)+r, s), ref)
						t.Logf("walls %d source %d receiver %d: %.3f dB rms, %.2f dB at most", w, s, r, rms, top)
						if rms > 0.4 {
							t.Errorf("walls %d source %d receiver %d: %.2f dB rms from the reference", w, s, r, rms)
						}
					}
				}
			}
		})
	}
}

// recompute fills a case by running FreeFEM and writes it back.
func (c *referenceCase) recompute(t *testing.T) {
	c.Re, c.Im = nil, nil
	for w := range c.Walls {
		modes, z := freefem(t, c, w, c.Mesh, c.Hz)
		c.ModesHz = nil
		for _, f := range modes[:12] {
			c.ModesHz = append(c.ModesHz, round(f, 7))
		}
		re, im := make([][][]float64, len(c.Sources)), make([][][]float64, len(c.Sources))
		for s := range c.Sources {
			for r := range c.Receivers {
				var a, b []float64
				for _, v := range z[[2]int{s, r}] {
					a, b = append(a, round(real(v), 6)), append(b, round(imag(v), 6))
				}
				re[s], im[s] = append(re[s], a), append(im[s], b)
			}
		}
		c.Re, c.Im = append(c.Re, re), append(c.Im, im)
	}
	c.Produced = "FreeFEM 4.11 (Debian package freefem++), P2 tetrahedra, reference/cavity.edp; go test -run Reference -update"
	b, err := json.MarshalIndent(c, "", " ")
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(referenceDir, c.Name+".json"), append(b, '\n'), 0o644); err != nil {
		t.Fatal(err)
	}
}

// round keeps n significant digits.
func round(v float64, n int) float64 {
	if v == 0 {
		return 0
	}
	p := math.Pow(10, float64(n)-math.Ceil(math.Log10(math.Abs(v))))
	return math.Round(v*p) / p
}

// TestReferenceRerun runs the finite elements again, on a coarser mesh and at
// a few frequencies, so that the frozen curves cannot drift from the script.
func TestReferenceRerun(t *testing.T) {
	if testing.Short() || runtime.GOOS == "js" {
		t.Skip("the finite-element comparison runs natively and not in short mode")
	}
	for _, c := range loadReference() {
		if c.Name != "hatch" && c.Name != "step" {
			continue
		}
		hz := []float64{30, 80, 120}
		modes, z := freefem(t, c, 1, [3]float64{1.6 * c.Mesh[0], 2 * c.Mesh[1], 1.3 * c.Mesh[2]}, hz)
		for n, f := range modes[:10] {
			if d := f/c.ModesHz[n] - 1; math.Abs(d) > 2e-3 {
				t.Errorf("%s: mode %d at %.3f Hz now, %.3f Hz frozen", c.Name, n+1, f, c.ModesHz[n])
			}
		}
		_, ours := c.ours(t, 1, hz, Options{})
		for s := range c.Sources {
			for r := range c.Receivers {
				for f := range hz {
					a, b := ours.At(f, len(c.Sources)+r, s), z[[2]int{s, r}][f]
					if d := cmplx.Abs(a-b) / cmplx.Abs(b); d > 0.1 {
						t.Errorf("%s: source %d receiver %d at %g Hz: %.4g, finite elements %.4g", c.Name, s, r, hz[f], a, b)
					}
				}
			}
		}
	}
}
