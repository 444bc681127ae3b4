// How far the start of Python is, in words.

/** @param {number} bytes */
function kilobytes(bytes) {
  return Math.ceil(bytes / 1000).toLocaleString("en");
}

/** @param {{ loaded: number, total: number }} start in bytes */
export function progressText({ loaded, total }) {
  return loaded < total ? `Loading the calculator: ${kilobytes(loaded)} of ${kilobytes(total)} kB` : "Starting the calculator";
}
