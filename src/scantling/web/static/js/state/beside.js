/** Keeps the text beside the piece and the page in step: what is typed is drawn, what is done on the page stands in the text. */

import { sizesOf } from "../lib/given.js";
import { later } from "../lib/later.js";
import { keepText, recallText } from "../lib/this-browser.js";

/** @typedef {import("../types.js").PieceOpen} PieceOpen */

const OPEN = "text-beside";
/** The figures wait until the hand rests, as for sizes. */
const [FIGURES_MS, PLAN_MS] = [160, 700];

/**
 * @typedef {object} Page what of the page it needs
 * @property {import("./store.js").Store} store
 * @property {import("./planning.js").Planning} planning
 * @property {import("./keeping.js").Keeping} keeping
 * @property {import("../elements/text-beside.js").TextBeside} leaf
 * @property {typeof import("./writing.js").Beside} Beside
 * @property {() => void} untry lets go of the sizes that are tried in the address
 */

/** The text beside a piece that is kept, if it is; what is returned tells it of the page. @param {Page} page */
export function besideOf({ store, planning, keeping, leaf, Beside, untry }) {
  if (!keeping.number) {
    leaf.remove();
    return { writes: () => false, moved: () => {}, lookAgain: async () => {} };
  }
  const beside = new Beside(
    keeping.number,
    (state) => {
      leaf.state = state;
      tellSizes();
      mark();
      hold();
    },
    {
      drawn: (draft) => draw(draft),
      saved: (opened) => keeping.changed(opened),
    },
  );
  /** @type {string} the part whose entry was led to last */
  let led = "";
  let line = 0;

  /** Draw what stands somewhere. @param {string} draft empty for what is saved */
  function draw(draft) {
    const from = draft && leaf.open ? `/drafts/${draft}/` : "";
    if (from === store.state.from && !store.state.faults.length) return;
    store.set({ from });
    void planning.now(FIGURES_MS, PLAN_MS);
  }

  /** A size that cannot be is told at its field too. */
  function tellSizes() {
    const faults = beside.state.faults.flatMap((each) => {
      const name = /^parameters\.(\w+)\b/.exec(each.field)?.[1];
      return leaf.open && name ? [{ ...each, field: name }] : [];
    });
    if (faults.length && faults.length !== store.state.faults.length) store.set({ faults });
  }

  /** Hold the entry of the part that is chosen, else the one the cursor is in. */
  function hold() {
    const { chosen } = store.state;
    const entry = chosen ? beside.entryOf(chosen) : line ? beside.entryAt(line) : undefined;
    const held = entry ? /** @type {const} */ ([entry.first, entry.last]) : null;
    if (String(held) !== String(leaf.held)) leaf.held = held;
    if (chosen === led || (chosen && !entry)) return;
    led = chosen;
    if (held) void leaf.updateComplete.then(() => leaf.lined?.show(...held));
  }

  /** Another part is picked in the picture: the cursor stays, and counts again once it is moved. */
  function leave() {
    line = 0;
    leaf.lined?.lose();
    mark();
  }

  /** Mark the parts of the entry the cursor is in. */
  function mark() {
    const marked = (leaf.open && line && beside.entryAt(line)?.parts) || [];
    if (String(marked) !== String(store.state.marked)) store.set({ marked });
  }

  /** @param {boolean} open */
  async function show(open) {
    leaf.open = open;
    remember(open);
    document.documentElement.toggleAttribute("data-beside", open);
    leaf.waits = beside.waits;
    if (!open) {
      line = 0;
      mark();
      draw("");
      return;
    }
    await (beside.state.content ? beside.lookAgain() : beside.open());
    const tried = sizesOf(store.state.given);
    if (Object.keys(tried).length) await write(tried);
  }

  /** Sizes stand in the text, and no longer in the address. @param {Record<string, string>} sizes */
  async function write(sizes) {
    await beside.size(sizes);
    untry();
  }
  const sizeSoon = later(() => {
    const sizes = waiting;
    waiting = {};
    void write(sizes);
  }, 60);
  /** @type {Record<string, string>} */
  let waiting = {};

  on("show-beside", (/** @type {boolean} */ open) => void show(open));
  on("type-beside", (/** @type {string} */ text) => beside.change("piece", text));
  on("settle", (/** @type {"merged" | "theirs" | "yours"} */ way) => void beside.settle(way));
  on("tell-beside", (/** @type {"save" | "drop" | "bringBack" | "writeGiven"} */ what) => {
    if (what === "save") void beside.save("");
    else if (what === "writeGiven") void beside.size(beside.state.content?.given ?? {});
    else beside[what]();
  });
  on("at-line", (/** @type {number} */ at) => {
    line = at;
    const { chosen } = store.state;
    if (chosen && !beside.entryAt(at)?.parts.includes(chosen)) store.set({ chosen: "" });
    mark();
    hold();
  });
  store.listen((state, before) => {
    if (leaf.open && state.chosen !== before.chosen) {
      if (state.chosen && !state.marked.includes(state.chosen)) leave();
      hold();
    }
  });

  leaf.waits = beside.waits;
  if (remembered()) void show(true);

  return {
    /** Whether a size is written into the text instead of tried in the address. @param {string} name @param {string} text */
    writes(name, text) {
      if (!leaf.open || !beside.state.content) return false;
      if (text.trim()) {
        waiting = { ...waiting, [name]: text.trim() };
        sizeSoon();
      }
      return true;
    },
    /** The piece was changed on the page. @param {PieceOpen} opened */
    moved: (opened) => beside.moved(opened),
    /** It may have been changed elsewhere. */
    lookAgain: async () => {
      if (leaf.open) await beside.lookAgain();
    },
  };
}

/** Where it is not kept, it lasts as long as the page. @param {boolean} open */
function remember(open) {
  keepText(OPEN, open ? "open" : "shut");
}

function remembered() {
  return recallText(OPEN) === "open";
}

/**
 * @template Detail
 * @param {string} name
 * @param {(detail: Detail) => void} action
 */
function on(name, action) {
  document.addEventListener(name, (event) => action(/** @type {CustomEvent} */ (event).detail));
}
