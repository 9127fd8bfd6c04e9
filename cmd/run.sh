#!/bin/sh
# Builds Eavelight and opens it on the demo plan, or on the plan you name:
#
#     sh cmd/run.sh [PLAN]
#
# It installs what the build needs and says so first. On a machine without a display it does the same job without a window:
# the papers and a picture of the day land in out/.
set -eu

plan=${1:-}
case $plan in
'' | /*) ;;
*) plan=$PWD/$plan ;;
esac
cd "$(dirname "$0")/.."
. cmd/need.sh

# has_display: the window is drawn with X11 on Linux and the BSDs; a Wayland desktop offers that too, under the same name.
has_display() { [ "$(uname -s)" = Darwin ] || [ -n "${DISPLAY:-}" ]; }

build() {
    say "Building bin/eavelight. The first time takes some minutes."
    go build -tags no_emoji -buildvcs=false -o bin/eavelight ./cmd/eavelight
}

if has_display; then
    need_window
    CGO_ENABLED=1
else
    CGO_ENABLED=0
fi
export CGO_ENABLED
need_go
build

if [ -z "$plan" ]; then
    plan=out/tarn-ledge.eavelight
    mkdir -p out
    if [ ! -e $plan ]; then
        cp testdata/tarn-ledge.eavelight $plan
        say "The demo plan is now yours in $plan. Delete it to begin with a new one."
    fi
fi

if has_display; then
    say "Opening $plan."
    exec bin/eavelight "$plan"
fi
mkdir -p out
say "There is no display, so there is no window: writing the papers and a picture of the day into out/."
bin/eavelight papers "$plan" --out out --overwrite
bin/eavelight picture "$plan" --page day --out out/day.png
