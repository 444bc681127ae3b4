// How far the start of Python is, in words.

/** @param {number} bytes */
function kilobytes(bytes) {
  return Math.ceil(bytes / 1000).toLocaleString("en");
}

/** @param {{ loaded: number, total: number }} start in bytes */
function progressText({ loaded, total }) {
  return loaded < total ? `Loading the calculator: ${kilobytes(loaded)} of ${kilobytes(total)} kB` : "Starting the calculator";
}

/**
 * Says at a calculator how far the start is, or why there is none.
 *
 * @param {HTMLElement} calculator
 * @param {{ state: string, loaded: number, total: number }} status
 * @param {string} sentence why there is no start
 */
export function showStart(calculator, status, sentence) {
  calculator.dataset.state = status.state === "idle" ? "printed" : status.state;
  const place = calculator.querySelector("[data-progress]");
  if (place) place.textContent = status.state === "starting" ? progressText(status) : sentence;
}
