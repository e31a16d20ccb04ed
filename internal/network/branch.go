package network

// Mechanical is a mass on a spring with friction, seen as an acoustic series
// impedance (Rms + jw Mms + 1/(jw Cms))/S^2: a cone or a passive radiator.
type Mechanical struct {
	Mass       float64 // kg
	Compliance float64 // m/N; +Inf for a mass without a spring
	Resistance float64 // N s/m
	Area       float64 // m2
}

// Impedance implements Branch.
func (m Mechanical) Impedance(w float64) complex128 {
	s := 1 / (m.Area * m.Area)
	return complex(m.Resistance*s, (w*m.Mass-1/(w*m.Compliance))*s)
}

// Inertance is a slug of air with friction: R + jw M.
type Inertance struct {
	Mass       float64 // M, kg/m4
	Resistance float64 // R, Pa s/m3
}

// Impedance implements Branch.
func (i Inertance) Impedance(w float64) complex128 {
	return complex(i.Resistance, w*i.Mass)
}

// Resistor is R alone, ohm or Pa s/m3.
type Resistor float64

// Impedance implements Branch.
func (r Resistor) Impedance(float64) complex128 { return complex(float64(r), 0) }
