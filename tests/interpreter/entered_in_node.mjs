// `node --import entered_in_node.mjs`: at its end the process writes which functions were entered to the file ENTERED.
import fs from "node:fs";
import process from "node:process";
import "./entered.js";

process.on("exit", () => fs.writeFileSync(process.env["ENTERED"] ?? "", JSON.stringify(/** @type {any} */ (globalThis).entered())));
