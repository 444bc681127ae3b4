"""What readers see of a source: a note for those who work on the tables stays there."""

from crumbcoat_calc.label.caution_table import all_cautions
from crumbcoat_calc.tables import citations, public_source
from crumbcoat_calc.texts.explained import EXPLAINED


def test_no_reader_sees_that_a_source_was_written_from_memory() -> None:
    shown = [caution.source_text for caution in all_cautions()] + [figure.source for figure in EXPLAINED]
    shown += [f"{figure.meaning} {figure.model.name} {figure.model.validity}" for figure in EXPLAINED]
    assert [text for text in shown if "memory" in text.lower()] == []
    assert [text for text in citations().values() if "memory" in text.lower()]
    assert [text for text in shown if "not checked against the work" in text] == []
    assert public_source("29 CFR 1910.212, from memory") == "29 CFR 1910.212, not checked against the work"
