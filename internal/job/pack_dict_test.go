package job

import (
	"bytes"
	"encoding/json"
	"flag"
	"hash/crc32"
	"os"
	"testing"
)

var writeDictionary = flag.Bool("write-dictionary", false, "make pack1.dict anew; only before a release has made links with it")

// The dictionary is part of the format of every link ever made: were a byte of
// it to change, old links would read as damaged. A better dictionary takes a
// new packing version beside this one.
func TestDictionaryIsFrozen(t *testing.T) {
	if *writeDictionary {
		if err := os.WriteFile("pack1.dict", makeDictionary(t), 0o644); err != nil {
			t.Fatal(err)
		}
		t.Skip("wrote pack1.dict; run the tests again")
	}
	const frozen = 0x395cadaf
	if sum := crc32.ChecksumIEEE(dictionary1); sum != frozen {
		t.Errorf("pack1.dict has the checksum %#x, want %#x", sum, frozen)
	}
	if len(dictionary1) > 32<<10 {
		t.Errorf("pack1.dict has %d bytes; DEFLATE looks back at most 32768", len(dictionary1))
	}
}

// makeDictionary gathers what jobs are made of, the most common last, where
// DEFLATE refers to it in the fewest bits.
func makeDictionary(t *testing.T) []byte {
	var out bytes.Buffer
	write := func(v any) {
		text, err := json.Marshal(v)
		if err != nil {
			t.Fatal(err)
		}
		out.Write(text)
	}
	full := fullJob()
	for _, s := range full.Subs {
		write(s.Driver)
		write(s.Box)
		write(s.Channel.Filters)
	}
	write(full.Car.Openings)
	write(full.Car.Learned)
	write(full.Aim)
	for i := len(Bodies()) - 1; i >= 0; i-- {
		b := Bodies()[i]
		s := NewSub(b, "sub")
		write(s.Box)
		write(s.Place)
		write(b.Door)
		write(b.car())
	}
	text, err := packText(Demo())
	if err != nil {
		t.Fatal(err)
	}
	out.Write(text)
	return out.Bytes()
}
