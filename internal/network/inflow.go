package network

// Inflow adds up, at frequency number k, the volume velocity that enters each
// door of a body, for given voltages of the channels.
func (n *Network) Inflow(s *Solution, b BodyID, volts []complex128, k int) []complex128 {
	out := make([]complex128, n.bodies[b].Doors())
	for c, v := range volts {
		for i, l := range n.links {
			u := v * s.Flow[c][i][k]
			if l.from.Body == b {
				out[l.from.Index] -= u
			}
			if l.to.Body == b {
				out[l.to.Index] += u
			}
		}
	}
	return out
}
