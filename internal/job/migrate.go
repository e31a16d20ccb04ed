package job

import (
	"fmt"
)

// migrations[v] turns a document of version v into one of version v+1, on the
// parsed text, so that a step never depends on today's types. Each returns
// notes about what it did. A step is never changed once a release wrote its
// version.
var migrations = []func(root *node) ([]Finding, error){
	fromVersion0,
}

// migrate brings the document from its version to Version, step by step.
func migrate(root *node, from int) ([]Finding, error) {
	var found []Finding
	for v := from; v < Version; v++ {
		notes, err := migrations[v](root)
		found = append(found, notes...)
		if err != nil {
			return found, err
		}
		root.set("version", &node{kind: isNumber, number: float64(v + 1)})
	}
	if from < Version {
		found = append(found, Notef("/version", "The job file was of version %d and was brought to version %d; saving writes the new version.", from, Version))
	}
	return found, nil
}

// fromVersion0 reads the layout that was used while the document was being
// worked out. No release wrote it; it keeps the chain in use and tested. It
// differs from version 1 in three ways:
//   - the air temperature is in kelvin, /air/temperature_k;
//   - there is at most one sub, an object at /sub instead of a list at /subs;
//   - the amplifier of a channel is called amp.
func fromVersion0(root *node) ([]Finding, error) {
	var found []Finding
	if air := root.get("air"); air != nil {
		if k := air.take("temperature_k"); k != nil {
			if k.kind != isNumber {
				return found, fmt.Errorf("The air temperature (at /air/temperature_k) must be a number, but the text has %s.", k.kind)
			}
			// To a millionth of a degree, so that 293.15 K gives 20 °C.
			air.set("temperature_c", &node{kind: isNumber, number: roundTo(k.number-273.15, 1e6)})
			found = append(found, Notef("/air/temperature_c", "The air temperature was given in kelvin and is now in degrees Celsius."))
		}
	}
	if sub := root.take("sub"); sub != nil && sub.kind != isNull {
		root.set("subs", &node{kind: isList, list: []*node{sub}})
		found = append(found, Notef("/subs", "The one sub is now the first of a list."))
	}
	renameAmp := func(owner *node) {
		if channel := owner.get("channel"); channel != nil {
			if amp := channel.take("amp"); amp != nil {
				channel.set("amplifier", amp)
			}
		}
	}
	if subs := root.get("subs"); subs != nil {
		for _, s := range subs.list {
			renameAmp(s)
		}
	}
	renameAmp(root.get("doors"))
	return found, nil
}
