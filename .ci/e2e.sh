#!/usr/bin/env bash
# Usage: .ci/with-go .ci/e2e.sh
# Works bin/armscribe in a real window, with a real mouse, under a display of its own.
# E2E_SHOTS=DIR keeps pictures of every step.
set -euo pipefail
cd "$(dirname "$0")/.."
. .ci/display

start_display 1400x900
CGO_ENABLED=0 go build -o bin/armcalc ./cmd/armcalc
ARMSCRIBE_BIN=$PWD/bin CGO_ENABLED=0 go test -count=1 -timeout 40m -tags e2e -v ./app/window/e2e
