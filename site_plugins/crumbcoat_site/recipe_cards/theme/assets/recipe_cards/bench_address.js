// Bench view in the browser's history: an entry of its own, `#bench`, so that "back" closes it and "forward" opens it again.

const BENCH = "#bench";

/** Whether the card without bench view is the entry before, as far as this page knows. */
let isAfterCard = false;

export function isBenchAsked() {
  return location.hash === BENCH;
}

/** Bench view is open. */
export function enterBench() {
  if (isBenchAsked()) return;
  history.pushState(history.state, "", BENCH);
  isAfterCard = true;
}

/** Bench view was closed, and not by "back": its entry goes. */
export function leaveBench() {
  if (!isBenchAsked()) return;
  if (isAfterCard || cameFromCard()) history.back();
  else history.replaceState(history.state, "", location.pathname + location.search);
}

/** The same, as the browser knows it: after a reload, too. Not every browser says so. */
function cameFromCard() {
  /** @type {{ currentEntry?: { index: number }, entries: () => { url: string | null }[] } | undefined} */
  const navigation = /** @type {any} */ (globalThis).navigation;
  const before = navigation?.entries()[(navigation.currentEntry?.index ?? 0) - 1];
  return before?.url === location.origin + location.pathname + location.search;
}
