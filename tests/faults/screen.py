"""A virtual screen of its own, the program's real window on it, and what a person does there: keys, covering the window,
putting it away. Everything is ended by its process number."""

import ctypes
import os
import shutil
import signal
import subprocess
import tempfile
import time
from pathlib import Path

OPENS_WITHIN_S = 60


class Screen:
    """A virtual screen. `Screen().window(…)` opens the program there."""

    def __init__(self, size="1440x900"):
        self.folder = Path(tempfile.mkdtemp(prefix="spandrel-screen-"))
        self.size = tuple(int(side) for side in size.split("x"))
        self.started = []
        read, write = os.pipe()
        self.server = subprocess.Popen(
            ["Xvfb", "-displayfd", str(write), "-screen", "0", f"{size}x24", "-nolisten", "tcp", "-noreset"],
            pass_fds=[write], stderr=subprocess.DEVNULL,
        )
        os.close(write)
        with os.fdopen(read) as said:
            number = said.readline().strip()
        assert number, "no virtual screen"
        self.display = f":{number}"

    def close(self):
        self.server.terminate()
        self.server.wait()
        shutil.rmtree(self.folder, ignore_errors=True)

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.close()

    def environment(self, home):
        """A home of its own: nothing remembered from before, and no desktop that is asked for dialogs or colours."""
        env = {name: value for name, value in os.environ.items() if not name.startswith(("WAYLAND", "XDG_", "DBUS"))}
        return env | {
            "DISPLAY": self.display, "HOME": str(home), "XDG_DATA_HOME": f"{home}/data", "XDG_CONFIG_HOME": f"{home}/config",
            "XDG_STATE_HOME": f"{home}/state", "XDG_CACHE_HOME": f"{home}/cache", "XDG_RUNTIME_DIR": str(home),
            "DBUS_SESSION_BUS_ADDRESS": "disabled:", "LIBGL_ALWAYS_SOFTWARE": "1",
        }

    def xdotool(self, *words):
        env = os.environ | {"DISPLAY": self.display}
        done = subprocess.run(["xdotool", *[str(w) for w in words]], env=env, capture_output=True, text=True, check=False)
        return done.stdout.strip()

    def cover(self):
        """Lays another window over the whole screen; the keyboard stays where it is. `uncover` takes it away."""
        x11 = ctypes.CDLL("libX11.so.6")
        x11.XOpenDisplay.restype = ctypes.c_void_p
        x11.XOpenDisplay.argtypes = [ctypes.c_char_p]
        for name in ("XDefaultRootWindow", "XCreateWindow"):
            getattr(x11, name).restype = ctypes.c_ulong
        display = ctypes.c_void_p(x11.XOpenDisplay(self.display.encode()))
        root = ctypes.c_ulong(x11.XDefaultRootWindow(display))
        # XSetWindowAttributes up to override_redirect, which keeps the window out of every manager's hands.
        attributes = (ctypes.c_long * 16)()
        attributes[11] = 1
        window = ctypes.c_ulong(
            x11.XCreateWindow(display, root, 0, 0, self.size[0], self.size[1], 0, 0, 1, None, ctypes.c_ulong(1 << 9), attributes)
        )
        x11.XMapRaised(display, window)
        x11.XSync(display, 0)
        return lambda: x11.XCloseDisplay(display)

    def window(self, program, files, home):
        """Opens the program on files and waits until its window stands and holds the keyboard."""
        return Window(self, program, files, home)


class Window:
    """The program's window."""

    def __init__(self, screen, program, files, home):
        self.screen = screen
        self.log = Path(home) / f"standard-error-{time.monotonic_ns()}"
        with open(self.log, "wb") as log:
            self.process = subprocess.Popen(
                [str(program), *[str(f) for f in files]], env=screen.environment(home), stdin=subprocess.DEVNULL,
                stdout=subprocess.DEVNULL, stderr=log, cwd=home,
            )
        screen.started.append(self.process)
        self.id = ""
        until = time.monotonic() + OPENS_WITHIN_S
        while not self.id and time.monotonic() < until and self.is_alive():
            self.id = screen.xdotool("search", "--onlyvisible", "--pid", self.process.pid).split("\n")[0]
            time.sleep(0.05)
        assert self.id, f"no window: {self.said()}"
        screen.xdotool("windowsize", self.id, *screen.size, "windowmove", self.id, 0, 0, "windowfocus", self.id)

    def title(self):
        return self.screen.xdotool("getwindowname", self.id)

    def wait_for_title(self, test, seconds=OPENS_WITHIN_S):
        """Waits until the title passes a test: what the window shows of its document while nobody looks at pixels."""
        until = time.monotonic() + seconds
        while time.monotonic() < until and self.is_alive():
            if test(self.title()):
                return True
            time.sleep(0.05)
        return False

    def press(self, *keys):
        self.screen.xdotool("windowfocus", self.id, "key", "--delay", "0", *keys)

    def type(self, text):
        self.screen.xdotool("windowfocus", self.id, "type", "--delay", "8", text)

    def put_away(self):
        """Takes the window off the screen: it is painted no more."""
        self.screen.xdotool("windowunmap", self.id)

    def is_alive(self):
        return self.process.poll() is None

    def kill(self):
        self.process.send_signal(signal.SIGKILL)
        self.process.wait()

    def wait(self, seconds):
        try:
            return self.process.wait(seconds)
        except subprocess.TimeoutExpired:
            return None

    def said(self):
        return self.log.read_text(errors="replace").strip()[:400]
