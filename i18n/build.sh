#!/usr/bin/env bash
# Translations. Needs Qt's lupdate and lrelease (Debian, Ubuntu: qttools5-dev-tools).
#   build.sh update    bring every .ts up to date with the strings in the code
#   build.sh check     fail when a .ts is out of date or a translation is missing; changes nothing
#   build.sh compile   make the .qm files that QGIS loads
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")"

# Debian's /usr/bin/lrelease is a switch that fails where no Qt is chosen: look at the real ones first.
tool() {
    local place
    for place in /usr/lib/qt5/bin/"$1" /usr/lib/qt6/bin/"$1" /usr/lib/*/qt5/bin/"$1" "$1-qt5" "$1"; do
        if command -v "$place" >/dev/null; then
            printf '%s' "$place"
            return
        fi
    done
    echo "$1 is missing: install qttools5-dev-tools (Debian, Ubuntu) or Qt's Linguist tools." >&2
    return 1
}

work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

update() { # file to bring up to date
    "$lupdate" -silent -locations none -no-obsolete -no-ui-lines \
        -disable-heuristic sametext -disable-heuristic similartext \
        "$work/strings.cpp" -ts "$1"
}

case ${1:-} in
update | check)
    lupdate=$(tool lupdate)
    python3 extract.py "$work/strings.cpp"
    for ts in *.ts; do
        [ "$1" = check ] || { update "$ts"; continue; }
        cp "$ts" "$work/$ts"
        update "$work/$ts"
        if ! cmp -s "$ts" "$work/$ts"; then
            echo "i18n/$ts is not up to date with the code: run i18n/build.sh update." >&2
            diff "$ts" "$work/$ts" | sed -n 's/^\([<>]\) *<source>/\1 /p' | head -n 20 >&2
            exit 1
        fi
        if grep -q 'type="unfinished"' "$ts"; then
            echo "i18n/$ts has strings without a finished translation:" >&2
            grep -B 1 'type="unfinished"' "$ts" | sed -n 's/^ *<source>/  /p' | head -n 20 >&2
            exit 1
        fi
    done
    ;;
compile)
    lrelease=$(tool lrelease)
    for ts in *.ts; do
        "$lrelease" -silent "$ts" -qm "${ts%.ts}.qm"
    done
    ;;
*)
    echo "usage: build.sh update | check | compile" >&2
    exit 2
    ;;
esac
