"""A pattern read from disk and proved."""

from pathlib import Path

from publisher.checks import Proof
from publisher.pipeline import prove
from publisher.source import read_folder
from publisher.terms import Finding

Texts = tuple[tuple[str, str], ...]


def prove_folder(folder: Path, name: str) -> tuple[Proof | None, tuple[Finding, ...], Texts]:
    """The proof, all findings, and the texts that a finding's line is printed from."""
    files, unread = read_folder(folder)
    proof, findings = prove(name, files)
    texts = tuple(
        (file, content.decode("utf-8-sig", "replace"))
        for file, content in files.items()
        if not file.startswith("kept/")
    )
    return proof, (*unread, *findings), texts
