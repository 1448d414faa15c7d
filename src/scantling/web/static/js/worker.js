/**
 * Answers when the server does not. The server is always asked first, so that nothing old is shown while it runs; what
 * it says is kept. The files of the page are kept under one name for all of them, which changes when one of them does.
 */

import { placeOf } from "./lib/offline.js";

/** How many answers are kept beside the files of the page; the oldest go first. */
const MOST = 120;
const OPENED = "opened";
const HOME = "/pieces";

/** The types of the checker are those of a window. @type {any} */
const worker = self;
const shell = `shell ${new URL(worker.location.href).search.slice(1)}`;

worker.addEventListener("install", (/** @type {any} */ event) => event.waitUntil(install()));
worker.addEventListener("activate", (/** @type {any} */ event) => event.waitUntil(takeOver()));
worker.addEventListener("fetch", (/** @type {any} */ event) => {
  const { request } = event;
  const place = placeOf(request.method, new URL(request.url), worker.location.origin, request.mode === "navigate");
  if (place) event.respondWith(answer(request, place === "shell" ? shell : OPENED));
});

async function install() {
  const response = await fetch("/api/shell");
  const kept = await caches.open(shell);
  await kept.addAll((await response.json()).files);
  await worker.skipWaiting();
}

/** What older files there are goes. */
async function takeOver() {
  for (const name of await caches.keys()) if (name.startsWith("shell ") && name !== shell) await caches.delete(name);
  await worker.clients.claim();
}

/** @param {Request} request @param {string} name where it is kept @returns {Promise<Response>} */
async function answer(request, name) {
  const kept = await caches.open(name);
  try {
    const response = await fetch(request);
    if (response.status === 200 && !response.redirected) {
      await kept.put(request, response.clone());
      if (name === OPENED) await thin(kept);
    }
    return response;
  } catch (error) {
    const found = await kept.match(request, { ignoreVary: true });
    if (found) return found;
    // a document is the same whatever sizes and unit its address carries; what it then asks for is kept by those
    const other = request.mode === "navigate" ? await kept.match(request, { ignoreVary: true, ignoreSearch: true }) : undefined;
    if (other) return other;
    if (request.mode === "navigate") return notKept(Boolean(await kept.match(HOME)));
    throw error;
  }
}

/** The page of a place that was never opened here, of files that are kept. @param {boolean} listed whether the list of pieces is kept */
function notKept(listed) {
  const styles = ["tokens", "page", "pieces"].map((name) => `<link rel="stylesheet" href="/static/css/${name}.css" />`).join("");
  const home = listed ? `<p class="ways"><a class="key main" href="${HOME}">Your pieces, as last seen</a></p>` : "";
  const words = "It was not opened on this device while the program ran, so that it is not kept here. Start the program again with the same command, then reload.";
  const html = `<!doctype html><html lang="en"><head><meta charset="utf-8" /><title>Not kept here</title>
    <meta name="viewport" content="width=device-width, initial-scale=1" /><meta name="color-scheme" content="light dark" />
    ${styles}<script src="/static/js/theme-first.js"></script></head>
    <body class="plain"><main><h1>This page needs the program</h1><p>${words}</p>${home}</main></body></html>`;
  return new Response(html, { status: 503, headers: { "content-type": "text/html; charset=utf-8" } });
}

/** @param {Cache} kept */
async function thin(kept) {
  const requests = await kept.keys();
  for (const old of requests.slice(0, Math.max(0, requests.length - MOST))) await kept.delete(old);
}
