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

# The packages for the tests besides: a display that nobody sees, a window manager, a hand at the keyboard, readers of PDF
# files, of codes, of contacts, of calendars and of workbooks, a calendar program, and what a desktop reads of programs and kinds of
# files. A Mac has no such display, and its tests leave the window out; nor has Homebrew the readers but those of PDF files and codes,
# without which their tests say so and pass over.
test_packages() {
    case $(manager) in
    apt-get) say xvfb openbox xdotool wmctrl x11-utils poppler-utils qpdf zbar-tools \
        python3-vobject python3-icalendar khal libreoffice-calc-nogui \
        desktop-file-utils shared-mime-info libglib2.0-bin ;;
    dnf) say xorg-x11-server-Xvfb openbox xdotool wmctrl xprop poppler-utils qpdf zbar \
        python3-vobject python3-icalendar khal libreoffice-calc \
        desktop-file-utils shared-mime-info glib2 ;;
    pacman) say xorg-server-xvfb openbox xdotool wmctrl xorg-xprop poppler qpdf zbar python-vobject python-icalendar khal \
        libreoffice-still desktop-file-utils shared-mime-info glib2 ;;
    brew) say poppler qpdf zbar ;;
    esac
}

# The packages for making a release: the compiler for Windows, icons, archives and packages. A Mac has its own.
release_packages() {
    case $(manager) in
    apt-get) say git gcc-mingw-w64-x86-64 icoutils zip dpkg-dev ;;
    dnf) say git mingw64-gcc icoutils zip ;;
    pacman) say git mingw-w64-gcc icoutils zip ;;
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

# need_window sees to a C compiler and the development files that the window is built with.
need_window() {
    case $(manager) in
    '')
        has gcc || fail "This machine has none of the package managers that this script knows." \
            "Install a C compiler and the development files of OpenGL and X11, then run this again; cmd/need.sh has their names."
        ;;
    brew)
        if ! xcode-select -p >/dev/null 2>&1; then
            say "Installing Apple's command line tools: a window of the system asks you."
            xcode-select --install || true
            fail "Run this again when they are installed."
        fi
        ;;
    *)
        # shellcheck disable=SC2046 # one word a package
        need $(window_packages)
        ;;
    esac
}

# go_works reports whether the go command is new enough, or fetches a newer one by itself, as Go 1.21 and later do unless
# they are told not to.
go_works() {
    has go || return 1
    minor=$(go env GOVERSION 2>/dev/null | sed -n 's/^go1\.\([0-9]*\).*/\1/p')
    [ "${minor:-0}" -ge $go_minor ]
}

# find_go looks where Go is put but not always found.
find_go() {
    for dir in /usr/local/go/bin /usr/lib/go-1.$go_minor/bin; do
        go_works && return
        [ -x $dir/go ] && PATH=$dir:$PATH
    done
    go_works
}

# offered is the minor version of the Go that the package manager has, or nothing.
offered() {
    case $(manager) in
    apt-get) apt-cache policy golang-go 2>/dev/null | sed -n 's/^ *Candidate: *[0-9]*:1\.\([0-9]*\).*/\1/p' ;;
    dnf) dnf -q repoquery --latest-limit=1 --qf '%{version}\n' golang 2>/dev/null | sed -n 's/^1\.\([0-9]*\).*/\1/p' | tail -n 1 ;;
    pacman) pacman -Si go 2>/dev/null | sed -n 's/^Version *: *[0-9]*:1\.\([0-9]*\).*/\1/p' ;;
    brew) ! has brew || brew info go 2>/dev/null | sed -n 's/.*stable 1\.\([0-9]*\).*/\1/p' | head -n 1 ;;
    esac
}

# go_package is the package that brings a Go that is new enough, or nothing.
go_package() {
    new=$(offered)
    if [ "${new:-0}" -ge $go_minor ]; then
        case $(manager) in
        apt-get) say golang-go ;;
        dnf) say golang ;;
        *) say go ;;
        esac
    elif [ "$(manager)" = apt-get ] && apt-cache show golang-1.$go_minor-go >/dev/null 2>&1; then
        say golang-1.$go_minor-go
    fi
}

need_go() {
    find_go && return
    [ "$(manager)" != apt-get ] || as_root apt-get update -q
    package=$(go_package)
    if [ -n "$package" ]; then
        say "Installing with $(manager): $package"
        install "$package"
        find_go && return
    fi
    found="There is no Go on this machine"
    has go && found="This machine's Go is $(go env GOVERSION 2>/dev/null | sed 's/^go//')"
    fail "$found, and its package manager has none that is new enough." \
        "Install Go 1.$go_minor or newer as https://go.dev/doc/install says, then run this again."
}
