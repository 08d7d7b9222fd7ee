"""What happens to files under the open window: changed by another program, saved by a second window, protected, gone, or no
files at all; and a disk that is full where unsaved work is kept. Nothing may be replaced unasked, lost, or waited for.

    python3 tests/faults/window_faults.py PROGRAM OFFERS
"""

import os
import shutil
import subprocess
import sys
import time
from pathlib import Path

from errors import SmallDisk
from kills_window import LINEUP, offers
from screen import Screen
from tries import SAMPLES, Tally, Workplace, in_lanes, report_all

# Long enough for a save that asks nothing, on a busy machine, too.
SAVES_WITHIN_S = 2.0


def is_unsaved(title):
    return "*" in title


class Case:
    """A window on a line-up in a folder of its own, in a home of its own."""

    def __init__(self, screen, program, place, name):
        self.screen, self.program = screen, program
        self.home = place / name
        self.home.mkdir()
        self.folder = self.home / "files"
        self.folder.mkdir()
        self.path = self.folder / "work.lineup.ron"
        shutil.copy(LINEUP, self.path)

    def open(self, *files):
        window = self.screen.window(self.program, files or [self.path], self.home)
        assert window.wait_for_title(lambda title: title.startswith("work")), f"not opened: {window.said()}"
        return window

    def edit(self, window):
        """One edit that the title shows."""
        window.press("h")
        assert window.wait_for_title(is_unsaved, 20), "the edit is not taken"

    def save(self, window):
        window.press("ctrl+s")
        time.sleep(SAVES_WITHIN_S)


def changed_outside(case, check):
    window = case.open()
    case.edit(window)
    case.path.write_text(case.path.read_text().replace("loan bicycles", "hired bicycles"))
    outside = case.path.read_bytes()
    case.save(window)
    check(window.is_alive(), f"ended: {window.said()}")
    check(case.path.read_bytes() == outside, "what another program wrote is replaced unasked")
    check(is_unsaved(window.title()), "the work counts as saved")


def two_windows_on_one_file(case, check):
    first = case.open()
    second = case.screen.window(case.program, [case.path], case.home)
    check(not second.wait_for_title(lambda title: title.startswith("work"), 3), "the second window is not told")
    # Cancel has the keyboard, Open stands beside it.
    second.press("Tab")
    second.press("Return")
    check(second.wait_for_title(lambda title: title.startswith("work"), 20), "the second window does not open it knowingly")
    case.edit(first)
    case.save(first)
    saved = case.path.read_bytes()
    check(saved != LINEUP.read_bytes(), "the first window does not save")
    second.press("Escape")
    case.edit(second)
    second.press("alt+Right")
    case.save(second)
    check(case.path.read_bytes() == saved, "what the first window saved is replaced unasked")
    check(is_unsaved(second.title()), "the second window's work counts as saved")
    first.kill()
    return second


def folder_removed(case, check):
    window = case.open()
    case.edit(window)
    shutil.rmtree(case.folder)
    case.save(window)
    check(window.is_alive(), f"ended: {window.said()}")
    check(is_unsaved(window.title()), "the work counts as saved")
    window.kill()
    found = offers(case.offering, case.home)
    check(len(found) == 1 and found[0]["state"].endswith("hidden"), f"the work is lost: {found}")


def file_protected(case, check):
    window = case.open()
    case.edit(window)
    case.path.chmod(0o444)
    case.save(window)
    check(case.path.read_bytes() == LINEUP.read_bytes(), "a write-protected file is replaced unasked")
    check(is_unsaved(window.title()), "the work counts as saved")


def link_dangles(case, check):
    aim = case.home / "aim.lineup.ron"
    case.path.rename(aim)
    case.path.symlink_to(aim)
    window = case.open()
    case.edit(window)
    aim.unlink()
    case.save(window)
    check(case.path.is_symlink() and not aim.exists(), "a dangling link is replaced or written through unasked")
    check(is_unsaved(window.title()), "the work counts as saved")


def link_is_kept(case, check):
    aim = case.home / "aim.lineup.ron"
    case.path.rename(aim)
    case.path.symlink_to(aim)
    window = case.open()
    case.edit(window)
    case.save(window)
    check(not is_unsaved(window.title()), "not saved through the link")
    check(case.path.is_symlink() and aim.read_bytes() != LINEUP.read_bytes(), "the link is replaced")


def special_files_opened(case, check):
    fifo, zero = case.folder / "fifo.frame.ron", case.folder / "zero.frame.ron"
    os.mkfifo(fifo)
    zero.symlink_to("/dev/zero")
    window = case.screen.window(case.program, [fifo, zero, SAMPLES / "marrowby-drift.frame.ron"], case.home)
    time.sleep(2)
    check(window.is_alive(), f"ended: {window.said()}")
    memory = int(Path(f"/proc/{window.process.pid}/statm").read_text().split()[1]) * 4096
    check(memory < 1 << 30, f"takes {memory >> 20} MB")
    # It still obeys: it closes, for there is nothing to lose.
    window.press("ctrl+q")
    check(window.wait(20) == 0, "it hangs")


def full_state_folder(case, check):
    with SmallDisk(case.home / "data", 1 << 20) as disk:
        if not disk.is_mounted:
            print("full state folder: no memory disk can be mounted here; not tried", flush=True)
            return
        window = case.open()
        space = os.statvfs(disk.folder)
        filling = disk.folder / "filling"
        filling.write_bytes(b"\0" * (space.f_bavail * space.f_frsize))
        case.edit(window)
        time.sleep(1.5)
        check(window.is_alive(), f"ended: {window.said()}")
        filling.unlink()
        window.press("alt+Right")
        time.sleep(1.5)
        window.kill()
        found = offers(case.offering, case.home)
        check(len(found) == 1 and found[0]["state"].endswith("hidden"), f"with space again the work is not kept: {found}")


CASES = [
    changed_outside, two_windows_on_one_file, folder_removed, file_protected, link_dangles, link_is_kept, special_files_opened,
    full_state_folder,
]


def main():
    program, offering = os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2])
    tally = Tally("files under the window")
    screens = [Screen() for _ in range(2)]

    def one(number, _):
        what = CASES[number]
        screen = screens.pop()
        try:
            case = Case(screen, program, place, what.__name__)
            case.offering = offering
            tally.tried()
            what(case, lambda is_good, sentence: tally.check(is_good, f"{what.__name__}: {sentence}"))
        except (AssertionError, OSError, subprocess.SubprocessError) as problem:
            tally.check(False, f"{what.__name__}: {problem}")
        finally:
            for process in screen.started:
                if process.poll() is None:
                    process.kill()
                    process.wait()
            screens.append(screen)

    with Workplace() as place:
        try:
            in_lanes(2, len(CASES), one)
        finally:
            for screen in screens:
                screen.close()
    report_all([tally])


if __name__ == "__main__":
    main()
