"""Time and memory, as ratios in one run: `python tests/benchmark/run.py [PATTERN]`. Not part of the tests: machines are noisy."""

import os
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "content" / (sys.argv[1] if len(sys.argv) > 1 else "sanderling-lined-pouch")
ROUNDS = 7

SET = """
import pathlib, sys
from publisher.edition import set_edition
from publisher.pipeline import prove
from publisher.source import read_folder
from publisher.template_pages import DEFAULT_EDITIONS
files, _ = read_folder(pathlib.Path(sys.argv[1]))
proof, _ = prove("demo", files)
for edition in DEFAULT_EDITIONS:
    (pathlib.Path(sys.argv[2]) / f"{edition.name}.html").write_text(set_edition(proof, edition).html, "utf-8")
"""
BARE = """
import pathlib, sys
from weasyprint import HTML
for file in sorted(pathlib.Path(sys.argv[1]).glob("*.html")):
    HTML(string=file.read_text("utf-8"), base_url=sys.argv[2]).write_pdf(pdf_variant="pdf/ua-1")
"""


def run(*command: str, **environment: str) -> float:
    """Seconds of a whole process."""
    # Compiled modules are kept between runs, as they are on every machine that is not told otherwise.
    settings = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    start = time.perf_counter()
    subprocess.run(command, check=True, cwd=ROOT, capture_output=True, env={**settings, **environment})
    return time.perf_counter() - start


def peak_memory(*command: str) -> float:
    """Greatest resident memory of a process of its own, MB."""
    program = (
        "import resource, subprocess, sys; subprocess.run(sys.argv[1:], check=True, capture_output=True); "
        "print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss)"
    )
    done = subprocess.run(
        [sys.executable, "-c", program, *command], check=True, cwd=ROOT, capture_output=True, text=True
    )
    return int(done.stdout) / (1024 * 1024 if sys.platform == "darwin" else 1024)


def alternating(first: tuple[str, ...], second: tuple[str, ...], environment: dict[str, str]) -> tuple[float, float]:
    """Medians of both, run by turns."""
    run(*first), run(*second, **environment)
    times = [(run(*first), run(*second, **environment)) for _ in range(ROUNDS)]
    return statistics.median(one for one, _ in times), statistics.median(two for _, two in times)


def main() -> None:
    """Prints the table."""
    python = sys.executable
    with tempfile.TemporaryDirectory() as folder:
        pages, output = Path(folder) / "pages", Path(folder) / "output"
        pages.mkdir()
        run(python, "-c", SET, str(DEMO), str(pages))
        configuration = Path(folder) / "fonts.conf"
        configuration.write_text(
            f'<?xml version="1.0"?><fontconfig><cachedir>{folder}</cachedir></fontconfig>', "utf-8"
        )
        publish = (python, "-m", "publisher", "publish", str(DEMO), "--into", str(output))
        bare = (python, "-c", BARE, str(pages), f"{(ROOT / 'layouts').as_uri()}/")
        ours, theirs = alternating(publish, bare, {"FONTCONFIG_FILE": str(configuration)})
        print(
            f"publish, both editions  {ours:6.2f} s   bare WeasyPrint  {theirs:5.2f} s   ratio {ours / theirs:4.2f}  (aim ≤ 1.25)"
        )
        proof = (python, "-m", "publisher", "proof", str(DEMO))
        ours, theirs = alternating(proof, (python, "-c", "import shapely"), {})
        print(
            f"proof                   {ours:6.2f} s   import shapely   {theirs:5.2f} s   ratio {ours / theirs:4.2f}  (aim ≤ 5)"
        )
        memory = [
            f"{name} {peak_memory(*command):.0f} MB"
            for name, command in (("publish", publish), ("bare", bare), ("proof", proof))
        ]
        print(f"peak memory             {', '.join(memory)}")


if __name__ == "__main__":
    main()
