package cavity

import "math"

// space is one parity half of the function space: N_a(x) u_i(y) v_j(z), with
// the products of u and v cut at a total degree.
type space struct {
	mesh   *mesh
	par    parity
	yb, zb *basis1
	iy, iz []int // the factors of each cross-section function
}

// newSpace takes the products u_i v_j whose grades add up to one at most.
func newSpace(m *mesh, par parity, dy, dz int) *space {
	sp := &space{mesh: m, par: par}
	// Layers are thinner than the section and do with one degree less.
	if ly := len(m.knots[0].ys); ly == 1 {
		sp.yb = legendreBasis(dy, int(par), 2)
	} else {
		across := func(k knot) []float64 { return append([]float64{-k.ys[0]}, k.ys...) }
		sp.yb = foldedBasis(m.thickest(dy-1, across), par)
	}
	if lz := len(m.knots[0].zs) - 1; lz == 1 {
		sp.zb = legendreBasis(dz, 0, 1)
	} else {
		sp.zb = layeredBasis(m.thickest(dz-1, func(k knot) []float64 { return k.zs }))
	}
	for i, gi := range sp.yb.grade {
		for j, gj := range sp.zb.grade {
			if gi+gj < 1+1e-9 {
				sp.iy = append(sp.iy, i)
				sp.iz = append(sp.iz, j)
			}
		}
	}
	return sp
}

// degrees returns the polynomial degrees across and up the car: even across,
// where the functions have one parity, one more in a tall shape, for about
// three half waves at the cut-off either way.
func degrees(s Shape, degree int) (dy, dz int) {
	dy, dz = degree+1, degree
	for _, st := range s.Stations {
		if st.Roof-st.Floor > 1.4 {
			dz = degree + 1
		}
	}
	return dy, dz
}

// mostEffort is what a large van may take before it gets a lower degree: some
// 25 ms in WebAssembly for all of Solve. Those with three steps or a step of the
// sides go beyond it; their first ten modes, low as they are, are then right to
// 0.1 or 0.2 % in place of 0.05. Smaller cars have fewer elements and need them.
const mostEffort = 2.7e6

// effort is about how many multiplications the factor of the stiffness takes.
func (sp *space) effort() float64 {
	var sum float64
	for _, nodes := range sp.mesh.nodes {
		p := float64(len(nodes))
		sum += p*p*p - 1
	}
	return sum * math.Pow(float64(sp.nq()), 3) / 6
}

func (sp *space) nq() int { return len(sp.iy) }
func (sp *space) n() int  { return sp.mesh.xnodes() * sp.nq() }

// yWeight is 1 for the centre layer, 2 for the others, which stand for both
// sides of the centre plane.
func yWeight(layer int) float64 {
	if layer == 0 {
		return 1
	}
	return 2
}

// assemble returns the stiffness int grad u . grad v and the mass int u v over
// the volume, in the mapped coordinates
//
//	grad = (d/dx - (mid_y'+t half_y')/half_y d/dt - (mid_z'+s half_z')/half_z d/ds,
//	        1/half_y d/dt, 1/half_z d/ds)
//
// with volume element half_y half_z dx dt ds. The integrals over the section
// are products of one-dimensional moments; only x needs quadrature.
func (sp *space) assemble() (stiff, mass *envelope) {
	m := sp.mesh
	nq := sp.nq()
	first := make([]int, sp.n())
	for e, at := range m.first[:m.slabs()] {
		for i := (at + 1) * nq; i < (m.first[e+1]+1)*nq; i++ {
			first[i] = at * nq
		}
	}
	k := newEnvelope(first)
	mass = newEnvelope(first)

	ys, zs := sp.yb.layerMoments(), sp.zb.layerMoments()
	active := make([][]int, len(ys)*len(zs))
	for i := range active {
		active[i] = sp.active(&ys[i/len(zs)], &zs[i%len(zs)])
	}
	square := func() []float64 { return make([]float64, nq*nq) }
	t00, t10, t01, t11 := square(), square(), square(), square()
	for e := range m.slabs() {
		na := len(m.nodes[e])
		gx, gw := gauss(na + 2)
		val, der := make([]float64, na), make([]float64, na)
		dx := m.knots[e+1].x - m.knots[e].x
		for g, s := range gx {
			lagrange(m.nodes[e], s, val, der)
			w := gw[g] * dx / 2
			clear(t00)
			clear(t10)
			clear(t11)
			for ly := range ys {
				a := m.yStrip(e, ly, s)
				for lz := range zs {
					sp.section(active[ly*len(zs)+lz], &ys[ly], &zs[lz], a, m.zStrip(e, lz, s), w*yWeight(ly), t00, t10, t11)
				}
			}
			for q := range nq {
				for r := range nq {
					t01[r*nq+q] = t10[q*nq+r]
				}
			}
			for a := range na {
				da := der[a] * 2 / dx
				for b := range a + 1 {
					db := der[b] * 2 / dx
					c11, c10, c01, c00 := da*db, da*val[b], val[a]*db, val[a]*val[b]
					col := (m.first[e] + b) * nq
					for q := range nq {
						i, t := (m.first[e]+a)*nq+q, q*nq
						to := min(col+nq, i+1) // of the lower half
						kr := k.a[k.ptr[i]+col : k.ptr[i]+to]
						axpy4(c11, c10, c01, c00, t11[t:], t10[t:], t01[t:], t00[t:], kr)
						axpy(c00, t11[t:t+len(kr)], mass.a[mass.ptr[i]+col:mass.ptr[i]+to])
					}
				}
			}
		}
	}
	return k, mass
}

// active lists the functions of the section that are not zero in a pair of
// layers.
func (sp *space) active(y, z *moments) []int {
	var out []int
	for q := range sp.iy {
		if y.m00[sp.iy[q]*(sp.yb.n()+1)] > 0 && z.m00[sp.iz[q]*(sp.zb.n()+1)] > 0 {
			out = append(out, q)
		}
	}
	return out
}

// section adds, for one pair of layers at one place along x, the coefficient
// matrices of N_a N_b (t00), N_a' N_b (t10) and N_a' N_b' (t11).
func (sp *space) section(active []int, y, z *moments, a, b strip, w float64, t00, t10, t11 []float64) {
	ny, nz, nq := sp.yb.n(), sp.zb.n(), sp.nq()
	hy, hz := a.half, b.half
	for _, q := range active {
		for _, r := range active {
			iy, jy := sp.iy[q]*ny+sp.iy[r], sp.iy[r]*ny+sp.iy[q]
			iz, jz := sp.iz[q]*nz+sp.iz[r], sp.iz[r]*nz+sp.iz[q]
			y00, z00 := y.m00[iy], z.m00[iz]
			// <u, (mid'+t half') u'> and its transpose, for both directions
			ya, yt := a.dmid*y.m01[iy]+a.dhalf*y.e01[iy], a.dmid*y.m01[jy]+a.dhalf*y.e01[jy]
			za, zt := b.dmid*z.m01[iz]+b.dhalf*z.e01[iz], b.dmid*z.m01[jz]+b.dhalf*z.e01[jz]
			yd := (1+a.dmid*a.dmid)*y.m11[iy] + a.dmid*a.dhalf*(y.e11[iy]+y.e11[jy]) + a.dhalf*a.dhalf*y.ee11[iy]
			zd := (1+b.dmid*b.dmid)*z.m11[iz] + b.dmid*b.dhalf*(z.e11[iz]+z.e11[jz]) + b.dhalf*b.dhalf*z.ee11[iz]
			k := q*nq + r
			t11[k] += w * hy * hz * y00 * z00
			t10[k] -= w * (hz*ya*z00 + hy*y00*za)
			t00[k] += w * (hz/hy*yd*z00 + hy/hz*y00*zd + yt*za + ya*zt)
		}
	}
}

// compress drops what is zero of the mass: products of functions across the
// section that do not overlap, or that are orthogonal.
func (sp *space) compress(mass *envelope) *sparse {
	nq, ny, nz := sp.nq(), sp.yb.n(), sp.zb.n()
	inY, inZ := sp.yb.overlap(), sp.zb.overlap()
	with := make([][]int, nq)
	for q := range nq {
		for r := range nq {
			if inY[sp.iy[q]*ny+sp.iy[r]] > 1e-14 && inZ[sp.iz[q]*nz+sp.iz[r]] > 1e-14 {
				with[q] = append(with[q], r)
			}
		}
	}
	s := &sparse{ptr: make([]int, 1, mass.n+1)}
	slab := 0
	for i := range mass.n {
		// The node of row i is coupled with those to the end of its slab, of the
		// later one where it stands between two.
		if slab+1 < sp.mesh.slabs() && i/nq >= sp.mesh.first[slab+1] {
			slab++
		}
		for node := mass.first[i] / nq; node <= sp.mesh.first[slab+1]; node++ {
			for _, r := range with[i%nq] {
				j := node*nq + r
				s.col = append(s.col, j)
				s.val = append(s.val, mass.a[mass.ptr[max(i, j)]+min(i, j)])
			}
		}
		s.ptr = append(s.ptr, len(s.col))
	}
	return s
}
