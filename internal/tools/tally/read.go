package main

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"regexp"
	"strings"
)

// event is one line of `go test -json`.
type event struct {
	Action  string
	Package string
	Test    string
	Output  string
}

// readGo counts tests and subtests, and a package that fails outside of any.
// Of the output it shows that of what failed.
func readGo(r io.Reader, w io.Writer) (counts, error) {
	var c counts
	said := map[string][]string{} // output by package and test
	failedIn := map[string]bool{} // packages with a failed test
	lines := bufio.NewScanner(r)
	lines.Buffer(nil, 1<<24)
	for lines.Scan() {
		var e event
		if json.Unmarshal(lines.Bytes(), &e) != nil || e.Action == "" {
			fmt.Fprintln(w, lines.Text())
			continue
		}
		key := e.Package + " " + e.Test
		switch e.Action {
		case "output":
			said[key] = append(said[key], e.Output)
		case "build-output":
			fmt.Fprint(w, e.Output)
		case "pass":
			if e.Test != "" {
				c.Passed++
			}
			delete(said, key)
		case "skip":
			if e.Test != "" {
				c.Skipped++
				fmt.Fprint(w, strings.Join(said[key], ""))
			}
			delete(said, key)
		case "fail":
			switch {
			case e.Test != "":
				c.Failed++
				failedIn[e.Package] = true
			case failedIn[e.Package]:
				continue // its tests have said it
			default:
				c.Failed++
			}
			fmt.Fprintf(w, "FAIL %s\n%s", key, strings.Join(said[key], ""))
			delete(said, key)
		}
	}
	return c, lines.Err()
}

var (
	tapPoint = regexp.MustCompile(`^(\s*)(not ok|ok) \d+ - (.*)$`)
	tapSkip  = regexp.MustCompile(`# SKIP\b`)
)

// readTAP counts the tests of TAP version 14. A parent comes after its
// children, indented less: it is counted only when it has none, so that a
// file or a suite is not a test of its own.
func readTAP(r io.Reader, w io.Writer) (counts, error) {
	var c counts
	deepest := -1   // indentation of the last point: a shallower one is its parent
	failed := false // the lines after a failed point tell why
	lines := bufio.NewScanner(r)
	lines.Buffer(nil, 1<<24)
	for lines.Scan() {
		line := lines.Text()
		m := tapPoint.FindStringSubmatch(line)
		if m == nil {
			trimmed := strings.TrimSpace(line)
			if strings.HasPrefix(trimmed, "#") || strings.HasPrefix(trimmed, "1..") {
				failed = false
			}
			if failed {
				fmt.Fprintln(w, line)
			}
			continue
		}
		indent := len(m[1])
		parent := indent < deepest
		deepest = indent
		failed = m[2] == "not ok" && !tapSkip.MatchString(m[3])
		if failed {
			fmt.Fprintln(w, line)
		}
		switch {
		case parent:
		case tapSkip.MatchString(m[3]):
			c.Skipped++
			fmt.Fprintln(w, line)
		case failed:
			c.Failed++
		default:
			c.Passed++
		}
	}
	return c, lines.Err()
}
