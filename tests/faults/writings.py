"""The writings that faults strike: each with its arguments, the files that lie there before, and the bytes that a run
which nothing strikes leaves behind (the same input gives the same bytes)."""

import shutil

from tries import SAMPLES, TABLES, files_in, leftovers, run

# Of the list of what was made, only the names matter here: fingerprints of two states may stand in it.
LIST = "made-by-spandrel.txt"
NOTHING_OF_OURS = {"notes from the owner.txt": b"not made here\n", "pictures/holiday.png": b"\x89PNG not ours\n"}


class Writing:
    """One command that writes, over what another run of it wrote before."""

    def __init__(self, name, before, after):
        self.name = name
        # Arguments given the folder to write into: those of the run before, those of the run that is struck.
        self.before, self.after = before, after
        self.template = None
        self.old = {}
        self.new = {}

    def prepare(self, program, place):
        """Makes the template that each try is copied from, and learns the bytes of a run that nothing strikes."""
        self.template = place / f"{self.name}-before"
        self.template.mkdir()
        for name, data in NOTHING_OF_OURS.items():
            (self.template / name).parent.mkdir(exist_ok=True)
            (self.template / name).write_bytes(data)
        first = run([program, *self.before(self.template)])
        assert first.status == 0, f"{self.name}: {first.said()}"
        self.old = files_in(self.template)
        whole = self.copy(place, "whole")
        second = run([program, *self.after(whole)])
        assert second.status == 0, f"{self.name}: {second.said()}"
        self.new = files_in(whole)
        assert self.new != self.old, self.name
        shutil.rmtree(whole)

    def copy(self, place, name):
        """A fresh folder to be struck."""
        folder = place / f"{self.name}-{name}"
        shutil.copytree(self.template, folder, symlinks=True)
        return folder

    def check(self, tally, folder, when):
        """No file is broken, strangers' files are as they were, two comparisons do not stand side by side."""
        there = files_in(folder)
        kinds = set()
        for name, data in there.items():
            if any(part.startswith(".spandrel-") for part in name.split("/")) or name == LIST:
                continue
            old, new = self.old.get(name), self.new.get(name)
            if tally.check(data in (old, new), f"{when}: {name} is broken ({len(data)} bytes)") and old != new:
                kinds.add("old" if data == old else "new")
        for name, data in NOTHING_OF_OURS.items():
            tally.check(there.get(name) == data, f"{when}: {name}, which is the owner's, is gone or changed")
        # While files are exchanged some may be missing, which the list then says: never does one comparison's file stand
        # beside another's.
        is_said = b"incomplete" in there.get(LIST, b"").lower()
        missing = [name for name in self.old if name in self.new and name not in there]
        tally.check(not missing or is_said, f"{when}: {', '.join(missing[:6])} gone, and the list does not say so")
        tally.check(kinds != {"old", "new"}, f"{when}: files of two comparisons stand side by side")
        tally.count("ended in the exchange of files", int(is_said))

    def check_next(self, tally, program, folder, when):
        """The next run works, leaves exactly what an undisturbed one leaves, and clears what was left."""
        ended = run([program, *self.after(folder)])
        if not tally.check(ended.status == 0, f"{when}: the next run fails: {ended.said()}"):
            return
        there, left = files_in(folder), leftovers(folder)
        tally.check(not left, f"{when}: the next run leaves {', '.join(left[:4])}")
        differing = sorted(n for n in there.keys() | self.new.keys() if there.get(n) != self.new.get(n) and n not in left)
        tally.check(not differing or left, f"{when}: after the next run {', '.join(differing[:6])} differ")


def lineups(place):
    """Two line-ups of two frames each, with a small sheet: quick to publish, and different in every picture."""
    made = []
    for name, frames in (("first", ("marrowby-drift", "quern-halter")), ("second", ("tansett-fourways", "hollinshaw-wether"))):
        texts = []
        for frame in frames:
            text = (SAMPLES / f"{frame}.frame.ron").read_text()
            size = text.split('label: "', 1)[1].split('"', 1)[0]
            texts.append("(frameset: (" + text.split("Frameset(", 1)[1].rstrip() + f', size: "{size}"),')
        path = place / f"{name}.lineup.ron"
        sheet = '(name: "Small", shape: Wide, width: 640, blocks: [Overlay, Table, Captions])'
        path.write_text(
            "#![enable(implicit_some)]\nLineup(format: 1, title: \"" + name + "\", frames: [" + "\n".join(texts)
            + "], sheets: [" + sheet + "])\n"
        )
        made.append(path)
    return made


def writings(program, place):
    """All of them, prepared. What is published carries the comparison that is taken out again."""
    first, second = lineups(place)
    pages = place / "pages"
    for name, lineup in (("first", first), ("second", second)):
        made = run([program, "publish", lineup, "--sheet", "Small", "--still", "--to", pages / name])
        assert made.status == 0, made.said()

    def take(table):
        return lambda folder: ["take", TABLES / table, "--maker", "Marrowby", "--model", "Drift", "--to",
                               folder / "taken.frame.ron", "--replace"]

    def publish(lineup, *more):
        return lambda folder: ["publish", lineup, *more, "--to", folder]

    def pattern(frame):
        return lambda folder: ["pattern", SAMPLES / f"{frame}.frame.ron", "--date", "2026-10-02", "--to", folder / "bag.pdf",
                               "--replace"]

    def comparison(which):
        return lambda folder: ["comparison", pages / which / "page.html", "--to", folder / "found.lineup.ron", "--replace"]

    small = ("--width", "320", "--height", "320")
    sheet = ("--sheet", "Small", "--still")
    made = [
        Writing("take", take("english-tabs.tsv"), take("dutch-sizes-down.tsv")),
        Writing("comparison", comparison("first"), comparison("second")),
        Writing("pattern", pattern("marrowby-drift"), pattern("quern-halter")),
        Writing("publish", publish(first, *small), publish(second, *small)),
        Writing("publish-sheet", publish(first, *sheet), publish(second, *sheet)),
    ]
    for one in made:
        one.prepare(program, place)
    return made
