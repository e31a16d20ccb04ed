package advise

import (
	"fmt"
	"math"

	"bootfloor/internal/job"
	"bootfloor/internal/system"
)

// Answer is what a reader wants to know first.
type Answer struct {
	Headline string   `json:"headline"`
	Because  string   `json:"because"`
	Lines    []string `json:"lines"`

	Seat string `json:"seat"`
	// ReachHz is the lowest frequency down to which the most level that the
	// sub can play at the seat, every limit counted and averaged over a third
	// of an octave, stays within 3 dB of its mean over the octave below three
	// quarters of the crossover.
	ReachHz float64 `json:"reach_hz"`
	// ReachBelow says that ReachHz is the lowest frequency computed and the
	// level is still up there.
	ReachBelow bool `json:"reach_below"`
	// Limit is what runs out first at full drive, in words; LimitBelowHz is
	// the frequency under which it does so, zero where nothing does before
	// the amplifier.
	Limit        string  `json:"limit"`
	LimitCode    int     `json:"limit_code"`
	LimitBelowHz float64 `json:"limit_below_hz"`
	// LevelDB is the least level (dB, third-octave mean) that full drive
	// reaches at the seat from there up to three quarters of the crossover.
	LevelDB float64 `json:"level_db"`

	upperHz float64 // upper edge of the band judged
}

// dropDB is the fall that ends the reach: half power, as in every published
// definition of a cut-off.
const dropDB = 3

// lowestHeard is the frequency (Hz) under which a tone is felt more than
// heard: the lower end of ISO 226's contours.
const lowestHeard = 20

// seatWords says where a seat is, after "at".
var seatWords = map[string]string{
	"wheel":       "the wheel",
	"passenger":   "the passenger seat",
	"rear_right":  "the right rear seat",
	"rear_left":   "the left rear seat",
	"rear_middle": "the middle rear seat",
}

// At returns the words for a seat, after "at".
func At(seat string) string {
	if w, ok := seatWords[seat]; ok {
		return w
	}
	return "the seat"
}

// Answers judges a response at the seat that counts most.
func Answers(j job.Job, r *system.Response) Answer {
	a := Answer{Seat: j.Aim.SeatID}
	top := r.Find("max/sub/" + a.Seat)
	if top == nil && len(r.Seats) > 0 {
		a.Seat = r.Seats[0]
		top = r.Find("max/sub/" + a.Seat)
	}
	if top == nil || len(j.Subs) == 0 {
		a.Headline = "No sub is in this car yet."
		a.Because = "Put a box in the boot to see how low and how loud it plays."
		return a
	}
	by := r.Find("max_by/sub/" + a.Seat)
	upper := band(j)
	a.upperHz = upper
	a.reach(r.Hz, top, upper)
	a.limit(r.Hz, by, upper)
	a.level(r.Hz, top, upper)
	a.say()
	return a
}

// band returns the upper edge of the octave that the sub is judged in: three
// quarters of its crossover, or 80 Hz without one.
func band(j job.Job) float64 {
	upper := 80.0
	for _, f := range j.Subs[0].Channel.Filters {
		if f.Kind == "lowpass" && !f.Off {
			upper = math.Min(upper, 0.75*f.FreqHz)
		}
	}
	return upper
}

func (a *Answer) reach(hz, level []float64, upper float64) {
	s := smooth(hz, level)
	ref, ok := mean(hz, level, upper/2, upper)
	if !ok {
		return
	}
	i := len(hz) - 1
	for i > 0 && hz[i] > upper {
		i--
	}
	// From the strongest point of the band, so that a dip at its upper edge,
	// where the crossover is, does not end the search.
	for k := i; k >= 0 && hz[k] >= upper/2; k-- {
		if s[k] > s[i] {
			i = k
		}
	}
	for ; i > 0; i-- {
		if s[i-1] < ref-dropDB {
			a.ReachHz = cross(hz[i-1], hz[i], s[i-1], s[i], ref-dropDB)
			return
		}
	}
	a.ReachHz, a.ReachBelow = hz[0], true
}

// cross interpolates where the level passes want, along log frequency.
func cross(f0, f1, l0, l1, want float64) float64 {
	if l1 == l0 {
		return f1
	}
	return f0 * math.Pow(f1/f0, (want-l0)/(l1-l0))
}

// limit finds the highest frequency of the band at which something other than
// the amplifier's voltage stops the level.
func (a *Answer) limit(hz, by []float64, upper float64) {
	a.LimitCode = int(system.AmplifierVolts)
	for i := len(hz) - 1; i >= 0; i-- {
		if hz[i] > upper || hz[i] < 0.7*a.ReachHz {
			continue
		}
		if c := int(by[i]); c != int(system.AmplifierVolts) && c != 0 {
			a.LimitCode, a.LimitBelowHz = c, hz[i]
			break
		}
	}
	a.Limit = system.Limit(a.LimitCode).String()
}

func (a *Answer) level(hz, top []float64, upper float64) {
	from := math.Min(math.Max(a.LimitBelowHz, a.ReachHz), upper*0.9)
	s := smooth(hz, top)
	a.LevelDB = math.Inf(1)
	for i, f := range hz {
		if f >= from && f <= upper {
			a.LevelDB = math.Min(a.LevelDB, s[i])
		}
	}
	if math.IsInf(a.LevelDB, 1) {
		a.LevelDB = s[len(s)-1]
	}
}

func (a *Answer) say() {
	at := At(a.Seat)
	if a.ReachHz < lowestHeard {
		a.Headline = fmt.Sprintf("Reaches the lowest notes there are at %s: below %d Hz.", at, lowestHeard)
	} else {
		a.Headline = fmt.Sprintf("Reaches %s at %s.", hertz(a.ReachHz), at)
	}
	level := fmt.Sprintf("%.0f dB", a.LevelDB)
	switch {
	case a.LimitBelowHz == 0:
		a.Because = fmt.Sprintf("Flat out it plays %s; the amplifier's voltage is what stops it, and nothing runs out before that.", level)
	case a.LimitBelowHz >= 0.95*a.upperHz:
		a.Because = fmt.Sprintf("Flat out it plays %s; what stops it is %s.", level, a.Limit)
	default:
		a.Because = fmt.Sprintf("Flat out it plays %s; below %s what stops it first is %s.", level, hertz(a.LimitBelowHz), a.Limit)
	}
	a.Lines = append(a.Lines, a.Because)
}

// hertz writes a frequency as a fitter says it.
func hertz(f float64) string {
	if f < 100 {
		return fmt.Sprintf("%.0f Hz", f)
	}
	return fmt.Sprintf("%.3g Hz", f)
}
