"""View and sheets set into one HTML document by the layouts. The one door to Jinja2."""

from functools import cache

from jinja2 import Environment, FileSystemLoader, StrictUndefined, select_autoescape
from markupsafe import Markup, escape

from publisher.edition.layouts import layouts_folder
from publisher.edition.requested import RequestedPages
from publisher.edition.sheets import Sheets
from publisher.edition.view import View
from publisher.edition.words import Speaker
from publisher.template_pages import Edition


@cache
def _environment() -> Environment:
    environment = Environment(
        loader=FileSystemLoader(layouts_folder()),
        autoescape=select_autoescape(default=True, default_for_string=True),
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.filters["mm"] = _millimetres
    environment.filters["css_text"] = _css_text
    return environment


def _millimetres(value: float) -> str:
    return f"{value:.3f}mm"


def _css_text(text: str) -> Markup:
    """A text as a CSS string, with {page} and {pages} as counters."""
    escaped = "".join(sign if sign.isalnum() or sign in " .,·:{}" else f"\\{ord(sign):06x}" for sign in text)
    counted = escaped.replace("{page}", '" counter(page) "').replace("{pages}", '" counter(pages) "')
    return Markup(f'"{counted}"')


def edition_html(view: View, requested: RequestedPages, sheets: Sheets, edition: Edition, speak: Speaker) -> str:
    """The whole document, template pages as placeholders."""

    def say_html(key: str, **values: Markup) -> Markup:
        """A line whose gaps are filled with HTML."""
        count = values.pop("count", None)
        line = speak.line(key, str(count) if count is not None else None)
        return Markup(escape(line)).format(**values)

    def listed_html(lines: list[Markup]) -> Markup:
        """`a, b and c` of HTML."""
        return Markup(speak.listed([str(line) for line in lines]))

    template = _environment().get_template("edition.html.jinja")
    return template.render(
        view=view,
        requested=requested,
        sheets=sheets,
        paper=edition.paper,
        paper_name=speak.say(f"paper.{edition.paper.value}"),
        say=speak.say,
        say_html=say_html,
        listed_html=listed_html,
        line=speak.line,
    )
