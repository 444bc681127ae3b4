"""A lesson from the form state of a handout, and back to the sparse form state that is kept."""

import re
from collections.abc import Callable, Mapping
from fractions import Fraction
from functools import partial

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.allergens import words_meant
from crumbcoat_calc.forms.levels import levels_from, levels_text
from crumbcoat_calc.lesson.lesson import (
    ANSWERS,
    COOKS,
    LEVELS,
    MAKES,
    MOST_GROUPS,
    PAGES,
    PAPERS,
    PARTS,
    PRINT_SIZES,
    SEVERAL,
    SHEETS,
    WITHOUT,
    Lesson,
)
from crumbcoat_calc.purchasing.shopping import Pack, packs, packs_from
from crumbcoat_calc.values.fields import did_you_mean, line, text
from crumbcoat_calc.values.form_fields import choice_from, read_field, state_number
from crumbcoat_calc.values.units import between, millilitres, number_and_words, whole_number
from crumbcoat_calc.values.written_times import seconds

MOST_STUDENTS, MOST_TOOLS = 500, 40
_LONGEST_S = 12 * 3600
_LONGEST_ROUTINE_S = 3 * 3600
_SHARED = {name: tool for tool, name in SEVERAL.items()}
_TIMES = ("talk", "weigh", "look", "change", "wash", "taste", "clean")
_STAGE = re.compile(r"(?:([A-Da-d])\s*)?([1-9][0-9]?)")
_CLOCK = re.compile(r"([01]?\d|2[0-3])[:.]([0-5]\d)")


def lesson_from(state: Mapping[str, str]) -> Lesson:
    """The lesson in a form state; empty fields keep the usual values.

    Raises:
        InputError: at the field that cannot be used.
    """
    changed: dict[str, object] = {}
    own: dict[str, Pack] = {}
    tools: dict[str, int] = {}
    not_printed: set[str] = set()
    for name, value in state.items():
        head, _, kind = name.partition(".")
        if head == "pack" and kind:
            if value.strip():
                own[kind] = read_field(name, value, partial(_pack, kind))
        elif name in _SHARED:
            if value.strip():
                tools[_SHARED[name]] = read_field(name, value, whole_number(1, MOST_TOOLS), has_numbers=True)
        elif name in PARTS:
            if value.strip() and read_field(name, value, _word(ANSWERS, "option for a part")) == ANSWERS[1]:
                not_printed.add(name)
        elif name not in _FIELDS:
            remedy = did_you_mean(name, [*_FIELDS, *_SHARED, *PARTS], "leave it out")
            raise InputError(f"unknown field {name!r}", remedy, (name,))
        elif name == "levels" and value.strip():
            changed["levels_by"], changed["levels"] = read_field(name, value, levels_from, has_numbers=False)
        elif value.strip():
            key, reader = _FIELDS[name]
            changed[key] = read_field(name, value, reader, has_numbers=name not in ("seed", "vary"))
    lesson = Lesson(**changed, tools=tools, packs=own, not_printed=frozenset(not_printed))  # type: ignore[arg-type]
    if lesson.groups > lesson.students:
        problem = f"{lesson.students} students cannot form {lesson.groups} groups"
        raise InputError(problem, f"use up to {lesson.students} groups", ("groups",))
    if lesson.apart is not None and lesson.apart > lesson.groups:
        raise InputError(f"there is no group {lesson.apart}", f"use 1 to {lesson.groups}", ("apart",))
    return lesson


def state_from_lesson(lesson: Lesson) -> dict[str, str]:
    """The differences from the usual lesson, with one spelling for each value."""
    state = {name: shown for name, shown in lesson_fields(lesson).items() if shown != lesson_fields(_USUAL)[name]}
    return state | {f"pack.{kind}": pack.amount for kind, pack in lesson.packs.items()}


def lesson_fields(lesson: Lesson) -> dict[str, str]:
    """The fields of the form as shown, without the packs."""
    return {
        "students": str(lesson.students),
        "groups": str(lesson.groups),
        "batches": state_number(lesson.batches),
        "bowl": "" if lesson.bowl_ml is None else f"{state_number(lesson.bowl_ml / 1000)} L",
        **{name: str(lesson.tools.get(tool, "")) for name, tool in _SHARED.items()},
        "makes": lesson.makes,
        "beforehand": ", ".join(f"{'ABCD'[recipe]} {stage + 1}" for recipe, stage in sorted(lesson.beforehand)),
        "available": "" if lesson.available_s is None else f"{state_number(lesson.available_s / 60)} min",
        **{name: f"{state_number(getattr(lesson, f'{name}_s') / 60)} min" for name in _TIMES},
        "start": f"{int(lesson.start_s) // 3600:02}:{int(lesson.start_s) % 3600 // 60:02}",
        "seed": lesson.seed,
        "sheets": lesson.sheets,
        "answers": lesson.answers,
        "level": lesson.level,
        **{part: ANSWERS[part in lesson.not_printed] for part in PARTS},
        "paper": lesson.paper,
        "print": lesson.print_size,
        "pages": lesson.pages,
        "margin": f"{state_number(100 * lesson.margin)} %",
        "cooks": lesson.cooks,
        "allergies": ", ".join(lesson.allergies),
        "without": lesson.without,
        "vary": lesson.vary,
        "levels": levels_text(lesson.levels_by, lesson.levels),
        "apart": "" if lesson.apart is None else str(lesson.apart),
    }


def _pack(kind: str, written: str) -> Pack:
    usual = packs().get(kind)
    try:
        return packs_from({kind: {"pack": usual.pack if usual else "pack", "amount": written}})[kind]
    except InputError as error:
        raise error.at(()) from None


def _bowl_ml(written: str) -> float:
    volume_ml = millilitres(written if number_and_words(written)[1] else f"{text(written)} L")
    if not 100 <= volume_ml <= 500_000:
        raise InputError(f"{volume_ml:g} mL is not a possible bowl size", "use 0.1 L to 500 L")
    return volume_ml


def _available_s(written: str) -> float:
    time_s = seconds(written, bare="min", clock="h")
    if not 60 <= time_s <= _LONGEST_S:
        raise InputError(f"{written!r} is not a possible length of a lesson", "use 1 min to 12 h")
    return time_s


def clock_from(written: str) -> float:
    """A time of day, in s since midnight.

    >>> clock_from("9:05")
    32700.0
    """
    found = _CLOCK.fullmatch(written.strip())
    if not found:
        raise InputError(f"{written.strip()!r} is not a time of day", "write it like `9:30` or `14:00`")
    return 3600.0 * int(found[1]) + 60.0 * int(found[2])


def _routine_s(written: str) -> float:
    time_s = seconds(written, bare="min", clock="h")
    if not 0 <= time_s <= _LONGEST_ROUTINE_S:
        raise InputError(f"{written!r} is too long for this part of a lesson", "use 0 min to 3 h")
    return time_s


def _margin(written: str) -> float:
    percent = between(Fraction(0), Fraction(50))(text(written).removesuffix("%").strip())
    return percent / 100


def _beforehand(written: str) -> frozenset[tuple[int, int]]:
    """Stages as `1`, `A 1` or `A 1, B 2`."""
    found = set()
    for part in written.split(","):
        stage = _STAGE.fullmatch(part.strip())
        if not stage:
            problem = f"{part.strip()!r} is not a stage"
            raise InputError(problem, "write stages like `1`, or with several recipes `A 1, B 2`")
        found.add(("ABCD".index((stage[1] or "A").upper()), int(stage[2]) - 1))
    return frozenset(found)


def _allergies(written: str) -> tuple[str, ...]:
    """Allergens as a person names them, with commas between them, each once."""
    names = dict.fromkeys([line(part).lower() for part in written.split(",") if part.strip()])
    for name in names:
        try:
            words_meant(name)
        except InputError as error:
            remedy = f"{error.remedy}. For anything else, read the list on each pack, and ask"
            raise InputError(error.problem, remedy) from None
    return tuple(names)


def _vary(written: str) -> str:
    name = line(written)
    if len(name) > 80:
        raise InputError(f"the name is too long, with {len(name)} characters", "write one ingredient, such as `butter`")
    return name


def _seed(written: str) -> str:
    seed = line(written)
    if len(seed) > 60:
        raise InputError(f"the seed is too long, with {len(seed)} characters", "shorten it to 60 characters")
    return seed


def _word(known: tuple[str, ...], what: str) -> Callable[[str], str]:
    return lambda written: choice_from(written, known, what)


_FIELDS: Mapping[str, tuple[str, Callable[[str], object]]] = {
    "students": ("students", whole_number(1, MOST_STUDENTS)),
    "groups": ("groups", whole_number(1, MOST_GROUPS)),
    "batches": ("batches", between(Fraction(1, 20), Fraction(50))),
    "bowl": ("bowl_ml", _bowl_ml),
    "makes": ("makes", _word(MAKES, "way to share the work")),
    "beforehand": ("beforehand", _beforehand),
    **{name: (f"{name}_s", _routine_s) for name in _TIMES},
    "available": ("available_s", _available_s),
    "start": ("start_s", clock_from),
    "seed": ("seed", _seed),
    "sheets": ("sheets", _word(SHEETS, "kind of sheets")),
    "answers": ("answers", _word(ANSWERS, "option for the answers")),
    "level": ("level", _word(LEVELS, "level")),
    "paper": ("paper", _word(PAPERS, "paper")),
    "print": ("print_size", _word(PRINT_SIZES, "print")),
    "pages": ("pages", _word(PAGES, "choice of pages")),
    "margin": ("margin", _margin),
    "cooks": ("cooks", _word(COOKS, "kind of class")),
    "allergies": ("allergies", _allergies),
    "without": ("without", _word(WITHOUT, "choice of groups")),
    "vary": ("vary", _vary),
    "levels": ("levels", levels_from),
    "apart": ("apart", whole_number(1, MOST_GROUPS)),
}
_USUAL = Lesson()
