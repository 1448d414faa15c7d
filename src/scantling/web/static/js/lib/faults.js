/** Which field a fault is told of, and faults in words: by the name of the part or joint, never by a path in a file. */

/** @typedef {import("../types.js").FaultView} FaultView */

/** Whether a fault is told of a field: of it, or of one of its values. @param {string} fault @param {string} field */
export function belongs(fault, field) {
  return fault === field || fault.startsWith(`${field}[`) || fault.startsWith(`${field}.`);
}

/** Where a fault stands: the part or joint and what of it, with the line of the text it is written in. @param {FaultView} fault */
export function standing({ place, file, line }) {
  if (!line) return place;
  const name = file.split(/[\\/]/).at(-1) ?? "";
  return `${place} (line ${line}${["", "piece.yaml"].includes(name) ? "" : ` of ${name}`})`.trim();
}

/** A fault as a sentence, with what to do about it. @param {FaultView} fault */
export function told(fault) {
  const { place, rule, value, remedy, message } = fault;
  if (!place) return message || `${rule}. ${remedy}`.trim();
  return `${standing(fault)} ${rule}${value ? `, got ${value}` : ""}. ${remedy}`.trim();
}

/** Faults as sentences; those that differ only in what was got, as one. @param {readonly FaultView[]} faults @returns {string[]} */
export function allTold(faults) {
  /** @type {Map<string, FaultView>} */
  const alike = new Map();
  for (const fault of faults) {
    const key = [fault.place, fault.line, fault.rule, fault.remedy].join("\n");
    const before = alike.get(key);
    if (!before) alike.set(key, fault);
    else if (!before.value.split("; ").includes(fault.value)) alike.set(key, { ...before, value: `${before.value}; ${fault.value}` });
  }
  return [...alike.values()].map(told);
}
