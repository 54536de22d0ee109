"""The words every stage shares: places, findings, exact lengths and their rounding, phrases, variants."""

from publisher.terms.amounts import of_variant, tell_length
from publisher.terms.findings import Finding, Severity, Unusable, merge_findings
from publisher.terms.hashing import Walked, content_hash, walked
from publisher.terms.lengths import (
    AMOUNT_PATTERN,
    UNITS,
    Dimension,
    DimensionError,
    Quantity,
    length,
    number,
    read_amount,
    read_length,
)
from publisher.terms.nearest import did_you_mean, did_you_mean_or_gone, nearest_name
from publisher.terms.phrases import Phrase
from publisher.terms.places import Place
from publisher.terms.rounding import (
    NumberStyle,
    conversion_error,
    convert_length,
    fine_step,
    long_cut_step,
    print_cloth,
    print_decimal,
    print_fine_length,
    print_length,
    print_quantity,
    round_cut,
    round_length,
    round_long_cut,
    round_off_a_tape,
    round_up_to_step,
    selling_step,
)
from publisher.terms.variants import UnitSystem, Variant
from publisher.terms.written import Written

__all__ = [
    "AMOUNT_PATTERN",
    "UNITS",
    "Dimension",
    "DimensionError",
    "Finding",
    "NumberStyle",
    "Phrase",
    "Place",
    "Quantity",
    "Severity",
    "UnitSystem",
    "Unusable",
    "Variant",
    "Walked",
    "Written",
    "content_hash",
    "conversion_error",
    "convert_length",
    "did_you_mean",
    "did_you_mean_or_gone",
    "fine_step",
    "length",
    "long_cut_step",
    "merge_findings",
    "nearest_name",
    "number",
    "of_variant",
    "print_cloth",
    "print_decimal",
    "print_fine_length",
    "print_length",
    "print_quantity",
    "read_amount",
    "read_length",
    "round_cut",
    "round_length",
    "round_long_cut",
    "round_off_a_tape",
    "round_up_to_step",
    "selling_step",
    "tell_length",
    "walked",
]
