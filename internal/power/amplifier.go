// Package power covers what stands between the battery and the ear: what an
// amplifier can put out, what it draws, cable and fuse, the voice coil's
// heat, and how long the result may be listened to.
package power

import (
	"math"

	"bootfloor/internal/job"
)

// MaxVolts returns the highest output voltage of an amplifier, V rms:
// sqrt(P R) from its rated power and the load it is rated into. Ratings after
// CTA-2006 are taken at 14.4 V supply and at most 1 % distortion, so a little
// more comes out before hard clipping, and less when the supply sags.
func MaxVolts(a job.Amplifier) float64 {
	if !(a.RatedW > 0 && a.RatedOhm > 0) {
		return 0
	}
	return math.Sqrt(a.RatedW * a.RatedOhm)
}

// MaxAmps returns the highest output current, A rms: what MaxVolts drives
// into the lowest load that the maker allows. Where none is stated, that is
// the rated load.
func MaxAmps(a job.Amplifier) float64 {
	lowest := a.MinOhm
	if !(lowest > 0) {
		lowest = a.RatedOhm
	}
	if !(lowest > 0) {
		return 0
	}
	return MaxVolts(a) / lowest
}

// MaxWatts returns the power that an amplifier can put into a resistive load,
// W: voltage-limited above the lowest load allowed, current-limited below it.
func MaxWatts(a job.Amplifier, loadOhm float64) float64 {
	if !(loadOhm > 0) {
		return 0
	}
	v, i := MaxVolts(a), MaxAmps(a)
	if v > i*loadOhm {
		return i * i * loadOhm
	}
	return v * v / loadOhm
}

// sineCrestDB is the ratio of peak to rms of a sine, dB.
var sineCrestDB = 10 * math.Log10(2)

// Crest factors of programme, dB, peak to rms. Common practice, no source:
// music held just below clipping averages between these two.
const (
	CrestLoudBassDB = 6  // long bass notes, heavily limited
	CrestMusicDB    = 12 // ordinary music
)

// ProgrammeWatts returns the mean power of a programme whose peaks just reach
// those of a sine of sineWatts; crestDB is the programme's ratio of peak to
// rms. A sine's own crest, 3.01 dB, returns sineWatts.
func ProgrammeWatts(sineWatts, crestDB float64) float64 {
	return sineWatts * math.Pow(10, -(crestDB-sineCrestDB)/10)
}

// SupplyAmps returns the current that an amplifier draws from its supply, A,
// to put out outWatts at an efficiency in per cent. Efficiency is best at
// full power; at low power the true draw is higher than this by the idle
// current. Common practice, no source: about 75 to 85 % for class D, 50 to
// 60 % for class AB, at full power.
func SupplyAmps(outWatts, efficiencyPct, supplyVolts float64) float64 {
	if !(efficiencyPct > 0 && supplyVolts > 0) {
		return 0
	}
	return outWatts / (efficiencyPct / 100 * supplyVolts)
}

// Draw is the supply current of one amplifier output, A.
type Draw struct {
	Sine      float64 // while a steady tone drives it to its limit
	Programme float64 // mean, music of the given crest with its peaks at the limit
}

// SupplyDraw returns the draw of an amplifier into a load, ohm, playing music
// of a crest factor in dB.
func SupplyDraw(a job.Amplifier, loadOhm, crestDB float64) Draw {
	sine := MaxWatts(a, loadOhm)
	return Draw{
		Sine:      SupplyAmps(sine, a.EfficiencyP, a.SupplyV),
		Programme: SupplyAmps(ProgrammeWatts(sine, crestDB), a.EfficiencyP, a.SupplyV),
	}
}
