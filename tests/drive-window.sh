#!/usr/bin/env bash
# Drives the real window on a virtual screen by its keys and looks at what it painted.
#
#   bash tests/drive-window.sh PROGRAM FOLDER [FILES…]
#
# Starts PROGRAM (on FILES, without any on the sample comparison), waits for its window, shows every view,
# takes a frame's next larger size, takes that back, and closes the window. Each picture must be a window with content;
# each view must differ from the one before; undo must bring the very same drawing back. Pictures are left in FOLDER; the
# first, opened.png, is the README's assets/window.png. Ends what it started by process id. Needs Xvfb, xdotool and
# ImageMagick; SCREEN=1440x900 is the screen's size.
set -euo pipefail
program=$(realpath "$1")
mkdir -p "$2"
folder=$(realpath "$2")
shift 2
files=()
for file in "$@"; do files+=("$(realpath "$file")"); done
cd "$(dirname "${BASH_SOURCE[0]}")/.."
[ "${#files[@]}" -gt 0 ] || files=(sample-frames/village-library.lineup.ron)
screen=${SCREEN:-1440x900}
state=$(mktemp -d)
server_id='' program_id=''

end() {
    for id in $program_id $server_id; do
        kill "$id" 2>/dev/null || true
        wait "$id" 2>/dev/null || true
    done
    rm -rf "$state"
}
trap end EXIT
fail() {
    echo "drive-window: $*" >&2
    exit 1
}

# A home of its own: nothing remembered from before, nothing left behind; no desktop is asked for its dialogs or colours.
export HOME=$state XDG_DATA_HOME=$state/data XDG_CONFIG_HOME=$state/config XDG_RUNTIME_DIR=$state
export DBUS_SESSION_BUS_ADDRESS=disabled: LIBGL_ALWAYS_SOFTWARE=1
unset WAYLAND_DISPLAY WAYLAND_SOCKET
mkfifo "$state/display"
Xvfb -displayfd 4 -screen 0 "${screen}x24" -nolisten tcp -noreset 4>"$state/display" 2>"$state/screen.log" &
server_id=$!
read -r -t 20 display <"$state/display" || { cat "$state/screen.log" >&2; fail 'no virtual screen'; }
export DISPLAY=":$display"

"$program" "${files[@]}" 2>"$state/program.log" &
program_id=$!
window=''
for _ in $(seq 1 240); do
    window=$(xdotool search --onlyvisible --pid "$program_id" 2>/dev/null | head -n 1) || true
    [ -z "$window" ] || break
    kill -0 "$program_id" 2>/dev/null || break
    sleep 0.25
done
[ -n "$window" ] || { cat "$state/program.log" >&2; fail 'the program opened no window'; }
xdotool windowsize "$window" "${screen%x*}" "${screen#*x}" windowmove "$window" 0 0 2>/dev/null || true
xdotool windowfocus "$window" mousemove "$((${screen%x*} - 1))" "$((${screen#*x} - 1))"

# picture NAME: waits until two pictures in a row are the same (nothing moves without input), then keeps the last.
picture() {
    local before='' now='' tries
    for tries in $(seq 1 60); do
        kill -0 "$program_id" 2>/dev/null || { cat "$state/program.log" >&2; fail "the program ended before \"$1\""; }
        import -window root "$folder/$1.png"
        now=$(pixels "$1")
        [ "$now" = "$before" ] && return
        before=$now
        sleep 0.25
    done
    fail "\"$1\" never comes to rest"
}
# A name for exactly these pixels.
pixels() { identify -format '%#' "$folder/$1.png"; }
# The same without the status line at the foot of the window, which says what was done last.
pixels_above_status() { convert "$folder/$1.png" -gravity south -chop 0x32 +repage -format '%#' info:-; }
# content NAME: paper (or its dark counterpart), ink, and more colours than a pane of grey.
content() {
    local colours all paper
    colours=$(identify -format '%k' "$folder/$1.png")
    all=$((${screen%x*} * ${screen#*x}))
    paper=$(convert "$folder/$1.png" -alpha off -depth 8 -format %c histogram:info:- |
        sed -nE 's/^ *([0-9]+):.*#(FAF8F3|15171A).*/\1/p' | sort -rn | head -n 1)
    paper=$((100 * ${paper:-0} / all))
    echo "$1: $colours colours, $paper % paper"
    ((colours > 60)) || fail "\"$1\" has $colours colours: no window with content"
    ((paper >= 15 && paper <= 95)) || fail "\"$1\" is $paper % paper: not a drawing in a window"
}
press() { xdotool key --clearmodifiers "$1"; sleep 0.3; }

picture opened
content opened
first=$(pixels_above_status opened)
shown=1
last=$first
# View by view to the right, until the first one comes round again.
for number in $(seq 2 40); do
    press ctrl+Page_Down
    picture "view-$number"
    now=$(pixels_above_status "view-$number")
    [ "$now" != "$first" ] || { rm "$folder/view-$number.png"; break; }
    [ "$now" != "$last" ] || fail "view $number looks as the one before"
    content "view-$number"
    last=$now
    shown=$number
done
((shown >= 5 && shown < 40)) || fail "$shown views before the first one comes round again"

press ctrl+1
press Page_Down
picture selected
press alt+Right
picture larger-size
[ "$(pixels_above_status larger-size)" != "$(pixels_above_status selected)" ] || fail 'another size changes nothing'
press ctrl+z
picture taken-back
[ "$(pixels_above_status taken-back)" = "$(pixels_above_status selected)" ] || fail 'undo does not bring the same picture back'

press ctrl+q
for _ in $(seq 1 40); do
    kill -0 "$program_id" 2>/dev/null || break
    sleep 0.25
done
kill -0 "$program_id" 2>/dev/null && fail 'the window does not close: taking the only change back must leave nothing to save'
status=0
wait "$program_id" || status=$?
program_id=''
[ "$status" = 0 ] || fail "the program ended with status $status"
[ ! -s "$state/program.log" ] || { echo 'on standard error:'; cat "$state/program.log"; }
echo "drive-window: $shown views painted, size changed and taken back, closed"
