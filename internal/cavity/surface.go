package cavity

import "math"

// surfaces returns, for each region, the matrix of the integral of phi_m phi_n
// over that surface, divided by the volume, in the order of the modes.
func (m *Modes) surfaces() [NumRegions][]float64 {
	n := m.Len()
	var out [NumRegions][]float64
	for r := range out {
		out[r] = make([]float64, n*n)
	}
	phi := make([]float64, n)
	mesh := m.halves[0].sp.mesh
	deg := 0
	for _, b := range []*basis1{m.halves[0].sp.yb, m.halves[0].sp.zb} {
		for _, d := range b.degree {
			deg = max(deg, d)
		}
	}
	gx, wx := gauss(mesh.degree + 2)
	gt, wt := gauss(deg + 1)
	// collect adds the right-hand and left-hand points of one quadrature point;
	// by symmetry the pair kills even-odd products and doubles the others.
	collect := func(r Region, p Point, w float64) {
		m.values(p, phi)
		o := out[r]
		for i := range n {
			for j := range i + 1 {
				if m.order[i].par == m.order[j].par {
					o[i*n+j] += 2 * w * phi[i] * phi[j] / m.volume
				}
			}
		}
	}
	ny, nz := len(mesh.knots[0].ys), len(mesh.knots[0].zs)-1
	for e := range mesh.slabs() {
		a, b := mesh.knots[e], mesh.knots[e+1]
		dx := b.x - a.x
		df, dr := (b.zs[0]-a.zs[0])/dx, (b.zs[nz]-a.zs[nz])/dx
		dw := (b.ys[ny-1] - a.ys[ny-1]) / dx
		for g, s := range gx {
			x := a.x + (1+s)/2*dx
			w := wx[g] * dx / 2
			zlo, zhi := mesh.zStrip(e, 0, s), mesh.zStrip(e, nz-1, s)
			floor, roof := zlo.mid-zlo.half, zhi.mid+zhi.half
			for ky := range ny {
				st := mesh.yStrip(e, ky, s)
				for h, t := range gt {
					lo, half := st.mid-st.half, st.half
					if ky == 0 { // right-hand half of the centre layer
						lo, half = 0, st.half/2
					}
					y, wy := lo+(1+t)*half, wt[h]*half
					collect(Floor, Point{x, y, floor}, w*wy*math.Hypot(1, df))
					collect(Roof, Point{x, y, roof}, w*wy*math.Hypot(1, dr))
				}
			}
			yo := mesh.yStrip(e, ny-1, s)
			for kz := range nz {
				st := mesh.zStrip(e, kz, s)
				for h, t := range gt {
					collect(Sides, Point{x, yo.mid + yo.half, st.mid + t*st.half}, w*wt[h]*st.half*math.Hypot(1, dw))
				}
			}
		}
	}
	for _, end := range []Region{Front, Rear} {
		e, s := 0, -1.0
		if end == Rear {
			e, s = mesh.slabs()-1, 1
		}
		x := mesh.knots[0].x
		if end == Rear {
			x = mesh.knots[mesh.slabs()].x
		}
		for ky := range ny {
			ys := mesh.yStrip(e, ky, s)
			for kz := range nz {
				zs := mesh.zStrip(e, kz, s)
				for h, t := range gt {
					lo, half := ys.mid-ys.half, ys.half
					if ky == 0 {
						lo, half = 0, ys.half/2
					}
					for i, u := range gt {
						collect(end, Point{x, lo + (1+t)*half, zs.mid + u*zs.half}, wt[h]*half*wt[i]*zs.half)
					}
				}
			}
		}
	}
	for r := range out {
		for i := range n {
			for j := range i {
				out[r][j*n+i] = out[r][i*n+j]
			}
		}
	}
	return out
}

// values fills phi with all modes at a point on the right-hand side or
// anywhere else in the shape.
func (m *Modes) values(p Point, phi []float64) {
	p = m.shape.Clamp(p)
	var l [2]load
	for par := range l {
		l[par] = m.halves[par].sp.load(p)
	}
	for i, r := range m.order {
		phi[i] = l[r.par].dot(m.halves[r.par].vecs[r.index])
	}
}
