package bridge

import (
	"math"
	"strings"

	"bootfloor/internal/air"
	"bootfloor/internal/driver"
	"bootfloor/internal/job"
)

// ShelfRequest asks for the typical drivers, reads drivers from CSV, or writes
// drivers as CSV, whichever field is there.
type ShelfRequest struct {
	CSV     string       `json:"csv,omitempty"`
	Drivers []job.Driver `json:"drivers,omitempty"`
}

// ShelfEntry is one driver of a shelf.
type ShelfEntry struct {
	ID     string      `json:"id,omitempty"`
	Kind   string      `json:"kind,omitempty"`  // sub | door
	Build  string      `json:"build,omitempty"` // shallow, standard, long throw, ...
	Driver job.Driver  `json:"driver"`
	Notes  []DriverSay `json:"notes"` // what is wrong or doubtful with it
}

// DriverSay is one sentence about a field of a driver.
type DriverSay struct {
	Key   string `json:"key"` // field of the driver, "" for the whole
	Level string `json:"level"`
	Say   string `json:"say"`
}

// Shelved is the reply to the call shelf.
type Shelved struct {
	Drivers []ShelfEntry `json:"drivers"`
	Notes   []string     `json:"notes"`
	CSV     string       `json:"csv,omitempty"`
}

// standardAir is the air that data sheets are taken to have been measured in.
var standardAir = air.MustStandard()

func (e *Engine) shelf(request []byte) (Reply, error) {
	var req ShelfRequest
	if err := read(request, &req); err != nil {
		return Reply{}, err
	}
	out := Shelved{Drivers: []ShelfEntry{}, Notes: []string{}}
	switch {
	case req.CSV != "":
		all, notes, err := driver.ReadCSV(req.CSV)
		out.Notes = append(out.Notes, notes...)
		if err != nil {
			return Reply{}, &Error{BadRequest, "The shelf could not be read: " + err.Error() + "."}
		}
		for _, s := range all {
			out.Drivers = append(out.Drivers, shelved(s))
		}
	case req.Drivers != nil:
		var all []driver.Stated
		for _, d := range req.Drivers {
			all = append(all, driver.FromJob(d))
		}
		var text strings.Builder
		if err := driver.WriteCSV(&text, all); err != nil {
			return Reply{}, &Error{Internal, "The shelf could not be written: " + err.Error() + "."}
		}
		out.CSV = text.String()
	default:
		for _, s := range driver.Shelf() {
			entry := shelved(s.Stated)
			entry.ID, entry.Kind, entry.Build = s.ID, string(s.Kind), s.Build
			out.Drivers = append(out.Drivers, entry)
		}
	}
	return reply(out, nil)
}

func shelved(s driver.Stated) ShelfEntry {
	out := ShelfEntry{Driver: s.ToJob(), Notes: []DriverSay{}}
	_, found, err := driver.Derive(s, standardAir)
	out.Notes = append(out.Notes, says(found)...)
	if err != nil && len(found) == 0 {
		out.Notes = append(out.Notes, DriverSay{"", job.LevelError, err.Error()})
	}
	return out
}

func says(found []driver.Finding) []DriverSay {
	out := []DriverSay{}
	for _, f := range found {
		out = append(out, DriverSay{string(f.Key), string(f.Level), f.Say})
	}
	return out
}

// SheetRequest is a data sheet as it was pasted.
type SheetRequest struct {
	Text string `json:"text"`
}

// SheetReading is one value that a sheet states; From and To are bytes.
type SheetReading struct {
	Key    string  `json:"key"`
	Value  float64 `json:"value"`
	Unit   string  `json:"unit"`
	Name   string  `json:"name"`
	Source string  `json:"source"`
	Line   int     `json:"line"`
	Sure   bool    `json:"sure"`
	Why    string  `json:"why,omitempty"`
	Note   string  `json:"note,omitempty"`
}

// SheetModel is one driver of a sheet. Sure holds the values that may be
// taken as they are; All the doubtful ones as well.
type SheetModel struct {
	Name     string         `json:"name"`
	Readings []SheetReading `json:"readings"`
	Notes    []DriverSay    `json:"notes"`
	Sure     job.Driver     `json:"sure"`
	All      job.Driver     `json:"all"`
}

// SheetLine is a line of the text of which nothing was made.
type SheetLine struct {
	Number int    `json:"number"`
	Text   string `json:"text"`
	Why    string `json:"why,omitempty"`
}

// SheetRead is the reply to the call sheet.
type SheetRead struct {
	Models        []SheetModel `json:"models"`
	NotUnderstood []SheetLine  `json:"not_understood"`
	Unused        []SheetLine  `json:"unused"`
	Notes         []string     `json:"notes"`
}

func (e *Engine) sheet(request []byte) (Reply, error) {
	var req SheetRequest
	if err := read(request, &req); err != nil {
		return Reply{}, err
	}
	s := driver.ReadSheet(req.Text)
	out := SheetRead{Models: []SheetModel{}, NotUnderstood: sheetLines(s.NotUnderstood), Unused: sheetLines(s.Unused), Notes: append([]string{}, s.Notes...)}
	for i, m := range s.Models {
		model := SheetModel{Name: m.Name, Readings: []SheetReading{}, Notes: says(m.Findings), Sure: s.Stated(i, false).ToJob(), All: s.Stated(i, true).ToJob()}
		for _, r := range m.Readings {
			q, known := driver.Describe(r.Key)
			if !known || math.IsNaN(r.Value) || math.IsInf(r.Value, 0) {
				continue
			}
			model.Readings = append(model.Readings, SheetReading{
				Key: string(r.Key), Value: r.Value, Unit: q.Unit, Name: q.Name, Source: r.Source, Line: r.Line, Sure: r.Sure, Why: r.Why, Note: r.Note,
			})
		}
		out.Models = append(out.Models, model)
	}
	return reply(out, nil)
}

func sheetLines(lines []driver.Line) []SheetLine {
	out := []SheetLine{}
	for _, l := range lines {
		out = append(out, SheetLine{l.Number, l.Text, l.Why})
	}
	return out
}
