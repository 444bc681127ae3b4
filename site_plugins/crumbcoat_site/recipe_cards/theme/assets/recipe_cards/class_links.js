// What opens the lesson on the phones of each group, on a handout: links with their QR codes, made from what the calculator
// `handout` says (class_link/group.jinja), again at each change. Nothing of it leaves the page.

import { find, findAll } from "./elements.js";
import { correction, generate, mode } from "./lean_qr.js";

const SVG = "http://www.w3.org/2000/svg";

/** The standard (ISO/IEC 18004) asks for four modules of white around a code. */
const QUIET = 4;

/** @param {HTMLElement} element <class-links>, in a <details> */
export function showLinks(element) {
  const fold = /** @type {HTMLDetailsElement} */ (element.closest("details"));
  const observer = new MutationObserver(draw);
  fold.addEventListener("toggle", draw);
  draw();

  function draw() {
    if (!fold.open) return;
    observer.disconnect();
    for (const group of findAll(element, "article")) drawGroup(group);
    find(element, ".cc-only-here").hidden = !["localhost", "127.0.0.1", "[::1]"].includes(location.hostname);
    observer.observe(element, { childList: true, characterData: true, subtree: true });
  }
}

/** @param {HTMLElement} group */
function drawGroup(group) {
  const text = (/** @type {string} */ part) => find(group, `[data-part="${part}"]`).textContent;
  const { href } = new URL(`#${text("fragment")}`, cardAddress(text("slot")));
  const link = find(group, "a", HTMLAnchorElement);
  if (link.href === href) return;
  link.href = href;
  link.textContent = href;
  find(group, ".cc-phone-code").replaceChildren(qrCode(href));
}

/**
 * The address of the card in a slot: the one that is chosen there, or the one that the handout is below.
 *
 * @param {string} slot
 */
function cardAddress(slot) {
  const choice = document.querySelector(`select[data-context-from="${slot}"]`);
  const card = choice instanceof HTMLSelectElement ? (choice.dataset.shown ?? choice.value) : "../";
  return new URL(".", new URL(card, document.baseURI));
}

/** @param {string} text */
export function qrCode(text) {
  const svg = document.createElementNS(SVG, "svg");
  const path = document.createElementNS(SVG, "path");
  const { size, path: d } = codePath(text);
  svg.setAttribute("viewBox", `${-QUIET} ${-QUIET} ${size + 2 * QUIET} ${size + 2 * QUIET}`);
  svg.setAttribute("class", "cc-code");
  svg.setAttribute("aria-hidden", "true");
  path.setAttribute("d", d);
  svg.append(path);
  return svg;
}

/**
 * A QR code as the path of its dark modules, a box for each run of them in a row. All of the text is one segment of bytes,
 * which every reader of codes knows.
 *
 * @param {string} text in ASCII, as addresses are
 */
export function codePath(text) {
  /** @type {{ size: number, get: (x: number, y: number) => boolean }} */
  const code = /** @type {any} */ (generate)(text, { minCorrectionLevel: correction.M, modes: [mode.ascii] });
  let path = "";
  for (let y = 0; y < code.size; y += 1) {
    for (let x = 0, start = 0; x <= code.size; x += 1) {
      if (code.get(x, y)) continue;
      if (x > start) path += `M${start} ${y}h${x - start}v1H${start}z`;
      start = x + 1;
    }
  }
  return { size: code.size, path };
}
