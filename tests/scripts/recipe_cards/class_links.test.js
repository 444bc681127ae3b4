// QR codes of links, as paths: each module of the code is in it once. The modules are compared with segno's in Python.
import assert from "node:assert/strict";
import { test } from "node:test";

import { codePath } from "../../../site_plugins/crumbcoat_site/recipe_cards/theme/assets/recipe_cards/class_links.js";

test("a path has the three finders of a code, and is as large as its version", () => {
  const { size, path } = codePath("https://lantern.example/veil/#bench&class:group=3");
  assert.equal((size - 17) % 4, 0);
  for (const [x, y] of [[0, 0], [size - 7, 0], [0, size - 7]]) assert.ok(path.includes(`M${x} ${y}h7v1H${x}z`), `${x} ${y}`);
});
