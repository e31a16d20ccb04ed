package design

import (
	"fmt"
	"math"

	"bootfloor/internal/air"
	"bootfloor/internal/alignment"
	"bootfloor/internal/job"
	"bootfloor/internal/power"
)

// Named is a classic alignment of the literature as a box to start from: what
// theory gives this driver in free air, before any car.
type Named struct {
	Type     string  `json:"type"`
	Name     string  `json:"name"`  // short, as the literature writes it
	Title    string  `json:"title"` // in words
	NetL     float64 `json:"net_l"`
	TuningHz float64 `json:"tuning_hz,omitempty"`
	Qtc      float64 `json:"qtc,omitempty"`
	F3Hz     float64 `json:"f3_hz"`
	PeakDB   float64 `json:"peak_db"`
	Say      string  `json:"say"`
	Box      job.Box `json:"box"`
}

// chebyshevRippleDB is the ripple of the Chebyshev sealed box offered.
const chebyshevRippleDB = 1

// startingQL is the leak loss that a tuned box starts from: Small (JAES 21
// (1973) 444) found 7 for boxes of ordinary size and tightness.
const startingQL = 7

// Alignments returns the classic alignments that exist for the drivers of sub
// number i, in the air of the job and with the resistance of its amplifier and
// cable counted. The error is a sentence about the driver.
func Alignments(j job.Job, i int) ([]Named, error) {
	if i < 0 || i >= len(j.Subs) {
		return nil, fmt.Errorf("There is no sub number %d in this job.", i+1)
	}
	sub := j.Subs[i]
	u, err := unitOf(sub)
	if err != nil {
		return nil, err
	}
	weather, err := air.New(air.State{TemperatureC: j.Air.TemperatureC, HumidityPct: j.Air.HumidityPct, PressurePa: j.Air.PressurePa})
	if err != nil {
		return nil, err
	}
	g := u.group
	amp := sub.Channel.Amplifier
	qes := g.Qes * (1 + (amp.OutputOhm+power.CableOhm(amp))/g.Re)
	d := alignment.Driver{FsHz: g.Fs, Qts: qes * g.Qms / (qes + g.Qms), VasM3: g.VasIn(weather)}
	out := []Named{}
	out = append(out, sealedNamed(sub.Box, d)...)
	out = append(out, ventedNamed(sub.Box, d)...)
	return append(out, bandpassNamed(sub.Box, d)...), nil
}

func sealedNamed(box job.Box, d alignment.Driver) []Named {
	var out []Named
	for _, a := range []struct {
		name, title, say string
		qtc              float64
	}{
		{"CD2", "Critically damped", "no overshoot at all, the driest and the largest", alignment.CriticalQtc},
		{"BE2", "Bessel", "the flattest delay", alignment.BesselQtc},
		{"B2", "Butterworth", "the flattest level", alignment.ButterworthQtc},
		{"C2", "Chebyshev", "smaller, with a rise of a decibel before it falls", alignment.ChebyshevQtc(chebyshevRippleDB)},
	} {
		b, err := alignment.Sealed(d, a.qtc)
		if err != nil || b.VolumeM3 > mostNamedM3 {
			continue
		}
		n := Named{Type: "sealed", Name: a.name, Title: a.title, NetL: 1000 * b.VolumeM3, Qtc: b.Qtc, F3Hz: b.F3Hz, PeakDB: b.PeakDB, Box: startBox(box, "sealed")}
		n.Box.NetL, n.Box.Lining, n.Box.QA = n.NetL, 0, 0
		n.Box = rounded(n.Box)
		n.Say = fmt.Sprintf("%s: %.1f litres, total Q %.2f, -3 dB at %.0f Hz in free air; %s.", a.title, n.NetL, n.Qtc, n.F3Hz, a.say)
		out = append(out, n)
	}
	return out
}

// mostNamedM3 leaves out boxes that no car holds.
const mostNamedM3 = 0.6

func ventedNamed(box job.Box, d alignment.Driver) []Named {
	all, err := alignment.VentedAll(d, startingQL)
	if err != nil {
		return nil
	}
	var out []Named
	for _, b := range all {
		if b.VolumeM3 > mostNamedM3 {
			continue
		}
		title := capitalised(b.Name.LongName())
		n := Named{Type: "vented", Name: string(b.Name), Title: title, NetL: 1000 * b.VolumeM3, TuningHz: b.FbHz, F3Hz: b.F3Hz, PeakDB: b.PeakDB, Box: startBox(box, "vented")}
		n.Box.NetL, n.Box.Port = n.NetL, tuned(n.Box.Port, b.FbHz)
		n.Box.QL, n.Box.QA, n.Box.Lining = startingQL, 0, 0
		n.Box = rounded(n.Box)
		n.Say = fmt.Sprintf("%s: %.1f litres tuned to %.1f Hz, -3 dB at %.0f Hz in free air, for ordinary losses (QL %d).", title, n.NetL, n.TuningHz, n.F3Hz, startingQL)
		if b.PeakDB > 0.05 {
			n.Say = n.Say[:len(n.Say)-1] + fmt.Sprintf("; it rises %.1f dB on the way.", b.PeakDB)
		}
		out = append(out, n)
	}
	return out
}

// bandpassNamed offers the flat symmetrical band-pass whose rear chamber brings
// the driver to a Q of 1/sqrt(2), or a third above Qts where that is too low.
func bandpassNamed(box job.Box, d alignment.Driver) []Named {
	q := math.Max(1/math.Sqrt2, 4.0/3*d.Qts)
	b, err := alignment.Bandpass(d, q, 1/math.Sqrt2)
	if err != nil || b.RearM3+b.FrontM3 > mostNamedM3 {
		return nil
	}
	n := Named{Type: "bandpass4", Name: "BP4", Title: "Symmetrical band-pass", NetL: 1000 * (b.RearM3 + b.FrontM3), TuningHz: b.FcHz, F3Hz: b.LowHz, Box: startBox(box, "bandpass4")}
	n.Box.NetL, n.Box.FrontL, n.Box.Front = 1000*b.RearM3, 1000*b.FrontM3, tuned(nil, b.FcHz)
	n.Box.QL, n.Box.QA, n.Box.Lining = 0, 0, 0
	n.Box = rounded(n.Box)
	n.Say = fmt.Sprintf("Flat band-pass: %.1f litres behind, %.1f in front tuned to %.0f Hz; it passes %.0f to %.0f Hz in free air.", n.Box.NetL, n.Box.FrontL, b.FcHz, b.LowHz, b.HighHz)
	return []Named{n}
}

func capitalised(s string) string {
	if s == "" || s[0] < 'a' || s[0] > 'z' {
		return s
	}
	return string(s[0]-'a'+'A') + s[1:]
}
