#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Times the server's share of an edit: from sending it to the last byte of the view of that revision.

    bench/edits.py [--editors 1] [--edits 200] [--every SECONDS] [--survey bench/data/sixteen-heaters.toml]

Starts the program with a store of its own in a temporary folder. With --every each editor edits at that pace, whatever
came back; without it an edit follows the view of the one before.
"""
import argparse, http.client, json, os, re, sys, threading, time

from server import ROOT, serving


def cpu_seconds(pid):
    fields = open(f"/proc/{pid}/stat").read().rsplit(")", 1)[1].split()
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def call(port, method, path, body=None):
    connection = http.client.HTTPConnection("127.0.0.1", port)
    connection.request(method, path, None if body is None else json.dumps(body), {"Content-Type": "application/json"})
    answer = connection.getresponse()
    text = answer.read()
    connection.close()
    if answer.status >= 300:
        sys.exit(f"{method} {path}: {answer.status} {text[:300]}")
    return json.loads(text) if text else None


class Editor(threading.Thread):
    def __init__(self, port, number, options):
        super().__init__()
        self.port, self.number, self.options = port, number, options
        self.stored, self.done = [], threading.Event()
        self.sent, self.seen, self.sizes, self.view = {}, {}, [], threading.Condition()
        text = open(options.survey).read()
        self.job = call(port, "POST", "/api/jobs", {"name": f"bench {number}", "toml": text})
        threading.Thread(target=self.listen, daemon=True).start()
        self.await_view(1)
        time.sleep(0.2)

    def listen(self):
        connection = http.client.HTTPConnection("127.0.0.1", self.port)
        connection.request("GET", f"/api/jobs/{self.job['id']}/events")
        answer = connection.getresponse()
        event = b""
        while True:
            line = answer.readline()
            if not line:
                return
            if line.startswith(b"event: "):
                event = line[7:].strip()
            elif line.startswith(b"data: ") and event in (b"view", b"change"):
                revision = int(re.match(rb'data: \{"revision":(\d+)', line).group(1))
                with self.view:
                    self.seen.setdefault(revision, time.perf_counter())
                    self.sizes.append(len(line))
                    self.view.notify_all()

    def await_view(self, revision):
        with self.view:
            if not self.view.wait_for(lambda: any(r >= revision for r in self.seen), 60):
                sys.exit("no view came")

    def run(self):
        path, connection = f"/api/jobs/{self.job['id']}", http.client.HTTPConnection("127.0.0.1", self.port)
        revision = 1
        begin = time.perf_counter()
        for i in range(self.options.edits):
            if self.options.every:
                wait = begin + (i + self.number / max(self.options.editors, 1)) * self.options.every - time.perf_counter()
                time.sleep(max(wait, 0))
            what = [  # no value comes twice
                {"path": ["supply", "pressure"], "value": f"{60 + i * 17 / self.options.edits:.3f} psi"},
                {"path": ["supply", "coldest"], "value": f"{44 + i * 2.5 / self.options.edits:.3f} degF"},
                {"path": ["building", "block", 0, "flow"], "value": f"{1.95 + i * 0.05 / self.options.edits:.5f} gpm"},
                {"path": ["preferences", "labour-rate"], "value": round(85 + i * 10 / self.options.edits, 2)},
                {"path": ["gas", "specific-gravity"], "value": round(0.58 + i * 0.04 / self.options.edits, 5)},
            ][i % 5]
            self.sent[revision + 1] = time.perf_counter()
            connection.request("PATCH", path, json.dumps({"revision": revision, "edits": [what]}), {"Content-Type": "application/json"})
            answer = connection.getresponse()
            text = answer.read()
            self.stored.append((time.perf_counter() - self.sent[revision + 1]) * 1000)
            if answer.status != 200:
                sys.exit(text)
            revision = int(re.search(rb'"revision":(\d+)', text).group(1))
            if not self.options.every:
                self.await_view(revision)
        self.done.set()
        time.sleep(2)  # the last views come


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--editors", type=int, default=1)
    parser.add_argument("--edits", type=int, default=200)
    parser.add_argument("--every", type=float, default=0)
    parser.add_argument("--survey", default=f"{ROOT}/bench/data/sixteen-heaters.toml")
    parser.add_argument("--program", default=f"{ROOT}/build/release/bankwright")
    options = parser.parse_args()
    with serving(options.program) as (server, port):
        editors = [Editor(port, n, options) for n in range(options.editors)]
        time.sleep(2)
        before = cpu_seconds(server.pid)
        for editor in editors:
            editor.start()
        for editor in editors:
            editor.done.wait()
        spent = cpu_seconds(server.pid) - before
        memory = int(re.search(r"VmHWM:\s+(\d+)", open(f"/proc/{server.pid}/status").read()).group(1))
        for editor in editors:
            editor.join()
    times, dropped = [], 0
    for editor in editors:
        for revision, at in editor.sent.items():
            if revision in editor.seen:
                times.append((editor.seen[revision] - at) * 1000)
            else:
                dropped += 1
    times.sort()
    stored = sorted(t for editor in editors for t in editor.stored)
    sizes = sorted(size for editor in editors for size in editor.sizes)
    at = lambda share: times[min(int(share * len(times)), len(times) - 1)]
    print(f"{len(editors)} editors, {len(times)} views, {dropped} overtaken by a later edit; sent {sizes[len(sizes) // 2] / 1000:.0f} kB, {sizes[-1] / 1000:.0f} at most; "
          f"ms: p50 {at(0.5):.1f}, p95 {at(0.95):.1f}, p99 {at(0.99):.1f}, most {times[-1]:.1f}; stored: p50 {stored[len(stored) // 2]:.1f}, p95 {stored[int(0.95 * len(stored))]:.1f}; "
          f"the server's processor time: {spent * 1000 / len(stored):.1f} ms an edit, its memory at most {memory / 1000:.0f} MB")


if __name__ == "__main__":
    main()
