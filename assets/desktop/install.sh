#!/bin/sh
# Puts Eavelight where your desktop looks for programs and for kinds of files, for you alone:
#
#     sh install.sh           PREFIX=/usr/local puts it there, for everybody
#     sh install.sh remove    takes it away again; your plans and settings stay
set -eu

cd "$(dirname "$0")"
prefix=${PREFIX:-$HOME/.local}
case $prefix in
*[\"\`\$\\%\|\&]*)
    printf '%s\n' "A desktop entry cannot name a program in $prefix: that folder has one of these in its name: \" \` \$ \\ % | &" >&2
    exit 1
    ;;
esac

# tell has the desktop read anew what it can open, where it keeps lists of that.
tell() {
    for list in desktop:applications mime:mime; do
        tool=update-${list%:*}-database
        if command -v "$tool" >/dev/null 2>&1; then "$tool" "$prefix/share/${list#*:}"; fi
    done
}

if [ "${1:-}" = remove ]; then
    find bin share -type f | while IFS= read -r file; do rm -f "$prefix/$file"; done
    tell
    printf '%s\n' "Eavelight is gone from $prefix."
    exit
fi

mkdir -p "$prefix"
cp -R bin share "$prefix"
# A desktop does not look everywhere a shell does, so the entry names the program in full.
for entry in share/applications/*.desktop; do
    sed -e "s|^Exec=eavelight|Exec=\"$prefix/bin/eavelight\"|" -e "s|^TryExec=eavelight|TryExec=$prefix/bin/eavelight|" \
        "$entry" >"$prefix/$entry"
done
tell
printf '%s\n' "Eavelight is in $prefix/bin. If no window comes, install the libraries of OpenGL and X11: libGL, libX11, libXcursor," \
    "libXrandr, libXinerama and libXi; on Debian and Ubuntu take the .deb, which does that itself."
