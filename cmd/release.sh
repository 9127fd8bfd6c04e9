#!/bin/sh
# Makes the packages of a release from the last commit, with the version of FyneApp.toml, and puts them into out/release/:
#
#     sh cmd/release.sh
#
# On Linux: an archive for any Linux, a .deb where this is Debian or Ubuntu, and a .zip for Windows. On a Mac: the application, in
# a .zip. It installs what is missing first. The first time compiles the window's C code for each system, some minutes each.
#
# On Linux the same commit gives the same bytes, with the same compilers. Nothing is signed: that takes its owner's keys.
set -eu

cd "$(dirname "$0")/.."
. cmd/need.sh

version=$(sed -n 's/^Version = "\(.*\)"$/\1/p' FyneApp.toml)
number=$(sed -n 's/^Build = \([0-9]*\)$/\1/p' FyneApp.toml)
id=$(sed -n 's/^ID = "\(.*\)"$/\1/p' FyneApp.toml)
out=$PWD/out/release
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
trap 'exit 1' INT TERM
source=$work/source

# A function in round brackets keeps its names to itself.

# What was not committed is in no package. Every file is as old as the commit, so that it does not matter when this is run; nor what is
# committed while it runs.
fetch() {
    commit=$(git rev-parse HEAD)
    [ -z "$(git status --porcelain)" ] || say "What is not committed is left out."
    mkdir "$source"
    git archive "$commit" | tar -x -C "$source"
    SOURCE_DATE_EPOCH=$(git log -1 --format=%ct "$commit")
    export SOURCE_DATE_EPOCH TZ=UTC
}

# build makes a program: build FILE [LINKER FLAGS]. -trimpath keeps the folders of this machine out of it.
build() {
    (cd "$source" && go build -trimpath -buildvcs=false -tags release,no_emoji -ldflags "-s -w -X main.version=$version ${2:-}" -o "$1" ./cmd/eavelight)
}

# icon draws the icon: icon SIZE FILE.
icon() {
    [ -x "$work/icon" ] || (cd "$source" && CGO_ENABLED=0 go build -buildvcs=false -o "$work/icon" ./assets/gen/icon)
    mkdir -p "$(dirname "$2")"
    "$work/icon" -size "$1" >"$2"
}

# fill writes a template with the version put in: fill TEMPLATE FILE.
fill() {
    sed -e "s/@VERSION@/$version/g" -e "s/@BUILD@/$number/g" -e "s/@NUMBERS@/$(say "$version" | tr . ,),$number/g" "$source/assets/desktop/$1" >"$2"
}

# ours says whose the program is, and what others made of it.
ours() {
    printf '%s\n' "Eavelight $version" "" "Eavelight itself has no licence of its own yet: ask its owner before you pass it on." "" \
        "What others made of it is under the licences below; LICENCES.txt has their texts."
    sed -n '/^## Licences of what is inside/,/^## /{/^## /!p;}' "$source/README.md"
}

# licences writes what the licences of everything inside a program want said: licences PROGRAM [MORE]. The program itself knows
# which modules are in it.
licences() (
    ours
    notice "Place names" "$source/assets/places/NOTICE"
    notice "Noto Sans" "$source/assets/fonts/OFL.txt"
    notice "Go and its library" "$(cd "$source" && go list -m -f '{{.Dir}}' golang.org/x/text)/LICENSE" # the same text; some packages of Go lack it
    [ $# = 1 ] || notice "The C library of MinGW-w64" "$2"
    go version -m "$1" >"$work/inside"
    awk -F '\t' '$2 == "dep" { print $3, $4 }' "$work/inside" >"$work/modules"
    [ -s "$work/modules" ] || fail "The program does not say which modules are in it."
    while read -r module its; do
        where=$(cd "$source" && go list -m -f '{{.Dir}}' "$module")
        find "$where" -type f ! -name '*.go' ! -path '*/testdata/*' \
            \( -iname 'licen[sc]e*' -o -iname 'copying*' -o -iname 'notice*' -o -iname 'patents*' \) | LC_ALL=C sort >"$work/found"
        [ -s "$work/found" ] || fail "The module $module says nothing of its licence."
        while IFS= read -r file; do notice "$module $its: ${file#"$where"/}" "$file"; done <"$work/found"
    done <"$work/modules"
)

notice() {
    printf '%s\n' "" "================================================================================" "$1" ""
    cat "$2"
}

# age gives everything in a folder the time of the commit.
age() { find "$1" -exec touch -h -d "@$SOURCE_DATE_EPOCH" {} +; }

# linux makes $work/linux/usr: bin and share, as they lie under /usr.
linux() (
    say "Building for Linux."
    usr=$work/linux/usr
    share=$usr/share
    mkdir -p "$usr/bin" "$share/applications" "$share/mime/packages" "$share/doc/eavelight"
    CGO_ENABLED=1 build "$usr/bin/eavelight"
    [ "$("$usr/bin/eavelight" --version)" = "$version" ] || fail "The program does not say that it is $version."
    cp "$source/assets/desktop/$id.desktop" "$share/applications/"
    cp "$source/assets/desktop/$id.xml" "$share/mime/packages/"
    for size in 16 22 24 32 48 64 128 256 512; do
        icon $size "$share/icons/hicolor/${size}x$size/apps/$id.png"
    done
    cp "$source/README.md" "$source/testdata/tarn-ledge.eavelight" "$share/doc/eavelight/"
    ours >"$share/doc/eavelight/copyright"
    licences "$usr/bin/eavelight" >"$share/doc/eavelight/LICENCES.txt"
    chmod -R u=rwX,go=rX "$work/linux"
)

# archive is for any Linux: unpack it and run install.sh.
archive() (
    name=eavelight-$version-linux-$(go env GOARCH)
    mkdir "$work/$name"
    cp -R "$work/linux/usr/bin" "$work/linux/usr/share" "$source/assets/desktop/install.sh" "$work/$name"
    tar -C "$work" --sort=name --mtime="@$SOURCE_DATE_EPOCH" --owner=0 --group=0 --numeric-owner -cf - "$name" | gzip -9n >"$out/$name.tar.gz"
)

# deb asks dpkg which packages have the libraries that the program is linked to. Those it looks for when it runs, for cursors,
# monitors and input, dpkg cannot see. The lists of programs, kinds of files and icons are kept by dpkg's triggers.
deb() (
    arch=$(dpkg --print-architecture)
    doc=$work/linux/usr/share/doc/eavelight
    printf 'eavelight (%s) unstable; urgency=medium\n\n  * Made from commit %s.\n\n -- %s  %s\n' "$version" "$commit" \
        "$maintainer" "$(date -R -d "@$SOURCE_DATE_EPOCH")" | gzip -9n >"$doc/changelog.gz"
    mkdir -p "$work/debian" "$work/linux/DEBIAN"
    printf 'Source: eavelight\n\nPackage: eavelight\nArchitecture: any\n' >"$work/debian/control"
    linked=$(cd "$work" && dpkg-shlibdeps -O linux/usr/bin/eavelight | sed -n 's/^shlibs:Depends=//p')
    [ -n "$linked" ] || fail "dpkg-shlibdeps does not say what the program needs."
    cat >"$work/linux/DEBIAN/control" <<EOF
Package: eavelight
Version: $version
Architecture: $arch
Maintainer: $maintainer
Installed-Size: $(du -sk --apparent-size "$work/linux/usr" | cut -f 1)
Depends: $linked, libxcursor1, libxi6, libxinerama1, libxrandr2
Section: video
Priority: optional
Description: plans a lifestyle film of a house
 The light at the address, the scenes placed in it, the people and what they
 sign, crew hours, cost and price, the call sheet and everybody's calendar.
 Everything stays on this computer.
EOF
    (cd "$work/linux" && find usr -type f | LC_ALL=C sort | xargs md5sum >DEBIAN/md5sums)
    chmod -R u=rwX,go=rX "$work/linux/DEBIAN"
    age "$work/linux"
    dpkg-deb -Zxz --root-owner-group --build "$work/linux" "$out/eavelight_${version}_$arch.deb"
)
maintainer='The Eavelight project <eavelight@example.com>'

# windows makes two programs, because one that opens a window has no console to write to: and the one without needs no C.
windows() (
    say "Building for Windows."
    name=eavelight-$version-windows-amd64
    folder=$work/$name
    mkdir "$folder"
    for size in 16 24 32 48 64 256; do icon $size "$work/ico/$size.png"; done
    (cd "$work/ico" && icotool -c -o eavelight.ico 16.png 24.png 32.png 48.png 64.png --raw=256.png)
    fill eavelight.rc "$work/ico/eavelight.rc"
    # go build links every .syso that lies beside the source.
    (cd "$work/ico" && x86_64-w64-mingw32-windres -O coff eavelight.rc "$source/cmd/eavelight/rsrc_windows_amd64.syso")
    export GOOS=windows GOARCH=amd64
    CGO_ENABLED=1 CC=x86_64-w64-mingw32-gcc build "$folder/eavelight.exe" '-H windowsgui'
    CGO_ENABLED=0 build "$folder/eavelight-console.exe"
    mingw=$(mingw_notice)
    licences "$folder/eavelight.exe" "$mingw" >"$folder/LICENCES.txt"
    cp "$source/testdata/tarn-ledge.eavelight" "$folder"
    for text in associate.cmd forget.cmd windows.txt; do
        sed 's/$/\r/' "$source/assets/desktop/$text" >"$folder/$text"
    done
    mv "$folder/windows.txt" "$folder/Read me.txt"
    chmod -R u=rwX,go=rX "$folder"
    age "$folder"
    rm -f "$out/$name.zip"
    (cd "$work" && find "$name" | LC_ALL=C sort | zip -q -X -9 -@ "$out/$name.zip")
)

# mingw_notice finds the notice of the library that is linked into programs for Windows, where each distribution keeps it.
mingw_notice() (
    for file in /usr/share/doc/mingw-w64-x86-64-dev/copyright /usr/share/licenses/mingw*/COPYING* /usr/share/doc/mingw*/COPYING*; do
        [ ! -f "$file" ] || { say "$file" && return; }
    done
    fail "The notice of MinGW-w64 is not where it was looked for."
)

# mac makes an application of the kind that the Finder knows.
mac() (
    say "Building for macOS."
    folder=$work/mac/Eavelight.app/Contents
    mkdir -p "$folder/MacOS" "$folder/Resources"
    CGO_ENABLED=1 build "$folder/MacOS/eavelight"
    [ "$("$folder/MacOS/eavelight" --version)" = "$version" ] || fail "The program does not say that it is $version."
    fill Info.plist "$folder/Info.plist"
    plutil -lint "$folder/Info.plist"
    for size in 16 32 128 256 512; do
        icon $size "$work/eavelight.iconset/icon_${size}x$size.png"
        icon $((2 * size)) "$work/eavelight.iconset/icon_${size}x$size@2x.png"
    done
    iconutil -c icns -o "$folder/Resources/eavelight.icns" "$work/eavelight.iconset"
    licences "$folder/MacOS/eavelight" >"$folder/Resources/LICENCES.txt"
    cp "$source/testdata/tarn-ledge.eavelight" "$folder/Resources"
    codesign --force --sign - "$work/mac/Eavelight.app"
    ditto -c -k --keepParent "$work/mac/Eavelight.app" "$out/eavelight-$version-macos-$(go env GOARCH).zip"
)

need_window
# shellcheck disable=SC2046 # one word a package
need $(release_packages)
need_go
fetch
mkdir -p "$out"
case $(uname -s) in
Darwin) mac ;;
Linux)
    linux
    archive
    if has dpkg-shlibdeps; then deb; else say "No .deb is made here: that takes Debian or Ubuntu."; fi
    windows
    say "For macOS run this on a Mac."
    ;;
*) fail "Packages are made on Linux and on macOS." ;;
esac
ls -l "$out"
