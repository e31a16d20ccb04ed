// Package cavity predicts what a closed air space, a cabin or a boot, does to
// bass. From a shape measured with a tape it finds the rigid-wall modes of
// that very shape; from what the walls are covered with, who sits inside and
// where the doors (cones, ports, openings, leaks, ears) are, it gives the
// transfer impedance between every pair of doors.
//
// The work is in three steps, so that each is done only when it must be:
//
//	Solve(shape)          modes; depends on the shape alone
//	(*Modes).Field        air, losses and the set of doors
//	(*Field).Transfer     one complex symmetric matrix for each frequency
//
// Phasors are exp(+jwt). Lengths are metres, acoustic impedance Pa s/m3,
// volume velocity m3/s. x runs rearward from the front, y to the right from
// the centre line, z upward; the same axes as the job document.
package cavity
