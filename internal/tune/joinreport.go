package tune

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"bootfloor/internal/air"
	"bootfloor/internal/job"
	"bootfloor/internal/system"
)

// Less improvement than this, rms, is not worth changing a system for.
const worthDB = 0.25

// report writes what a setting does beside what the job does now.
func (q *search) report(best setting) (Joined, error) {
	out := Joined{
		CrossoverHz: q.cross, FromHz: q.paths.hz[0], ToHz: q.paths.hz[len(q.paths.hz)-1],
		Hz: q.paths.hz, Seats: q.paths.ids,
		GeometryMS: q.geometry(),
	}
	out.Before, out.BeforeDB = q.measure(q.now, nil)
	out.After, out.AfterDB = q.measure(best, &out.Before)
	out.Changed = best != q.now && q.cost(best) < q.cost(q.now)-worthDB
	if !out.Changed {
		out.After, out.AfterDB = out.Before, out.BeforeDB
		out.After.AtDipDB = out.Before.DipDB
		for _, s := range q.job.Subs {
			out.Subs = append(out.Subs, s.Channel)
		}
		out.Doors = q.job.Doors.Channel
		out.Say = fmt.Sprintf("Leave the join as it is: over an octave each side of %s Hz the level wanders %.1f dB about the target, and no delay, polarity or level makes it clearly better.",
			short(q.cross), out.Before.RMSDB)
		out.Notes = q.notes(out, q.now)
		return out, nil
	}
	out.Subs, out.Doors = q.channels(best)
	// The levels of the curves are those of the channels as they will be set.
	shift := out.Subs[0].GainDB - q.job.Subs[0].Channel.GainDB - best.levelDB
	for _, seat := range out.AfterDB {
		for k := range seat {
			seat[k] += shift
		}
	}
	out.Say = q.say(out, best)
	out.Notes = q.notes(out, best)
	return out, nil
}

// measure returns the ripple of a setting and its levels at the seats. before,
// where given, says which dip to look at again.
func (q *search) measure(s setting, before *Ripple) (Ripple, [][]float64) {
	var r Ripple
	var curves [][]float64
	var square float64
	at := math.Inf(1)
	for seat, id := range q.paths.ids {
		db := q.levels(s, 0, seat)
		curves = append(curves, append([]float64(nil), db...))
		square += ripple(db, q.target)
		for k, v := range db {
			if -v > r.DipDB {
				r.DipDB, r.DipHz, r.DipSeat = -v, q.paths.hz[k], id
			}
			r.PeakDB = math.Max(r.PeakDB, v)
			// A sixth of an octave about the old dip.
			if before != nil && id == before.DipSeat && math.Abs(math.Log2(q.paths.hz[k]/before.DipHz)) <= 1.0/12 {
				at = math.Min(at, v)
			}
		}
	}
	r.AtDipDB = r.DipDB
	if before != nil {
		r.AtDipDB = math.Max(0, -at)
	}
	r.RMSDB = math.Sqrt(square / float64(len(q.paths.ids)))
	var all []float64
	for n := range q.paths.per {
		all = append(all, math.Sqrt(q.meanSquare(s, n)))
	}
	sort.Float64s(all)
	r.LikelyDB = system.Percentile(all, 0.9)
	return r, curves
}

// say tells what to set and what it does.
func (q *search) say(out Joined, s setting) string {
	var set []string
	switch {
	case s.delayMS > 0:
		set = append(set, job.Number(out.Doors.DelayMS, "ms")+" on the doors")
	case s.delayMS < 0:
		set = append(set, job.Number(tidy(-s.delayMS), "ms")+" on the sub")
	default:
		set = append(set, "no delay")
	}
	if out.Subs[0].Inverted {
		set = append(set, "sub inverted")
	} else if s.flip {
		set = append(set, "sub no longer inverted")
	}
	if d := out.Subs[0].GainDB - q.job.Subs[0].Channel.GainDB; d != 0 {
		set = append(set, change("sub", d))
	}
	if d := out.Doors.GainDB - q.job.Doors.Channel.GainDB; d != 0 {
		set = append(set, change("doors", d))
	}
	if p := q.passes[s.pass]; !p.keep {
		set = append(set, fmt.Sprintf("both crossed at %s Hz, %s, %d dB per octave", short(p.corner), shapeWords(p.shape), 6*p.order))
	}
	text := strings.Join(set, ", ") + ": "
	text = strings.ToUpper(text[:1]) + text[1:]
	b, a := out.Before, out.After
	where := fmt.Sprintf("the dip of %.0f dB at %s Hz %s", b.DipDB, short(b.DipHz), seatWords(b.DipSeat))
	rest := fmt.Sprintf("the ripple from %s to %s Hz falls from %.1f to %.1f dB rms.", short(out.FromHz), short(out.ToHz), b.RMSDB, a.RMSDB)
	switch {
	case b.DipDB >= 4 && a.AtDipDB <= 2:
		return text + where + " goes; " + rest
	case b.DipDB >= 4 && a.AtDipDB <= b.DipDB-2:
		return text + where + fmt.Sprintf(" shrinks to %.0f dB; ", a.AtDipDB) + rest
	}
	return text + rest
}

// change writes a change of level.
func change(what string, db float64) string {
	way := "up"
	if db < 0 {
		way = "down"
	}
	return fmt.Sprintf("%s %s %s", what, way, job.Number(math.Abs(tidy(db)), "dB"))
}

func shapeWords(shape string) string {
	switch shape {
	case "linkwitz_riley":
		return "Linkwitz-Riley"
	case "butterworth":
		return "Butterworth"
	}
	return "Bessel"
}

// notes add what a fitter should know beside the setting.
func (q *search) notes(out Joined, s setting) []string {
	notes := []string{fmt.Sprintf("If fs, Q, paths and cabin lie elsewhere within their tolerances, the ripple stays below %.1f dB rms in nine cars of ten; as it is now, below %.1f dB.",
		out.After.LikelyDB, out.Before.LikelyDB)}
	who := "doors"
	if out.GeometryMS < 0 {
		who = "sub"
	}
	geometry := fmt.Sprintf("By the tape alone the %s would wait %.1f ms %s", who, math.Abs(out.GeometryMS), seatWords(out.Seats[0]))
	if math.Abs(s.delayMS-out.GeometryMS) > 0.5 {
		geometry += "; it is different here because filters, box and cabin turn the phase as well."
	} else {
		geometry += ", which agrees."
	}
	return append(notes, geometry)
}

// geometry returns how much longer the way from the nearest sub to the first
// seat is than that from the nearest door, in milliseconds of sound.
func (q *search) geometry() float64 {
	ears := q.job.Car.Seats[q.paths.seats[0]]
	away := func(p job.Place, side float64) float64 {
		x, y, z := p.XMM-ears.XMM, side*p.YMM-ears.YMM, p.ZMM-ears.ZMM
		return math.Sqrt(x*x + y*y + z*z)
	}
	sub := math.Inf(1)
	for _, s := range q.job.Subs {
		sub = math.Min(sub, away(s.Place, 1))
	}
	door := math.Min(away(q.job.Doors.Place, 1), away(q.job.Doors.Place, -1))
	return (sub - door) / speedOfSound(q.job.Air)
}

// speedOfSound of a job's air, m/s: mm over it are ms.
func speedOfSound(a job.Air) float64 {
	p, err := air.New(air.State{TemperatureC: a.TemperatureC, HumidityPct: a.HumidityPct, PressurePa: a.PressurePa})
	if err != nil {
		p = air.MustStandard()
	}
	return p.SpeedOfSound
}
