"""Ends the program at any moment of everything that it writes without a window, and looks at what is left.

    python3 tests/faults/kills_headless.py PROGRAM [TRIES]

Half of the kills come at a random time, half at a random file operation of the run (strace delivers the signal there), so
that the short time between writing and renaming is struck as often as the long one of computing.
"""

import os
import re
import shutil
import signal
import subprocess
import sys
import time

from tries import Tally, Workplace, in_lanes, report_all, run
from writings import writings

OPERATIONS = "write,fsync,fdatasync,rename,renameat,renameat2,link,linkat,symlinkat,unlink,unlinkat,rmdir,mkdir,mkdirat,fchmod,ftruncate,flock"
# Of 20 tries, how many strike each writing: long ones are struck less often.
SHARE = {"take": 6, "comparison": 4, "pattern": 4, "publish": 3, "publish-sheet": 3}


def operations(program, writing, place):
    """How often a run that nothing strikes calls each file operation, and how long it takes, seconds."""
    folder, log = writing.copy(place, "counted"), place / f"{writing.name}.log"
    began = time.monotonic()
    run([program, *writing.after(folder)])
    seconds = time.monotonic() - began
    shutil.rmtree(folder)
    folder = writing.copy(place, "counted")
    ended = run(["strace", "-f", "--seccomp-bpf", "-o", log, "-e", f"trace={OPERATIONS}", program, *writing.after(folder)])
    assert ended.status == 0, f"strace cannot look at the program here: {ended.said()}"
    calls = re.findall(r"^\d+\s+(\w+)\(", log.read_text(errors="replace"), re.M)
    shutil.rmtree(folder)
    # The threads of one run are counted apart by strace; the one that writes is the busiest, so its count is enough.
    return {name: calls.count(name) for name in set(calls)}, seconds


def main():
    program = os.path.abspath(sys.argv[1])
    tries = int(sys.argv[2]) if len(sys.argv) > 2 else 100
    tally = Tally("headless kills")
    with Workplace() as place:
        works = {one.name: one for one in writings(program, place)}
        known = {name: operations(program, one, place) for name, one in works.items()}
        turn = [name for name, share in SHARE.items() for _ in range(share)]

        def strike(number, dice):
            writing = works[turn[number % len(turn)]]
            folder = writing.copy(place, str(number))
            calls, seconds = known[writing.name]
            arguments = [program, *writing.after(folder)]
            if number % 2:
                call = dice.choice(sorted(calls))
                nth = dice.randint(1, calls[call])
                when = f"{writing.name}, try {number}, killed at {call} {nth}"
                # Without its quicker filter (--seccomp-bpf): with it, strace 6.1 delivers no signal.
                ended = run(["strace", "-f", "-o", os.devnull, "-e", f"trace={call}", "-e",
                             f"inject={call}:signal=SIGKILL:when={nth}", *arguments])
                if ended.status == -signal.SIGKILL:
                    tally.count("killed at a file operation")
            else:
                after = dice.uniform(0, 1.05 * seconds)
                when = f"{writing.name}, try {number}, killed after {after:.3f} s"
                process = subprocess.Popen([str(a) for a in arguments], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
                time.sleep(after)
                process.send_signal(signal.SIGKILL)
                if process.wait() == -signal.SIGKILL:
                    tally.count("killed by the clock")
            tally.tried()
            writing.check(tally, folder, when)
            writing.check_next(tally, program, folder, when)
            shutil.rmtree(folder)

        in_lanes(2, tries, strike)
    report_all([tally])


if __name__ == "__main__":
    main()
