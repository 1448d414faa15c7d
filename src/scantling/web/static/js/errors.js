/** Our own texts for what goes wrong between the page and its server; all others come from the server. */

/** @typedef {import("./types.js").FaultView} FaultView */

/** @type {FaultView} */
export const NO_ANSWER = Object.freeze({
  code: "no_answer",
  field: "server",
  place: "",
  message: "",
  rule: "The program behind this page does not answer",
  remedy: "Start it again with the same command, or come back into its network, then reload. What is on the page stays as it was.",
  value: "",
  found: "",
  file: "",
  line: 0,
  column: 0,
});

/** @type {FaultView} */
export const NOT_UNDERSTOOD = Object.freeze({
  code: "not_understood",
  field: "server",
  place: "",
  message: "",
  rule: "The answer was not one this page can read",
  remedy: "Reload the page: it may be older than the program behind it.",
  value: "",
  found: "",
  file: "",
  line: 0,
  column: 0,
});

export const NO_PICTURE = "This browser cannot draw in 3D here. Everything else on the page works without it.";
