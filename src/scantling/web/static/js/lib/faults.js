/** Which field a fault is told of, and faults in words: by the name of the part or joint, never by a path in a file. */

/** @typedef {import("../types.js").FaultView} FaultView */

const NAME_NOT_KNOWN = "unknown_field";

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
  const { place, rule, remedy, message } = fault;
  if (!place) return message || `${rule}. ${remedy}`.trim();
  return `${standing(fault)} ${broken(fault)} ${remedy}`.trim();
}

/** How many there are, and where the first of them is. @param {readonly FaultView[]} faults @param {FaultView} first */
export function toMend(faults, { file, line }) {
  const name = file.split(/[\\/]/).at(-1) ?? "";
  const where = line ? ` in line ${line}${["", "piece.yaml"].includes(name) ? "" : ` of ${name}`}` : "";
  return `${faults.length} to mend${faults.length > 1 && where ? ", the first" : ""}${where}`;
}

/** The rule that is broken and what was found instead, to follow where it stands. @param {FaultView} fault */
export function broken({ code, rule, found }) {
  const instead = found && code !== NAME_NOT_KNOWN; // there the name is wrong, not what is written to it
  return `${rule}${instead ? `, got ${found}` : ""}.`;
}

/** How many places may break one rule alike before the first of them is told for all. */
const MOST_ALIKE = 3;

/** Faults as sentences; those that differ only in what was got, as one, and many alike by the first of them. @param {readonly FaultView[]} faults @returns {string[]} */
export function allTold(faults) {
  /** @type {Map<string, FaultView>} */
  const alike = new Map();
  for (const fault of faults) {
    const key = [fault.place, fault.line, fault.rule, fault.remedy].join("\n");
    const before = alike.get(key);
    if (!before) alike.set(key, fault);
    else if (!before.found.split("; ").includes(fault.found)) alike.set(key, { ...before, found: `${before.found}; ${fault.found}` });
  }
  return shortened([...alike.values()]).map(told);
}

/** Many that differ only in where they stand are one, with how many more there are. @param {FaultView[]} faults */
function shortened(faults) {
  const key = (/** @type {FaultView} */ { rule, found, remedy }) => [rule, found, remedy].join("\n");
  const counts = new Map();
  for (const fault of faults) counts.set(key(fault), (counts.get(key(fault)) ?? 0) + 1);
  const firsts = new Set();
  return faults.flatMap((fault) => {
    const count = counts.get(key(fault));
    if (count <= MOST_ALIKE) return [fault];
    if (firsts.has(key(fault))) return [];
    firsts.add(key(fault));
    return [{ ...fault, place: `${standing(fault)} and ${count - 1} other places`, line: 0 }];
  });
}
