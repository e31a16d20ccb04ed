package air

import (
	"fmt"
	"math"
)

// The states that New accepts. The density formula and the fits below are
// stated for laboratory weather (CIPM-2007: 15 to 27 C, 60 to 110 kPa;
// Cramer: 0 to 30 C, 75 to 102 kPa); a parked car is colder and hotter than
// that, and the error of the extrapolation stays far below the tolerance of
// any dimension taken with a tape measure.
const (
	MinTemperatureC, MaxTemperatureC = -20, 50
	MinPressurePa, MaxPressurePa     = 60e3, 108e3
)

// carbonDioxide is the mole fraction recommended by IEC 61094-2:2009, F.2, in
// the absence of a measurement.
const carbonDioxide = 0.0004

const kelvin = 273.15

// New returns the properties of moist air.
//
// Density is CIPM-2007 (Picard, Davis, Glaeser and Fujii, Metrologia 45
// (2008) 149). Speed of sound and ratio of specific heats are the polynomials
// of Cramer (J. Acoust. Soc. Am. 93 (1993) 2510) inside the range that he
// states; outside it they are carried on from the edge of that range by the
// ideal-gas law, so that both are continuous. Viscosity and the Prandtl
// number follow IEC 61094-2:2009, annex F.
//
// A state outside MinTemperatureC..MaxTemperatureC, 0..100 % or
// MinPressurePa..MaxPressurePa, or not a number, is an error that names the
// field.
func New(s State) (Properties, error) {
	if err := s.check(); err != nil {
		return Properties{}, err
	}
	t, p := s.TemperatureC, s.PressurePa
	xw := waterFraction(s)
	edge := clampToCramer(t, p, xw)
	c := quadratic(&cramerSpeed, edge.t, edge.p, edge.xw)
	gamma := quadratic(&cramerGamma, edge.t, edge.p, edge.xw)
	if edge != (point{t, p, xw}) {
		// c^2 = gamma p/rho times a real-gas term that hardly moves; taking
		// the ratio to the edge cancels it.
		here := idealGamma(t, xw) * p / density(t, p, xw)
		there := idealGamma(edge.t, edge.xw) * edge.p / density(edge.t, edge.p, edge.xw)
		c *= math.Sqrt(here / there)
		gamma *= idealGamma(t, xw) / idealGamma(edge.t, edge.xw)
	}
	mu := viscosity(t, xw)
	return Properties{
		Density:      density(t, p, xw),
		SpeedOfSound: c,
		Gamma:        gamma,
		Viscosity:    mu,
		Prandtl:      mu * heatCapacity(t, xw) / conductivity(t, xw),
	}, nil
}

// MustStandard returns the properties of Standard.
func MustStandard() Properties {
	p, err := New(Standard)
	if err != nil {
		panic(err)
	}
	return p
}

func (s State) check() error {
	for _, f := range []struct {
		name, unit    string
		value, lo, hi float64
		hint          string
	}{
		{"temperature_c", "C", s.TemperatureC, MinTemperatureC, MaxTemperatureC, "20 C suits most cars"},
		{"humidity_pct", "%", s.HumidityPct, 0, 100, "50 % suits most cars"},
		{"pressure_pa", "Pa", s.PressurePa, MinPressurePa, MaxPressurePa, "101325 Pa is sea level"},
	} {
		if !(f.value >= f.lo && f.value <= f.hi) { // also catches NaN
			return fmt.Errorf("air %s is %g; it must lie between %g and %g %s (%s)",
				f.name, f.value, f.lo, f.hi, f.unit, f.hint)
		}
	}
	return nil
}

// waterFraction returns the mole fraction of water vapour: saturation vapour
// pressure and enhancement factor of CIPM-2007, annex A1. Below freezing,
// humidity is counted against supercooled water, as weather services do.
func waterFraction(s State) float64 {
	t, p := s.TemperatureC, s.PressurePa
	tk := t + kelvin
	psv := math.Exp(1.2378847e-5*tk*tk - 1.9121316e-2*tk + 33.93711047 - 6.3431645e3/tk)
	f := 1.00062 + 3.14e-8*p + 5.6e-7*t*t
	return s.HumidityPct / 100 * f * psv / p
}

// density returns rho, kg/m3: CIPM-2007, with its compressibility factor.
func density(t, p, xw float64) float64 {
	tk := t + kelvin
	z := 1 - p/tk*(1.58123e-6-2.9331e-8*t+1.1043e-10*t*t+
		(5.707e-6-2.051e-8*t)*xw+(1.9898e-4-2.376e-6*t)*xw*xw) +
		p*p/(tk*tk)*(1.83e-11-0.765e-8*xw*xw)
	return (3.483740 + 1.4446*(carbonDioxide-0.0004)) * 1e-3 * p / (z * tk) * (1 - 0.3780*xw)
}

// viscosity returns the dynamic viscosity, Pa s: IEC 61094-2:2009, F.5.
func viscosity(t, xw float64) float64 {
	tk := t + kelvin
	return 1e-8 * (84.986 + 7*tk + (113.157-tk)*xw - 3.7501e-3*tk*tk - 100.015*xw*xw)
}

// calorie converts the thermal expressions of annex F to joules (per kcal/kg).
const calorie = 4186.8

// conductivity returns the thermal conductivity, W/(m K): IEC 61094-2:2009, F.6.
func conductivity(t, xw float64) float64 {
	tk := t + kelvin
	return calorie * 1e-8 * (60.054 + 1.846*tk + 2.06e-6*tk*tk + (40-1.775e-4*tk)*xw)
}

// heatCapacity returns the specific heat at constant pressure, J/(kg K):
// IEC 61094-2:2009, F.6.
func heatCapacity(t, xw float64) float64 {
	tk := t + kelvin
	return calorie * (0.251625 - 9.2525e-5*tk + 2.1334e-7*tk*tk - 1.0043e-10*tk*tk*tk +
		(0.12477-2.283e-5*tk+1.267e-7*tk*tk)*xw +
		(0.01116+4.61e-6*tk+1.74e-8*tk*tk)*xw*xw)
}
