package driver

import (
	"math"
	"strconv"
	"strings"

	"bootfloor/internal/air"
	"bootfloor/internal/job"
)

// Stated is what a reader entered or a sheet says, in the units of the keys.
type Stated struct {
	Name    string
	Typical bool
	Values  map[Key]float64
	// Trust lists, most trusted first, the values to believe where stated
	// values disagree. What it does not list comes after, in the order of
	// how well the trade measures it.
	Trust []Key
	// MeasuredIn is the air in which Vas was measured; nil is standard air
	// (20 C, 50 % humidity, sea level), which no sheet contradicts.
	MeasuredIn *air.Properties
}

// FromJob reads the driver of a job document. Fields that are absent there are
// absent here; Coils and other counts of zero count as not stated.
func FromJob(d job.Driver) Stated {
	s := Stated{Name: d.Name, Typical: d.Typical, Values: map[Key]float64{}}
	for k, p := range jobFields(&d) {
		if *p != nil {
			s.Values[k] = **p
		}
	}
	if d.Coils != 0 {
		s.Values[KeyCoils] = float64(d.Coils)
	}
	return s
}

// ToJob writes the stated values as the driver of a job document.
func (s Stated) ToJob() job.Driver {
	d := job.Driver{Name: s.Name, Typical: s.Typical}
	for k, p := range jobFields(&d) {
		if v, ok := s.Values[k]; ok {
			*p = &v
		}
	}
	if v, ok := s.Values[KeyCoils]; ok {
		d.Coils = int(v)
	}
	return d
}

func jobFields(d *job.Driver) map[Key]**float64 {
	return map[Key]**float64{
		KeyRe: &d.ReOhm, KeyFs: &d.FsHz, KeyQes: &d.Qes, KeyQms: &d.Qms, KeyQts: &d.Qts,
		KeyVas: &d.VasL, KeySd: &d.SdCM2, KeyBl: &d.BlTm, KeyMms: &d.MmsG, KeyCms: &d.CmsMMN,
		KeyRms: &d.RmsKgS, KeyLe: &d.LeMH, KeyL2: &d.L2MH, KeyR2: &d.R2Ohm, KeySemiK: &d.SemiK,
		KeySemiN: &d.SemiN, KeyXmax: &d.XmaxMM, KeyPower: &d.PowerW, KeySize: &d.SizeIn,
		KeyDepth: &d.DepthMM, KeyCutOut: &d.CutOutMM, KeyOutside: &d.OutsideMM,
		KeyVolume: &d.VolumeL, KeyMass: &d.MassKg, KeyPrice: &d.Price, KeyCoilOhm: &d.CoilOhm,
	}
}

// State returns the complete set of d in the units of the keys, as if every
// value had been stated. Values that d lacks are left out.
func (d Driver) State() Stated {
	s := Stated{Name: d.Name, Typical: d.Typical, Values: map[Key]float64{}}
	set := func(k Key, si float64) {
		if si > 0 {
			s.Values[k] = si / quantityByKey[k].SI
		}
	}
	v := d.values()
	for i, k := range smallKeys {
		set(k, v[i])
	}
	set(KeyLe, d.Coil.Le)
	set(KeyL2, d.Coil.L2)
	set(KeyR2, d.Coil.R2)
	set(KeySemiK, d.Coil.K)
	set(KeySemiN, d.Coil.N)
	set(KeyXmax, d.Xmax)
	set(KeyPower, d.PowerW)
	set(KeySize, d.SizeIn)
	set(KeyDepth, d.Depth)
	set(KeyCutOut, d.CutOut)
	set(KeyOutside, d.Outside)
	set(KeyVolume, d.Volume)
	set(KeyMass, d.Mass)
	set(KeyPrice, d.Price)
	set(KeyCoils, float64(d.Coils))
	set(KeyCoilOhm, d.CoilOhm)
	return s
}

func (d Driver) values() values {
	return values{iRe: d.Re, iFs: d.Fs, iQes: d.Qes, iQms: d.Qms, iQts: d.Qts, iVas: d.Vas,
		iSd: d.Sd, iBl: d.Bl, iMms: d.Mms, iCms: d.Cms, iRms: d.Rms}
}

func (d *Driver) setValues(v values) {
	d.Re, d.Fs, d.Qes, d.Qms, d.Qts, d.Vas = v[iRe], v[iFs], v[iQes], v[iQms], v[iQts], v[iVas]
	d.Sd, d.Bl, d.Mms, d.Cms, d.Rms = v[iSd], v[iBl], v[iMms], v[iCms], v[iRms]
}

// rounding returns the relative half-width of the last figure of a printed
// number: 0.3 may stand for anything from 0.25 to 0.35. Whole numbers are
// taken to mean their units place. It is capped at a fifth.
func rounding(v float64) float64 {
	s := strconv.FormatFloat(math.Abs(v), 'f', -1, 64)
	places := 0
	if _, after, found := strings.Cut(s, "."); found {
		places = len(after)
	}
	return math.Min(0.5*math.Pow(10, -float64(places))/math.Abs(v), 0.2)
}
