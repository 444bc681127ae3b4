"""Texts of the cautions for a batch, which begin by saying once that the local food code comes first."""

from collections.abc import Sequence

from crumbcoat_calc.label.caution_facts import caution_facts_of
from crumbcoat_calc.label.caution_table import READERS, Caution, Readers
from crumbcoat_calc.label.cautions import cautions_for
from crumbcoat_calc.label.class_cautions import ShortCaution, class_cautions
from crumbcoat_calc.label.ingredient_list import IngredientList
from crumbcoat_calc.label.step_cautions import titles_by_step
from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.recipe.heating import highest_temperatures
from crumbcoat_calc.texts import Texts

_COMES_FIRST = (
    "Chosen by what {chosen_by}. None of these notes, and no figure {here}, says that a food is fit to keep or to "
    "serve: your local food code decides, and those who are licensed or trained to apply it."
)
_BY_VOICE = {
    "class": "",
    "home": " Figures of law are written for businesses: at home, keep to them or to stricter ones.",
}


def caution_texts(batch: Batch, lists: Sequence[IngredientList] = (), readers: Readers = READERS) -> Texts:
    """`cautions`: rows as `caution_rows` gives them; `cautions.count` and `cautions.titles` in words.

    `cautions.first`: who decides, said once for all of them.

    `caution.<stage>.<step>`: the titles of those that a step calls for by itself, or empty.
    """
    heat = highest_temperatures(batch.recipe)
    chosen = cautions_for(caution_facts_of(batch, lists=lists, heat=heat), readers)
    texts: Texts = {
        "cautions.first": comes_first_text(readers),
        "cautions": caution_rows(chosen),
        "cautions.count": count_text(len(chosen)),
        "cautions.titles": _in_a_sentence([caution.title for caution in chosen]),
    }
    for (stage, step), titles in titles_by_step(batch, heat, readers).items():
        texts[f"caution.{stage}.{step}"] = _in_a_sentence(titles)
    return texts


def _in_a_sentence(titles: Sequence[str]) -> str:
    """Titles one after the other, only the first with a capital.

    >>> _in_a_sentence(["Hot liquid and steam", "Raw egg", "Water activity and pH"])
    'Hot liquid and steam, raw egg, water activity and pH'
    """
    return ", ".join(title if number == 0 else title[:1].lower() + title[1:] for number, title in enumerate(titles))


def caution_rows(cautions: Sequence[Caution]) -> list[list[str]]:
    """A row of each caution: title, words and source."""
    return [[caution.title, caution.words, f"{caution.source_text}."] for caution in cautions]


def comes_first_text(readers: Readers, of_several: bool = False) -> str:
    """Who decides: said once for all cautions of a card, or of a handout for several recipes."""
    chosen_by, here = (
        ("is made here and how", "in this handout") if of_several else ("the recipe holds and does", "on this page")
    )
    return _COMES_FIRST.format(chosen_by=chosen_by, here=here) + _BY_VOICE[readers.voice]


def count_text(count: int) -> str:
    """How many cautions there are.

    >>> count_text(1), count_text(9)
    ('1 caution', '9 cautions')
    """
    return f"{count} caution{'' if count == 1 else 's'}"


def cautions_of_several(batches: Sequence[Batch], young: bool | None = None, readers: Readers = READERS) -> Texts:
    """The most important cautions for a class that makes several batches, in short.

    `cautions`: rows of title and words; `cautions.count`: how many there are, and where all are; `cautions.sources`;
    `cautions.first` as `caution_texts` gives it.
    """
    recipes = [(batch.recipe.title, caution_facts_of(batch, young)) for batch in batches]
    chosen, count = class_cautions(recipes, readers)
    where = "its card" if len(batches) == 1 else "the card of each recipe"
    sources = list(dict.fromkeys(caution.source_text for caution in chosen))
    return {
        "cautions": [[caution.title, f"{_facts_text(caution)} {caution.words}"] for caution in chosen],
        "cautions.count": f"The {len(chosen)} most important of {count}; all of them are on {where}, in full."
        if count > len(chosen)
        else f"In full, they are on {where}.",
        "cautions.sources": f"Sources: {'; '.join(sources)}." if sources else "",
        "cautions.first": comes_first_text(readers, of_several=True),
    }


def _facts_text(caution: ShortCaution) -> str:
    return " ".join(f"{title}: {fact[:1].lower()}{fact[1:]}" if title else fact for title, fact in caution.facts)
