"""What all fault tests share: counts of tries with what went wrong, folders compared byte for byte, the program run
within a time and a memory limit."""

import os
import random
import resource
import shutil
import signal
import subprocess
import sys
import tempfile
import threading
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
SAMPLES = ROOT / "sample-frames"
TABLES = ROOT / "tests" / "tables"
# No answer takes this long, even on a busy machine: what takes longer hangs.
HANGS_AFTER_S = 60
MEMORY_BYTES = 4 << 30


class Tally:
    """Tries of one kind, and everything that went wrong in them."""

    def __init__(self, kind):
        self.kind = kind
        self.tries = 0
        self.counts = {}
        self.failures = []
        self.lock = threading.Lock()

    def tried(self, times=1):
        with self.lock:
            self.tries += times

    def count(self, what, times=1):
        if times:
            with self.lock:
                self.counts[what] = self.counts.get(what, 0) + times

    def check(self, is_good, sentence):
        if not is_good:
            with self.lock:
                self.failures.append(sentence)
        return is_good

    def report(self):
        counts = "".join(f", {number} {what}" for what, number in sorted(self.counts.items()))
        print(f"{self.kind}: {self.tries} tries, {len(self.failures)} failures{counts}", flush=True)
        for sentence in self.failures[:12]:
            print(f"    {sentence}")
        if len(self.failures) > 12:
            print(f"    and {len(self.failures) - 12} more")
        return not self.failures


def report_all(tallies):
    """Prints every tally and ends the program: status 0 when nothing went wrong and every kind was tried."""
    results = [tally.report() for tally in tallies]
    tried = all(tally.tries > 0 for tally in tallies)
    sys.exit(0 if all(results) and tried else 1)


def in_lanes(lanes, tries, function):
    """Runs function(number, dice) for each try, so many at once; each try has dice of its own, from its number."""
    seed = int(os.environ.get("SEED", "1"))
    with ThreadPoolExecutor(lanes) as pool:
        waiting = [pool.submit(function, number, random.Random(seed * 1_000_003 + number)) for number in range(tries)]
        for one in waiting:
            one.result()


class Ended:
    """How a run ended: its status, output and problems; status None when it hung and was ended."""

    def __init__(self, status, out, err):
        self.status, self.out, self.err = status, out, err

    def said(self):
        return self.err.strip().replace("\n", " | ")[:300]


def as_nobody():
    """Whether this process may start others as the user nobody, whom read-only files concern."""
    return os.geteuid() == 0


def run(arguments, cwd=None, stdin=subprocess.DEVNULL, user=None, seconds=HANGS_AFTER_S, env=None):
    """Runs the program to its end within time and memory."""

    def limit():
        resource.setrlimit(resource.RLIMIT_AS, (MEMORY_BYTES, MEMORY_BYTES))
        resource.setrlimit(resource.RLIMIT_CORE, (0, 0))

    more = {"user": user, "group": user, "extra_groups": []} if user is not None else {}
    process = subprocess.Popen(
        [str(a) for a in arguments], cwd=cwd, stdin=stdin, stdout=subprocess.PIPE, stderr=subprocess.PIPE, env=env,
        preexec_fn=limit, start_new_session=True, **more,
    )
    try:
        out, err = process.communicate(timeout=seconds)
        return Ended(process.returncode, out.decode(errors="replace"), err.decode(errors="replace"))
    except subprocess.TimeoutExpired:
        os.killpg(process.pid, signal.SIGKILL)
        out, err = process.communicate()
        return Ended(None, out.decode(errors="replace"), err.decode(errors="replace"))


def files_in(folder):
    """Every file below a folder by its path inside it, with its bytes; links by where they lead."""
    found = {}
    for path in sorted(Path(folder).rglob("*")):
        name = str(path.relative_to(folder))
        if path.is_symlink():
            found[name] = b"-> " + os.readlink(path).encode()
        elif path.is_file():
            found[name] = path.read_bytes()
    return found


def leftovers(folder):
    """Names of what an interrupted writing left below a folder."""
    return sorted(str(path.relative_to(folder)) for path in Path(folder).rglob(".spandrel-*"))


class Workplace:
    """A folder of its own, below the temporary one, that goes when it is left."""

    def __enter__(self):
        self.path = Path(tempfile.mkdtemp(prefix="spandrel-faults-"))
        self.path.chmod(0o755)
        return self.path

    def __exit__(self, *_):
        shutil.rmtree(self.path, ignore_errors=True)
