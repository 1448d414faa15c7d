/** Which sheets are chapters of their own, in order. */

/** @typedef {import("../types.js").PlanView} PlanView */
/** @typedef {import("../types.js").Sheet} Sheet */

/** The sheet that stands at the head of the page, the one the findings are told in, and the one with the year. */
export const [OVERVIEW, FAULTS, SEASONS] = ["overview", "faults", "seasons"];

/**
 * @param {PlanView} plan
 * @returns {Sheet[]} the sheets without the overview; with a chapter for the findings, whatever sheets there are
 */
export function chaptersOf({ sheets }) {
  const chapters = sheets.filter((sheet) => sheet.id !== OVERVIEW);
  if (chapters.some((sheet) => sheet.id === FAULTS)) return chapters;
  return [{ id: FAULTS, title: "Findings", lead: "", blocks: [] }, ...chapters];
}

/**
 * One of the few figures at the head of a plan.
 *
 * @param {PlanView} plan
 * @param {string} label what it is of
 * @returns {string} empty where the plan has none
 */
export function factOf({ sheets }, label) {
  const blocks = sheets.find((sheet) => sheet.id === OVERVIEW)?.blocks ?? [];
  const facts = blocks.flatMap((block) => (block.kind === "facts" ? block.items : []));
  return facts.find(([name]) => name === label)?.[1] ?? "";
}
