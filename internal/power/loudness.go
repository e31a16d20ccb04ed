package power

import (
	"fmt"
	"math"
	"sort"
)

// contour is one row of ISO 226:2023, table 1.
type contour struct {
	hz, alpha, lu, tf float64
}

// contours holds ISO 226:2023, table 1: exponent of loudness, magnitude of the
// linear transfer function normalised at 1 kHz (dB) and threshold of hearing
// (dB), as three independent public copies agree on it.
var contours = []contour{
	{20, .635, -31.5, 78.1}, {25, .602, -27.2, 68.7}, {31.5, .569, -23.1, 59.5},
	{40, .537, -19.3, 51.1}, {50, .509, -16.1, 44.0}, {63, .482, -13.1, 37.5},
	{80, .456, -10.4, 31.5}, {100, .433, -8.2, 26.5}, {125, .412, -6.3, 22.1},
	{160, .391, -4.6, 17.9}, {200, .373, -3.2, 14.4}, {250, .357, -2.1, 11.4},
	{315, .343, -1.2, 8.6}, {400, .330, -.5, 6.2}, {500, .320, 0, 4.4},
	{630, .311, .4, 3.0}, {800, .303, .5, 2.2}, {1000, .300, 0, 2.4},
	{1250, .295, -2.7, 3.5}, {1600, .292, -4.2, 1.7}, {2000, .290, -1.2, -1.3},
	{2500, .290, 1.4, -4.2}, {3150, .289, 2.3, -6.0}, {4000, .289, 1.0, -5.4},
	{5000, .289, -2.3, -1.5}, {6300, .293, -7.2, 6.0}, {8000, .303, -11.2, 12.6},
	{10000, .323, -10.9, 13.9}, {12500, .354, -3.5, 12.3},
}

// EqualLoudness returns the level, dB, of a pure tone that sounds as loud as a
// 1 kHz tone of phon dB (ISO 226:2023, formula 1; free field, otologically
// normal young adults). The formula holds at the standard's 29 frequencies;
// between them the level is interpolated over the logarithm of the frequency.
// It is stated for 20 to 90 phon (80 above 4 kHz) and 20 Hz to 12.5 kHz;
// outside the frequencies, and outside 20 to 90 phon, it is an error.
func EqualLoudness(phon, hz float64) (float64, error) {
	if !(phon >= 20 && phon <= 90) {
		return 0, fmt.Errorf("equal loudness is stated for 20 to 90 phon, not %g", phon)
	}
	last := len(contours) - 1
	if !(hz >= contours[0].hz && hz <= contours[last].hz) {
		return 0, fmt.Errorf("equal loudness is stated for 20 Hz to 12.5 kHz, not %g Hz", hz)
	}
	k := sort.Search(len(contours), func(i int) bool { return contours[i].hz >= hz })
	if contours[k].hz == hz {
		return contours[k].level(phon), nil
	}
	a, b := contours[k-1], contours[k]
	t := math.Log(hz/a.hz) / math.Log(b.hz/a.hz)
	return (1-t)*a.level(phon) + t*b.level(phon), nil
}

func (c contour) level(phon float64) float64 {
	const reference = 0.300 // exponent at 1 kHz
	x := math.Pow(4e-10, reference-c.alpha)*(math.Pow(10, 0.03*phon)-math.Pow(10, 0.072)) +
		math.Pow(10, c.alpha*(c.tf+c.lu)/10)
	return 10/c.alpha*math.Log10(x) - c.lu
}
