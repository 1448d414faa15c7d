/** Building elements without markup in strings: text can never become markup. */

/**
 * @template {keyof HTMLElementTagNameMap} Tag
 * @param {Tag} tag
 * @param {Record<string, string | boolean | EventListener | undefined>} [attributes] `onclick` and the like take a function
 * @param {...(Node | string)} children
 * @returns {HTMLElementTagNameMap[Tag]}
 */
export function h(tag, attributes = {}, ...children) {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value === undefined || value === false) continue;
    if (typeof value === "function") element.addEventListener(name.slice(2), value);
    else element.setAttribute(name, value === true ? "" : value);
  }
  element.append(...children);
  return element;
}

/**
 * Lay children anew. Those that stand already are not taken out on the way: a field in them keeps its cursor.
 *
 * @param {Element} parent
 * @param {readonly Element[]} children in the order in which they shall stand
 */
export function lay(parent, children) {
  for (const each of [...parent.children]) if (!children.includes(each)) each.remove();
  let next = parent.firstElementChild;
  for (const child of children) {
    if (child === next) next = next.nextElementSibling;
    else parent.insertBefore(child, next);
  }
}

/**
 * Lay children anew, and leave those that say the same where they stand: a link keeps the focus, and is not told again to
 * who listens. Only for what listens to nothing itself.
 *
 * @param {Element} parent
 * @param {readonly Element[]} children
 */
export function layAlike(parent, children) {
  const standing = [...parent.children];
  lay(
    parent,
    children.map((child, i) => (standing[i]?.isEqualNode(child) ? standing[i] : child)),
  );
}

/**
 * A chapter with its number.
 *
 * @param {number} number
 * @param {string} id
 * @param {string} title
 * @param {...(Node | string)} children
 */
export function chapter(number, id, title, ...children) {
  return h(
    "section",
    { class: "chapter", id, "aria-labelledby": `${id}-title`, tabindex: "-1" },
    h("h2", { id: `${id}-title` }, h("span", { class: "no" }, String(number)), title),
    ...children,
  );
}
