"""The page library kept in hand: no mistake is only logged, nothing is fetched, no font leaks in, the same bytes."""

import io
import os
import re
import subprocess
import sys
from pathlib import Path

import pikepdf
import pytest

from publisher.edition.printing import DrawingFailed, print_pdf
from tests.demo import demo_proof, printed_demo

PAGE = (
    '<!DOCTYPE html><html lang="en"><head><title>x</title><link rel="stylesheet" href="edition.css"></head>'
    "<body>{}</body></html>"
)


def test_a_drawing_that_fails_ends_the_printing() -> None:
    broken = '<svg width="10mm" height="10mm" viewBox="0 0 10 10"><title>x</title><path d="M0 0 Q" transform="rotate(a)"/></svg>'
    with pytest.raises(DrawingFailed):
        print_pdf(PAGE.format(broken), (), "2026-01-31")


def test_an_error_that_the_library_logs_ends_the_printing(monkeypatch: pytest.MonkeyPatch) -> None:
    import weasyprint.svg

    def fail(*_: object) -> None:
        raise ValueError("cannot draw this")

    monkeypatch.setattr(weasyprint.svg.SVG, "draw_node", fail)
    drawing = '<svg width="10mm" height="10mm" viewBox="0 0 10 10"><title>x</title><path d="M0 0L5 5"/></svg>'
    with pytest.raises(DrawingFailed):
        print_pdf(PAGE.format(drawing), (), "2026-01-31")


@pytest.mark.parametrize(
    "reference",
    [
        '<img alt="x" src="file:///etc/hostname">',
        '<img alt="x" src="https://x.example/a.png">',
        '<img alt="x" src="../pyproject.toml">',
        '<link rel="stylesheet" href="http://x.example/a.css">',
        '<p style="background: url(ftp://x.example/a)">x</p>',
    ],
)
def test_nothing_but_the_layouts_is_read(reference: str) -> None:
    with pytest.raises(DrawingFailed):
        print_pdf(PAGE.format(reference), (), "2026-01-31")


def test_a_sign_that_the_fonts_lack_is_told() -> None:
    with pytest.raises(DrawingFailed, match="fonts lack"):
        print_pdf(PAGE.format("<p>\U00013080</p>"), (), "2026-01-31")


def test_only_the_product_s_fonts_are_in_the_pdf() -> None:
    with pikepdf.open(io.BytesIO(printed_demo("inch-letter").pdf)) as pdf:
        names = {
            str(thing.BaseFont)
            for thing in pdf.objects
            if isinstance(thing, pikepdf.Dictionary) and "/BaseFont" in thing
        }
    assert names
    assert all(re.fullmatch(r"/[A-Z]{6}\+publisher-text(-Semi-Bold|-Bold)?", name) for name in names), names


def test_the_print_dialog_is_asked_for_actual_size_and_the_pdf_is_tagged() -> None:
    with pikepdf.open(io.BytesIO(printed_demo("metric-a4").pdf)) as pdf:
        preferences = pdf.Root.ViewerPreferences
        assert (preferences.PrintScaling, preferences.PickTrayByPDFSize) == ("/None", True)
        assert preferences.DisplayDocTitle
        assert pdf.Root.MarkInfo.Marked
        assert str(pdf.Root.Lang) == "en"
        assert str(pdf.docinfo["/Title"]) == "Sanderling lined pouch, metric edition, A4"
        assert str(pdf.docinfo["/Author"]) == "Saltmarsh Sewing Room"
        tags = [
            thing for thing in pdf.objects if isinstance(thing, pikepdf.Dictionary) and "/S" in thing and "/P" in thing
        ]
        heads = [tag for tag in tags if tag.S == "/TH"]
        assert heads
        # ISO 14289-1, 7.5: a head cell has a scope; 7.3: a figure has an alternative text (rules read in a published profile).
        assert all(tag.A.Scope == "/Column" for tag in heads)
        figures = [tag for tag in tags if tag.S == "/Figure"]
        assert figures
        assert all(str(tag.Alt) for tag in figures)
        height = 297 / 25.4 * 72
        assert all(0 <= float(tag.A.BBox[1]) < float(tag.A.BBox[3]) <= height + 1 for tag in figures)


def test_bookmarks_lead_to_every_part() -> None:
    with pikepdf.open(io.BytesIO(printed_demo("inch-letter").pdf)) as pdf, pdf.open_outline() as outline:
        titles = [item.title for item in outline.root]
    assert titles[0] == "Sanderling lined pouch"
    for title in (
        "Before you start",
        "Materials",
        "Cutting chart",
        "Marks on the templates",
        "Steps",
        "Template page 1 of 3: flap",
    ):
        assert title in str([*titles, *[child.title for item in outline.root for child in item.children]])


def test_same_source_same_bytes_over_processes_and_hash_seeds(tmp_path: Path) -> None:
    written: list[dict[str, bytes]] = []
    for seed in ("0", "1"):
        into = tmp_path / seed
        command = [sys.executable, "-m", "publisher", "publish", "content/sanderling-lined-pouch", "--into", str(into)]
        subprocess.run(
            command,
            check=True,
            capture_output=True,
            env={**os.environ, "PYTHONHASHSEED": seed},
            cwd=Path(__file__).parents[2],
        )
        written.append({path.name: path.read_bytes() for path in (into / "sanderling-lined-pouch").iterdir()})
    assert written[0].keys() == written[1].keys()
    assert [name for name in written[0] if written[0][name] != written[1][name]] == []


def test_the_demo_has_no_label_without_room() -> None:
    assert demo_proof().findings == ()
    for edition in ("inch-letter", "inch-a4", "metric-a4", "metric-letter"):
        assert [finding.name for finding in printed_demo(edition).findings if finding.name != "fonts-cut-slowly"] == []
