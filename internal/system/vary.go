package system

// Variation is one possible truth behind the stated values: factors on what
// is uncertain about the car, and for each driver the place within its
// tolerances (four numbers from 0 to 1, see driver.Perturb; nil is as stated).
type Variation struct {
	Length  float64 // every dimension of the cabin
	Leak    float64 // leak area
	Damping float64 // all losses in the cabin
	Driver  []float64
}

// asStated is the variation that changes nothing.
var asStated = Variation{Length: 1, Leak: 1, Damping: 1}
