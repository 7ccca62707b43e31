"""Writes the figures of a run as the table that stands in the repository."""
import json
import os
import subprocess
import sys

HEADS = ["of", "what", "requests/s", "CPU ms a request", "p50 ms", "p99 ms", "p99 ms at half load", "bytes", "failed"]

SHORT = "## What falls short, and what to try next"


def machine():
    with open("/proc/cpuinfo") as info:
        names = [line.split(": ", 1)[1].strip() for line in info if line.startswith("model name")]
    with open("/proc/meminfo") as info:
        kib = int(next(info).split()[1])
    return f"{len(names)} x {names[0]}, {kib / 2**20:.0f} GiB"


def line(cells):
    return "| " + " | ".join(str(c) for c in cells) + " |"


def figures(row):
    half = f"{row['half_p99']:.1f}" if "half_p99" in row else ""
    return [
        row["name"], row["what"], f"{row['rate']:,.0f}", f"{row['cpu_ms']:.3f}", f"{row['p50']:.1f}", f"{row['p99']:.1f}",
        half, f"{row['bytes']:,.0f}", row["failed"],
    ]


class Goals:
    """What is to be reached, and what was."""

    def __init__(self, rows, told):
        self.at = {(r["name"], r["what"]): r for r in rows}
        self.told = told
        self.lines = []

    def ratio(self, words, one, other, goal, most=False, of="rate"):
        reached = self.at[one][of] / self.at[other][of]
        good = reached <= goal if most else reached >= goal
        self.say(words, f"{reached:.2f}", f"{'at most' if most else 'at least'} {goal}", good)

    def value(self, words, reached, goal, most=True, unit=""):
        good = reached <= goal if most else reached >= goal
        self.say(words, f"{reached:,.1f}{unit}", f"{'at most' if most else 'at least'} {goal:,}{unit}", good)

    def say(self, words, reached, goal, good):
        self.lines.append(line([words, reached, goal, "yes" if good else "**no**"]))

    def all(self):
        table, count = "club table", "save a count"
        self.ratio("club table, times the peer's requests/s", ("SQLite", table), ("peer", table), 20)
        for engine in ("SQLite", "PostgreSQL"):
            self.ratio(f"club table, of the same page from memory, {engine}", (engine, table), ("from memory", table), 0.6)
            self.value(f"club table, p99 at half load, {engine}", self.at[engine, table]["half_p99"], 10, unit=" ms")
        cost = [("SQLite", table), ("SQLite, a tenth", table)]
        self.ratio("club table, CPU with ten times the trials", *cost, 1.2, most=True, of="cpu_ms")
        self.value("saves of counts a second, SQLite", self.at["SQLite", count]["rate"], 1000, most=False)
        bare = self.told["bare_commits"] / self.at["SQLite", count]["rate"]
        self.value("a saved count, times the bare commit of its rows", bare, 1.5)
        for what in ("due now", "bag"):
            self.value(f"{what}, SQL statements", self.told["statements"][what], 6)
        for engine in ("SQLite", "PostgreSQL"):
            self.value(f"start to first answer, {engine}", self.told[engine]["started_ms"], 100, unit=" ms")
            self.value(f"memory at rest, {engine}", self.told[engine]["rest"], 120, unit=" MiB")
        self.value("the program's file", self.told["binary"], 25, unit=" MB")
        return self.lines


def by_hand(out):
    """What somebody wrote below the last table: why goals were missed, and what to try next."""
    if not os.path.exists(out):
        return SHORT
    with open(out) as file:
        return SHORT + file.read().partition(SHORT)[2]


def main(result, out):
    with open(result) as file:
        run = json.load(file)
    commit = subprocess.run(["git", "rev-parse", "--short", "HEAD"], capture_output=True, text=True).stdout.strip()
    text = ["# What it costs", "", f"`tests/bench/run {run['size']}` at {commit} on {machine()}; all in one run, wrk on the same cores.", ""]
    text += ["The peer is `tests/bench/peer`: Django with its ORM under gunicorn over the same SQLite file. \"From memory\" makes", "the same bytes from parts in memory, escaping each value. Counts saved are looks without news.", ""]
    text += [line(["goal", "reached", "to reach", ""]), line(["---"] * 4), *Goals(run["rows"], run["told"]).all(), ""]
    text += [line(HEADS), line(["---"] * len(HEADS)), *(line(figures(r)) for r in run["rows"]), ""]
    told = run["told"]
    text += [f"Bare durable commits of a count's rows: {told['bare_commits']:,.0f}/s. SQL statements: "
             + ", ".join(f"{what} {n}" for what, n in told["statements"].items()) + "."]
    for name in ("SQLite", "PostgreSQL", "a tenth"):
        t = told[name]
        text += [f"{name}: first answer after {t['started_ms']:.0f} ms, {t['rest']:.0f} MiB at rest with the table made, {t['most']:.0f} MiB at most."]
    text += [f"The peer holds {told['peer']:.0f} MiB."]
    text += ["", by_hand(out)]
    with open(out, "w") as file:
        file.write("\n".join(text).rstrip() + "\n")
    print("\n".join(text))


if __name__ == "__main__":
    os.chdir(os.path.join(os.path.dirname(__file__), "../.."))
    main(*sys.argv[1:])
