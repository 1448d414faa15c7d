/** Asking the server. */

import { NO_ANSWER, NOT_UNDERSTOOD } from "../errors.js";
import { allTold } from "../lib/faults.js";
import { writeGiven } from "../lib/given.js";

/** @typedef {import("../types.js").PlanView} PlanView */
/** @typedef {import("../types.js").ShapeView} ShapeView */
/** @typedef {import("../types.js").FaultView} FaultView */
/** @typedef {import("../types.js").Given} Given */

/** What the server refused, or that it did not answer. */
export class Refused extends Error {
  /** @param {FaultView[]} faults @param {Record<string, unknown>} [body] everything that was told */
  constructor(faults, body = {}) {
    super(allTold(faults).join("\n"));
    this.faults = faults;
    this.body = body;
  }
}

/**
 * @param {Given} given
 * @param {AbortSignal} signal
 * @param {string} [from] where the design stands that is asked for: a text being typed; empty for that of this document
 * @returns {Promise<ShapeView>}
 * @throws {Refused}
 */
export async function askShape(given, signal, from = "") {
  const response = await asked(`${from}api/shape${writeGiven(given)}`, signal);
  return response.json();
}

/**
 * The plan but for what takes longest; where nothing does, the whole of it.
 *
 * @param {Given} given
 * @param {AbortSignal} signal
 * @param {string} [from] as of the shape
 * @returns {Promise<PlanView>}
 * @throws {Refused}
 */
export async function askFigures(given, signal, from = "") {
  const response = await asked(`${from}api/figures${writeGiven(given)}`, signal);
  return response.json();
}

/**
 * @param {Given} given
 * @param {AbortSignal} signal
 * @param {string} [from] as of the shape
 * @returns {Promise<PlanView>}
 * @throws {Refused}
 */
export async function askPlan(given, signal, from = "") {
  const response = await asked(`${from}api/plan${writeGiven(given)}`, signal);
  return response.json();
}

/**
 * @param {Given} given
 * @param {AbortSignal} signal
 * @param {string} [base] address below which another piece than the one of this page stands
 * @returns {Promise<ArrayBuffer>}
 * @throws {Refused}
 */
export async function askScene(given, signal, base = "") {
  const response = await asked(`${base}${sceneAddress(given)}`, signal);
  return response.arrayBuffer();
}

/** @param {Given} given */
function sceneAddress(given) {
  return `api/scene.glb${writeGiven(given)}`;
}

/**
 * Address of something to take away.
 *
 * @param {string} path
 * @param {Given} given
 * @param {Record<string, string>} [more]
 */
export function fileAddress(path, given, more = {}) {
  return `${path}${writeGiven({ ...given, ...more })}`;
}

/** @param {string} address @returns {Promise<Response>} @throws {Refused} */
export async function ask(address) {
  return asked(address, new AbortController().signal);
}

/**
 * Send something to be answered or kept.
 *
 * @param {string} address
 * @param {unknown} body
 * @param {string} [method]
 * @returns {Promise<Response>}
 * @throws {Refused}
 */
export async function send(address, body, method = "POST") {
  const headers = { "content-type": "application/json" };
  return asked(address, new AbortController().signal, { method, headers, body: JSON.stringify(body) });
}

/**
 * @param {string} address
 * @param {AbortSignal} signal
 * @param {RequestInit} [how]
 * @returns {Promise<Response>}
 */
async function asked(address, signal, how = {}) {
  /** @type {Response} */
  let response;
  try {
    // asked anew also when the browser goes back to a page: it would show what it kept of it, and the piece has moved on
    response = await fetch(address, { cache: "no-cache", ...how, signal });
  } catch (error) {
    if (signal.aborted) throw error;
    throw new Refused([NO_ANSWER]);
  }
  if (response.ok) return response;
  const body = await response.json().catch(() => null);
  throw new Refused(Array.isArray(body?.errors) && body.errors.length ? body.errors : [NOT_UNDERSTOOD], body ?? {});
}
