# The one place that runs things. `make` alone lists what there is.

GO   ?= go
PORT ?= 8080
BIN   = www/node_modules/.bin

# The engine runs under node through Go's own wrapper, which wants a small
# environment.
GOROOT    = $(shell $(GO) env GOROOT)
WASM_ENV  = env -i PATH="$$PATH" HOME="$$HOME" GOOS=js GOARCH=wasm
WASM_EXEC = $(GOROOT)/lib/wasm/go_js_wasm_exec

.PHONY: help build run single test check bench types clean

help:
	@echo 'make run     build the page and open it (PORT=$(PORT))'
	@echo 'make build   build the page into dist/'
	@echo 'make single  build one HTML file that opens from a disk: build/bootfloor.html'
	@echo 'make test    check everything; on Debian it installs what it needs'
	@echo 'make check   formatting, vet, types and lint alone'
	@echo 'make bench   measure, each value beside its budget'
	@echo 'make clean   remove what was built'

build: have-go
	@$(GO) run ./internal/tools/site -out dist

run: build
	@$(GO) run ./internal/tools/serve -dir dist -addr 127.0.0.1:$(PORT) -open

.PHONY: have-go have-node
have-go:
	@command -v $(GO) >/dev/null || { echo 'Go is missing: install Go 1.26 or newer from your system or from the Go project, then try again.'; exit 1; }
have-node:
	@command -v node >/dev/null && command -v npm >/dev/null || { echo 'Node is missing: install Node.js 20 or newer with npm, then try again.'; exit 1; }

# The page's types of the job document, from the Go that defines it.
types: have-go
	$(GO) run ./internal/tools/jobtypes > build-types.tmp && mv build-types.tmp www/app/job.d.ts

clean:
	rm -rf dist build
