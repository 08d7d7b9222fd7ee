"""Ends the real window at random moments, and reads what a new window offers.

    python3 tests/faults/kills_window.py PROGRAM OFFERS [TRIES]

OFFERS is the built example `offers` of tests/window: it opens a window without a screen on a folder of left work and says
what is offered. One edit a second, undo and redo among them; the window free, covered by another, or off the screen. What
is offered must be the work as it stood within the last second; what was saved or taken back is not offered. Of five tries,
one saves and closes, and one has two windows at once.
"""

import json
import os
import shutil
import subprocess
import sys
import time
from pathlib import Path

from screen import Screen
from tries import SAMPLES, Tally, Workplace, in_lanes, report_all

MAY_BE_LOST_S = 1.0
LANES = int(os.environ.get("LANES", "2"))
LINEUP = SAMPLES / "village-library.lineup.ron"
# What is edited lies at the head of the list: frame A, which a new window has selected.
KEYS = {"larger": "alt+Right", "smaller": "alt+Left", "show or hide": "h", "undo": "ctrl+z", "redo": "ctrl+shift+z"}


class Model:
    """What the window's document must be after each edit: size and visibility of frame A, and the history."""

    def __init__(self, sizes, size, is_shown):
        self.sizes = sizes
        self.state = (size, is_shown)
        self.back, self.forth = [], []
        # Each state since the start with the time at which its key was pressed.
        self.passed = [(0.0, self.state)]

    def possible(self):
        size, _ = self.state
        edits = ["show or hide"]
        edits += ["larger"] if size + 1 < len(self.sizes) else []
        edits += ["smaller"] if size > 0 else []
        edits += ["undo"] * 2 if self.back else []
        edits += ["redo"] * 2 if self.forth else []
        return edits

    def do(self, edit):
        size, is_shown = self.state
        if edit == "undo":
            self.forth.append(self.state)
            self.state = self.back.pop()
        elif edit == "redo":
            self.back.append(self.state)
            self.state = self.forth.pop()
        else:
            self.back.append(self.state)
            self.forth = []
            step = {"larger": 1, "smaller": -1}.get(edit, 0)
            self.state = (size + step, is_shown != (edit == "show or hide"))

    def edit(self, window, edit):
        self.do(edit)
        window.press(KEYS[edit])
        self.passed.append((time.monotonic(), self.state))

    def allowed(self, killed_at):
        """States that may be found: the one that stood a second before the end, and all later ones."""
        old = max(i for i, (at, _) in enumerate(self.passed) if at <= killed_at - MAY_BE_LOST_S or i == 0)
        return [state for _, state in self.passed[old:]]

    def words(self, state):
        return f"{self.sizes[state[0]]} {'shown' if state[1] else 'hidden'}"


def offers(program, folder, *more):
    """What a new window offers of the work left in a home: for each, how its frame A stands, and its file."""
    done = subprocess.run([str(program), str(folder), *more], capture_output=True, text=True, check=False, timeout=120)
    assert done.returncode == 0, done.stderr
    return [json.loads(line) for line in done.stdout.splitlines()]


def fresh_model(program):
    read = subprocess.run([str(program), "figures", "--json", str(LINEUP)], capture_output=True, text=True, check=True)
    frame = json.loads(read.stdout)["frames"][0]
    sizes = [size["size"] for size in frame["sizes"]]
    return lambda: Model(sizes, sizes.index(frame["chosen_size"]), True)


class Tries:
    """All tries of one run."""

    def __init__(self, program, offering, place):
        self.program, self.offering, self.place = program, offering, place
        self.model = fresh_model(program)
        self.kills, self.closes = Tally("window kills"), Tally("clean closes")
        self.pairs = Tally("two windows at once")
        self.screens = []
        self.oldest_lost = 0.0

    def home(self, name):
        home = self.place / name
        home.mkdir()
        home.chmod(0o700)
        return home

    def opened(self, screen, home, name):
        """A window on a line-up of its own, which has been read."""
        path = home / f"{name}.lineup.ron"
        shutil.copy(LINEUP, path)
        window = screen.window(self.program, [path], home)
        assert window.wait_for_title(lambda title: title.startswith(name)), f"{name} is not opened: {window.said()}"
        return window, path

    def work(self, window, model, dice, edits):
        """One edit a second."""
        begin = time.monotonic()
        for number in range(edits):
            model.edit(window, dice.choice(model.possible()))
            left = begin + number + 1 - time.monotonic()
            if number + 1 < edits and left > 0:
                time.sleep(left)

    def check_offer(self, tally, model, killed_at, found, when):
        """What is offered is the work within the last second; nothing is offered only where nothing was unsaved then."""
        allowed = model.allowed(killed_at)
        saved = model.passed[0][1]
        if not found:
            tally.check(saved in allowed, f"{when}: nothing is offered; {model.words(model.state)} is lost")
            return
        tally.check(len(found) == 1, f"{when}: {len(found)} offers")
        states = [model.words(state) for state in allowed]
        is_good = tally.check(found[0]["state"] in states, f"{when}: offers {found[0]['state']}; it was {' → '.join(states)}")
        if is_good and states and found[0]["state"] != states[-1]:
            tally.count("lost an edit of the last second")
        tally.check(any(state != saved for state in allowed), f"{when}: offers what was not unsaved")

    def kill(self, screen, number, dice):
        """One window, ended at a random moment."""
        home = self.home(f"kill-{number}")
        window, path = self.opened(screen, home, "work")
        model = self.model()
        way = ["free", "covered", "put away"][number % 3]
        uncover = screen.cover() if way == "covered" else lambda: None
        self.work(window, model, dice, dice.randint(2, 4))
        if way == "put away":
            window.put_away()
        time.sleep(dice.uniform(0, 1.8))
        when = f"try {number}, {way}"
        if not self.kills.check(window.is_alive(), f"{when}: ended by itself: {window.said()}"):
            return
        killed_at = time.monotonic()
        window.kill()
        uncover()
        self.kills.tried()
        self.kills.count(way)
        self.kills.check(path.read_bytes() == LINEUP.read_bytes(), f"{when}: the line-up's file changed")
        found = offers(self.offering, home)
        self.check_offer(self.kills, model, killed_at, found, when)
        if found:
            self.kills.check(found[0]["file"] == str(path), f"{when}: does not know its file: {found[0]['file']}")
        shutil.rmtree(home)

    def close(self, screen, number, dice):
        """Saved, or all taken back, and closed: no offer, and the file is what was saved."""
        home = self.home(f"close-{number}")
        window, path = self.opened(screen, home, "work")
        model = self.model()
        self.work(window, model, dice, 2)
        when = f"try {number}, closed"
        if number % 2:
            window.press("ctrl+s")
            is_saved = window.wait_for_title(lambda title: "*" not in title, 20)
            self.closes.check(is_saved, f"{when}: not saved")
        else:
            for _ in range(len(model.back)):
                window.press("ctrl+z")
        time.sleep(dice.uniform(0, 0.6))
        window.press("ctrl+q")
        ended = window.wait(20)
        self.closes.tried()
        if ended is None:
            window.kill()
        self.closes.check(ended == 0, f"{when}: status {ended}: {window.said()}")
        self.closes.check(not offers(self.offering, home), f"{when}: work is offered that is none")
        is_same = path.read_bytes() == LINEUP.read_bytes()
        self.closes.check(is_same or number % 2 == 1, f"{when}: the file changed though nothing was saved")
        shutil.rmtree(home)

    def pair(self, screen, number, dice):
        """Two windows of one home: the living one's work is not offered, and each dead one's is its own."""
        home = self.home(f"pair-{number}")
        both = []
        for name in ("one", "two"):
            window, path = self.opened(screen, home, name)
            both.append((window, path, self.model()))
        for window, _, model in both:
            self.work(window, model, dice, 2)
        time.sleep(MAY_BE_LOST_S + 0.2)
        for dead, (window, path, model) in enumerate(both):
            killed_at = time.monotonic()
            window.kill()
            # While the other one lives, only a look at the folder itself meets its lock.
            found = offers(self.offering, home, *([] if dead else ["--look"]))
            when = f"try {number}, {dead + 1} of two ended"
            known = {str(p): m for _, p, m in both[:dead + 1]}
            self.pairs.tried()
            for one in found:
                owner = known.get(one["file"])
                if self.pairs.check(owner is not None, f"{when}: offers work of {one['file']}") and one["state"]:
                    words = [owner.words(state) for state in owner.allowed(killed_at)]
                    self.pairs.check(one["state"] in words, f"{when}: offers {one['state']}; it was {words}")
            lost = [p for p, m in known.items() if m.state != m.passed[0][1] and p not in [one["file"] for one in found]]
            self.pairs.check(not lost, f"{when}: does not offer {lost}")
        shutil.rmtree(home)

    def one(self, number, dice):
        screen = self.screens.pop()
        try:
            which = {3: self.close, 4: self.pair}.get(number % 5, self.kill)
            which(screen, number, dice)
        except (AssertionError, OSError, subprocess.SubprocessError) as problem:
            self.kills.check(False, f"try {number}: {problem}")
        finally:
            for process in screen.started:
                if process.poll() is None:
                    process.kill()
                    process.wait()
            screen.started.clear()
            self.screens.append(screen)


def main():
    program, offering = os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2])
    kills = int(sys.argv[3]) if len(sys.argv) > 3 else 20
    with Workplace() as place:
        tries = Tries(program, offering, Path(place))
        tries.screens = [Screen() for _ in range(LANES)]
        try:
            # Three of five tries are kills of one window.
            in_lanes(LANES, -(-kills * 5 // 3), tries.one)
        finally:
            for screen in tries.screens:
                screen.close()
    report_all([tries.kills, tries.closes, tries.pairs])


if __name__ == "__main__":
    main()
