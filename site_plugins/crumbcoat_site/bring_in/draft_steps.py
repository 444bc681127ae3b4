"""The sections of a page -> the stages of a draft: words as they are, and beside them what they say in fields."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from crumbcoat_calc.errors import Path
from crumbcoat_calc.recipe.usual_figures import recipe_checks
from crumbcoat_calc.values.temperatures import celsius

from crumbcoat_site.bring_in.additions import goes_in_parts, puts_in
from crumbcoat_site.bring_in.draft_ingredients import ON_THE_CAKE, DraftIngredient, DraftLists, put_portions
from crumbcoat_site.bring_in.findings import Findings
from crumbcoat_site.bring_in.found_recipe import FoundRecipe, FoundStep
from crumbcoat_site.bring_in.marked_texts import in_parts, in_prose
from crumbcoat_site.bring_in.step_words import StepWords, step_words
from crumbcoat_site.bring_in.uses import Uses, portions_of, uses_of
from crumbcoat_site.recipe_cards.source.photo_names import letters_for

_TITLE = "Method"
_ORDER = ("do", "add", "additions", "tool", "speed", "time", "heat_to", "cool_to", "unattended", "photo")
_NO_STEPS = "Write the steps here: the page has none."

_ON_TOP = "the page says it goes on top: here it counts in the figures of the batch, under `decorations` it does not"
_LONGEST_TITLE = 80
_NOT_COUNTED = "without `water_lost` the figures take no water as boiled off: weigh the pan before and after"


@dataclass(slots=True)
class DraftStages:
    """The stages as data, the other remarks, and the addresses of pictures by stage and step from 1."""

    stages: list[dict[str, object]] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    pictures: dict[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class _DraftStep:
    """A step: where its fields are in the draft, its text, the heading of its section, and what its words say."""

    path: Path
    text: str
    title: str
    words: StepWords
    fields: dict[str, object]

    @property
    def shown(self) -> str:
        """Its stage and place in it from 1, as in `step 2-1`."""
        return f"step {int(self.path[1]) + 1}-{int(self.path[3]) + 1}"


def stages_of(found: FoundRecipe, lists: DraftLists, prefers_f: bool, findings: Findings) -> DraftStages:
    """The stages of a draft. Each ingredient goes in at the step that names it first."""
    draft = DraftStages()
    steps: list[_DraftStep] = []
    for section in found.sections:
        draft.notes += section.tips
        listed: list[dict[str, object]] = []
        for written in section.steps:
            whole = f"{written.title.rstrip('.:')}. {written.text}" if written.title else written.text
            for number, text in enumerate(in_parts(whole)):
                path: Path = ("stages", len(draft.stages), "steps", len(listed))
                listed.append({"do": in_prose(text)})
                steps.append(_DraftStep(path, text, section.title, step_words(text, prefers_f), listed[-1]))
                if written.pictures and not number:
                    _put_pictures(written, steps[-1], draft, findings)
        if listed:
            draft.stages.append({"title": section.title or _TITLE, "steps": listed})
    if not steps:
        fields: dict[str, object] = {"do": _NO_STEPS}
        draft.stages.append({"title": _TITLE, "steps": [fields]})
        steps = [_DraftStep(("stages", 0, "steps", 0), "", "", step_words(""), fields)]
        findings.doubtful((*steps[0].path, "do"), "steps", "the page has no instructions that could be read")
    _put_fields(steps, findings)
    _put_uses(steps, lists, findings)
    for step in steps:
        content = {name: step.fields[name] for name in _ORDER if name in step.fields}
        step.fields.clear()
        step.fields.update(content)
    return draft


def _put_pictures(written: FoundStep, step: _DraftStep, draft: DraftStages, findings: Findings) -> None:
    """Where the pictures of a step go, and what the first one shows, where the page says it."""
    slot = step.shown.removeprefix("step ")
    draft.pictures |= {f"{slot}{letters_for(number)}": one for number, one in enumerate(written.pictures)}
    title = written.title if len(written.title) <= _LONGEST_TITLE else ""
    step.fields["photo"] = written.shows or title or f"The picture of {step.shown}"
    if not written.shows:
        why = "is this what the picture shows?" if title else "say in a few words what the picture shows"
        findings.doubtful((*step.path, "photo"), f"{step.shown}: photo", why)


def _put_fields(steps: Sequence[_DraftStep], findings: Findings) -> None:
    """Times, temperatures, tools and speeds that the words of the steps say."""
    for step in steps:
        words = step.words
        said = {"tool": words.tool, "speed": words.speed, "time": words.time}
        said |= {"heat_to": words.heat_to, "cool_to": words.cool_to}
        for name, value in said.items():
            if value:
                step.fields[name] = value
                findings.sure(f"{step.shown}: {name} {value}")
        if words.boils or (words.heat_to and celsius(words.heat_to) > recipe_checks()["water_boils_c"]):
            place = (*step.path, "heat_to" if words.heat_to else "do")
            findings.doubtful(place, f"{step.shown}: water that boils off", _NOT_COUNTED)
        if words.is_unattended:
            step.fields["unattended"] = "yes"
        if words.more:
            findings.doubtful((*step.path, "do"), step.shown, f"the words also say {', '.join(words.more)}")


def _put_uses(steps: Sequence[_DraftStep], lists: DraftLists, findings: Findings) -> None:
    """What each step adds, in portions where an ingredient is divided."""
    named = [one.named for one in lists.ingredients]
    uses = uses_of(named, [step.text for step in steps], [step.title for step in steps])
    adds: dict[int, list[str]] = {place: list(keys) for place, keys in uses.adds.items()}
    for one in lists.ingredients:
        portions = portions_of(one.key, uses)
        names = put_portions(one, portions, findings)
        if names:
            for keys in adds.values():
                keys[:] = [key for key in keys if key != one.key]
            for portion, name in zip(portions, names, strict=True):
                adds.setdefault(portion.step, []).append(f"{one.key}/{name}")
        else:
            _note_again(one, uses.mentions.get(one.key, []), steps, findings)
    on_the_cake = {one.key for one in lists.ingredients if ON_THE_CAKE.search(one.line.written)}
    for place, keys in adds.items():
        step = steps[place]
        if keys:
            step.fields["add"] = keys
        for number, key in enumerate(keys):
            why = uses.doubtful.get(key, "")
            if key in on_the_cake:
                why = f"{why}, or to `decorations`" if why else _ON_TOP
            if why:
                findings.doubtful((*step.path, "add", number), f"{step.shown}: {key}", why)
    for place, step in enumerate(steps):
        if step.words.additions:
            _put_additions(step, place, adds.get(place, []), uses, findings)


def _note_again(
    one: DraftIngredient, mentions: Sequence[tuple[int, str]], steps: Sequence[_DraftStep], findings: Findings
) -> None:
    """Mark the later steps that say that an ingredient goes in, which has no portions."""
    if not mentions:
        return
    first = mentions[0][0]
    for place in dict.fromkeys(place for place, before in mentions if puts_in(steps[place].text, len(before))):
        if place != first:
            why = f"{one.line.name} went in at {steps[first].shown}: if some goes in here, write `portions`"
            findings.doubtful((*steps[place].path, "do"), f"{steps[place].shown}: {one.key}", why)


def _put_additions(step: _DraftStep, place: int, keys: Sequence[str], uses: Uses, findings: Findings) -> None:
    """In how many parts something goes in, where the words say what; else they stay words, and are marked."""
    words = step.words
    named = {key: [len(before) for at, before in mentions if at == place] for key, mentions in uses.mentions.items()}
    said = step.text[words.additions_at : words.additions_end]
    key = goes_in_parts(step.text, words.additions_at, words.additions_end, named)
    use = next((one for one in keys if key and one.partition("/")[0] == key), "")
    if use:
        step.fields["additions"] = {use: words.additions} if len(keys) > 1 else words.additions
        findings.sure(f"{step.shown}: {use} {said}")
    else:
        why = (
            f"{said!r} is about `{key}`, which this step does not add"
            if key
            else f"what goes in {said!r}? Write `additions: {{NAME: {words.additions}}}`"
        )
        findings.doubtful((*step.path, "do"), f"{step.shown}: additions", why)
