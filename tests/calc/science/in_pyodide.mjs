// `node in_pyodide.mjs PYODIDE ARCHIVE` runs the Python on stdin in Pyodide, with the archive to import from, and prints
// what it leaves in `answer`.
import fs from "node:fs";
import path from "node:path";
import process from "node:process";
import { pathToFileURL } from "node:url";

const [, , pyodide = "", archive = ""] = process.argv;
const { loadPyodide } = await import(pathToFileURL(path.join(pyodide, "pyodide.mjs")).href);
const python = await loadPyodide();
python.unpackArchive(new Uint8Array(fs.readFileSync(archive)), "zip");
console.log(python.runPython(`${fs.readFileSync(0, "utf8")}\nanswer`));
