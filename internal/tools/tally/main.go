// Command tally runs one step of `make test` and keeps count of it.
//
//	tally -results DIR -name NAME -kind go|tap|one COMMAND ARG...
//	tally -results DIR -sum
//
// A step's kind says how its output tells its tests: go is the stream of
// `go test -json`, tap that of `node --test --test-reporter=tap`, and one is a
// command that passes or fails as a whole. A failing step does not stop the
// next one: -sum prints all of them, closes with the counts, and fails.
package main

import (
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"log"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// step is what is known of one step once it has run.
type step struct {
	Name    string
	Began   time.Time
	Seconds float64
	Counts  counts
}

type counts struct {
	Passed, Failed, Skipped int
}

func (c counts) String() string {
	return fmt.Sprintf("%d passed, %d failed, %d skipped", c.Passed, c.Failed, c.Skipped)
}

func main() {
	log.SetFlags(0)
	log.SetPrefix("tally: ")
	results := flag.String("results", "build/results", "the folder that holds the counts")
	name := flag.String("name", "", "what to call the step")
	kind := flag.String("kind", "one", "go, tap or one")
	sum := flag.Bool("sum", false, "print all counts and close")
	flag.Parse()

	if *sum {
		os.Exit(printSum(*results))
	}
	if *name == "" || flag.NArg() == 0 {
		log.Fatal("a step needs a name and a command")
	}
	s, err := runStep(*name, *kind, flag.Args(), os.Stdout)
	if err != nil {
		log.Fatal(err)
	}
	if err := keep(*results, s); err != nil {
		log.Fatal(err)
	}
}

// runStep runs the command and shows what the reader needs of its output.
func runStep(name, kind string, command []string, out io.Writer) (step, error) {
	fmt.Fprintf(out, "== %s\n", name)
	s := step{Name: name, Began: time.Now()}
	cmd := exec.Command(command[0], command[1:]...)
	pipe, err := cmd.StdoutPipe()
	if err != nil {
		return s, err
	}
	var read func(io.Reader, io.Writer) (counts, error)
	switch kind {
	case "go":
		read = readGo
	case "tap":
		read = readTAP
	case "one":
		read = func(r io.Reader, w io.Writer) (counts, error) {
			_, err := io.Copy(w, r)
			return counts{}, err
		}
	default:
		return s, fmt.Errorf("no kind %q", kind)
	}
	cmd.Stderr = out
	if err := cmd.Start(); err != nil {
		fmt.Fprintf(out, "%s: %v\n", command[0], err)
		s.Counts.Failed = 1
		return s, nil
	}
	c, readErr := read(pipe, out)
	runErr := cmd.Wait()
	if readErr != nil {
		return s, readErr
	}
	switch {
	case kind == "one" && runErr == nil:
		c.Passed = 1
	case runErr != nil && c.Failed == 0:
		// It failed outside any test: it did not compile, or it died.
		fmt.Fprintf(out, "%s: %v\n", name, runErr)
		c.Failed = 1
	}
	s.Counts = c
	s.Seconds = time.Since(s.Began).Seconds()
	fmt.Fprintf(out, "   %v (%.1f s)\n", c, s.Seconds)
	return s, nil
}

func keep(dir string, s step) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	data, err := json.Marshal(s)
	if err != nil {
		return err
	}
	file := strings.Map(func(r rune) rune {
		if r == ' ' || r == '/' {
			return '-'
		}
		return r
	}, s.Name) + ".json"
	return os.WriteFile(filepath.Join(dir, file), data, 0o644)
}

func printSum(dir string) int {
	files, err := filepath.Glob(filepath.Join(dir, "*.json"))
	if err != nil || len(files) == 0 {
		log.Printf("no step has run (%s is empty)", dir)
		return 1
	}
	var steps []step
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			log.Fatal(err)
		}
		var s step
		if err := json.Unmarshal(data, &s); err != nil {
			log.Fatalf("%s: %v", file, err)
		}
		steps = append(steps, s)
	}
	slices.SortFunc(steps, func(a, b step) int { return a.Began.Compare(b.Began) })
	var total counts
	var seconds float64
	fmt.Println()
	for _, s := range steps {
		fmt.Printf("%-30s %5d passed %4d failed %4d skipped %7.1f s\n", s.Name, s.Counts.Passed, s.Counts.Failed, s.Counts.Skipped, s.Seconds)
		total.Passed += s.Counts.Passed
		total.Failed += s.Counts.Failed
		total.Skipped += s.Counts.Skipped
		seconds += s.Seconds
	}
	fmt.Printf("in %.0f s\n", seconds)
	fmt.Println(total)
	if total.Failed > 0 {
		return 1
	}
	return 0
}
