// Package advise turns curves into answers: plain sentences with the number
// and the reason.
package advise

import (
	"fmt"
	"slices"
	"strings"

	"bootfloor/internal/job"
	"bootfloor/internal/judge"
	"bootfloor/internal/system"
)

// Answer is what a reader wants to know first. Its numbers are those of a
// judge.Verdict at one seat.
type Answer struct {
	Headline string   `json:"headline"`
	Because  string   `json:"because"`
	Lines    []string `json:"lines"`

	Seat         string  `json:"seat"`
	ReachHz      float64 `json:"reach_hz"`
	ReachBelow   bool    `json:"reach_below"`
	AskedHz      float64 `json:"asked_hz"`
	Limit        string  `json:"limit"`
	LimitCode    int     `json:"limit_code"`
	LimitBelowHz float64 `json:"limit_below_hz"`
	LevelDB      float64 `json:"level_db"`
	RippleDB     float64 `json:"ripple_db"`
}

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

// stopWords says what happens when a limit is met.
var stopWords = map[system.Limit]string{
	system.ConeTravel:     "the cone runs out of travel",
	system.AmplifierVolts: "the amplifier runs out of volts",
	system.AmplifierAmps:  "the amplifier runs out of current",
	system.ThermalPower:   "the coil has all the heat it can take",
	system.PortAirSpeed:   "the port begins to blow",
	system.PassiveTravel:  "the passive radiator runs out of travel",
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
	v := judge.Of(r.Hz, top, r.Find("max_by/sub/"+a.Seat), judge.Upper(j), j.Aim.LevelDB)
	a.ReachHz, a.ReachBelow, a.AskedHz = v.ReachHz, v.ReachBelow, v.AskedHz
	a.Limit, a.LimitCode, a.LimitBelowHz = v.Limit.String(), int(v.Limit), v.LimitBelowHz
	a.LevelDB, a.RippleDB = v.LevelDB, v.RippleDB
	a.say(v, j.Aim, j.Assumed)
	return a
}

func (a *Answer) say(v judge.Verdict, aim job.Aim, assumed []string) {
	at := At(a.Seat)
	if v.ReachHz < lowestHeard {
		a.Headline = fmt.Sprintf("Reaches %d Hz and lower at %s.", lowestHeard, at)
	} else {
		a.Headline = fmt.Sprintf("Reaches %s at %s.", hertz(v.ReachHz), at)
	}
	level := fmt.Sprintf("%.0f dB", v.LevelDB)
	stops := stopWords[v.Limit]
	switch {
	case v.LimitBelowHz == 0:
		a.Because = fmt.Sprintf("Flat out it plays %s or more, and %s before anything else does.", level, stops)
	case v.LimitBelowHz >= 0.95*v.UpperHz:
		a.Because = fmt.Sprintf("Flat out it plays %s; %s first.", level, stops)
	default:
		a.Because = fmt.Sprintf("Flat out it plays %s or more; below %s %s first.", level, hertz(v.LimitBelowHz), stops)
	}
	if v.ThenBelowHz > 0 {
		a.Because = strings.TrimSuffix(a.Because, ".") + fmt.Sprintf(", and below %s %s.", hertz(v.ThenBelowHz), stopWords[v.Then])
	}
	a.Lines = append(a.Lines, a.Because)
	if aim.LevelDB > 0 && aim.Lowest > 0 {
		a.Lines = append(a.Lines, asked(v, aim, slices.Contains(assumed, "/aim/level_db")))
	}
}

// asked compares what was asked for with what is played. A wish that nobody
// uttered is not put into anybody's mouth.
func asked(v judge.Verdict, aim job.Aim, assumed bool) string {
	want := fmt.Sprintf("You asked for %.0f dB down to %s", aim.LevelDB, hertz(aim.Lowest))
	if assumed {
		want = fmt.Sprintf("The wish assumed is %.0f dB down to %s", aim.LevelDB, hertz(aim.Lowest))
	}
	switch {
	case v.AskedHz == 0:
		return fmt.Sprintf("%s: it is not that loud at %s.", want, hertz(v.UpperHz))
	case v.AskedHz > aim.Lowest:
		return fmt.Sprintf("%s: it plays that loud down to %s.", want, hertz(v.AskedHz))
	default:
		return want + ": it does that."
	}
}

// hertz writes a frequency as a fitter says it.
func hertz(f float64) string {
	if f < 100 {
		return fmt.Sprintf("%.0f Hz", f)
	}
	return fmt.Sprintf("%.3g Hz", f)
}
