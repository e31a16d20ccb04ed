package power

// Wiring is one way to join alike voice coils to one amplifier output.
type Wiring struct {
	Series   int     // coils in one string
	Parallel int     // strings side by side
	Ohm      float64 // nominal load on the amplifier
}

// Wirings returns every way to join count alike coils so that all carry the
// same current, lowest load first: strings of each length that divides the
// number of coils. It returns nil where there is nothing to join.
func Wirings(count int, coilOhm float64) []Wiring {
	if count < 1 || !(coilOhm > 0) {
		return nil
	}
	var out []Wiring
	for s := 1; s <= count; s++ {
		if count%s == 0 {
			p := count / s
			out = append(out, Wiring{Series: s, Parallel: p, Ohm: coilOhm * float64(s) / float64(p)})
		}
	}
	return out
}
