// Bench view in the browser's history: an entry of its own, `#bench`, so that "back" closes it and "forward" opens it again.
// A link with amounts asks for it as well: `#bench&factor=2`.

const BENCH = "#bench";

/** The page of the card, and whether its bench view is what the address asks for. */
let page = "";
let wasAsked = false;

/** Whether the card without bench view is the entry before, as far as this page knows. */
let isAfterCard = false;

export function isBenchAsked() {
  return location.hash === BENCH || location.hash.startsWith(`${BENCH}&`);
}

/** A card is shown: from here on, nobody else hears of "back" and "forward" between it and its bench view. */
export function arriveAtCard() {
  if (!page) addEventListener("recipe-back", keepFromOthers);
  page = location.pathname;
  wasAsked = isBenchAsked();
}

/**
 * In-place navigation takes the first step back for one to another page, and would fetch this one and swap it. The page
 * (theme/recipe.html) asks before, since only what listens before the theme's own script can prevent that.
 *
 * @param {Event} event "recipe-back", prevented if nobody else is to know
 */
function keepFromOthers(event) {
  const isAsked = isBenchAsked();
  if (location.pathname === page && isAsked !== wasAsked) event.preventDefault();
  wasAsked = isAsked;
}

/** Bench view is open. */
export function enterBench() {
  if (isBenchAsked()) return;
  history.pushState(history.state, "", BENCH);
  wasAsked = true;
  isAfterCard = true;
}

/** Bench view was closed. Unless that was by "back", its entry goes; until then the browser may take the focus away. */
export async function leaveBench() {
  if (!isBenchAsked()) return;
  if (!isAfterCard && !cameFromCard()) {
    history.replaceState(history.state, "", location.pathname + location.search);
    wasAsked = false;
    return;
  }
  const gone = new Promise((resolve) => {
    addEventListener("hashchange", resolve, { once: true });
  });
  history.back();
  await gone;
}

/** The same, as the browser knows it: after a reload, too. Not every browser says so. */
function cameFromCard() {
  /** @type {{ currentEntry?: { index: number }, entries: () => { url: string | null }[] } | undefined} */
  const navigation = /** @type {any} */ (globalThis).navigation;
  const before = navigation?.entries()[(navigation.currentEntry?.index ?? 0) - 1];
  return before?.url === location.origin + location.pathname + location.search;
}
