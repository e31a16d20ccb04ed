package network

import (
	"math"
	"math/cmplx"
)

// speaker is a moving-coil driver with a purely resistive coil.
type speaker struct{ re, bl, sd, mms, cms, rms float64 }

// newSpeaker makes one of given resonance (Hz) and Q values; qms may be +Inf.
func newSpeaker(fs, qes, qms float64) speaker {
	s := speaker{re: 3.4, sd: 0.048, mms: 0.12}
	w := 2 * math.Pi * fs
	s.cms = 1 / (w * w * s.mms)
	s.rms = w * s.mms / qms
	s.bl = math.Sqrt(w * s.mms * s.re / qes)
	return s
}

func (s speaker) cas() float64 { return s.cms * s.sd * s.sd }

func (s speaker) cone() Mechanical {
	return Mechanical{Mass: s.mms, Compliance: s.cms, Resistance: s.rms, Area: s.sd}
}

// drive joins the speaker between two doors and returns its link and mesh.
func (s speaker) drive(n *Network, rear, front Door) (LinkID, MeshID) {
	cone := n.Join(rear, front, s.cone())
	mesh := n.AddMesh(0, Resistor(s.re))
	n.Couple(mesh, cone, s.bl/s.sd)
	return cone, mesh
}

// response turns a total volume velocity per volt into the response over the
// passband: far above its resonance a voltage-driven cone has the acceleration
// Bl E/(Re Mms).
func (s speaker) response(w float64, u complex128) complex128 {
	return complex(0, w) * u * complex(s.re*s.mms/(s.bl*s.sd), 0)
}

// lumped is a network whose radiating flows are known.
type lumped struct {
	net     Network
	speaker speaker
	cone    LinkID
	mesh    MeshID
	sum     []LinkID
}

// at returns the response, the cone's flow and the impedance at a frequency.
func (l *lumped) at(hz float64) (g, cone, z complex128) {
	w := 2 * math.Pi * hz
	s := l.net.Solve([]float64{w})
	var u complex128
	for _, k := range l.sum {
		u += s.Flow[0][k][0]
	}
	return l.speaker.response(w, u), s.Flow[0][l.cone][0], 1 / s.Current[0][l.mesh][0]
}

// decibels returns the level of the response at a frequency.
func (l *lumped) decibels(hz float64) float64 {
	g, _, _ := l.at(hz)
	return 20 * math.Log10(cmplx.Abs(g))
}

// closedBox is a speaker on a chamber with alpha = Vas/Vb.
func closedBox(s speaker, alpha float64) *lumped {
	l := &lumped{speaker: s}
	still := l.net.AddChamber(Still{})
	box := l.net.AddChamber(Chamber{Compliance: s.cas() / alpha})
	l.cone, l.mesh = s.drive(&l.net, box, still)
	l.sum = []LinkID{l.cone}
	return l
}

// ventedBox is a speaker and a lumped port on a leaky chamber; ql may be +Inf.
func ventedBox(s speaker, alpha, fb, ql float64) *lumped {
	l := &lumped{speaker: s}
	still := l.net.AddChamber(Still{})
	cab := s.cas() / alpha
	wb := 2 * math.Pi * fb
	box := l.net.AddChamber(Chamber{Compliance: cab})
	l.cone, l.mesh = s.drive(&l.net, box, still)
	port := l.net.Join(box, still, Inertance{Mass: 1 / (wb * wb * cab)})
	l.sum = []LinkID{l.cone, port}
	if !math.IsInf(ql, 1) {
		l.sum = append(l.sum, l.net.Join(box, still, Resistor(ql/(wb*cab))))
	}
	return l
}

// passiveBox is a speaker and a passive radiator on a chamber: compliance
// ratio delta = Cap/Cab, free resonance fp.
func passiveBox(s speaker, alpha, delta, fp float64) *lumped {
	l := &lumped{speaker: s}
	still := l.net.AddChamber(Still{})
	cab := s.cas() / alpha
	box := l.net.AddChamber(Chamber{Compliance: cab})
	l.cone, l.mesh = s.drive(&l.net, box, still)
	const area = 0.07
	cmp := delta * cab / (area * area)
	wp := 2 * math.Pi * fp
	l.sum = []LinkID{l.cone, l.net.Join(box, still, Mechanical{
		Mass: 1 / (wp * wp * cmp), Compliance: cmp, Area: area,
	})}
	return l
}

// bandpassBox is a speaker between a closed chamber and one with a port tuned
// to fb; only the port is heard.
func bandpassBox(s speaker, alphaRear, alphaFront, fb float64) *lumped {
	l := &lumped{speaker: s}
	still := l.net.AddChamber(Still{})
	rear := l.net.AddChamber(Chamber{Compliance: s.cas() / alphaRear})
	cab := s.cas() / alphaFront
	front := l.net.AddChamber(Chamber{Compliance: cab})
	l.cone, l.mesh = s.drive(&l.net, rear, front)
	wb := 2 * math.Pi * fb
	l.sum = []LinkID{l.net.Join(front, still, Inertance{Mass: 1 / (wb * wb * cab)})}
	return l
}
