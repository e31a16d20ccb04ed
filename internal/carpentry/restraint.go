package carpentry

// Gravity is the standard acceleration of free fall, m/s2 (ISO 80000-3).
const Gravity = 9.80665

// Restraint is what must hold a box in the car.
type Restraint struct {
	ForwardN float64 // braking
	RearN    float64 // setting off
	SideN    float64 // cornering, either way
	// CrashJ is the energy that the box carries at 50 km/h, the speed at which
	// UN Regulation 17, annex 9, throws luggage at a seat back.
	CrashJ float64
	Say    string
}

// Shares of the weight that load in a vehicle of up to 2.0 t must be held
// against in driving: VDI 2700 part 16, as the paper 09-0008 of the ESV
// conference 2009 (Berg, Sicks and Cheynet) gives them. That paper's text and
// its figure disagree about which class of vehicle they belong to; these are
// the larger ones.
const (
	forwardShare = 0.9
	rearShare    = 0.5
	sideShare    = 0.7
)

// RestraintAdvice stands beside every restraint.
const RestraintAdvice = "These are the forces of hard driving, not of a crash, in which a box weighs many times as much. " +
	"Fix it to the body with bolts, plates or rated straps, not to trim; never lean it on a seat back that is not latched. " +
	"Follow local rules and the vehicle maker's, and have the fixing checked by a qualified person."

// Restrain returns the forces F = m a for a box of a mass in kg.
func Restrain(massKg float64) Restraint {
	const v = 50 / 3.6
	w := massKg * Gravity
	return Restraint{
		ForwardN: forwardShare * w,
		RearN:    rearShare * w,
		SideN:    sideShare * w,
		CrashJ:   massKg * v * v / 2,
		Say:      RestraintAdvice,
	}
}
