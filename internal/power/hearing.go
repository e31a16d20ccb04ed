package power

import (
	"fmt"
	"math"
)

// NIOSHMinutes returns how long a day an A-weighted level may last before it
// reaches the recommended exposure limit of NIOSH (publication 98-126, 1998):
// 85 dB(A) for 8 hours, half the time for every 3 dB more.
func NIOSHMinutes(levelDBA float64) float64 {
	return 8 * 60 / math.Pow(2, (levelDBA-85)/3)
}

// NIOSHDose returns the share of the daily limit that minutes at a level use
// up, per cent.
func NIOSHDose(levelDBA, minutes float64) float64 {
	return 100 * minutes / NIOSHMinutes(levelDBA)
}

// WHOHours returns how long a week an A-weighted level may last before it uses
// up the sound allowance of Recommendation ITU-T H.870 (with the World Health
// Organization, 2018): for adults 80 dB(A) for 40 hours, for children and
// sensitive users 75 dB(A) for 40 hours, on equal energy.
func WHOHours(levelDBA float64, child bool) float64 {
	base := 80.0
	if child {
		base = 75
	}
	return 40 / math.Pow(10, (levelDBA-base)/10)
}

// DailyExposure returns the level, dB(A), that would bring the same energy in
// 8 hours as levelDBA in minutes (ISO 1999; L EX,8h).
func DailyExposure(levelDBA, minutes float64) float64 {
	return levelDBA + 10*math.Log10(minutes/(8*60))
}

// Action is where an exposure stands in Directive 2003/10/EC, article 3. It
// binds employers, so it is a yardstick for a listener and not a law.
type Action int

// The steps of the Directive; each means at or above, the last above.
const (
	BelowAction Action = iota
	LowerAction        // 80 dB(A) over 8 hours, or a peak of 112 Pa
	UpperAction        // 85 dB(A), or 140 Pa
	OverLimit          // above 87 dB(A), or above 200 Pa
)

// EUAction places a daily exposure, dB(A) over 8 hours, and a C-weighted peak
// pressure, Pa, in Directive 2003/10/EC.
func EUAction(exposureDBA, peakPa float64) Action {
	switch {
	case exposureDBA > 87 || peakPa > 200:
		return OverLimit
	case exposureDBA >= 85 || peakPa >= 140:
		return UpperAction
	case exposureDBA >= 80 || peakPa >= 112:
		return LowerAction
	}
	return BelowAction
}

// HearingCaution returns the sentence that stands beside a level at a seat,
// A-weighted, or "" where even 24 hours a day stay within both limits.
func HearingCaution(levelDBA float64) string {
	minutes := NIOSHMinutes(levelDBA)
	hours := WHOHours(levelDBA, false)
	if minutes >= 24*60 && hours >= 7*24 {
		return ""
	}
	return fmt.Sprintf("At %.0f dB(A) hearing is at risk after %s a day (NIOSH), and the weekly allowance of WHO and ITU lasts %s; "+
		"ringing or dull ears are a warning. Bass hardly counts in dB(A), so a low figure alone proves nothing. Whoever drives must still hear sirens and horns.",
		levelDBA, span(minutes), span(hours*60))
}

// span writes a time in words that suit its size.
func span(minutes float64) string {
	plural := func(n float64, unit string) string {
		if n == 1 {
			return "1 " + unit
		}
		return fmt.Sprintf("%.0f %ss", n, unit)
	}
	switch {
	case minutes < 1:
		return plural(math.Max(1, math.Floor(minutes*60)), "second")
	case minutes < 120:
		return plural(math.Floor(minutes), "minute")
	}
	return plural(math.Floor(minutes/60), "hour")
}
