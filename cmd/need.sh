# Finds out what this machine lacks to build Eavelight, and installs it. Read in by run.sh and test.sh with a dot; they stand
# in the root of the repository when they call it.

# The oldest Go that go.mod takes.
go_minor=26

say() { printf '%s\n' "$*"; }

fail() {
    printf '%s\n' "$@" >&2
    exit 1
}

has() { command -v "$1" >/dev/null 2>&1; }

as_root() {
    if [ "$(id -u)" = 0 ]; then
        "$@"
    elif has sudo; then
        sudo "$@"
    else
        fail "This needs root, and there is no sudo. As root, run:" "    $*"
    fi
}

# manager is the package manager of this machine, or nothing.
manager() {
    if [ "$(uname -s)" = Darwin ]; then
        say brew
    else
        for m in apt-get dnf pacman; do
            if has $m; then
                say $m
                return
            fi
        done
    fi
}

# The packages for the window: a C compiler, and the headers and the driver of OpenGL and X11.
window_packages() {
    case $(manager) in
    apt-get) say gcc libc6-dev pkg-config libgl-dev libx11-dev libxcursor-dev libxrandr-dev libxinerama-dev libxi-dev \
        libxxf86vm-dev libgl1-mesa-dri ;;
    dnf) say gcc pkgconf-pkg-config mesa-libGL-devel libX11-devel libXcursor-devel libXrandr-devel libXinerama-devel libXi-devel \
        libXxf86vm-devel mesa-dri-drivers ;;
    pacman) say gcc pkgconf libglvnd libx11 libxcursor libxrandr libxinerama libxi libxxf86vm mesa ;;
    esac
}

# The packages for the tests besides: a display that nobody sees, a window manager, a hand at the keyboard, a camera, and a
# reader of PDF files. A Mac has no such display, and its tests leave the window out.
test_packages() {
    case $(manager) in
    apt-get) say xvfb openbox xdotool wmctrl x11-utils imagemagick poppler-utils ;;
    dnf) say xorg-x11-server-Xvfb openbox xdotool wmctrl xprop ImageMagick poppler-utils ;;
    pacman) say xorg-server-xvfb openbox xdotool wmctrl xorg-xprop imagemagick poppler ;;
    brew) say poppler ;;
    esac
}

installed() {
    case $(manager) in
    apt-get) dpkg-query -W -f '${Status}' "$1" 2>/dev/null | grep -q 'ok installed' ;;
    dnf) rpm -q --whatprovides "$1" >/dev/null 2>&1 ;;
    pacman) pacman -Q "$1" >/dev/null 2>&1 ;;
    brew) has brew && brew list --versions "$1" >/dev/null 2>&1 ;;
    esac
}

# need installs those of the named packages that are missing.
need() {
    missing=
    for package in "$@"; do
        installed "$package" || missing="$missing $package"
    done
    if [ -n "$missing" ]; then
        say "Installing with $(manager):$missing"
        # shellcheck disable=SC2086 # one word a package
        install $missing
    fi
}

install() {
    case $(manager) in
    apt-get)
        as_root apt-get update -q
        as_root env DEBIAN_FRONTEND=noninteractive apt-get install -q -y --no-install-recommends "$@"
        ;;
    dnf) as_root dnf install -y "$@" ;;
    pacman) as_root pacman -S --needed --noconfirm "$@" ;;
    brew)
        has brew || fail "Homebrew is needed to install $*: see https://brew.sh, then run this again."
        brew install "$@"
        ;;
    *) fail "This machine has no apt-get, dnf, pacman or brew. Install these another way, then run this again:" "    $*" ;;
    esac
}

# need_compiler is for the Mac, where the compiler and the window's headers come in one.
need_compiler() {
    if [ "$(uname -s)" = Darwin ] && ! xcode-select -p >/dev/null 2>&1; then
        say "Installing Apple's command line tools: a window of the system asks you."
        xcode-select --install || true
        fail "Run this again when they are installed."
    fi
}

# go_works reports whether the go command is new enough, or fetches a newer one by itself (Go 1.21 and later, unless told not to).
go_works() {
    has go || return 1
    minor=$(go env GOVERSION 2>/dev/null | sed -n 's/^go1\.\([0-9]*\).*/\1/p')
    [ "${minor:-0}" -ge $go_minor ]
}

# offered is the minor version of the Go that the package manager has, or nothing.
offered() {
    case $(manager) in
    apt-get) apt-cache policy golang-go 2>/dev/null | sed -n 's/^ *Candidate: *[0-9]*:1\.\([0-9]*\).*/\1/p' ;;
    dnf) dnf -q repoquery --latest-limit=1 --qf '%{version}\n' golang 2>/dev/null | sed -n 's/^1\.\([0-9]*\).*/\1/p' | tail -n 1 ;;
    pacman) pacman -Si go 2>/dev/null | sed -n 's/^Version *: *[0-9]*:1\.\([0-9]*\).*/\1/p' ;;
    brew) has brew && brew info go 2>/dev/null | sed -n 's/.*stable 1\.\([0-9]*\).*/\1/p' | head -n 1 ;;
    esac
}

need_go() {
    PATH=$PATH:/usr/local/go/bin:/usr/lib/go-1.$go_minor/bin
    export PATH
    go_works && return
    if [ "$(manager)" = apt-get ] && ! has go; then
        as_root apt-get update -q
    fi
    minor=$(offered)
    case $(manager) in
    apt-get)
        if [ "${minor:-0}" -ge $go_minor ]; then
            need golang-go
        elif apt-cache show golang-1.$go_minor-go >/dev/null 2>&1; then
            need golang-1.$go_minor-go
            PATH=/usr/lib/go-1.$go_minor/bin:$PATH
        fi
        ;;
    dnf) if [ "${minor:-0}" -ge $go_minor ]; then need golang; fi ;;
    pacman | brew) if [ "${minor:-0}" -ge $go_minor ]; then need go; fi ;;
    esac
    go_works && return
    found="There is no Go on this machine"
    if has go; then
        found="This machine's Go is $(go env GOVERSION 2>/dev/null | sed 's/^go//')"
    fi
    fail "$found, and its package manager has none that is new enough." \
        "Install Go 1.$go_minor or newer as https://go.dev/doc/install says, then run this again."
}
