"""The direction of imports, and which file may open which library's door."""

import ast
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import publisher

PACKAGE = Path(publisher.__file__).parent
# A stage imports only from earlier ones.
STAGES = (
    "frozen",
    "parting",
    "terms",
    "geometry",
    "source",
    "drawings",
    "measures",
    "drafting",
    "assembly",
    "cloth",
    "template_pages",
    "tables",
    "checks",
    "figures",
    "edition",
    "substituting",
    "pipeline",
    "commands",
)
DOORS = {
    "yaml": {"source/yaml_nodes.py"},
    "pydantic": {"source/shapes.py", "source/fitting.py"},
    "lxml": {"drawings/xml_elements.py"},
    "kurbopy": {"geometry/curve_offsets.py"},
    "PIL": {"drawings/pictures.py"},
    "lark": {"measures/grammar.py", "measures/formulas.py", "measures/mark_sayings.py", "measures/sayings.py"},
    "rectpack": {"cloth/packing.py"},
    "spyrrow": {"cloth/nester.py"},
    "shapely": {"geometry/planar.py", "geometry/boxes.py"},
    "svgwrite": {"figures/svg.py", "figures/steps/writer.py"},
    "fontTools": {"edition/text_width.py"},
    "jinja2": {"edition/html.py"},
    "segno": {"edition/qr_codes.py"},
    "markdown": {"edition/prose.py"},
    "weasyprint": {"edition/printing.py"},
    "pydyf": {"edition/pdf_forms.py", "edition/pdf_layers.py", "edition/printing.py", "edition/tags.py"},
}


def _files() -> Iterator[tuple[str, ast.Module]]:
    for path in sorted(PACKAGE.rglob("*.py")):
        yield path.relative_to(PACKAGE).as_posix(), ast.parse(path.read_text("utf-8"))


def _imports(tree: ast.Module) -> Iterator[str]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from (name.name for name in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, "imports are written in full"
            yield node.module or ""


def _stage(file: str) -> str:
    return file.split("/")[0].removesuffix(".py")


def test_stages_import_from_earlier_ones_by_the_front_door() -> None:
    wrong: list[str] = []
    for file, tree in _files():
        here = _stage(file)
        if here in ("__init__", "__main__"):
            continue
        for module in _imports(tree):
            parts = module.split(".")
            if parts[0] != "publisher" or len(parts) == 1:
                continue
            there = parts[1]
            if there != here and STAGES.index(there) > STAGES.index(here):
                wrong.append(f"{file} imports {module}, a later stage")
            if there != here and len(parts) > 2:
                wrong.append(f"{file} imports {module}, past the front door")
    assert wrong == []


def test_each_library_has_its_door() -> None:
    seen: dict[str, set[str]] = {library: set() for library in DOORS}
    for file, tree in _files():
        for module in _imports(tree):
            if module.split(".")[0] in seen:
                seen[module.split(".")[0]].add(file)
    assert seen == DOORS


def test_files_stay_small_and_have_one_subject() -> None:
    for file, tree in _files():
        lines = (PACKAGE / file).read_text("utf-8").count("\n")
        assert lines <= 400, f"{file} has {lines} lines"
        assert "util" not in file
        assert ast.get_docstring(tree), f"{file} says nothing of its subject"


def test_every_public_function_and_class_has_a_docstring() -> None:
    silent = [
        f"{file}: {node.name}"
        for file, tree in _files()
        for node in tree.body
        if isinstance(node, ast.FunctionDef | ast.ClassDef)
        and not node.name.startswith("_")
        and not ast.get_docstring(node)
    ]
    assert silent == []


def test_proof_imports_no_page_library() -> None:
    program = (
        "import sys\n"
        "from publisher.commands import run\n"
        "code = run(['proof', 'content/sanderling-lined-pouch'])\n"
        "of_pages = {'weasyprint', 'jinja2', 'markdown', 'fontTools', 'pydyf', 'svgwrite', 'segno', 'PIL'}\n"
        "print(code, sorted(of_pages & set(sys.modules)))\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True, cwd=PACKAGE.parent
    )
    assert done.stdout.splitlines()[-1] == "0 []"


def test_words_for_the_reader_are_in_the_layouts() -> None:
    """Every phrase that Python makes has its line in the words file, and every line of it is used."""
    import re
    import tomllib

    def keys(table: dict[str, object], prefix: str = "") -> Iterator[str]:
        for key, value in table.items():
            if isinstance(value, dict) and not set(value) <= {"one", "other"}:
                yield from keys(value, f"{prefix}{key}.")
            else:
                yield prefix + key

    layouts = PACKAGE.parent / "layouts"
    known = set(keys(tomllib.loads((layouts / "words" / "en.toml").read_text("utf-8"))))
    sources = [path.read_text("utf-8") for path in (*PACKAGE.rglob("*.py"), *layouts.rglob("*.jinja"))]
    named = {key for text in sources for key in re.findall(r'["\']([a-z]+\.[a-z0-9.-]+)["\']', text)}
    families = (
        "cautions.",
        "legend.",
        "terms.",
        "units.",
        "paper.",
        "chart.fold-",
        "chart.grain-",
        "chart.joined-",
        "chart.to-finished-line",
        "chart.without-allowance",
        "label.hem",
        "label.casing",
        "templates.neighbour-",
        "needles.",
        "threads.",
    )
    unused = {key for key in known - named if not key.startswith(families)}
    assert unused == set()
    groups = {key.split(".")[0] for key in known}
    missing = {key for key in named - known if key.split(".")[0] in groups and not key.endswith((".py", ".md", ".css"))}
    assert missing == set()
