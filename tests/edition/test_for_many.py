"""An edition for many: cloth, counts and notions multiplied, and said so; templates one set."""

from publisher.edition.printed import set_edition
from publisher.pipeline import for_many
from publisher.template_pages import DEFAULT_EDITIONS
from tests.demo import demo_proof


def test_cover_header_materials_and_chart_say_for_twelve() -> None:
    proof = demo_proof("curlew-wash-bag")
    many = for_many(proof, 12)
    for edition in DEFAULT_EDITIONS:
        html, one = set_edition(many, edition).html, set_edition(proof, edition).html
        for words in ("for 12, ", "<h2>Materials for 12</h2>", "<h2>Cutting chart for 12</h2>", "12 × D-ring"):
            assert words in html
            assert words not in one
        assert html.count("for 12</") == 3  # with the cover's own line
        assert set_edition(many, edition).sheets == set_edition(proof, edition).sheets


def test_for_one_is_the_pattern_itself() -> None:
    proof = demo_proof("curlew-wash-bag")
    assert for_many(proof, 1) is proof
