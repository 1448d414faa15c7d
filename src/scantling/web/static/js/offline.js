/** Have this browser keep the page, so that it opens without its server; where the browser allows none, nothing is lost. */

import { placeOf } from "./lib/offline.js";

const version = document.querySelector("meta[name=shell]")?.getAttribute("content") ?? "";

if ("serviceWorker" in navigator) void keep(navigator.serviceWorker);

/** @param {ServiceWorkerContainer} workers */
async function keep(workers) {
  const first = !workers.controller;
  try {
    await workers.register(`/static/js/worker.js?${version}`, { type: "module", scope: "/" });
    await workers.ready;
    if (first) await keepOpened();
  } catch {
    // storage may be switched off, or full: the page then needs its server, as without this
    return;
  }
  document.documentElement.dataset["kept"] = version;
}

/** What was asked for before there was somebody to keep it. */
async function keepOpened() {
  const asked = performance.getEntriesByType("resource").map((each) => new URL(each.name));
  const own = asked.filter((each) => placeOf("GET", each, location.origin, false) === "opened");
  const kept = await caches.open("opened");
  await Promise.allSettled([location.pathname + location.search, ...own].map((each) => kept.add(each)));
}
