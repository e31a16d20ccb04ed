package cavity

// Finish is what a surface is covered with.
type Finish struct {
	Key  string // as in the job document
	Name string // as a reader would say it
	Admittance
	Note string // where the value comes from
}

// The real admittances of trimmed car panels at bass frequencies are hardly
// published. The values here are assumed: ordered as tables of absorption at
// 125 Hz order the materials (alpha is about 8 beta for small beta in a
// diffuse field, H. Kuttruff, Room Acoustics, 2000, 2.5; such a table gives
// glass, carpet and upholstery some 0.03 to 0.3), scaled so that a trimmed
// cabin with its seats rings with 5 to 15 per cent of critical damping at its
// first modes, the usual range for trimmed cars (from memory, common
// practice). Thin porous layers absorb in proportion to frequency or faster
// while they are far thinner than a wavelength; plates lose by their own
// motion, more evenly.
const assumed = "assumed; common practice, no source"

// Finishes lists the known finishes, hardest first.
func Finishes() []Finish {
	return []Finish{
		{"metal", "bare metal", Admittance{0.006, 0}, assumed},
		{"glass", "glass", Admittance{0.010, 0}, assumed},
		{"rubber_mat", "rubber matting", Admittance{0.010, 0.3}, assumed},
		{"hard_trim", "hard plastic trim", Admittance{0.019, 0.3}, assumed},
		{"treated", "damped and lined panels", Admittance{0.029, 0.5}, assumed},
		{"cloth_trim", "cloth-covered trim", Admittance{0.029, 0.7}, assumed},
		{"carpet", "carpet", Admittance{0.032, 0.8}, assumed},
		{"headliner", "headlining", Admittance{0.040, 0.8}, assumed},
		{"soft_top", "fabric roof", Admittance{0.080, 0}, assumed + "; sound also passes through"},
		{"leather_seat", "leather upholstery", Admittance{0.040, 0.5}, assumed},
		{"seats", "seat upholstery", Admittance{0.064, 0.6}, assumed},
		{"person", "a clothed person", Admittance{0.056, 0.6}, assumed},
	}
}

// FinishByKey returns the finish of a key.
func FinishByKey(key string) (Finish, bool) {
	for _, f := range Finishes() {
		if f.Key == key {
			return f, true
		}
	}
	return Finish{}, false
}

// The bodies below stand about the ears of a listener: dimensions of ordinary
// car seats and of an adult of 75 kg, assumed. A body's volume is 0.075 m3 for
// 75 kg at the density of water; seat foam is mostly air, but air that no longer
// springs freely, so a seat counts as its frame, cover and half its foam.

// SeatBody returns an empty seat under the ears of its occupant.
func SeatBody(ears Point, cover Admittance) Body {
	return Body{
		Centre: Point{ears.X - 0.10, ears.Y, ears.Z - 0.55},
		Size:   Point{0.60, 0.48, 0.70},
		Volume: 0.055, Surface: 1.3, Admittance: cover,
	}
}

// PersonBody returns what an adult adds to the seat they sit in: their volume,
// and the surface they show less the upholstery they hide.
func PersonBody(ears Point) Body {
	f, _ := FinishByKey("person")
	return Body{
		Centre: Point{ears.X - 0.12, ears.Y, ears.Z - 0.40},
		Size:   Point{0.45, 0.42, 0.75},
		Volume: 0.075, Surface: 0.8, Admittance: f.Admittance,
	}
}
