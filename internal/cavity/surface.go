package cavity

import "math"

// surfaces returns, for each region, the matrix of the integral of phi_m phi_n
// over that surface, divided by the volume, in the order of the modes. By
// symmetry even and odd modes do not couple.
func (m *Modes) surfaces() [NumRegions][]float64 {
	n := m.Len()
	var out [NumRegions][]float64
	for r := range out {
		out[r] = make([]float64, n*n)
	}
	for par := range m.halves {
		h := &m.halves[par]
		part := h.surfaces()
		for i, a := range m.order {
			for j, b := range m.order {
				if a.par == parity(par) && b.par == parity(par) {
					for r := range out {
						out[r][i*n+j] = part[r][a.index*len(h.vecs)+b.index] / m.volume
					}
				}
			}
		}
	}
	return out
}

// surfaces integrates the products of the modes of one half over the walls.
// In a plane across the car a mode is a sum over u_i v_j; on a wall one factor
// is a number, and the other integrates to a moment of the section.
func (h *half) surfaces() [NumRegions][]float64 {
	sp, mesh := h.sp, h.sp.mesh
	n := len(h.vecs)
	var out [NumRegions][]float64
	for r := range out {
		out[r] = make([]float64, n*n)
	}
	ny, nz, ly, lz := sp.yb.n(), sp.zb.n(), sp.yb.layers, sp.zb.layers
	ym, zm := make([][]float64, ly), make([][]float64, lz)
	for l := range ym {
		ym[l] = sp.yb.moments(l).m00
	}
	for l := range zm {
		zm[l] = sp.zb.moments(l).m00
	}
	edge := func(b *basis1, layer int, t float64) []float64 {
		v, d := make([]float64, b.n()), make([]float64, b.n())
		b.eval(layer, t, v, d)
		return v
	}
	floor, roof, side := edge(sp.zb, 0, -1), edge(sp.zb, lz-1, 1), edge(sp.yb, ly-1, 1)
	coef := make([]float64, n*sp.nq())
	onFloor, onRoof, onSide := make([]float64, n*ny), make([]float64, n*ny), make([]float64, n*nz)

	for e := range mesh.slabs() {
		na := len(mesh.nodes[e])
		gx, wx := gauss(na + 1)
		nv, nd := make([]float64, na), make([]float64, na)
		a, b := mesh.knots[e], mesh.knots[e+1]
		dx := b.x - a.x
		top := len(a.zs) - 1
		lf := math.Hypot(dx, b.zs[0]-a.zs[0])
		lr := math.Hypot(dx, b.zs[top]-a.zs[top])
		ls := math.Hypot(dx, b.ys[ly-1]-a.ys[ly-1])
		for g, s := range gx {
			lagrange(mesh.nodes[e], s, nv, nd)
			h.plane(e, nv, coef)
			clear(onFloor)
			clear(onRoof)
			clear(onSide)
			for i := range n {
				for q, c := range coef[i*sp.nq() : (i+1)*sp.nq()] {
					iy, iz := sp.iy[q], sp.iz[q]
					onFloor[i*ny+iy] += c * floor[iz]
					onRoof[i*ny+iy] += c * roof[iz]
					onSide[i*nz+iz] += c * side[iy]
				}
			}
			w := wx[g] / 2
			for l := range ym {
				k := w * yWeight(l) * mesh.yStrip(e, l, s).half
				quadratic(out[Floor], onFloor, ym[l], n, ny, k*lf)
				quadratic(out[Roof], onRoof, ym[l], n, ny, k*lr)
			}
			for l := range zm {
				quadratic(out[Sides], onSide, zm[l], n, nz, 2*w*mesh.zStrip(e, l, s).half*ls)
			}
		}
	}
	cross := make([]float64, sp.nq()*sp.nq())
	for _, end := range []struct {
		region Region
		slab   int
		s      float64
	}{{Front, 0, -1}, {Rear, mesh.slabs() - 1, 1}} {
		na := len(mesh.nodes[end.slab])
		nv, nd := make([]float64, na), make([]float64, na)
		lagrange(mesh.nodes[end.slab], end.s, nv, nd)
		h.plane(end.slab, nv, coef)
		clear(cross)
		for ky := range ym {
			for kz := range zm {
				k := yWeight(ky) * mesh.yStrip(end.slab, ky, end.s).half * mesh.zStrip(end.slab, kz, end.s).half
				for q := range sp.iy {
					for r := range sp.iy {
						cross[q*sp.nq()+r] += k * ym[ky][sp.iy[q]*ny+sp.iy[r]] * zm[kz][sp.iz[q]*nz+sp.iz[r]]
					}
				}
			}
		}
		quadratic(out[end.region], coef, cross, n, sp.nq(), 1)
	}
	return out
}

// plane fills coef, mode by mode, with the coefficients of u_i v_j in the plane
// of slab e where the functions along x have the values nv.
func (h *half) plane(e int, nv, coef []float64) {
	nq := h.sp.nq()
	base := h.sp.mesh.first[e] * nq
	clear(coef)
	for i, v := range h.vecs {
		for a, x := range nv {
			axpy(x, v[base+a*nq:base+(a+1)*nq], coef[i*nq:(i+1)*nq])
		}
	}
}

// quadratic adds w c_i' G c_j to out for all pairs of the n rows of c.
func quadratic(out, c, g []float64, n, size int, w float64) {
	t := make([]float64, size)
	for i := range n {
		for k := range t {
			t[k] = w * dot(g[k*size:(k+1)*size], c[i*size:(i+1)*size])
		}
		for j := range n {
			out[i*n+j] += dot(t, c[j*size:(j+1)*size])
		}
	}
}
