# What each target does: make help. Everything but lint and lint-spec needs
# only Go; those fetch their tools.

GO       ?= go
JOB      ?= testdata/jobs/wing-chair.json
OUT      ?= out
ADDR     ?= 127.0.0.1:8080
FUZZTIME ?= 10m
FUZZJOBS ?= 1
FUZZWORKERS ?= 2
BENCH    ?= .
PKG      ?= ./...

GOLANGCI_VERSION ?= v2.15.0
REDOCLY_VERSION  ?= 2.77.0
GOLANGCI ?= $(GO) run github.com/golangci/golangci-lint/v2/cmd/golangci-lint@$(GOLANGCI_VERSION)
REDOCLY  ?= npm_config_ignore_scripts=true REDOCLY_TELEMETRY=off REDOCLY_SUPPRESS_UPDATE_NOTICE=true \
           npx --yes @redocly/cli@$(REDOCLY_VERSION)

NAME = $(basename $(notdir $(JOB)))

.DEFAULT_GOAL := help
.PHONY: help demo serve build test cover bench speed fuzz nightly golden generate check fmt vet tidy stale lint lint-spec browser clean check-deploy sbom notices sizing

help: ## list the targets
	@sed -n 's/^\([a-z-]*\):.*## /\1\t/p' $(MAKEFILE_LIST) | expand -t 12

demo: build ## plan JOB: the plan as text, the drawing and the answer in OUT
	@$(OUT)/bridletie run $(JOB) --as text
	@$(OUT)/bridletie run $(JOB) --as svg --out $(OUT)/$(NAME).svg
	@$(OUT)/bridletie run $(JOB) --as json --out $(OUT)/$(NAME).json
	@printf '\nThe drawing is %s, the whole answer %s.\n' $(OUT)/$(NAME).svg $(OUT)/$(NAME).json

serve: build ## answer over HTTP on ADDR until Ctrl-C
	@$(OUT)/bridletie serve --addr $(ADDR)

build: ## the binary, in OUT
	@mkdir -p $(OUT)
	@$(GO) build -o $(OUT)/bridletie ./cmd/bridletie

test: ## all tests
	$(GO) test -timeout 30m $(PKG)

cover: ## all tests, with what they reach
	@mkdir -p $(OUT)
	$(GO) test -timeout 40m -coverprofile=$(OUT)/cover.all -coverpkg=./... ./...
	@grep -v /api/gen/ $(OUT)/cover.all >$(OUT)/cover.out # generated code is not measured
	@$(GO) tool cover -func=$(OUT)/cover.out | tail -n 1

bench: ## the benchmarks that match BENCH
	$(GO) test -run '^$$' -bench '$(BENCH)' -benchmem $(PKG)

speed: ## requests a second on loopback, against a bare handler
	BRIDLETIE_SPEED=$${BRIDLETIE_SPEED:-1s} $(GO) test ./api/httpapi -run 'TestSpeed$$' -v -count 1 | grep -v '^=== '

# Little time goes into making what was found smaller: seconds for each would be all of it.
# A worker that is still busy when the time is up is no failure, though go test may say so.
fuzz: ## every fuzz target for FUZZTIME, FUZZJOBS of them at the same time
	@mkdir -p $(OUT)/fuzz
	@grep -rn --include='*_test.go' '^func Fuzz' api calc cmd service | sed 's/\/[^/]*_test\.go:.*func \(Fuzz[A-Za-z0-9_]*\).*/ \1/' | \
	xargs -n 2 -P $(FUZZJOBS) sh -c 'log=$(OUT)/fuzz/$$(echo "$$0" | tr / -)-$$1.txt; \
		if $(GO) test -run "^$$" -fuzz "^$$1\$$" -fuzztime $(FUZZTIME) -fuzzminimizetime 50x -parallel $(FUZZWORKERS) "./$$0" >"$$log" 2>&1 || \
			{ grep -q "context deadline exceeded" "$$log" && ! grep -q "Failing input" "$$log"; }; \
		then echo "$$0 $$1: $$(grep -o "execs: [0-9]*" "$$log" | tail -n 1)"; \
		else cat "$$log"; echo "$$0 $$1 fails; what it fails on is in testdata/fuzz: commit it with what mends it"; exit 255; fi'

nightly: build ## what takes too long for each change: hours of random jobs, seeds, fuzzing, race and soak
	BRIDLETIE_JOBS=100000 BRIDLETIE_TINY=20000 BRIDLETIE_SEEDS=50 BRIDLETIE_THOROUGH=1 $(GO) test -timeout 8h ./calc/...
	BRIDLETIE_WALK=50000 $(GO) test -timeout 2h ./api/... ./service/... ./cmd/...
	BRIDLETIE_JOBS=500 BRIDLETIE_WALK=1000 $(GO) test -race -timeout 2h ./...
	$(MAKE) fuzz FUZZTIME=10m FUZZJOBS=2 FUZZWORKERS=1
	$(MAKE) soak

soak: build ## the binary under load: restarts behind HAProxy, overload, slow clients; takes about five minutes
	cd deploy/check && BRIDLETIE_SOAK=$(abspath $(OUT))/bridletie BRIDLETIE_SOAK_BARS=1 $(GO) test -count=1 -v -timeout 15m ./soak

soak-short: build ## the same but for overload, in a minute and a half; only what must never happen fails it
	cd deploy/check && BRIDLETIE_SOAK=$(abspath $(OUT))/bridletie $(GO) test -count=1 -v -timeout 5m -run 'Rolling|Killed|Slow|Gone|Keeps|Counts' ./soak

golden: ## write the golden files and what README prints anew; read the difference
	$(GO) test $$(grep -rl --include='*_test.go' 'flag.Bool("update"' . | xargs -n 1 dirname | sort -u) -update

generate: ## the wire types and routes from openapi.yaml
	$(GO) generate ./...

check: fmt vet tidy stale lint lint-spec ## all that is checked besides the tests

fmt: ## fails on files that gofmt would change
	@list=$$(gofmt -l api calc cmd service spec.go); test -z "$$list" || { echo "gofmt -w $$list"; exit 1; }

vet: ## go vet
	$(GO) vet ./...

tidy: ## fails when go mod tidy would change something
	$(GO) mod tidy -diff

stale: ## fails when the generated code is not that of openapi.yaml
	@mkdir -p $(OUT)
	@cp api/gen/gen.gen.go $(OUT)/gen.before
	@$(GO) generate ./...
	@cmp $(OUT)/gen.before api/gen/gen.gen.go || { echo 'api/gen was stale; it is new now: commit it'; exit 1; }

lint: ## golangci-lint, fetched and built on first use
	$(GOLANGCI) run ./...

lint-spec: ## openapi.yaml by redocly, fetched by npx
	$(REDOCLY) lint openapi.yaml --config .redocly.yaml

browser: build ## the pages and the quote element in Chromium, their accessibility, their types
	@cd api/web/browser && npm ci --ignore-scripts --no-audit --no-fund --loglevel=error
	@cd api/web/browser && npm run --silent types >/dev/null && npm run --silent check
	@cd api/web/browser && BRIDLETIE_BINARY=$(abspath $(OUT))/bridletie npm run --silent test

check-deploy: ## what lies in deploy, by its own tools where they are there
	cd deploy/check && $(GO) vet ./... && $(GO) test -timeout 30m ./...

sbom: ## the modules of the binary as CycloneDX, in OUT
	@mkdir -p $(OUT)
	@cd deploy/check && $(GO) run ./sbom >$(CURDIR)/$(OUT)/sbom.json
	@echo $(OUT)/sbom.json

notices: ## deploy/THIRD-PARTY.md anew: the modules of the binary and their licences
	@cd deploy/check && $(GO) run ./sbom -notices >$(CURDIR)/deploy/THIRD-PARTY.md

sizing: build ## what one core answers of each operation, into deploy/SIZING.md; takes minutes
	cd deploy/check && BRIDLETIE_SIZING=$(CURDIR)/$(OUT)/bridletie $(GO) test -count=1 -v -timeout 15m -run 'Sizing|Replicas' .

clean: ## remove OUT
	rm -rf $(OUT)
