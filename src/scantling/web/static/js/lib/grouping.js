/** Fields that belong together. */

/**
 * Those of one group one after the other, each group where its first stands.
 *
 * @template {{group: string}} Field
 * @param {readonly Field[]} fields
 * @returns {Array<[string, Field[]]>}
 */
export function grouped(fields) {
  /** @type {Map<string, Field[]>} */
  const groups = new Map();
  for (const field of fields) groups.set(field.group, [...(groups.get(field.group) ?? []), field]);
  return [...groups];
}
