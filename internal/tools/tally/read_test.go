package main

import (
	"io"
	"strings"
	"testing"
)

func TestReadGoCountsTestsAndBrokenPackages(t *testing.T) {
	in := `{"Action":"pass","Package":"a","Test":"TestX"}
{"Action":"pass","Package":"a","Test":"TestX/sub"}
{"Action":"skip","Package":"a","Test":"TestS"}
{"Action":"pass","Package":"a"}
{"Action":"fail","Package":"b","Test":"TestY"}
{"Action":"fail","Package":"b"}
{"Action":"build-output","Output":"c.go:1: broken"}
{"Action":"fail","Package":"c"}
{"Action":"skip","Package":"d"}
`
	got, err := readGo(strings.NewReader(in), io.Discard)
	if want := (counts{2, 2, 1}); err != nil || got != want {
		t.Errorf("got %v %v, want %v", got, err, want)
	}
}

func TestReadTAPCountsLeavesOnly(t *testing.T) {
	in := `TAP version 13
# Subtest: suite
    # Subtest: one
    ok 1 - one
      ---
      duration_ms: 1
      ...
    # Subtest: two
    not ok 2 - two
    ok 3 - three # SKIP no such browser
    1..3
not ok 1 - suite
# Subtest: alone
ok 2 - alone
1..2
# pass 2
`
	var out strings.Builder
	got, err := readTAP(strings.NewReader(in), &out)
	if want := (counts{2, 1, 1}); err != nil || got != want {
		t.Errorf("got %v %v, want %v", got, err, want)
	}
	if !strings.Contains(out.String(), "not ok 2 - two") || !strings.Contains(out.String(), "SKIP no such browser") {
		t.Errorf("a failure or a skip is not shown:\n%s", out.String())
	}
}

func TestAFailingCommandIsOneFailure(t *testing.T) {
	for _, kind := range []string{"one", "go", "tap"} {
		s, err := runStep("step", kind, []string{"/no/such/program"}, io.Discard)
		if err != nil || s.Counts.Failed != 1 {
			t.Errorf("%s: %v %v, want one failure", kind, s.Counts, err)
		}
	}
}
