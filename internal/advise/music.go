package advise

import "math"

// Music is a kind of music by the lowest notes that matter in it.
type Music struct {
	Key      string  `json:"key"`
	Name     string  `json:"name"`
	LowestHz float64 `json:"lowest_hz"`
	Say      string  `json:"say"`    // what sounds that low
	Source   string  `json:"source"` // where the number is from
}

// note returns the frequency (Hz) of a note, counted in semitones from C of
// the octave called 0, in equal temperament with A4 at 440 Hz (ISO 16:1975).
func note(octave, semitone int) float64 {
	return 440 * math.Pow(2, float64(12*octave+semitone-57)/12)
}

// Semitones above C.
const (
	semitoneC = 0
	semitoneE = 4
	semitoneA = 9
	semitoneB = 11
)

const (
	tempered = "equal temperament, A4 = 440 Hz (ISO 16:1975); the compass of the instrument is common knowledge"
	practice = "common practice, no source"
)

// Musics lists the kinds of music that are offered, in the order they are asked.
func Musics() []Music {
	b0, c1, e1, a0, c0 := note(0, semitoneB), note(1, semitoneC), note(1, semitoneE), note(0, semitoneA), note(0, semitoneC)
	return []Music{
		{"pop", "Pop and rock", e1, "The low E of a bass guitar; a kick drum thumps a little above it.", tempered},
		{"metal", "Metal", b0, "The low B of a five-string bass guitar.", tempered},
		{"dance", "House, techno, trance", 35, "The synthesised bass under the kick drum.", practice},
		{"hiphop", "Hip-hop, trap, drum and bass", 30, "Long synthesised notes, the lowest in the charts.", practice},
		{"reggae", "Reggae, dub, funk", e1, "A bass guitar, played loud and low.", tempered},
		{"jazz", "Jazz, folk, singers", e1, "The low E of a double bass.", tempered},
		{"orchestra", "Orchestra", c1, "The low C of a double bass with an extension; the big drum is felt as low.", tempered},
		{"piano", "Piano", a0, "The lowest A; what is heard of it lies mostly an octave above.", tempered},
		{"organ", "Pipe organ, 16-foot stops", c1, "The lowest pipe of a 16-foot stop.", tempered},
		{"organ32", "Pipe organ, 32-foot stops", c0, "The lowest pipe of a 32-foot stop, felt more than heard.", tempered},
		{"films", "Films", 25, "Thunder and explosions on the effects channel.", practice},
		{"speech", "Talk and podcasts", 80, "A deep voice; a sub adds little.", practice},
	}
}

// Loudness is how loud somebody wants it.
type Loudness struct {
	Key     string  `json:"key"`
	Name    string  `json:"name"`
	LevelDB float64 `json:"level_db"` // of bass, at the seat
	Say     string  `json:"say"`
}

// Loudnesses lists the answers offered to "how loud". The levels are those of
// bass alone, which ISO 226 contours show the ear to take for much quieter
// than the same level of voice; which level goes with which word is common
// practice, no source.
func Loudnesses() []Loudness {
	return []Loudness{
		{"talk", "Talk over it", 95, "Full bass at a level at which people still talk."},
		{"sing", "Sing along", 103, "As loud as most people ever play a car radio, with the bass it lacks."},
		{"loud", "Properly loud", 110, "Bass that is felt. Keep it short: loud music all day harms hearing."},
		{"club", "Like a club", 117, "Bass in the chest. At this level ears need breaks and, for long, protection."},
		{"show", "To show off", 125, "For seconds, not for songs: levels like this harm hearing soon."},
	}
}

// lowestOf returns the lowest of the named kinds and what it is, and the keys
// that are not known.
func lowestOf(keys []string) (best Music, unknown []string) {
	all := Musics()
	for _, k := range keys {
		found := false
		for _, m := range all {
			if m.Key == k {
				found = true
				if best.Key == "" || m.LowestHz < best.LowestHz {
					best = m
				}
			}
		}
		if !found {
			unknown = append(unknown, k)
		}
	}
	return best, unknown
}

func loudness(key string) (Loudness, bool) {
	for _, l := range Loudnesses() {
		if l.Key == key {
			return l, true
		}
	}
	return Loudness{}, false
}
