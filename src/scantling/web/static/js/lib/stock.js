/** The stockroom in words. */

/** @typedef {import("../types.js").BoardBody} BoardBody */
/** @typedef {import("../types.js").ActBody} ActBody */

/** Words before whom a board went to or came from, by what happened. */
const TOWARD = Object.freeze(/** @type {Record<string, string>} */ ({ bought: "from", used: "for", sold: "to" }));

/** @param {number} count */
export function boardsWord(count) {
  return count === 1 ? "1 board" : `${count} boards`;
}

/** What is known of a board beside its size. @param {BoardBody} board */
export function boardWords(board) {
  const last = board.readings.at(-1);
  const from = board.cameFrom === null ? board.party && `from ${board.party}` : `from ${board.cameFromName}`;
  const moisture = board.moisturePct === null ? "" : `${board.moisturePct} %${last ? ` on ${last.at.slice(0, 10)}` : ""}`;
  const note = board.note === from ? "" : board.note;
  return [moisture, from, `since ${board.since.slice(0, 10)}`, board.grade, note].filter(Boolean).join(" · ");
}

/** What was done, in one sentence. @param {ActBody} act */
export function actWords(act) {
  if (act.takesBack !== null) return `took back no. ${act.takesBack}`;
  /** @type {Map<string, string[]>} */
  const told = new Map();
  for (const event of act.events) {
    const whom = event.party && TOWARD[event.kind] ? ` ${TOWARD[event.kind]} ${event.party}` : "";
    const figure = event.figure === null ? "" : event.kind === "read" ? ` at ${event.figure} %` : ` at ${event.figure}`;
    const key = `${event.kind}|${whom}${figure}`;
    told.set(key, [...(told.get(key) ?? []), event.name || `no. ${event.board}`]);
  }
  const lines = [...told].map(([key, names]) => {
    const [kind, whom] = key.split("|");
    return `${kind} ${named(names)}${whom}`;
  });
  return [...lines, act.note].filter(Boolean).join("; ");
}

/** Names as a sentence holds them: a long row is cut short. @param {string[]} names */
function named(names) {
  return names.length > 4 ? `${names.slice(0, 3).join(", ")} and ${names.length - 3} more` : names.join(", ");
}

/** The last act that counts, which would be taken back. @param {readonly ActBody[]} acts */
export function lastAct(acts) {
  return acts.find((act) => act.counts);
}
