// Package air gives the properties of moist air that every acoustic model here
// needs: density, speed of sound and the loss constants.
package air

// State is the weather inside the car.
type State struct {
	TemperatureC float64 // temperature, degrees Celsius
	HumidityPct  float64 // relative humidity, per cent
	PressurePa   float64 // static pressure, Pa
}

// Standard is the state that every job starts from: 20 C, 50 %, sea level.
var Standard = State{TemperatureC: 20, HumidityPct: 50, PressurePa: 101325}

// Properties of the air in one State, SI units.
type Properties struct {
	Density      float64 // rho, kg/m3
	SpeedOfSound float64 // c, m/s, at low frequency
	Gamma        float64 // ratio of specific heats
	Viscosity    float64 // dynamic viscosity mu, Pa s
	Prandtl      float64 // Prandtl number
}

// Impedance returns the characteristic specific impedance rho c, Pa s/m.
func (p Properties) Impedance() float64 { return p.Density * p.SpeedOfSound }

// BulkModulus returns rho c^2, Pa, the adiabatic stiffness of the air.
func (p Properties) BulkModulus() float64 {
	return p.Density * p.SpeedOfSound * p.SpeedOfSound
}
