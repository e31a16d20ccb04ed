package main

import (
	"crypto/sha256"
	"encoding/base64"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
)

var (
	cspMeta    = regexp.MustCompile(`(?is)<meta\s+http-equiv="Content-Security-Policy"[^>]*>`)
	stylesheet = regexp.MustCompile(`(?i)<link\s+[^>]*rel="stylesheet"[^>]*>`)
	iconLink   = regexp.MustCompile(`(?i)<link\s+[^>]*rel="icon"[^>]*>`)
	otherLink  = regexp.MustCompile(`(?i)[ \t]*<link\s+[^>]*rel="(?:manifest|preload|modulepreload|apple-touch-icon)"[^>]*>\n?`)
	mainScript = regexp.MustCompile(`(?i)<script\s+type="module"\s+src="app/main\.js"[^>]*>\s*</script>`)
	hrefValue  = regexp.MustCompile(`href="([^"]*)"`)
)

// writeSingle folds the folder dist into one HTML file. A page opened from a
// disk may neither fetch its neighbours nor start module workers, so styles
// and modules stand in the page and the engine and its worker as text.
func writeSingle(dist, bundle, out string) (int, error) {
	read := func(name string) (string, error) {
		data, err := os.ReadFile(filepath.Join(dist, filepath.FromSlash(name)))
		return string(data), err
	}
	page, err := read("index.html")
	if err != nil {
		return 0, err
	}
	code, err := os.ReadFile(bundle)
	if err != nil {
		return 0, err
	}
	exec, err := read("worker/wasm_exec.js")
	if err != nil {
		return 0, err
	}
	worker, err := read("worker/worker.js")
	if err != nil {
		return 0, err
	}
	unpack, err := read("worker/unpack.js")
	if err != nil {
		return 0, err
	}
	engine, err := read("worker/engine.bin")
	if err != nil {
		return 0, err
	}

	var styles []string
	page = stylesheet.ReplaceAllStringFunc(page, func(link string) string {
		href := hrefValue.FindStringSubmatch(link)
		if href == nil {
			return link
		}
		css, e := read(href[1])
		if e != nil {
			err = e
		}
		if strings.Contains(css, "@import") || strings.Contains(css, "url(") {
			err = fmt.Errorf("%s refers to another file, which one file cannot hold", href[1])
		}
		styles = append(styles, css)
		return "<style>" + css + "</style>"
	})
	page = iconLink.ReplaceAllStringFunc(page, func(link string) string {
		href := hrefValue.FindStringSubmatch(link)
		if href == nil {
			return link
		}
		icon, e := read(href[1])
		if e != nil {
			err = e
		}
		return `<link rel="icon" href="data:image/svg+xml;base64,` + base64.StdEncoding.EncodeToString([]byte(icon)) + `">`
	})
	if err != nil {
		return 0, err
	}
	page = otherLink.ReplaceAllString(page, "")

	// "</script" inside a script would end it; in a string or a pattern the
	// escaped slash means the same.
	script := strings.ReplaceAll(string(code), "</script", `<\/script`)
	if strings.Contains(exec+worker+unpack, "</script") {
		return 0, fmt.Errorf("the worker's scripts may not contain %q", "</script")
	}
	if page, err = once(page, mainScript, `<script type="module">`+script+`</script>`); err != nil {
		return 0, err
	}
	blocks := `<script type="text/plain" id="engine-worker">` + exec + "\n" + worker + "</script>\n" +
		`<script type="text/plain" id="engine-unpack">` + unpack + "</script>\n" +
		`<script type="text/plain" id="engine-packed">` + base64.StdEncoding.EncodeToString([]byte(engine)) + "</script>\n</body>"
	if strings.Count(page, "</body>") != 1 {
		return 0, fmt.Errorf("index.html: want one </body>")
	}
	page = strings.Replace(page, "</body>", blocks, 1)
	if page, err = once(page, cspMeta, policy(script, styles)); err != nil {
		return 0, err
	}
	if err := os.MkdirAll(filepath.Dir(out), 0o755); err != nil {
		return 0, err
	}
	return len(page), os.WriteFile(out, []byte(page), 0o644)
}

// policy allows exactly the scripts and styles of this one page.
func policy(script string, styles []string) string {
	var s strings.Builder
	for _, css := range styles {
		s.WriteString(" " + digest(css))
	}
	return `<meta http-equiv="Content-Security-Policy" content="default-src 'none'; script-src ` + digest(script) +
		` 'wasm-unsafe-eval'; style-src` + s.String() +
		`; img-src data: blob:; worker-src blob:; base-uri 'none'; form-action 'none'">`
}

func digest(s string) string {
	sum := sha256.Sum256([]byte(s))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}

// once replaces the one match of the pattern.
func once(page string, pattern *regexp.Regexp, with string) (string, error) {
	at := pattern.FindAllStringIndex(page, -1)
	if len(at) != 1 {
		return "", fmt.Errorf("index.html: %d matches of %s, want one", len(at), pattern)
	}
	return page[:at[0][0]] + with + page[at[0][1]:], nil
}
