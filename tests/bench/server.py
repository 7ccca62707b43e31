"""A server under measure: started, asked, and what it took."""
import os
import signal
import subprocess
import time
import urllib.request

TICKS = os.sysconf("SC_CLK_TCK")


def answer(url, cookie="", encoding=""):
    """Status, body as it came and headers of one request."""
    request = urllib.request.Request(url, headers={"Cookie": cookie, "Accept-Encoding": encoding})
    with urllib.request.urlopen(request, timeout=60) as got:
        return got.status, got.read(), got.headers


def ready(url, cookie, patience=180):
    """Asks until the answer is there: a large club's table takes a while after the start."""
    began = time.monotonic()
    while True:
        try:
            return answer(url, cookie)
        except urllib.error.HTTPError as error:
            if error.code != 503 or time.monotonic() - began > patience:
                raise
            time.sleep(1)


class Server:
    """A program with all its processes."""

    def __init__(self, name, command, base, probe="/", **env):
        self.name, self.base = name, base
        began = time.monotonic()
        self.log = open(f"target/bench/{name}.log", "w")
        self.process = subprocess.Popen(
            command, env={**os.environ, **env}, stdout=self.log, stderr=self.log, start_new_session=True
        )
        while True:
            try:
                answer(base + probe)
                break
            except urllib.error.HTTPError:
                break
            except OSError:
                if self.process.poll() is not None or time.monotonic() - began > 60:
                    raise SystemExit(f"{name} did not start: see target/bench/{name}.log")
                time.sleep(0.001)
        self.started_ms = 1000 * (time.monotonic() - began)

    def pids(self):
        return [p for p in os.listdir("/proc") if p.isdigit() and self._ours(p)]

    def _ours(self, pid):
        try:
            return os.getpgid(int(pid)) == self.process.pid
        except ProcessLookupError:
            return False

    def cpu(self):
        """Seconds of processor time so far."""
        total = 0
        for pid in self.pids():
            fields = open(f"/proc/{pid}/stat").read().rsplit(") ", 1)[1].split()
            total += int(fields[11]) + int(fields[12])
        return total / TICKS

    def rests(self, patience=180):
        """Waits until it computes nothing by itself any more."""
        began, before = time.monotonic(), self.cpu()
        while time.monotonic() - began < patience:
            time.sleep(5)
            now = self.cpu()
            if now - before < 0.1:
                return
            before = now

    def memory(self, what="VmRSS"):
        """MiB resident, of all processes."""
        lines = [line for pid in self.pids() for line in open(f"/proc/{pid}/status") if line.startswith(what)]
        return sum(int(line.split()[1]) for line in lines) / 1024

    def stop(self):
        os.killpg(self.process.pid, signal.SIGTERM)
        self.process.wait(timeout=30)
        self.log.close()

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.stop()
