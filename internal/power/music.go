package power

import (
	"fmt"
	"math"
)

// bassTop is where the share of the sub ends in MusicDBA: the band centre of
// 80 Hz.
const bassTop = 80

// MusicDBA returns the A-weighted level of music whose bass, the third-octave
// bands from 20 to 80 Hz together, has bassDB, and whose other bands lie
// boostDB below the bass bands. Bass alone hardly moves an A-weighted meter;
// it is the music that comes with it that wears out the ear. The spectrum is
// taken as equal in every third octave up to 20 kHz, which real music
// undercuts in the treble: common practice, no source, and on the safe side.
func MusicDBA(bassDB, boostDB float64) float64 {
	bass, weighted := 0.0, 0.0
	for n := 13; n <= 43; n++ {
		f := math.Pow(10, float64(n)/10) // exact base-ten centres, 20 Hz to 20 kHz
		level := -boostDB
		if f <= bassTop {
			level = 0
			bass++
		}
		weighted += math.Pow(10, (level+AWeight(f))/10)
	}
	return bassDB - 10*math.Log10(bass) + 10*math.Log10(weighted)
}

// BassCaution returns the sentence that stands beside a bass level at a seat,
// dB, for music in which the bass lies boostDB above the rest.
func BassCaution(bassDB, boostDB float64) string {
	level := MusicDBA(bassDB, boostDB)
	risk := HearingCaution(level)
	if risk == "" {
		return ""
	}
	return fmt.Sprintf("Bass at %.0f dB, set %.0f dB above the rest, comes with music of about %.0f dB(A). %s", bassDB, boostDB, level, risk)
}
