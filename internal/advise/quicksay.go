package advise

import (
	"fmt"
	"slices"

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
	if len(r.Subs) > 0 {
		amp := s.Channel.Amplifier
		load := r.Subs[0].LoadMinOhm
		say := fmt.Sprintf("The amplifier sees no less than %.1f ohm, nominal %s ohm", load, trimmed(amp.RatedOhm))
		if w := wiringSay(s); w != "" {
			say += ", the drivers" + w
		}
		add("load", say+fmt.Sprintf("; its %.0f W are taken to be into that.", amp.RatedW), load, "ohm")
	}
	add("fits", q.fitsSay(), 0, "")
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
