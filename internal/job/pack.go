package job

import (
	"bytes"
	"compress/flate"
	_ "embed"
	"encoding/binary"
	"errors"
	"fmt"
	"hash/crc32"
	"io"
	"math"
	"sort"
	"strconv"
	"strings"

	"bootfloor/internal/wire"
)

// A packed job is what a link carries. Its bytes are
//
//	0     the version of the packing, packVersion
//	1-4   CRC-32 (IEEE) of the text that was compressed, big end first
//	5-    that text, compressed (DEFLATE, RFC 1951) with a preset dictionary
//
// The text is the job as JSON on one line, save that the long list of assumed
// pointers is replaced by run lengths over the values of the same text. The
// job's own format and version are in the text, so an old link is migrated
// like an old file. Base64url without padding makes it fit for a link.
const packVersion = 1

// The dictionary of packing version 1: cars, boxes and jobs as this version
// writes them. It is frozen, because old links need its very bytes; a better
// one would come with a new packing version.
//
//go:embed pack1.dict
var dictionary1 []byte

// Bounds on a packed job from outside.
const (
	maxPacked   = 64 << 10
	maxUnpacked = 256 << 10
)

// Pack writes the job in few bytes. It fails, with a sentence, on values that
// are not finite numbers and on a job too large to be a link.
func Pack(j Job) ([]byte, error) {
	text, err := packText(j)
	if err != nil {
		return nil, err
	}
	if len(text) > maxUnpacked {
		return nil, fmt.Errorf("The job is too large for a link (%d kB of text); shorten its notes, or save it to a file.", len(text)>>10)
	}
	return compress(text)
}

// compress puts a text behind its header.
func compress(text []byte) ([]byte, error) {
	var out bytes.Buffer
	out.WriteByte(packVersion)
	out.Write(binary.BigEndian.AppendUint32(nil, crc32.ChecksumIEEE(text)))
	w, err := flate.NewWriterDict(&out, flate.BestCompression, dictionary1)
	if err != nil {
		return nil, err
	}
	if _, err := w.Write(text); err != nil {
		return nil, err
	}
	if err := w.Close(); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

// packText is the text that Pack compresses.
func packText(j Job) ([]byte, error) {
	j = Canonical(j)
	assumed := j.Assumed
	j.Assumed = nil
	text, err := encodeCompact(j)
	if err != nil || len(assumed) == 0 {
		return text, err
	}
	root, _, err := parse(text)
	if err != nil {
		return nil, err
	}
	list := `,"assumed":[` + strconv.Quote(runs(root, assumed))
	for _, p := range strangers(root, assumed) {
		list += "," + string(wire.AppendString(nil, p))
	}
	text = append(text[:len(text)-1], list...)
	return append(text, "]}"...), nil
}

// runs counts, over the values of the text in order, how many are not assumed,
// then how many are, and so on.
func runs(root *node, assumed []string) string {
	is := setOf(assumed)
	var counts []string
	run, now := 0, false
	root.leaves("", func(at string, _ *node) {
		if is[at] != now {
			counts = append(counts, strconv.Itoa(run))
			run, now = 0, !now
		}
		run++
	})
	return strings.Join(append(counts, strconv.Itoa(run)), " ")
}

// strangers lists the assumed pointers that name no value of the text.
func strangers(root *node, assumed []string) []string {
	left := setOf(assumed)
	root.leaves("", func(at string, _ *node) { delete(left, at) })
	var out []string
	for p := range left {
		out = append(out, p)
	}
	sort.Strings(out)
	return out
}

func setOf(list []string) map[string]bool {
	m := make(map[string]bool, len(list))
	for _, s := range list {
		m[s] = true
	}
	return m
}

var errLink = errors.New("The link is damaged: part of it is missing or was changed on the way. Ask for it again, copied whole.")

// Unpack reads a packed job. The bytes may be hostile: their size and that of
// what they unpack to are bounded. Findings are those of Decode. The error is
// a sentence.
func Unpack(packed []byte) (Job, []Finding, error) {
	if len(packed) > maxPacked {
		return Job{}, nil, errors.New("The link is far too long to hold a job. Ask for it again, or for the job as a file.")
	}
	if len(packed) < 6 || packed[0] == 0 {
		return Job{}, nil, errLink
	}
	if v := packed[0]; v > packVersion {
		return Job{}, nil, fmt.Errorf("The link was made by a newer version of this page (packing %d; this one reads up to %d). Reload the page, then open the link again.", v, packVersion)
	}
	r := flate.NewReaderDict(bytes.NewReader(packed[5:]), dictionary1)
	text, err := io.ReadAll(io.LimitReader(r, maxUnpacked+1))
	if err != nil || len(text) > maxUnpacked || crc32.ChecksumIEEE(text) != binary.BigEndian.Uint32(packed[1:5]) {
		return Job{}, nil, errLink
	}
	root, found, err := parse(text)
	if err != nil {
		return Job{}, nil, err
	}
	if err := spreadRuns(root); err != nil {
		return Job{}, nil, err
	}
	o, err := openTree(root, found)
	return o.Job, o.Findings, err
}

// spreadRuns turns the run lengths back into the list of assumed pointers.
func spreadRuns(root *node) error {
	packed := root.take("assumed")
	if packed == nil {
		return nil
	}
	if packed.kind != isList || len(packed.list) == 0 || packed.list[0].kind != isText {
		return errLink
	}
	var leaves []string
	root.leaves("", func(at string, _ *node) { leaves = append(leaves, at) })
	full := &node{kind: isList}
	next, assumed := 0, false
	for _, count := range strings.Fields(packed.list[0].text) {
		n, err := strconv.Atoi(count)
		if err != nil || n < 0 || n > math.MaxInt32 || n > len(leaves)-next {
			return errLink
		}
		if assumed {
			for _, at := range leaves[next : next+n] {
				full.list = append(full.list, &node{kind: isText, text: at})
			}
		}
		next, assumed = next+n, !assumed
	}
	full.list = append(full.list, packed.list[1:]...)
	root.set("assumed", full)
	return nil
}
