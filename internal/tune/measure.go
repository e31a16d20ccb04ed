package tune

import (
	"errors"
	"fmt"
	"math"

	"bootfloor/internal/columns"
)

// Playing says which speakers made a measured sound.
type Playing string

// What can play.
const (
	SubAlone   Playing = "sub"
	DoorsAlone Playing = "doors"
	Both       Playing = "both"
)

// Measurement is a response measured at a seat, frequencies rising and each
// there once.
type Measurement struct {
	Seat    string  `json:"seat"`    // id of the seat, as in the document
	Playing Playing `json:"playing"` // which speakers played, with their filters in
	// Calibrated: the levels are dB re 20 uPa. Otherwise only their shape
	// counts.
	Calibrated bool `json:"calibrated"`
	// WithinDB is the standard uncertainty of a calibrated level, microphone
	// and test signal together, dB; zero is DefaultWithinDB.
	WithinDB float64 `json:"within_db,omitempty"`
	// DriveDB is how far the test signal stood below full scale, dB, zero or
	// negative.
	DriveDB float64 `json:"drive_db,omitempty"`
	// SmoothedOctave is the width, in octaves, over which the levels are
	// averaged: 1/3 for third-octave bands; zero for none.
	SmoothedOctave float64 `json:"smoothed_octave,omitempty"`

	Hz       []float64 `json:"hz"`
	LevelDB  []float64 `json:"level_db"`
	PhaseDeg []float64 `json:"phase_deg,omitempty"` // -180 to 180, or none

	// Said tells in sentences how the text was understood.
	Said []string `json:"said,omitempty"`
}

// DefaultWithinDB is the uncertainty taken for a calibrated level: half a
// decibel, for a microphone checked with a sound calibrator and a test signal
// set with a voltmeter. Common practice, no source.
const DefaultWithinDB = 0.5

// What is taken for a reading: beyond these it is a slip or another quantity.
const (
	lowestHz, highestHz = 0.5, 200e3
	leastDB, mostDB     = -250, 250
	fewestReadings      = 12
)

// The range in which readings teach anything about a cabin.
const learnFromHz, learnToHz = 5, 200

// ReadMeasurement reads columns of frequency, level and, if there, phase, from
// text of any usual dialect in any order. Whoever calls adds which seat, what
// played and how it was calibrated. The error says what is wrong
// and what would do.
func ReadMeasurement(text string) (Measurement, error) {
	table, err := columns.Read(text)
	if err != nil {
		return Measurement{}, fmt.Errorf("the measurement could not be read: %w", err)
	}
	var m Measurement
	if table.Doubt != "" {
		m.say("%s", table.Doubt)
	}
	if table.NSkipped > 0 {
		first := table.Skipped[0]
		m.say("%s left out; the first is line %d: %s", lines(table.NSkipped), first.Line, sentence(first.Why))
	}
	c := m.findColumns(table)
	rows := m.keep(table, c)
	m.sort(rows)
	if err := m.enough(); err != nil {
		return Measurement{}, err
	}
	m.SmoothedOctave = m.smoothing(table.Comments)
	return m, nil
}

func (m *Measurement) say(format string, args ...any) {
	m.Said = append(m.Said, fmt.Sprintf(format, args...))
}

// row is one reading; the phase as a unit vector, so that it can be averaged.
type row struct{ hz, db, cos, sin float64 }

// keep takes the rows that can be readings and says how many could not.
func (m *Measurement) keep(t columns.Table, c found) []row {
	var rows []row
	var badHz, badDB int
	for i := range t.Lines {
		hz, db := t.Columns[c.hz][i]*c.factor, t.Columns[c.level][i]
		switch {
		case !(hz >= lowestHz && hz <= highestHz):
			badHz++
			continue
		case !(db >= leastDB && db <= mostDB):
			badDB++
			continue
		}
		r := row{hz: hz, db: db}
		if c.phase >= 0 {
			p := math.Remainder(t.Columns[c.phase][i], 360)
			r.sin, r.cos = math.Sincos(p * math.Pi / 180)
		}
		rows = append(rows, r)
	}
	if badHz > 0 {
		m.say("%s left out because the frequency is not between %g Hz and %g kHz.", lines(badHz), lowestHz, highestHz/1000)
	}
	if badDB > 0 {
		m.say("%s left out because the level is not between %d and %d dB.", lines(badDB), leastDB, mostDB)
	}
	if c.phase < 0 {
		m.PhaseDeg = nil
	} else {
		m.PhaseDeg = []float64{}
	}
	return rows
}

// sort puts the readings in rising order and averages those of one frequency.
func (m *Measurement) sort(rows []row) {
	t := columns.Table{Columns: make([][]float64, 4), Lines: make([]int, len(rows))}
	falling := false
	for i, r := range rows {
		falling = falling || i > 0 && r.hz < rows[i-1].hz
		for c, v := range []float64{r.hz, r.db, r.cos, r.sin} {
			t.Columns[c] = append(t.Columns[c], v)
		}
	}
	if len(rows) == 0 {
		return
	}
	t = t.Ascending(0)
	if falling {
		m.say("The frequencies were not in rising order; they were sorted.")
	}
	if n := len(rows) - t.Rows(); n > 0 {
		m.say("%s the same frequency as another; their levels were averaged.", count(n, "reading has", "readings have"))
	}
	m.Hz, m.LevelDB = t.Columns[0], t.Columns[1]
	if m.PhaseDeg != nil {
		for i := range t.Lines {
			m.PhaseDeg = append(m.PhaseDeg, math.Atan2(t.Columns[3][i], t.Columns[2][i])*180/math.Pi)
		}
	}
}

// enough reports whether there is something to learn from.
func (m *Measurement) enough() error {
	n, low, high := 0, math.Inf(1), math.Inf(-1)
	for i, hz := range m.Hz {
		if hz >= learnFromHz && hz <= learnToHz {
			n++
			low, high = math.Min(low, m.LevelDB[i]), math.Max(high, m.LevelDB[i])
		}
	}
	switch {
	case len(m.Hz) == 0:
		return errors.New("the measurement holds no usable readings; it should hold columns of frequency in Hz and level in dB")
	case n < fewestReadings:
		return fmt.Errorf("the measurement has %s between %d and %d Hz; at least %d would do",
			count(n, "reading", "readings"), learnFromHz, learnToHz, fewestReadings)
	case high == low:
		return errors.New("the level of the measurement never changes; give the column with the level in dB")
	}
	return nil
}
