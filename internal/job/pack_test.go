package job

import (
	"bytes"
	"encoding/base64"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"
)

func linkLength(t *testing.T, j Job) int {
	t.Helper()
	packed, err := Pack(j)
	if err != nil {
		t.Fatal(err)
	}
	return base64.RawURLEncoding.EncodedLen(len(packed))
}

func TestPackRoundTrip(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 5))
	jobs := []Job{Demo(), fullJob(), Canonical(Job{})}
	for _, key := range BodyKeys() {
		jobs = append(jobs, New(key), changed(New(key), rng, 2))
	}
	for range 200 {
		jobs = append(jobs, randomJob(rng))
	}
	for i, j := range jobs {
		packed, err := Pack(j)
		if err != nil {
			t.Fatalf("job %d: %v", i, err)
		}
		back, found, err := Unpack(packed)
		if err != nil || len(found) > 0 || !reflect.DeepEqual(back, Canonical(j)) {
			t.Fatalf("job %d: %v %v", i, err, found)
		}
		again, _ := Pack(back)
		if !bytes.Equal(packed, again) {
			t.Errorf("job %d: packed twice, two results", i)
		}
	}
}

// How long links are, in characters. The bound that matters is 2000, which
// every messenger and mail program is known to pass on whole (common practice,
// no source); the tighter ones keep the packing from getting worse unseen.
func TestLinkLengths(t *testing.T) {
	check := func(name string, n, most int) {
		t.Logf("%-40s %4d characters", name, n)
		if n > most {
			t.Errorf("%s: a link of %d characters, want at most %d", name, n, most)
		}
	}
	check("the demo", linkLength(t, Demo()), 100)
	for _, key := range BodyKeys() {
		check("a new job, "+key, linkLength(t, New(key)), 150)
	}
	rng := rand.New(rand.NewPCG(1, 2))
	j := changed(New("saloon"), rng, 3)
	j.Title = "Third visit, blue saloon with the long boot"
	j.Notes = "Wants the boot floor flat again in an hour. Plays mostly organ and drum and bass. Call after six."
	check("a measured job, one value in three moved", linkLength(t, j), 700)
	check("a job with every value moved", linkLength(t, changed(New("estate"), rng, 1)), 1000)
	check("eight subs of every kind", linkLength(t, fullJob()), 1000)
	three := fullJob()
	three.Subs = three.Subs[:3]
	three.Assumed = Leaves(three)
	check("three subs with every value moved", linkLength(t, changed(three, rng, 1)), 2000)
}

func TestUnpackRefuses(t *testing.T) {
	good, err := Pack(Demo())
	if err != nil {
		t.Fatal(err)
	}
	bomb, err := compress(bytes.Repeat([]byte(" "), 40<<20))
	if err != nil {
		t.Fatal(err)
	}
	spoiled := func(i int) []byte {
		b := bytes.Clone(good)
		b[i] ^= 0x10
		return b
	}
	packedText := func(text string) []byte {
		b, err := compress([]byte(text))
		if err != nil {
			t.Fatal(err)
		}
		return b
	}
	newer := bytes.Clone(good)
	newer[0] = packVersion + 1
	const begin = `{"format":"bootfloor-job","version":1,"title":"x",`
	cases := []struct {
		name   string
		packed []byte
		say    string
	}{
		{"nothing", nil, "damaged"},
		{"version 0", append([]byte{0}, good[1:]...), "damaged"},
		{"newer", newer, "newer version of this page"},
		{"cut", good[:len(good)-3], "damaged"},
		{"checksum", spoiled(2), "damaged"},
		{"payload", spoiled(len(good) / 2), "damaged"},
		{"long", make([]byte, maxPacked+1), "far too long"},
		{"bomb", bomb, "damaged"},
		{"not a job", packedText("[]"), "a list instead of a job"},
		{"newer job", packedText(`{"format":"bootfloor-job","version":9}`), "of version 9"},
		{"runs beyond the text", packedText(begin + `"assumed":["0 99999"]}`), "damaged"},
		{"negative run", packedText(begin + `"assumed":["0 -1"]}`), "damaged"},
		{"runs of words", packedText(begin + `"assumed":["zero"]}`), "damaged"},
		{"no runs", packedText(begin + `"assumed":[]}`), "damaged"},
		{"runs as a number", packedText(begin + `"assumed":[7]}`), "damaged"},
	}
	for _, c := range cases {
		j, _, err := Unpack(c.packed)
		if err == nil || !strings.Contains(err.Error(), c.say) {
			t.Errorf("%s: want a sentence with %q, have %v", c.name, c.say, err)
		}
		if !reflect.DeepEqual(j, Job{}) {
			t.Errorf("%s: a job came back with the error", c.name)
		}
	}
}

// Every single flipped bit of a link is noticed.
func TestEveryFlippedBitIsNoticed(t *testing.T) {
	j := changed(Demo(), rand.New(rand.NewPCG(9, 9)), 6)
	good, err := Pack(j)
	if err != nil {
		t.Fatal(err)
	}
	want := Canonical(j)
	for i := range good {
		for bit := range 8 {
			b := bytes.Clone(good)
			b[i] ^= 1 << bit
			// A flip in the last byte's unused bits may change nothing; what
			// may never happen is another job without an error.
			if got, _, err := Unpack(b); err == nil && !reflect.DeepEqual(got, want) {
				t.Fatalf("bit %d of byte %d: another job, and no error", bit, i)
			}
		}
	}
}

func TestPackRefusesWhatIsTooLarge(t *testing.T) {
	j := Demo()
	j.Notes = strings.Repeat("a", maxUnpacked)
	if _, err := Pack(j); err == nil || !strings.Contains(err.Error(), "too large for a link") {
		t.Errorf("%v", err)
	}
}

func BenchmarkPack(b *testing.B) {
	j := fullJob()
	for b.Loop() {
		if _, err := Pack(j); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkCheck(b *testing.B) {
	j := Demo()
	for b.Loop() {
		Check(j)
	}
}

func BenchmarkDecode(b *testing.B) {
	text, err := Encode(Demo())
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, _, err := Decode(text); err != nil {
			b.Fatal(err)
		}
	}
}
