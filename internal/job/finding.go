package job

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Levels of a finding. An error stops the calculation, a warning says that an
// answer may mislead, a note is only worth knowing.
const (
	LevelError   = "error"
	LevelWarning = "warning"
	LevelNote    = "note"
)

// Finding is one sentence about one value of the document.
type Finding struct {
	At    string `json:"at"`    // JSON pointer of the value, "" for the whole document
	Level string `json:"level"` // error | warning | note
	Say   string `json:"say"`   // the field in plain words, what is wrong, what would do
}

// Errorf makes a finding that stops the calculation.
func Errorf(at, format string, args ...any) Finding {
	return Finding{At: at, Level: LevelError, Say: fmt.Sprintf(format, args...)}
}

// Warnf makes a finding about an answer that may mislead.
func Warnf(at, format string, args ...any) Finding {
	return Finding{At: at, Level: LevelWarning, Say: fmt.Sprintf(format, args...)}
}

// Notef makes a finding that is only worth knowing.
func Notef(at, format string, args ...any) Finding {
	return Finding{At: at, Level: LevelNote, Say: fmt.Sprintf(format, args...)}
}

// HasError reports whether any finding stops the calculation.
func HasError(findings []Finding) bool {
	for _, f := range findings {
		if f.Level == LevelError {
			return true
		}
	}
	return false
}

// Sentence makes the message of an error one: a capital first, a full stop
// last. Errors deep in the engine are clauses, so that they can be joined.
func Sentence(err error) string {
	s := err.Error()
	if s == "" {
		return s
	}
	s = strings.ToUpper(s[:1]) + s[1:]
	if !strings.ContainsAny(s[len(s)-1:], ".!?") {
		s += "."
	}
	return s
}

// Number writes v for a sentence: shortest exact form, no exponent for the
// sizes that a job holds, with its unit after a space.
func Number(v float64, unit string) string {
	format := byte('f')
	if a := math.Abs(v); a >= 1e7 || (a != 0 && a < 1e-6) {
		format = 'g'
	}
	s := strconv.FormatFloat(v, format, -1, 64)
	if unit != "" {
		s += " " + unit
	}
	return s
}

// roundTo rounds v to the nearest 1/parts.
func roundTo(v, parts float64) float64 { return math.Round(v*parts) / parts }
