# Everything that a person or a build machine does here. `make help` lists it.

GO       ?= go
FUZZTIME ?= 30s
BENCH    ?= .
GOLANGCI ?= github.com/golangci/golangci-lint/v2/cmd/golangci-lint@v2.11.4

.DEFAULT_GOAL := help
.PHONY: help build demo test packages check unit fuzz bench lint clean

help: ## list the targets
	@grep -hE '^[a-z]+:.*## ' $(MAKEFILE_LIST) | sed -E 's/:.*## /\t/' | expand -t 12

build: ## bin/seamwright, the one program
	CGO_ENABLED=0 $(GO) build -trimpath -o bin/seamwright ./cmd/seamwright

demo: build ## plan the example job and show it
	bin/seamwright demo

test: packages check unit fuzz ## all that has to pass: packages, format, vet, staticcheck, tests, short fuzzing

packages: ## Debian packages that the tests compare with
	tools/packages.sh

check: ## format, vet, staticcheck
	@unformatted=$$(git ls-files --cached --others --exclude-standard '*.go' | xargs -r gofmt -l); \
	if [ -n "$$unformatted" ]; then echo "gofmt: not formatted:" $$unformatted; exit 1; fi
	@echo "gofmt: all formatted"
	$(GO) vet ./...
	$(GO) tool -modfile=tools/go.mod staticcheck ./...

unit: ## tests, without fuzzing
	$(GO) test -timeout 15m ./...

fuzz: ## each fuzz target for FUZZTIME
	FUZZTIME=$(FUZZTIME) tools/fuzz.sh

bench: ## benchmarks; BENCH picks some by name
	$(GO) test -run '^$$' -bench '$(BENCH)' -benchmem ./...

lint: ## golangci-lint with .golangci.yml; slow to build the first time, not part of test
	$(GO) run $(GOLANGCI) run ./...

clean: ## remove what was built
	rm -rf bin out
