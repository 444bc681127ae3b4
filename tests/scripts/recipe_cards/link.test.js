// A state in an address, there and back; and addresses that hold none, or a damaged one.
import assert from "node:assert/strict";
import { test } from "node:test";

import { linkText, stateFromLink } from "../../../site_plugins/crumbcoat_site/recipe_cards/theme/assets/recipe_cards/link.js";

test("a link can be read by people", () => {
  assert.equal(linkText({ factor: "2.5", "without.gelatine": "yes" }), "factor=2.5&without.gelatine=yes");
  assert.equal(linkText({ "cake:cupcakes": "30", eggs: "size M (EU, 53 to 63 g)" }), "cake:cupcakes=30&eggs=size+M+(EU%2C+53+to+63+g)");
  assert.equal(linkText({}), "");
});

for (const state of [
  { factor: "2" },
  { "amount.butter": "1½ US cups + 2 tbsp", factor: "1/3" },
  { note: "a=b&c+d %20 # é" },
  { "cake:tier.1.shape": "" },
]) {
  test(`a link brings back ${JSON.stringify(state)}`, () => {
    assert.deepEqual(stateFromLink(`#${linkText(state)}`), state);
  });
}

for (const fragment of ["", "#", "#ingredients", "#step-1-3", "#bench"]) {
  test(`${fragment || "an address without a fragment"} holds no state`, () => {
    assert.equal(stateFromLink(fragment), null);
  });
}

for (const [fragment, problem] of /** @type {[string, string][]} */ ([
  ["#=2", "part of it is missing"],
  ["#factor=2&", "part of it is missing"],
  ["#factor=2&units", "part of it is missing"],
  ["#factor=2=3", "part of it is missing"],
  ["#factor=2&factor=3", "it gives factor twice"],
  ["#factor=%E0%A4%A", "it is damaged"],
  [`#factor=${"2".repeat(4000)}`, "it is too long"],
])) {
  test(`${fragment.slice(0, 30)} is refused: ${problem}`, () => {
    assert.throws(() => stateFromLink(fragment), new RangeError(problem));
  });
}

test("a link may have 4000 letters", () => {
  const value = "2".repeat(4000 - "factor=".length);
  assert.deepEqual(stateFromLink(`#factor=${value}`), { factor: value });
  assert.throws(() => stateFromLink(`#factor=${value}2`), new RangeError("it is too long"));
});

test("no field has the name of something that every object has", () => {
  assert.deepEqual(stateFromLink("#toString=2"), { toString: "2" });
});

test("a link to bench view with amounts holds them; one without holds none", () => {
  assert.deepEqual(stateFromLink("#bench&factor=2&amount.milk=1+US+cup"), { factor: "2", "amount.milk": "1 US cup" });
  assert.equal(stateFromLink("#bench"), null);
});
