# Armscribe: `make run` opens the demo job, `make test` runs every test.
# Each target first installs what this machine lacks: with apt on Debian and Ubuntu;
# elsewhere it lists what to install and stops. See .ci/need and .ci/with-go.

# The job that `make run` opens; without one it opens the demo.
JOB ?=
# How long each fuzz test runs in `make check`.
FUZZTIME ?= 10s
# The folders that `make mutants` looks at; without any, those of the maths and of the job file.
MUTANTS ?=
# Build tags of the window: gles draws with OpenGL ES 2 and builds in half the time.
WINDOW_TAGS ?=

GO := .ci/with-go go
# The toolkit's software driver (tag ci) needs neither cgo nor a display.
PLAIN := CGO_ENABLED=0 $(GO)

# How long one package's tests may take: a busy machine of two cores needs more than go's own 10 minutes for -race.
PATIENCE := -timeout 40m

# The checks read the tree with git, which refuses a clone that belongs to another user unless told.
export GIT_CONFIG_COUNT := 1
export GIT_CONFIG_KEY_0 := safe.directory
export GIT_CONFIG_VALUE_0 := $(CURDIR)

.NOTPARALLEL:
.PHONY: run test long e2e check bench shots frames licences window clean

run: window
	bin/armscribe $(if $(JOB),'$(JOB)')

test:
	$(PLAIN) test $(PATIENCE) -tags ci ./...
	$(MAKE) --no-print-directory e2e

# The statistical tests with all their draws.
long:
	ARMSCRIBE_LONG=1 $(PLAIN) test $(PATIENCE) -tags ci ./kinematics/... ./app/tune ./app/jobcard ./app/window

# The window under a virtual display, worked with mouse and keys.
e2e: window
	.ci/need screen
	.ci/with-go .ci/e2e.sh

window:
	.ci/need compiler window
	$(GO) build -tags '$(WINDOW_TAGS)' -o bin/armscribe ./cmd/armscribe

# All that must hold besides `make test`.
check:
	.ci/need compiler lint
	shellcheck $$(git ls-files .ci | grep -v '\.yaml$$')
	.ci/check-text
	.ci/with-go .ci/check-imports
	.ci/with-go .ci/check-go
	$(PLAIN) build -o bin/armcalc ./cmd/armcalc
	.ci/with-go sh -c 'GOOS=windows CGO_ENABLED=0 go vet $$(go list -deps ./cmd/armcalc | grep ^armscribe/)'
	GOOS=windows $(PLAIN) build -o bin/armcalc.exe ./cmd/armcalc
	CGO_ENABLED=1 $(GO) test $(PATIENCE) -race -tags ci $$(.ci/with-goroutines)
	.ci/with-go .ci/fuzz $(FUZZTIME)
	.ci/with-go .ci/licences

# The README's pictures, taken in a real window, and one of every step in bin/shots.
shots: window
	.ci/need screen
	.ci/with-go .ci/shots

# How long a drag frame takes in a real window.
frames: window
	.ci/need screen
	.ci/with-go .ci/frames

bench:
	.ci/with-go .ci/bench

# Places in the code whose change no test notices; MUTANTS names folders, else all that count: hours.
mutants:
	.ci/with-go .ci/mutants $(MUTANTS)

# The licence texts of everything linked, to hand out with a built program.
licences:
	.ci/with-go .ci/licences --texts

clean:
	rm -rf bin dist
