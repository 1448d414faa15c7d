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

/** What was asked for before there was somebody to keep it; answers may still be under way. */
async function keepOpened() {
  const opened = await caches.open("opened");
  const known = new Set([location.pathname + location.search]);
  const keep = (/** @type {PerformanceEntry[]} */ entries) => {
    const own = entries.map(({ name }) => name).filter((each) => placeOf("GET", new URL(each), location.origin, false) === "opened");
    const fresh = own.filter((each) => !known.has(each));
    for (const each of fresh) known.add(each);
    return Promise.allSettled(fresh.map((each) => opened.add(each)));
  };
  const passedBy = (/** @type {PerformanceEntry} */ entry) => !(/** @type {PerformanceResourceTiming} */ (entry).workerStart);
  new PerformanceObserver((list) => void keep(list.getEntries().filter(passedBy))).observe({ type: "resource" });
  await opened.add(location.pathname + location.search).catch(() => {});
  await keep(performance.getEntriesByType("resource"));
}
