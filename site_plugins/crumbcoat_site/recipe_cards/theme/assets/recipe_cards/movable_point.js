// <movable-point data-x="x_g" data-y="y_g"> holds a picture whose point is moved in it: two fields of the form around it
// get the amounts. It is as large as what the axes enclose, and knows nothing of what they measure: the picture says where
// each axis ends and to what an amount is rounded (data-x-end, data-x-step …), and has its point in a <circle> with
// positions in per cent. What has the role of a slider lies over the point and takes finger, mouse and keys.
//
// A finger drags only the point itself: elsewhere it scrolls the page, and a tap brings the point there.

/** @typedef {{ end: number, step: number }} Axis in the unit of its field */
/** @typedef {{ x?: string, y?: string }} Amounts by axis */

/** How far one press of an arrow key goes, as a share of the axis; with Shift ten times as far. */
const KEY_SHARE = 0.01;

/** @type {Map<string, ["x" | "y", number]>} */
const KEYS = new Map([
  ["ArrowLeft", ["x", -1]],
  ["ArrowRight", ["x", 1]],
  ["ArrowDown", ["y", -1]],
  ["ArrowUp", ["y", 1]],
]);

/**
 * The amount at a place of an axis, as it is written into a field.
 *
 * @param {number} share from 0 to 1; what is beyond counts as the end
 * @param {Axis} axis
 */
export function amountAt(share, { end, step }) {
  const amount = Math.min(Math.round((Math.min(Math.max(share, 0), 1) * end) / step) * step, end);
  return String(Number(amount.toFixed(2)));
}

/**
 * The amounts at a place of the window.
 *
 * @param {{ left: number, bottom: number, width: number, height: number }} box what the axes enclose
 * @param {{ clientX: number, clientY: number }} place
 * @param {{ x: Axis, y: Axis }} axes
 */
export function amountsAt(box, { clientX, clientY }, axes) {
  return {
    x: amountAt((clientX - box.left) / box.width, axes.x),
    y: amountAt((box.bottom - clientY) / box.height, axes.y),
  };
}

/**
 * The amount that a key leads to; nothing for a key that does not move the point.
 *
 * @param {{ key: string, shiftKey: boolean }} event
 * @param {{ x: number, y: number }} shares where the point is, from 0 to 1
 * @param {{ x: Axis, y: Axis }} axes
 * @returns {Amounts}
 */
export function amountByKey({ key, shiftKey }, shares, axes) {
  const [name, direction] = KEYS.get(key) ?? [];
  if (!name || !direction) return {};
  const axis = axes[name];
  const share = Math.max(KEY_SHARE * (shiftKey ? 10 : 1), axis.step / axis.end);
  return { [name]: amountAt(shares[name] + direction * share, axis) };
}

/**
 * Makes the point of a picture movable, for as long as the element is on the page.
 *
 * @param {HTMLElement} element
 */
export function movePoint(element) {
  const grip = /** @type {HTMLElement} */ (element.querySelector("[role=slider]"));
  const form = /** @type {HTMLFormElement} */ (element.closest("form"));
  let isDragged = false;

  const drag = (/** @type {MouseEvent} */ event) => write(amountsAt(element.getBoundingClientRect(), event, axesOf(element)));
  const write = (/** @type {Amounts} */ amounts) => {
    for (const [axis, amount] of Object.entries(amounts)) {
      const field = /** @type {HTMLInputElement} */ (form.elements.namedItem(element.dataset[axis] ?? ""));
      if (field.value === amount) continue;
      field.value = amount;
      field.dispatchEvent(new Event("change", { bubbles: true }));
    }
    const { x, y } = axesOf(element);
    const shares = sharesOf(pointOf(element));
    if (amounts.x !== undefined) shares.x = Number(amounts.x) / x.end;
    if (amounts.y !== undefined) shares.y = Number(amounts.y) / y.end;
    place(shares);
  };
  /** It is translated, since nothing else on the page moves with it. @param {{ x: number, y: number }} shares */
  const place = ({ x, y }) => (grip.style.translate = `calc(${100 * x}cqw - 50%) calc(${100 - 100 * y}cqh - 50%)`);
  const follow = () => {
    const point = pointOf(element);
    grip.setAttribute("aria-valuenow", String(Math.round(200 * sharesOf(point).x)));
    grip.setAttribute("aria-valuetext", element.querySelector("desc")?.textContent ?? "");
    if (!isDragged) place(sharesOf(point));
  };

  follow();
  form.closest("recipe-calculator")?.addEventListener("recipe-state", follow);
  element.addEventListener("pointerdown", (event) => {
    if (event.button || !event.isPrimary || (event.target !== grip && event.pointerType !== "mouse")) return;
    event.preventDefault(); // It would select the words around, and take the focus from the point.
    isDragged = true;
    grip.setPointerCapture(event.pointerId);
    grip.focus({ preventScroll: true });
    drag(event);
  });
  grip.addEventListener("pointermove", (event) => {
    if (isDragged) drag(event);
  });
  grip.addEventListener("lostpointercapture", () => (isDragged = false));
  element.addEventListener("click", drag);
  grip.addEventListener("keydown", (event) => {
    const amounts = amountByKey(event, sharesOf(pointOf(element)), axesOf(element));
    if (event.ctrlKey || event.altKey || event.metaKey || !Object.keys(amounts).length) return;
    event.preventDefault();
    write(amounts);
  });
}

/** @param {HTMLElement} element */
function axesOf(element) {
  const { xEnd, xStep, yEnd, yStep } = /** @type {SVGElement} */ (element.querySelector("[data-x-end]")).dataset;
  return { x: { end: Number(xEnd), step: Number(xStep) }, y: { end: Number(yEnd), step: Number(yStep) } };
}

/** @param {HTMLElement} element */
function pointOf(element) {
  return /** @type {SVGCircleElement} */ (element.querySelector("circle"));
}

/** @param {SVGCircleElement} point */
function sharesOf(point) {
  return { x: parseFloat(point.getAttribute("cx") ?? "") / 100, y: 1 - parseFloat(point.getAttribute("cy") ?? "") / 100 };
}
