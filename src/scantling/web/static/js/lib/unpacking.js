/** Bytes that are written into a document as text. */

/**
 * @param {string} packed gzip, in base64
 * @returns {Promise<ArrayBuffer>}
 */
export async function unpacked(packed) {
  const bytes = Uint8Array.from(atob(packed), (letter) => letter.charCodeAt(0));
  return new Response(new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip"))).arrayBuffer();
}
