"""The system says no: injected errors, a full disk, read-only places, folders that went, things that are no files, and two
programs writing into one folder.

    python3 tests/faults/errors.py PROGRAM [DEPTH [KIND…]]

DEPTH is how many file operations of each kind and writing are struck; 3 is quick. KIND is one of injected, full_disk,
read_only, special_files and two_at_once; without any, all are tried. Without the right to mount a small
memory disk, a full disk is injected instead, which is said.
"""

import os
import re
import shutil
import socket
import subprocess
import sys

from tries import SAMPLES, TABLES, Tally, Workplace, as_nobody, files_in, in_lanes, leftovers, report_all, run
from writings import LIST, NOTHING_OF_OURS, writings

NOBODY = 65534
# Each operation with the errors that a system really gives for it.
ERRORS = [
    ("write", "ENOSPC"), ("write", "EIO"), ("fsync", "EIO"), ("fsync", "ENOSPC"), ("fchmod", "EPERM"),
    ("rename", "ENOSPC"), ("renameat", "EACCES"), ("renameat", "EIO"), ("renameat2", "EINVAL"), ("renameat2", "EACCES"),
    ("link", "EPERM"), ("linkat", "EPERM"), ("unlink", "EBUSY"), ("unlinkat", "EBUSY"), ("mkdir", "ENOSPC"),
    ("mkdir", "EROFS"), ("flock", "ENOLCK"),
]


def spoke_plainly(tally, ended, when):
    """A program that fails says so: status 1, a sentence on standard error, no trace of a crash."""
    if not tally.check(ended.status is not None, f"{when}: hangs"):
        return
    tally.check(ended.status in (0, 1), f"{when}: status {ended.status}: {ended.said()}")
    tally.check("panicked" not in ended.err and "RUST_BACKTRACE" not in ended.err, f"{when}: a crash: {ended.said()}")
    if ended.status == 1:
        tally.check(ended.err.strip() != "", f"{when}: fails without a word")
        tally.check("os error" not in ended.err, f"{when}: speaks the system's language: {ended.said()}")


def injected(program, works, place, depth):
    """Each file operation of each writing fails, first, second and so on."""
    tally = Tally("injected errors")

    def strike(number, _):
        writing = works[number // len(ERRORS)]
        call, error = ERRORS[number % len(ERRORS)]
        for nth in range(1, depth + 1):
            folder, log = writing.copy(place, f"{number}-{nth}"), place / f"injected-{number}-{nth}.log"
            when = f"{writing.name}, {call} {nth} gives {error}"
            ended = run(["strace", "-f", "--seccomp-bpf", "-o", log, "-e", f"trace={call}", "-e",
                         f"inject={call}:error={error}:when={nth}", program, *writing.after(folder)])
            is_struck = b"(INJECTED)" in log.read_bytes()
            if is_struck:
                tally.tried()
                # What went to a terminal is no file: that it could not be said there is nobody's loss.
                spoke_plainly(tally, ended, when)
                writing.check(tally, folder, when)
                if call == "fchmod":
                    tally.check(ended.status == 0, f"{when}: permissions that cannot be set prevent a save: {ended.said()}")
                if ended.status == 0:
                    tally.count("answered all the same")
                    there = files_in(folder)
                    wrong = sorted(n for n in writing.new if n != LIST and there.get(n) != writing.new[n])
                    tally.check(not wrong, f"{when}: status 0, and {', '.join(wrong[:4])} not written")
                writing.check_next(tally, program, folder, when)
            shutil.rmtree(folder)
            log.unlink()
            if not is_struck:
                break

    in_lanes(2, len(works) * len(ERRORS), strike)
    return tally


class SmallDisk:
    """A memory disk of so many bytes at a folder, where mounting is allowed; else `is_mounted` is false."""

    def __init__(self, folder, size):
        self.folder = folder
        folder.mkdir()
        self.is_mounted = self.command("mount", "-t", "tmpfs", "-o", f"size={size},mode=755", "none", folder)

    def command(self, *words):
        try:
            return subprocess.run([str(w) for w in words], capture_output=True, check=False).returncode == 0
        except FileNotFoundError:
            return False

    def read_only(self):
        return self.command("mount", "-o", "remount,ro", self.folder)

    def __enter__(self):
        return self

    def __exit__(self, *_):
        if self.is_mounted:
            self.command("umount", self.folder)


def full_disk(program, works, place, depth):
    """The disk is full after so many bytes: nothing that was there is lost, and with space again all works."""
    tally = Tally("full disk")
    for writing in works:
        needed = sum(len(data) for data in writing.new.values())
        held = sum(len(data) for data in writing.old.values())
        for step in range(depth):
            folder = place / f"full-{writing.name}-{step}"
            with SmallDisk(folder, 64 << 20) as disk:
                if not disk.is_mounted:
                    print("full disk: no memory disk can be mounted here; only injected ENOSPC stands for it", flush=True)
                    tally.tried()
                    return tally
                place_in = folder / "inside"
                shutil.copytree(writing.template, place_in)
                room = int((held + needed) * 0.6 * step / depth) // 4096 * 4096
                space = os.statvfs(folder)
                filling = folder / "filling"
                filling.write_bytes(b"\0" * max(0, space.f_bavail * space.f_frsize - room))
                when = f"{writing.name}, {room} bytes free"
                ended = run([program, *writing.after(place_in)])
                tally.tried()
                spoke_plainly(tally, ended, when)
                if ended.status == 1:
                    tally.count("refused")
                    tally.check("full" in ended.err, f"{when}: does not say that the disk is full: {ended.said()}")
                writing.check(tally, place_in, when)
                filling.unlink()
                writing.check_next(tally, program, place_in, when)
    return tally


def read_only(program, works, place, _depth):
    """Places that must not be written: a read-only disk, another one's folder, a protected file, a folder that went."""
    tally = Tally("read-only and removed")
    for writing in works:
        with SmallDisk(place / f"ro-{writing.name}", 64 << 20) as disk:
            if disk.is_mounted:
                inside = disk.folder / "inside"
                shutil.copytree(writing.template, inside)
                if disk.read_only():
                    ended = run([program, *writing.after(inside)])
                    tally.tried()
                    spoke_plainly(tally, ended, f"{writing.name} on a read-only disk")
                    tally.check(ended.status == 1, f"{writing.name} on a read-only disk: status {ended.status}")
                    tally.check(files_in(inside) == writing.old, f"{writing.name} on a read-only disk: something changed")
        # As root nothing is protected: then the user nobody tries.
        user = NOBODY if as_nobody() else None
        folder = writing.copy(place, "protected")
        for path in [folder, *folder.rglob("*")]:
            path.chmod(0o555 if path.is_dir() else 0o444)
        ended = run([program, *writing.after(folder)], user=user)
        tally.tried()
        spoke_plainly(tally, ended, f"{writing.name} in another one's folder")
        tally.check(ended.status == 1, f"{writing.name} in another one's folder: status {ended.status}")
        tally.check(files_in(folder) == writing.old, f"{writing.name} in another one's folder: something changed")
        gone = place / f"gone-{writing.name}" / "inside"
        ended = run([program, *writing.after(gone)])
        tally.tried()
        spoke_plainly(tally, ended, f"{writing.name} into a folder that is not there")
    return tally


def special_files(program, _works, place, _depth):
    """Things that are no files, read by every command that reads and named as its output."""
    tally = Tally("special files")
    inside = place / "special"
    inside.mkdir()
    os.mkfifo(inside / "fifo.frame.ron")
    (inside / "nowhere.frame.ron").symlink_to("not-there")
    (inside / "loop.frame.ron").symlink_to("loop.frame.ron")
    (inside / "folder.frame.ron").mkdir()
    listening = socket.socket(socket.AF_UNIX)
    listening.bind(str(inside / "socket.frame.ron"))
    (inside / "zero.frame.ron").symlink_to("/dev/zero")
    (inside / "large.frame.ron").touch()
    os.truncate(inside / "large.frame.ron", 1 << 40)
    (inside / "terminal.frame.ron").symlink_to("/dev/ptmx")
    names = sorted(path for path in inside.iterdir())
    names += ["/dev/zero", "/dev/full", "/dev/null", "/dev/stdin", "/proc/self/mem", "/proc/kmsg"]
    frame = SAMPLES / "marrowby-drift.frame.ron"
    out = place / "special-out"
    out.mkdir()
    for name in names:
        ways = {
            "figures": ["figures", name],
            "figures beside a good file": ["figures", frame, name],
            "publish": ["publish", name, "--to", out / "published"],
            "pattern": ["pattern", name, "--to", out / "bag.pdf"],
            "take": ["take", name, "--maker", "Marrowby", "--model", "Drift", "--to", out / "taken.frame.ron"],
            "comparison": ["comparison", name, "--to", out / "found.lineup.ron"],
        }
        for way, arguments in ways.items():
            ended = run([program, *arguments], seconds=20)
            when = f"{way} of {os.path.basename(name)}"
            tally.tried()
            spoke_plainly(tally, ended, when)
            tally.check(ended.status == 1, f"{when}: status {ended.status}")
            if "beside" in way:
                tally.check("Drift" in ended.out, f"{when}: the good file is not answered")
    tally.check(not [path for path in out.rglob("*") if path.is_file()], "something was written from what is no file")
    # As outputs: what stands there, stays there.
    table = TABLES / "english-tabs.tsv"
    outputs = ["fifo.frame.ron", "nowhere.frame.ron", "loop.frame.ron", "folder.frame.ron", "socket.frame.ron"]
    before = {name: os.lstat(inside / name).st_mode for name in outputs}
    for name in outputs:
        for way, arguments in {
            "take": ["take", table, "--maker", "Marrowby", "--model", "Drift", "--to", inside / name],
            "comparison": ["comparison", place / "pages" / "first" / "page.html", "--to", inside / name],
        }.items():
            ended = run([program, *arguments], seconds=20)
            when = f"{way} to {name}"
            tally.tried()
            spoke_plainly(tally, ended, when)
            tally.check(ended.status == 1, f"{when}: status {ended.status}")
            tally.check(os.lstat(inside / name).st_mode == before[name], f"{when}: it was replaced")
    tally.check(not os.path.exists(inside / "not-there"), "a dangling link was written through")
    kind = os.lstat("/dev/full").st_mode
    ended = run([program, "take", table, "--maker", "Marrowby", "--model", "Drift", "--to", "/dev/full"], seconds=20)
    tally.tried()
    spoke_plainly(tally, ended, "take to /dev/full")
    tally.check(ended.status == 1 and os.lstat("/dev/full").st_mode == kind, "take to /dev/full")
    listening.close()
    return tally


def two_at_once(program, works, place, depth):
    """Two programs publish different comparisons into one folder: one of them stands there in the end, whole."""
    tally = Tally("two publishers at once")
    for writing in works:
        if not writing.name.startswith("publish"):
            continue

        def strike(number, dice, writing=writing):
            folder = writing.copy(place, f"two-{number}")
            running = [
                subprocess.Popen([str(a) for a in [program, *arguments(folder)]], stdout=subprocess.DEVNULL,
                                 stderr=subprocess.PIPE, text=True)
                for arguments in dice.sample([writing.before, writing.after], 2)
            ]
            said = [process.communicate()[1].strip() for process in running]
            statuses = [process.returncode for process in running]
            when = f"{writing.name} twice, try {number}"
            tally.tried()
            there = files_in(folder)
            is_old = all(there.get(n) == d for n, d in writing.old.items() if n != LIST)
            is_new = all(there.get(n) == d for n, d in writing.new.items() if n != LIST)
            tally.check(is_old or is_new, f"{when}: the folder holds a mixture ({statuses}, {said})")
            tally.check(0 in statuses, f"{when}: neither is published: {said}")
            tally.check(all(s == 0 or w for s, w in zip(statuses, said)), f"{when}: one fails without a word")
            tally.check(not leftovers(folder), f"{when}: leaves {leftovers(folder)}")
            for name, data in NOTHING_OF_OURS.items():
                tally.check(there.get(name) == data, f"{when}: {name} is gone or changed")
            shutil.rmtree(folder)

        in_lanes(1, depth, strike)
    return tally


def main():
    depth = int(sys.argv[2]) if len(sys.argv) > 2 else 3
    with Workplace() as place:
        # A copy that the user nobody reaches, too.
        program = place / "spandrel"
        shutil.copy2(sys.argv[1], program)
        program.chmod(0o755)
        works = writings(program, place)
        kinds = [injected, full_disk, read_only, special_files, two_at_once]
        asked = sys.argv[3:] or [kind.__name__ for kind in kinds]
        tallies = [kind(program, works, place, depth) for kind in kinds if kind.__name__ in asked]
    report_all(tallies)


if __name__ == "__main__":
    main()
