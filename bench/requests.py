#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Times small requests over kept connections: one after another on each of a few connections.

    bench/requests.py [--connections 4] [--seconds 5] [--program build/release/bankwright]
"""
import argparse, re, socket, threading, time

from server import ROOT, serving


def ask(port, path, seconds, times):
    line = socket.create_connection(("127.0.0.1", port))
    line.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
    request = f"GET {path} HTTP/1.1\r\nHost: 127.0.0.1:{port}\r\nAccept-Encoding: gzip\r\n\r\n".encode()
    end = time.perf_counter() + seconds
    while (begin := time.perf_counter()) < end:
        line.sendall(request)
        answer = line.recv(1 << 20)
        while b"\r\n\r\n" not in answer:
            answer += line.recv(1 << 20)
        head, body = answer.split(b"\r\n\r\n", 1)
        left = int(re.search(rb"Content-Length: (\d+)", head).group(1)) - len(body)
        while left > 0:
            left -= len(line.recv(1 << 20))
        times.append((time.perf_counter() - begin) * 1000)


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--connections", type=int, default=4)
    parser.add_argument("--seconds", type=float, default=5)
    parser.add_argument("--program", default=f"{ROOT}/build/release/bankwright")
    options = parser.parse_args()
    with serving(options.program) as (_, port):
        for path in ["/api/jobs", "/api/words", "/"]:
            times = []
            threads = [threading.Thread(target=ask, args=(port, path, options.seconds, times)) for _ in range(options.connections)]
            for thread in threads:
                thread.start()
            for thread in threads:
                thread.join()
            times.sort()
            at = lambda share: times[min(int(share * len(times)), len(times) - 1)]
            print(f"{path}: {len(times) / options.seconds:.0f} requests/s; ms: p50 {at(0.5):.2f}, p95 {at(0.95):.2f}, p99 {at(0.99):.2f}, most {times[-1]:.1f}")


main()
