"""A wheel installed outside the checkout works: layouts, words and fonts are inside."""

import os
import subprocess
import sys
import zipfile
from pathlib import Path

ROOT = Path(__file__).parents[1]


def test_a_wheel_installed_elsewhere_publishes(tmp_path: Path) -> None:
    build = [sys.executable, "-m", "build", "--wheel", "--no-isolation", "--outdir", str(tmp_path), str(ROOT)]
    subprocess.run(build, check=True, capture_output=True)
    (wheel,) = tmp_path.glob("*.whl")
    with zipfile.ZipFile(wheel) as archive:
        names = archive.namelist()
        archive.extractall(tmp_path / "installed")
    for needed in (
        "_layouts/edition.html.jinja",
        "_layouts/words/en.toml",
        "_layouts/fonts/OFL.txt",
        "measures/expressions.lark",
    ):
        assert f"publisher/{needed}" in names
    assert not [name for name in names if name.startswith(("tests/", "content/", "build/"))]
    work = tmp_path / "work"
    work.mkdir()
    environment = {**os.environ, "PYTHONPATH": str(tmp_path / "installed")}
    where = subprocess.run(
        [sys.executable, "-c", "import publisher; print(publisher.__file__)"],
        cwd=work,
        env=environment,
        check=True,
        capture_output=True,
        text=True,
    )
    assert where.stdout.startswith(str(tmp_path))
    for arguments in (["new", "turnstone-mat"], ["publish"]):
        subprocess.run(
            [sys.executable, "-m", "publisher", *arguments], cwd=work, env=environment, check=True, capture_output=True
        )
    assert (work / "build" / "turnstone-mat" / "turnstone-mat-inch-letter.pdf").stat().st_size > 10_000
