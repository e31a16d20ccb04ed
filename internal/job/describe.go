package job

import (
	"strconv"
	"strings"
	"sync"
)

// labels maps the pattern of a pointer to the words of its rule.
var labels = sync.OnceValue(func() map[string]string {
	m := map[string]string{}
	for _, l := range Limits() {
		m[l.At] = l.Label
	}
	for at, label := range map[string]string{
		"/format": "the kind of document", "/version": "the version of the document", "/demo": "the demo mark",
		"/air": "the air", "/car": "the car", "/car/cabin": "the cabin", "/car/cabin/stations": "the list of stations",
		"/car/boot": "the boot", "/car/boot/separate": "whether the boot is separate", "/car/boot/seats_folded": "whether the seats are folded",
		"/car/finish": "the finish of the cabin", "/car/openings": "the list of openings", "/car/seats": "the list of seats",
		"/car/seats/*/occupied": "whether the seat is taken", "/car/learned": "what was learned about the cabin",
		"/subs": "the list of subs", "/subs/*": "the sub", "/subs/*/driver": "the driver", "/subs/*/driver/typical": "the typical mark",
		"/subs/*/box": "the box", "/subs/*/box/isobaric": "whether the drivers are isobaric", "/subs/*/box/line": "the list of pieces",
		"/subs/*/box/port": "the port", "/subs/*/box/front": "the port", "/subs/*/box/passive": "the passive radiator", "/subs/*/box/vent": "the aperiodic vent",
		"/subs/*/place": "the place", "/subs/*/channel": "the channel",
		"/doors": "the whole entry", "/doors/fitted": "whether they are fitted", "/doors/driver": "the driver", "/doors/driver/typical": "the typical mark",
		"/doors/place": "the place", "/doors/channel": "the channel",
		"/aim": "the aim", "/aim/music": "the kinds of music", "/tolerance": "the tolerances", "/assumed": "the list of assumed values",
	} {
		m[at] = label
	}
	for _, owner := range []string{"/subs/*", "/doors"} {
		m[owner+"/channel/filters"] = "the list of filters"
		m[owner+"/channel/amplifier"] = "the amplifier"
		m[owner+"/channel/inverted"] = "the polarity"
		m[owner+"/channel/filters/*/off"] = "whether the filter is off"
	}
	return m
})

// Pattern turns a pointer into the pattern that Limits uses: numbers of list
// elements become stars.
func Pattern(pointer string) string {
	parts := strings.Split(pointer, "/")
	for i, p := range parts {
		if p == "" {
			continue
		}
		if _, err := strconv.ParseUint(p, 10, 32); err == nil {
			parts[i] = "*"
		}
	}
	return strings.Join(parts, "/")
}

// describe begins a sentence about any pointer, also one that no rule knows.
func describe(pointer string) string {
	if pointer == "" {
		return "The document"
	}
	if label, ok := labels()[Pattern(pointer)]; ok {
		return sentenceName(pointer, label, true)
	}
	key := pointer[strings.LastIndexByte(pointer, '/')+1:]
	return "The value " + quote(key)
}
