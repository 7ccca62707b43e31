"""Measures the program, its floor and the general peer side by side, and writes the table of figures."""
import json
import os
import shutil
import subprocess
import sys
import time

from load import full, wrk
from server import Server, answer, ready

HILUM, FLOOR = "target/release/hilum", "target/release/examples/floor"
WORK = "target/bench"


def floor(*words):
    return subprocess.run([FLOOR, *words], check=True, capture_output=True, text=True).stdout


def made(url, size):
    """The large club at `url`, made where it is not there."""
    began = time.monotonic()
    floor("fill", url, size)
    print(f"made {size} at {url.split(':')[0]} in {time.monotonic() - began:.0f} s", flush=True)


def sqlite_club(size):
    """A fresh copy of the club of this size: what one run writes does not stand in the next."""
    kept = f"{WORK}/club-{size.replace(',', '-')}-{len(os.listdir('migrations'))}.db"
    if not os.path.exists(kept):
        made(f"sqlite:{kept}.new", size)
        os.rename(f"{kept}.new", kept)
    for ending in ("", "-wal", "-shm"):
        if os.path.exists(f"{WORK}/club.db{ending}"):
            os.remove(f"{WORK}/club.db{ending}")
    shutil.copy(kept, f"{WORK}/club.db")
    return f"sqlite:{WORK}/club.db"


class Members:
    """Members with sessions, and the open bags of each."""

    def __init__(self, url):
        self.all = [json.loads(line) for line in floor("members", url).splitlines()]
        self.first = cookie(self.all[0])

    def visits(self, path):
        """Everybody to the same page."""
        return [(path, cookie(m), m["csrf"]) for m in self.all]

    def bags(self, ending=""):
        """Everybody to each of their open bags, those of one member far apart."""
        number = max(len(m["bags"]) for m in self.all)
        return [
            (f"/bags/{m['bags'][n]}{ending}", cookie(m), m["csrf"])
            for n in range(number)
            for m in self.all
            if n < len(m["bags"])
        ]


def cookie(member):
    return member.get("peer") or f"hilum={member['session']}"


def hilum(url, port, name="hilum", **env):
    data = f"{WORK}/data"
    os.makedirs(data, exist_ok=True)
    command = [HILUM, "--data", data, "--database-url", url, "--listen", f"127.0.0.1:{port}", "serve"]
    quiet = {"HILUM_LOG_LEVEL": "warn", "HILUM_BACKUP_EVERY": "0", "HILUM_SAVES_A_MINUTE": "1000000", **env}
    return Server(name, command, f"http://127.0.0.1:{port}", "/sign-in", **quiet)


def statements(url, members):
    """SQL statements of each page, asked a second time."""
    paths = dict(pages(members))
    told = json.loads(floor("statements", url, members.all[0]["session"], *paths.values()))
    return {what: told[path] for what, path in paths.items()}


def pages(members):
    return [("due now", "/"), ("bag", members.bags()[0][0]), ("club table", "/table"), ("packets", "/packets")]


def kept_pages(server, members):
    """The pages as files, for the floor to make from memory."""
    folder = f"{WORK}/pages"
    shutil.rmtree(folder, ignore_errors=True)
    os.makedirs(folder)
    for what, path in pages(members):
        with open(f"{folder}/{what.replace(' ', '-')}", "wb") as file:
            file.write(ready(server.base + path, members.first)[1])
    return folder


def row(name, what, figures, beside=None):
    figures = {"name": name, "what": what, **figures}
    share = f", {100 * figures['rate'] / beside:.0f} % of the same from memory" if beside else ""
    half = f", p99 at half {figures['half_p99']:.1f} ms" if "half_p99" in figures else ""
    print(
        f"{name:22} {what:12} {figures['rate']:9.0f}/s  {figures['cpu_ms']:7.3f} ms CPU  p50 {figures['p50']:.1f}"
        f"  p99 {figures['p99']:.1f} ms{half}  {figures['bytes']:.0f} B  {figures['failed']} failed{share}",
        flush=True,
    )
    return figures


def reads(server, name, members, memory):
    rows = []
    for what, path in pages(members):
        visits = members.bags() if path.startswith("/bags/") else members.visits(path)
        beside = memory.get(what, {}).get("rate")
        rows.append(row(name, what, full(server, visits), beside))
    return rows


def counts(server, name, members, body="nothing=yes", **more):
    return row(name, "save a count", full(server, members.bags("/count"), 32, body=body, **more))


def floor_rows(folder):
    rows, port = [], 8491
    with Server("floor", [FLOOR, "serve", f"127.0.0.1:{port}", folder], f"http://127.0.0.1:{port}") as server:
        rows.append(row("bare axum", "two bytes", full(server, [("/", "", "")])))
        for page in sorted(os.listdir(folder)):
            rows.append(row("from memory", page.replace("-", " "), full(server, [(f"/{page}", "", "")])))
    return rows


def peer_rows(members, url):
    port, python = 8492, os.path.abspath(f"{WORK}/python/bin")
    command = [f"{python}/gunicorn", "--workers", "3", "--threads", "2", "--bind", f"127.0.0.1:{port}"]
    command += ["--chdir", "tests/bench/peer", "--max-requests", "0", "club.wsgi:application"]
    database = os.path.abspath(url.removeprefix("sqlite:"))
    with Server("peer", command, f"http://127.0.0.1:{port}", "/table", PEER_DATABASE=database) as server:
        for member in members.all:
            _, token, headers = answer(f"{server.base}/sign-in/{member['name']}")
            cookies = [c.split(";")[0] for c in headers.get_all("Set-Cookie")]
            member["peer"], member["csrf"] = "; ".join(cookies), token.decode()
        rows = [row("peer", "club table", full(server, members.visits("/table"), seconds=10))]
        rows.append(row("peer", "bag", full(server, members.bags())))
        rows.append(counts(server, "peer", members, body="rooted=0", field="csrfmiddlewaretoken"))
        return rows, server.memory()


def engine_rows(url, name, memory, port):
    members = Members(url)
    with hilum(url, port) as server:
        ready(server.base + "/table", members.first)
        server.rests()
        rest = server.memory()
        rows = reads(server, name, members, memory)
        rows.append(counts(server, name, members))
        facts = {"started_ms": server.started_ms, "rest": rest, "most": server.memory("VmHWM")}
    return rows, facts


def main(size):
    os.makedirs(WORK, exist_ok=True)
    url = sqlite_club(size)
    members = Members(url)
    with hilum(url, 8490) as server:
        folder = kept_pages(server, members)
    rows = floor_rows(folder)
    memory = {r["what"]: r for r in rows}
    bare = float(floor("commits", f"{WORK}/club.db", "5"))
    print(f"bare commits of a count's rows: {bare:.0f}/s")
    told = {"bare_commits": bare, "statements": statements(url, members)}
    print(told["statements"])
    for name, database in [("SQLite", sqlite_club(size)), ("PostgreSQL", os.environ["TEST_DATABASE_URL"])]:
        if name == "PostgreSQL":
            made(database, size)
        some, told[name] = engine_rows(database, name, memory, 8490)
        rows += some
        print(f"{name}: {told[name]}")
    tenth = ",".join(str(max(int(n) // by, 1)) for n, by in zip(size.split(","), (10, 10, 1)))
    some, told["a tenth"] = engine_rows(sqlite_club(tenth), "SQLite, a tenth", {}, 8490)
    rows += some
    url = sqlite_club(size)
    some, told["peer"] = peer_rows(Members(url), url)
    rows += some
    told["binary"] = os.path.getsize(HILUM) / 1e6
    with open(f"{WORK}/result.json", "w") as file:
        json.dump({"size": size, "rows": rows, "told": told}, file, indent=1)


if __name__ == "__main__":
    main(sys.argv[1])
