# SPDX-License-Identifier: MIT
"""A server of its own for a measurement, with an empty file of jobs in a temporary folder."""
import contextlib, os, re, subprocess, tempfile

ROOT = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))


@contextlib.contextmanager
def serving(program):
    """The server's process and its port; it is ended afterwards."""
    with tempfile.TemporaryDirectory() as folder:
        server = subprocess.Popen([program, "serve", "--port", "0", "--no-open", "--jobs", f"{folder}/jobs.db"], stdout=subprocess.PIPE, text=True)
        try:
            yield server, int(re.search(r":(\d+)/", server.stdout.readline()).group(1))
        finally:
            server.terminate()
            server.wait()
