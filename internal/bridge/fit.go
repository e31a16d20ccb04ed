package bridge

import (
	"math"

	"bootfloor/internal/driver"
	"bootfloor/internal/job"
)

// FitRequest is an impedance curve as text columns, perhaps a second one with
// AddedG grams on the cone or in a closed box of BoxL litres, and what else is
// known.
type FitRequest struct {
	Curve  string  `json:"curve"`
	Second string  `json:"second,omitempty"`
	AddedG float64 `json:"added_g,omitempty"`
	BoxL   float64 `json:"box_l,omitempty"`
	ReOhm  float64 `json:"re_ohm,omitempty"`
	SdCM2  float64 `json:"sd_cm2,omitempty"`
}

// FitValue is a fitted value with the half-width of its 95 % interval, both in
// the unit of the key.
type FitValue struct {
	Key   string  `json:"key"`
	Name  string  `json:"name"`
	Value float64 `json:"value"`
	Plus  float64 `json:"plus"`
	Unit  string  `json:"unit"`
}

// FitStep is one step of the same by hand.
type FitStep struct {
	Do      string  `json:"do"`
	Formula string  `json:"formula,omitempty"`
	Result  float64 `json:"result"`
	Unit    string  `json:"unit,omitempty"`
}

// FitReply is the reply to the call fit: what the curve told, as values, as a
// driver to take over, and as steps by hand. The floats are the curve read:
// frequencies, then ohms.
type FitReply struct {
	Values []FitValue  `json:"values"`
	Driver job.Driver  `json:"driver"`
	Coil   driver.Coil `json:"coil"`
	RMSPct float64     `json:"rms_pct"` // misfit
	Steps  []FitStep   `json:"steps"`
	Notes  []string    `json:"notes"`
	Points int         `json:"points"`
}

func (e *Engine) fit(request []byte) (Reply, error) {
	var req FitRequest
	if err := read(request, &req); err != nil {
		return Reply{}, err
	}
	curve, notes, err := driver.ReadCurve(req.Curve)
	if err != nil {
		return Reply{}, &Error{BadRequest, "The impedance curve: " + err.Error() + "."}
	}
	opt := driver.FitOptions{Re: req.ReOhm, Sd: req.SdCM2 * 1e-4, Bulk: standardAir.BulkModulus()}
	if req.Second != "" {
		second, more, err := driver.ReadCurve(req.Second)
		if err != nil {
			return Reply{}, &Error{BadRequest, "The second curve: " + err.Error() + "."}
		}
		notes = append(notes, more...)
		opt.Second, opt.AddedMass, opt.BoxVolume = second, req.AddedG*1e-3, req.BoxL*1e-3
	}
	f, err := driver.Fit(curve, opt)
	if err != nil {
		return Reply{}, &Error{BadRequest, "The fit: " + err.Error() + "."}
	}
	out := FitReply{Values: []FitValue{}, Coil: f.Coil, RMSPct: finite(100 * f.RMS), Steps: []FitStep{}, Notes: append(notes, f.Notes...), Points: len(curve.Hz)}
	stated := driver.Stated{Values: map[driver.Key]float64{}}
	for _, v := range []struct {
		key driver.Key
		e   driver.Estimate
	}{
		{driver.KeyRe, f.Re}, {driver.KeyFs, f.Fs}, {driver.KeyQms, f.Qms}, {driver.KeyQes, f.Qes}, {driver.KeyQts, f.Qts},
		{driver.KeyVas, f.Vas}, {driver.KeySd, f.Sd}, {driver.KeyMms, f.Mms}, {driver.KeyCms, f.Cms}, {driver.KeyRms, f.Rms}, {driver.KeyBl, f.Bl},
	} {
		q, ok := driver.Describe(v.key)
		if !ok || !(v.e.Value > 0) || math.IsInf(v.e.Value, 0) {
			continue
		}
		out.Values = append(out.Values, FitValue{string(v.key), q.Name, v.e.Value / q.SI, finite(v.e.Plus / q.SI), q.Unit})
		// Six independent values make a driver; the rest would only repeat them.
		switch v.key {
		case driver.KeyRe, driver.KeyFs, driver.KeyQms, driver.KeyQes, driver.KeySd, driver.KeyMms:
			stated.Values[v.key] = v.e.Value / q.SI
		}
	}
	if _, ok := stated.Values[driver.KeyMms]; !ok && f.Vas.Value > 0 {
		stated.Values[driver.KeyVas] = f.Vas.Value * 1e3
	}
	for key, si := range map[driver.Key]float64{driver.KeyLe: f.Coil.Le, driver.KeyL2: f.Coil.L2, driver.KeyR2: f.Coil.R2, driver.KeySemiK: f.Coil.K, driver.KeySemiN: f.Coil.N} {
		if q, ok := driver.Describe(key); ok && si > 0 {
			stated.Values[key] = si / q.SI
		}
	}
	out.Driver = stated.ToJob()
	for _, s := range f.Steps {
		out.Steps = append(out.Steps, FitStep{s.Do, s.Formula, finite(s.Result), s.Unit})
	}
	return reply(out, append(append([]float64{}, curve.Hz...), curve.Ohm...))
}
