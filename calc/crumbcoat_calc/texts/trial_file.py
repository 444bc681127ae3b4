"""The trial file of a batch that was changed, made and noted on its card."""

from collections.abc import Mapping
from dataclasses import dataclass

from crumbcoat_calc.foods.table import written_unit
from crumbcoat_calc.forms.changes import Changes
from crumbcoat_calc.forms.conditions import Conditions
from crumbcoat_calc.forms.context import PublishedRecipe
from crumbcoat_calc.forms.trial_changes import changed_by
from crumbcoat_calc.forms.trial_notes import ATTRIBUTES, FAILED, TEST_FIELDS, WORKED, Notes, marks_of
from crumbcoat_calc.forms.trial_start import TrialStart
from crumbcoat_calc.recipe.batch import weighed_of
from crumbcoat_calc.recipe.writing import recipe_text
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.values.display import list_text
from crumbcoat_calc.values.fields import mapping
from crumbcoat_calc.values.form_fields import state_number

Entries = list[dict[str, object]]

_UNITS = {"t_c": ("temperature", "°C"), "weeping": ("weeping", "mm"), "height_lost": ("height_lost", "mm")}


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchTrial:
    """A batch as it was changed on the card, and what is noted about it."""

    published: PublishedRecipe
    changes: Changes
    conditions: Conditions
    notes: Notes
    start: TrialStart

    def texts(self) -> Texts:
        """`file.trial` (empty while something is missing), its `trial.name`, `trial.open` and `trial.short`."""
        data, missing = self._data()
        number, letters = self._number, self.notes.get("letters")
        is_whole = not missing and "date" in data
        return {
            "file.trial": f"{self._head()}{recipe_text(data)}" if is_whole else "",
            "trial.name": f"{number}-{letters}.yaml" if letters else f"{number}.yaml",
            "trial.open": " ".join(missing),
            "trial.short": self._short(data),
        }

    @property
    def _number(self) -> str:
        return self.notes.get("number") or self.start.number

    def _head(self) -> str:
        factor = self.changes.options.factor
        if factor == 1:
            return ""
        return f"# {state_number(factor)} batches were made at once. Amounts and masses are for one.\n"

    def _data(self) -> tuple[dict[str, object], list[str]]:
        """The fields of the file, and what is missing, in sentences."""
        get = self.notes.get
        missing: list[str] = []
        found: dict[str, object | None] = {
            "number": self._number,
            "date": get("date"),
            "who": get("who"),
            "from": self.start.came_from,
            "recipe": self.start.mark,
            "aim": get("aim"),
            "changed": changed_by(self.published.data, self.published.recipe, self.changes.options),
            "weighed": self._weighed(missing),
            "readings": self._readings(),
            "mixing": self._mixing(missing),
            "chilling": self._chilling(missing),
            "seen": self._seen(),
            "tests": self._tests(missing),
            "tasted": self._tasted(missing),
            "did": get("did"),
            "verdict": get("verdict"),
            "because": get("because"),
        }
        return {name: value for name, value in found.items() if value}, missing

    def _weighed(self, missing: list[str]) -> dict[str, object]:
        """What was weighed, for one batch."""
        recipe, options = self.published.recipe, self.changes.options
        inside = [one.key for one in weighed_of(recipe, options) if one.mass_g > 0]
        found: dict[str, object] = {}
        for ingredient in recipe.ingredients:
            weighed = self._for_one(f"weighed.{ingredient.key}")
            if weighed is None:
                continue
            if ingredient.key not in inside:
                missing.append(f"Weighed: {ingredient.name} is not in this batch, so empty its field, or put it back.")
            else:
                found[ingredient.key] = weighed
        return found

    def _for_one(self, name: str) -> str | None:
        """A mass that was weighed, for one batch."""
        mass_g = self.notes.get(name)
        return f"{state_number(float(mass_g) / self.changes.options.factor)} g" if mass_g else None

    def _readings(self) -> Entries:
        get = self.notes.get
        found: Entries = []
        for at in range(len(self.published.recipe.stages) - 1):
            read = _given(temperature=get(f"after.{at}.t_c", "°C"), mass=self._for_one(f"after.{at}.mass"))
            if read:
                found.append({"at": str(at + 1), **read})
        cup_g, ph = self.changes.cup_g, self.conditions.ph
        measured_ph = self.published.recipe.measured.ph
        read = _given(
            temperature=get("finished.t_c", "°C"),
            mass=self._for_one("finished.mass"),
            cup=written_unit(self.changes.cup) if cup_g else None,
            cup_weighs=f"{state_number(cup_g)} g" if cup_g else None,
            ph=state_number(ph) if ph is not None and ph != measured_ph else None,
            brix=get("finished.brix"),
            water_activity=get("finished.water_activity"),
            spread=get("finished.spread", "mm"),
            penetration=get("finished.penetration", "mm"),
        )
        note = get("finished.note")
        if read:
            found.append(read | _given(note=note))
        return found

    def _mixing(self, missing: list[str]) -> Entries:
        get = self.notes.get
        found: Entries = []
        for stage, step in self._steps("mixed"):
            name = f"mixed.{stage}.{step}"
            entry = _given(to=get(f"{name}.to_c", "°C"), time=get(f"{name}.time", "min"))
            entry |= _given(**{"from": get(f"{name}.from_c", "°C")})
            place = f"{int(stage) + 1}.{int(step) + 1}"
            if len(entry) == 3:
                found.append({"at": place, "from": entry["from"], "to": entry["to"], "time": entry["time"]})
            elif entry:
                missing.append(f"Mixing in step {place}: give both temperatures and the time, or empty these fields.")
        return found

    def _chilling(self, missing: list[str]) -> Entries:
        kitchen = self.conditions
        before_c, after_c, time_min = kitchen.chilled_from_c, kitchen.chilled_to_c, kitchen.chilled_min
        if before_c is None and after_c is None and not time_min:
            return []
        if before_c is None or after_c is None or not time_min:
            missing.append("Chilling: give both temperatures and the time, or empty these fields.")
            return []
        if not kitchen.cold_c < after_c < before_c:
            missing.append("Chilling: the batch must end colder than it began, and warmer than the place where it was.")
            return []
        values = (
            ("from", before_c, "°C"),
            ("to", after_c, "°C"),
            ("cold", kitchen.cold_c, "°C"),
            ("time", time_min, "min"),
        )
        return [{name: f"{state_number(value)} {unit}" for name, value, unit in values}]

    def _seen(self) -> Entries:
        found: Entries = []
        for stage_number, stage in enumerate(self.published.recipe.stages):
            for step_number, step in enumerate(stage.steps):
                if not step.checkpoint:
                    continue
                place, at = f"{stage_number}.{step_number}", f"{stage_number + 1}.{step_number + 1}"
                for number, trouble in enumerate(step.checkpoint.troubles):
                    said = self.notes.get(f"seen.{place}.{number}")
                    tried = {"remedy": trouble.remedy, "worked": "yes" if said == WORKED else "no"}
                    if said:
                        found.append({"at": at, "sign": trouble.sign, **(tried if said in (WORKED, FAILED) else {})})
                if self.notes.get(f"right.{place}"):
                    found.append({"at": at, "sign": " ".join(step.checkpoint.passes)})
        return found

    def _tests(self, missing: list[str]) -> Entries:
        found: Entries = []
        for test, names in TEST_FIELDS.items():
            entry: dict[str, object] = {"test": test}
            for name in names:
                field, unit = _UNITS.get(name, (name, ""))
                entry |= _given(**{field: self.notes.get(f"{test}.{name}", unit)})
            did = self.notes.get(f"{test}.did")
            if did:
                found.append(entry | {"did": did})
            elif len(entry) > 1:
                missing.append(f"{test.capitalize()}: choose what it did, or empty the other fields of this test.")
        return found

    def _tasted(self, missing: list[str]) -> Entries:
        found: Entries = []
        for at in range(ATTRIBUTES):
            attribute, marks, scale, code = (
                self.notes.get(f"tasted.{at}.{name}") for name in ("attribute", "marks", "scale", "code")
            )
            if attribute and marks and marks_of(marks):
                found.append(
                    {"attribute": attribute, **_given(scale=scale), "marks": marks_of(marks), **_given(code=code)}
                )
            elif attribute or marks or code:
                missing.append(f"Tasting, line {at + 1}: give what was marked and the marks, or empty the line.")
        return found

    def _steps(self, head: str) -> list[tuple[str, str]]:
        places = [tuple(name.split(".")[1:3]) for name in self.notes.values if name.startswith(f"{head}.")]
        return [(place[0], place[1]) for place in dict.fromkeys(places)]

    def _short(self, data: Mapping[str, object]) -> str:
        """What the file holds, in a line."""
        changed = mapping(data.get("changed", {}))
        counts = {
            "change": sum(len(mapping(part)) for part in changed.values()),
            "reading": sum(len(_entries(data, name)) for name in ("readings", "mixing", "chilling")),
            "sign": len(_entries(data, "seen")),
            "test": len(_entries(data, "tests")) + len(_entries(data, "tasted")),
        }
        shown = [f"{count} {word}{'' if count == 1 else 's'}" for word, count in counts.items() if count]
        return (
            f"{list_text(shown)} noted."
            if shown
            else "What you changed and what you noted, as a file beside the recipe."
        )


def _entries(data: Mapping[str, object], name: str) -> list[object]:
    entries = data.get(name, [])
    assert isinstance(entries, list)
    return entries


def _given(**fields: str | None) -> dict[str, object]:
    return {name: value for name, value in fields.items() if value}
