// Marks in prose: the cases that Python is tested with.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";

import { marksIn } from "../../../site_plugins/crumbcoat_site/calculators/theme/assets/calculators/prose.js";

/** @import { Part } from "../../../site_plugins/crumbcoat_site/calculators/theme/assets/calculators/prose.js" */

/** @type {[string, unknown[]][]} */
const cases = JSON.parse(readFileSync(new URL("../../calc/values/marks.json", import.meta.url), "utf-8"));

/** @type {(parts: Part[]) => unknown[]} */
const asLists = (parts) =>
  parts.map((part) => (typeof part === "string" ? part : [part.kind, asLists(part.parts), ...(part.href ? [part.href] : [])]));

for (const [written, parts] of cases) {
  test(`marks in ${JSON.stringify(written)}`, () => assert.deepEqual(asLists(marksIn(written)), parts));
}
