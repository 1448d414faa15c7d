// What the tests of reach ask a document for; run in the page.
globalThis.reach = {
  /** What can be touched and is under 44 px either way; a row, or the label of a field, is touched whole. */
  small() {
    const touched = [...document.querySelectorAll("a[href], button, input, select, textarea, summary")];
    const large = (each) => {
      const box = each?.getBoundingClientRect();
      return Boolean(box) && box.width >= 44 && box.height >= 43.99;
    };
    return touched
      .filter((each) => each.checkVisibility({ visibilityProperty: true }) && !each.matches(".skip"))
      .filter((each) => ![each, each.closest("label"), each.closest(".row.points"), labelOf(each)].some(large))
      .map((each) => each.outerHTML.slice(0, 140));
  },

  /** Everything the Tab key is to stop at now, in the order of the document; of a group of radio keys, one. */
  stops() {
    const all = document.querySelectorAll("a[href], button, input, select, textarea, summary, [tabindex]");
    const seen = [...all].filter(
      (each) => each.checkVisibility({ visibilityProperty: true }) && each.tabIndex >= 0 && !each.disabled,
    );
    const groups = new Set();
    return seen.filter((each) => {
      if (each.type !== "radio") return true;
      const first = !groups.has(each.name);
      groups.add(each.name);
      return first;
    });
  },

  /** The stop that had the focus when this was asked last; keys may come and go with the field they are for. */
  last: null,

  /** What is wrong with where the focus went from there, if anything; and how many stops are left. */
  step() {
    const at = document.activeElement;
    const stops = reach.stops();
    const stop = at.type === "radio" ? stops.find((each) => each.name === at.name) : at;
    const [due, place] = [stops.indexOf(reach.last) + 1, stops.indexOf(stop)];
    reach.last = stop;
    const ringed = (each) => {
      const style = each ? getComputedStyle(each) : null;
      return style !== null && style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2;
    };
    const named = at.outerHTML.slice(0, 90);
    const faults = [];
    if (place !== due) faults.push(`stop ${place} where ${due} was due: ${named}`);
    if (![at, at.closest("label"), at.nextElementSibling].some(ringed)) faults.push(`no ring round ${named}`);
    return [faults, stops.length - 1 - place];
  },

  /** What moves by itself or glides. */
  moving() {
    const parts = [null, "::before", "::after"];
    return [...document.querySelectorAll("*")].filter((each) =>
      parts
        .map((part) => getComputedStyle(each, part))
        .some((style) => style.animationName !== "none" || parseFloat(style.transitionDuration) > 0),
    ).map((each) => each.outerHTML.slice(0, 80));
  },
};

function labelOf(each) {
  return each.id ? document.querySelector(`label[for="${each.id}"]`) : null;
}
