// For a page of another site that shows cards of this one. A classic script, whose address never changes: the page needs
// no more than `script-src` and `frame-src` of the site in its policy, and no inline style. Each card brings it along.
//
// <iframe src="https://site/card/embed/">: it gets the height that its card asks for. All that is taken from a message is
// two numbers, and only from the frame itself and if it shows a page of this site.
(() => {
  const { origin } = new URL(/** @type {HTMLScriptElement} */ (document.currentScript).src);
  const mark = Symbol.for(`crumbcoat ${origin}`);
  const page = /** @type {any} */ (globalThis);
  if (page[mark]) return;
  page[mark] = true;

  const MOST_PX = 60_000;

  /** @param {unknown} number */
  const isNumber = (number) => typeof number === "number" && Math.abs(number) <= MOST_PX;

  addEventListener("message", ({ data, origin: from, source }) => {
    if (from !== origin || data?.crumbcoat !== 1) return;
    const frames = [...document.querySelectorAll("iframe")];
    const frame = frames.find(({ contentWindow }) => contentWindow === source);
    if (!frame) return;
    if (isNumber(data.height) && data.height > 0) frame.style.setProperty("height", `${data.height}px`, "important");
    if (isNumber(data.goTo)) scrollBy(0, frame.getBoundingClientRect().top + data.goTo);
  });
})();
