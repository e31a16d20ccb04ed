package driver

// Kind tells what a driver on the shelf is meant for.
type Kind string

// The kinds of driver.
const (
	KindSub  Kind = "sub"
	KindDoor Kind = "door"
)

// ShelfDriver is one driver of the shelf.
type ShelfDriver struct {
	ID   string
	Kind Kind
	// Build says in a word or two what it is made for: shallow, standard, long
	// throw, free air, door.
	Build  string
	Stated Stated
}

// Shelf returns drivers of the usual sizes, smallest first. All are invented
// and marked typical: the figures were chosen by us within what such drivers
// have (common practice, no source), each as one independent set from which
// Derive makes a consistent driver, with Re and Bl for the coils as wired in the
// name. The prices are invented too, without a currency.
func Shelf() []ShelfDriver {
	out := make([]ShelfDriver, len(shelf))
	for i, s := range shelf {
		v := map[Key]float64{
			KeyFs: s.fs, KeyQes: s.qes, KeyQms: s.qms, KeyMms: s.mms, KeySd: s.sd, KeyRe: s.re, KeyLe: s.le,
			KeyXmax: s.xmax, KeyPower: s.power, KeySize: s.size, KeyDepth: s.depth, KeyCutOut: s.cutOut,
			KeyOutside: s.outside, KeyVolume: s.volume, KeyMass: s.mass, KeyPrice: s.price,
			KeyCoils: s.coils, KeyCoilOhm: s.coilOhm,
		}
		out[i] = ShelfDriver{s.id, s.kind, s.build, Stated{Name: s.name, Typical: true, Values: v}}
	}
	return out
}

// shelfRow is a driver in the units of the keys.
type shelfRow struct {
	id                                          string
	kind                                        Kind
	build, name                                 string
	size, fs, qes, qms, sd, mms, re, le, xmax   float64
	power, depth, cutOut, outside, volume, mass float64
	price, coils, coilOhm                       float64
}

var shelf = []shelfRow{
	{"sub-6-standard", KindSub, "standard", "Typical 6.5-inch sub, 4 Ω", 6.5, 52, 0.62, 5.0, 135, 30, 3.4, 0.9, 7, 100, 80, 143, 168, 0.6, 1.9, 70, 1, 4},
	{"sub-8-shallow", KindSub, "shallow", "Typical 8-inch shallow sub, 4 Ω", 8, 45, 0.72, 5.2, 205, 62, 3.4, 1.2, 7, 150, 72, 185, 212, 0.8, 2.9, 110, 1, 4},
	{"sub-8-standard", KindSub, "standard", "Typical 8-inch sub, 4 Ω", 8, 40, 0.60, 5.0, 215, 60, 3.5, 1.3, 9, 200, 115, 185, 214, 1.0, 3.6, 95, 1, 4},
	{"sub-8-long", KindSub, "long throw", "Typical 8-inch long-throw sub, dual 4 Ω in parallel", 8, 38, 0.52, 5.5, 210, 95, 1.8, 1.0, 14, 300, 140, 186, 216, 1.5, 6.2, 190, 2, 4},
	{"sub-10-shallow", KindSub, "shallow", "Typical 10-inch shallow sub, 4 Ω", 10, 38, 0.68, 5.5, 325, 98, 3.4, 1.6, 9, 250, 85, 233, 264, 1.2, 4.4, 140, 1, 4},
	{"sub-10-standard", KindSub, "standard", "Typical 10-inch sub, 4 Ω", 10, 32, 0.55, 5.5, 335, 112, 3.4, 1.7, 11, 300, 140, 232, 267, 1.6, 5.3, 120, 1, 4},
	{"sub-10-long", KindSub, "long throw", "Typical 10-inch long-throw sub, dual 2 Ω in series", 10, 31, 0.48, 6.0, 330, 165, 3.6, 2.2, 18, 600, 170, 234, 272, 2.6, 10.5, 280, 2, 2},
	{"sub-12-shallow", KindSub, "shallow", "Typical 12-inch shallow sub, dual 4 Ω in parallel", 12, 34, 0.66, 5.8, 480, 150, 1.8, 0.9, 10, 350, 90, 279, 312, 1.7, 5.8, 170, 2, 4},
	{"sub-12-free-air", KindSub, "free air", "Typical 12-inch sub for a shelf or seat back, 4 Ω", 12, 27, 0.78, 7.0, 495, 130, 3.4, 1.5, 9, 200, 130, 278, 310, 1.6, 4.9, 110, 1, 4},
	{"sub-12-standard", KindSub, "standard", "Typical 12-inch sub, 4 Ω", 12, 28, 0.52, 6.1, 495, 148, 3.4, 1.9, 12, 400, 150, 279, 316, 2.2, 6.7, 140, 1, 4},
	{"sub-12-dual", KindSub, "standard", "Typical 12-inch sub, dual 2 Ω in series", 12, 28.5, 0.54, 6.0, 490, 158, 3.6, 2.4, 13, 450, 155, 279, 316, 2.3, 7.4, 170, 2, 2},
	{"sub-12-long", KindSub, "long throw", "Typical 12-inch long-throw sub, dual 2 Ω in series", 12, 27, 0.45, 6.5, 485, 235, 3.6, 2.6, 22, 900, 195, 281, 322, 4.0, 16, 380, 2, 2},
	{"sub-15-standard", KindSub, "standard", "Typical 15-inch sub, 4 Ω", 15, 23, 0.46, 7.0, 810, 240, 3.3, 2.3, 13, 500, 180, 352, 392, 3.6, 9.5, 190, 1, 4},
	{"sub-15-long", KindSub, "long throw", "Typical 15-inch long-throw sub, dual 4 Ω in parallel", 15, 22.5, 0.41, 7.5, 805, 330, 1.8, 1.5, 20, 1000, 220, 354, 397, 6.0, 20, 460, 2, 4},
	{"sub-18-long", KindSub, "long throw", "Typical 18-inch long-throw sub, dual 2 Ω in series", 18, 24, 0.40, 8.0, 1180, 430, 3.6, 3.2, 20, 1200, 255, 425, 470, 9.0, 26, 600, 2, 2},
	{"door-5-standard", KindDoor, "door", "Typical 5.25-inch door speaker, 4 Ω", 5.25, 82, 0.75, 4.5, 90, 10.5, 3.4, 0.35, 3, 50, 55, 116, 134, 0.25, 0.8, 60, 1, 4},
	{"door-6-standard", KindDoor, "door", "Typical 6.5-inch door speaker, 4 Ω", 6.5, 65, 0.65, 4.2, 133, 15.5, 3.4, 0.4, 4, 75, 62, 143, 166, 0.35, 1.1, 90, 1, 4},
	{"door-8-standard", KindDoor, "door", "Typical 8-inch door speaker, 4 Ω", 8, 52, 0.55, 4.5, 215, 26, 3.3, 0.5, 5, 120, 80, 185, 208, 0.6, 1.9, 130, 1, 4},
}
