/** Which field a fault is told of. */

/** Whether a fault is told of a field: of it, or of one of its values. @param {string} fault @param {string} field */
export function belongs(fault, field) {
  return fault === field || fault.startsWith(`${field}[`) || fault.startsWith(`${field}.`);
}
