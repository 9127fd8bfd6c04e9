#!/bin/sh
# Runs every check of Eavelight, installing what it needs for them, and stops at the first that fails:
#
#     sh cmd/test.sh
#
# The window is tested on a display of its own that nobody sees. EAVELIGHT_SHOTS=FOLDER keeps its screenshots.
set -eu

cd "$(dirname "$0")/.."
. cmd/need.sh

# Fyne's texts and sizes follow these.
export LANG=en_US.UTF-8 FYNE_SCALE=1
unset LC_ALL LANGUAGE

began=$(date +%s)
now="starting"
trap 'code=$?; [ $code = 0 ] || say "FAILED: $now. Nothing after it was run." >&2' EXIT

step() {
    now=$*
    printf '\n=== %s (after %s)\n' "$now" "$(spent)"
}

spent() {
    s=$(($(date +%s) - began))
    say "$((s / 60)) min $((s % 60)) s"
}

step "Install what is missing"
need_window
# shellcheck disable=SC2046 # one word a package
need $(test_packages)
need_go
go version

step "Format: gofmt"
unformatted=$(gofmt -l app assets cmd plan)
[ -z "$unformatted" ] || fail "These files are not as gofmt writes them:" "$unformatted"

step "Vet, with the window"
CGO_ENABLED=1 go vet ./...

step "Vet, without cgo"
CGO_ENABLED=0 go vet ./...

# The window test is left to a step of its own, when nothing else wants the processor.
step "Tests"
CGO_ENABLED=1 go test -skip '^TestWindow' -timeout 30m ./...

# Only the command has C in it, by the real window: without cgo all else is the same code, and need not be tested twice.
step "Tests of the command, without cgo"
CGO_ENABLED=0 go test -timeout 30m ./cmd/...

# Left out: cmd, for which Fyne's C would be compiled once more, and the three packages that start no goroutine and try so many
# days, and print so many pages, that the detector takes ten minutes over them. Those that do call them are here. So are not the tests
# that draw page after page and start nothing of their own, which would take ten more.
step "Tests, with the race detector"
# shellcheck disable=SC2046 # one word a package
CGO_ENABLED=1 go test -race -skip '^Test((TellingFits|EveryPageShows|PriceFits|ClearedShows)Anything|EveryActionByKeyboard|LargeTextFits|EverySightFitsLargeText|ComparisonFitsLargeText|NoWordEscapes|MoveToDay)$' \
    -timeout 60m $(go list ./app/... ./assets/... ./plan/... | grep -v -e plan/place -e plan/day -e plan/papers)

# By runs and not by time: when its time is over, go test may fail with "context deadline exceeded", which is no finding.
step "Fuzzing, 2000 runs a target"
grep -r --include='*_test.go' -o '^func Fuzz[A-Za-z0-9]*' app cmd plan | while IFS=: read -r file target; do
    CGO_ENABLED=0 go test -run '^$' -fuzz "^${target#func }\$" -fuzztime 2000x "./$(dirname "$file")"
done

if [ "$(uname -s)" = Linux ]; then
    step "The real window"
    CGO_ENABLED=1 EAVELIGHT_WINDOW_TEST=1 go test -count=1 -v -run '^TestWindow' -timeout 30m ./cmd/eavelight
fi

printf '\nAll checks passed in %s.\n' "$(spent)"
