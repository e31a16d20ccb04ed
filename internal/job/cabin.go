package job

import "math"

// Length is the length of the cabin in millimetres, whichever way it is
// described; 0 where it is not described.
func (k Cabin) Length() float64 {
	if k.Shape == "stations" {
		if len(k.Stations) == 0 {
			return 0
		}
		return k.Stations[len(k.Stations)-1].XMM - k.Stations[0].XMM
	}
	return k.LengthMM
}

// Section is the cross-section at x, straight lines joining the stations; x
// outside the cabin gives the nearest end. A cabin without stations gives the
// section of its cuboid.
func (k Cabin) Section(x float64) Station {
	if k.Shape != "stations" || len(k.Stations) == 0 {
		return Station{XMM: x, FloorMM: 0, RoofMM: k.HeightMM, WidthMM: k.WidthMM}
	}
	s := k.Stations
	if x <= s[0].XMM {
		return s[0]
	}
	for i := 1; i < len(s); i++ {
		if x <= s[i].XMM {
			a, b := s[i-1], s[i]
			t := (x - a.XMM) / (b.XMM - a.XMM)
			mix := func(p, q float64) float64 { return p + t*(q-p) }
			return Station{XMM: x, FloorMM: mix(a.FloorMM, b.FloorMM), RoofMM: mix(a.RoofMM, b.RoofMM), WidthMM: mix(a.WidthMM, b.WidthMM)}
		}
	}
	return s[len(s)-1]
}

// VolumeM3 is the volume of the empty cabin in cubic metres. Between two
// stations height and width are straight lines, so the area is a parabola and
// Simpson's rule is exact.
func (k Cabin) VolumeM3() float64 {
	if k.Shape != "stations" {
		return k.LengthMM * k.WidthMM * k.HeightMM * 1e-9
	}
	total := 0.0
	for i := 1; i < len(k.Stations); i++ {
		a, b := k.Stations[i-1], k.Stations[i]
		ha, hb := a.RoofMM-a.FloorMM, b.RoofMM-b.FloorMM
		ends := ha*a.WidthMM + hb*b.WidthMM
		middle := (ha + hb) / 2 * (a.WidthMM + b.WidthMM) / 2
		total += (b.XMM - a.XMM) / 6 * (ends + 4*middle)
	}
	return total * 1e-9
}

// VolumeM3 is the volume of the boot space in cubic metres: its length, width
// and height.
func (b Boot) VolumeM3() float64 { return b.LengthMM * b.WidthMM * b.HeightMM * 1e-9 }

// inBoot reports whether a point lies in the boot, within slack millimetres.
func (b Boot) inBoot(x, y, z, slack float64) bool {
	return x >= b.XMM-slack && x <= b.XMM+b.LengthMM+slack &&
		math.Abs(y) <= b.WidthMM/2+slack &&
		z >= b.FloorMM-slack && z <= b.FloorMM+b.HeightMM+slack
}

// tidy writes a computed length to the millimetre.
func tidy(v float64, unit string) string { return Number(math.Round(v), unit) }
