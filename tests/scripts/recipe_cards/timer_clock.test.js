// The clock of timers, with a time set by the test.
import assert from "node:assert/strict";
import { describe, test } from "node:test";

import {
  clockText,
  newTimer,
  nextRingText,
  oneMinuteMore,
  pausedOrResumed,
  phaseOf,
  reading,
  ringsDue,
  timerOf as timerOfStep,
  timersFrom,
} from "../../../site_plugins/crumbcoat_site/recipe_cards/theme/assets/recipe_cards/timer_clock.js";

/** @typedef {import("../../../site_plugins/crumbcoat_site/recipe_cards/theme/assets/recipe_cards/timer_clock.js").Timer} Timer */

const NOON = Date.UTC(2026, 2, 31, 12);

/** @param {number} minutes @param {number} seconds */
const after = (minutes, seconds = 0) => NOON + minutes * 60_000 + seconds * 1000;

/**
 * A timer started at noon.
 *
 * @param {number} shortestMin
 * @param {number} longestMin
 */
const timerOf = (shortestMin, longestMin = shortestMin) =>
  newTimer({ id: "1", label: "Whip, step 3", href: "/cream/#step-1-3", shortestS: shortestMin * 60, longestS: longestMin * 60 }, NOON);

const RANGE = timerOf(5, 7);
const ONE = timerOf(2);

describe("a range of 5 to 7 minutes", () => {
  for (const [name, now, phase, rings, clock, words] of /** @type {[string, number, string, number, string, string][]} */ ([
    ["counts down to the check", after(0), "running", 0, "5:00", "to the check, 7:00 at most"],
    ["still does a moment before it", after(4, 59.999), "running", 0, "0:01", "to the check, 2:01 at most"],
    ["rings at the shortest time", after(5), "check", 1, "2:00", "left at most: check now"],
    ["then counts down to the longest", after(6, 30), "check", 1, "0:30", "left at most: check now"],
    ["rings again at the longest", after(7), "over", 2, "0:00", "over"],
    ["then counts up", after(8, 5), "over", 2, "1:05", "over"],
  ])) {
    test(name, () => {
      assert.equal(phaseOf(RANGE, now), phase);
      assert.equal(ringsDue(RANGE, now), rings);
      assert.deepEqual(reading(RANGE, now), { phase, clock, words });
    });
  }
});

test("a single time rings once, when it is over", () => {
  assert.deepEqual(reading(ONE, after(0)), { phase: "running", clock: "2:00", words: "" });
  assert.equal(ringsDue(ONE, after(1, 59)), 0);
  assert.equal(ringsDue(ONE, after(2)), 2);
});

test("a computer that slept over both times rings for the longest at once, whatever it had rung before", () => {
  const late = after(90);
  assert.equal(ringsDue(RANGE, late), 2);
  assert.equal(ringsDue({ ...RANGE, rung: 1 }, late), 2);
  assert.deepEqual(reading(RANGE, late), { phase: "over", clock: "1:23:00", words: "over" });
});

test("a timer is its end: one that was kept and read again goes on as if nothing had happened", () => {
  const [kept] = timersFrom(JSON.parse(JSON.stringify([RANGE])));
  assert.deepEqual(kept, RANGE);
  assert.equal(reading(/** @type {Timer} */ (kept), after(3)).clock, "2:00");
});

describe("paused", () => {
  const paused = pausedOrResumed(RANGE, after(3));

  test("a timer shows the same for as long as that lasts, and does not ring", () => {
    for (const now of [after(3), after(6), after(60)]) {
      assert.deepEqual(reading(paused, now), { phase: "paused", clock: "2:00", words: "paused" });
      assert.equal(ringsDue(paused, now), 0);
    }
  });

  test("it then goes on with what was left", () => {
    const resumed = pausedOrResumed(paused, after(60));
    assert.deepEqual([resumed.first, resumed.last, resumed.left], [after(62), after(64), null]);
    assert.equal(ringsDue(resumed, after(62)), 1);
  });

  test("between its two times, it keeps the one that is left and does not ring for the first again", () => {
    const later = pausedOrResumed({ ...RANGE, rung: 1 }, after(6));
    assert.equal(reading(later, after(10)).clock, "1:00");
    assert.equal(ringsDue(later, after(10)), 1);
    const resumed = pausedOrResumed(later, after(10));
    assert.equal(ringsDue(resumed, after(10)), 1);
    assert.equal(ringsDue(resumed, after(11)), 2);
  });
});

describe("one minute more", () => {
  const ends = (/** @type {Timer} */ { first, last, left, rung }) => ({ first, last, left, rung });

  test("moves both times while none is over", () => {
    assert.deepEqual(ends(oneMinuteMore(RANGE, after(1))), { first: after(6), last: after(8), left: null, rung: 0 });
  });

  test("moves only the longest once the shortest is over, and does not ring for that again", () => {
    const longer = oneMinuteMore({ ...RANGE, rung: 1 }, after(6));
    assert.deepEqual(ends(longer), { first: after(5), last: after(8), left: null, rung: 1 });
    assert.equal(ringsDue(longer, after(7)), 1);
    assert.equal(ringsDue(longer, after(8)), 2);
  });

  test("is a minute from now once both are over, and rings again", () => {
    const longer = oneMinuteMore({ ...RANGE, rung: 2 }, after(20));
    assert.deepEqual(ends(longer), { first: after(21), last: after(21), left: null, rung: 0 });
    assert.equal(ringsDue(longer, after(21)), 2);
  });

  test("counts a time as over from the moment that it rings", () => {
    assert.deepEqual(ends(oneMinuteMore(RANGE, after(5))), { first: after(5), last: after(8), left: null, rung: 0 });
    assert.deepEqual(ends(oneMinuteMore(RANGE, after(7))), { first: after(8), last: after(8), left: null, rung: 0 });
    assert.deepEqual(oneMinuteMore(pausedOrResumed(RANGE, after(5)), after(9)).left, [0, 3 * 60_000]);
  });

  test("is added to what is left of a paused one", () => {
    assert.deepEqual(oneMinuteMore(pausedOrResumed(RANGE, after(1)), after(9)).left, [5 * 60_000, 7 * 60_000]);
    assert.deepEqual(oneMinuteMore(pausedOrResumed(RANGE, after(6)), after(9)).left, [-60_000, 2 * 60_000]);
  });
});

describe("the title", () => {
  test("shows the time to whichever ring comes next", () => {
    assert.equal(nextRingText([RANGE, ONE], after(0)), "2:00");
    assert.equal(nextRingText([RANGE, timerOf(30)], after(0)), "5:00");
    assert.equal(nextRingText([RANGE, timerOf(30)], after(6)), "1:00");
  });

  test("says that a time is up as long as one is", () => {
    assert.equal(nextRingText([RANGE, ONE], after(2)), "Time is up");
    assert.equal(nextRingText([RANGE, ONE], after(60)), "Time is up");
  });

  test("leaves paused timers out, and is empty without any other", () => {
    const paused = pausedOrResumed(ONE, after(1));
    assert.equal(nextRingText([RANGE, paused], after(1)), "4:00");
    assert.equal(nextRingText([paused], after(60)), "");
    assert.equal(nextRingText([], after(0)), "");
  });
});

for (const [ms, text] of /** @type {[number, string][]} */ ([
  [0, "0:00"],
  [1, "0:01"],
  [9_000, "0:09"],
  [65_000, "1:05"],
  [599_001, "10:00"],
  [3_600_000, "1:00:00"],
  [36_005_000, "10:00:05"],
  [-1, "0:00"],
])) {
  test(`${ms} ms are shown as ${text}`, () => assert.equal(clockText(ms), text));
}

test("of what the device kept, only timers are used", () => {
  for (const kept of [null, "timers", { 0: RANGE }, 5]) assert.deepEqual(timersFrom(kept), []);
  const wrong = [null, 3, {}, { ...RANGE, first: "5:00" }, { ...RANGE, left: [1] }, { ...RANGE, left: 5 }, { ...RANGE, href: undefined }];
  for (const href of ["javascript:alert(1)", "//other.example/", "https://other.example/", ""]) wrong.push({ ...RANGE, href });
  assert.deepEqual(timersFrom([RANGE, ...wrong, { ...ONE, left: [1, 2] }]), [RANGE, { ...ONE, left: [1, 2] }]);
});

test("a step has its timer until that is over, paused or not: no second one is started beside it", () => {
  const step = { label: RANGE.label, href: RANGE.href };
  assert.equal(timerOfStep([RANGE], step, after(4)), RANGE);
  assert.equal(timerOfStep([RANGE], step, after(6)), RANGE);
  const paused = pausedOrResumed(RANGE, after(1));
  assert.equal(timerOfStep([paused], step, after(90)), paused);
  assert.equal(timerOfStep([RANGE], step, after(7)), undefined);
  assert.equal(timerOfStep([RANGE], { ...step, href: "/cream/#step-1-4" }, after(1)), undefined);
  assert.equal(timerOfStep([RANGE], { ...step, href: "/glaze/#step-1-3" }, after(1)), undefined);
});
