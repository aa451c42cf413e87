# Two commands for a newcomer:
#
#   make run     opens the demonstration: three devices of one unit, a window each;
#                without a display it is played in text
#   make test    runs every check; the closing lines are go test's own
#
# Both need Go, make and git, and use apt-get for what is missing.

SHELL := /bin/bash
.SHELLFLAGS := -euo pipefail -c
.DEFAULT_GOAL := test
.PHONY: run test checks pictures

# Every compile uses one of these three settings: $(call setting,subcommand,arguments).
#   checked   with cgo, without a window driver: vet, staticcheck, tests with -race
#   plain     without a C compiler: lintelctl and the fallback tests
#   window    the program with a window, built once, without -race
checked = CGO_ENABLED=1 go $(1) -tags ci $(2)
plain   = CGO_ENABLED=0 go $(1) -tags ci $(2)
window  = CGO_ENABLED=1 go $(1) -tags gles $(2)

# A fourth, for one test only: a driver of the toolkit that takes real touches.
touch   = CGO_ENABLED=0 go $(1) -tags noos $(2)

# What must build for every system, not only for this one: all that has no window.
EVERYWHERE := ./mesh/... ./requests/... ./kits/... ./app/words ./app/station ./app/device ./cmd/lintelctl
SYSTEMS    := windows/amd64 darwin/arm64 android/arm64

# The race detector makes a schedule ten times slower and finds little in a
# simulation of one goroutine: with it a few seeds are tried, without it all.
RACE_SEEDS := 20

# Screens drawn in tests leave much behind: collected less often, they take a
# quarter less, for memory that is there.
export GOGC := 300

# Screens have one goroutine, which integration/house_test.go sees to: drawing
# them with the race detector finds nothing and takes longer than all the rest.
SCREENS := app/brief app/charge app/debrief app/door app/inside app/join app/runner app/scribe

# Where no window can be built or shown, the demonstration runs without one.
run:
	@$(call plain,build,-o bin/lintelctl ./cmd/lintelctl)
	@if .ci/tools window; then \
		$(call window,build,-o bin/lintel ./cmd/lintel) && exec bin/lintel -demo; \
	else \
		exec bin/lintelctl demo; \
	fi

# The pictures of README.md, from the gallery.
pictures:
	$(call window,build,-o bin/lintel ./cmd/lintel)
	@rm -rf out/gallery && bin/lintel -gallery out/gallery && mkdir -p docs/pictures
	@cp out/gallery/inside-matches-tablet-dark.png docs/pictures/inside.png
	@cp out/gallery/runner-list-tablet-dark.png docs/pictures/runner.png
	@cp out/gallery/brief-case-tablet-dark.png docs/pictures/brief.png
	@cp out/gallery/debrief-case-tablet-light.png docs/pictures/debrief.png

# Without a C compiler everything that needs none is run, and what is left out is named.
test:
	@.ci/tools install
	@if .ci/tools has-c; then \
		$(MAKE) --no-print-directory checks WITH=checked; \
	else \
		$(MAKE) --no-print-directory checks WITH=plain; \
	fi

checks:
	@unformatted=$$("$$(go env GOROOT)/bin/gofmt" -l .); \
	if [ -n "$$unformatted" ]; then echo "gofmt would change: $$unformatted" >&2; exit 1; fi
	$(call $(WITH),vet,./...)
	$(call $(WITH),tool staticcheck,./...)
	@for system in $(SYSTEMS); do \
		echo "building for $$system"; \
		GOOS=$${system%/*} GOARCH=$${system#*/} $(call plain,build,$(EVERYWHERE)); \
	done
	$(call plain,build,-o bin/lintelctl ./cmd/lintelctl)
ifeq ($(WITH),checked)
	@if .ci/tools has-window; then \
		echo "building the program with a window"; \
		$(call window,build,-o bin/lintel ./cmd/lintel); \
	fi
	@echo "without the race detector, for they have one goroutine: $(SCREENS)"
	LINTEL_WINDOW=$(CURDIR)/bin/lintel LINTEL_SEEDS=$(RACE_SEEDS) $(call checked,test,-v -race $$(go list -tags ci ./... | grep -vxF $(SCREENS:%=-e lintel/%))) | awk -f .ci/shorten.awk
endif
	$(call plain,test,-v ./...) | awk -f .ci/shorten.awk
	@echo "touches while the glass is wiped, through the toolkit's driver for bare screens"
	LANG=en_US.UTF-8 $(call touch,test,-v -run Strokes ./app/inside) | awk -f .ci/shorten.awk
