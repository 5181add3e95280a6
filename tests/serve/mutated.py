#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Sends mutated requests to a server of its own on this computer, and tells what did not go as it should.

    tests/serve/mutated.py [--program build/asan/bankwright] [--requests 100000] [--seed 1] [--threads 8] [--wait 0.03]

Meant for the asan preset (cmake --preset asan && cmake --build --preset asan --target bankwright): what the sanitizers say is a finding.
So is an end of the program, a 500, an answer without its safety headers or with words of the inside, or an ordinary request that is
not answered in time. Exit status 1 where there is a finding.
"""
import argparse, collections, json, os, random, re, signal, socket, subprocess, sys, tempfile, threading, time

ROOT = os.path.dirname(os.path.dirname(os.path.dirname(os.path.abspath(__file__))))
INSIDE = re.compile(rb"std::|\.cpp|\.h:|SELECT |soci|sqlite|boost|terminate|/src/|0x[0-9a-f]{8}", re.I)
WORDS = [b"\r\n", b"\n", b"\r", b"\0", b" ", b"\t", b":", b";", b",", b"%", b"%00", b"%2e%2e", b"..", b"//", b"\xff\xfe", b"\x7f", b"HTTP/1.0",
         b"HTTP/1.1", b"Range: bytes=0-9999999999\r\n", b"Range: bytes=9999999999-\r\n", b"Range: bytes=-5,0-0,7-3\r\n",
         b"Transfer-Encoding: chunked\r\n", b"Transfer-Encoding: identity\r\n", b"Content-Length: 0\r\n", b"Content-Length: 18446744073709551615\r\n",
         b"Content-Length: -1\r\n", b"Content-Length: 5\r\n", b"Expect: 100-continue\r\n", b"Connection: close\r\n", b"Connection: upgrade\r\n",
         b"Host: evil.example\r\n", b"Origin: null\r\n", b"Sec-Fetch-Site: cross-site\r\n", b"If-None-Match: *\r\n", b"Accept-Encoding: gzip\r\n",
         b"0\r\n\r\n", b"ffffffffffffffff\r\n", b"1;a=b\r\n", b" folded\r\n", b"?revision=2147483648", b"&units=si", b"[" * 300, b"{" * 300, b'{"a":' * 50,
         b"A" * 5000, b"9" * 400, b"1e999", b"-1", b"null", b'"', b"[}", b"<script>"]


def templates(port, job):
    host = f"Host: 127.0.0.1:{port}\r\n"
    def plain(method, path, more=""):
        return f"{method} {path} HTTP/1.1\r\n{host}{more}\r\n".encode()
    def body(method, path, text, kind="application/json"):
        return plain(method, path, f"Content-Type: {kind}\r\nContent-Length: {len(text)}\r\n") + text
    def chunks(method, path, text, kind="application/json"):
        half = len(text) // 2
        return plain(method, path, f"Content-Type: {kind}\r\nTransfer-Encoding: chunked\r\n") + b"".join(
            b"%x\r\n%s\r\n" % (len(part), part) for part in (text[:half], text[half:])) + b"0\r\n\r\n"
    edit = json.dumps({"revision": 1, "edits": [{"path": ["supply", "pressure"], "value": "61 psi"}]}).encode()
    toml = b"[job]\ntitle = \"x\"\n[building]\nuse = \"gymnasium\"\n"
    at = f"/api/jobs/{job}"
    often = [plain("GET", "/"), plain("HEAD", "/"), plain("GET", "/api/words"), plain("GET", "/api/jobs"), plain("GET", at), plain("GET", f"{at}/survey.toml?revision=1"),
             plain("GET", f"{at}/events?units=si"), plain("HEAD", f"{at}/events"), plain("OPTIONS", "/api/jobs"), plain("DELETE", "/api/jobs/none"),
             plain("GET", "/", "Range: bytes=0-9\r\nIf-Range: \"x\"\r\n"), body("POST", "/api/jobs", b'{"from":"nothing"}'), body("PATCH", at, edit), chunks("PATCH", at, edit),
             body("PUT", f"{at}/survey.toml", toml, "application/toml"), chunks("PUT", f"{at}/survey.toml", toml, "application/toml"), body("POST", f"{at}/undo", b"{}"),
             body("PATCH", at, b'{"name":"y"}'), plain("POST", f"{at}/redo"), body("POST", f"{at}/rest", b"{}"), plain("GET", f"{at}/documents"),
             body("POST", "/api/jobs", b"{}", "text/plain"), plain("GET", "/../etc/passwd"), plain("GET", "/api/jobs", "Origin: http://evil.example\r\n")]
    seldom = [plain("GET", f"{at}/view"), plain("GET", f"{at}/checks/gas.meter"), body("POST", "/api/jobs", b'{"from":"starter"}')]
    return often, seldom


def mutated(chance, often, seldom):
    def one():
        return chance.choice(seldom if chance.random() < 0.01 else often)
    data = bytearray(one())
    if chance.random() < 0.2:
        data += one()  # one behind the other
    for _ in range(chance.choice([0, 1, 1, 2, 3, 8])):
        at = chance.randrange(len(data) + 1)
        kind = chance.randrange(7)
        if kind == 0 and data:
            data[min(at, len(data) - 1)] = chance.randrange(256)
        elif kind == 1:
            del data[at:at + chance.choice([1, 1, 2, 5, 20])]
        elif kind == 2:
            data[at:at] = chance.choice(WORDS)
        elif kind == 3:
            lines = [m.end() for m in re.finditer(b"\r\n", data)]
            where = chance.choice(lines) if lines else at
            data[where:where] = chance.choice(WORDS)
        elif kind == 4:
            end = at + chance.choice([1, 4, 30])
            data[at:at] = data[at:end]
        elif kind == 5:
            del data[at:]
        else:
            numbers = list(re.finditer(rb"\d+", data))
            if numbers:
                m = chance.choice(numbers)
                data[m.start():m.end()] = chance.choice([b"0", b"1", b"-1", b"99999999999999999999", b"2147483648", b"+5", b"0x5", b"", b"1.5"])
    return bytes(data)


class Run:
    def __init__(self, options):
        self.options, self.folder = options, tempfile.TemporaryDirectory()
        self.statuses, self.findings, self.lock = collections.Counter(), [], threading.Lock()
        self.times, self.turned_away = [], 0  # of the ordinary requests in between
        environment = dict(os.environ, LSAN_OPTIONS=f"suppressions={ROOT}/tests/support/lsan.supp", UBSAN_OPTIONS="print_stacktrace=1")
        self.errors = open(f"{self.folder.name}/errors", "w+")
        self.server = subprocess.Popen([options.program, "serve", "--port", "0", "--no-open", "--jobs", f"{self.folder.name}/jobs.db"],
                                       stdout=subprocess.PIPE, stderr=self.errors, text=True, env=environment)
        self.port = int(re.search(r":(\d+)/", self.server.stdout.readline()).group(1))
        self.job = json.loads(self.ask(b"POST /api/jobs HTTP/1.1\r\nHost: 127.0.0.1:%d\r\nContent-Type: application/json\r\nContent-Length: 2\r\nConnection: close\r\n\r\n{}"
                                       % self.port, 30).split(b"\r\n\r\n", 1)[1])["id"]

    def ask(self, data, wait, split=0, hang_up=False):
        out = b""
        try:
            with socket.create_connection(("127.0.0.1", self.port), timeout=10) as line:
                line.settimeout(wait)
                line.sendall(data[:split])
                if split:
                    time.sleep(0.002)
                line.sendall(data[split:])
                if hang_up:
                    line.shutdown(socket.SHUT_WR)
                while len(out) < 4 << 20:
                    block = line.recv(65536)
                    if not block:
                        break
                    out += block
        except OSError:  # late, or closed by the other side
            pass
        return out

    def find(self, what, data):
        with self.lock:
            self.findings.append(f"{what}: {data[:300]!r}")

    def judge(self, data, answer):
        heads = re.findall(rb"HTTP/1\.1 (\d\d\d) (.*?)\r\n\r\n", answer, re.S)
        with self.lock:
            self.statuses.update([int(status) for status, _ in heads] or ["no answer"])
        for status, head in heads:
            if status == b"500":
                self.find("a fault of the program's own", data)
            if status != b"100" and b"Content-Security-Policy: default-src 'none'" not in head:
                self.find("an answer without its safety headers", data)
        if heads and heads[0][0] >= b"400" and INSIDE.search(answer):
            self.find(f"words of the inside ({INSIDE.search(answer).group()!r})", data)

    def work(self, number):
        chance = random.Random(f"{self.options.seed}/{number}")
        often, seldom = templates(self.port, self.job)
        for turn in range(number, self.options.requests, self.options.threads):
            data = mutated(chance, often, seldom)
            split = chance.randrange(len(data) + 1) if chance.random() < 0.1 else 0
            self.judge(data, self.ask(data, self.options.wait, split, chance.random() < 0.5))
            if turn % 500 == 0:
                self.ask_in_between()
            if self.server.poll() is not None:
                return

    def ask_in_between(self):
        """An ordinary request, sent again as the refusal says where too many ask at once."""
        begin = time.perf_counter()
        while True:
            answer = self.ask(b"GET /api/jobs HTTP/1.1\r\nHost: 127.0.0.1:%d\r\nConnection: close\r\n\r\n" % self.port, 20)
            taken = time.perf_counter() - begin
            turned_away = not answer or answer.startswith(b"HTTP/1.1 503")
            if not turned_away or taken > 10:
                break
            with self.lock:
                self.turned_away += 1
            time.sleep(0.2)
        with self.lock:
            self.times.append(taken)
        if not answer.startswith(b"HTTP/1.1 200") or taken > 10:
            self.find(f"an ordinary request was not answered in time or not rightly, after {taken:.1f} s", answer)

    def run(self):
        begin = time.time()
        threads = [threading.Thread(target=self.work, args=(n,)) for n in range(self.options.threads)]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        if self.server.poll() is not None:
            self.findings.append(f"the program ended with {self.server.returncode}")
        else:
            status = open(f"/proc/{self.server.pid}/status").read()
            number = lambda name: int(re.search(name + r":\s+(\d+)", status).group(1))
            files = len(os.listdir(f"/proc/{self.server.pid}/fd"))
            print(f"memory at most {number('VmHWM') / 1000:.0f} MB, {files} files open, {number('Threads')} threads")
            self.server.send_signal(signal.SIGTERM)
            try:
                if self.server.wait(30) != 0:
                    self.findings.append(f"told to end, the program ended with {self.server.returncode}")
            except subprocess.TimeoutExpired:
                self.findings.append("told to end, the program did not")
                self.server.kill()
        self.errors.seek(0)
        said = self.errors.read()
        if said.strip():
            self.findings.append("said to the terminal: " + said[:3000])
        print(f"{self.options.requests} requests, seed {self.options.seed}, {time.time() - begin:.0f} s; answers: "
              + ", ".join(f"{status}: {count}" for status, count in sorted(self.statuses.items(), key=str)))
        if self.times:
            self.times.sort()
            print(f"{len(self.times)} ordinary requests in between, turned away {self.turned_away} times; answered after "
                  f"{self.times[len(self.times) // 2]:.2f} s, at most {self.times[-1]:.2f} s")
        print(f"{len(self.findings)} findings")
        for finding in self.findings[:20]:
            print(" ", finding)
        return 1 if self.findings else 0


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--program", default=f"{ROOT}/build/asan/bankwright")
    parser.add_argument("--requests", type=int, default=100_000)
    parser.add_argument("--seed", default="1")
    parser.add_argument("--threads", type=int, default=8)
    parser.add_argument("--wait", type=float, default=0.03, help="seconds for an answer, of which many rightly have none")
    sys.exit(Run(parser.parse_args()).run())


main()
