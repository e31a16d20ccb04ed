package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"

	"bootfloor/internal/tools/pack"
)

type builder struct {
	www   string // the page's sources
	app   string // the page's modules in one, in place of www/app; may be empty
	style string // its style sheets in one, in place of www/style; may be empty
	out   string // the folder to serve
	cache string // compiled engines, by the hash of their sources
}

// build fills the folder out and returns the version it states.
func (b builder) build() (string, error) {
	engine, err := b.engineHash()
	if err != nil {
		return "", err
	}
	packed, err := b.packed(engine)
	if err != nil {
		return "", err
	}
	files, err := served(b.www)
	if err != nil {
		return "", err
	}
	files["worker/engine.bin"] = packed
	if err := b.joinPage(files); err != nil {
		return "", err
	}
	goroot, err := run("go", "env", "GOROOT")
	if err != nil {
		return "", err
	}
	if files["worker/wasm_exec.js"], err = os.ReadFile(filepath.Join(goroot, "lib", "wasm", "wasm_exec.js")); err != nil {
		return "", err
	}
	if err := stamp(files, "app/version.js", "ENGINE = 'dev'", "ENGINE = '"+engine+"'"); err != nil {
		return "", err
	}
	version := contentHash(files)
	if err := stamp(files, "app/version.js", "VERSION = 'dev'", "VERSION = '"+version+"'"); err != nil {
		return "", err
	}
	if err := stampServiceWorker(files, version); err != nil {
		return "", err
	}
	return version, write(b.out, files)
}

// hot are the packages whose functions are worth inlining: those that work
// through every frequency. Everywhere else inlining only makes the download
// larger, by a fifteenth (see make bench).
var hot = []string{
	"bootfloor/internal/network", "bootfloor/internal/cavity", "bootfloor/internal/system",
	"bootfloor/internal/enclosure", "bootfloor/internal/driver", "bootfloor/internal/filter",
	"gonum.org/v1/gonum/internal/asm/...", "gonum.org/v1/gonum/blas/...", "math", "math/cmplx",
}

// packed returns the engine as it is served. Linking and packing take seconds,
// so an engine whose sources have not changed is taken from the cache. The
// program itself is kept beside it, for the test that unpacks.
func (b builder) packed(engine string) ([]byte, error) {
	path := filepath.Join(b.cache, "engine-"+engine)
	if packed, err := os.ReadFile(path + ".bin"); err == nil {
		return packed, nil
	}
	if err := os.MkdirAll(b.cache, 0o755); err != nil {
		return nil, err
	}
	old, _ := filepath.Glob(filepath.Join(b.cache, "engine-*"))
	for _, o := range old {
		os.Remove(o)
	}
	wasm, err := compile(engine, path+".wasm")
	if err != nil {
		return nil, err
	}
	packed, err := pack.Program(wasm)
	if err != nil {
		return nil, err
	}
	return packed, os.WriteFile(path+".bin", packed, 0o644)
}

// compile links the engine's program and leaves it, slimmed, at path.
func compile(engine, path string) ([]byte, error) {
	args := []string{"build", "-trimpath", "-ldflags=-s -w -X main.version=" + engine, "-gcflags=all=-l"}
	for _, p := range hot {
		args = append(args, "-gcflags="+p+"=")
	}
	cmd := exec.Command("go", append(args, "-o", path, "./wasm")...)
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	if out, err := cmd.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("the engine does not compile:\n%s", out)
	}
	wasm, err := os.ReadFile(path)
	if err == nil {
		wasm, err = joinData(wasm)
	}
	if err != nil {
		return nil, err
	}
	return wasm, os.WriteFile(path, wasm, 0o644)
}

// engineHash covers all that decides what the engine answers and how page and
// worker speak, so that a change of style alone links no new engine.
func (b builder) engineHash() (string, error) {
	h := sha256.New()
	version, err := run("go", "env", "GOVERSION")
	if err != nil {
		return "", err
	}
	fmt.Fprintln(h, version)
	add := func(name, path string) error {
		data, err := os.ReadFile(path)
		fmt.Fprintf(h, "%s %d\n", name, len(data))
		h.Write(data)
		return err
	}
	// How the program is built and slimmed decides what it is as well.
	const tool = "internal/tools/site/"
	how := []string{"go.mod", "go.sum", tool + "build.go", tool + "slim.go", tool + "lines.go"}
	packers, _ := filepath.Glob("internal/tools/pack/*.go")
	for _, name := range append(how, packers...) {
		if err := add(name, name); err != nil {
			return "", err
		}
	}
	for _, name := range []string{"worker/worker.js", "worker/unpack.js", "app/protocol.js"} {
		if err := add(name, filepath.Join(b.www, name)); err != nil {
			return "", err
		}
	}
	for _, root := range []string{"internal", "wasm"} {
		err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
			if err != nil {
				return err
			}
			if d.IsDir() && (d.Name() == "testdata" || path == filepath.Join("internal", "tools")) {
				return filepath.SkipDir
			}
			if d.IsDir() || strings.HasSuffix(path, "_test.go") {
				return nil
			}
			return add(filepath.ToSlash(path), path)
		})
		if err != nil {
			return "", err
		}
	}
	return hex.EncodeToString(h.Sum(nil))[:12], nil
}

// served reads the files that go out: by name at the top, by kind below.
func served(www string) (map[string][]byte, error) {
	files := map[string][]byte{}
	kinds := []string{".js", ".css", ".svg", ".png"}
	for _, name := range []string{"index.html", "sw.js", "manifest.webmanifest"} {
		data, err := os.ReadFile(filepath.Join(www, name))
		if err != nil {
			return nil, err
		}
		files[name] = data
	}
	for _, dir := range []string{"app", "worker", "style", "icons"} {
		err := filepath.WalkDir(filepath.Join(www, dir), func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !slices.Contains(kinds, filepath.Ext(path)) {
				return err
			}
			name, err := filepath.Rel(www, path)
			if err != nil {
				return err
			}
			data, err := os.ReadFile(path)
			files[filepath.ToSlash(name)] = data
			return err
		})
		if err != nil {
			return nil, err
		}
	}
	return files, nil
}

// joinPage puts one bundled module in the place of all the page's own, save the
// one that is stamped, and one style sheet in the place of all.
func (b builder) joinPage(files map[string][]byte) error {
	joined := []struct{ with, dir, as, but string }{
		{b.app, "app/", "app/main.js", "app/version.js"},
		{b.style, "style/", "style/page.css", ""},
	}
	for _, j := range joined {
		if j.with == "" {
			continue
		}
		data, err := os.ReadFile(j.with)
		if err != nil {
			return err
		}
		for name := range files {
			if strings.HasPrefix(name, j.dir) && name != j.but {
				delete(files, name)
			}
		}
		files[j.as] = data
	}
	return nil
}

// stamp replaces the one place that reads old.
func stamp(files map[string][]byte, name, old, new string) error {
	if n := bytes.Count(files[name], []byte(old)); n != 1 {
		return fmt.Errorf("%s: %q occurs %d times, want once", name, old, n)
	}
	files[name] = bytes.Replace(files[name], []byte(old), []byte(new), 1)
	return nil
}

// stampServiceWorker gives it the version and the list of all other files,
// each with the digest that the browser holds it to.
func stampServiceWorker(files map[string][]byte, version string) error {
	var list [][2]string
	for _, name := range names(files) {
		if name == "sw.js" {
			continue
		}
		sum := sha256.Sum256(files[name])
		url := name
		if name == "index.html" {
			url = "./"
		}
		list = append(list, [2]string{url, "sha256-" + base64.StdEncoding.EncodeToString(sum[:])})
	}
	data, err := json.MarshalIndent(list, "", "  ")
	if err != nil {
		return err
	}
	if err := stamp(files, "sw.js", "FILES = []", "FILES = "+string(data)); err != nil {
		return err
	}
	return stamp(files, "sw.js", "VERSION = 'dev'", "VERSION = '"+version+"'")
}

func contentHash(files map[string][]byte) string {
	h := sha256.New()
	for _, name := range names(files) {
		fmt.Fprintf(h, "%s %d\n", name, len(files[name]))
		h.Write(files[name])
	}
	return hex.EncodeToString(h.Sum(nil))[:12]
}

func names(files map[string][]byte) []string {
	var all []string
	for name := range files {
		all = append(all, name)
	}
	slices.Sort(all)
	return all
}

// write makes out hold these files and no others.
func write(out string, files map[string][]byte) error {
	if err := os.RemoveAll(out); err != nil {
		return err
	}
	for _, name := range names(files) {
		path := filepath.Join(out, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			return err
		}
		if err := os.WriteFile(path, files[name], 0o644); err != nil {
			return err
		}
	}
	return nil
}

func run(name string, args ...string) (string, error) {
	out, err := exec.Command(name, args...).Output()
	if err != nil {
		return "", fmt.Errorf("%s %s: %v", name, strings.Join(args, " "), err)
	}
	return strings.TrimSpace(string(out)), nil
}
