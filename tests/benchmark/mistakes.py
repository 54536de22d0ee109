"""How long `publisher proof` takes to tell 300 mistakes of one pattern: `python tests/benchmark/mistakes.py`.

A hundred measures that name nothing, a hundred quotes that name nothing, and a hundred seams whose sides differ.
"""

import subprocess
import sys
import tempfile
import time
from pathlib import Path

HEAD = """\
title: Specimen
revision: "1"
date: 2026-01-31
allowance: 3/8 in | 1 cm
materials:
  canvas:
    kind: fabric
    name: Canvas
    sold:
      - 42 in wide | 110 cm wide
"""
EACH = 100


def pattern() -> str:
    measures = "".join(f"  wrong {at}: rihgt {at} + 1 cm\n" for at in range(EACH))
    pieces = "".join(
        f"  piece {at}:\n    outline:\n      rectangle: {10 + at / 60} cm by 10 cm\n    copies:\n      only: canvas\n"
        for at in range(0, 10 * EACH + 10, 10)
    )
    seams = "".join(
        f"  seam {at}:\n    join:\n      - piece {at}.top edge\n      - piece {at + 10}.bottom edge\n"
        for at in range(0, 10 * EACH, 10)
    )
    return f"{HEAD}measures:\n{measures}pieces:\n{pieces}seams:\n{seams}"


def steps() -> str:
    told = "".join(f"{at + 2}. Fold the {{flpa {at}}}.\n" for at in range(EACH))
    sewn = "".join(f"   Does: sew seam {at}\n" for at in range(0, 10 * EACH, 10))
    return f"## Work\n\n1. Cut and sew.\n   Does: cut all\n{sewn}{told}"


def main() -> None:
    """Prints how many findings were told, and the seconds that the whole process took."""
    with tempfile.TemporaryDirectory() as folder:
        Path(folder, "pattern.yaml").write_text(pattern(), encoding="utf-8")
        Path(folder, "steps.md").write_text(steps(), encoding="utf-8")
        begun = time.perf_counter()
        done = subprocess.run(
            [sys.executable, "-m", "publisher", "proof", folder], capture_output=True, text=True, check=False
        )
        taken = time.perf_counter() - begun
    last = next(line for line in (done.stdout + done.stderr).splitlines() if " errors" in line)
    print(f"{last}\n{taken:.2f} s, whole process, exit {done.returncode}")


if __name__ == "__main__":
    main()
