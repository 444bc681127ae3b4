// What the linter asks of every script: its own recommendations, and habits that types do not see.
import js from "@eslint/js";

export default [
  js.configs.recommended,
  {
    linterOptions: { reportUnusedDisableDirectives: "error" },
    rules: {
      "no-undef": "off", // The type checker knows what is defined in a page, in a worker and in Node.
      "no-unused-vars": ["error", { args: "all", argsIgnorePattern: "^_" }],
      "array-callback-return": "error",
      "arrow-body-style": "error",
      curly: ["error", "multi-line"],
      eqeqeq: "error",
      "func-style": ["error", "declaration", { allowArrowFunctions: true }],
      "logical-assignment-operators": "error",
      "no-else-return": "error",
      "no-implicit-coercion": "error",
      "no-lonely-if": "error",
      "no-param-reassign": "error",
      "no-promise-executor-return": "error",
      "no-restricted-globals": ["error", "event", "name", "find"],
      "no-self-compare": "error",
      "no-shadow": ["error", { builtinGlobals: false }],
      "no-template-curly-in-string": "error",
      "no-unneeded-ternary": "error",
      "no-unreachable-loop": "error",
      "no-use-before-define": ["error", { functions: false, classes: false, variables: false }],
      "no-useless-rename": "error",
      "no-useless-return": "error",
      "no-var": "error",
      "object-shorthand": "error",
      "prefer-const": "error",
      "prefer-object-has-own": "error",
      "prefer-template": "error",
      "require-atomic-updates": "error",
      "consistent-return": "error",
      "max-lines": ["error", 300],
    },
  },
];
