// Package network solves small acoustic systems in the frequency domain: every
// box type, door and car is a set of bodies of air joined by links, driven
// through electrical meshes.
//
// A Body is air (or open space) that holds pressure. It is known by its
// impedance matrix: the pressure at each of its doors per unit volume velocity
// entering each of them. A chamber has one door, a duct two, a cabin as many
// as there are mouths and ears in it.
//
// A Link carries one volume velocity U from a door of one body to a door of
// another through a series impedance: a cone's suspension and mass, a port's
// end correction, a leak's resistance.
//
// A Mesh carries one electrical current. A Motor couples a mesh to a link: a
// current I pushes with the pressure F I along the link, and the flow U
// induces the voltage F U in the mesh, F = Bl/Sd.
//
// For every link and mesh that makes one equation,
//
//	p_from - p_to + sum F I = Z U
//	E = sum Zmesh I + sum F U
//
// with p = sum Z_body (flow in). The unknowns are the flows and the currents
// alone, so the system stays as small as the number of moving things. It is
// factorised once for each frequency and solved once for each channel.
//
// Phasors are exp(+jwt), units SI: Pa, m3/s, Pa s/m3, V, A.
package network

import "fmt"

// Body is a volume of air seen through its doors.
type Body interface {
	// Doors returns how many doors the body has.
	Doors() int
	// Impedance writes the doors x doors matrix, row by row, of pressure at a
	// door per volume velocity into a door (Pa s/m3) at the frequency with
	// index k of the grid being solved and angular frequency omega (rad/s).
	// The matrix of a passive body is symmetric with a positive semidefinite
	// real part.
	Impedance(k int, omega float64, z []complex128)
}

// Branch is a series impedance (Pa s/m3 in a link, ohm in a mesh).
type Branch interface {
	Impedance(omega float64) complex128
}

// BranchFunc makes a function a Branch.
type BranchFunc func(omega float64) complex128

// Impedance calls f.
func (f BranchFunc) Impedance(omega float64) complex128 { return f(omega) }

// Zero is the branch without impedance: two doors that simply meet.
var Zero Branch = BranchFunc(func(float64) complex128 { return 0 })

// Series returns the branch of several in series.
func Series(parts ...Branch) Branch {
	return BranchFunc(func(omega float64) complex128 {
		var z complex128
		for _, b := range parts {
			z += b.Impedance(omega)
		}
		return z
	})
}

// BodyID, LinkID and MeshID number the parts in the order they were added.
type (
	BodyID int
	LinkID int
	MeshID int
)

// Door names one door of one body.
type Door struct {
	Body  BodyID
	Index int
}

type link struct {
	from, to Door
	z        Branch
}

type motor struct {
	link   LinkID
	mesh   MeshID
	factor float64
}

type mutual struct {
	a, b MeshID
	z    Branch
}

// Network is a system under construction. The zero value is empty and ready.
type Network struct {
	bodies  []Body
	links   []link
	meshes  []Branch
	channel []int // channel that drives each mesh, -1 for none
	mutuals []mutual
	motors  []motor
	probes  []Door
	nchan   int
}

// AddBody adds a body and returns its number.
func (n *Network) AddBody(b Body) BodyID {
	n.bodies = append(n.bodies, b)
	return BodyID(len(n.bodies) - 1)
}

// AddChamber adds a body with one door and returns that door.
func (n *Network) AddChamber(b Body) Door {
	return Door{Body: n.AddBody(b)}
}

// Join adds a link whose positive flow leaves from and enters to.
func (n *Network) Join(from, to Door, z Branch) LinkID {
	for _, d := range []Door{from, to} {
		if int(d.Body) >= len(n.bodies) || d.Index >= n.bodies[d.Body].Doors() {
			panic(fmt.Sprintf("network: no door %d in body %d", d.Index, d.Body))
		}
	}
	n.links = append(n.links, link{from, to, z})
	return LinkID(len(n.links) - 1)
}

// AddMesh adds an electrical mesh of series impedance z (amplifier output,
// cable and coil) whose source is one volt per volt of the channel's signal.
func (n *Network) AddMesh(channel int, z Branch) MeshID {
	if channel < 0 {
		panic("network: negative channel")
	}
	n.meshes = append(n.meshes, z)
	n.channel = append(n.channel, channel)
	n.nchan = max(n.nchan, channel+1)
	return MeshID(len(n.meshes) - 1)
}

// AddLoop adds a mesh of series impedance z without a source, such as the two
// coils of a pair round which a current can run that the amplifier never sees.
func (n *Network) AddLoop(z Branch) MeshID {
	n.meshes = append(n.meshes, z)
	n.channel = append(n.channel, -1)
	return MeshID(len(n.meshes) - 1)
}

// Share adds an impedance that the currents of two meshes both flow through,
// such as one cable to two voice coils. Its own part must already be in each
// mesh's series impedance.
func (n *Network) Share(a, b MeshID, z Branch) {
	n.mutuals = append(n.mutuals, mutual{a, b, z})
}

// Couple puts a motor of force factor over area, Bl/Sd (T/m), between a mesh
// and a link. A positive current pushes the link's flow forward; a negative
// factor is a driver wired or mounted the other way round.
func (n *Network) Couple(m MeshID, l LinkID, factor float64) {
	n.motors = append(n.motors, motor{l, m, factor})
}

// Probe asks for the pressure at a door, flows through it or not, and returns
// the number of the probe.
func (n *Network) Probe(d Door) int {
	n.probes = append(n.probes, d)
	return len(n.probes) - 1
}

// Channels returns how many channels drive the network.
func (n *Network) Channels() int { return n.nchan }

// Mesh returns the series impedance of a mesh.
func (n *Network) Mesh(m MeshID) Branch { return n.meshes[m] }

// Link returns the series impedance of a link.
func (n *Network) Link(l LinkID) Branch { return n.links[l].z }
