// Mistakes, not taste: what ESLint recommends, and a few rules more that have caught something.

import js from "@eslint/js";
import globals from "globals";

const STATE = { selector: 'Program > VariableDeclaration[kind="let"]', message: "What changes belongs to an object: two views in one page would share it." };
const SAID = {
  selector: 'CallExpression[callee.property.name=/^toLocale/], MemberExpression[object.name="Intl"]',
  message: "Numbers and times are put in words by shared/dates.js.",
};

export default [
  js.configs.recommended,
  {
    files: ["static/**/*.js"],
    languageOptions: { globals: globals.browser },
    linterOptions: { reportUnusedDisableDirectives: "error" },
    rules: {
      "array-callback-return": "error",
      eqeqeq: ["error", "always", { null: "ignore" }],
      "no-constructor-return": "error",
      "no-else-return": "error",
      "no-implied-eval": "error",
      "no-promise-executor-return": ["error", { allowVoid: true }],
      "no-restricted-globals": ["error", { name: "fetch", message: "Requests go through shared/requests.js: they need a time limit." }],
      "no-restricted-properties": ["error", { property: "innerHTML", message: "Text goes in as text." }, { property: "insertAdjacentHTML", message: "Text goes in as text." }],
      "no-restricted-syntax": ["error", STATE, SAID],
      "no-self-compare": "error",
      "no-shadow": "error",
      "no-unmodified-loop-condition": "error",
      "no-unused-vars": ["error", { args: "after-used", argsIgnorePattern: "^_", ignoreRestSiblings: true }],
      "no-use-before-define": ["error", { functions: false, classes: false, variables: false }],
      "no-var": "error",
      "prefer-const": "error",
      "prefer-template": "error",
      radix: "error",
    },
  },
  {
    files: ["static/**/worker.js"],
    languageOptions: { globals: { ...globals.serviceworker, KEPT: "readonly" } },
    rules: { "no-restricted-syntax": ["error", SAID] }, // a worker is one for all its pages
  },
  {
    files: ["static/shared/dates.js"],
    rules: { "no-restricted-syntax": ["error", STATE] },
  },
  {
    files: ["static/shared/requests.js"],
    rules: { "no-restricted-globals": "off" },
  },
];
