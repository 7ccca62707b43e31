"""Loads a server with wrk, at full speed or at a pace."""
import json
import os
import subprocess
import tempfile
import uuid


def wrk(base, visits, connections, seconds, body=None, field="csrf", pause=None, encoding=""):
    """What wrk saw: requests, seconds, p50 and p99 in ms, bytes, failed. Visits are (path, cookie, token of forms)."""
    with tempfile.NamedTemporaryFile("w", suffix=".tsv") as file:
        file.writelines("\t".join(visit) + "\n" for visit in visits)
        file.flush()
        env = {
            **os.environ,
            "VISITS": file.name,
            "ENCODING": encoding,
            "FIELD": field,
            "ORIGIN": base,
            "RUN": uuid.uuid4().hex[:12],
        }
        if body is not None:
            env["BODY"] = body
        if pause is not None:
            env["PAUSE"] = str(pause)
        command = ["wrk", "-t1", f"-c{connections}", f"-d{seconds}s", "--timeout", "30s", "-s", "tests/bench/visit.lua"]
        out = subprocess.run([*command, base], env=env, capture_output=True, text=True, check=True).stdout
    result = next(line for line in out.splitlines() if line.startswith("RESULT "))
    return json.loads(result.removeprefix("RESULT "))


def full(server, visits, connections=16, seconds=5, half=True, **more):
    """Requests a second at full speed, the server's processor time for each, and p99 at half that load."""
    # each page was asked for before: what is computed once a day is not what a visit costs
    wrk(server.base, visits, 2, 5, **more)
    before = server.cpu()
    fast = wrk(server.base, visits, connections, seconds, **more)
    cpu = (server.cpu() - before) / max(fast["requests"], 1)
    rate = fast["requests"] / fast["seconds"]
    row = {"rate": rate, "cpu_ms": 1000 * cpu, "p50": fast["p50"], "p99": fast["p99"], "failed": fast["failed"]}
    row["bytes"] = fast["bytes"] / max(fast["requests"], 1)
    if half:
        slow = wrk(server.base, visits, connections, seconds, pause=1000 * connections / (rate / 2), **more)
        row.update(half_rate=slow["requests"] / slow["seconds"], half_p99=slow["p99"])
        row["failed"] += slow["failed"]
    return row
