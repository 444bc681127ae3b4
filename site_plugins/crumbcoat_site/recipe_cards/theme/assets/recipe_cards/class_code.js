// What a group found, as a code to give to the teacher: one line of plain letters that survives being copied, typed and
// broken into lines, with a checksum. The handout reads it (calc/crumbcoat_calc/forms/class_results.py).

const PRIME = 65521;

/**
 * @param {Record<string, string>} fields by name, in plain letters; an empty one is left out
 */
export function codeOf(fields) {
  const written = Object.entries(fields).filter(([, value]) => value.trim());
  const body = `crumbcoat:1;${written.map(([name, value]) => `${name}=${plain(value.trim())};`).join("")}`;
  return `${body}check=${adler32(body)}.`;
}

/**
 * A text in letters, digits and `,.:+-`; a space is `_`, any other character `~`, its number in Unicode and a point.
 *
 * @param {string} text
 */
function plain(text) {
  const letter = (/** @type {string} */ one) => (one === " " ? "_" : `~${one.codePointAt(0)?.toString(16)}.`);
  return [...text].map((one) => (/[A-Za-z0-9,.:+-]/.test(one) ? one : letter(one))).join("");
}

/**
 * Adler-32 (RFC 1950) of a text in ASCII, as eight digits.
 *
 * @param {string} text
 */
export function adler32(text) {
  let [low, high] = [1, 0];
  for (const letter of text) {
    low = (low + letter.charCodeAt(0)) % PRIME;
    high = (high + low) % PRIME;
  }
  return [high, low].map((half) => half.toString(16).padStart(4, "0")).join("");
}
