package advise

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"bootfloor/internal/job"
	"bootfloor/internal/system"
)

// say writes the lines.
func (q *QuickAnswer) say(r *system.Response) {
	a := q.Answer
	add := func(key, say string, value float64, unit string) {
		q.Lines = append(q.Lines, QuickLine{key, say, value, unit})
	}
	add("reach", a.Headline, a.ReachHz, "Hz")
	add("level", a.Because, a.LevelDB, "dB")
	s := q.Job.Subs[0]
	if o := q.Outside; o != nil && q.Fits && s.Box.Type != "infinite_baffle" {
		add("outside", fmt.Sprintf("Outside about %.0f x %.0f x %.0f mm (wide x high x deep), %.0f litres, of %.0f mm sheet.",
			o.WidthMM, o.HeightMM, o.DepthMM, o.Litres, s.Box.PanelMM), o.Litres, "L")
	}
	if say, mm := portSay(s, r); say != "" {
		add("port", say, mm, "mm")
	}
	if len(r.Subs) > 0 {
		amp := s.Channel.Amplifier
		load := r.Subs[0].LoadMinOhm
		say := fmt.Sprintf("The amplifier sees no less than %.2f Ω, nominal %s Ω", load, trimmed(amp.RatedOhm))
		if w := wiringSay(s); w != "" {
			say += ", the drivers" + w
		}
		add("load", say+fmt.Sprintf("; its %.0f W are taken to be into that.", amp.RatedW), load, "ohm")
	}
	add("fits", strings.TrimSpace(q.instead+" "+q.fitsSay()), 0, "")
}

// portSay describes the ports of a box, tells whether they blow, and the length
// (mm) of the longest.
func portSay(s job.Sub, r *system.Response) (say string, longest float64) {
	if s.Box.Type == "line" || len(r.Subs) == 0 {
		return "", 0
	}
	lengths := r.Subs[0].PortLengths
	var list []string
	for _, p := range []*job.Port{s.Box.Port, s.Box.Front} {
		if p == nil || len(list) >= len(lengths) {
			continue
		}
		mm := lengths[len(list)]
		longest = math.Max(longest, mm)
		one := fmt.Sprintf("port of %.0f mm inside", p.DiameterMM)
		if p.Shape == "slot" {
			one = fmt.Sprintf("slot of %.0f x %.0f mm", p.WidthMM, p.HeightMM)
		}
		if n := max(p.Count, 1); n > 1 {
			one = countedPorts(n) + " " + strings.Replace(strings.Replace(one, "port", "ports", 1), "slot", "slots", 1) + ", each"
		} else {
			one = "a " + one + ","
		}
		list = append(list, fmt.Sprintf("%s %.0f mm long", one, mm))
	}
	if len(list) == 0 {
		return "", 0
	}
	say = capital(joined(list))
	if depth := math.Max(s.Box.DepthMM, math.Max(s.Box.WidthMM, s.Box.HeightMM)); depth > 0 && longest > depth-2*s.Box.PanelMM {
		say += "; that is longer than the box and takes a bend"
	}
	fastest := 0.0
	for k, v := range r.Find("air_speed/sub/0") {
		if r.Hz[k] >= lowestHeard {
			fastest = math.Max(fastest, v)
		}
	}
	if fastest > system.PortSpeedGuide {
		return say + fmt.Sprintf(". Flat out it blows: its air reaches %.0f m/s, and from %d m/s a plain port is heard.", fastest, system.PortSpeedGuide), longest
	}
	return say + fmt.Sprintf(". Flat out its air reaches %.0f m/s, which is not heard.", fastest), longest
}

func countedPorts(n int) string {
	words := []string{"two", "three", "four", "five", "six", "seven", "eight"}
	if n-2 < len(words) {
		return words[n-2]
	}
	return fmt.Sprint(n)
}

func (q *QuickAnswer) fitsSay() string {
	b, _ := job.FindBody(q.Request.Body)
	o := q.Outside
	switch {
	case o == nil:
		return "Whether it fits cannot be said: the boot has no size."
	case !q.Fits:
		return fmt.Sprintf("It does not usually fit the boot of %s. %s", article(b.Name), o.Say)
	case q.Job.Subs[0].Box.Type == "infinite_baffle":
		return o.Say
	}
	say := fmt.Sprintf("It usually fits the boot of %s, through its opening, and leaves %.0f litres free (%.0f %%).", article(b.Name), o.LeftL, o.LeftPct)
	if o.SpareL > 0 {
		say += fmt.Sprintf(" The smallest box that holds the drivers has %.1f litres more air than that: fill them with solid wood, or allow the air.", o.SpareL)
	}
	return say
}

// lower makes a name fit inside a sentence.
func lower(s string) string {
	if s == "" || s[0] < 'A' || s[0] > 'Z' {
		return s
	}
	return string(s[0]-'A'+'a') + s[1:]
}

// article puts "a" or "an" before a name.
func article(name string) string {
	name = lower(name)
	if name != "" && slices.Contains([]byte("aeiou"), name[0]) {
		return "an " + name
	}
	return "a " + name
}
