// The code of a group: plain letters with a checksum.
import assert from "node:assert/strict";
import { test } from "node:test";

import { moment } from "../../../site_plugins/crumbcoat_site/recipe_cards/theme/assets/recipe_cards/class_card.js";
import { adler32, codeOf } from "../../../site_plugins/crumbcoat_site/recipe_cards/theme/assets/recipe_cards/class_code.js";

test("a code has only letters that survive a message", () => {
  const code = codeOf({ title: "Crème, light", group: "3", note: "", "marks.sweetness": "7, 8" });
  assert.match(code, /^crumbcoat:1;title=Cr~e8\.me,_light;group=3;marks\.sweetness=7,_8;check=[0-9a-f]{8}\.$/);
  assert.match(codeOf({ note: "a;b=c~d\n😀 <script>" }), /^[A-Za-z0-9,.:;=_~+-]+$/);
});

test("the checksum is that of RFC 1950", () => {
  assert.equal(adler32("123456789"), "091e01de"); // As zlib.adler32 of Python has it; test_class_results.py compares more.
  assert.equal(adler32(""), "00000001");
});

test("a code says when it was made, by the clock of the device", () => {
  assert.equal(moment(new Date(2026, 10, 7, 9, 5, 3)), "2026-11-07T09:05:03");
});
