package network

import (
	"math"
	"math/cmplx"
	"math/rand/v2"
	"testing"

	"bootfloor/internal/air"
)

// Energy: what the sources deliver is exactly what is lost in meshes and links
// and taken by bodies, and no body of passive air gives any back.
func TestEnergyIsConserved(t *testing.T) {
	omega := logGrid(8, 600, 9)
	for seed := range uint64(150) {
		r := rand.New(rand.NewPCG(seed, 1))
		n := randomNetwork(r, omega)
		s := n.Solve(omega)
		for c := range n.Channels() {
			for k := range omega {
				drawn, spent := n.power(s, c, k)
				var sum, size float64
				for i, p := range spent {
					sum += p
					size += math.Abs(p)
					isMutual := i >= len(n.meshes) && i < len(n.meshes)+len(n.mutuals)
					if p < -1e-9*drawn && !isMutual {
						t.Fatalf("seed %d channel %d: a part gives %.3g of %.3g W", seed, c, -p, drawn)
					}
				}
				if math.Abs(sum-drawn) > 1e-9*size {
					t.Fatalf("seed %d channel %d: drawn %.12g W, spent %.12g W", seed, c, drawn, sum)
				}
			}
		}
	}
}

// Reciprocity: with one mesh on each channel, the current in mesh j for a volt
// in mesh i is that in mesh i for a volt in mesh j, whatever lies between.
func TestReciprocity(t *testing.T) {
	omega := logGrid(8, 600, 7)
	pairs := 0
	for seed := range uint64(150) {
		r := rand.New(rand.NewPCG(seed, 2))
		n := randomNetwork(r, omega)
		for i := range n.channel {
			n.channel[i] = i
		}
		n.nchan = len(n.channel)
		s := n.Solve(omega)
		for i := range n.nchan {
			for j := range i {
				for k := range omega {
					a, b := s.Current[i][j][k], s.Current[j][i][k]
					own := math.Sqrt(cmplx.Abs(s.Current[i][i][k] * s.Current[j][j][k]))
					if cmplx.Abs(a-b) > 1e-10*own {
						t.Fatalf("seed %d: mesh %d to %d %v, back %v", seed, i, j, a, b)
					}
					if cmplx.Abs(a) > 1e-6*own {
						pairs++
					}
				}
			}
		}
	}
	if pairs < 500 {
		t.Errorf("only %d pairs of meshes heard each other: the test shows little", pairs)
	}
}

// The order in which parts are added does not matter.
func TestOrderDoesNotMatter(t *testing.T) {
	omega := logGrid(8, 600, 5)
	for seed := range uint64(60) {
		r := rand.New(rand.NewPCG(seed, 3))
		n := randomNetwork(r, omega)
		bodies, links, meshes := r.Perm(len(n.bodies)), r.Perm(len(n.links)), r.Perm(len(n.meshes))
		m := &Network{nchan: n.nchan, bodies: make([]Body, len(bodies)), links: make([]link, len(links)),
			meshes: make([]Branch, len(meshes)), channel: make([]int, len(meshes))}
		move := func(d Door) Door { return Door{BodyID(bodies[d.Body]), d.Index} }
		for i, b := range n.bodies {
			m.bodies[bodies[i]] = b
		}
		for i, l := range n.links {
			m.links[links[i]] = link{move(l.from), move(l.to), l.z}
		}
		for i, z := range n.meshes {
			m.meshes[meshes[i]] = z
			m.channel[meshes[i]] = n.channel[i]
		}
		for _, x := range n.motors {
			m.motors = append(m.motors, motor{LinkID(links[x.link]), MeshID(meshes[x.mesh]), x.factor})
		}
		for _, x := range n.mutuals {
			m.mutuals = append(m.mutuals, mutual{MeshID(meshes[x.a]), MeshID(meshes[x.b]), x.z})
		}
		for _, d := range n.probes {
			m.Probe(move(d))
		}
		a, b := n.Solve(omega), m.Solve(omega)
		for c := range n.nchan {
			for i := range n.probes {
				for k := range omega {
					x, y := a.Pressure[c][i][k], b.Pressure[c][i][k]
					if cmplx.Abs(x-y) > 1e-8*cmplx.Abs(x)+1e-12 {
						t.Fatalf("seed %d: probe %d is %v or %v", seed, i, x, y)
					}
				}
			}
		}
	}
}

// Turning a link and its motor round changes the sign of its flow and nothing
// else.
func TestDirectionIsASign(t *testing.T) {
	omega := logGrid(8, 600, 5)
	for seed := range uint64(40) {
		r := rand.New(rand.NewPCG(seed, 4))
		n := randomNetwork(r, omega)
		before := n.Solve(omega)
		n.links[0].from, n.links[0].to = n.links[0].to, n.links[0].from
		for i := range n.motors {
			if n.motors[i].link == 0 {
				n.motors[i].factor = -n.motors[i].factor
			}
		}
		after := n.Solve(omega)
		for c := range n.nchan {
			for k := range omega {
				x, y := before.Flow[c][0][k], after.Flow[c][0][k]
				if cmplx.Abs(x+y) > 1e-9*cmplx.Abs(x)+1e-18 {
					t.Fatalf("seed %d: flow %v turned into %v", seed, x, y)
				}
			}
		}
	}
}

// A group of like drivers in series or parallel on one chamber is as many
// drivers on their own: each with its own mesh where they are in parallel,
// sharing the cable, and one mesh with several motors where in series.
func TestGroupsAreTheirDrivers(t *testing.T) {
	omega := logGrid(10, 500, 25)
	a := air.MustStandard()
	const cable, le = 0.21, 1.1e-3
	sp := newSpeaker(27, 0.45, 4)
	coil := func(ratio float64) Branch {
		return BranchFunc(func(w float64) complex128 { return complex(sp.re*ratio+cable, w*le*ratio) })
	}
	vented := func(n *Network) (box, still Door) {
		still = n.AddChamber(Still{})
		box = n.AddChamber(Chamber{Compliance: Compliance(a, 0.1, 0), Absorption: 300})
		n.Join(box, still, Inertance{Mass: 40, Resistance: 20})
		n.Join(box, still, Resistor(2e5))
		return
	}
	for _, c := range []struct{ series, parallel int }{{1, 1}, {2, 1}, {1, 2}, {1, 4}, {2, 2}, {3, 2}} {
		count := float64(c.series * c.parallel)
		var group, each Network
		box, still := vented(&group)
		g := group.Join(box, still, Mechanical{Mass: count * sp.mms, Compliance: sp.cms / count,
			Resistance: count * sp.rms, Area: count * sp.sd})
		m := group.AddMesh(0, coil(float64(c.series)/float64(c.parallel)))
		group.Couple(m, g, float64(c.series)*sp.bl/(count*sp.sd))
		gs := group.Solve(omega)

		box, still = vented(&each)
		var cones []LinkID
		for p := range c.parallel {
			m := each.AddMesh(0, coil(float64(c.series)))
			for q := range p {
				each.Share(MeshID(q), m, Resistor(cable))
			}
			for range c.series {
				l := each.Join(box, still, sp.cone())
				each.Couple(m, l, sp.bl/sp.sd)
				cones = append(cones, l)
			}
		}
		es := each.Solve(omega)
		for k := range omega {
			var flow, current complex128
			for _, l := range cones {
				flow += es.Flow[0][l][k]
			}
			for p := range c.parallel {
				current += es.Current[0][p][k]
			}
			if e := cmplx.Abs(flow-gs.Flow[0][g][k]) / cmplx.Abs(flow); e > 1e-10 {
				t.Errorf("%d in series, %d in parallel: flow off by %.2g", c.series, c.parallel, e)
			}
			if e := cmplx.Abs(current-gs.Current[0][m][k]) / cmplx.Abs(current); e > 1e-10 {
				t.Errorf("%d in series, %d in parallel: current off by %.2g", c.series, c.parallel, e)
			}
		}
	}
}

// A link to a door that does not exist is the caller's mistake.
func TestWrongDoorPanics(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("joined a door that is not there")
		}
	}()
	var n Network
	d := n.AddChamber(Still{})
	n.Join(d, Door{d.Body, 1}, Zero)
}
