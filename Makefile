# The one place that runs things. `make` alone lists what there is.

GO   ?= go
PORT ?= 8080
BIN   = www/node_modules/.bin

.NOTPARALLEL:
.PHONY: help build run single test check bench types pictures clean

help:
	@echo 'make run     build the page and open it (PORT=$(PORT))'
	@echo 'make build   build the page into dist/'
	@echo 'make single  build one HTML file that opens from a disk: build/bootfloor.html'
	@echo 'make test    check everything; on Debian it installs what it needs'
	@echo 'make check   formatting, vet, types and lint alone'
	@echo 'make bench   measure, each value beside its budget'
	@echo 'make pictures take the pictures of the README anew'
	@echo 'make types   write the page'"'"'s types of the job document'
	@echo 'make clean   remove what was built'

# Building ------------------------------------------------------------------

# One small module for the page instead of a hundred, and one style sheet: fewer
# requests before the first answer, and half the bytes.
build: have-go npm
	@mkdir -p build
	@$(BIN)/esbuild www/app/main.js --bundle --minify --format=esm --target=es2022 --charset=utf8 --external:./version.js --log-level=warning --outfile=build/app.js
	@$(BIN)/esbuild www/style/page.css --bundle --minify --target=es2022 --charset=utf8 --log-level=warning --outfile=build/page.css
	@$(GO) run ./internal/tools/site -app build/app.js -style build/page.css -out dist

run: build
	@$(GO) run ./internal/tools/serve -dir dist -addr 127.0.0.1:$(PORT) -open

# A page opened from a disk cannot import its modules, so they become one.
single: build
	@$(BIN)/esbuild dist/app/main.js --bundle --format=esm --charset=utf8 --log-level=warning --outfile=build/bundle.js
	@$(GO) run ./internal/tools/site -out dist -bundle build/bundle.js -single build/bootfloor.html

types: have-go
	@mkdir -p build
	@$(GO) run ./internal/tools/jobtypes > build/job.d.ts && mv build/job.d.ts www/app/job.d.ts

clean:
	rm -rf dist build

# Checking ------------------------------------------------------------------
# Every step keeps its counts and none stops the next; the last line adds up.

STEP = build/tally -results build/results

# The engine under node runs through Go's own wrapper, which fails when the
# environment is large.
WASM_EXEC = env -i 'PATH=$(PATH)' 'HOME=$(HOME)' '$(shell $(GO) env GOROOT)/lib/wasm/go_js_wasm_exec'
# What runs in the browser; the tools do not.
ENGINE = $(shell $(GO) list ./internal/... | grep -v /internal/tools)

test: reset steps-check steps-go steps-page steps-browser
	@$(STEP) -sum

check: reset steps-check
	@$(STEP) -sum

.PHONY: reset steps-check steps-go steps-page steps-browser
reset: have-go npm
	@rm -rf build/results
	@mkdir -p build
	@$(GO) build -o build/tally ./internal/tools/tally

steps-check:
	@$(STEP) -name 'gofmt' -- sh -c 'out=$$(gofmt -l wasm internal); [ -z "$$out" ] || { echo "not formatted:"; echo "$$out"; exit 1; }'
	@$(STEP) -name 'go vet' -- $(GO) vet ./...
	@$(STEP) -name 'go vet as wasm' -- env GOOS=js GOARCH=wasm $(GO) vet ./wasm $(ENGINE)
	@$(STEP) -name 'types of the page' -- $(BIN)/tsc -p www/tsconfig.json
	@$(STEP) -name 'types of the workers' -- $(BIN)/tsc -p www/tsconfig.worker.json
	@$(STEP) -name 'eslint' -- sh -c 'cd www && node_modules/.bin/eslint .'
	@$(STEP) -name 'html-validate' -- sh -c 'cd www && node_modules/.bin/html-validate index.html'

steps-go: programs
	@$(STEP) -name 'go tests' -kind go -- $(GO) test -json ./...
	@$(STEP) -name 'go tests as wasm' -kind go -- env GOOS=js GOARCH=wasm $(GO) test -json -exec "$(WASM_EXEC)" $(ENGINE)

steps-page:
	@$(STEP) -name 'page tests' -kind tap -- node --test --test-reporter=tap www/test/unit/

steps-browser: programs single
	@$(GO) build -o build/serve ./internal/tools/serve
	@$(GO) build -o build/site ./internal/tools/site
	@$(STEP) -name 'browser tests' -kind tap -- node --test --test-reporter=tap --test-timeout=120000 www/test/browser/

# Measuring -----------------------------------------------------------------

bench: have-go npm programs single
	@$(GO) build -o build/serve ./internal/tools/serve
	@WASM_EXEC="$(WASM_EXEC)" node www/test/bench/bench.mjs

# The README's pictures, of the product as it is.
pictures: build programs npm
	@$(GO) build -o build/serve ./internal/tools/serve
	@node www/test/pictures/take.mjs

# What the checks need ------------------------------------------------------

PACKAGES = ngspice freefem++ chromium firefox-esr webkit2gtk-driver xvfb xauth fonts-dejavu-core fonts-liberation poppler-utils
PROGRAMS = ngspice FreeFem++ chromium firefox-esr WebKitWebDriver xvfb-run pdftoppm

.PHONY: have-go have-node npm programs
have-go:
	@command -v $(GO) >/dev/null || { echo 'Go is missing: install Go 1.26 or newer, then try again.'; exit 1; }

have-node:
	@command -v node >/dev/null && command -v npm >/dev/null || { echo 'Node is missing: install Node.js 20 or newer with npm, then try again.'; exit 1; }

npm: have-node www/node_modules/.package-lock.json
www/node_modules/.package-lock.json: www/package-lock.json
	@cd www && npm ci --no-audit --no-fund --loglevel=error && touch node_modules/.package-lock.json

programs:
	@missing=; for p in $(PROGRAMS); do command -v $$p >/dev/null || missing="$$missing $$p"; done; \
	[ -z "$$missing" ] && exit 0; \
	if ! command -v apt-get >/dev/null; then echo "Missing:$$missing. Install them with your system's packages (on Debian: $(PACKAGES)), then try again."; exit 1; fi; \
	sudo=; [ "$$(id -u)" = 0 ] || sudo=sudo; \
	if [ -n "$$sudo" ] && ! command -v sudo >/dev/null; then echo "Missing:$$missing. As root: apt-get install $(PACKAGES), then try again."; exit 1; fi; \
	echo "Installing$$missing"; \
	$$sudo apt-get -qq update && $$sudo env DEBIAN_FRONTEND=noninteractive apt-get -qq install -y --no-install-recommends $(PACKAGES)
