// Marks in prose, the same part of Markdown as in crumbcoat_calc/values/marks.py, whose cases both are tested with.

/**
 * What is inside a mark: an element of this name.
 *
 * @typedef {{ kind: "em" | "strong" | "code" | "a", parts: Part[], href?: string }} Marked
 * @typedef {string | Marked} Part
 */

const ESCAPED = /\\([!-/:-@[-`{-~])/y;
const CODE = /`([^`]+)`/y;
const LINK = /\[((?:\\.|[^[\]\\])+)\]\(((?:[^\s()<>\\]|\([^\s()<>\\]*\))+)\)/y;
const PAGE = /^(?:https?:\/\/[^/]|mailto:.|(?!\/\/)(?![a-z][a-z0-9+.-]*:))/i;
const WORD = /^[\p{L}\p{N}]/u;

/** @type {["em" | "strong", RegExp][]} */
const AROUND = [
  ["strong", inside("*", 2)],
  ["strong", inside("_", 2)],
  ["em", inside("*", 1)],
  ["em", inside("_", 1)],
];

/**
 * @param {string} sign
 * @param {number} times
 */
function inside(sign, times) {
  const one = `(?:\\\\.|[^${sign}\\\\])`;
  const edge = `(?:\\\\.|[^${sign}\\\\\\s])`;
  return new RegExp(`[${sign}]{${times}}(${edge}(?:${one}*${edge})?)[${sign}]{${times}}`, "y");
}

/**
 * The parts of a text: plain ones, and marked ones.
 *
 * @param {string} written
 * @returns {Part[]}
 */
export function marksIn(written) {
  /** @type {Part[]} */
  const parts = [];
  let plain = "";
  for (let at = 0; at < written.length; ) {
    const [found, length, letters] = markAt(written, at);
    if (found && plain) parts.push(plain);
    if (found) parts.push(found);
    plain = (found ? "" : plain) + letters;
    at += length;
  }
  return plain ? [...parts, plain] : parts;
}

/**
 * The mark at a position, how long it is, and the letters instead where there is none.
 *
 * @param {string} written
 * @param {number} at
 * @returns {[Marked | null, number, string]}
 */
function markAt(written, at) {
  const sign = written[at] ?? "";
  const escaped = matchAt(ESCAPED, written, at);
  if (escaped) return [null, 2, escaped[1] ?? ""];
  const code = matchAt(CODE, written, at);
  if (code) return [{ kind: "code", parts: [code[1] ?? ""] }, code[0].length, ""];
  const link = matchAt(LINK, written, at);
  if (link && PAGE.test(link[2] ?? "")) {
    return [{ kind: "a", parts: marksIn(link[1] ?? ""), href: link[2] ?? "" }, link[0].length, ""];
  }
  if (at && WORD.test(written[at - 1] ?? "")) return [null, 1, sign];
  for (const [kind, pattern] of AROUND) {
    const around = matchAt(pattern, written, at);
    if (around && !WORD.test(written.slice(at + around[0].length))) {
      return [{ kind, parts: marksIn(around[1] ?? "") }, around[0].length, ""];
    }
  }
  return [null, 1, sign];
}

/**
 * @param {RegExp} pattern a sticky one
 * @param {string} written
 * @param {number} at
 */
function matchAt(pattern, written, at) {
  pattern.lastIndex = at;
  return pattern.exec(written);
}

/**
 * Nodes of the page for the parts of a text. Only addresses that are the same from every page become links if `isMoved`.
 *
 * @param {Part[]} parts
 * @param {boolean} isMoved
 * @returns {Node[]}
 */
export function nodesOf(parts, isMoved) {
  return parts.flatMap((part) => {
    if (typeof part === "string") return [document.createTextNode(part)];
    const inner = nodesOf(part.parts, isMoved);
    if (part.href !== undefined && isMoved && !/^(https?|mailto):/i.test(part.href)) return inner;
    const element = document.createElement(part.kind);
    if (part.href !== undefined) element.setAttribute("href", part.href);
    element.append(...inner);
    return [element];
  });
}
