"""What a trial did as a whole: it held, or it broke in some way."""

from crumbcoat_calc.trials.model import OUTCOMES, Trial

HELD = OUTCOMES[0]


def outcome_of(trial: Trial) -> str | None:
    """What the batch did: as the trial says, or else as its tests do, where one that it failed counts.

    None if neither says anything.
    """
    if trial.did is not None:
        return trial.did
    found = [test.did for test in trial.tests]
    failed = [did for did in found if did != HELD]
    return failed[0] if failed else (HELD if found else None)
