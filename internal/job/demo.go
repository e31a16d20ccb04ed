package job

// Demo returns the job that a first visit opens on: a small hatchback with a
// typical 10-inch driver in a sealed box. Everything in it is invented and
// marked as assumed.
func Demo() Job {
	j := preset("small_hatch")
	j.Title = "Demo: small hatchback, one 10-inch sealed"
	j.Demo = true
	j.Assumed = Leaves(j)
	return j
}

// New returns a job to start from: the body style's car, a typical 10-inch
// driver in a sealed box, typical door speakers, all assumed. An unknown key
// is a mistake of the caller and panics; FindBody tells beforehand.
func New(bodyKey string) Job {
	j := preset(bodyKey)
	j.Assumed = Leaves(j)
	return j
}

func preset(bodyKey string) Job {
	b, ok := FindBody(bodyKey)
	if !ok {
		panic("job: no body style " + bodyKey)
	}
	return Job{
		Format: Format, Version: Version,
		Air:       DefaultAir(),
		Car:       b.car(),
		Subs:      []Sub{NewSub(b, "sub")},
		Doors:     NewDoors(b),
		Aim:       DefaultAim(),
		Tolerance: DefaultTolerance(),
	}
}

// DefaultAir is a mild day at sea level.
func DefaultAir() Air { return Air{TemperatureC: 20, HumidityPct: 50, PressurePa: 101325} }

// DefaultAim asks for the lowest note of a five-string bass guitar, B0, at
// 31 Hz, at a level that is loud in a car.
func DefaultAim() Aim {
	return Aim{Lowest: 31, LevelDB: 110, SeatID: "wheel", BootPct: 30}
}

// DefaultTolerance holds how far things commonly lie from what is stated;
// common practice, no source.
func DefaultTolerance() Tolerance {
	return Tolerance{FsPct: 10, QPct: 12, VasPct: 15, TapeMM: 20, LeakPct: 50, DampingPct: 40}
}

// NewSub is a first sub for a car of the style: a typical 10-inch driver in a
// sealed box of 25 litres net, which with this driver gives a total Q near
// 0.71 in free air.
func NewSub(b Body, id string) Sub {
	return Sub{
		ID: id, Driver: Typical10(), Series: 1, Parallel: 1,
		Box: Box{Type: "sealed", NetL: 25, PanelMM: 18, Form: "cuboid",
			WidthMM: b.Stand.WidthMM, HeightMM: b.Stand.HeightMM, DepthMM: b.Stand.DepthMM},
		Place: b.Stand.Place,
		Channel: Channel{
			Filters: []Filter{{Kind: "lowpass", Shape: "linkwitz_riley", Order: 4, FreqHz: 80}},
			Amplifier: Amplifier{RatedW: 500, RatedOhm: 4, MinOhm: 2, OutputOhm: 0.02, CableM: 2, CableMM2: 4,
				SupplyV: 13.8, EfficiencyP: 80},
		},
	}
}

// NewDoors is a pair of typical 6.5-inch door speakers for a car of the style,
// turned down by 6 dB: close to the ears and above the crossover they are more
// sensitive in a cabin than a long-throw sub is below it.
func NewDoors(b Body) Doors {
	return Doors{
		Fitted: true, Driver: Typical65(), VolumeL: 25, LeakCM2: 60, Place: b.Door,
		Channel: Channel{
			Filters: []Filter{{Kind: "highpass", Shape: "linkwitz_riley", Order: 4, FreqHz: 80}},
			GainDB:  -6,
			Amplifier: Amplifier{RatedW: 75, RatedOhm: 4, MinOhm: 2, OutputOhm: 0.04, CableM: 4, CableMM2: 1.5,
				SupplyV: 13.8, EfficiencyP: 75},
		},
	}
}

// some points at a value, for the optional fields of a driver.
func some(v float64) *float64 { return &v }

// Typical10 is an invented 10-inch subwoofer driver. Only a sufficient set is
// stated, so that nothing can contradict; the rest follows from it.
func Typical10() Driver {
	return Driver{
		Name: "Typical 10-inch, long throw", Typical: true,
		ReOhm: some(3.5), FsHz: some(30), Qes: some(0.5), Qms: some(5), VasL: some(38), SdCM2: some(330),
		LeMH: some(1.2), XmaxMM: some(14), PowerW: some(500),
		SizeIn: some(10), DepthMM: some(150), CutOutMM: some(236), OutsideMM: some(268), VolumeL: some(1.8), MassKg: some(7.5),
		Coils: 1, CoilOhm: some(4),
	}
}

// Typical65 is an invented 6.5-inch door speaker, stated in the same way.
func Typical65() Driver {
	return Driver{
		Name: "Typical 6.5-inch door speaker", Typical: true,
		ReOhm: some(3.4), FsHz: some(62), Qes: some(0.7), Qms: some(4.5), VasL: some(10), SdCM2: some(137),
		LeMH: some(0.3), XmaxMM: some(4), PowerW: some(75),
		SizeIn: some(6.5), DepthMM: some(62), CutOutMM: some(143), OutsideMM: some(165), VolumeL: some(0.4), MassKg: some(1.1),
		Coils: 1, CoilOhm: some(4),
	}
}
