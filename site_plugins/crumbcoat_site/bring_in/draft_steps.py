"""The sections of a page -> the stages of a draft: words as they are, and beside them what they say in fields."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from crumbcoat_calc.errors import Path

from crumbcoat_site.bring_in.draft_ingredients import DraftLists, put_portions
from crumbcoat_site.bring_in.findings import Findings
from crumbcoat_site.bring_in.found_recipe import FoundRecipe
from crumbcoat_site.bring_in.marked_texts import in_parts, in_prose
from crumbcoat_site.bring_in.step_words import StepWords, step_words
from crumbcoat_site.bring_in.uses import Uses, portions_of, uses_of

_TITLE = "Method"
_ORDER = ("do", "add", "additions", "tool", "speed", "time", "heat_to", "cool_to", "unattended", "photo")
_NO_STEPS = "Write the steps here: the page has none."


@dataclass(slots=True)
class DraftStages:
    """The stages as data, the other remarks, and the addresses of pictures by stage and step from 1."""

    stages: list[dict[str, object]] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    pictures: dict[str, str] = field(default_factory=dict)


def stages_of(found: FoundRecipe, lists: DraftLists, prefers_f: bool, findings: Findings) -> DraftStages:
    """The stages of a draft. Each ingredient goes in at the step that names it first."""
    draft = DraftStages()
    places: list[Path] = []
    texts: list[str] = []
    titles: list[str] = []
    for section in found.sections:
        draft.notes += section.tips
        steps: list[dict[str, object]] = []
        for step in section.steps:
            whole = f"{step.title.rstrip('.:')}. {step.text}" if step.title else step.text
            for number, text in enumerate(in_parts(whole)):
                places.append(("stages", len(draft.stages), "steps", len(steps)))
                texts.append(text)
                titles.append(section.title)
                steps.append({"do": in_prose(text)})
                if step.pictures and not number:
                    steps[-1]["photo"] = (step.title or step.text.partition(". ")[0])[:200]
                    slot = f"{len(draft.stages) + 1}-{len(steps)}"
                    letters = ("", *"bcdefgh")
                    draft.pictures |= {
                        f"{slot}{letter}": one for letter, one in zip(letters, step.pictures, strict=False)
                    }
        if steps:
            draft.stages.append({"title": section.title or _TITLE, "steps": steps})
    if not draft.stages:
        draft.stages.append({"title": _TITLE, "steps": [{"do": _NO_STEPS}]})
        places, texts, titles = [("stages", 0, "steps", 0)], [""], [""]
        findings.doubtful((*places[0], "do"), "steps", "the page has no instructions that could be read")
    _put_fields(draft, places, texts, prefers_f, findings)
    _put_uses(draft, places, texts, titles, lists, findings)
    return draft


def _step_at(draft: DraftStages, path: Path) -> dict[str, object]:
    steps = draft.stages[int(path[1])]["steps"]
    assert isinstance(steps, list)
    step = steps[int(path[3])]
    assert isinstance(step, dict)
    return step


def _put_fields(
    draft: DraftStages, places: Sequence[Path], texts: Sequence[str], prefers_f: bool, findings: Findings
) -> None:
    """Times, temperatures, tools and speeds that the words of the steps say."""
    for path, text in zip(places, texts, strict=True):
        step, words = _step_at(draft, path), step_words(text, prefers_f)
        said = {
            "tool": words.tool,
            "speed": words.speed,
            "time": words.time,
            "heat_to": words.heat_to,
            "cool_to": words.cool_to,
        }
        for name, value in said.items():
            if value:
                step[name] = value
                findings.sure(f"step {int(path[1]) + 1}-{int(path[3]) + 1}: {name} {value}")
        if words.is_unattended:
            step["unattended"] = "yes"
        if words.more:
            listed = ", ".join(words.more)
            findings.doubtful(
                (*path, "do"), f"step {int(path[1]) + 1}-{int(path[3]) + 1}", f"the words also say {listed}"
            )


def _put_uses(
    draft: DraftStages,
    places: Sequence[Path],
    texts: Sequence[str],
    titles: Sequence[str],
    lists: DraftLists,
    findings: Findings,
) -> None:
    """What each step adds, in portions where an ingredient is divided."""
    uses = uses_of([one.named for one in lists.ingredients], texts, titles)
    adds: dict[int, list[str]] = {place: list(keys) for place, keys in uses.adds.items()}
    for one in lists.ingredients:
        portions = portions_of(one.key, uses)
        names = put_portions(one, portions, findings)
        if names:
            for keys in adds.values():
                keys[:] = [key for key in keys if key != one.key]
            for portion, name in zip(portions, names, strict=True):
                adds.setdefault(portion.step, []).append(f"{one.key}/{name}")
    for place, keys in adds.items():
        if not keys:
            continue
        step, path = _step_at(draft, places[place]), places[place]
        step["add"] = keys
        words = step_words(texts[place])
        if words.additions:
            step["additions"] = _additions(words, keys, place, uses)
        lost = [key for key in keys if key in uses.doubtful]
        if lost:
            findings.doubtful((*path, "add"), f"{', '.join(lost)}: step", f"no step names {', '.join(lost)}")
    for path in places:
        step = _step_at(draft, path)
        content = {name: step[name] for name in _ORDER if name in step}
        step.clear()
        step.update(content)


def _additions(words: StepWords, keys: Sequence[str], place: int, uses: Uses) -> str | dict[str, str]:
    """How many parts what is named last before `in three additions` goes in; all of it where nothing is."""
    before: list[tuple[int, str]] = []
    for key in keys:
        mentions = uses.mentions.get(key.partition("/")[0], [])
        before += [(len(text), key) for step, text in mentions if step == place and len(text) < words.additions_at]
    return {max(before)[1]: words.additions} if before and len(keys) > 1 else words.additions
