"""What a teacher types: read, refused with a place and a remedy, and kept with one spelling."""

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.forms.lesson import clock_from, lesson_fields, lesson_from, state_from_lesson
from crumbcoat_calc.lesson.lesson import COOKS, PAPERS, PARTS, PRINT_SIZES, SHEETS, Lesson
from hypothesis import given
from hypothesis import strategies as st


def test_the_usual_lesson():
    assert lesson_from({}) == Lesson()
    assert state_from_lesson(Lesson()) == {}
    assert lesson_from(dict.fromkeys(lesson_fields(Lesson()), " ")) == Lesson()


@pytest.mark.parametrize(
    ("state", "kept"),
    [
        ({"students": "25"}, {"students": "25"}),
        ({"batches": "1/2"}, {"batches": "0.5"}),
        ({"bowl": "4.8"}, {"bowl": "4.8 L"}),
        ({"bowl": "4800 mL"}, {"bowl": "4.8 L"}),
        ({"available": "1.5 h"}, {"available": "90 min"}),
        ({"available": "90"}, {"available": "90 min"}),
        ({"start": "7.05"}, {"start": "07:05"}),
        ({"mixers": "2"}, {"mixers": "2"}),
        ({"shelves": "3", "hobs": ""}, {"shelves": "3"}),
        ({"available": "2 h 30 min"}, {"available": "150 min"}),
        ({"available": "2:30"}, {"available": "150 min"}),
        ({"talk": "0"}, {"talk": "0 min"}),
        ({"margin": "7.5"}, {"margin": "7.5 %"}),
        ({"margin": "0 %", "pages": "teacher's pages"}, {"margin": "0 %", "pages": "teacher's pages"}),
        ({"beforehand": "b2, 1"}, {"beforehand": "A 1, B 2"}),
        ({"makes": "one recipe"}, {"makes": "one recipe"}),
        ({"level": "16 and over"}, {"level": "16 and over"}),
        ({"exercises": "leave out", "answers": "print"}, {"exercises": "leave out"}),
        ({"pack.butter_unsalted": "1 lb"}, {"pack.butter_unsalted": "1 lb"}),
        ({"pack.gelatin_powder": "9 g"}, {"pack.gelatin_powder": "9 g"}),
        ({"seed": "  7 b  "}, {"seed": "7 b"}),
        ({"allergies": "Milk, gluten,"}, {"allergies": "milk, gluten"}),
        ({"vary": " butter ", "levels": "−20 %; 0; +20 %"}, {"vary": "butter", "levels": "-20, 0, 20 %"}),
        ({"levels": "61, 66.2 °F"}, {"levels": "16.1, 19 °C"}),
        ({"levels": "4, 8 additions"}, {"levels": "4, 8 additions"}),
        ({"without": "one group", "apart": "2"}, {"without": "one group", "apart": "2"}),
        ({"groups": "4"}, {}),
    ],
)
def test_typed_values_are_kept_with_one_spelling(state, kept):
    assert state_from_lesson(lesson_from(state)) == kept
    assert lesson_from(state_from_lesson(lesson_from(state))) == lesson_from(state)


@pytest.mark.parametrize(
    ("state", "path"),
    [
        ({"students": "0"}, ("students",)),
        ({"students": "twelve"}, ("students",)),
        ({"students": "3"}, ("groups",)),
        ({"margin": "60 %"}, ("margin",)),
        ({"margin": "a little"}, ("margin",)),
        ({"pages": "answers"}, ("pages",)),
        ({"groups": "41"}, ("groups",)),
        ({"groups": "2.5"}, ("groups",)),
        ({"batches": "0"}, ("batches",)),
        ({"batches": "51"}, ("batches",)),
        ({"bowl": "3 kg"}, ("bowl",)),
        ({"bowl": "0.01"}, ("bowl",)),
        ({"mixers": "0"}, ("mixers",)),
        *(({name: "41"}, (name,)) for name in ("bowls", "hobs", "ovens", "scales", "shelves")),
        *(({name: "4 h"}, (name,)) for name in ("talk", "weigh", "look", "change", "wash", "taste", "clean")),
        ({"beforehand": "E 1"}, ("beforehand",)),
        ({"makes": "none"}, ("makes",)),
        ({"available": "3 kg"}, ("available",)),
        ({"available": "13 h"}, ("available",)),
        ({"start": "25:00"}, ("start",)),
        ({"start": "noon"}, ("start",)),
        ({"seed": "x" * 61}, ("seed",)),
        ({"sheets": "both"}, ("sheets",)),
        ({"answers": "hide"}, ("answers",)),
        ({"level": "adults"}, ("level",)),
        *(({part: "perhaps"}, (part,)) for part in PARTS),
        ({"paper": "A5"}, ("paper",)),
        ({"print": "huge"}, ("print",)),
        ({"cooks": "cats"}, ("cooks",)),
        ({"allergies": "milk, kiwi"}, ("allergies",)),
        ({"without": "some"}, ("without",)),
        ({"vary": "b" * 81}, ("vary",)),
        *(({"levels": wrong}, ("levels",)) for wrong in ("more", "10 %, 5 °C", "-95 %", "150 °C", "2.5 additions")),
        ({"apart": "5"}, ("apart",)),
        ({"pack.butter_unsalted": "a block"}, ("pack", "butter_unsalted")),
        ({"pack.buter": "250 g"}, ("pack", "buter")),
        ({"wine": "1"}, ("wine",)),
    ],
)
def test_a_wrong_value_has_a_place_a_problem_and_a_remedy(state, path):
    with pytest.raises(InputError) as caught:
        lesson_from(state)
    assert caught.value.path == path
    assert caught.value.problem
    assert caught.value.remedy


def test_every_field_has_a_wrong_value_above():
    wrong = {mark.args[1][n][1][0] for mark in test_a_wrong_value_has_a_place_a_problem_and_a_remedy.pytestmark
             for n in range(len(mark.args[1]))}  # fmt: skip
    assert set(lesson_fields(Lesson())) | {"pack"} <= wrong


@given(st.integers(1, 500), st.integers(1, 40))
def test_groups_include_all_students_and_differ_by_one_at_most(students, groups):
    if groups > students:
        return
    lesson = Lesson(students=students, groups=groups)
    assert sum(lesson.group_sizes) == students
    assert max(lesson.group_sizes) - min(lesson.group_sizes) <= 1
    assert 1 <= lesson.hands <= max(1, min(lesson.group_sizes))


@given(st.integers(0, 23), st.integers(0, 59))
def test_times_of_day(hour, minute):
    """ISO 8601 has two digits for the hour; a form accepts one too."""
    assert clock_from(f"{hour:02}:{minute:02}") == clock_from(f"{hour}:{minute:02}") == 3600 * hour + 60 * minute


def test_the_choices_are_those_of_the_form():
    assert (SHEETS, PAPERS, PRINT_SIZES, COOKS) == (
        ("same", "different"), ("A4", "Letter"), ("normal", "large"), ("children too", "adults only"),
    )  # fmt: skip
