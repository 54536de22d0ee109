"""How long the proof of each demo takes, whole process: `python tests/benchmark/proofs.py [ROUNDS]`; the aim is a second.

In one process and in two, in turns, the best of so many rounds, beside the bare import of the libraries: a busy machine
slows all of them.
"""

import os
import subprocess
import sys
import time
from pathlib import Path

ROOT = Path(__file__).parents[2]
ROUNDS = int(sys.argv[1]) if len(sys.argv) > 1 else 7
ONE = {"PUBLISHER_ONE_PROCESS": "1"}


def seconds(*command: str, **environment: str) -> float:
    """Of a whole process; compiled modules are kept, as on every machine that is not told otherwise."""
    settings = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    start = time.perf_counter()
    subprocess.run(command, check=True, cwd=ROOT, capture_output=True, env={**settings, **environment})
    return time.perf_counter() - start


def main() -> None:
    """Prints a row a demo."""
    bare = (sys.executable, "-c", "import click, lark, numpy, pydantic, shapely, yaml")
    libraries = min(seconds(*bare) for _ in range(ROUNDS))
    print(f"{'libraries alone':24} {libraries:5.2f} s")
    for folder in sorted((ROOT / "content").iterdir()):
        command = (sys.executable, "-m", "publisher", "proof", str(folder))
        seconds(*command)
        both = [(seconds(*command, **ONE), seconds(*command)) for _ in range(ROUNDS)]
        one, two = (min(times) for times in zip(*both, strict=True))
        print(
            f"{folder.name:24} {one:5.2f} s in one process, {two:5.2f} s as it is, {two / libraries:4.1f} × the libraries"
        )


if __name__ == "__main__":
    main()
